"""One short sentence for each kind of reading: why the numeral is what it is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from studio.music.chord import Chord, Tone
from studio.music.key import Key
from studio.theory.harmony.applied import Applied, Target
from studio.theory.harmony.belonging import foreign_colours, strangers
from studio.theory.harmony.candidate import CADENTIAL, Candidate
from studio.theory.harmony.chains import Goal, Link, link_of
from studio.theory.harmony.chromatic import BLUES_TONIC, FLAT_SIX, LOCAL_TONIC
from studio.theory.harmony.path import Step
from studio.theory.harmony.remarks import ORDINALS, missing_third, stacked_on
from studio.theory.harmony.scale_degrees import spelled_in
from studio.theory.harmony.standing import Standing, lower_chord
from studio.theory.plain_english import listed


def reason_for(step: Step, goal: Goal) -> str:
    """The sentence for the reading of a step that leads to a goal."""
    standing, candidate = step.standing, step.candidate
    if candidate.name == CADENTIAL and candidate.applied is not None and standing.after is not None:
        sentence = cadential(standing.written, standing.after, candidate.applied)
    elif candidate.kind == "applied" and candidate.applied is not None and candidate.meant is None:
        sentence = applied(standing.written, candidate, candidate.applied, standing.before, goal)
    else:
        sentence = _sentence(standing, candidate, step.key, goal.chord)
    if standing.written.upper is not None:
        sentence = stacked_on(sentence, standing.written)
    open_tonic = standing.chord.triad == "power" and step.key.above(standing.chord.root) == 0
    return missing_third(sentence) if open_tonic else sentence


def _sentence(standing: Standing, candidate: Candidate, key: Key, goal: Chord | None) -> str:
    written = standing.written
    if candidate.kind in ("borrowed", "Neapolitan") and (whole := _resolved(standing)) is not None:
        alone = replace(standing, written=whole, chord=whole, model=whole, beside=None)
        of_whole = _sentence(alone, candidate, key, goal)
        return f"{written.text} goes with {whole.text}, which{of_whole.removeprefix(whole.text)}"
    if candidate.meant is not None and candidate.meant.triad != "diminished":
        return suspended(written, candidate.meant, key, candidate.applied)
    if candidate.meant is not None:
        home = candidate.applied or Applied("vii", Target(key.tonic, key.mode))
        return respelled(written, candidate.meant, home)
    if candidate.name == CADENTIAL and goal is not None:
        return cadential(written, goal)
    if candidate.name == "arrival six-four":
        return f"{written.text} comes home to {key.tonic} over its fifth, {standing.chord.lowest}."
    if candidate.kind == "diatonic":
        between = f", a {candidate.name}" if candidate.name else ""
        return f"{diatonic(written, key, candidate.how)[:-1]}{between}."
    if candidate.name == LOCAL_TONIC and standing.before is not None:
        return (
            f"{written.text} is a tonic for the moment, with a dominant of its own, {standing.before.text}."
        )
    if candidate.name in _LOANS:
        return f"{written.text} is borrowed from {candidate.source} and {_LOANS[candidate.name]}."
    if candidate.kind == "borrowed":
        return borrowed(written, standing.model, key, candidate.source)
    return chromatic(standing, candidate, key)


def _resolved(standing: Standing) -> Chord | None:
    """The chord with a third that a suspended or power chord is read as; None for any other."""
    return None if standing.beside is None else lower_chord(standing.beside)


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
    if candidate.name == FLAT_SIX:
        return f"{name} slides down a half step to {after}, the ♭VI7 of the minor blues."
    if candidate.name == BLUES_TONIC:
        return f"{name} is the tonic with the major third and the flat seventh of the blues."
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
    foreign = foreign_colours(lower_chord(chord), key)
    if how == "harmonic" and leading.pc in chord.pcs:
        return f"{chord.text} belongs to {key} with its raised seventh, {leading}."
    if foreign and key.above(chord.root) == 7 and chord.triad in ("major", "augmented"):
        return f"{chord.text} is the dominant of {key}, {_altered(chord, foreign, key)}."
    place = [note.pc for note in key.scale()].index(chord.root.pc)
    but = f"; its {listed(tone.degree for tone in foreign)} {_does_not(foreign)}" if foreign else ""
    return f"{chord.text} belongs to {key}, on its {ORDINALS[place]} degree{but}."


def _altered(chord: Chord, foreign: Sequence[Tone], key: Key) -> str:
    """What the tones of a dominant are that its key does not have: lent by the minor, or altered."""
    if chord.quality == "7alt":
        return "altered"
    lent = {note.pc for note in key.parallel.scale()}
    borrowed = all((chord.root.pc + tone.semitones) % 12 in lent for tone in foreign)
    named = listed(tone.degree for tone in foreign)
    return f"its {named} {'borrowed from the minor' if borrowed else 'altered'}"


def _does_not(foreign: Sequence[Tone]) -> str:
    return "does not" if len(foreign) == 1 else "do not"


def borrowed(chord: Chord, model: Chord, key: Key, source: str) -> str:
    """ "Dm comes from A minor: it has F where A major has F♯."

    ``model`` is the chord with its third, where ``chord`` is a sus or a power chord. It is spelled as the key
    would: Bmaj7 in E♭ major is C♭maj7 and has C♭ and G♭.
    """
    spelled = replace(model, root=spelled_in(key, model.root, model.triad == "diminished"))
    new = listed(str(note) for note, _ in strangers(spelled, key))
    own = listed(str(note) for _, note in strangers(spelled, key))
    respelled = f" (as {replace(spelled, bass=None).text})" if spelled.root != model.root else ""
    return f"{chord.text}{respelled} comes from {source}: it has {new} where {key} has {own}."


_INSTEAD: dict[Link, str] = {
    "": "changed in quality",
    "dominant": "as a dominant in its turn",
    "ii": "as the next ii",
}


def applied(chord: Chord, candidate: Candidate, reading: Applied, before: Chord | None, goal: Goal) -> str:
    """ "C♯7 is the dominant of F♯m, which follows." """
    target = _name(reading)
    role = {"V": "the dominant", "vii": "the leading-tone chord", "ii": "the ii"}[reading.base]
    if reading.base == "ii":
        return f"{chord.text} prepares the dominant of {target} that comes next, as its ii."
    if goal.met:
        return f"{chord.text} is {role} of {target}, which follows."
    following = goal.chord
    if following is None:
        return f"{chord.text} is {role} of {target}, but nothing follows."
    if following.root.pc == reading.target.root.pc:
        return f"{chord.text} is {role} of {target}; {following.text} follows, {_INSTEAD[link_of(candidate, goal)]}."
    if reading.target.is_met_by(before):
        return f"{chord.text} is {role} of {target}, which was just heard; {following.text} follows."
    return f"{chord.text} is {role} of {target}, but {following.text} follows."


def suspended(chord: Chord, meant: Chord, key: Key, reading: Applied | None) -> str:
    """ "Gm7/C sounds as C9sus4, the suspended dominant of F major." """
    of = f"{key}" if reading is None else f"{_name(reading)}, which follows"
    held = "suspended " if meant.triad == "suspended" else ""
    return f"{chord.text} sounds as {meant.text}, the {held}dominant of {of}."


def respelled(chord: Chord, meant: Chord, reading: Applied) -> str:
    """ "B°7 sounds as G♯°7, the leading-tone chord of Am, which follows." """
    leads = f"the leading-tone chord of {_name(reading)}, which follows"
    return f"{chord.text} sounds as {Chord.of(meant.root, meant.quality).text}, {leads}."


def deceptive(chord: Chord) -> str:
    """After V, a chord in the tonic's place."""
    return f"{chord.text} stands where the tonic was expected after V, a deceptive turn."


def cadential(chord: Chord, following: Chord, reading: Applied | None = None) -> str:
    """The six-four that delays V, or the V of another chord of the key."""
    of = "" if reading is None else f" of {_name(reading)}"
    return f"{chord.text} holds back {following.text}, a cadential six-four{of}."


def _name(reading: Applied) -> str:
    return f"{reading.target.root}{'m' if reading.target.triad == 'minor' else ''}"
