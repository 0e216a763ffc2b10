"""The stems callout: the waves of the stems over the excerpt, which of them sound and which are muted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Annotated, Literal

from PIL import Image
from pydantic import AfterValidator, BeforeValidator, Field

from studio.drawing.frame import CanvasSize
from studio.drawing.lettering.runs import without_font
from studio.drawing.map.ruler import ruler
from studio.drawing.themes.theme import Theme
from studio.drawing.waves.rows import draw_rows, playhead
from studio.drawing.waves.setting import rows_extent, setting
from studio.drawing.waves.stem_rows import StemRow, Waves, columns
from studio.music.place import Span
from studio.project.callouts import CalloutOptions, StemName
from studio.project.texts import one_or_more
from studio.theory.plain_english import counted, listed
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed, Extent, Kind, Mark
from studio.timeline.listening import Wave

SILENCE = 10 ** (-60 / 20)
"""Full scale is 1: a stem whose highest sample stays under -60 dBFS is silent here. Common practice: in a room
nobody hears what lies 60 dB under a loud passage."""

WAVES_LEAST = 0.45
"""Share of the width that must be left for the waves."""


_NOTES = {"together": "levels compared", "each": "each at full height"}
"""What is said of the scale over the names."""


def _some(names: tuple[str, ...]) -> tuple[str, ...]:
    if not names:
        raise ValueError("'only' names no stem; name those to show, or leave 'only' out to show all.")
    return names


class StemsOptions(CalloutOptions):
    """Options of the stems callout."""

    scale: Literal["together", "each"] = Field(
        "together", description="levels of all stems to compare, or each as large as its row allows"
    )
    only: Annotated[tuple[StemName, ...], BeforeValidator(one_or_more), AfterValidator(_some)] = Field(
        (), description="the stems to show, in this order; all if not said"
    )


class StemsKind(Kind):
    """See the module."""

    name = "stems"
    says = "the waves of the stems in the excerpt, which sound and which are muted"
    slots = ("lower", "card")
    example = "{kind: stems}"
    Options = StemsOptions

    def compose(self, options: StemsOptions, ask: Ask) -> Composed:
        span, canvas = ask.the_span(), CanvasSize.of(ask.canvas)
        shown = tuple(dict.fromkeys(options.only)) or tuple(ask.facts.song.stems)
        if not shown:
            ask.refuse("kind", "the song has no stems; write them under song.stems")
        if not span.length:
            ask.refuse("where", "an instant has no wave; write a stretch of the song")
        if strange := without_font(" ".join(shown), ask.theme.weights.strong):
            ask.refuse("kind", f"in the names of stems, {strange}")
        count = columns(ask.room.width, canvas)
        waves = {name: ask.wave(name, span, count) for name in shown}
        content = Waves(
            canvas=canvas,
            ruler=ruler(ask.time, span, "time"),
            rows=_rows(shown, waves, _sounding(ask), options.scale),
            bars=(),
            note=_NOTES[options.scale],
        )
        content = replace(
            content, bars=tuple((bar, content.ruler.share(at)) for bar, at in ask.time.barlines(span))
        )
        _refuse_what_has_no_room(content, options, ask)
        return Composed(
            content, (), None, None, _alt(content, options, ask, span), span.start + span.length / 4
        )

    def extent(self, content: Waves, width: int, theme: Theme) -> Extent:
        return rows_extent(content, theme)

    def draw(self, content: Waves, look: None, size: tuple[int, int], theme: Theme) -> Image.Image:
        return draw_rows(content, size, theme)

    def marks(self, content: Waves, size: tuple[int, int], theme: Theme) -> tuple[Mark, ...]:
        return (playhead(content, size, theme),)


KIND = StemsKind()


def _sounding(ask: Ask) -> frozenset[str]:
    """The stems that are heard: those that the excerpt plays, or all where it plays the full recording.

    None where only the program's own instrument plays.
    """
    excerpt = ask.excerpt
    if excerpt is not None and (excerpt.names or excerpt.plays):
        return frozenset(excerpt.names)
    return frozenset(ask.facts.song.stems)


def _peak(wave: Wave) -> float:
    return max(max(-low, high) for low, high in wave)


def _rows(
    shown: Sequence[str], waves: dict[str, Wave], sounding: frozenset[str], scale: str
) -> tuple[StemRow, ...]:
    loudest = max(_peak(wave) for wave in waves.values())
    rows = []
    for name in shown:
        peak = _peak(waves[name])
        silent = peak < SILENCE
        full = 1.0 if silent else loudest if scale == "together" else peak
        drawn = tuple((round(1000 * low / full), round(1000 * high / full)) for low, high in waves[name])
        rows.append(StemRow(name, () if silent else drawn, name in sounding, silent))
    return tuple(rows)


def _refuse_what_has_no_room(content: Waves, options: StemsOptions, ask: Ask) -> None:
    key = "only" if options.only else "slot" if options.slot else "kind"
    unit, extent = content.canvas.unit, rows_extent(content, ask.theme)
    if extent.least * unit > ask.room.height + 1:
        some = ", ".join(row.name for row in content.rows[:2])
        ask.refuse(
            key, f"{len(content.rows)} stems are too many for this slot; choose some, as 'only: [{some}]'"
        )
    for height in (extent.least, extent.wanted):
        found = setting(content, (ask.room.width, round(height * unit)), ask.theme)
        if found.right - found.left < WAVES_LEAST * ask.room.width:
            longest = max(content.rows, key=lambda row: len(row.name)).name
            ask.refuse(
                key, f"the name '{longest}' leaves no room for the wave; give that stem a shorter name"
            )


def _alt(content: Waves, options: StemsOptions, ask: Ask, span: Span) -> str:
    rows = content.rows
    scale = "levels to compare" if options.scale == "together" else "each at full height"
    groups = (
        ("Sounding", [row.name for row in rows if row.sounds and not row.silent]),
        ("Muted", [row.name for row in rows if not row.sounds]),
        ("Silent here", [row.name for row in rows if row.silent]),
    )
    said = "".join(f" {title}: {listed(names)}." for title, names in groups if names)
    where = ask.facts.words(ask.time.to_beats(span))
    return f"Waves of {counted(len(rows), 'stem')} over {where}, {scale}.{said}"
