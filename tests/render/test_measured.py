"""What is measured of the files of an episode: of what is heard, and once."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import soundfile

from studio.build import open_project
from studio.build.opening import Opened
from studio.handoff.report import report, report_text
from studio.handoff.sound_report import sound_of, sources_of
from studio.render import measured as room
from studio.render.kept_levels import keep_levels, kept_levels
from studio.render.measured import excerpt_sources, heard_cuts, measured, stretches
from studio.render.workshop import Workshop
from studio.sound.condition import Condition
from studio.sound.loudness import Levels, Loudness, Quiet
from studio.timeline.heard import RATE
from tests.click_episode import click_time, write_episode


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory) -> Opened:
    folder = write_episode(tmp_path_factory.mktemp("measured") / "clicks")
    sound, rate = soundfile.read(folder / "audio/click.flac")
    sound += 0.02
    for beat in (2, 9, 13):  # beat 2 is in bar 1, which nobody hears; the others are in bars 3 and 4
        at = round(click_time(beat) * rate)
        sound[at : at + 20] = 1.5
    soundfile.write(folder / "audio/click.flac", np.clip(sound, -1, 1), rate, subtype="PCM_24")
    return open_project(folder)


@pytest.fixture(scope="module")
def shop(opened: Opened) -> Workshop:
    return Workshop(opened.build, opened.theme, 1)


def test_only_what_is_heard_is_looked_at(opened: Opened, shop: Workshop) -> None:
    (found,) = measured(opened.plan, shop).sources.values()
    assert found.clipped == pytest.approx([float(click_time(9)), float(click_time(13))], abs=0.002)
    assert found.sample_peak == pytest.approx(0, abs=0.01)
    assert found.offset == pytest.approx(0.02, abs=0.002)


def test_stretches_that_overlap_are_one(opened: Opened) -> None:
    # Bars 2 to 5, and 3.1 to 4.3 within them, of the same file.
    ((_, parts),) = stretches(heard_cuts(opened.plan)).items()
    ((start, end),) = parts
    assert abs(start - click_time(4) * RATE) <= 1 and abs(end - click_time(20) * RATE) <= 1
    apart = replace(opened.plan, segments=opened.plan.segments[2:])
    assert len(stretches(heard_cuts(apart))) == 1


def test_it_is_looked_at_once(opened: Opened, shop: Workshop, monkeypatch: pytest.MonkeyPatch) -> None:
    known = measured(opened.plan, shop)

    def never(*_: object) -> Condition:
        raise AssertionError("looked at again")

    monkeypatch.setattr(room, "condition", never)
    assert measured(opened.plan, shop) == known


def test_the_report_says_it_with_units(opened: Opened, shop: Workshop) -> None:
    found = measured(opened.plan, shop)
    levels = Levels(
        Loudness(-20.0, -18.0, 3.0, -6.0), 6.0, Loudness(-14.004, -12.3456, 3.0, -1.01), False, 1.256
    )
    about = report(opened.project, opened.plan, {"chart": levels}, (), {}, found, levels)
    assert about["episode"]["rough_cut_sound"] == {
        "integrated_LUFS": -14.0,
        "short_term_maximum_LUFS": -12.35,
        "loudness_range_LU": 3.0,
        "true_peak_dBTP": -1.01,
        "gain_dB": 6.0,
        "most_gain_reduction_dB": 1.26,
        "short_of_target_held_by_peaks": False,
        "quiet_camera": None,
    }
    chart = about["segments"][1]
    assert chart["sound"] == about["episode"]["rough_cut_sound"]
    assert chart["excerpt"]["sound"] == sound_of(found.excerpts["chart"])
    (source,) = about["sources"]
    assert source["file"] == "audio/click.flac"
    assert source["clipped_places"] == 2 and len(source["clipped_at_s"]) == 2
    assert source["sample_peak_dBFS"] == 0 and source["dc_offset"] == pytest.approx(0.02, abs=0.002)
    assert '"rough_cut_sound"' in report_text(about)


def test_a_report_without_measurements_is_whole(opened: Opened) -> None:
    about = report(opened.project, opened.plan, {}, (), {})
    assert about["episode"]["rough_cut_sound"] is None and about["sources"] == []


def test_what_cannot_be_measured_is_null_and_no_zero_is_negative() -> None:
    silent = Loudness(None, None, None, None)
    assert sound_of(Levels(silent, -0.0001, silent, False))["integrated_LUFS"] is None
    assert str(sound_of(Levels(silent, -0.0001, silent, False))["gain_dB"]) == "0.0"
    (one,) = sources_of({"a.wav": Condition(None, None, tuple(map(float, range(30))), -0.00001)})
    assert one["clipped_places"] == 30 and len(one["clipped_at_s"]) == 20
    assert one["sample_peak_dBFS"] is None and str(one["dc_offset"]) == "0.0"


def test_what_was_kept_of_levels_is_what_was_measured(tmp_path: Path) -> None:
    heard = Loudness(-20.0, None, 3.0, -6.0)
    for quiet in (None, Quiet(-60.0, 0.0)):
        levels = Levels(heard, 6.0, heard, True, 1.25, quiet)
        keep_levels(levels, tmp_path / "levels.json")
        assert kept_levels(tmp_path / "levels.json") == levels


def test_files_of_excerpts_are_looked_at_without_clips(opened: Opened, shop: Workshop) -> None:
    assert excerpt_sources(opened.plan, shop) == measured(opened.plan, shop).sources  # its take has no sound
    wordy = replace(opened.plan, segments=opened.plan.segments[:1])
    assert excerpt_sources(wordy, shop) == {}
