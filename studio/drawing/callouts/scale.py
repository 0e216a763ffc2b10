"""The scale callout: the notes of a stretch beside one or more scales, what decides between them, what is missing."""

from __future__ import annotations

from contextlib import suppress
from fractions import Fraction
from typing import Annotated, NoReturn

from PIL import Image
from pydantic import BeforeValidator, Field, field_validator

from studio.drawing.frame import CanvasSize
from studio.drawing.melody.comparison import Comparison, columns_of, places_of, row_of
from studio.drawing.melody.table import draw_comparison
from studio.drawing.melody.table_layout import heights, laid_out
from studio.drawing.melody.tune_part import tune_part
from studio.drawing.themes.theme import Theme
from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.music.place import Span
from studio.project.callouts import CalloutOptions, PartName
from studio.project.complaints import MisfitError, unknown_name
from studio.project.texts import from_text, one_or_more
from studio.theory.melody.scales import SCALES, Scale, scale_named
from studio.theory.melody.scales_weighed import TunePlayed, Weighed, weighed, weighed_against
from studio.theory.plain_english import listed
from studio.theory.wording import comparison_alt, comparison_words
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed, Extent, Kind

MOST_ROWS = 5
"""Scales in one picture: more are not compared at a glance."""


class ScaleOptions(CalloutOptions):
    """Options of the scale callout."""

    part: PartName | None = Field(
        default=None, description="whose notes; without it, those of the song's tune"
    )
    modes: Annotated[tuple[str, ...], BeforeValidator(one_or_more)] = Field(
        default=(),
        description="the scales to compare; without them, those that the notes leave open",
    )
    tonic: Annotated[NoteName, from_text(NoteName.parse)] | None = Field(
        default=None, description="the note that the scales start on; without it, the key's tonic"
    )

    @field_validator("modes")
    @classmethod
    def _known(cls, modes: tuple[str, ...]) -> tuple[str, ...]:
        if len(modes) > MOST_ROWS:
            raise MisfitError(f"{len(modes)} scales are too many to compare; write {MOST_ROWS} at most")
        written: dict[Scale, str] = {}
        for name in modes:
            scale = _known_scale(name)
            if scale in written:
                other = written[scale]
                twice = (
                    f"'{name}' is written twice" if other == name else f"'{other}' and '{name}' are one scale"
                )
                raise MisfitError(f"{twice}; write each scale once")
            written[scale] = name
        return modes


class ScaleKind(Kind):
    """See the module."""

    name = "scale"
    says = "the notes of a stretch beside one or more scales, and which note decides"
    slots = ("lower", "card", "left", "right")
    example = "{kind: scale, part: lead, where: chorus}"
    Options = ScaleOptions

    def compose(self, options: ScaleOptions, ask: Ask) -> Composed:
        span, canvas = ask.the_span(), CanvasSize.of(ask.canvas)
        part = tune_part(options.part, ask)
        notes = ask.notes(part, span)
        if not notes:
            ask.refuse("part", f"'{part}' has no notes in these bars; choose other bars, or another part")
        home = options.tonic or _home(notes[0].onset, span, ask)
        tune = TunePlayed(notes, ask.melody(part, span), home, span)
        scales = tuple(map(scale_named, options.modes))
        found = weighed_against(tune, scales) if scales else weighed(tune)
        if not found.scales:
            ask.refuse("where", "only short ornaments sound here, which tell no scale; choose more bars")
        if len(found.scales) > MOST_ROWS or not (scales or found.told):
            _refuse_too_open(found, span, ask)
        content = _content(canvas, found)
        if laid_out(content, ask.room.width, ask.theme) is None:
            ask.refuse(
                "slot", f"{len(content.columns)} notes side by side cannot be read here; write slot: lower"
            )
        if heights(content, ask.room.width, ask.theme)[0] * canvas.unit > ask.room.height:
            ask.refuse(
                "modes", "there is not the height for so many scales here; write fewer, or another slot"
            )
        return Composed(content, (), None, None, comparison_alt(found, part))

    def extent(self, content: Comparison, width: int, theme: Theme) -> Extent:
        return Extent(*heights(content, width, theme))

    def draw(self, content: Comparison, look: None, size: tuple[int, int], theme: Theme) -> Image.Image:
        return draw_comparison(content, size, theme)


KIND = ScaleKind()


def _known_scale(name: str) -> Scale:
    try:
        return scale_named(name)
    except KeyError:
        first, _, rest = name.partition(" ")
        if _names_note(first) and _names_scale(rest):
            sentence = f"the tonic has an option of its own; write {rest} here, and tonic: {first}"
            raise MisfitError(sentence) from None
        known = {name for scale in SCALES for name in (scale.name, *scale.other_names)}
        raise MisfitError(unknown_name("a mode or scale", name, known)) from None


def _names_note(text: str) -> bool:
    with suppress(ValueError):
        return bool(NoteName.parse(text))
    return False


def _names_scale(text: str) -> bool:
    with suppress(KeyError):
        return bool(scale_named(text))
    return False


def _home(first: Fraction, span: Span, ask: Ask) -> Key | NoteName:
    """The key of the stretch; refuses where it has several, since scales are compared on one tonic."""
    keys = [(where, key) for where, key, _ in ask.facts.keys_in(span)]
    if len({key.tonic.pc for _, key in keys}) > 1:
        start = str(keys[0][1])
        later = [f"{key} from bar {ask.time.bar_at(where.start)}" for where, key in keys[1:]]
        ask.refuse(
            "where",
            f"these bars change key: {listed([start, *later])}; choose bars in one key, "
            f"or write the note to count from, as tonic: {keys[0][1].tonic}",
        )
    return ask.facts.home(max(first, span.start))


def _refuse_too_open(found: Weighed, span: Span, ask: Ask) -> NoReturn:
    """Too few notes to show all that they leave open; over one chord, its root is another tonic."""
    names = [str(found.heard[place]) for place in sorted(found.heard)]
    roots = {at.chord.root for at in ask.facts.song.chart.within(span) if at.chord is not None}
    other = roots - {found.tonic} if len(roots) == 1 else set()
    by_root = "".join(f", or count from the root of its one chord, tonic: {root}" for root in other)
    sound = "sounds" if len(names) == 1 else "sound"
    ask.refuse(
        "where",
        f"only {listed(names)} {sound} here, too little to tell a scale on {found.tonic}; choose more bars, "
        f"or write the scales to compare, as modes: [Dorian, Aeolian]{by_root}",
    )


def _content(canvas: CanvasSize, found: Weighed) -> Comparison:
    places = places_of(found.scales, found.heard)
    rows = tuple(
        row_of(scale.name, scale, places, found.heard, scale in found.fitting) for scale in found.scales
    )
    columns = columns_of(found.tonic, found.scales, found.heard, found.telling)
    return Comparison(canvas, str(found.tonic), columns, rows, comparison_words(found))
