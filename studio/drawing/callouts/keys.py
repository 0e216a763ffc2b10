"""The keys callout: keys over the song, how it gets from one to the next, the pivot chord, and where we are."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from PIL import Image

from studio.drawing.frame import CanvasSize
from studio.drawing.lettering.reading_words import chord_words
from studio.drawing.map.block import Block
from studio.drawing.map.here import Here
from studio.drawing.map.key_line import draw_keys, key_marks
from studio.drawing.map.key_map import Change, KeyMap
from studio.drawing.map.key_setting import setting
from studio.drawing.map.map_kind import MapKind, MapOptions, Mapped, MapSetting
from studio.drawing.map.one_key import OneKey, draw_one_key
from studio.drawing.map.one_key import setting as words_alone
from studio.drawing.map.ruler import Ruler, ruler
from studio.drawing.themes.theme import Theme
from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.place import Span
from studio.theory.form.key_plan import KeyPlan, KeyStage
from studio.theory.form.section_name import called
from studio.theory.harmony.keys import InferredKey
from studio.theory.plain_english import capital, number_word, sentence
from studio.theory.wording import key_chords_words, key_plan_words
from studio.timeline.answers.form import plan_of_keys
from studio.timeline.ask import Ask
from studio.timeline.kind import Mark
from studio.timeline.song_facts import SongFacts

_DOUBTFUL = 0.62
"""A key less sure than this is told with its second: fewer than three of four ways of hearing are in it."""

Content = KeyMap | OneKey


class KeysOptions(MapOptions):
    """Options of the keys callout."""


class KeysKind(MapKind):
    """See the module."""

    name = "keys"
    says = "the keys of the song to scale, how it gets from one to the next, and where we are"
    example = "{kind: keys}"
    Options = KeysOptions

    def mapped(self, options: KeysOptions, ask: Ask, whole: Span) -> Mapped:
        facts = ask.facts
        plan = plan_of_keys(facts, facts.whole)
        if not plan.stages:
            ask.refuse("kind", "no key is written, and there are no chords to find one in; write song.key")
        shown = [(number, stage) for number, stage in enumerate(plan.stages) if stage.span.overlaps(whole)]
        if not shown:
            ask.refuse(
                "of" if options.of else "kind", "there is no music there; write song.chords or song.sections"
            )
        if len(shown) == 1:
            return _one_key(shown[0][1].key, options, ask, whole)
        stages, found = [stage for _, stage in shown], ruler(ask.time, whole, options.scale)
        content = KeyMap(
            canvas=CanvasSize.of(ask.canvas),
            ruler=found,
            blocks=_blocks(stages, plan, found),
            changes=tuple(
                _change(block, plan.stages[number - 1], stage, plan, facts)
                for block, (number, stage) in enumerate(shown)
                if number and stage.span.start > whole.start
            ),
            plan=_plan_words(plan),
            note=_note(facts),
        )
        names = tuple((str(stage.key), stage.span) for stage in stages)
        return Mapped(content, names, _words(content, stages, options))

    def setting(self, content: Content, width: int, theme: Theme) -> MapSetting:
        return (
            words_alone(content, width, theme)
            if isinstance(content, OneKey)
            else setting(content, width, theme)
        )

    def too_short(self, block: Block) -> str:
        return f"the stretch in {block.names[0]} is too short beside the rest to be named"

    def draw(self, content: Content, look: Here, size: tuple[int, int], theme: Theme) -> Image.Image:
        return (
            draw_one_key(content, size, theme)
            if isinstance(content, OneKey)
            else draw_keys(content, look, size, theme)
        )

    def marks(self, content: Content, size: tuple[int, int], theme: Theme) -> tuple[Mark, ...]:
        return () if isinstance(content, OneKey) else key_marks(content, size, theme)


KIND = KeysKind()


def _one_key(key: Key, options: KeysOptions, ask: Ask, whole: Span) -> Mapped:
    """Where the key does not change there is nothing to map: it is named, with what its chords do."""
    name = f"{key} throughout" if options.of is None else f"{key} in {_there(whole, ask)}"
    said = [words for words in (key_chords_words(ask.readings(whole)), _note(ask.facts)) if words]
    content = OneKey(CanvasSize.of(ask.canvas), name, " ".join(sentence(words) for words in said))
    return Mapped(content, (), f"{name}. {content.says}".strip())


def _there(span: Span, ask: Ask) -> str:
    """As "the bridge", "bars 5–8"."""
    words = ask.facts.words(span)
    return called(words) if words in dict(ask.facts.sections) else words


def _plan_words(plan: KeyPlan) -> tuple[str, ...]:
    """All keys in a line, and in a shorter one."""
    changes = len(plan.stages) - 1
    few = (f"{plan.home}, with {number_word(changes)} changes of key",) if changes > 1 else ()
    return (key_plan_words(plan), *few)


def _blocks(stages: Sequence[KeyStage], plan: KeyPlan, found: Ruler) -> tuple[Block, ...]:
    """A block for each stretch; those in one key have one texture, the home key that of full chalk."""
    textures = list(dict.fromkeys(stage.key for stage in plan.stages))
    return tuple(
        Block(
            names=(str(stage.key), _short(stage.key)),
            begin=found.share(stage.span.start),
            end=found.share(stage.span.end),
            texture=textures.index(stage.key),
        )
        for stage in stages
    )


def _short(key: Key) -> str:
    """A key as players write it for short: "F♯m"."""
    return f"{key.tonic}{'m' if key.mode == 'minor' else ''}"


def _change(block: int, before: KeyStage, stage: KeyStage, plan: KeyPlan, facts: SongFacts) -> Change:
    home = stage.key == plan.home
    preposition = "of" if stage.step.startswith("the") else "from"
    return Change(
        block=block,
        place=_place(stage.span.start, facts),
        key=f"{'back to' if home else 'to'} {stage.key}",
        how="" if home else f"{stage.step} {_whole(f'{preposition} {before.key}')}",
        way=_way(before.key, stage, facts),
    )


def _whole(words: str) -> str:
    """Words that no line break parts."""
    return words.replace(" ", "\N{NO-BREAK SPACE}")


def _place(at: Fraction, facts: SongFacts) -> str:
    """The bar of a change, and the section that it begins or falls in: "bar 38, bridge", "17.3, in the verse"."""
    time = facts.song.time
    place = time.place(at)
    bar = f"bar {place.bar}" if place.beat == 1 else time.moment(at)
    name = next((name for name, span in facts.sections if span.contains(at)), "")
    if not name:
        return bar
    begins = any(span.start == at for _, span in facts.sections)
    return f"{bar}, {name}" if begins else f"{bar}, in {called(name)}"


def _way(old: Key, stage: KeyStage, facts: SongFacts) -> str:
    """The chord that leads from one key to the next: one that both share, named in both, or the dominant of the new
    key at the end of the old one; "" where neither is."""
    sounding = [reading for reading in facts.all_readings if reading.kind != "none"]
    before = next((r for r in reversed(sounding) if r.at.start < stage.span.start), None)
    after = next((r for r in sounding if r.at.start >= stage.span.start), None)
    if before is None or after is None:
        return ""
    for reading, other in ((before, stage.key), (after, old)):
        if reading.pivot is not None and reading.pivot[0] == other:
            chord, second = chord_words(reading.at.chord).text, reading.pivot[1]
            in_old, in_new = (reading.numeral, second) if reading is before else (second, reading.numeral)
            readings = (f"{in_old} in {_short(old)},", f"{in_new} in {_short(stage.key)}")
            return " ".join(_whole(words) for words in (f"pivot {chord}:", *readings))
    chord_before = before.at.chord
    if chord_before is not None and _is_dominant(chord_before, stage.key):
        return f"prepared by its dominant, {chord_words(chord_before).text}"
    return ""


def _is_dominant(chord: Chord, key: Key) -> bool:
    return key.above(chord.root) == 7 and chord.triad == "major"


def _note(facts: SongFacts) -> str:
    """That keys are inferred, and where that is in doubt which other is possible; "" where they are written."""
    if not facts.inferred:
        return ""
    source = "chords" if any(at.chord is not None for at in facts.song.chart.chords) else "notes"
    doubts = {str(found.key): str(found.runner_up) for found in facts.inferred if _in_doubt(found)}
    if len(facts.inferred) == 1:
        said = "".join(f"; {other} is possible" for other in doubts.values())
    else:
        said = "".join(f"; for {key}, {other} is possible" for key, other in doubts.items())
    return f"inferred from the {source}{said}"


def _in_doubt(found: InferredKey) -> bool:
    return found.runner_up is not None and found.sureness < _DOUBTFUL


def _words(content: KeyMap, shown: Sequence[KeyStage], options: KeysOptions) -> str:
    said = [f"{shown[0].key} first", *(capital(change.words) for change in content.changes)]
    note = f" {capital(content.note)}." if content.note else ""
    words = f"The keys to scale by {options.scale}: {'. '.join(said)}.{note}"
    return words.replace("\N{NO-BREAK SPACE}", " ")
