"""Scripts in pages: nothing lost, nothing too long, every page its share of the time."""

import itertools

from hypothesis import given
from hypothesis import strategies as st

from studio.timeline.talk import WORDS_A_PAGE, page_states, pages

words = st.text(alphabet="abcdefg", min_size=1, max_size=12)
scripts = st.lists(
    st.tuples(words, st.sampled_from([" ", ". ", "? ", "\n\n", "\n", ", "])), max_size=300
).map(lambda pieces: "".join(word + gap for word, gap in pieces))


@given(scripts)
def test_pages_hold_every_word_in_order(script: str) -> None:
    assert " ".join(pages(script)).split() == script.split()


@given(scripts)
def test_no_page_is_too_full(script: str) -> None:
    assert all(0 < len(page.split()) <= WORDS_A_PAGE for page in pages(script))


covers = st.lists(
    st.tuples(st.integers(0, 900), st.integers(0, 300)).map(lambda c: (c[0], c[0] + c[1])), max_size=3
)


@given(scripts, st.integers(1, 1200), covers)
def test_the_clip_is_filled_and_pages_show_where_nothing_covers_them(
    script: str, frames: int, covered: list[tuple[int, int]]
) -> None:
    covered = [(min(a, frames), min(b, frames)) for a, b in covered]
    states = page_states(pages(script), frames, covered)
    assert states[0].start == 0 and states[-1].end == frames
    assert all(a.end == b.start for a, b in itertools.pairwise(states))
    for state in states:
        hidden = any(a < state.end and state.start < b for a, b in covered)
        assert (state.look == -1) == (hidden or not pages(script))
