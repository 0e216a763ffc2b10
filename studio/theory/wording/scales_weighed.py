"""What a comparison of scales says, in one short sentence: which notes decide, or would."""

from __future__ import annotations

from studio.music.pitch import NoteName
from studio.theory.melody.scales import Scale
from studio.theory.melody.scales_weighed import FEWEST_NOTES, Weighed
from studio.theory.plain_english import listed, sentence
from studio.theory.wording.modes import decides_words, foreign_words, missing_words, mode_words


def comparison_words(weighed: Weighed) -> tuple[str, ...]:
    """The sentence in fewer and fewer words, each a whole sentence."""
    reading = weighed.reading
    if not reading.holds:
        return _outside(weighed)
    if len(weighed.heard) < FEWEST_NOTES:
        names = [str(weighed.heard[place]) for place in sorted(weighed.heard)]
        return _sentences(f"only {listed(names)} {_sound(names)}, too little to tell a scale")
    foreign, rivals = foreign_words(reading), _rivals(weighed)
    if len(reading.candidates) > 1:
        said = (
            _take_turns(weighed) or decides_words(reading, in_full=True) or mode_words(reading, in_full=True)
        )
    else:
        said = decides_words(reading, in_full=True) or _alone(weighed)
    both = f"{said}; {rivals}" if rivals else said
    if foreign:
        return _sentences(f"{both}; {foreign}", f"{said}; {foreign}", said)
    return _sentences(both, said)


def comparison_alt(weighed: Weighed, part: str) -> str:
    """The comparison for someone who cannot see it: what sounds, what each scale has and lacks, what decides."""
    names = [str(weighed.heard[place]) for place in sorted(weighed.heard)]
    rows = "; ".join(_row(scale, weighed) for scale in weighed.scales)
    return f"Notes of {part} on {weighed.tonic}: {listed(names)}. {rows}. {comparison_words(weighed)[0]}"


def _row(scale: Scale, weighed: Weighed) -> str:
    missing = [str(note) for note in scale.notes(weighed.tonic) if _place(note, weighed) not in weighed.heard]
    foreign = _lacking(scale, weighed)
    said = [
        f"{listed(missing)} {_are(missing)} never heard" if missing else "",
        f"{listed(foreign)} {_are(foreign)} not in it" if foreign else "",
    ]
    name = _full_name(scale, weighed)
    return f"{name}: {', '.join(filter(None, said)) or 'all of its notes, and no other'}"


def _rivals(weighed: Weighed) -> str:
    """What the scales beside the answer would have in place of the notes that decide.

    "Dorian would have F♯, Phrygian B♭"; those that would have the same notes are named together.
    """
    having: dict[tuple[NoteName, ...], list[str]] = {}
    for scale in weighed.scales:
        if scale not in weighed.fitting and (notes := _instead(scale, weighed)):
            having.setdefault(notes, []).append(scale.name)
    said: list[str] = []
    for notes, names in having.items():
        would = "" if said else " would have"
        said.append(f"{listed(names)}{would} {listed(map(str, notes))}")
    return ", ".join(said)


def _instead(scale: Scale, weighed: Weighed) -> tuple[NoteName, ...]:
    """The notes of a scale on the letters of the deciding notes that it lacks, unless the answer has them too
    or they sound."""
    if not weighed.fitting:
        return ()
    answer = weighed.fitting[0]
    letters = {
        note.letter
        for place in weighed.telling
        if not scale.holds(place) and (note := answer.note_at(weighed.tonic, place)) is not None
    }
    return tuple(
        note
        for note in scale.notes(weighed.tonic)
        if note.letter in letters
        and not answer.holds(_place(note, weighed))
        and _place(note, weighed) not in weighed.heard
    )


def _take_turns(weighed: Weighed) -> str:
    """Where the two sevenths of a minor key both sound, and scales with either may be meant; else ""."""
    if {_place(note, weighed) for note in weighed.reading.both} != {10, 11}:
        return ""
    names = listed([scale.name for scale in weighed.fitting])
    return f"{listed(map(str, weighed.reading.both))} both sound: {names} take turns"


def _alone(weighed: Weighed) -> str:
    """Where nothing tells the answer from another scale: what is heard of it."""
    (candidate,) = weighed.reading.candidates
    much = "mostly" if candidate.foreign else "all that sounds is of"
    said = f"{much} {_full_name(candidate.scale, weighed)}"
    missing = missing_words(weighed.reading)
    return f"{said}, {missing}" if missing else weighed.reading.reason or said


def _outside(weighed: Weighed) -> tuple[str, ...]:
    """Where no scale holds every note: what the nearest one lacks, or what each of a person's does."""
    if len(weighed.scales) == 1:
        (scale,) = weighed.scales
        if weighed.mostly:
            return _sentences(f"mostly {_full_name(scale, weighed)}; {foreign_words(weighed.reading)}")
        names = _lacking(scale, weighed)
        return _sentences(f"not {_full_name(scale, weighed)}: {listed(names)} {_are(names)} not in it")
    lacking = [
        f"{scale.name} lacks {listed(names)}"
        for scale in weighed.scales
        if (names := _lacking(scale, weighed))
    ]
    return _sentences(", ".join(lacking), lacking[0])


def _lacking(scale: Scale, weighed: Weighed) -> list[str]:
    """What sounds and is not of a scale."""
    return [str(name) for place, name in sorted(weighed.heard.items()) if not scale.holds(place)]


def _full_name(scale: Scale, weighed: Weighed) -> str:
    return f"{weighed.tonic} {scale.name}"


def _are(names: list[str]) -> str:
    return "is" if len(names) == 1 else "are"


def _sound(names: list[str]) -> str:
    return "sounds" if len(names) == 1 else "sound"


def _place(note: NoteName, weighed: Weighed) -> int:
    return (note.pc - weighed.tonic.pc) % 12


def _sentences(*said: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(sentence(words) for words in said if words))
