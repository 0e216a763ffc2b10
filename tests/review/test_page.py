"""The review page: parsed as HTML, against the plan and the files that stand beside it."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass, field, replace
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path
from urllib.parse import unquote

import pytest
from PIL import Image

from studio.build import Opened, build_all, build_review, open_project
from studio.drawing.themes.contrast import contrast
from studio.handoff.report import report
from studio.places import templates
from studio.review.html import html
from studio.review.levels import LevelRow
from studio.review.page import Page, page_of
from studio.review.segment import Wave
from tests.click_episode import PROJECT, write_episode

VOID = {"meta", "img", "link", "br", "input", "hr"}


@dataclass
class Read(HTMLParser):
    """A page as a parser finds it: elements with their attributes, ids, links, and text; every element is closed."""

    tags: list[tuple[str, dict[str, str | None]]] = field(default_factory=list)
    words: list[str] = field(default_factory=list)
    open_: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open_.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open_.pop() == tag

    def handle_data(self, data: str) -> None:
        if self.open_ and self.open_[-1] != "style":
            self.words.append(data)

    def all(self, tag: str) -> list[dict[str, str | None]]:
        return [attributes for name, attributes in self.tags if name == tag]

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.words).split())


def read(text: str) -> Read:
    page = Read()
    page.feed(text)
    page.close()
    assert not page.open_
    return page


def made_up(opened: Opened, **changes: object) -> Page:
    """The page of an episode that was not built: nothing stands, nothing was measured."""
    about = report(opened.project, opened.plan, {}, ["chart: look <here>", "And & there."], {})
    page = page_of(opened.project, opened.plan, about, [(0, "All of it")], ())
    return replace(page, **changes)  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory) -> Opened:
    return open_project(write_episode(tmp_path_factory.mktemp("episode") / "clicks"))


def test_nothing_is_linked_to_that_is_not_there(opened: Opened) -> None:
    page = read(html(made_up(opened)))
    assert not page.all("video") and not page.all("img")
    assert all((link["href"] or "").startswith("#") for link in page.all("a"))


def test_every_text_is_escaped(opened: Opened) -> None:
    attack = '"><script>alert(1)</script>&amp;'
    page = made_up(opened)
    segments = tuple(
        replace(
            one,
            title=attack,
            script=(attack,),
            findings=(attack,),
            sources=(attack,),
            heard=(attack,),
            levels=(LevelRow(attack, (attack,)),),
            wave=Wave("wave.png", attack),
        )
        for one in page.segments
    )
    text = html(replace(page, title=attack, song=attack, segments=segments, care=attack))
    assert not read(text).all("script")
    assert read(text).text.count(attack) >= 7 * len(segments)
    assert [picture["alt"] for picture in read(text).all("img")] == [attack] * len(segments)


def test_it_needs_no_network_and_no_other_file(opened: Opened) -> None:
    text = html(made_up(opened))
    page = read(text)
    assert not page.all("link") and not page.all("script") and "@import" not in text and "url(" not in text
    assert "http:" not in text and "https:" not in text


def test_headings_go_down_by_one_and_everything_has_a_name(opened: Opened) -> None:
    # WCAG 2.2: 3.1.1 language of page, 2.4.2 page titled, 1.3.1 headings and relationships.
    page = read(html(made_up(opened)))
    assert page.all("html")[0]["lang"] == "en" and page.all("title")
    assert any(meta.get("name") == "viewport" for meta in page.all("meta"))
    levels = [int(tag[1]) for tag, _ in page.tags if re.fullmatch("h[1-6]", tag)]
    assert levels[0] == 1 and levels.count(1) == 1
    assert all(two <= one + 1 for one, two in pairwise(levels))
    ids = [attributes["id"] for _, attributes in page.tags if "id" in attributes]
    assert len(ids) == len(set(ids))
    for _, attributes in page.tags:
        if name := attributes.get("aria-labelledby"):
            assert name in ids
    assert all((link["href"] or "").removeprefix("#") in ids for link in page.all("a"))


def test_findings_stand_at_the_top_and_at_their_segment(opened: Opened) -> None:
    page = made_up(opened)
    assert page.findings == ("chart: look <here>", "And & there.")
    assert {one.number: one.findings for one in page.segments if one.findings} == {2: ("Look <here>",)}
    assert "chart: look <here>" in read(html(page)).text


def test_a_finding_of_a_file_stands_at_the_segments_that_play_it_and_at_no_other(opened: Opened) -> None:
    clipped = "audio/click.flac is clipped at 0:01.00; ask for a mix with headroom."
    namesake = "voice/click.flac is clipped at 0:01.00; ask for a mix with headroom."
    silent = "footage/count.mp4 is clipped at 0:01.00; ask for a mix with headroom."  # a take without sound
    about = report(opened.project, opened.plan, {}, [clipped, namesake, silent], {})
    page = page_of(opened.project, opened.plan, about, (), ())
    assert {one.title: one.findings for one in page.segments if one.findings} == {
        "A chord to a bar": (clipped,),
        "Keys": (clipped,),
    }


def test_a_callout_is_said_to_show_when_it_shows_and_not_between(opened: Opened) -> None:
    plan = opened.plan
    callout = plan.segments[1].callouts[0]
    first = replace(callout.layer.states[0], start=0, end=45)
    twice = replace(callout, layer=replace(callout.layer, states=(first, replace(first, start=90, end=150))))
    changed = replace(plan.segments[1], callouts=(twice,))
    plan = replace(plan, segments=(plan.segments[0], changed, *plan.segments[2:]))
    about = report(opened.project, plan, {}, (), {})
    page = page_of(opened.project, plan, about, (), [f"overlays/chart/{callout.name}.png"])
    (still,) = page.segments[1].stills
    assert still.when == "0.0–1.5 s and 3.0–5.0 s of the clip"


def test_a_scratch_voice_is_marked_in_the_contents_and_at_its_segment(opened: Opened) -> None:
    page = made_up(opened)
    segments = tuple(replace(one, scratch=one.number == 2) for one in page.segments)
    assert read(html(replace(page, segments=segments))).text.count("scratch voice") == 2
    assert "scratch voice" not in read(html(page)).text


def test_levels_stand_in_a_table_with_heads(opened: Opened) -> None:
    page = made_up(opened)
    rows = (
        LevelRow("Clip", ("−14.0", "−12.1", "4.2", "−1.0")),
        LevelRow("Excerpt", ("−15.0", "–", "–", "−1.0")),
    )
    text = html(replace(page, segments=(replace(page.segments[0], levels=rows),)))
    heads = [head["scope"] for head in read(text).all("th")]
    assert heads[:7] == ["col"] * 5 + ["row"] * 2
    assert "Clip −14.0 −12.1 4.2 −1.0 Excerpt −15.0 – – −1.0" in read(text).text


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_words_can_be_read_on_both_grounds(scheme: str) -> None:
    # WCAG 2.2, 1.4.3: 4.5 to 1.
    css = (templates() / "review/page.html").read_text("utf-8")
    blocks = re.findall(r":root \{(.*?)\}", css, re.DOTALL)
    found = dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6})", blocks[["light", "dark"].index(scheme)]))
    colours = {name: tuple(bytes.fromhex(value[1:])) for name, value in found.items()}
    for ink in ("ink", "quiet", "now", "link"):
        assert contrast(colours[ink], colours["ground"]) >= 4.5  # type: ignore[arg-type]


@pytest.mark.slow
def test_a_built_page_shows_every_clip_and_every_still_in_words(tmp_path: Path) -> None:
    folder = write_episode(tmp_path / "Übung Nr. 1 & more")
    text = PROJECT.format(canvas="640x360 @ 30").replace("title: Keys", "title: Tasten für <Öhr> & Co")
    text = text.replace("script: Here it is.", 'script: "Here is {numerals: 2-3}, and {where}."')
    text = text.replace("segments:\n", "facts:\n  where: {key: song, expect: F major}\nsegments:\n", 1)
    (folder / "project.yaml").write_text(text, "utf-8")
    made = build_all(open_project(folder), (), workers=1)
    opened = open_project(folder)
    path = opened.build / "review" / "index.html"
    assert (path, True) in made.results
    page = read(path.read_text("utf-8"))

    links = [link["href"] for link in page.all("a")] + [
        one["src"] for one in page.all("video") + page.all("img")
    ]
    files = {unquote(link) for link in links if link and not link.startswith("#")}
    assert len(files) > 10
    for file in files:
        assert (path.parent / file).resolve().is_file(), file

    callouts = [callout for segment in opened.plan.segments for callout in segment.callouts]
    waves = [picture for picture in page.all("img") if "/waves/" in (picture["src"] or "")]
    stills = [picture for picture in page.all("img") if picture not in waves]
    assert len(waves) == 2 and all((wave["alt"] or "").startswith("Wave of the excerpt") for wave in waves)
    assert [still["alt"] for still in stills] == [callout.alt for callout in callouts]
    assert all(callout.alt.strip() and callout.alt in page.text for callout in callouts)
    assert len(page.all("video")) == 4 and all(video["aria-label"] for video in page.all("video"))

    assert "Tasten für <Öhr> & Co" in page.text
    assert "numerals: 2-3" in page.text and "IV–V7" in page.text
    assert "Expected: F major, and it is not so." in page.text
    assert "The excerpt is bars 2–5: click." in page.text and "audio/click.flac" in page.text
    assert "ask a lawyer" in page.text.lower()
    report = json.loads((opened.build / "report.json").read_text("utf-8"))
    assert f"{report['used']['played_s']:.1f} s" in page.text
    of_whole = [sentence for sentence in report["findings"] if sentence.startswith("The rough cut: ")]
    assert of_whole and not any(sentence in page.text for sentence in of_whole)  # the page is about clips
    assert all(sentence in page.text for sentence in report["findings"] if sentence not in of_whole)
    for segment in report["segments"]:
        assert segment["flashes"]["in_worst_second"] <= 3
        for callout in segment["callouts"]:
            assert callout["alt_text"]
            picture = Image.open(opened.build / "overlays" / segment["id"] / f"{callout['name']}.png")
            assert picture.text["Description"] == callout["alt_text"]  # type: ignore[attr-defined]

    again = build_review(open_project(folder), workers=1)
    assert again.encoded == 0 and not [file for file, written in again.results if written]


@pytest.mark.slow
def test_a_page_alone_makes_the_clips_that_it_shows(tmp_path: Path) -> None:
    opened = open_project(write_episode(tmp_path / "clicks"))
    build_review(opened, workers=1)
    page = read((opened.build / "review/index.html").read_text("utf-8"))
    assert len(page.all("video")) == 4 and "Rough cut" not in page.text
    assert not (opened.build / "rough-cut.mp4").exists()
