from __future__ import annotations

from pathlib import Path

import pytest

from studio.whole_file import whole_file


def test_it_appears_whole(tmp_path: Path) -> None:
    path = tmp_path / "new" / "folder" / "a.txt"
    with whole_file(path) as unfinished:
        unfinished.write_text("all of it")
        assert unfinished.parent == path.parent and not path.exists()
    assert path.read_text() == "all of it"
    assert list(path.parent.iterdir()) == [path]


@pytest.mark.parametrize("problem", [KeyboardInterrupt, OSError, ValueError])
def test_or_not_at_all(tmp_path: Path, problem: type[BaseException]) -> None:
    path = tmp_path / "a.txt"
    path.write_text("as it was")
    with pytest.raises(problem), whole_file(path) as unfinished:
        unfinished.write_text("half of")
        raise problem
    assert path.read_text() == "as it was"
    assert list(tmp_path.iterdir()) == [path]
