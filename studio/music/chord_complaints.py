"""What is said of text that is not a chord symbol: one plain sentence each, with the place and the remedy."""

from __future__ import annotations

from studio.music.pitch import LETTERS


class ChordError(ValueError):
    """Text that is not a chord symbol. ``position`` is the 0-based first character that makes no sense;
    it equals the length of the text when the symbol stops too early."""

    def __init__(self, sentence: str, position: int) -> None:
        super().__init__(sentence)
        self.position = position


def no_root(text: str) -> str:
    """Of text that does not start with a root."""
    capital, rest = text[0].upper(), text[1:]
    if capital in LETTERS:
        minor = "" if rest[:1] in ("m", "-", "d", "°") else f", or {capital}m if minor was meant"
        return f"“{text}” starts with a small letter: roots are capitals, so write {capital}{rest}{minor}."
    if capital == "H":
        return f"“{text}” starts with H: write B for the German H, and Bb for the German B."
    if capital == "(":
        return (
            f"“{text}” starts with a bracket, which only one chord over another does, as (D|C): write a chord"
            " that players may leave out without it."
        )
    return f"“{text}” does not start with a note: a chord begins with its root, A to G."


def no_bass(text: str) -> str:
    """Of a slash that no bass follows; ``text`` is what does follow."""
    capital = f" Write it as a capital: {text[0].upper()}." if text[0].upper() in LETTERS else ""
    return f"“{text[0]}” is not a bass note: A to G follow a slash.{capital}"


def chord_for_bass(upper: str, lower: str) -> str:
    """Of a whole chord after a slash."""
    return f"A bass is one note: to set {upper} over the chord {lower}, write {upper}|{lower}."


def makes_no_sense(read: str, rest: str) -> str:
    """Of a symbol that was read so far and whose rest is strange, or missing."""
    if not rest:
        return f"“{read}” stops too early to be a chord symbol."
    if read[1:].strip("b#♭♯") == "" and rest[0] in "0O":
        return f"“{rest}” makes no sense after “{read}”: a diminished chord is written {read}° or {read}dim."
    return f"“{rest}” makes no sense after “{read}” in a chord symbol."
