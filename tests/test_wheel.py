"""The built wheel, in an environment that has nothing else, builds a project from outside the checkout."""

from __future__ import annotations

import os
import subprocess
import sys
import venv
import zipfile
from pathlib import Path

import pytest

pytestmark = pytest.mark.slow

CHECKOUT = Path(__file__).resolve().parents[1]


def run(*command: str | Path, folder: Path) -> str:
    clean = {name: value for name, value in os.environ.items() if name not in ("PYTHONPATH", "PYTHONHOME")}
    done = subprocess.run([*map(str, command)], cwd=folder, env=clean, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr[-3000:]
    return done.stdout


def test_the_wheel_brings_all_that_it_needs(tmp_path: Path) -> None:
    run(sys.executable, "-m", "build", "--wheel", "--outdir", tmp_path, CHECKOUT, folder=tmp_path)
    (wheel,) = tmp_path.glob("*.whl")
    names = zipfile.ZipFile(wheel).namelist()
    assert "studio/templates/themes/slate.yaml" in names and "studio/LICENSE.txt" in names
    assert not [name for name in names if name.startswith(("tests/", "demo_project/"))]

    venv.create(tmp_path / "empty", with_pip=True)
    programs = tmp_path / "empty" / ("Scripts" if os.name == "nt" else "bin")
    run(programs / "python", "-m", "pip", "install", "-q", wheel, folder=tmp_path)
    run(programs / "studio", "new", "mine", folder=tmp_path)
    said = run(programs / "studio", "build", "mine", "--workers", "1", folder=tmp_path)
    assert "rough-cut.mp4" in said
    assert (tmp_path / "mine" / "build" / "rough-cut.mp4").stat().st_size > 10_000
