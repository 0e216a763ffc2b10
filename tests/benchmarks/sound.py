"""A whole song mixed, slowed and levelled, beside the bundled ffmpeg alone; and the stretchers that there are.

Run by hand, on a machine that does nothing else (not on Windows, which cannot say how much memory a process took):

    python -m tests.benchmarks.sound

A song of four minutes in eight stems, made here, is mixed at speed 0.8 and brought to -14 LUFS as the excerpt of a
project is in a build, in a process of its own: seconds, with opening the project, and the peak of its memory. Our own
process must take at most 1.3 times as long as ffmpeg does in one run (`amix`, `rubberband`, `loudnorm`), and under
400 MB. The second table is why python-stretch is the stretcher: how far a tone is off, how far strokes are from where
they should be, and how loud the 20 ms before a stroke are beside the 20 ms after it (the echo that comes before its
sound). Strokes are looked for within 60 ms of their place.
"""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

import numpy as np
import soundfile

from studio.build import open_project
from studio.render.soundtrack import excerpt_track
from studio.render.workshop import Workshop
from studio.sound.ffmpeg import ffmpeg_path, run_ffmpeg
from studio.sound.loudness import measure_file
from studio.sound.samples import Samples
from studio.sound.stretch import stretched
from studio.timeline.heard import RATE, Cut, Laid, Pass, Source
from tests.loud_episode import write_loud_episode
from tests.sound.hearing import cents_off, late, strokes, tone

SECONDS, STEMS, SPEED, TARGET, CEILING = 240, 8, Fraction(4, 5), -14.0, -1.0
TIMES, MEGABYTES = 1.3, 400
SPEEDS = (Fraction(2, 5), Fraction(1, 2), Fraction(3, 4), Fraction(5, 4), Fraction(3, 2))
HERTZ = (110, 220, 440, 880, 1760)
BEAT = RATE // 2
EDGE = RATE // 50
"""Samples before and after a stroke whose levels are compared."""


@dataclass(frozen=True)
class Took:
    """What a process took."""

    seconds: float
    busy: float  # seconds of all its threads together, and of what it started
    megabytes: float


def main() -> None:
    with TemporaryDirectory() as folder:
        stems = make_song(Path(folder))
        found = {
            "ours": run([sys.executable, "-m", "tests.benchmarks.sound", "--mix", folder]),
            "ffmpeg, one run": run(
                ffmpeg_mix(stems, "loudnorm=I=-14:TP=-1:LRA=20", Path(folder) / "one.wav")
            ),
            "ffmpeg, two runs": ffmpeg_in_two(stems, Path(folder)),
        }
        print(f"{STEMS} stems of {SECONDS} s at speed {float(SPEED)}, to {TARGET:g} LUFS")
        print(
            f"{'':<18}{'seconds':>9}{'of a core':>11}{'peak MB':>9}{'ours takes':>12}{'LUFS':>8}{'dBTP':>7}"
        )
        for (name, took), file in zip(found.items(), ("ours", "one", "two"), strict=True):
            heard = measure_file(Path(folder) / f"{file}.wav")
            print(
                f"{name:<18}{took.seconds:>9.1f}{took.busy:>11.1f}{took.megabytes:>9.0f}"
                f"{found['ours'].seconds / took.seconds:>11.2f}×"
                f"{heard.integrated or 0:>8.1f}{heard.true_peak or 0:>7.1f}"
            )
    compare_stretchers()
    judge(found["ours"], found["ffmpeg, one run"])


def judge(ours: Took, theirs: Took) -> None:
    """Say whether the aims are met; stop with an error where they are not."""
    missed = []
    if ours.seconds > TIMES * theirs.seconds:
        missed.append(f"{ours.seconds / theirs.seconds:.2f}× ffmpeg's time, over {TIMES}×")
    if ours.megabytes >= MEGABYTES:
        missed.append(f"{ours.megabytes:.0f} MB, over {MEGABYTES} MB")
    if missed:
        sys.exit("; ".join(missed))
    print(f"within {TIMES}× of ffmpeg's time and under {MEGABYTES} MB")


def make_song(folder: Path) -> list[Path]:
    """Stems as 24-bit files: a tone that comes and goes, and strokes, each stem in its own register."""
    paths = [folder / f"stem{number}.wav" for number in range(STEMS)]
    bar = 4 * BEAT
    when = np.arange(bar) / RATE
    for number, path in enumerate(paths):
        swell = 0.06 * np.sin(np.pi * when / when[-1]) * np.sin(2 * np.pi * 65 * 1.5**number * when)
        sides = np.stack([swell, swell * (0.4 + 0.1 * number)], axis=1).astype(np.float32)
        sound = sides + strokes([number * 3000 + beat * BEAT for beat in range(3)], bar, 0.1)
        with soundfile.SoundFile(path, "w", RATE, 2, "PCM_24") as file:
            for _ in range(SECONDS * RATE // bar):
                file.write(sound)
    return paths


def mix(folder: Path) -> None:
    """Our own way, that of a build: from a plan to the file of an excerpt in the cache."""
    opened = open_project(write_loud_episode(folder / "episode"))
    stems = tuple(Source(str(path)) for path in sorted(folder.glob("stem*.wav")))
    cut = Cut((Pass(stems, 0, SECONDS * RATE),), 240, RATE, SPEED)
    segment = next(one for one in opened.plan.segments if one.excerpt)
    assert segment.excerpt
    whole = replace(segment, excerpt=replace(segment.excerpt, laid=Laid(cut, 0)))
    plan = replace(opened.plan, loudness=TARGET, ceiling=CEILING)
    track = excerpt_track(plan, whole, Workshop(folder / "build", opened.theme, 1))
    assert track
    track.path.rename(folder / "ours.wav")


def ffmpeg_mix(stems: Sequence[Path], after: str, *output: object) -> list[str]:
    """The command with which ffmpeg mixes the stems, slows the mix down, and does what comes `after`."""
    inputs = [word for path in stems for word in ("-i", str(path))]
    graph = f"amix=inputs={len(stems)}:normalize=0,rubberband=tempo={float(SPEED)},{after}"
    command = [ffmpeg_path(), "-hide_banner", "-nostats", "-y", *inputs, "-filter_complex", graph]
    return [*command, "-ar", str(RATE), "-c:a", "pcm_s24le", *map(str, output)]


def ffmpeg_in_two(stems: Sequence[Path], folder: Path) -> Took:
    """ffmpeg alone with one gain for all, as ours has it: it has to be known before it is used."""
    between = folder / "between.wav"
    first = run(ffmpeg_mix(stems, "ebur128=peak=true:framelog=quiet", between))
    gain = TARGET - (measure_file(between).integrated or TARGET)  # not counted: the first run has printed it
    command = [ffmpeg_path(), "-hide_banner", "-nostats", "-y", "-i", str(between)]
    held = f"volume={gain}dB,alimiter=limit={10 ** (CEILING / 20)}:level=0"
    second = run([*command, "-af", held, "-c:a", "pcm_s24le", str(folder / "two.wav")])
    return Took(
        first.seconds + second.seconds, first.busy + second.busy, max(first.megabytes, second.megabytes)
    )


def run(command: Sequence[str]) -> Took:
    """Run a command to its end."""
    began = perf_counter()
    with subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as process:
        _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
    seconds = perf_counter() - began
    if process.returncode:
        sys.exit(f"{Path(command[0]).name} failed with status {process.returncode}")
    unit = 1e6 if sys.platform == "darwin" else 1e3  # bytes there, kilobytes elsewhere
    return Took(seconds, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / unit)


def compare_stretchers() -> None:
    """Print how the stretchers do, each at several speeds."""
    stretchers: dict[str, Callable[[Samples, Fraction], Samples]] = {
        "python-stretch": lambda sound, speed: stretched(sound, speed, 0.0, round(len(sound) / speed)),
        "rubberband": lambda sound, speed: by_ffmpeg(sound, f"rubberband=tempo={float(speed)}"),
        "rubberband smooth": lambda sound, speed: by_ffmpeg(
            sound, f"rubberband=tempo={float(speed)}:transients=smooth"
        ),
        "atempo, twice": lambda sound, speed: by_ffmpeg(
            sound, ",".join([f"atempo={float(speed) ** 0.5}"] * 2)
        ),
    }
    at = [BEAT * number + 12_345 for number in range(16)]
    beats = strokes(at, at[-1] + RATE)
    print(f"\n{'':<18}{'speed':>6}{'tone off by':>13}{'strokes late by':>24}{'echo before':>13}{'length':>9}")
    for name, stretcher in stretchers.items():
        for speed in SPEEDS:
            off = max(
                abs(cents_off(stretcher(tone(hertz, 4), speed)[RATE // 2 : -RATE // 2], hertz))
                for hertz in HERTZ
            )
            heard = stretcher(beats, speed)
            expected = [round(one / speed) for one in at]
            when = late(heard, expected)
            longer = len(heard) - round(len(beats) / speed)
            print(
                f"{name:<18}{float(speed):>6.2f}{off:>7.2f} cents"
                f"{np.median(when):>9.1f} ({when.min():+.1f} {when.max():+.1f}) ms"
                f"{before_echo(heard, expected, when):>10.1f} dB{longer:>+9}"
            )


def by_ffmpeg(sound: Samples, filtered: str) -> Samples:
    """What a filter of the bundled ffmpeg makes of samples of shape (n, 2)."""
    form = ["-f", "f32le", "-ar", str(RATE), "-ac", "2"]
    said = run_ffmpeg([*form, "-i", "pipe:0", "-af", filtered, *form, "pipe:1"], [sound.tobytes()], "stretch")
    return np.frombuffer(said.out, "<f4").reshape(-1, 2)


def before_echo(heard: Samples, expected: Sequence[int], when: np.ndarray) -> float:
    """The energy just before strokes beside that just after they are heard, in decibels; the middle of them all."""
    ratios = []
    for at in np.array(expected) + np.rint(when * RATE / 1000).astype(int):
        before, after = heard[at - EDGE : at], heard[at : at + EDGE]
        ratios.append(10 * np.log10((np.sum(before**2) + 1e-12) / np.sum(after**2)))
    return float(np.median(ratios))


if __name__ == "__main__":
    if sys.argv[1:2] == ["--mix"]:
        mix(Path(sys.argv[2]))
    else:
        main()
