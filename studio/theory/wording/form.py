"""Words for form: sections, bars and phrases, and the plan of keys."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from studio.music.key import Key
from studio.theory.form.bars import BarsReading
from studio.theory.form.key_plan import KeyPlan, KeyStage
from studio.theory.form.phrases import grouping_text
from studio.theory.form.plan import Form
from studio.theory.form.repeats import Repeat
from studio.theory.form.section_name import called
from studio.theory.harmony.reading import Reading
from studio.theory.plain_english import counted, listed

_NAMED = 4  # chords that are named in a row before the rest is only counted


def form_words(form: Form) -> str:
    """The sections in order, repeats told once: "intro, verse–chorus ×2, bridge, chorus, outro"."""
    roles = [section.role or section.name for section in form.sections]
    return ", ".join(_folded(roles)) or "no sections"


def _folded(roles: Sequence[str]) -> list[str]:
    """The roles with what comes twice or more in a row said once: the shortest unit that repeats, first come."""
    said: list[str] = []
    at = 0
    while at < len(roles):
        for length in range(1, (len(roles) - at) // 2 + 1):
            unit = list(roles[at : at + length])
            times = 1
            while list(roles[at + times * length : at + (times + 1) * length]) == unit:
                times += 1
            if times > 1:
                said.append(f"{'–'.join(unit)} ×{times}")
                at += times * length
                break
        else:
            said.append(roles[at])
            at += 1
    return said


def letters_words(form: Form) -> str:
    """The letters of the main sections, a prime for a changed one: "A B A B′ C B"."""
    return " ".join(f"{section.letter}{'′' * section.varied}" for section in form.sections if section.letter)


def form_name_words(form: Form) -> str:
    """What the form is called, with its letters: "verse–chorus form with a bridge: A B A B′ C B"."""
    letters = letters_words(form)
    return f"{form.name}: {letters}" if form.name and letters else form.name or letters or "no sections"


def repeat_words(repeat: Repeat, form: Form) -> str:
    """Such as "same chords as the chorus" or "as the chorus, with another ending"."""
    of = called(form.sections[repeat.of].name)
    moved = " in another key" if repeat.semitones else ""
    return {
        "same": f"same chords as {of}{moved}",
        "changed ending": f"as {of}{moved}, with another ending",
        "longer": f"as {of}{moved}, but longer",
        "shorter": f"as {of}{moved}, but shorter",
        "varied": f"a variation of {of}{moved}",
    }[repeat.likeness]


def bars_words(reading: BarsReading) -> str:
    """Such as "8 bars, as 4 + 4" or "9 bars, as 4 + 5: one bar more than eight"; odd meters are named."""
    if not reading.bars:
        return "no whole bar"
    said = counted(reading.bars, "bar")
    if len(reading.phrases) > 1:
        said += f", as {grouping_text([phrase.bars for phrase in reading.phrases])}"
    odd = [f"bar {bar.bar} in {bar.meter}" for bar in reading.odd_bars[:2]]
    remarks = [remark for remark in (reading.remark, *odd) if remark]
    return f"{said}: {', '.join(remarks)}" if remarks else said


def key_plan_words(plan: KeyPlan) -> str:
    """Such as "D major, bridge in A (the dominant), back to D"."""
    if plan.home is None:
        return "no key"
    if len(plan.stages) == 1:
        return f"{plan.home} throughout"
    said = [str(plan.home)]
    said += [_stage_words(stage, before, plan.home) for before, stage in pairwise(plan.stages)]
    return ", ".join(said)


def _stage_words(stage: KeyStage, before: KeyStage, home: Key) -> str:
    """A stage by its relation to home; where the key before was another one, home is named."""
    if stage.key == home:
        return f"back to {home.tonic}"
    named = str(stage.key.tonic) if stage.key.mode == home.mode else str(stage.key)
    where = f"{stage.sections[0]} in " if stage.sections else "then "
    preposition = "of" if stage.relation.startswith("the") else "from"
    related = stage.relation if before.key == home else f"{stage.relation} {preposition} {home.tonic}"
    return f"{where}{named} ({related})"


def key_chords_words(readings: Sequence[Reading]) -> str:
    """How the chords of a stretch in one key keep to it: "14 of 18 chords belong to it; F7 and G7/B point to other
    chords of it; A♭m6 comes from E♭ minor". "" where there are no chords."""
    sounding = [reading for reading in readings if reading.kind != "none"]
    outside = [reading for reading in sounding if reading.kind not in ("diatonic", "blues")]
    if not sounding:
        return ""
    if not outside:
        one = len(sounding) == 1
        return "its one chord belongs to it" if one else f"all {len(sounding)} chords belong to it"
    said = [f"{len(sounding) - len(outside)} of {len(sounding)} chords belong to it"]
    said += [_foreign_words(kind, source, names) for (kind, source), names in _by_origin(outside).items()]
    return "; ".join(said)


def _by_origin(readings: Sequence[Reading]) -> dict[tuple[str, str], list[str]]:
    """Chords, each once, by what they are in a key that they are no part of, and by the mode they come from."""
    found: dict[tuple[str, str], list[str]] = {}
    for reading in readings:
        kind = reading.kind if reading.kind in ("applied", "substitute dominant") else ""
        names = found.setdefault((kind, "" if kind else reading.source), [])
        if (name := str(reading.at.chord)) not in names:
            names.append(name)
    return found


def _foreign_words(kind: str, source: str, chords: Sequence[str]) -> str:
    one, names = len(chords) == 1, listed(_few(chords))
    if kind == "applied":
        return f"{names} {'points to another chord' if one else 'point to other chords'} of it"
    if kind:
        return f"{names} {'is a substitute dominant' if one else 'are substitute dominants'}"
    if source:
        return f"{names} {'comes' if one else 'come'} from {source}"
    return f"{names} {'is' if one else 'are'} outside it"


def _few(names: Sequence[str]) -> list[str]:
    return list(names) if len(names) <= _NAMED else [*names[: _NAMED - 1], f"{len(names) - _NAMED + 1} more"]
