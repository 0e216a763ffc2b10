"""Words for what parts play: figures, voicings and the chords that sound."""

from __future__ import annotations

from collections.abc import Sequence

from studio.theory.parts.against_chart import Played
from studio.theory.parts.figure import Figure
from studio.theory.parts.sounding import Sounding
from studio.theory.parts.voicings import Doubling, Voicing, tone_name

NOTHING_SOUNDS = "nothing sounds here"
NO_FIGURE = "no plain figure"
_INVERSIONS = ("root position", "first inversion", "second inversion", "third inversion")
_INTERVALS = ("unison", "second", "third", "fourth", "fifth", "sixth", "seventh")
_NUMBERS = {2: "two", 3: "three", 4: "four", 5: "five", 6: "six"}
_TIMES = {2: "twice", 3: "three times", 4: "four times"}
_LONGEST_ORDER = 8  # degrees that can be read in two seconds


def figure_words(figure: Figure) -> str:
    """What a part plays: "F♯m arpeggio, rising 1–♭3–5–8", "Alberti bass on C, 1–5–3–5", "power chords A5–D5"."""
    chords = "–".join(chord.text for chord in figure.chords)
    match figure.kind:
        case "":
            return NOTHING_SOUNDS if figure.sureness == 0 else NO_FIGURE
        case "arpeggio":
            return f"{chords} arpeggio, {figure.direction}{_order(figure)}"
        case "broken chord":
            name = f"{figure.name} on {chords}" if figure.name else f"{chords} broken"
            return f"{name},{_order(figure)}" if figure.order else name
        case "scale run":
            return f"{figure.name or 'scale'} run, {figure.direction}"
        case "parallel lines":
            return f"parallel {figure.name}"
        case "octaves":
            return figure.name or "in octaves"
        case "power chords" if figure.name:
            return f"{chords} {figure.name}, fifth and sixth by turns"
        case "block chords" if figure.order:
            return f"{' and '.join(figure.order)} of {chords}"
        case "block chords" | "power chords":
            return f"{figure.kind} {chords}".rstrip()
        case "bass and chords":
            return f"{chords}, bass and chords by turns"
        case "line":
            return "single line"
        case _:
            return figure.kind


def _order(figure: Figure) -> str:
    """The degrees as they follow, left out where they are too many to read.

    In broken chords what lies above a 10 is named as if it were an octave lower: 3–5–8–5, not 3–12–8–12.
    """
    order = figure.order
    if figure.kind == "broken chord":
        order = tuple(_reduced(degree) for degree in order)
    return f" {'–'.join(order)}" if len(order) <= _LONGEST_ORDER else ""


def _reduced(degree: str) -> str:
    number = degree.lstrip("♭♯")
    return degree if int(number) <= 10 else f"{degree[: len(degree) - len(number)]}{int(number) - 7}"


def voicing_words(voicing: Voicing) -> str:
    """How a chord is laid out: "A/C♯, open, root doubled", "Am7, drop 2", "C7, close, no fifth"."""
    if voicing.chord is None:
        notes = "–".join(dict.fromkeys(str(pitch.name) for pitch in voicing.pitches))
        return f"{notes}, no chord" if notes else NOTHING_SOUNDS
    bass = voicing.pitches[0].name
    root = voicing.chord.text.split("/")[0] if voicing.chord.bass is not None else voicing.chord.text
    plain = bass.pc == voicing.chord.root.pc or "1" in voicing.missing  # another part has the bass
    said = [root if plain else f"{root}/{bass}"]
    said += [voicing.spacing] if voicing.spacing else []
    said += (
        [f"{_list([tone_name(one.degree) for one in voicing.doublings])} doubled"]
        if voicing.doublings
        else []
    )
    said += [voicing_missing_words(voicing)] if voicing.missing else []
    return ", ".join(said)


def voicing_missing_words(voicing: Voicing) -> str:
    """The tones of the chord that do not sound: "no fifth", "rootless", ""."""
    names = [tone_name(degree) for degree in voicing.missing if degree != "1"]
    rootless = ["rootless"] if "1" in voicing.missing else []
    return ", ".join([*rootless, *([f"no {_list(names, 'or')}"] if names else [])])


def inversion_words(voicing: Voicing) -> str:
    """What lies in the bass: "first inversion"; for other tones "ninth in the bass"; "" without a chord."""
    if voicing.chord is None:
        return ""
    if voicing.inversion is not None:
        return _INVERSIONS[voicing.inversion]
    return f"{tone_name(voicing.bass)} in the bass"


def spread_words(voicing: Voicing) -> str:
    """From the lowest to the highest note: "a fifth", "two octaves and a third", "" for a single note."""
    if voicing.spread == (0, 0):
        return ""
    octaves, step = divmod(voicing.spread[0], 7)
    if octaves == 0:
        return f"a {_INTERVALS[step]}"
    whole = "an octave" if octaves == 1 else f"{_NUMBERS.get(octaves, octaves)} octaves"
    return f"{whole} and a {_INTERVALS[step]}" if step else whole


def hands_words(voicing: Voicing) -> str:
    """What each hand holds: "left A–E, right C♯–E–A", or "" where one staff has all."""
    if not (voicing.left and voicing.right):
        return ""
    left, right = ("–".join(str(pitch.name) for pitch in hand) for hand in (voicing.left, voicing.right))
    return f"left {left}, right {right}"


def doubling_words(doubling: Doubling) -> str:
    """One doubled tone: "root twice", "fifth three times"."""
    return f"{tone_name(doubling.degree)} {_TIMES.get(doubling.times, f'{doubling.times} times')}"


def sounding_words(soundings: Sounding | Sequence[Sounding]) -> str:
    """The chords that sound: "A/C♯", "Asus4, then A"; a single sus chord "Asus4, resolving to A"."""
    found = [soundings] if isinstance(soundings, Sounding) else list(soundings)
    named = [one for one in found if one.chord is not None]
    if not named:
        notes = dict.fromkeys(str(pitch.name) for one in found for pitch in one.pitches)
        return f"{'–'.join(notes)}, no chord" if notes else NOTHING_SOUNDS
    texts = [one.chord.text for one in named if one.chord is not None]
    last = named[-1].resolves_to
    tail = f", resolving to {last.text}" if last is not None else ""
    return ", then ".join(texts) + tail


def played_words(played: Played) -> str:
    """What sounds beside what the chart says: "chart A, played A7"; the chart's chord where they agree."""
    written = "N.C." if played.written.chord is None else played.written.chord.text
    sounds = sounding_words(played.soundings)
    if played.difference == "fewer":
        return f"part of {written}"
    return f"chart {written}, played {sounds}" if played.contradicts else sounds


def _list(names: Sequence[str], word: str = "and") -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} {word} {names[-1]}"
