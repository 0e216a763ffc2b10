"""Why a span is in a key, in one short sentence."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.place import Span
from studio.theory.harmony.belonging import belongs
from studio.theory.harmony.key_evidence import above, points_home, rests_at_home
from studio.theory.harmony.key_places import KeyPlace

_LEAST_BLUES = 8  # chords


def reason(places: Sequence[KeyPlace], key: Key, span: Span, sections: Sequence[tuple[str, Span]]) -> str:
    """The sentence for some places in one key, named by their section if they fill one.

    "In the verse, all 4 chords belong to A major, and it starts and ends on A."
    """
    said = _said(places, key)
    joined = said[0] if len(said) == 1 else f"{', '.join(said[:-1])}, and {said[-1]}"
    name = next((name for name, section in sections if section == span and name), "")
    if not name:
        return f"{joined[0].upper()}{joined[1:]}."
    article = "" if name[-1:].isdigit() else "the "  # the verse, but verse 2
    return f"In {article}{name}, {joined}."


def _said(places: Sequence[KeyPlace], key: Key) -> list[str]:
    chords = [place.chord for place in places if place.chord is not None]
    if not chords:
        return _said_of_melody(places, key)
    said = [_belonging(places, chords, key)]
    start, end = rests_at_home(places[0], key), rests_at_home(places[-1], key)
    if len(set(chords)) > 1 and (start or end):
        where = "starts and ends" if start and end else "starts" if start else "ends"
        said.append(f"it {where} on {_plain(chords[0] if start else chords[-1])}")
    led = _leads(places, key)
    if led is not None:
        home = "it" if len(said) > 1 else _plain(led[1])
        said.append(f"{_plain(led[0])} leads to {home}")
    if not led and not start and not end and _landings(places, key):
        said.append(f"the melody comes to rest on {key.tonic}")
    return said


def _belonging(places: Sequence[KeyPlace], chords: Sequence[Chord], key: Key) -> str:
    if blue := _blues(places, chords, key):
        return blue
    if len(set(chords)) == 1:
        how = "belongs to" if belongs(chords[0], key) else "is heard in"
        return f"its one chord {how} {key}"
    inside = sum(bool(belongs(chord, key)) for chord in chords)
    if not inside:
        return f"its chords are heard in {key}"
    count = f"all {inside}" if inside == len(chords) else f"{inside} of {len(chords)}"
    return f"{count} chords belong to {key}"


def _blues(places: Sequence[KeyPlace], chords: Sequence[Chord], key: Key) -> str:
    """What is said of a blues: its I7 and IV7, from a form of eight chords on; "" where it is none."""
    if key.mode == "minor" or key.tonic.pc not in places[0].homes or len(chords) < _LEAST_BLUES:
        return ""
    sevenths = [chord for chord in chords if chord.triad == "major" and chord.seventh == "♭7"]
    one = next((chord for chord in sevenths if above(chord.root, key) == 0), None)
    four = next((chord for chord in sevenths if above(chord.root, key) == 5), None)
    if one is None or four is None:
        return ""
    return f"{_plain(one)} and {_plain(four)} go to and fro as in a blues in {key.tonic}"


def _said_of_melody(places: Sequence[KeyPlace], key: Key) -> list[str]:
    scale = {note.pc for note in key.scale()} | ({_leading_tone(key)} if key.mode == "minor" else set())
    total = inside = 0.0
    for place in places:
        for pc, time in enumerate(place.melody):
            total += time
            inside += time * (pc in scale)
    said = [f"{'all' if inside == total else 'most'} of its notes belong to {key}"]
    if places[-1].lands == key.tonic.pc:
        said.append(f"it ends on {key.tonic}")
    return said


def _leading_tone(key: Key) -> int:
    """Pitch class of the leading tone."""
    return (key.tonic.pc + 11) % 12


def _leads(places: Sequence[KeyPlace], key: Key) -> tuple[Chord, Chord] | None:
    """The first V or vii° that goes to the tonic inside the span."""
    for one, two in pairwise(places):
        if one.chord is None or two.chord is None:
            continue
        if points_home(one.chord, key) and rests_at_home(two, key):
            return one.chord, two.chord
    return None


def _landings(places: Sequence[KeyPlace], key: Key) -> int:
    return sum(place.lands == key.tonic.pc for place in places)


def _plain(chord: Chord) -> str:
    """The chord's symbol without its bass."""
    return chord.text.partition("/")[0]
