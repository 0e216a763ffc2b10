"""The example song at work: a callout of each kind as its `example` writes it, planned like any episode's.

Lists of kinds, pictures of them and measurements are made from it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory

import yaml
from PIL import Image

from studio.drawing.kinds import KINDS
from studio.drawing.themes.stage import stage_of
from studio.drawing.themes.theme import Theme
from studio.example_stems import write_stems
from studio.places import templates
from studio.project.complaints import ProjectError
from studio.project.loader import PROJECT_FILE, load
from studio.render.stills import still
from studio.sound.waves import wave
from studio.timeline.kind import Kind
from studio.timeline.plan import CalloutPlan, Plan
from studio.timeline.planning import plan_episode

CANVAS = "1920x1080 @ 30"


@dataclass(frozen=True)
class Examples:
    """The plan of the example episode, in which each kind has the segment of its name; and of each kind whose
    example cannot be planned, what is wrong with it."""

    plan: Plan
    theme: Theme
    refused: Mapping[str, str] = field(default_factory=dict)

    def __iter__(self) -> Iterator[tuple[str, CalloutPlan]]:
        """(kind, its callout), in the order of the kinds."""
        for segment in self.plan.segments:
            yield segment.id, segment.callouts[0]

    def still(self, callout: CalloutPlan) -> Image.Image:
        """A callout's still: RGBA, straight alpha, of the canvas's size."""
        return still(callout, self.plan.canvas, self.theme)

    def picture(self, callout: CalloutPlan, margin: int = 0) -> Image.Image:
        """A callout alone on the theme's ground, with so many pixels of it around."""
        box = callout.layer.box
        edges = (box.x - margin, box.y - margin, box.right + margin, box.bottom + margin)
        picture = Image.new(
            "RGBA", (box.width + 2 * margin, box.height + 2 * margin), theme_ground(self.theme)
        )
        picture.alpha_composite(self.still(callout).crop(edges))
        return picture.convert("RGB")


def theme_ground(theme: Theme) -> tuple[int, int, int, int]:
    return (*theme.colours.ground, 255)


def plan_examples(theme: Theme, canvas: str = CANVAS, kinds: Mapping[str, Kind] = KINDS) -> Examples:
    """Each kind's example, planned on a canvas as a project writes it: ``1920x1080 @ 30``.

    A kind whose example cannot be planned is left out and told of in `refused`.
    """
    with TemporaryDirectory(prefix="studio-example-") as place:
        folder = Path(place)
        write_stems(folder / "audio")
        try:
            return Examples(_planned(folder, canvas, kinds, theme), theme)
        except Exception:  # one kind's mistake, maybe a stranger's: it must not hide the others
            refused = _refused(folder, canvas, kinds, theme)
        left = {name: kind for name, kind in kinds.items() if name not in refused}
        return Examples(_planned(folder, canvas, left, theme), theme, refused)


def _refused(folder: Path, canvas: str, kinds: Mapping[str, Kind], theme: Theme) -> dict[str, str]:
    """What is wrong with the example of each kind that has something wrong."""
    refused = {}
    for name, kind in kinds.items():
        try:
            _planned(folder, canvas, {name: kind}, theme)
        except ProjectError as error:
            refused[name] = " ".join(complaint.sentence for complaint in error.complaints)
        except Exception as error:
            refused[name] = f"it fails with {type(error).__name__}: {error}"
    return refused


def _planned(folder: Path, canvas: str, kinds: Mapping[str, Kind], theme: Theme) -> Plan:
    """The plan of the example song with a segment for each kind and none else."""
    text = (templates() / "example" / PROJECT_FILE).read_text("utf-8")
    song = re.sub(r"(?m)^  canvas: .*$", f"  canvas: {canvas}", text.partition("\nsegments:")[0])
    segments = "".join(_segment(name, kind) for name, kind in kinds.items())
    (folder / PROJECT_FILE).write_text(f"{song}\nsegments:\n{segments}", "utf-8")
    project = load(folder, {name: kind.Options for name, kind in kinds.items()})
    return plan_episode(project, kinds, stage_of(theme), wave)


def _segment(name: str, kind: Kind) -> str:
    """A segment that plays what the example speaks of: its `where`, or the verse."""
    written = yaml.load(kind.example, Loader=yaml.BaseLoader)
    where = written.get("where", "verse") if isinstance(written, dict) else "verse"
    return f'  - id: {name}\n    excerpt: {{where: "{where}"}}\n    callouts: [{kind.example}]\n'
