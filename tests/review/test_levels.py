"""Rows of tables of loudness, from what the report says."""

from __future__ import annotations

from studio.review.levels import level_rows

SOUND = {
    "integrated_LUFS": -14.02,
    "short_term_maximum_LUFS": -12.06,
    "loudness_range_LU": 4.2,
    "true_peak_dBTP": -1.0,
}


def test_levels_are_rows_and_silence_has_none() -> None:
    silent = dict.fromkeys(SOUND)
    short = {**silent, "true_peak_dBTP": -0.04}
    (clip, excerpt) = level_rows({"sound": SOUND, "excerpt": {"sound": short}})
    assert clip.levels == ("−14.0", "−12.1", "4.2", "−1.0")
    assert excerpt.levels == ("–", "–", "–", "0.0")
    assert level_rows({"sound": silent}) == level_rows({}) == ()
