"""Every kind of question, asked of the demo's music and answered as its scripts claim."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from studio.drawing.kinds import KINDS
from studio.project.facts import read_facts
from studio.project.loader import load
from studio.project.model import Project
from studio.project.questions import QUESTIONS
from studio.timeline.answers.answering import ANSWERS, answer
from studio.timeline.answers.said import Answer
from studio.timeline.song_facts import SongFacts
from tests.timeline.answers.asking import known_of

DEMO = Path(__file__).resolve().parents[3] / "demo_project"

WORDS = [
    ("numerals: chorus bars 1-4", "I–♭VII–IV–iv"),
    ("loop: verse", "I–V–vi–IV, then I–V/vi–vi–ii–V"),
    ("cadence: verse", "half cadence"),
    ("cadence: chorus 2", "deceptive cadence"),
    ("sequence: verse", "falling fifths, 4 chords"),
    ("cliche: verse", "no line cliché"),
    ("pedal: intro", "no pedal point"),
    ("pace: verse", "one chord a bar, two in bars 11–12"),
    ("leading: chorus bars 3-4", "G and D hold, B falls a half step to B♭, 1 half step in all"),
    (
        "leading: chorus bars 2-3, part: keys",
        "one outer voice stays, one note held, the others move two half steps in all",
    ),
    ("key: bridge bars 1-7", "A major"),
    ("key: song", "D major, then A major, then D major"),
    ("chord: 6.1", "A/C♯"),
    ("numeral: 10.1", "V6/5/vi"),
    ("function: 10.1", "dominant"),
    ("degree: lead, at: 7.3", "♭6"),
    ("scale degree: lead, at: 13.1", "2 of D major"),
    ("tone: lead, at: 13.1", "9–8 suspension"),
    ("tone: bass, at: 7.4", "passing tone"),
    ("range: lead", "A3 to F♯5"),
    ("highest: lead", "F♯5, bar 42 beat 4"),
    ("lowest: lead", "A3, bar 5 beat 4, and once more"),
    ("mode: lead, over: verse", "D Ionian"),
    ("figure: guitar, over: verse bar 1", "Dadd9 broken, 1–5–9–5–3–5–9–5"),
    ("figure: keys, over: verse bar 1", "right hand: block chords Dadd9; left hand: 1 and 5 of Dadd9"),
    ("voicing: keys, at: 5.1", "Dadd9, open, fifth doubled"),
    ("sounding: [keys, bass], at: 5.1", "Dadd9"),
    ("groove: kit, over: chorus", "backbeat on 2 and 4, eighth-note hats, straight"),
    ("groove: kit, over: bridge", "half time, snare on 3, quarter-note ride"),
    ("form: song", "intro, verse–chorus ×2, bridge, chorus, outro"),
    ("bars: outro", "7 bars, as 4 + 3: one bar fewer than eight"),
    ("bars: chorus 2", "9 bars, as 4 + 5: one bar more than eight, bar 37 in 2/4"),
    ("key plan: song", "D major, bridge in A (the dominant), back to D"),
]


@pytest.fixture(scope="module")
def demo() -> Project:
    return load(DEMO, {name: kind.Options for name, kind in KINDS.items()})


@pytest.fixture(scope="module")
def facts(demo: Project) -> SongFacts:
    return SongFacts(demo.song, demo.episode.numerals)


def asked(question: str, demo: Project, facts: SongFacts) -> Answer:
    known, findings = known_of(demo)
    written = {"asked": yaml.load(f"{{{question}}}", Loader=yaml.BaseLoader)}
    (fact,) = read_facts(written, known, demo.song, findings)
    assert not findings.complaints
    return answer(fact, facts)


def test_every_question_has_an_answer() -> None:
    assert ANSWERS.keys() == QUESTIONS.keys()


@pytest.mark.parametrize(("question", "words"), WORDS)
def test_answers_of_the_demo(question: str, words: str, demo: Project, facts: SongFacts) -> None:
    found = asked(question, demo, facts)
    assert found.words == words, found.reason
    assert found.reason and 0 <= found.sureness <= 1


@pytest.mark.parametrize("kind", sorted(QUESTIONS))
def test_every_answer_is_a_line_of_plain_words(kind: str, demo: Project, facts: SongFacts) -> None:
    question = next((q for q, _ in WORDS if q.startswith(f"{kind}: ")), f"{kind}: lead")
    found = asked(question, demo, facts)
    assert found.words and "\n" not in found.words and "_" not in found.words
    assert found.reason[0].isupper() or not found.reason[0].isalpha()
    assert found.reason.endswith((".", "?"))


@pytest.mark.parametrize(
    ("question", "verdict"),
    [
        ("mode: lead, over: verse, expect: Ionian", "agrees"),
        ("mode: lead, over: verse, expect: D Ionian", "agrees"),
        ("mode: lead, over: verse, expect: Dorian", "disagrees"),
        ("mode: bass, over: chorus, tonic: D, expect: Aeolian", "open"),
        ("numerals: chorus bars 1-4, expect: I bVII IV iv", "agrees"),
        ("numerals: chorus bars 1-4, expect: I bVII IV IV", "disagrees"),
        ("cadence: verse, expect: half", "agrees"),
        ("numeral: 10.1, expect: V7/vi", "agrees"),
        ("degree: lead, at: 7.3, expect: b13", "agrees"),
        ("chord: 6.1, expect: A/C#", "agrees"),
        ("key: bridge bars 1-7, expect: A", "agrees"),
        ("form: song, expect: verse-chorus form with a bridge", "agrees"),
        ("bars: outro, expect: 4 + 3", "agrees"),
    ],
)
def test_beliefs(question: str, verdict: str, demo: Project, facts: SongFacts) -> None:
    found = asked(question, demo, facts)
    assert found.verdict == verdict, found


def test_cadences_are_sought_where_the_phrases_end_that_were_heard(demo: Project, facts: SongFacts) -> None:
    """The second chorus is 4 + 5 bars; where only the norm of four bars would part phrases, there are none."""
    time, sections = demo.song.time, dict(facts.sections)
    assert [time.words(phrase) for phrase in facts.phrases(sections["chorus 2"])] == [
        "bars 29–32",
        "bars 33–37",
    ]
    assert asked("cadence: chorus 2", demo, facts).words == "deceptive cadence"
    assert SongFacts(demo.song, demo.episode.numerals).phrases(time.bars(5, 5)) == ()
