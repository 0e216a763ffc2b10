from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import imageio_ffmpeg
import pytest

from studio.sound import SoundError
from studio.sound.ffmpeg import ffmpeg_path, run_ffmpeg


def test_it_is_the_bundled_one() -> None:
    assert ffmpeg_path() == imageio_ffmpeg.get_ffmpeg_exe()
    assert run_ffmpeg(["-version"]).out.startswith(b"ffmpeg version")


def test_a_failure_is_one_sentence() -> None:
    with pytest.raises(SoundError) as caught:
        run_ffmpeg(["-i", "no-such-file.wav", "-f", "null", "-"], doing="measure the loudness")
    assert str(caught.value).startswith("ffmpeg could not measure the loudness: ")
    assert "\n" not in str(caught.value) and str(caught.value).endswith(".")


def test_more_goes_through_than_a_pipe_holds() -> None:
    block = bytes(1_000_000)
    raw = ["-f", "s16le", "-ar", "48000", "-ac", "1"]
    said = run_ffmpeg([*raw, "-i", "pipe:0", *raw, "pipe:1"], [block] * 5)
    assert len(said.out) == 5_000_000


def test_an_ffmpeg_that_stops_early_does_not_hang_the_feed() -> None:
    with pytest.raises(SoundError):
        run_ffmpeg(["-f", "no-such-format", "-i", "pipe:0", "-f", "null", "-"], [bytes(1_000_000)] * 5)


def test_what_the_feed_raises_passes_through() -> None:
    def interrupted() -> Iterator[bytes]:
        yield bytes(1000)
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        run_ffmpeg(["-f", "s16le", "-ac", "1", "-i", "pipe:0", "-f", "null", "-"], interrupted())


def test_a_machine_without_ffmpeg_is_told_what_to_do(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    def missing() -> str:
        raise RuntimeError("No ffmpeg exe could be found.")

    monkeypatch.setattr(imageio_ffmpeg, "get_ffmpeg_exe", missing)
    ffmpeg_path.cache_clear()
    try:
        with pytest.raises(SoundError, match="reinstall"):
            run_ffmpeg(["-version"])
        monkeypatch.setattr(imageio_ffmpeg, "get_ffmpeg_exe", lambda: str(tmp_path / "gone"))
        with pytest.raises(SoundError, match="could not be started"):
            run_ffmpeg(["-version"])
    finally:
        ffmpeg_path.cache_clear()
