"""The keys of an excerpt, and of a voice over it, with what each holds."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Annotated, Any, ClassVar

from pydantic import BeforeValidator, Field, PlainValidator, ValidationInfo

from studio.music.place import Span
from studio.project import amounts
from studio.project.callouts import PlaceText, Seconds, StemName
from studio.project.complaints import MisfitError, nearest
from studio.project.counting import Counted, read_count_in, read_either
from studio.project.entry import Entry, key_names
from studio.project.texts import Text, from_text, one_or_more, read_tempo, read_text

AFTER_THE_VOICE = "after the voice"
LATEST_START = 3600
"""Seconds into its clip after which nothing starts: an hour."""
Measure = Fraction | Counted


def _single(read: Callable[[str, ValidationInfo], Any], otherwise: str = "") -> PlainValidator:
    """A field that is read from its text and what surrounds it; `otherwise` is said of a list or a group."""

    def validate(written: Any, info: ValidationInfo) -> Any:
        if not isinstance(written, str):
            raise MisfitError(otherwise or "This must be a single value, not a list or a group of keys")
        return read(written, info)

    return PlainValidator(validate)


def _known(info: ValidationInfo) -> Any:
    assert info.context is not None
    return info.context


def _measure(text: str, info: ValidationInfo) -> Measure:
    return read_either(text, _known(info).frame_rate)


def _fade(text: str, info: ValidationInfo) -> Measure:
    return Fraction(0) if text.strip().lower() in amounts.OFF else _measure(text, info)


def _tail(text: str, info: ValidationInfo) -> Measure | bool:
    if text.strip().lower() in amounts.ON:
        return True
    if text.strip().lower() in amounts.OFF:
        return False
    remedy = "write yes, to ring on to the next bar line, or 2 beats, 1 bar or 1.5"
    return read_either(text, _known(info).frame_rate, remedy)


def _start(text: str, info: ValidationInfo) -> Fraction | None:
    """Seconds of clip time, or None for after the voice."""
    words = text.lower().split()
    if words == AFTER_THE_VOICE.split():
        return None
    if words[:1] == ["after"]:
        raise MisfitError(f"'{text}' is not a time; did you mean '{AFTER_THE_VOICE}'?")
    return _moment(text, info)


def _moment(text: str, info: ValidationInfo) -> Fraction:
    """Seconds into a clip."""
    at: Fraction = _known(info).length(text)
    if at > LATEST_START:
        raise MisfitError(f"'{text}' is longer than any use of it; the most is an hour")
    return at


def _stretch(text: str, info: ValidationInfo) -> Any:
    return _known(info).stretch(text)


def _of_stems(example: str) -> BeforeValidator:
    """A group that says something of each stem."""

    def validate(written: Any) -> Any:
        if isinstance(written, str):
            raise MisfitError(f"Say of which stem this is, as {{keys: {written.strip() or example}}}")
        return written

    return BeforeValidator(validate)


def _both_ends(written: Any) -> Any:
    return {"in": written, "out": written} if isinstance(written, str) else written


def _listed(what: str) -> BeforeValidator:
    """A list with something in it, for which one item alone stands too."""

    def validate(written: Any) -> Any:
        if written == []:
            raise MisfitError(f"This list is empty; name {what}, or leave the key out")
        return one_or_more(written)

    return BeforeValidator(validate)


def _featured(written: Any) -> Any:
    """A stem alone stands for a group; what else is written for it is told apart here."""
    if isinstance(written, str):
        return {"stem": written}
    if isinstance(written, list):
        name = written[0] if written and isinstance(written[0], str) else "lead"
        raise MisfitError(f"One stem at a time stands in front; write feature: {name}")
    if isinstance(written, dict) and len(written) == 1:
        ((name, value),) = written.items()
        known = key_names(FeatureText)
        if name not in known and nearest(name, known) is None and isinstance(value, str) and value:
            raise MisfitError(f"Say which of these is the stem, as {{stem: {name}, by: {value}}}")
    return written


def _placed(written: Any) -> Any:
    """Changes are written at their places."""
    if isinstance(written, dict):
        return written
    last = written[-1] if isinstance(written, list) and written else written
    sound = last if isinstance(last, str) and last.strip() else "G"
    raise MisfitError(f"Say where something else is played, as {{chorus bar 4: {sound}}}")


def _one_chord(written: Any) -> str:
    if isinstance(written, list):
        raise MisfitError(
            "One chord is played by itself; several are those of the song, as play: chords over a 'where'"
        )
    if not isinstance(written, str):
        raise MisfitError("This must be one chord symbol, as F#m7")
    return read_text(written)


def _named(key: str) -> BeforeValidator:
    """A word stands for a group of which it is the first value."""
    return BeforeValidator(lambda written: {key: written} if isinstance(written, str) else written)


MeasureText = Annotated[Measure, _single(_measure)]
FadeText = Annotated[Measure, _single(_fade)]


class FadesText(Entry):
    """Lengths of the fade at each end: seconds, or bars and beats."""

    start: FadeText | None = Field(None, alias="in")
    end: FadeText | None = Field(None, alias="out")


class FeatureText(Entry):
    """Who is in front, by how much, where, and over how long the others make room."""

    stem: Text
    by: Annotated[float, from_text(amounts.read_lowering)] = 9.0
    where: PlaceText | None = None
    over: MeasureText | None = None


class PlayText(Entry):
    """What the program plays: one of `part`, `chord`, `scale` and `fact`."""

    part: Text | None = None
    chord: Annotated[str, PlainValidator(_one_chord)] | None = None
    scale: Text | None = None
    fact: Text | None = None
    sound: Annotated[str, from_text(amounts.read_played_sound)] = "struck"
    tempo: Annotated[Fraction, from_text(read_tempo)] | None = None


class ExcerptText(Entry):
    """What depends on more than its own text is read later: names in `gain`, `pan` and `feature`, places in
    `instead`. What `play` lists is checked one by one."""

    elsewhere: ClassVar[Mapping[str, str]] = {
        "tempo": "belongs in 'play', for what stands in no place of the song, as play: {chord: G, tempo: 90}; "
        "for what does, write speed: 80 %",
        "sound": "belongs in 'play', as play: {part: chords, sound: sustained}",
        "narration": "belongs to the segment, beside 'excerpt'",
        "ducking": "belongs to the segment, beside 'excerpt', or to the episode",
        "scratch-voice": "belongs to the episode",
        "soundfont": "belongs to the episode; what plays it is written play: {part: chords, sound: soundfont 1}",
    }

    where: (
        Annotated[
            tuple[Span, tuple[Fraction, Fraction]],
            _single(
                _stretch, "This must be one place or one stretch of time, such as verse bars 1-4 or 1:03-1:10"
            ),
        ]
        | None
    ) = None
    stems: Annotated[list[StemName], _listed("the stems that are heard")] = Field(default_factory=list)
    mute: Annotated[list[StemName], _listed("the stems that are not heard")] = Field(default_factory=list)
    gain: Annotated[dict[str, Annotated[float, from_text(amounts.read_decibels)]], _of_stems("-3 dB")] = (
        Field(default_factory=dict)
    )
    pan: Annotated[dict[str, Annotated[float, from_text(amounts.read_pan)]], _of_stems("left 40 %")] = Field(
        default_factory=dict
    )
    feature: Annotated[FeatureText, BeforeValidator(_featured)] | None = None
    fade: Annotated[FadesText, BeforeValidator(_both_ends)] = Field(
        default_factory=lambda: FadesText.model_validate({})
    )
    tail: Annotated[Measure | bool, _single(_tail)] = False
    repeat: Annotated[int, from_text(amounts.read_repeat)] = 1
    speed: Annotated[Fraction, from_text(amounts.read_speed)] = Fraction(1)
    pitch: Annotated[Fraction, from_text(amounts.read_cents)] = Fraction(0)
    count_in: Annotated[Counted, from_text(read_count_in)] | None = Field(None, alias="count-in")
    click: Annotated[float | None, from_text(amounts.read_click)] = None
    at: Annotated[Fraction | None, _single(_start)] = Fraction(0)
    play: Annotated[list[Any], _listed("what is played, as chords or a part")] = Field(default_factory=list)
    instead: Annotated[dict[str, Text], BeforeValidator(_placed)] = Field(default_factory=dict)


class NarrationText(Entry):
    """A recorded voice: its file, from and up to which of its own seconds, and when in the clip."""

    file: Text
    start: Seconds | None = Field(None, alias="from")
    end: Seconds | None = Field(None, alias="to")
    at: Annotated[Fraction, _single(_moment)] = Fraction(0)


class DuckingText(Entry):
    """How music makes room for a voice. `by` is False where it does not, and True where it does as usual; what is not
    written is None."""

    by: Annotated[float | bool, from_text(amounts.read_ducking)] | None = None
    attack: Annotated[Fraction, from_text(amounts.read_glide)] | None = None
    release: Annotated[Fraction, from_text(amounts.read_glide)] | None = None


Ducking = Annotated[DuckingText, _named("by")]
Narration = Annotated[NarrationText, _named("file")]
