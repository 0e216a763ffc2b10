"""Worked examples of open textbooks, re-entered as data: the notes, the chords, and the book's own labels.

Sources, with the version that was read:

- Sean Butterfield, *Integrated Musicianship: Theory*, an open online textbook (University of Idaho, Think Open
  Fellowship), whose examples are ABC notation in its source, github.com/intmus/inttheory. Unit 9a is
  ``_09-non-chord-tones/a1-nonchordtonespt1.md`` at b139e100, unit 9b is ``b1-nonchordtonespt2.md`` at 0010e838.
- The same book, 2019–20 edition, github.com/intmus/inttheory19-20: unit 9a is ``a1-nonchordtones.md`` at
  59b1a392, unit 5c ``_05-counterpoint-embell-shapes/c1-2ndandembellshapes.md`` at 1e329a72.
- *Open Music Theory* (first edition), "Composing a third-species counterpoint" and "Composing a
  fourth-species counterpoint". Its examples there are pictures; the exercises to which it links are those of
  J. J. Fux, *Gradus ad Parnassum*, in Mark Gotham's edition (CC0), github.com/MarkGotham/species at 6dcf4407,
  where they are text. Fux names no chords: ours are the triad on each pair of voices, and the labels follow
  from the intervals, which Open Music Theory names.
- "Nonchord tone", Wikipedia (CC BY-SA, read as a stored copy): no textbook, but its example, bars of Schumann's
  "Reaper's Song", is LilyPond with its notes labelled. The chords are ours.

A note is written as ``name:length=label``; lengths are quarter notes, 1 if not said.
"""

from __future__ import annotations

from dataclasses import dataclass

THIS_EDITION = "Butterfield, Integrated Musicianship: Theory (2023+), "
EDITION_2019 = "Butterfield, Integrated Musicianship: Theory (2019–20), "
FUX = "Fux, Gradus ad Parnassum, the exercises of Open Music Theory, "


@dataclass(frozen=True)
class WorkedExample:
    """``voices`` from the highest to the lowest; ``chords`` as ``symbol:length``."""

    source: str
    key: str
    chords: str
    voices: tuple[str, ...]
    meter: str = "4/4"


_TWO_PHRASES = "F:2 Gm/Bb:2 C7:2 F:4 Bb/D:2 Gm7/Bb:2 C:2 F:2"

BUTTERFIELD = (
    WorkedExample(
        THIS_EDITION + "unit 9a, example 2: passing tones, neighbours, suspension", "F", _TWO_PHRASES,
        (
            "C4:1/2 D4:1/2=dpt E4:1/2=dpt F4:1/2 G4:2 Bb4:2 A4:4 F4:2 F4:2 E4:2 F4:2",
            "C4:2 D4:2 E4:2 C4:4 D4:2 D4:3=sus C4 C4:2",
            "A3:2 G3 A3=nt G3:2 F3:4 Bb3:2 G3:2 G3:2 A3:2",
            "F3:2 Bb2:2 C3 D3:1/2=pt E3:1/2 F3:4 D3 C3=pt Bb2:2 C3:2 F2:2",
        ),
    ),
    WorkedExample(
        THIS_EDITION + "unit 9a, example 3: retardations", "F", _TWO_PHRASES,
        (
            "F4:2 G4:2 Bb4:2 A4:4 F4:2 F4:2 E4:2 E4=ret F4",
            "C4:2 D4:2 D4=ret E4 C4:4 D4:2 D4:2 C4:2 C4:2",
            "A3:2 G3:2 G3:2 F3:4 Bb3:2 G3:2 G3:2 A3:2",
            "F3:2 Bb2:2 C3:2 F3:4 D3:2 Bb2:2 C3:2 F2:2",
        ),
    ),
    WorkedExample(
        THIS_EDITION + "unit 9a, example 4: “V or V7?”, “either a passing tone or a chordal seventh”", "C", "G:2 C:2",
        ("B4:2 C5:2", "G4 F4=V7? E4:2", "D3:2 C3:2", "G2:2 C3:2"),
    ),
    WorkedExample(
        THIS_EDITION + "unit 9b, example 4: neighbour groups", "F", _TWO_PHRASES,
        (
            "F4:2 G4:2 Bb4:2 A4:4 F4:1/2 G4:1/2=ng E4:1/2=ng F4:1/2 F4:2 E4:2 F4:2",
            "C4:2 D4:2 E4:2 C4:4 D4:2 D4:2 C4:2 C4:2",
            "A3:2 G3 A3:1/2=ng F3:1/2=ng G3:2 F3:4 Bb3:2 G3:2 G3:2 A3:2",
            "F3:2 Bb2:2 C3:2 F3:4 D3:2 Bb2:2 C3:2 F2:2",
        ),
    ),
    WorkedExample(
        THIS_EDITION + "unit 9b, example 5: appoggiaturas", "F", _TWO_PHRASES,
        (
            "F4:2 G4 C5=app Bb4:2 A4:4 F4:2 F4:2 E4:2 F4:2",
            "C4:2 D4:2 E4:2 C4:4 D4:2 D4:2 C4:2 C4:2",
            "A3:2 G3:2 G3 E3=fig F3:4 Bb3:2 G3:2 G3:2 Bb3=app A3",
            "F3:2 Bb2:2 C3:2 F3:4 D3 A2=app Bb2:2 C3:2 F2:2",
        ),
    ),
    WorkedExample(
        THIS_EDITION + "unit 9b, example 6: escape tones", "F", _TWO_PHRASES,
        (
            "F4:2 G4:2 Bb4 C5=fig A4:4 F4:2 F4:2 E4:2 F4:2",
            "C4:2 D4:2 E4:2 C4:4 D4:2 D4:2 C4:2 C4:2",
            "A3:2 G3:2 G3:2 F3:4 Bb3:2 G3:2 G3:2 A3:2",
            "F3:2 Bb2 A2=et C3:2 F3:4 D3:2 Bb2:2 C3:2 F2:2",
        ),
    ),
    # The last label is printed "ant fig" in this edition and "ant" in that of 2019–20 (below). G is no tone of
    # its chord, IV6, so that by the book's own definition of a figure it is an anticipation.
    WorkedExample(
        THIS_EDITION + "unit 9b, example 7: anticipations", "F", _TWO_PHRASES,
        (
            "F4:2 G4:2 Bb4:2 A4:4 F4:2 F4:2 E4 F4=ant F4:2",
            "C4:2 D4 E4=ant E4:2 C4:4 D4:2 D4:2 C4:2 C4:2",
            "A3:2 G3:2 G3:2 F3:4 Bb3 G3=ant G3:2 G3:2 A3:2",
            "F3:2 Bb2:2 C3:2 F3:4 D3:2 Bb2:2 C3:2 F2:2",
        ),
    ),
    WorkedExample(
        THIS_EDITION + "unit 9b, example 8: pedals", "F", "F:2 Gm7:2 C7:2 F:4 Bb/D:2 Gm7/Bb:2 C:2 F:2 Bb:2 F:2",
        (
            "F4:2 G4:2 Bb4:2 A4:4 F4:2 F4:2 E4:2 F4:2 F4:2 F4:2",
            "C4:2 D4:2 E4:2 C4:4 D4:2 D4:2 C4:2 C4:2 D4:2 C4:2",
            "A3:2 Bb3:2 C4:2 F3:4 Bb3:2 G3:2 G3:2 A3:2 Bb3:2 A3:2",
            "F3:2 F3:2=fig F3:2=ped F3:4 D3:2 Bb2:2 C3:2 F2:2 F2:2=fig F2:2",
        ),
    ),
    WorkedExample(
        THIS_EDITION + "unit 9b, example 9: incomplete neighbour tone", "F", "F:4",
        ("C5:3/2 G4:1/2=int F4:2", "C4:4", "A3:4", "F3:4"),
    ),
    WorkedExample(
        THIS_EDITION + "unit 9b, example 9: incomplete neighbour group", "F", "F:4",
        ("C5 Bb4:1/2=ing G4:1/2=ing A4:2", "F4:4", "C4:4", "F3:4"),
    ),
)  # fmt: skip

_ONE_PHRASE = "F:2 Gm/Bb:2 C7:2 F:2 Bb/D:2 Gm/Bb:2 C:2 F:4"

BUTTERFIELD_2019 = (
    WorkedExample(
        EDITION_2019 + "unit 9a, example 4: neighbour groups", "F", _ONE_PHRASE,
        ("C4:2 D4:2 C4:2 C4:2 Bb3:2 G3 F3:1/2=ng A3:1/2=ng G3:2 A3:4",),
    ),
    WorkedExample(
        EDITION_2019 + "unit 9a, example 5: appoggiaturas", "F", _ONE_PHRASE,
        ("C4 E4=app D4:2 C4:2 C4:2 A3=app Bb3 G3:2 G3:2 A3:4",),
    ),
    WorkedExample(
        EDITION_2019 + "unit 9a, example 6: escape tones, soprano", "F", _ONE_PHRASE,
        ("A4:2 G4:2 Bb4 C5=fig A4 Bb4=et F4:2 D4:2 E4:2 F4:4",),
    ),
    WorkedExample(
        EDITION_2019 + "unit 9a, example 6: escape tones, tenor", "F", _ONE_PHRASE,
        ("C4:2 D4:2 C4:2 C4:2 Bb3 C4=et G3:2 G3:2 A3:4",),
    ),
    WorkedExample(
        EDITION_2019 + "unit 9a, example 7: anticipations, soprano", "F", _ONE_PHRASE,
        ("A4:2 G4:2 Bb4 A4=ant A4:2 F4:2 D4:2 E4 F4=ant F4:4",),
    ),
    WorkedExample(
        EDITION_2019 + "unit 9a, example 7: anticipations, tenor", "F", _ONE_PHRASE,
        ("C4:2 D4:2 C4:2 C4:2 Bb3 G3=ant G3:2 G3:2 A3:4",),
    ),
    WorkedExample(
        EDITION_2019 + "unit 9a, example 8: a pedal point", "F", "F:2 Gm:2 C7:2 F:2 Bb/D:2 Gm/Bb:2 C:2 F:4",
        ("A4:2 G4:2 Bb4:2 A4:2 F4:2 D4:2 E4:2 F4:4", "F3:2 F3:2=ped F3:2=ped F3:2 D3:2 Bb2:2 C3:2 F2:4"),
    ),
    # Unit 5c, second species: the book prints the interval of each note over the cantus; those that are no
    # consonances are its passing tones. The chords are the consonances of each bar.
    WorkedExample(
        EDITION_2019 + "unit 5c, second species, first system", "C",
        "C:4 Dm:4 F:4 C/E:4 Dm7/F:4 G:4 F/A:4 C/G:4 Em:4 Bm7b5/D:4 C:4",
        (
            "r:2 G4:2 F4:2 G4:2=pt A4:2 B4:2=pt C5:2 E5:2 D5:2 C5:2 B4:2 D5:2 C5:2 F5:2 E5:2 F5:2=pt "
            "G5:2 G4:2 A4:2 B4:2 C5:4",
            "C3:4 D3:4 F3:4 E3:4 F3:4 G3:4 A3:4 G3:4 E3:4 D3:4 C3:4",
        ),
    ),
    WorkedExample(
        EDITION_2019 + "unit 5c, second species, second system", "C",
        "C:4 Bdim/D:4 Dm/F:4 C/E:4 Dm/F:4 Em7/G:4 F/A:4 C/G:4 Em:4 Bdim/D:4 C:4",
        (
            "r:2 C5:2 B4:2 C5:2=pt D5:2 F5:2 G5:2 C5:2 D5:2 F5:2 E5:2 D5:2 C5:2 F4:2 E4:2 F4:2=pt "
            "G4:2 A4:2=pt B4:4 C5:4",
            "C3:4 D3:4 F3:4 E3:4 F3:4 G3:4 A3:4 G3:4 E3:4 D3:4 C3:4",
        ),
    ),
)  # fmt: skip

SPECIES = (
    WorkedExample(
        FUX + "Fig. 74, fourth species below the cantus", "D minor",
        "Dm:4 Dm:4 C:4 Bdim:4 Em/G:4 Dm:4 Dm:4 C/E:4 Dm:4 A/C#:4 Dm:4",
        (
            "D4:4 F4:4 E4:4 D4:4 G4:4 F4:4 A4:4 G4:4 F4:4 E4:4 D4:4",
            "r:2 D3:4 D4:4=2–3 C4:4=2–3 B3:4 E4:4=2–3 D4:4 F4:4=2–3 E4:4=2–3 D4:4=2–3 C#4:2 D4:4",
        ),
        "2/2",
    ),
    WorkedExample(
        FUX + "Fig. 75, fourth species above the cantus", "E minor",
        "Em:4 C:4 Bdim/D:4 C:4 F/A:4 F/A:4 G:4 Em:4 Dm/F:4 Em:4",
        (
            "r:2 E5:4 C5:4=7–6 B4:2 C5:2 E4:4 F4:4 C5:4=4–3 B4:4 E5:4=7–6 D5:2 E5:4",
            "E4:4 C4:4 D4:4 C4:4 A3:4 A4:4 G4:4 E4:4 F4:4 E4:4",
        ),
        "2/2",
    ),
    WorkedExample(
        FUX + "Fig. 76, fourth species below the cantus", "E minor",
        "Em:4 Am:4 G5:4 F5:4 Dm:4 D5:4 C5:4 C:4 Dm:4 Em:4",
        (
            "E4:4 C4:4 D4:4 C4:4 A3:4 A4:4 G4:4 E4:4 F4:4 E4:4",
            "r:2 E3:4 A3:4=4–5 G3:4=4–5 F3:4 D3:4 D4:4=4–5 C4:4 E4:4=2–3 D4:2 E4:4",
        ),
        "2/2",
    ),
    WorkedExample(
        FUX + "Fig. 56, third species below the cantus, bars 3 and 4: nota cambiata", "D minor", "C6:4 G/B:4",
        ("E4:4 D4:4", "C4 B3=cambiata G3 A3 B3 A3=pt G3 F3"),
        "2/2",
    ),
)  # fmt: skip

ENCYCLOPEDIA = (
    WorkedExample(
        "Wikipedia, “Nonchord tone”: Schumann, “Reaper's Song”, op. 68 no. 18", "C",
        "C:3/2 Dm:3/2 G7:3/2 C:3/2",
        (
            "G4:1/2 C5:1/2 B4:1/2=pt A4:1/2 D5:1/2 C5:1/2=pt B4:1/2 A4:1/2=nt B4:1/2 C5 E5:1/2",
            "C3:3/2 C3:3/2=ped C3:3/2=ped C3:3/2",
        ),
        "6/8",
    ),
)  # fmt: skip

ALL = (*BUTTERFIELD, *BUTTERFIELD_2019, *SPECIES, *ENCYCLOPEDIA)
