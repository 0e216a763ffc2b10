"""A file appears whole or not at all."""

from __future__ import annotations

import os
import secrets
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


@contextmanager
def whole_file(path: Path) -> Iterator[Path]:
    """Yield a temporary path beside `path`; on success it takes `path`'s place in one step, else it is
    removed.

    The temporary file is in the same folder, so that the last step is a rename and never a copy between
    disks. Ctrl-C counts as failure. Missing folders are made.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    unfinished = path.with_name(f".{path.name}.{os.getpid()}-{secrets.token_hex(4)}.unfinished")
    try:
        yield unfinished
        unfinished.replace(path)
    finally:
        unfinished.unlink(missing_ok=True)
