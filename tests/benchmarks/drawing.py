"""How long the still of each kind of callout takes to draw at 1080 lines.

Run by hand: `python -m tests.benchmarks.drawing`. `first` is drawn with nothing kept from before but what the kinds
ahead of it left; `again` is the middle of five more; `other` is the slowest of the callout's other looks, each drawn
for the first time. For these two a still has 150 ms. `states` is how often a callout's picture changes in a second
of its clip at most, and `marks` how many small shapes move over it, which are drawn once.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections import Counter
from dataclasses import replace
from statistics import median

from studio.drawing.themes.theme import read_theme, theme_names, theme_path
from studio.example import CANVAS, Examples, plan_examples
from studio.timeline.plan import CalloutPlan

LIMIT_MS = 150
TIMES = 5


def milliseconds(examples: Examples, callout: CalloutPlan) -> float:
    """How long a still takes, the whole canvas with its marks."""
    started = time.perf_counter()
    examples.still(callout)
    return 1e3 * (time.perf_counter() - started)


def other_looks(examples: Examples, callout: CalloutPlan) -> float:
    """How long the slowest of a callout's other looks takes; 0 where it has none."""
    looks = dict.fromkeys(state.look for state in callout.layer.states if state.look != callout.still)
    return max((milliseconds(examples, replace(callout, still=look)) for look in looks), default=0.0)


def states_a_second(callout: CalloutPlan, rate: float) -> int:
    """The most pictures that are shown anew within one second; fades apart, which draw nothing."""
    shown = [(state.start, state.look) for state in callout.layer.states]
    changes = [
        start for (start, look), before in zip(shown, [(0, None), *shown], strict=False) if look != before[1]
    ]
    return max(Counter(int(start / rate) for start in changes).values(), default=0)


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.drawing", description="Stills.")
    parser.add_argument("--theme", default="slate", choices=theme_names())
    parser.add_argument("--canvas", default=CANVAS)
    asked = parser.parse_args()
    started = time.perf_counter()
    examples = plan_examples(read_theme(theme_path(asked.theme)), asked.canvas)
    print(f"{asked.theme}, {asked.canvas}; planned in {time.perf_counter() - started:.1f} s")
    print(f"{'kind':<14}{'first':>9}{'again':>9}{'other':>9}{'states':>10}{'marks':>8}")
    slow = []
    for kind, callout in examples:
        first = milliseconds(examples, callout)
        again = median(milliseconds(examples, callout) for _ in range(TIMES))
        other = other_looks(examples, callout)
        states = states_a_second(callout, float(examples.plan.canvas.rate))
        print(
            f"{kind:<14}{first:>6.0f} ms{again:>6.0f} ms{other:>6.0f} ms{states:>8}/s{len(callout.marks):>8}"
        )
        if max(again, other) > LIMIT_MS:
            slow.append(kind)
    for kind, wrong in examples.refused.items():
        print(f"{kind}: {wrong}")
    if slow:
        sys.exit(f"over {LIMIT_MS} ms: {', '.join(slow)}")
    print(f"every still is drawn in under {LIMIT_MS} ms after the first")


if __name__ == "__main__":
    main()
