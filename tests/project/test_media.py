"""What a media file is said to hold, against files made to hold exactly that."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from studio.project.complaints import MisfitError
from studio.project.media import probe
from tests.project.small_media import write_sound, write_take


@pytest.mark.parametrize("kind", ["flac", "wav", "ogg"])
@pytest.mark.parametrize("rate", [44100, 48000])
def test_sound_is_as_long_as_its_samples(tmp_path: Path, kind: str, rate: int) -> None:
    file = tmp_path / f"a.{kind}"
    write_sound(file, seconds=12345 / rate, rate=rate)
    media = probe(file)
    assert media.seconds == Fraction(12345, rate)
    assert (media.has_sound, media.has_picture, media.sample_rate, media.channels) == (True, False, rate, 1)


@pytest.mark.parametrize(
    "rate", [Fraction(24), Fraction(25), Fraction(30), Fraction(30000, 1001), Fraction(24000, 1001)]
)
def test_a_take_is_as_long_as_its_frames(tmp_path: Path, rate: Fraction) -> None:
    write_take(tmp_path / "a.mp4", frames=45, rate=rate)
    media = probe(tmp_path / "a.mp4")
    assert media.rate == rate
    assert media.seconds == 45 / rate
    assert (media.has_sound, media.has_picture, media.width, media.height) == (False, True, 64, 36)


@pytest.mark.parametrize("content", [b"", b"words", b"RIFF\x00\x00\x00\x00WAVE", b"\x00" * 4096])
def test_what_is_no_media_file(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "a.wav").write_bytes(content)
    with pytest.raises(MisfitError, match=r"a\.wav"):
        probe(tmp_path / "a.wav")
