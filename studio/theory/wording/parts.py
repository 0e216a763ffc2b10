"""Words for what parts play: figures, voicings and the chords that sound."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from studio.theory.parts.against_chart import Played
from studio.theory.parts.figure import Figure
from studio.theory.parts.sounding import Sounding
from studio.theory.parts.voicings import Doubling, Voicing, degree_name
from studio.theory.plain_english import interval_words, listed

NOTHING_SOUNDS = "nothing sounds here"
NO_FIGURE = "no plain figure"
_INVERSIONS = ("root position", "first inversion", "second inversion", "third inversion")
_TIMES = {2: "twice", 3: "three times", 4: "four times"}
_LONGEST_ORDER = 8  # degrees that can be read in two seconds


def figure_words(figure: Figure) -> str:
    """What a part plays: "F♯m arpeggio, rising 1–♭3–5–1", "left hand: Alberti bass on C, 1–5–3–5".

    The hand is said of parts that are written for two.
    """
    hand = {1: "right hand: ", 2: "left hand: "}.get(figure.staff, "")
    return f"{hand}{_figure_words(figure)}"


def _figure_words(figure: Figure) -> str:
    chords = "–".join(chord.text for chord in figure.chords)
    match figure.kind:
        case "":
            return NOTHING_SOUNDS if figure.sureness == 0 else NO_FIGURE
        case "arpeggio":
            return f"{chords} arpeggio, {figure.direction}{_order(figure)}"
        case "broken chord" if figure.name == "root and fifth":
            return f"root and fifth of {figure.chords[0].root},{_order(figure)}"
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
        case "block chords" if figure.name and figure.name != "rootless":
            return f"{chords}, {figure.name}"
        case "block chords" | "power chords":
            name = f", {figure.name}" if figure.name else ""
            return f"{figure.kind} {chords}".rstrip() + name
        case "bass and chords" if figure.name:
            return f"{figure.name} on {chords}" if chords else figure.name
        case "bass and chords":
            return f"{chords}: bass note, then chord" if chords else "bass note, then chord"
        case "line":
            return figure.name or "single line"
        case _:
            return figure.kind


def _order(figure: Figure) -> str:
    """The degrees as they follow, left out where they are too many to read."""
    return f" {'–'.join(figure.order)}" if len(figure.order) <= _LONGEST_ORDER else ""


def voicing_words(voicing: Voicing) -> str:
    """How a chord is laid out: "A/C♯, open, root doubled", "Am7, drop 2", "C7, close, no fifth"."""
    if voicing.chord is None:
        notes = "–".join(dict.fromkeys(str(pitch.name) for pitch in voicing.pitches))
        return f"{notes}, no chord" if notes else NOTHING_SOUNDS
    bass = voicing.pitches[0].name
    above = replace(voicing.chord, bass=None).text
    plain = bass.pc == voicing.chord.root.pc or "1" in voicing.missing  # another part has the bass
    said = [above if plain else f"{above}/{bass}"]
    said += [voicing.spacing] if voicing.spacing else []
    doubled = listed([degree_name(one.degree) for one in voicing.doublings])
    said += [f"{doubled} doubled"] if doubled else []
    said += [voicing_missing_words(voicing)] if voicing.missing else []
    return ", ".join(said)


def voicing_missing_words(voicing: Voicing) -> str:
    """The tones of the chord that do not sound: "no fifth", "rootless", ""."""
    names = [degree_name(degree) for degree in voicing.missing if degree != "1"]
    rootless = ["rootless"] if "1" in voicing.missing else []
    return ", ".join([*rootless, *([f"no {listed(names, 'or')}"] if names else [])])


def inversion_words(voicing: Voicing) -> str:
    """What lies in the bass: "first inversion"; for other tones "ninth in the bass"; "" without a chord."""
    if voicing.chord is None:
        return ""
    if voicing.inversion is not None:
        return _INVERSIONS[voicing.inversion]
    return f"{degree_name(voicing.bass)} in the bass"


def spread_words(voicing: Voicing) -> str:
    """From the lowest to the highest note: "a fifth", "two octaves and a third", "" for a single note."""
    return "" if voicing.spread == (0, 0) else interval_words(voicing.spread[0])


def hands_words(voicing: Voicing) -> str:
    """What each hand holds: "left A–E, right C♯–E–A", or "" where one staff has all."""
    if not (voicing.left and voicing.right):
        return ""
    left, right = ("–".join(str(pitch.name) for pitch in hand) for hand in (voicing.left, voicing.right))
    return f"left {left}, right {right}"


def doubling_words(doubling: Doubling) -> str:
    """One doubled tone: "root twice", "fifth three times"."""
    return f"{degree_name(doubling.degree)} {_TIMES.get(doubling.times, f'{doubling.times} times')}"


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
    if played.difference == "line":
        return "single line"
    written = "N.C." if played.written.chord is None else played.written.chord.text
    sounds = sounding_words(played.soundings)
    if played.difference == "fewer":
        return f"part of {written}"
    return f"chart {written}, played {sounds}" if played.contradicts else sounds
