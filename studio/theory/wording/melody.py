"""Words for written lines and their notes."""

from __future__ import annotations

from fractions import Fraction

from studio.music.chord import Chord
from studio.music.pitch import NoteName
from studio.music.songtime import SongTime
from studio.theory.harmony.reading import Style
from studio.theory.melody.approaches import HalfStepApproach
from studio.theory.melody.chord_tones import tone_name
from studio.theory.melody.compass import Compass, Extreme
from studio.theory.melody.degrees import NoteReading, degree_over
from studio.theory.melody.motion import Move
from studio.theory.plain_english import interval_words

_NAMES = {
    "passing": "passing tone", "escape": "escape tone", "pedal": "pedal point", "no chord": "no chord",
}  # fmt: skip
_BEFORE = ("accented", "chromatic", "double", "triple", "decorated")  # traits that are said before the name
_SIDED = ("neighbour",)  # kinds of which upper and lower are said
_MOST_BEFORE = 2  # words before the name, to stay short


def degree_words(reading: NoteReading) -> str:
    """What a note is over its chord: "♭6"; "no chord" where none sounds."""
    return "no chord" if reading.degree is None else reading.degree.label


def tone_words(reading: NoteReading) -> str:
    """What a note does: "third of A", "passing tone", "4–3 suspension", "pushed fifth of F", "9, a colour tone"."""
    if reading.degree is None or reading.chord_at is None or reading.chord_at.chord is None:
        return "no chord"
    if reading.kind == "chord tone":
        return _tone_of(reading.note.pitch.name, reading.chord_at.chord)
    if reading.pushed and reading.next_chord is not None and reading.next_chord.chord is not None:
        return f"pushed {_tone_of(reading.note.pitch.name, reading.next_chord.chord)}"
    if reading.kind == "colour tone":
        return f"{reading.degree.label}, a colour tone"
    if reading.kind == "non-chord tone":
        if "repeated" in reading.traits:
            return f"repeated {reading.degree.label}"
        return "added seventh" if reading.degree.letters == 6 else f"unresolved {reading.degree.label}"
    if reading.kind == "blue third" and not _is_blue_in_key(reading):
        return f"{reading.kind} of {reading.chord_at.chord.root}"
    if reading.kind == "appoggiatura" and reading.departure.half_step and reading.degree.label[0] in "♭♯":
        return f"{reading.degree.label}, leading to {_target(reading, reading.chord_at.chord)}"
    return _named(reading)


def _tone_of(name: NoteName, chord: Chord) -> str:
    """A chord tone by name: "third of A". What the symbol does not spell is an open third or a foreign bass."""
    degree = degree_over(name, chord)
    word = tone_name(degree, chord) or ("bass" if degree.chord_tone else "third")
    return f"{word} of {chord.text}"


def _is_blue_in_key(reading: NoteReading) -> bool:
    """Whether a blue third is the key's own; else it is that of its chord (D♭ over B♭7 in F)."""
    return reading.scale_degree is not None and reading.scale_degree.degree.number == 3


def _target(reading: NoteReading, chord: Chord) -> str:
    """Where a leading note goes: "the root"; by its letter where another chord has come."""
    assert reading.departure.pitch is not None
    name = reading.departure.pitch.name
    if reading.chord_at is not None and reading.span.end >= reading.chord_at.end:
        return str(name)
    word = tone_name(degree_over(name, chord), chord)
    return f"the {word}" if word else str(name)


def _named(reading: NoteReading) -> str:
    """The kind with the traits that matter: "chromatic lower neighbour", "2–3 suspension in the bass"."""
    kind, _, figures = reading.kind.partition(" ")
    if kind in ("suspension", "retardation"):
        words = [*(trait for trait in reading.traits if trait in _BEFORE), figures, kind]
        return " ".join(words) + (" in the bass" if "bass" in reading.traits else "")
    before = [trait for trait in reading.traits if trait in _BEFORE]
    if reading.kind in _SIDED:
        before += [trait for trait in reading.traits if trait in ("upper", "lower")]
    if len(before) > _MOST_BEFORE:
        before.remove("accented") if "accented" in before else before.pop()
    return " ".join([*before, _NAMES.get(reading.kind, reading.kind)])


def scale_degree_words(reading: NoteReading, style: Style = "relative-to-major") -> str:
    """What a note is in its key: "♭3 of A minor"; "" where no key is known."""
    if reading.scale_degree is None:
        return ""
    return f"{reading.scale_degree.label(style)} of {reading.scale_degree.key}"


def approach_words(move: Move) -> str:
    """How a note is come to: "held", "struck again", "step up", "leap down a sixth"; "" at a line's start."""
    if move.kind in ("none", "held"):
        return "held" if move.kind == "held" else ""
    if move.kind == "repeated":
        return "struck again"
    if move.kind == "step":
        return f"{'half step' if move.half_step else 'step'} {move.direction}"
    return f"leap {move.direction} {interval_words(move.letters)}"


def beat_words(reading: NoteReading) -> str:
    """Where in its bar a note falls: "downbeat", "strong beat", "weak beat", "offbeat"; "" without bars."""
    return "" if reading.beat is None else reading.beat.name


def range_words(compass: Compass) -> str:
    """From the lowest to the highest note: "A3 to E5"."""
    return _from_to(str(compass.lowest.pitch), str(compass.highest.pitch))


def tessitura_words(compass: Compass) -> str:
    """Where the line lives: "mostly C4 to G4"."""
    return f"mostly {_from_to(*map(str, compass.tessitura))}"


def highest_words(compass: Compass, time: SongTime) -> str:
    """The highest note and where it is struck: "E5, bar 7 beat 2"."""
    return _extreme_words(compass.highest, time)


def lowest_words(compass: Compass, time: SongTime) -> str:
    """The lowest note and where it is struck: "A3, bar 1 beat 1"."""
    return _extreme_words(compass.lowest, time)


def half_step_words(approach: HalfStepApproach, time: SongTime) -> str:
    """One half-step approach: "G♯ to A, bar 4"."""
    return f"{approach.start.name} to {approach.target.pitch.name}, bar {time.bar_at(approach.at)}"


def _from_to(low: str, high: str) -> str:
    return low if low == high else f"{low} to {high}"


def _extreme_words(extreme: Extreme, time: SongTime) -> str:
    more = len(extreme.at) - 1
    again = {0: "", 1: ", and once more", 2: ", and twice more"}.get(more, f", and {more} times more")
    return f"{extreme.pitch}, {_moment_words(extreme.at[0], time)}{again}"


def _moment_words(quarters: Fraction, time: SongTime) -> str:
    """A moment as players call it out: "bar 7 beat 2", "bar 7, the and of 2", "bar 7, in beat 2"."""
    place = time.place(quarters)
    beat, into = divmod(place.beat, 1)
    if not into:
        return f"bar {place.bar} beat {beat}"
    halved = into == Fraction(1, 2) and not time.meter(place.bar).compound
    return f"bar {place.bar}, {'the and of' if halved else 'in beat'} {beat}"
