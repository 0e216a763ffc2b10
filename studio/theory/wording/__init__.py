"""The words that facts put on screen, all in one place: short, and as musicians say them.

One module for each subject; whoever needs words takes them from here.
"""

from studio.theory.wording.common_tones import common_tones_words
from studio.theory.wording.form import (
    bars_words,
    form_name_words,
    form_words,
    key_chords_words,
    key_plan_words,
    repeat_words,
)
from studio.theory.wording.harmony import (
    NO_CHORD,
    progression_words,
    reading_note,
    spaced,
)
from studio.theory.wording.melody import (
    approach_words,
    beat_words,
    degree_words,
    half_step_words,
    highest_words,
    lowest_words,
    range_words,
    scale_degree_words,
    tessitura_words,
    tone_words,
)
from studio.theory.wording.modes import decides_words, foreign_words, mode_words
from studio.theory.wording.parts import (
    figure_words,
    hands_words,
    inversion_words,
    played_words,
    sounding_words,
    spread_words,
    voicing_words,
)
from studio.theory.wording.progression import (
    cadence_with_chords,
    cadence_words,
    cliche_words,
    in_style,
    loop_name,
    loop_words,
    pace_words,
    pedal_words,
    sequence_words,
)
from studio.theory.wording.rhythm import (
    difference_words,
    groove_words,
    kick_words,
    swing_words,
    syncopation_words,
    variation_words,
)
from studio.theory.wording.scales_weighed import comparison_alt, comparison_words
from studio.theory.wording.voice_leading import leading_words, written_leading_words

__all__ = [
    "NO_CHORD",
    "approach_words",
    "bars_words",
    "beat_words",
    "cadence_with_chords",
    "cadence_words",
    "cliche_words",
    "common_tones_words",
    "comparison_alt",
    "comparison_words",
    "decides_words",
    "degree_words",
    "difference_words",
    "figure_words",
    "foreign_words",
    "form_name_words",
    "form_words",
    "groove_words",
    "half_step_words",
    "hands_words",
    "highest_words",
    "in_style",
    "inversion_words",
    "key_chords_words",
    "key_plan_words",
    "kick_words",
    "leading_words",
    "loop_name",
    "loop_words",
    "lowest_words",
    "mode_words",
    "pace_words",
    "pedal_words",
    "played_words",
    "progression_words",
    "range_words",
    "reading_note",
    "repeat_words",
    "scale_degree_words",
    "sequence_words",
    "sounding_words",
    "spaced",
    "spread_words",
    "swing_words",
    "syncopation_words",
    "tessitura_words",
    "tone_words",
    "variation_words",
    "voicing_words",
    "written_leading_words",
]
