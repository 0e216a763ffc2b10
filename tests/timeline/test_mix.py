"""How stems stand beside one another: level, place, and who steps back for the featured one."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from studio.music.place import Span
from studio.project.model import Excerpt, Featured, Play, StemLevel
from studio.sound.instrument.play import played
from studio.timeline.heard import RATE, Played, Source, Tone
from studio.timeline.mix import BESIDE_A_PART, played_of
from studio.timeline.playing import tones_of
from tests.theory.charts import line
from tests.timeline.playing.songs import song

from .long_song import TIME, excerpt_of, placed, second_of, sound

STEMS = ("drums", "bass", "keys")


def stems(**more: object) -> dict[str, Source | Played]:
    """What sounds over bars 1 and 2, by its name."""
    excerpt = excerpt_of(
        F(0), F(8), names=STEMS, sources=tuple(sound(f"{name}.wav") for name in STEMS), **more
    )
    plan = placed(excerpt).plan
    (one, *_) = plan.laid.cut.passes
    return dict(zip(plan.names, one.sources, strict=True))  # type: ignore[arg-type]


def test_the_full_recording_has_no_name_and_stands_as_it_is() -> None:
    plan = placed(excerpt_of(F(0), F(8))).plan
    assert plan.names == ()
    assert plan.laid.cut.passes[0].sources == (Source("/song/audio/mix.wav"),)


def test_each_stem_has_its_own_level_and_the_others_none() -> None:
    found = stems(levels={"bass": StemLevel(-3.0, -0.4)})
    assert (found["bass"].gain_db, found["bass"].pan) == (-3.0, -0.4)
    assert found["keys"] == Source("/song/audio/keys.wav")


def test_all_but_the_featured_stem_step_back_where_it_is_featured() -> None:
    found = stems(featured=Featured("keys", 9.0, Span(F(4), F(8)), F(1, 4)))
    assert found["keys"].dips == ()
    for name in ("drums", "bass"):
        (dip,) = found[name].dips
        assert (dip.start, dip.end) == tuple(round(second_of(F(q)) * RATE) for q in (4, 8))
        assert (dip.by_db, dip.over) == (9.0, RATE // 4)


def test_featured_all_the_while_nothing_glides_while_it_is_heard() -> None:
    excerpt = excerpt_of(F(0), F(8), tail=F(2))
    found = stems(featured=Featured("keys", 6.0, None, F(1, 2)), tail=excerpt.tail)
    (dip,) = found["drums"].dips
    start, end = (round(second_of(F(q)) * RATE) for q in (0, 10))
    # A joint fades in what sounds before it, some hundredths of a second; there the level holds already.
    assert dip.start <= start - RATE // 10 and dip.end >= end + RATE // 10


@pytest.mark.parametrize(("sound_name", "file"), [("sustained", ""), ("soundfont 12", "/song/all.sf2")])
def test_what_is_played_stands_in_the_mix_like_a_stem(sound_name: str, file: str) -> None:
    from pathlib import Path

    excerpt = excerpt_of(
        F(0), F(8), names=("bass",), sources=(sound("bass.wav"),), plays=(Play("part", "lead", sound_name),),
        levels={"lead": StemLevel(2.0, 0.5)}, featured=Featured("bass"),
    )  # fmt: skip
    plan = placed(excerpt, soundfont=Path("/song/all.sf2")).plan
    assert plan.names == ("bass", "lead")
    bass, lead = plan.laid.cut.passes[0].sources
    assert isinstance(lead, Played) and isinstance(bass, Source)
    assert (lead.sound, lead.soundfont, lead.gain_db, lead.pan) == (sound_name, file, 2.0, 0.5)
    assert len(lead.dips) == 1 and bass.dips == ()


# What is played beside something else


LEAD, CHORDS = Play("part", "lead"), Play("chords", "chords")


def both(*plays: Play, **more: object) -> dict[str, Played]:
    """What is played over bars 1 and 2, by its name."""
    plan = placed(excerpt_of(F(0), F(8), sources=(), plays=plays, **more)).plan
    return dict(zip(plan.names, plan.laid.cut.passes[0].sources, strict=True))  # type: ignore[arg-type]


def test_chords_step_back_for_a_part_and_what_a_person_says_comes_on_top() -> None:
    assert both(CHORDS)["chords"].gain_db == both(LEAD)["lead"].gain_db == 0
    beside = both(LEAD, CHORDS)
    assert beside["lead"].gain_db == 0 and beside["chords"].gain_db == BESIDE_A_PART
    louder = both(LEAD, CHORDS, levels={"chords": StemLevel(5.0, 0.25), "lead": StemLevel(-2.0)})
    assert (louder["chords"].gain_db, louder["chords"].pan) == (BESIDE_A_PART + 5, 0.25)
    assert louder["lead"].gain_db == -2


def test_where_nobody_names_a_sound_chords_have_another_than_the_tune() -> None:
    assert {name: one.sound for name, one in both(LEAD, CHORDS).items()} == {
        "lead": "struck",
        "chords": "plucked",
    }
    assert both(CHORDS)["chords"].sound == "struck"


@pytest.mark.parametrize(
    ("lead", "chords"),
    [("plucked", "struck"), ("struck", "struck"), ("sustained", "sustained"), ("plucked", "plucked")],
)
def test_a_sound_that_is_named_is_heard(lead: str, chords: str) -> None:
    found = both(replace(LEAD, sound=lead, named=True), replace(CHORDS, sound=chords, named=True))
    assert (found["lead"].sound, found["chords"].sound) == (lead, chords)


def test_a_tune_stands_some_decibels_over_its_chords() -> None:
    """Integrated loudness by pyloudnorm (ITU-R BS.1770): a tune in quarters and halves over four chords. How much of it
    doubles the chords, and how long its notes are, makes a decibel or two."""
    import pyloudnorm

    facts = song("| C | Am | F | G |", {"lead": line("E5 D5 C5 G4 A4:2 C5:2 A4 G4 F4 A4 G4:2 B4:2")})
    time = facts.song.time
    span = time.bars(1, 4)
    start, end = time.seconds(span.start), time.seconds(span.end)
    excerpt = Excerpt(start, end, span, (), (), F(0), F(0), plays=(LEAD, CHORDS))
    loudness = []
    for play in excerpt.plays:
        one = played_of(excerpt, play, tones_of(play, span, facts, (), excerpt.plays), "", time)
        tones = [replace(tone, start=tone.start - int(start * RATE)) for tone in one.tones]
        heard = played(tones, one.sound, "", int((end - start) * RATE)) * 10 ** (one.gain_db / 20)
        loudness.append(pyloudnorm.Meter(RATE).integrated_loudness(heard.astype(float)))
    assert 2.5 <= loudness[0] - loudness[1] <= 5.5


# How it ends


def test_the_last_keys_are_up_in_time_to_die_away() -> None:
    end = round(second_of(F(8)) * RATE)
    for speed in (F(1), F(1, 2)):
        (chords,) = both(replace(CHORDS, sound="sustained"), speed=speed).values()
        last = max(tone.start + tone.length for tone in chords.tones)
        assert (end - last) / RATE == pytest.approx(0.14 * speed, abs=1e-3)


def test_in_a_tail_the_last_chord_rings_and_the_next_is_not_struck() -> None:
    (chords,) = both(CHORDS, tail=F(2)).values()
    last = max(tone.start for tone in chords.tones)
    assert last == round(second_of(F(6)) * RATE)
    ends = {tone.start + tone.length for tone in chords.tones if tone.start == last}
    assert ends == {round(second_of(F(10)) * RATE)}


def test_a_part_plays_nothing_new_in_a_tail() -> None:
    (lead,) = both(LEAD, tail=F(2)).values()
    assert [tone.start for tone in lead.tones] == [round(second_of(F(q)) * RATE) for q in (0, 4)]


def test_where_another_pass_follows_the_keys_stay_down() -> None:
    excerpt = excerpt_of(F(0), F(4), sources=(), plays=(LEAD,))
    tones = (Tone(48_000, 96_000, 60),)
    assert played_of(excerpt, LEAD, tones, "", TIME, last=False).tones == tones
    assert played_of(excerpt, LEAD, tones, "", TIME).tones != tones
