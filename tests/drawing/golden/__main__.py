"""See the package: `python -m tests.drawing.golden [--update] [KIND]...`"""

from __future__ import annotations

import argparse
import tempfile
from pathlib import Path

from PIL import Image

from .likeness import LIMIT, unlikeness
from .pictures import ALL, FOLDER, drawn, golden_path, save

STALE = 1.0
"""From here on a picture is saved anew: less is what few colours do."""


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.drawing.golden", description="Golden pictures.")
    parser.add_argument("kinds", nargs="*", metavar="KIND", help="only these kinds of callout")
    parser.add_argument("--update", action="store_true", help="make what is drawn now the golden pictures")
    asked = parser.parse_args()
    wanted = [one for one in ALL if not asked.kinds or one[0] in asked.kinds]
    beside = None if asked.update else Path(tempfile.mkdtemp(prefix="golden-"))
    saved = sum(_look(one, beside) for one in wanted)
    if asked.update and not asked.kinds:
        known = {golden_path(*one) for one in ALL}
        for path in set(FOLDER.rglob("*.png")) - known:
            print(f"{path.relative_to(FOLDER)}: no such kind any more, removed")
            path.unlink()
    print(
        f"{len(wanted)} pictures, {saved} {'saved anew' if asked.update else f'look otherwise: see {beside}'}"
    )


def _look(one: tuple[str, str, str], beside: Path | None) -> bool:
    """Compare a picture with its golden one; save it, or both side by side. Says whether it was to be saved."""
    now, path = drawn(*one), golden_path(*one)
    then = Image.open(path).convert("RGB") if path.exists() else None
    apart = unlikeness(now, then) if then and then.size == now.size else None
    if apart is not None and apart <= (STALE if beside is None else LIMIT):
        return False
    print(
        f"{path.relative_to(FOLDER)}: {'new' if then is None else 'another size' if apart is None else f'{apart:.1f}'}"
    )
    if beside is None:
        save(now, path)
    else:
        both = Image.new("RGB", (now.width, now.height + (then.height + 8 if then else 0)), (255, 0, 255))
        both.paste(now, (0, 0))
        if then:
            both.paste(then, (0, now.height + 8))
        both.save(beside / f"{'-'.join(one)}.png")
    return True


if __name__ == "__main__":
    main()
