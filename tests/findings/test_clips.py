"""Stand-ins and names that do not sound are told of, so that none is published by mistake."""

from __future__ import annotations

from types import SimpleNamespace as Fake

import pytest

from studio.findings.clips import clip_findings, moved_findings, scratch_findings


def episode(**voices: str) -> Fake:
    return Fake(
        segments=tuple(
            Fake(id=name, voice=Fake(kind=kind) if kind else None, excerpt=None, callouts=())
            for name, kind in voices.items()
        )
    )


@pytest.mark.parametrize(
    ("plan", "said"),
    [
        (episode(hook="narration", desk="camera", end=""), []),
        (episode(), []),
        (
            episode(hook="scratch", desk="camera"),
            ["hook speaks with the scratch voice; record it before you publish."],
        ),
        (
            episode(hook="scratch", welcome="scratch", desk="camera", verse="scratch"),
            ["hook, welcome and verse speak with the scratch voice; record them before you publish."],
        ),
    ],
)
def test_one_sentence_names_them_all(plan: Fake, said: list[str]) -> None:
    assert list(scratch_findings(plan)) == said == list(clip_findings(plan))


def moved(cents: float, callouts: tuple[object, ...] = ("chords",)) -> list[str]:
    excerpt = Fake(laid=Fake(cut=Fake(cents=cents)))
    plan = Fake(segments=(Fake(id="hook", voice=None, excerpt=excerpt, callouts=callouts),))
    assert list(clip_findings(plan)) == list(moved_findings(plan))
    return list(moved_findings(plan))


@pytest.mark.parametrize(
    ("cents", "how"),
    [
        (50.0, "up by 50 cents"),
        (-50.0, "down by 50 cents"),
        (-200.0, "down by two half steps"),
        (100.0, "a half step"),
    ],
)
def test_names_on_screen_that_do_not_sound_are_told_of(cents: float, how: str) -> None:
    (sentence,) = moved(cents)
    assert (
        sentence.startswith("hook: the excerpt is moved ")
        and how in sentence
        and "do not move with it" in sentence
    )


def test_a_small_shift_and_a_clip_without_names_need_no_word() -> None:
    assert moved(0.0) == moved(49.0) == moved(-49.9) == []
    assert moved(200.0, ()) == []
