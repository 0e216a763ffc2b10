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


@given(scripts, st.integers(1, 2000))
def test_pages_fill_the_clip(script: str, frames: int) -> None:
    states = page_states(pages(script), frames)
    assert states[0].start == 0 and states[-1].end == frames
    assert all(a.end == b.start for a, b in itertools.pairwise(states))
