"""Beliefs that the music does not bear out, and scripts that nobody can say in their time: told, and stop nothing."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import soundfile

from studio.cli import run
from tests.click_episode import write_episode

# The click episode goes G, C, D7, Em, B7, Em, Cm, G; its line has the notes of G major, D over B7 too.
FACTS = """\
facts:
  right: {numerals: 2-5, expect: IV V7 vi V7/vi}
  wrong: {degree: line, at: 5.2, expect: 3}
  undecided: {mode: line, over: 2-2, tonic: C, expect: Lydian}
segments:
"""


def test_a_belief_is_compared_with_the_answer(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = write_episode(tmp_path / "beliefs")
    file = folder / "project.yaml"
    file.write_text(file.read_text(encoding="utf-8").replace("segments:\n", FACTS, 1), encoding="utf-8")
    assert run(["check", str(folder)]) == 0
    said = " ".join(capsys.readouterr().out.split())
    line = file.read_text(encoding="utf-8").splitlines().index("facts:") + 1
    assert f"project.yaml:{line + 2}:42: 'wrong' expects 3, and the answer is ♯9 (5.2)." in said
    assert f"project.yaml:{line + 3}:56: 'undecided' expects Lydian, which may be; the answer is" in said
    assert "'right'" not in said


SEGMENTS = """\
segments:
  - id: hurried
    narration: voice.wav
    script: Twelve words go by here faster than anybody can say them, or read them.
  - id: endless
    script: Incomprehensibilities notwithstanding, characteristically disproportionable uncharacteristicallynesses.
"""


def test_it_says_what_is_too_short_for_a_script(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = write_episode(tmp_path / "short")
    soundfile.write(folder / "voice.wav", np.zeros(48_000), 48_000)
    file = folder / "project.yaml"
    text = file.read_text(encoding="utf-8")
    file.write_text(text[: text.index("segments:")] + SEGMENTS, encoding="utf-8")
    assert run(["check", str(folder)]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert (
        "hurried: the script takes about 6 s to say and its narration lasts 1.0 s, so captions go by too fast"
        in said
    )
    assert "endless: the clip lasts" in said and "too short to read the" in said
