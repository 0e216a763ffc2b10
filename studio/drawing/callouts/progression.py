"""The progression callout: one loop, large; numerals and symbols, how often it comes round, and what is plain in it."""

from __future__ import annotations

from collections.abc import Sequence

from PIL import Image
from pydantic import Field

from studio.drawing.frame import CanvasSize, panelled
from studio.drawing.lettering.runs import without_font
from studio.drawing.loop.arrangement import EDGE, TIGHT, Progression, Step, arranged, lowest
from studio.drawing.loop.painting import paint
from studio.drawing.loop.steps import AGAIN, steps_in_a_row, steps_in_bars
from studio.drawing.themes.theme import Theme
from studio.music.place import Span
from studio.project.callouts import CalloutOptions, FactText
from studio.theory.harmony.reading import Reading
from studio.theory.plain_english import listed
from studio.theory.progression.differing import differing
from studio.theory.progression.loops import Loop
from studio.theory.progression.plain_form import PlainForm, plain_form
from studio.theory.wording import in_style, loop_name, loop_words
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed, Extent, Kind

__all__ = ["KIND", "Progression", "ProgressionKind", "ProgressionOptions", "Step"]

MOST_BARS = 32
"""Steps of a form that is counted in bars."""

MOST = 16
"""Chords of one loop in one picture."""


class ProgressionOptions(CalloutOptions):
    """Options of the progression callout."""

    title: FactText | None = Field(None, description="a few words over the chords")
    plain: bool = Field(True, description="the form that people know, and which chord is not as it has it")


class ProgressionKind(Kind):
    """See the module."""

    name = "progression"
    says = "one loop, large: its numerals and chords, how often it comes round, how it differs from its plain form"
    slots = ("lower", "card", "left", "right", "top")
    example = "{kind: progression, title: Round and round}"
    Options = ProgressionOptions

    def compose(self, options: ProgressionOptions, ask: Ask) -> Composed:
        readings = ask.readings()
        if not readings:
            ask.refuse("where", "no chords are written for these bars; write them under song.chords")
        loop = ask.loop()
        unit = [reading for reading in readings if reading.at.start < readings[0].at.start + loop.length]
        self._refuse_what_is_no_loop(unit, ask)
        title = " ".join(ask.fill(options.title).split()) if options.title else ""
        if lacking := without_font(title, ask.theme.weights.strong):
            ask.refuse("title", lacking)
        found = plain_form(readings, ask.time) if options.plain else None
        steps, parts = _steps(unit, readings, found, loop, ask)
        if len(steps) > (MOST_BARS if parts else MOST):
            ask.refuse(
                "where", f"{len(steps)} chords do not repeat here; choose bars that hold {MOST} at most"
            )
        content = Progression(
            canvas=CanvasSize.of(ask.canvas),
            title=title,
            key=", then ".join(f"in {key}" for key in dict.fromkeys(reading.key for reading in readings)),
            times=loop.times,
            steps=steps,
            plain=_plain(found, loop.readings, ask) if found else "",
            large=(options.slot or self.slot(ask.canvas)) == "card",
            parts=parts,
        )
        self._refuse_if_long(content, ask)
        return Composed(content, (), None, None, _alt(content, found, readings[0], ask))

    def extent(self, content: Progression, width: int, theme: Theme) -> Extent:
        wanted, least = arranged(content, width, theme).tall, lowest(content, width, theme).tall
        u = content.canvas.unit
        return Extent(min(wanted, least) / u + 2 * TIGHT, wanted / u + 2 * EDGE)

    def draw(self, content: Progression, look: None, size: tuple[int, int], theme: Theme) -> Image.Image:
        sheet = panelled(size, content.canvas, theme)
        wanted, least = (size[1] - 2 * edge * content.canvas.unit + 1 for edge in (EDGE, TIGHT))
        found = arranged(content, size[0], theme, wanted)
        paint(sheet, found if found.tall <= wanted else arranged(content, size[0], theme, least))
        return sheet.picture

    def _refuse_what_is_no_loop(self, unit: Sequence[Reading], ask: Ask) -> None:
        """Refuse silence, and chords whose numerals would count in two keys at once."""
        if all(reading.at.chord is None for reading in unit):
            ask.refuse("where", "no chord sounds in these bars; choose others")
        keys = [str(key) for key in dict.fromkeys(reading.key for reading in unit)]
        if len(keys) > 1:
            ask.refuse("where", f"these chords are in {listed(keys)}; choose bars in one key")

    def _refuse_if_long(self, content: Progression, ask: Ask) -> None:
        """Refuse what cannot be read in the room of its slot."""
        found = lowest(content, ask.room.width, ask.theme)
        if not found.fits or found.tall + 2 * TIGHT * content.canvas.unit > ask.room.height:
            if content.parts:
                ask.refuse("slot", "the bars of this form stand in rows of four; give it the slot 'card'")
            wider = "" if ask.room.width > content.canvas.lane / 2 else ", or give it a wider 'slot'"
            ask.refuse("where", f"this loop is too long to be read on a phone; choose fewer bars{wider}")


KIND = ProgressionKind()


def _steps(
    unit: Sequence[Reading],
    readings: tuple[Reading, ...],
    found: PlainForm | None,
    loop: Loop,
    ask: Ask,
) -> tuple[tuple[Step, ...], int]:
    """The chords of the loop, those marked that the plain form does not have, and the parts of a bar: a form that is
    counted in bars keeps all of its bars."""
    spans = differing(found, readings) if found else ()
    start = readings[0].at.start
    if found and found.form and found.form.bars:
        steps, parts = steps_in_bars(unit, Span(start, start + loop.length), spans, ask.time)
        if steps:
            return steps, parts
    return steps_in_a_row(unit, spans), 0


def _plain(found: PlainForm, loop: tuple[Reading, ...], ask: Ask) -> str:
    """The plain form in words, with the name that people use; nothing that the numerals say already."""
    if found.form is None:
        return ""
    if found.reordered:
        return in_style(found.reason.rstrip("."), found.key, ask.facts.style)
    words = in_style(loop_words(found), found.key, ask.facts.style)
    if found.form.bars:
        return f"known as {'an' if words[0] in 'aeiou' else 'a'} {words}"
    shown = ("–".join(found.numerals), "–".join(reading.numeral for reading in loop))
    said = [] if words in shown else [words]
    return " · ".join([*said, *filter(None, [loop_name(found)])])


def _alt(content: Progression, found: PlainForm | None, first: Reading, ask: Ask) -> str:
    told = [step for step in content.steps if step.numeral != AGAIN]
    said = "–".join(step.numeral.text for step in told)
    names = "–".join(step.symbol.text or "N.C." for step in told)
    often = f", {content.often}" if content.often else ""
    reason = in_style(found.reason, found.key, ask.facts.style) if found and found.form else ""
    return f"Progression {said} in {first.key} ({names}){often}. {reason}".rstrip()
