"""Why a span is in a key, in one short sentence."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.place import Span
from studio.theory.harmony.belonging import belongs
from studio.theory.harmony.key_motion import is_dominant_seventh
from studio.theory.harmony.key_places import KeyPlace
from studio.theory.harmony.key_roles import above, points_home, rests_at_home

_LEAST_BLUES, _LEAST_VAMP = 8, 4  # chords


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
    first, last = _plain(chords[0]), _plain(chords[-1])
    if len(set(chords)) > 1 and (start or end):
        said.append(f"it {_edges(first if start else '', last if end else '')}")
    led = _leads(places, key)
    if led is not None:
        arrival = _plain(led[1])
        told = {name for name, home in ((first, start), (last, end)) if home} == {arrival}
        said.append(f"{_plain(led[0])} leads to {'it' if len(said) > 1 and told else arrival}")
    if not led and not start and not end and _landings(places, key):
        said.append(f"the melody comes to rest on {key.tonic}")
    return said


def _edges(first: str, last: str) -> str:
    """On which forms of the tonic it starts and ends, each by its own name; "" where it is another chord."""
    if first == last:
        return f"starts and ends on {first}"
    return " and ".join(f"{verb} on {name}" for verb, name in (("starts", first), ("ends", last)) if name)


def _belonging(places: Sequence[KeyPlace], chords: Sequence[Chord], key: Key) -> str:
    if told := _blues(places, chords, key) or _dorian_vamp(chords, key) or _chain(places, key):
        return told
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


def _dorian_vamp(chords: Sequence[Chord], key: Key) -> str:
    """What is said of i and IV that go to and fro; "" where other chords sound."""
    one = next((chord for chord in chords if above(chord.root, key) == 0), None)
    four = next((chord for chord in chords if above(chord.root, key) == 5), None)
    if key.mode == "major" or one is None or four is None or four.triad != "major":
        return ""
    if len({chord.root.pc for chord in chords}) > 2 or len(chords) < _LEAST_VAMP:
        return ""
    return f"{_plain(one)} and {_plain(four)} go to and fro as in {key.tonic} Dorian"


def _chain(places: Sequence[KeyPlace], key: Key) -> str:
    """What is said of nothing but dominants that lead to one another, and the last of them to the tonic."""
    first, last = places[0].chord, places[-1].chord
    sevenths = all(place.chord is not None and is_dominant_seventh(place.chord) for place in places)
    if first is None or last is None or not sevenths or not places[0].moving or not points_home(last, key):
        return ""
    if any(not place.moving and place.chord and place.chord.root.pc != last.root.pc for place in places):
        return ""
    return f"{_plain(first)} to {_plain(last)} is a chain of dominants that leads to {key.tonic}"


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
    return replace(chord, bass=None, upper=None).text
