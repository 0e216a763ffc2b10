"""The form callout: the sections of the song to scale, repeats alike, and where in them we are."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from PIL import Image
from pydantic import Field

from studio.drawing.frame import CanvasSize
from studio.drawing.lettering.runs import without_font
from studio.drawing.map.block import Block
from studio.drawing.map.here import Here
from studio.drawing.map.map_kind import MapKind, MapOptions, Mapped, MapSetting
from studio.drawing.map.rows import in_rows
from studio.drawing.map.ruler import Ruler, ruler
from studio.drawing.map.sections import draw_sections, section_marks
from studio.drawing.map.sections_setting import setting
from studio.drawing.map.song_map import Print, SongMap
from studio.drawing.map.texture import HOLLOW
from studio.drawing.themes.theme import Theme
from studio.music.place import Span
from studio.theory.form.bars import BarsReading, bars_reading
from studio.theory.form.phrases import grouping_text
from studio.theory.form.plan import Form, FormSection, form_of
from studio.theory.plain_english import capital, counted
from studio.theory.wording import bars_words, form_name_words
from studio.timeline.ask import Ask
from studio.timeline.kind import Mark
from studio.timeline.song_facts import SongFacts


class FormOptions(MapOptions):
    """Options of the form callout."""

    letters: bool = Field(True, description="the form's letters: A for each verse, B for each chorus")
    bars: bool = Field(True, description="how many bars each section has, and what is odd about them")


class FormKind(MapKind):
    """See the module."""

    name = "form"
    says = "the sections of the song to scale, repeats alike, and where we are"
    example = "{kind: form}"
    Options = FormOptions

    def mapped(self, options: FormOptions, ask: Ask, whole: Span) -> Mapped:
        facts = ask.facts
        form = form_of(facts.sections, facts.readings(facts.whole), facts.song.time)
        shown = _shown(form, options, ask, whole)
        read = [_bars(section, ask) for section in shown]
        lettered = options.letters and not form.named_by_letters and len(form.sections) > 1
        found = ruler(ask.time, whole, options.scale)
        spans = [_stretch(section, facts) for section in shown]
        content = SongMap(
            canvas=CanvasSize.of(ask.canvas),
            heading=capital(form.name) if options.letters and options.of is None else "",
            ruler=found,
            rows=(whole,),
            blocks=_blocks(shown, spans, form, found, lettered),
            prints=tuple(
                _print(*one, whole) if options.bars else Print() for one in zip(read, shown, strict=True)
            ),
            legend=_legend(shown, form),
        )
        said = [_said(*one, lettered) for one in zip(shown, read, strict=True)]
        named = f" {capital(form_name_words(form))}." if form.name and lettered else ""
        words = f"The sections to scale by {options.scale}: {'; '.join(said)}.{named}"
        names = tuple((section.name, span) for section, span in zip(shown, spans, strict=True))
        return Mapped(self._as_full_as_fits(content, spans, ask), names, words)

    def _as_full_as_fits(self, content: SongMap, spans: Sequence[Span], ask: Ask) -> SongMap:
        """The map in rows; where the slot is not tall enough for that without small print, then with small names."""
        starts, room = [span.start for span in spans], ask.room
        bare = replace(content, prints=(Print(),) * len(content.blocks))
        tries = [
            in_rows(one, starts, room.width, room.height, ask.theme)
            for one in (content, bare, replace(bare, compact=True))
        ]
        return next((tried for tried in tries if self.fits(tried, ask)), tries[-1])

    def setting(self, content: SongMap, width: int, theme: Theme) -> MapSetting:
        return setting(content, width, theme)

    def too_short(self, block: Block) -> str:
        return f"'{block.names[0]}' is too short beside the rest to be named"

    def draw(self, content: SongMap, look: Here, size: tuple[int, int], theme: Theme) -> Image.Image:
        return draw_sections(content, look, size, theme)

    def marks(self, content: SongMap, size: tuple[int, int], theme: Theme) -> tuple[Mark, ...]:
        return section_marks(content, size, theme)


KIND = FormKind()


def _stretch(section: FormSection, facts: SongFacts) -> Span:
    """What of the song is under a section's block: a pickup belongs to the section that it leads into."""
    span = section.span
    return Span(facts.whole.start, span.end) if span.start == 0 else span


def _shown(form: Form, options: FormOptions, ask: Ask, whole: Span) -> list[FormSection]:
    if not form.sections:
        ask.refuse("kind", "no sections are written; write them under song.sections")
    shown = [section for section in form.sections if section.span.overlaps(whole)]
    if not shown:
        ask.refuse("of", "no section is written there; choose a stretch with sections, or leave it out")
    if strange := without_font(" ".join(section.name for section in shown), ask.theme.weights.strong):
        ask.refuse("kind", f"in the names of sections, {strange}")
    return shown


def _blocks(
    shown: Sequence[FormSection], spans: Sequence[Span], form: Form, found: Ruler, letters: bool
) -> tuple[Block, ...]:
    marks = _marks(form)
    return tuple(
        Block(
            names=(section.name,),
            begin=found.share(span.start),
            end=found.share(span.end),
            texture=_texture(section, form) if len(shown) > 1 else HOLLOW,
            letter=_letter(section) if letters else "",
            mark=marks[section.name],
        )
        for section, span in zip(shown, spans, strict=True)
    )


def _letter(section: FormSection) -> str:
    return f"{section.letter}{'′' * section.varied}"


def _bars(section: FormSection, ask: Ask) -> BarsReading:
    facts = ask.facts
    return bars_reading(section.span, ask.time, facts.readings(section.span), facts.tune(facts.whole))


def _texture(section: FormSection, form: Form) -> int:
    """Sections of one letter have one texture; an intro and such has none."""
    letters = list(dict.fromkeys(other.letter for other in form.sections if other.letter))
    return letters.index(section.letter) if section.letter else HOLLOW


def _marks(form: Form) -> dict[str, str]:
    """What may stand for the name of each section: its letter, or for an intro and such the start of its name."""
    short: dict[str, str] = {}
    for section in form.sections:
        role = section.role or section.name
        if not section.letter and role not in short:
            starts = (role[:length] for length in range(1, len(role) + 1))
            short[role] = next((start for start in starts if start not in short.values()), role)
    return {section.name: section.letter or short[section.role or section.name] for section in form.sections}


def _legend(shown: Sequence[FormSection], form: Form) -> tuple[tuple[int, str, str], ...]:
    """(texture, mark, what it stands for) of each kind of section, in the order of the song."""
    marks = _marks(form)
    kinds = {marks[section.name]: section for section in reversed(shown)}
    return tuple(
        (_texture(section, form), mark, section.role or section.name)
        for mark, section in reversed(kinds.items())
    )


def _print(read: BarsReading, section: FormSection, whole: Span) -> Print:
    """How many bars a section has and, where that is odd, how they group; then the bar in another meter, or what is
    amiss."""
    if not read.bars or section.span.start < whole.start or section.span.end > whole.end:
        return Print()
    count = (counted(read.bars, "bar"), str(read.bars))
    groups = [phrase.bars for phrase in read.phrases]
    if not (read.remark or read.odd_bars or len(set(groups)) > 1):
        return Print((count,))
    grouped = (f"{count[0]}: {grouping_text(groups)}",) if len(groups) > 1 else ()
    meters = tuple(f"bar {bar.bar} in {bar.meter}" for bar in read.odd_bars[:1])
    second = (*meters, read.remark) if meters else (read.remark,)
    return Print(((*grouped, *count), *((second,) if any(second) else ())))


def _said(section: FormSection, read: BarsReading, lettered: bool) -> str:
    letter = f"{_letter(section)}, " if section.letter and lettered else ""
    return f"{section.name} ({letter}{bars_words(read)})"
