from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image

from studio.drawing import kinds
from studio.drawing.draw import FURNITURE
from studio.drawing.themes.theme import default_theme

from .toy_package import KIND, PICTURES, PROJECT, install, python


def test_every_module_of_the_room_is_a_kind_of_its_own_name(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(kinds, "offered", lambda: iter(()))  # whatever is installed beside this program
    ours = kinds.found()
    for name, kind in ours.items():
        assert type(kind).__module__ == f"studio.drawing.callouts.{name}"
        assert kind.name == name and kind.says and kind.slots
        assert name not in FURNITURE
    monkeypatch.setattr(kinds, "KINDS", ours)
    assert kinds.code_from_elsewhere() == ()


def test_a_kind_of_another_package_is_planned_and_drawn(tmp_path: Path) -> None:
    site = install(tmp_path / "site")
    (tmp_path / "project.yaml").write_text(PROJECT, "utf-8")
    run = python(site, "-m", "studio", "overlays", str(tmp_path))
    assert run.returncode == 0, run.stderr
    still = Image.open(tmp_path / "build/overlays/ring/01-bells.png")
    assert still.size == (640, 360)
    colours = {colour for _, colour in still.getcolors(1 << 20) or []}
    assert (*default_theme().colours.now, 255) in colours


@pytest.mark.slow
def test_a_kind_of_another_package_complains_like_any_other(tmp_path: Path) -> None:
    site = install(tmp_path / "site")
    (tmp_path / "project.yaml").write_text(PROJECT.replace("count: 4", "count: 7"), "utf-8")
    run = python(site, "-m", "studio", "check", str(tmp_path))
    assert run.returncode == 1
    assert "project.yaml:7:37: Seven bells ring too long; write another number." in run.stderr
    (tmp_path / "project.yaml").write_text(PROJECT.replace("count: 4", "count: 12"), "utf-8")
    run = python(site, "-m", "studio", "check", str(tmp_path))
    assert run.returncode == 1 and "the most is 9" in run.stderr


@pytest.mark.slow
def test_a_kind_of_another_package_is_listed_with_its_options(tmp_path: Path) -> None:
    site = install(tmp_path / "site")
    run = python(site, "-m", "studio", "overlays", "--list", "--pictures", str(tmp_path / "pictures"))
    assert run.returncode == 0, run.stderr
    assert "a row of bells" in run.stdout and "how many bells hang there" in run.stdout
    assert "a whole number, 1 to 9" in " ".join(run.stdout.split())
    assert (tmp_path / "pictures" / "bells.png").is_file()


@pytest.mark.parametrize(
    ("value", "kind", "said"),
    [
        ("toy_bells.kind:KIND", "import no_such_thing", "it does not load (No module named 'no_such_thing')"),
        ("toy_bells.kind:NONE", KIND, "it does not load ("),
        ("toy_bells.kind:BellsKind", KIND, "is a class and not a kind made from it"),
        ("toy_bells.kind:Bells", KIND, "'toy_bells.kind:Bells' is no Kind"),
        (
            "toy_bells.kind:KIND",
            KIND.replace('name = "bells"', 'name = "text"'),
            "has its name, 'text', already",
        ),
        (
            "toy_bells.kind:KIND",
            KIND.replace('"card")', '"floor")'),
            "its `slots` are not some of lower, left",
        ),
        (
            "toy_bells.kind:KIND",
            KIND.replace("Options = BellsOptions", "Options = Bells"),
            "`Options`",
        ),
        ("toy_bells.kind:KIND", KIND.replace('    says = "a row of bells"\n', ""), "it has no `says`"),
        (
            "toy_bells.kind:KIND",
            KIND.replace('name = "bells"', 'name = "a/../../../../out"'),
            "its name, 'a/../../../../out', is not one of small letters, digits and dashes",
        ),
        (
            "toy_bells.kind:KIND",
            KIND.replace('name = "bells"', 'name = "strip"'),
            "this program draws something else by its name, 'strip'",
        ),
    ],
)
@pytest.mark.slow
def test_a_package_that_is_broken_is_named_in_one_plain_sentence(
    tmp_path: Path, value: str, kind: str, said: str
) -> None:
    site = install(tmp_path / "site", value, kind)
    (tmp_path / "project.yaml").write_text(PROJECT, "utf-8")
    run = python(site, "-m", "studio", "check", str(tmp_path))
    assert run.returncode == 3
    assert run.stderr.startswith("The package toy-bells offers the callout 'bells', and ")
    assert said in run.stderr and run.stderr.endswith("update it, or remove it: pip uninstall toy-bells.\n")
    assert run.stderr.count("\n") == 1 and "Traceback" not in run.stderr


FAILURES = {
    "as it was composed (KeyError: 'x')": (
        "content = Bells(CanvasSize.of(ask.canvas), options.count)",
        "content = {}['x']",
    ),
    "as it was drawn (ValueError: no rope)": (
        "return bells(content, size, theme)",
        'raise ValueError("no\\nrope")',
    ),
}


@pytest.mark.parametrize("said", FAILURES)
@pytest.mark.slow
def test_a_kind_of_another_package_that_fails_is_named_with_its_package(tmp_path: Path, said: str) -> None:
    right, wrong = FAILURES[said]
    site = install(tmp_path / "site", kind=KIND.replace(right, wrong))
    (tmp_path / "project.yaml").write_text(PROJECT, "utf-8")
    run = python(site, "-m", "studio", "overlays", str(tmp_path))
    assert run.returncode == 3
    last = run.stderr.splitlines()[-1]
    assert last.startswith(f"The package toy-bells failed at its callout 'bells' {said}")
    assert "update it, leave that callout out, or tell those who made the package." in last
    assert "Traceback" not in run.stderr
    details = Path(last.partition("Details are in ")[2].removesuffix("."))
    assert "Traceback" in details.read_text("utf-8")
    details.unlink()


@pytest.mark.slow
def test_pictures_are_drawn_again_when_the_code_of_another_package_changes(tmp_path: Path) -> None:
    # Chunks and stills are named by what they depend on, the code that draws them included.
    digest = (
        "from studio.render.hashing import code_digest; print(code_digest('drawing', 'render', 'timeline'))"
    )
    site = install(tmp_path / "site")
    before = python(site, "-c", digest).stdout
    assert python(site, "-c", digest).stdout == before
    install(tmp_path / "site", pictures=PICTURES.replace("3 * content", "4 * content"))
    assert python(site, "-c", digest).stdout != before
    without = python(tmp_path, "-c", digest).stdout
    assert len({before, without}) == 2
    sound = digest.replace("'drawing', 'render', 'timeline'", "'sound'")
    assert python(site, "-c", sound).stdout == python(tmp_path, "-c", sound).stdout


@pytest.mark.slow
def test_pictures_are_drawn_again_when_what_another_package_draws_with_changes(tmp_path: Path) -> None:
    site = install(
        tmp_path / "site",
        pictures="import json\nfrom pathlib import Path\n"
        'SIZES = json.loads(Path(__file__).with_name("sizes.json").read_text())\n'
        + PICTURES.replace("3 * content", 'SIZES["bell"] * content'),
    )
    sizes, still = site / "toy_bells" / "sizes.json", tmp_path / "build/overlays/ring/01-bells.png"
    (tmp_path / "project.yaml").write_text(PROJECT, "utf-8")

    def drawn(text: str) -> tuple[str, bytes]:
        sizes.write_text(text, "utf-8")
        run = python(site, "-m", "studio", "overlays", str(tmp_path))
        assert run.returncode == 0, run.stderr
        return run.stdout, still.read_bytes()

    said, first = drawn('{"bell": 3}')
    assert "1 made now" in said
    assert drawn('{"bell": 3}') == (said.replace("1 made now, 0 un", "0 made now, 1 un"), first)
    said, second = drawn('{"bell": 6}')
    assert "1 made now" in said and second != first
