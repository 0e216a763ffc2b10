"""Words for grooves."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from studio.music.groove import Groove
from studio.music.meter import Meter
from studio.theory.form.section_name import called
from studio.theory.plain_english import capital, listed, number_word, plural
from studio.theory.rhythm.difference import Change, GrooveDifference
from studio.theory.rhythm.feel import Feel
from studio.theory.rhythm.grouping import marked_beats
from studio.theory.rhythm.reading import GrooveReading
from studio.theory.rhythm.stroke_changes import HAT_LINE
from studio.theory.rhythm.syncopation import MEASURE, Syncopation
from studio.theory.rhythm.timekeeping import NOTE_VALUES, Timekeeper
from studio.theory.rhythm.written_swing import SWUNG
from studio.theory.wording.counting import SYLLABLES, places_words

_FEWEST_BEATS = 3  # beats that do the same and are no list any more
_MOST_PLACES = 4  # places of one line that are told one by one
_MOST = 3  # clauses, or runs of bars, that fit in a line that is read in passing


def groove_words(reading: GrooveReading) -> str:
    """A groove in a line: "backbeat on 2 and 4, eighth-note hats, straight"."""
    if not reading.groove.lines:
        return "no drums"
    name = reading.names[0].name if reading.names else ""
    said = [_feel_words(reading.feel)] if reading.named_rhythm is None else []
    if reading.four_on_the_floor:
        said.append("four on the floor")
    said.append(name)
    if name == "swing ride":
        said.append(_foot_words(reading.groove))
    elif reading.timekeeper is not None:
        said.append(_keeper_words(reading.timekeeper))
    if _tells_swing(reading):
        assert reading.swing is not None
        said.append(reading.swing.name)
    return ", ".join(word for word in said if word) or kick_words(reading)


def _tells_swing(reading: GrooveReading) -> bool:
    """Whether the line should say how the off-beats lie: where the timekeeper plays them, unless a name says it."""
    keeper = reading.timekeeper
    named = any(pattern.name in SWUNG for pattern in reading.names[:1])
    if reading.swing is None or named:
        return False
    return not reading.swing.straight or (keeper is not None and keeper.step < reading.groove.meter.beat)


def _foot_words(groove: Groove) -> str:
    """What the foot does under a ride: "hi-hat on 2 and 4"."""
    beats = sorted(marked_beats(groove, ("pedal hat",)))
    return f"hi-hat on {listed([str(beat) for beat in beats])}" if beats else ""


def _feel_words(feel: Feel) -> str:
    beats = listed([str(beat) for beat in feel.beats])
    who = "" if "snare" in feel.voices or not feel.voices else f" ({feel.voices[0]})"
    if feel.time == "full time":
        return f"backbeat on {beats}{who}"
    if feel.time == "half time":
        return f"half time, {feel.voices[0]} on 3"
    if feel.time == "double time":
        return "double time"
    if feel.every_beat:
        return f"{feel.voices[0]} on every beat"
    grouped = f"{'+'.join(map(str, feel.grouping))}, " if feel.grouping else ""
    return f"{grouped}{feel.voices[0]} on {beats}" if beats else grouped.rstrip(", ")


_ADJECTIVES = {
    "quarters": "quarter-note", "eighths": "eighth-note", "sixteenths": "sixteenth-note", "triplets": "triplet",
    "off-beats": "off-beat", "halves": "half-note", "dotted quarters": "dotted-quarter",
    "sixteenth triplets": "sixteenth-triplet", "thirty-seconds": "thirty-second-note",
}  # fmt: skip


def _keeper_words(keeper: Timekeeper) -> str:
    broken = "broken " if keeper.broken and keeper.value != "off-beats" else ""
    value = _ADJECTIVES.get(keeper.value)
    return f"{broken}{value} {keeper.family}" if value else f"{keeper.family} in {keeper.value}"


def kick_words(reading: GrooveReading) -> str:
    """Where the kick falls, and what it leads into: "kick on 1, 2& and 3, leading into 3".

    A kick that has moved ahead of its beat is pushed: "kick on 1 and 2&, pushed before 3".
    """
    groove = reading.groove
    onsets = groove.onsets("kick", ghosts=False)
    if not onsets:
        return "no kick"
    if reading.four_on_the_floor and len(onsets) == 4 * groove.bars:
        return "kick on every beat"
    running = _running_words(onsets, groove)
    if running:
        return f"kick {running}"
    where = f"kick on {places_words(onsets, groove.meter, groove.bars)}"
    pushed = sorted({push.before for push in reading.pushes if push.replaces})
    if pushed:
        return f"{where}, pushed before {listed([str(beat) for beat in pushed])}"
    leading = sorted({push.before for push in reading.pushes})
    return f"{where}, leading into {listed([str(beat) for beat in leading])}" if leading else where


def _running_words(onsets: Sequence[Fraction], groove: Groove) -> str:
    """What does the same on each of three beats or more: "in sixteenths", "on every beat and every a"; else ""."""
    meter = groove.meter
    parts = sorted({at * meter.beats % 1 for at in onsets})
    if meter.beats < _FEWEST_BEATS or len(onsets) < len(parts) * meter.beats * groove.bars or parts[0]:
        return ""
    even = NOTE_VALUES.get(meter.beat / len(parts), "")
    if len(parts) > 1 and even and parts == [Fraction(n, len(parts)) for n in range(len(parts))]:
        return f"in {even}"
    syllables = [SYLLABLES.get(part, "") for part in parts[1:]]
    if meter.compound or not all(syllable.isascii() and len(syllable) == 1 for syllable in syllables):
        return ""
    return f"on {listed([f'every {name}' for name in ('beat', *syllables)])}"


def swing_words(reading: GrooveReading) -> str:
    """Such as "straight eighths", or "triplet swing, 2.0 to 1 (±0.1)".

    A groove of which nothing strikes between the beats is said to be so; "" where what does is not halved.
    """
    swing = reading.swing
    if swing is None:
        beats = reading.groove.meter.beats
        on_beats = all((at * beats).denominator == 1 for at in reading.groove.onsets(*reading.groove.voices))
        return "nothing plays the off-beats" if on_beats else ""
    if swing.straight:
        return f"straight {swing.level}"
    level = " sixteenths" if swing.level == "sixteenths" else ""
    return f"{swing.name}{level}, {swing.ratio:.1f} to 1 (±{swing.spread:.1f})"


def syncopation_words(reading: GrooveReading) -> str:
    """The kick's syncopation, or without a kick that of all that marks the beat, and by which measure."""
    alone = "kick" in reading.groove.voices
    who = "kick: " if alone else ""
    said = _index_words(reading.kick if alone else reading.syncopation)
    return f"{who}{said} ({MEASURE})"


def _index_words(syncopation: Syncopation) -> str:
    bar = syncopation.bar
    value = str(bar) if bar.denominator == 1 else f"{float(bar):.1f}"
    return f"syncopation {value} a bar" if bar else "no syncopation"


def variation_words(reading: GrooveReading) -> str:
    """Such as "7 of 8 bars alike; bar 12 varies"; "" for a groove of one bar."""
    alike, varied = len(reading.alike), len(reading.varied)
    if not varied:
        return f"all {alike} bars alike" if alike > 1 else ""
    if alike == 1:
        return f"no two of {varied + 1} bars alike"
    vary = "varies" if varied == 1 else "vary"
    runs = _runs(reading.varied)
    which = f"{plural(varied, 'bar')} {listed(runs)}" if len(runs) <= _MOST else f"the other {varied}"
    return f"{alike} of {alike + varied} bars alike; {which} {vary}"


def _runs(numbers: Sequence[int]) -> list[str]:
    """Numbers in a row said as one: "12", "16–18"."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and runs[-1][1] == number - 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    return [str(first) if first == last else f"{first}–{last}" for first, last in runs]


def difference_words(difference: GrooveDifference, name: str, other: str, most: int = _MOST + 1) -> str:
    """One sentence: "The chorus doubles the hats and adds a clap on 2 and 4." ``name`` is the second groove's.

    Where there is more to tell than ``most`` clauses, the last of them says so: "and more".
    """
    subject = capital(called(name))
    if not difference.changes:
        but = f", but for {listed(difference.details)}" if difference.details else ""
        return f"{subject} has the same groove as {called(other)}{but}."
    clauses: dict[str, list[str]] = {}
    for change in difference.changes:
        verb, what = _clause(change, difference.meter)
        clauses.setdefault(verb, []).append(what)
    if difference.details:
        clauses["differs in"] = list(difference.details)
    said = [f"{verb} {_listed_apart(whats)}".strip() for verb, whats in clauses.items()]
    if len(said) > most:
        said = [*said[: max(1, most - 1)], "more"]
    return f"{subject} {_listed_apart(said)}."


def _listed_apart(words: Sequence[str]) -> str:
    """As ``listed``, with a comma before the last "and" where the words have an "and" of their own."""
    if len(words) < 2 or not any(" and " in word for word in words[:-1]):
        return listed(words)
    return f"{', '.join(words[:-1])}, and {words[-1]}"


def _clause(change: Change, meter: Meter) -> tuple[str, str]:
    """(verb, what) of a change, so that several changes can share a verb."""
    voice = f"the {change.voice}"
    if change.kind == "adds":
        return "adds", _added(change, meter)
    if change.kind == "moves":
        left, places = (_where(at, meter, change) for at in (change.left, change.places))
        return "moves", f"{voice} from {left} to {places}"
    if change.kind == "drops":
        return "drops", voice
    if change.kind == "thins":
        return "leaves out", _the(change.voice, change.left, meter, change)
    if change.kind in ("softens", "brings out", "opens", "closes"):
        return change.kind, _the(change.voice, change.places, meter, change)
    if change.kind == "swaps":
        return "trades", f"the {change.was} for {voice}"
    if change.kind == "meter":
        return "is in", f"{change.to}, not {change.was}"
    if change.kind == "time":
        return {"full time": "goes back to", "half time": "drops to"}.get(change.to, "goes into"), change.to
    return _keeping_clause(change, voice)


def _added(change: Change, meter: Meter) -> str:
    """What is added: "a clap on 2 and 4", "kicks on 1a and 3&", "eighth-note hats", "six kicks"."""
    if value := _ADJECTIVES.get(change.to):
        return f"{value} {_strokes(change.voice)}"
    if len(change.places) > _MOST_PLACES:
        return f"{number_word(len(change.places))} {_strokes(change.voice)}"
    one = len(change.places) == 1 or (change.new and not change.voice.endswith("s"))
    noun = _a(change.voice.removesuffix("s") if change.voice == HAT_LINE else change.voice) if one else ""
    return f"{noun or _strokes(change.voice)} on {_where(change.places, meter, change)}"


def _the(voice: str, places: Sequence[Fraction], meter: Meter, change: Change) -> str:
    """Strokes that are known from before: "the snare on 3", "the kicks on 2& and 3", "six of the hats"."""
    if len(places) > _MOST_PLACES:
        return f"{number_word(len(places))} of the {_strokes(voice)}"
    noun = _strokes(voice) if len(places) > 1 else "hat" if voice == HAT_LINE else voice
    return f"the {noun} on {_where(places, meter, change)}"


def _where(places: Sequence[Fraction], meter: Meter, change: Change) -> str:
    return places_words(places, meter, _bars_of(change))


def _strokes(voice: str) -> str:
    """Strokes of a voice: "kicks", "hats", "claves", "crashes"."""
    if voice.endswith("s"):
        return voice
    return f"{voice}es" if voice.endswith("sh") else f"{voice}s"


def _keeping_clause(change: Change, voice: str) -> tuple[str, str]:
    """What becomes of the voice that keeps time."""
    if change.kind == "keeper":
        return "moves from", f"{_keeper_name(change.was)} to {_keeper_name(change.voice)} in {change.to}"
    if change.kind == "rate":
        rate = {Fraction(2): "doubles", Fraction(1, 2): "halves"}.get(change.factor)
        return (rate, voice) if rate else ("takes", f"{voice} from {change.was} to {change.to}")
    if change.kind == "value":
        return "plays", f"{voice} {'on' if change.to == 'off-beats' else 'in'} {change.to}"
    return ("plays", "straight") if change.to == "straight" else ("has", _a(change.to))


def _bars_of(change: Change) -> int:
    return 1 + max((int(at) for at in (*change.places, *change.left)), default=0)


def _keeper_name(family: str) -> str:
    return "hats" if family == "hats" else f"the {family}"


def _a(noun: str) -> str:
    return f"{'an' if noun[:1] in 'aeiou' else 'a'} {noun}"
