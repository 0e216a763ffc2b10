"""Writing a chord as a Roman numeral: case, accidental, quality, figures.

House rules, where the trade is of two minds:

- What follows the numeral is what the chord symbol has, less what the case of the numeral already says: Em7
  is iii7, Fmaj7 is IVmaj7, so that a plain 7 is always a minor seventh, whatever the key.
- Inversions are figured: I6, I6/4, V6/5, V4/3, V4/2; a major seventh says so, IVmaj6/5. A triad over its own
  seventh, as C/B♭ or Am/G, is that seventh chord in third inversion.
- A sixth added to a chord is written add6, since I6 means a first inversion; I6/9 can mean nothing else and stays.
- The major seventh of a minor chord stands in brackets, i(maj7), and keeps its figures, i(maj7)4/2.
- Only triads and seventh chords are figured. Over another bass, or with a ninth, a sus or an added tone, the
  numeral stays plain and the reason names the bass.
- A chord without its third takes the case of the chord that the key has there.
"""

from __future__ import annotations

from studio.music.chord import Chord, Triad
from studio.music.key import Key
from studio.theory.harmony.reading import NumeralDisplay, Style
from studio.theory.harmony.scale_degrees import numeral_root, root_degree

_TRIADS = ("", "m", "dim", "aug")
_SEVENTHS = ("7", "maj7", "m7", "mMaj7", "m7♭5", "dim7", "dimMaj7")
_TRIAD_FIGURES = {3: ("6",), 5: ("6", "4")}
_SEVENTH_FIGURES = {3: ("6", "5"), 5: ("4", "3"), 7: ("4", "2")}
_WORDS = {"dim": "°", "aug": "+", "maj": "maj", "m": "", "": ""}


def with_bass_seventh(chord: Chord) -> Chord:
    """A major or minor triad over its own seventh read as that seventh chord; any other chord as it is.

    C/B♭ is C7/B♭, C/B is Cmaj7/B, Am/G is Am7/G.
    """
    if chord.changes or chord.quality not in ("", "m") or chord.bass is None:
        return chord
    seventh = {10: "7", 11: "maj7"}.get((chord.bass.pc - chord.root.pc) % 12)
    if seventh is None:
        return chord
    small = {"7": "m7", "maj7": "mMaj7"}
    return Chord.of(chord.root, seventh if chord.quality == "" else small[seventh], (), chord.bass)


def figures(chord: Chord) -> tuple[str, ...]:
    """The figures of the inversion, from the top: ("6", "5"); none in root position or when unfigured."""
    tone = chord.bass_tone
    if chord.bass is None or chord.changes or tone is None:
        return ()
    if chord.quality in _TRIADS:
        return _TRIAD_FIGURES.get(tone.number, ())
    return _SEVENTH_FIGURES.get(tone.number, ()) if chord.quality in _SEVENTHS else ()


def suffix(chord: Chord) -> str:
    """What the numeral carries after it, apart from figures: "7", "maj7", "°7", "ø7", "add9", "add6"."""
    display = chord.display
    word, rest = _WORDS[display.quality], display.raised
    if chord.triad == "diminished" and rest[1:] == "♭5" and rest[0].isdigit():
        word, rest = "ø", rest[0]
    if chord.quality in ("m9", "m11") and "♭5" in chord.changes and len(chord.changes) == 1:
        word, rest = "ø", chord.quality[1:]
    if rest.startswith("6") and not rest.startswith("6/9"):
        rest = f"add{rest}"
    if chord.triad == "minor" and rest.startswith("maj"):
        return f"{word}({rest})"
    if figures(chord) and chord.quality in _SEVENTHS:
        rest = rest.removesuffix("7")
    return word + rest


def write_numeral(chord: Chord, key: Key, style: Style, triad: Triad) -> NumeralDisplay:
    """The numeral of a chord in a key. ``triad`` decides the case when the chord has no third of its own."""
    chord = with_bass_seventh(chord)
    known = chord.triad if chord.triad in ("major", "minor", "diminished", "augmented") else triad
    diminished = known == "diminished"
    degree = root_degree(key, chord.root, diminished)
    accidental, base = numeral_root(degree, known in ("minor", "diminished"), diminished, key, style)
    return NumeralDisplay(accidental, base, suffix(chord), figures(chord))


def write_applied(chord: Chord, base: str, target: NumeralDisplay) -> NumeralDisplay:
    """The numeral of an applied chord: ``base`` is "V", "vii" or "ii", ``target`` what it points to."""
    chord = with_bass_seventh(chord)
    of = f"{target.accidental}{target.base}"
    return NumeralDisplay("", base, suffix(chord), figures(chord), of)
