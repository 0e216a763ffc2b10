"""One short sentence for each kind of reading: why the numeral is what it is."""

from __future__ import annotations

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.harmony.applied import Applied, Target
from studio.theory.harmony.belonging import strangers
from studio.theory.harmony.candidate import Candidate
from studio.theory.harmony.path import Step
from studio.theory.harmony.reading import Function
from studio.theory.harmony.scale_degrees import degree_in
from studio.theory.harmony.standing import Standing

_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh")
_TONES = dict(enumerate((*_ORDINALS, "octave", "ninth", "tenth", "eleventh", "twelfth", "thirteenth"), 1))


def reason_for(step: Step, goal: Chord | None, resolved: bool) -> str:
    """The sentence for the reading of a step.

    ``goal`` is the harmony it moves to, and ``resolved`` whether that is the one it was waiting for.
    """
    standing, candidate = step.standing, step.candidate
    sentence = _sentence(standing, candidate, step.key, goal, resolved)
    return missing_third(sentence) if standing.chord.triad == "power" else sentence


def _sentence(standing: Standing, candidate: Candidate, key: Key, goal: Chord | None, resolved: bool) -> str:
    written = standing.written
    if candidate.meant is not None:
        home = candidate.applied or Applied("vii", Target(key.tonic, key.mode))
        return respelled(written, candidate.meant, home)
    if candidate.name == "cadential six-four" and goal is not None:
        return cadential(written, goal)
    if candidate.kind == "applied" and candidate.applied is not None:
        return applied(written, candidate.applied, standing.before, goal, resolved)
    if candidate.kind == "diatonic":
        between = f", a {candidate.name}" if candidate.name else ""
        return f"{diatonic(written, key, candidate.how)[:-1]}{between}."
    if candidate.name in _LOANS:
        return f"{written.text} is borrowed from {candidate.source} and {_LOANS[candidate.name]}."
    if candidate.kind == "borrowed":
        return borrowed(written, standing.model, key, candidate.source)
    return chromatic(standing, candidate, key)


_LOANS = {
    "Picardy third": "brings home a major tonic, a Picardy third",
    "backdoor dominant": "rises a whole step home, the backdoor dominant",
}


def chromatic(standing: Standing, candidate: Candidate, key: Key) -> str:
    """ "D♭7 slides down a half step to C, in place of its dominant." """
    name = standing.written.text
    before, after = (chord.text if chord else "" for chord in (standing.before, standing.after))
    kind = candidate.kind
    if kind == "substitute dominant":
        return f"{name} slides down a half step to {after}, in place of its dominant."
    if kind == "augmented sixth":
        low, high = key.tonic.transposed(5, 8), key.tonic.transposed(3, 6)
        article, five = "an" if candidate.name.startswith("I") else "a", key.tonic.transposed(4, 7)
        return f"{name} is {article} {candidate.name}: {low} and {high} press outward to {five}."
    if kind == "Neapolitan":
        return f"{name} is the major chord on the lowered second degree, the Neapolitan."
    if kind == "blues":
        return f"{name} has the flat seventh of the blues."
    if kind == "common-tone diminished":
        return f"{name} keeps the root of {_kept(standing)}: common-tone diminished."
    if candidate.name == "neighbour chord":
        return f"{name} slides a half step away from {before} and back."
    if candidate.name == "sliding diminished":
        return f"{name} slides down a half step to {after}."
    if candidate.name == "related ii":
        return f"{name} is the ii that goes with {after}."
    if kind == "passing":
        return f"{name} passes by {'step' if candidate.name else 'half step'} between {before} and {after}."
    if kind == "chromatic mediant":
        return f"{name} is a third from the tonic and outside {key}, a chromatic mediant."
    if candidate.name == "raised fifth":
        return f"{name} raises the fifth of its chord by a half step."
    return f"{name} is neither in {key} nor in the keys that it borrows from."


def _kept(standing: Standing) -> str:
    """The neighbour whose root a common-tone diminished chord holds; the one that follows, if both do."""
    holds = (other for other in (standing.after, standing.before) if other is not None)
    return next((other.text for other in holds if other.root.pc in standing.model.pcs), "its neighbour")


def diatonic(chord: Chord, key: Key, how: str) -> str:
    """ "Em belongs to C major, on its third degree." """
    leading = key.tonic.transposed(-1, -1)
    if how == "harmonic" and leading.pc in chord.pcs:
        return f"{chord.text} belongs to {key} with its raised seventh, {leading}."
    place = [note.pc for note in key.scale()].index(chord.root.pc)
    return f"{chord.text} belongs to {key}, on its {_ORDINALS[place]} degree."


def borrowed(chord: Chord, model: Chord, key: Key, source: str) -> str:
    """ "Dm comes from A minor: it has F where A major has F♯."

    ``model`` is the chord with its third, where ``chord`` is a sus or a power chord.
    """
    new = " and ".join(str(note) for note, _ in strangers(model, key))
    own = " and ".join(str(note) for _, note in strangers(model, key))
    return f"{chord.text} comes from {source}: it has {new} where {key} has {own}."


def applied(
    chord: Chord, reading: Applied, before: Chord | None, following: Chord | None, resolved: bool
) -> str:
    """ "C♯7 is the V of F♯m, which follows." """
    target = _name(reading)
    role = {"V": "the dominant", "vii": "the leading-tone chord", "ii": "the ii"}[reading.base]
    if reading.base == "ii":
        return f"{chord.text} prepares the dominant of {target} that comes next, as its ii."
    if resolved:
        return f"{chord.text} is {role} of {target}, which follows."
    if following is None:
        return f"{chord.text} is {role} of {target}, but nothing follows."
    if following.root.pc == reading.target.root.pc:
        dominant = following.triad == "major" and following.seventh != "7"
        changed = "as a dominant in its turn" if dominant else "changed in quality"
        return f"{chord.text} is {role} of {target}; {following.text} follows, {changed}."
    if reading.target.is_met_by(before):
        return f"{chord.text} is {role} of {target}, which was just heard; {following.text} follows."
    return f"{chord.text} is {role} of {target}, but {following.text} follows."


def respelled(chord: Chord, meant: Chord, reading: Applied) -> str:
    """ "B°7 sounds as G♯°7, the leading-tone chord of Am, which follows." """
    leads = f"the leading-tone chord of {_name(reading)}, which follows"
    return f"{chord.text} sounds as {Chord.of(meant.root, meant.quality).text}, {leads}."


def deceptive(chord: Chord) -> str:
    """After V, a chord in the tonic's place."""
    return f"{chord.text} stands where the tonic was expected after V, a deceptive turn."


def cadential(chord: Chord, following: Chord) -> str:
    """The six-four that delays V."""
    return f"{chord.text} holds back {following.text}, a cadential six-four."


def _name(reading: Applied) -> str:
    return f"{reading.target.root}{'m' if reading.target.triad == 'minor' else ''}"


def missing_third(sentence: str) -> str:
    """The sentence, with the warning that a power chord is neither major nor minor."""
    return f"{sentence[:-1]}; its third is missing, so it is neither major nor minor."


def with_bass(sentence: str, chord: Chord, key: Key, function: Function, figured: bool) -> str:
    """The sentence, with the bass named where the figures do not say it."""
    if chord.bass is None or figured:
        return sentence
    bass = chord.bass
    if chord.bass_tone is None and (bass.pc - key.tonic.pc) % 12 == 7 and function == "dominant":
        return f"{sentence[:-1]}; over {bass} it sounds as {bass}9sus4."
    return f"{sentence[:-1]}; the bass is {bass}, {_bass_place(chord, key, bass)}."


def _bass_place(chord: Chord, key: Key, bass: NoteName) -> str:
    if chord.bass_tone is not None:
        return f"its {_TONES[chord.bass_tone.number]}"
    return f"degree {degree_in(key, bass)} of the key"
