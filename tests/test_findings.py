"""Beliefs that the music does not bear out are told with both readings, and stop nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

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
