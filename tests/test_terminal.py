"""Progress in plain lines, as a log file or a pipe gets it."""

from studio.terminal import PlainLines


def test_each_stage_ends_with_a_line_and_an_empty_one_says_nothing() -> None:
    said: list[str] = []
    lines = PlainLines(said.append)
    with lines.stage("excerpts", 0):
        pass
    with lines.stage("pictures", 30) as step:
        step(10)
        step(20)
    assert len(said) == 1 and said[0].startswith("pictures: done, 30 in ")


def test_a_long_stage_tells_how_far_it_is(monkeypatch) -> None:  # type: ignore[no-untyped-def]
    moments = iter([0.0, 11.0, 15.0, 33.0])
    monkeypatch.setattr("studio.terminal.time.monotonic", lambda: next(moments))
    said: list[str] = []
    with PlainLines(said.append).stage("pictures", 30) as step:
        step(10)
        step(5)
    assert said[0] == "pictures: 33 %, about 22 s left"
    assert said[1:] == ["pictures: done, 30 in 33.0 s"]
