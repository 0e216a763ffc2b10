"""Kinds that other packages offer: which names they may have, and which of their files count."""

from __future__ import annotations

import sys
from importlib.metadata import EntryPoint
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from studio.drawing import kinds, offered
from studio.drawing.draw import FURNITURE
from studio.drawing.guarded import Guarded
from studio.drawing.offered import OfferError, code_of
from studio.project.callouts import CalloutOptions
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed, Extent, Kind


def a_kind(named: str, module: str = "toy_dice") -> Kind:
    class Dice(Kind):
        name = named
        says = "how the dice lie"
        Options = CalloutOptions
        example = "{kind: dice}"

        def compose(self, options: Any, ask: Ask) -> Composed:
            return Composed(None, (), None, None, "Dice lie here.")

        def extent(self, content: Any, width: int, theme: Any) -> Extent:
            return Extent(10, 12)

        def draw(self, content: Any, look: Any, size: tuple[int, int], theme: Any) -> Any:
            raise NotImplementedError

    Dice.__module__ = module
    return Dice()


@pytest.fixture
def offer(monkeypatch: pytest.MonkeyPatch) -> Any:
    """Offers kinds as installed packages do, and those alone."""

    def offering(*offers: Kind) -> None:
        module: Any = ModuleType("toy_dice")
        entries = []
        for number, kind in enumerate(offers):
            setattr(module, f"KIND_{number}", kind)
            entries.append(EntryPoint(f"dice-{number}", f"toy_dice:KIND_{number}", offered.GROUP))
        monkeypatch.setitem(sys.modules, "toy_dice", module)
        monkeypatch.setattr(offered, "entry_points", lambda group: entries if group == offered.GROUP else ())

    return offering


@pytest.mark.parametrize("name", ["dice", "two-dice", "dice2", "d-6-x"])
def test_a_name_is_small_letters_digits_and_dashes(offer: Any, name: str) -> None:
    offer(a_kind(name))
    found = kinds.found()
    assert isinstance(found[name], Guarded) and list(found) == sorted(found)
    assert {kind.name for kind in found.values() if isinstance(kind, Guarded)} == {name}


@pytest.mark.parametrize(
    "name",
    [
        "a/../../../../out",
        "..",
        "two dice",
        "two_dice",
        "Dice",
        "-dice",
        "dice-",
        "a--b",
        "3-dice",
        "dés",
        "dice\n",
    ],
)
def test_any_other_name_is_told_of(offer: Any, name: str) -> None:
    offer(a_kind(name))
    with pytest.raises(OfferError) as error:
        kinds.found()
    assert str(error.value) == (
        f"The entry point dice-0 offers the callout 'dice-0', and its name, {name!r}, is not one of small letters, "
        "digits and dashes such as 'two-bells'; remove it."
    )


@pytest.mark.parametrize("name", FURNITURE)
def test_what_the_program_draws_itself_keeps_its_name(offer: Any, name: str) -> None:
    offer(a_kind(name))
    with pytest.raises(OfferError, match=f"this program draws something else by its name, '{name}'"):
        kinds.found()


def test_two_packages_cannot_share_a_name(offer: Any) -> None:
    offer(a_kind("dice"), a_kind("dice"))
    with pytest.raises(OfferError, match="'dice-1', and a kind of callout has its name, 'dice', already"):
        kinds.found()


def names(kind: Kind, module: str) -> list[str]:
    return [name for name, _ in code_of(Guarded(kind, "The package toy-dice", module))]


@pytest.fixture
def package(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A package that draws with a picture and a font, as it lies on disk after it has run."""
    folder = tmp_path / "toy_dice"
    for place in (
        "__init__.py",
        "faces/six.png",
        "__pycache__/kind.cpython-311.pyc",
        ".cache/seen",
        "kind.py",
        ".x",
    ):
        (folder / place).parent.mkdir(parents=True, exist_ok=True)
        (folder / place).write_text("", "utf-8")
    module = ModuleType("toy_dice")
    module.__path__ = [str(folder)]
    monkeypatch.setitem(sys.modules, "toy_dice", module)
    return folder


def test_every_file_of_the_package_counts_and_nothing_that_comes_by_itself(package: Path) -> None:
    ours = ["toy_dice/__init__.py", "toy_dice/faces/six.png", "toy_dice/kind.py"]
    assert names(a_kind("dice", "toy_dice.kind"), "toy_dice.kind") == ours


def test_the_package_that_offers_counts_beside_the_one_that_the_kind_comes_from(
    package: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    alone = ModuleType("toy_shaker")
    alone.__file__ = str(tmp_path / "toy_shaker.py")
    monkeypatch.setitem(sys.modules, "toy_shaker", alone)
    found = names(a_kind("dice", "toy_dice.kind"), "toy_shaker")
    assert found[0] == "toy_dice/__init__.py" and found[-1] == "toy_shaker"


def test_our_own_code_is_not_counted_twice() -> None:
    assert names(kinds.KINDS["text"], "studio.drawing.callouts.text") == []
