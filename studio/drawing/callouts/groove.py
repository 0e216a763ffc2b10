"""The groove callout: a drum pattern on its grid, or two of them with what differs marked.

A groove that is played is shown by its most typical bar, as theory reads it. A pointer moves over the count with the
sound; strokes do not light up, for they come faster than lights should.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from fractions import Fraction
from math import ceil, lcm

from PIL import Image
from pydantic import Field

from studio.drawing.frame import CanvasSize, panelled
from studio.drawing.grid.grid import Grid, Pass, Struck, Turned
from studio.drawing.grid.heard import Heard, heard_in, passes_of, pattern_of
from studio.drawing.grid.kit_lines import lines_of
from studio.drawing.grid.score import Score, pointer_line
from studio.drawing.grid.setting import LEAST, NEAREST, Setting
from studio.drawing.paging import page_dots
from studio.drawing.pointer import pointer
from studio.drawing.themes.theme import Theme
from studio.project.callouts import CalloutOptions, GrooveName, GrooveOrPlace
from studio.theory.plain_english import capital, sentence
from studio.theory.rhythm.difference import groove_difference
from studio.theory.rhythm.stroke_changes import line_of
from studio.theory.wording import difference_words, groove_words, swing_words, variation_words
from studio.theory.wording.counting import places_words
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed, Extent, Kind, Leg, Mark

MOST_BARS = 8
"""Bars of one pattern; a longer one does not go round any more."""

MOST_CLAUSES = (6, 4, 2, 1)
"""What a sentence of difference tells at most, as there is room, before it says that there is more."""

_BARS_ON_A_PAGE = 2
_TOLD_BY_PLACE = 8  # strokes of a line that are told one by one in words


class GrooveOptions(CalloutOptions):
    """Options of the groove callout."""

    groove: GrooveName = Field(description="which of the song's grooves; one that is played, over `where`")
    against: GrooveOrPlace | None = Field(
        default=None,
        description="another groove, or the same one at another place, to be shown with what differs",
    )


class GrooveKind(Kind):
    """See the module."""

    name = "groove"
    says = "a drum pattern on its grid; two of them with what differs marked"
    slots = ("lower", "card", "left", "right")
    Options = GrooveOptions
    example = "{kind: groove, groove: main, against: half}"

    def compose(self, options: GrooveOptions, ask: Ask) -> Composed:
        heard = heard_in(options.groove, options.against, ask)
        one = heard[0]
        bars = lcm(*(each.groove.bars for each in heard))
        if bars > MOST_BARS:
            ask.refuse(
                "groove", f"{bars} bars are too many for one pattern; choose a 'where' of {MOST_BARS} at most"
            )
        lines = lines_of(each.groove for each in heard)
        compared = len(heard) > 1 and one.groove.meter == heard[1].groove.meter
        patterns = tuple(
            pattern_of(each, lines, bars, one if compared and each is not one else None) for each in heard
        )
        passes = tuple(
            p for number, each in enumerate(heard) for p in passes_of(each, number, bars, ask.time)
        )
        passes = tuple(sorted(passes, key=lambda p: (p.start, p.pattern)))
        said = _said(heard, [name for name, _ in ask.facts.sections])
        whole = Grid(CanvasSize.of(ask.canvas), lines, patterns, bars, bars, False, said, passes)
        content = self._fitted(whole, options, ask)
        states = tuple(
            (p.start, p.start + p.length, Turned(p.bar // content.shown)) for p in passes if content.pages > 1
        )
        return Composed(
            content, states, Turned(), Turned(), _alt(heard, content), still_at=_still_at(one, passes)
        )

    def _fitted(self, whole: Grid, options: GrooveOptions, ask: Ask) -> Grid:
        """As many bars on a page as there is room for, two grooves side by side where the canvas is wide."""
        column = (options.slot or self.slot(ask.canvas)) in ("left", "right")
        wide = whole.canvas.width > whole.canvas.height and not column
        ways = [
            replace(whole, shown=shown, beside=beside)
            for shown in range(min(whole.bars, _BARS_ON_A_PAGE), 0, -1)
            for beside in ((True, False) if len(whole.patterns) > 1 and wide else (False,))
        ]
        named = [way for way in ways if Setting(way, ask.room.width, None, ask.theme).named]
        if not named:
            wider = ", or the slot 'card'" if column else ""
            ask.refuse("groove", f"its name is too long for this width; give it a shorter one{wider}")
        clear = [way for way in named if Setting(way, ask.room.width, None, ask.theme).nearest() >= NEAREST]
        if not clear:
            remedy = "give it the slot 'card'" if column else "choose a simpler groove, or only one of them"
            ask.refuse(
                "groove", f"its strokes lie too near together to be told apart in this width; {remedy}"
            )
        briefer = [replace(way, said=way.said[-1:]) for way in clear if len(way.said) > 1]
        low = [way for way in [*clear, *briefer] if self._least(way, ask) <= ask.room.height + 1]
        if not low:
            voices = len(whole.voices)
            remedy = "show only one of them, or " if len(whole.patterns) > 1 else ""
            remedy += "use the slot 'card'" if column else "choose a groove with fewer voices"
            ask.refuse("slot", f"its {voices} voices do not fit under one another here; {remedy}")
        return low[0]

    def _least(self, content: Grid, ask: Ask) -> float:
        u = content.canvas.unit
        return ceil(Setting(content, ask.room.width, None, ask.theme).tall(LEAST) / u) * u

    def extent(self, content: Grid, width: int, theme: Theme) -> Extent:
        found, u = Setting(content, width, None, theme), content.canvas.unit
        return Extent(found.tall(LEAST) / u, found.tall(1.0) / u)

    def draw(self, content: Grid, look: Turned, size: tuple[int, int], theme: Theme) -> Image.Image:
        sheet = panelled(size, content.canvas, theme)
        Score(sheet, content, look, theme).draw()
        page_dots(sheet, content.pages, look.page, content.canvas, theme)
        return sheet.picture

    def quiet(self, look: Turned, default: Turned) -> Turned:
        return look

    def marks(self, content: Grid, size: tuple[int, int], theme: Theme) -> tuple[Mark, ...]:
        """The pointer over the count, through each bar in which a pattern is played."""
        found, u = Setting(content, *size, theme), content.canvas.unit
        legs = []
        for one in content.passes:
            bar, y = one.bar % content.shown, pointer_line(found, one.pattern)
            start, end = (
                found.x(one.pattern, Fraction(bar)),
                found.block(one.pattern).left + (bar + 1) * found.bar,
            )
            legs.append(Leg(one.start, one.start + one.length, (start, y), (end, y)))
        return (pointer(u, legs),) if legs else ()


KIND = GrooveKind()


def _still_at(one: Heard, passes: tuple[Pass, ...]) -> Fraction | None:
    """Where the pointer stands in the still: after the first beat, where most of the kit strikes."""
    struck = {(line_of(voice), hit.at) for voice, line in one.groove.lines for hit in line if hit.at < 1}
    if not passes or not struck:
        return None
    places = [at for _, at in struck]
    at = min((at for at in places if at > 0), key=lambda at: (-places.count(at), at), default=places[0])
    return passes[0].start + at * one.groove.meter.bar


def _subject(name: str, sections: Collection[str]) -> str:
    """What a sentence calls a groove: by its section ("chorus"), else as a groove: "main groove"."""
    if name in sections:
        return name
    return (
        f"groove of {name}"
        if name.startswith(("bar ", "bars "))
        else f"{name.removesuffix(' groove')} groove"
    )


def _said(heard: tuple[Heard, ...], sections: Collection[str]) -> tuple[str, ...]:
    """The sentence under the grid: what differs, or how the bars vary and how far the off-beats swing."""
    if len(heard) > 1:
        one, two = heard
        difference = groove_difference(one.reading, two.reading)
        names = _subject(two.name, sections), _subject(one.name, sections)
        sentences = (difference_words(difference, *names, most=most) for most in MOST_CLAUSES)
        return tuple(dict.fromkeys(sentences))
    reading = heard[0].reading
    swings = heard[0].played and reading.swing is not None and not reading.swing.straight
    told = [swing_words(reading)] if swings else []
    if reading.varied:
        told.append(variation_words(reading))
    return _shorter_sentences(told)


def _shorter_sentences(told: list[str]) -> tuple[str, ...]:
    return tuple(" ".join(map(sentence, told[:count])) for count in range(len(told), 0, -1))


def _alt(heard: tuple[Heard, ...], content: Grid) -> str:
    said = []
    for each, pattern in zip(heard, content.patterns, strict=True):
        lines = [
            f"{voice} {_places(line.strokes, each, content.bars)}"
            for voice, line in zip(content.voices, pattern.lines, strict=True)
            if line.strokes
        ]
        said.append(f"Groove of {each.name}: {groove_words(each.reading)}. {capital('; '.join(lines))}.")
    return " ".join([*said, *content.said[:1]])


def _places(strokes: tuple[Struck, ...], heard: Heard, bars: int) -> str:
    places = list(dict.fromkeys(stroke.at for stroke in strokes))
    if len(places) > _TOLD_BY_PLACE * bars:
        return f"{len(places)} strokes"
    return f"on {places_words(places, heard.groove.meter, bars)}"
