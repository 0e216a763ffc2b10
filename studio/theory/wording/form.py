"""Words for form: sections, bars and phrases, and the plan of keys."""

from __future__ import annotations

from collections.abc import Sequence

from studio.music.key import Key
from studio.theory.form.bars import BarsReading
from studio.theory.form.key_plan import KeyPlan, KeyStage
from studio.theory.form.phrases import grouping_text
from studio.theory.form.plan import Form
from studio.theory.form.repeats import Repeat
from studio.theory.form.section_name import called
from studio.theory.plain_english import counted


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
    said += [_stage_words(stage, plan.home) for stage in plan.stages[1:]]
    return ", ".join(said)


def _stage_words(stage: KeyStage, home: Key) -> str:
    if stage.key == home:
        return f"back to {home.tonic}"
    named = str(stage.key.tonic) if stage.key.mode == home.mode else str(stage.key)
    where = f"{stage.sections[0]} in " if stage.sections else "then "
    return f"{where}{named} ({stage.relation})"
