"""One symbol of music as words: a note, a chord, a Roman numeral, a degree, figures.

Each function gives None for what is no such symbol. They read what is written, not what is meant: a symbol need
make no sense to be read aloud.
"""

from __future__ import annotations

import math
import re

from studio.music.aloud.signs import ACCIDENTALS, number

_ACCIDENTAL = r"(?:♭♭|♯♯|bb|##|[♭♯♮𝄫𝄪b#])"
_ROOT = rf"[A-G]{_ACCIDENTAL}?"
_SUFFIX = re.compile(
    r"(?P<major>maj|Maj|ma(?=\d)|M(?=\d)|[Δ△∆]|(?<=m)\+(?=7))"
    r"|(?P<minor>min|mi(?=\d)|m|-(?=[679]|1[13]))|(?P<half>[øØ⌀∅])"
    r"|(?P<dim>dim|[°º]|o(?=7))|(?P<aug>aug|\+(?!\d)|^\+5|^\+(?=[79]))|(?P<plus>\+(?=\d))|(?P<sus>sus)"
    r"|(?P<add>add(?=[♭♯b#]?\d))|(?P<no>no(?=\d))|(?P<alt>(?<=[\d(])alt)"
    r"|(?P<six>6/9)|(?P<number>1[0-9]|[1-9])"
    rf"|(?P<accidental>{_ACCIDENTAL}(?=\d))|(?P<between>[(),]+)"
)
_LONE_TRIANGLE = re.compile(r"[Δ△∆](?!\d)")
_SAID = {
    "major": "major", "minor": "minor", "half": "half diminished", "dim": "diminished", "aug": "augmented",
    "plus": "sharp", "sus": "sus", "add": "add", "no": "no", "alt": "altered", "six": "six nine",
}  # fmt: skip
_CHORD = re.compile(rf"(?P<root>{_ROOT})(?P<suffix>[^/|]*(?:6/9[^/|]*)?)(?:/(?P<bass>{_ROOT}))?")
_NO_CHORD = re.compile(r"N\.C\.?|NC|N/C")
_NUMERAL = re.compile(
    r"(?P<accidental>[♭♯b#]?)(?P<base>VII|VI|IV|V|III|II|I|vii|vi|iv|v|iii|ii|i)"
    r"(?P<suffix>(?!m(?!aj|\d)|-(?!7|9|11))(?:[^/]|(?<=6)/(?=9))*?)"
    r"(?P<figures>6/4|6/5|6/3|5/3|4/3|4/2)?(?:/(?P<of>[♭♯b#]?[IViv].*))?"
)
_INVERSIONS = ("6", "64", "65", "43", "42", "2")
"""Figures of an inversion, which leave a numeral what it is."""
_SIXTH = re.compile(r"(?P<name>It|Ger|Gr|Fr|N)\+?(?P<figures>6/4|6/5|6/3|6|4/3)(?:/(?P<of>[♭♯b#]?[IViv].*))?")
_SIXTHS = {"It": "Italian", "Ger": "German", "Gr": "German", "Fr": "French", "N": "Neapolitan"}
_DEGREE = re.compile(r"(?P<accidental>♭♭|♯♯|bb|##|[♭♯♮𝄫𝄪b#])(?P<number>1[0-9]|[1-9])(?P<th>th|rd|nd|st|ths)?")
_STACK = re.compile(r"(?:[78]/)?(?:5/3|6/5|6/3|4/3)|8/6/4|6/4/[23]|6/5/3")
_FRACTION = re.compile(r"(?P<count>[1-9]\d?)/(?P<of>[1-9]\d?)")
_SHARES: dict[int, str] = {
    2: "half", 3: "third", 4: "quarter", 5: "fifth", 6: "sixth", 7: "seventh", 8: "eighth", 9: "ninth", 10: "tenth",
    12: "twelfth", 16: "sixteenth",
}  # fmt: skip
_METER = re.compile(r"(?P<count>\d{1,2})/(?P<of>2|4|8|16)")

_COUNTED = {"i": "one", "ii": "two", "iii": "three", "iv": "four", "v": "five", "vi": "six", "vii": "seven"}
_SMALL_BY_NATURE, _LARGE_BY_NATURE = ("ii", "iii", "vi", "vii"), ("I", "IV", "V")
_WORDS = ("Ebb",)  # words that could be read as chords, and never are meant so


def symbol(text: str) -> str | None:
    """The words for a symbol that can be nothing else: F♯, Am7, V7/vi, ♭6, 6/8; None for everything else."""
    return chord(text) or numeral(text) or sixth(text) or degree(text) or meter(text) or stack(text)


def chord(text: str) -> str | None:
    """A note or a chord that shows by more than its letter that it is one: "F sharp", "B minor seven"."""
    if _NO_CHORD.fullmatch(text):
        return "no chord"
    if "|" in text and text.count("|") == 1:
        upper, lower = (_chord(half) for half in text.strip("()").split("|"))
        return f"{upper} over {lower}" if upper and lower else None
    return None if len(text) < 2 or text in _WORDS else _chord(text)


def _chord(text: str) -> str | None:
    found = _CHORD.fullmatch(text)
    suffix = None if found is None else _suffix(found["suffix"])
    if found is None or suffix is None:
        return None
    over = f"over {_note(found['bass'])}" if found["bass"] else ""
    return _joined(_note(found["root"]), suffix, over)


def _note(text: str) -> str:
    return _joined(text[0], ACCIDENTALS[text[1:]])


def _suffix(text: str) -> str | None:
    """What follows a root or a numeral, part by part; None where a part is no part of a symbol."""
    if text[-1:] in (",", "(") or text.count("(") != text.count(")"):
        return None
    words, at = [], 0
    while at < len(text):
        found = _SUFFIX.match(text, at)
        if found is None or found.lastgroup is None:
            return None
        at, kind = found.end(), found.lastgroup
        if kind == "number":
            words.append(number(found[0]))
        elif kind == "accidental":
            words.append(ACCIDENTALS[found[0]])
        else:
            words.append(_SAID.get(kind, ""))
    said = _joined(*words)
    if _LONE_TRIANGLE.match(text):
        return said.replace("major", "major seven", 1)
    return said.replace("half diminished seven", "half diminished")


def numeral(text: str) -> str | None:
    """A Roman numeral: "flat seven", "five seven of six". A lone I or i, which may be a word, is none.

    Small numerals are minor and large ones major. It is said where the numeral is not what its degree has in a
    major key: "minor four", "major two"; after an accidental it follows, "flat three minor".
    """
    return None if text in ("I", "i", "v") else numeral_in_a_chain(text)


def numeral_in_a_chain(text: str) -> str | None:
    """A Roman numeral among others, where I and i are numerals too."""
    found = _NUMERAL.fullmatch(text)
    if found is None:
        return None
    suffix = _suffix(found["suffix"])
    of = numeral_in_a_chain(found["of"]) if found["of"] else ""
    if suffix is None or of is None:
        return None
    figures = _apart(found["figures"]) if found["figures"] else ""
    if found["suffix"] in _INVERSIONS:
        figures, suffix = _joined(*map(number, found["suffix"]), figures), ""
    base = _with_quality(found["accidental"], found["base"], suffix)
    return _joined(base, suffix, figures, f"of {of}" if of else "")


def plain_numeral(text: str) -> str | None:
    """A Roman number that counts things, as in Part II; None for anything else."""
    return _COUNTED.get(text.lower()) if text.isupper() else None


def sixth(text: str) -> str | None:
    """A chord with a sixth that has a name: "German sixth", "Neapolitan sixth", "French four three"."""
    found = _SIXTH.fullmatch(text)
    of = numeral_in_a_chain(found["of"]) if found and found["of"] else ""
    if found is None or of is None:
        return None
    figures = "sixth" if found["figures"] == "6" else _apart(found["figures"])
    return _joined(_SIXTHS[found["name"]], figures, f"of {of}" if of else "")


def stack(text: str) -> str | None:
    """Figures over a bass, one over another: "five three"."""
    return _apart(text) if _STACK.fullmatch(text) else None


def _with_quality(accidental: str, base: str, suffix: str) -> str:
    """A numeral's number, with "minor" or "major" where that is not understood."""
    said = _COUNTED[base.lower()]
    minor = base.islower()
    if suffix.startswith(("diminished", "half", "augmented")):
        return _joined(ACCIDENTALS[accidental], said)
    if accidental:
        return _joined(ACCIDENTALS[accidental], said, "minor" if minor else "")
    if suffix and minor:
        return _joined(said, "" if suffix.startswith("minor") else "minor")
    if suffix.startswith("minor"):
        return said
    if (minor and base not in _SMALL_BY_NATURE) or (not minor and base not in (*_LARGE_BY_NATURE, "VII")):
        return _joined("minor" if minor else "major", said)
    return said


def degree(text: str) -> str | None:
    """A degree with its accidental: "flat six", "sharp eleventh"."""
    found = _DEGREE.fullmatch(text)
    if found is None:
        return None
    named = found["number"] + found["th"] if found["th"] else number(found["number"])
    return _joined(ACCIDENTALS[found["accidental"]], named)


def meter(text: str) -> str | None:
    """A meter: "six eight". Halves and quarters of one are fractions and none of these."""
    found = _METER.fullmatch(text)
    if found is None or found["count"] in ("0", "1"):
        return None
    return _joined(number(found["count"]), number(found["of"]))


def fraction(text: str) -> str | None:
    """A share of something: "three quarters". One that could be less is none, since 6/8 and 2/4 are meters."""
    found = _FRACTION.fullmatch(text)
    count, of = (int(found["count"]), int(found["of"])) if found else (0, 0)
    if count >= of or of not in _SHARES or math.gcd(count, of) > 1:
        return None
    return _joined(number(str(count)), _SHARES[of] + ("s" if count > 1 else ""))


def _apart(figures: str) -> str:
    return _joined(*map(number, figures.split("/")))


def _joined(*words: str) -> str:
    return " ".join(word for word in words if word)
