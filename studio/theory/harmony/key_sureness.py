"""How sure a key is: the share of all ways of hearing that are in it, corrected by how often people agreed.

Shares of 0.6 to 0.9 are too sure of themselves in music that is often between two keys. The table lies close to how
often the RomanText analyses agree (counted in ``tests/theory/harmony/test_without_keys.py``), and so below what
popular charts would allow, where shares from 0.6 on are nearly always right.
"""

from __future__ import annotations

from bisect import bisect_right

_SURENESS = ((0.0, 0.0), (0.5, 0.5), (0.75, 0.62), (0.9, 0.8), (0.98, 0.95), (1.0, 1.0))
"""Share and sureness, ascending; straight lines between."""

_SHARES = [share for share, _ in _SURENESS]


def sureness(share: float) -> float:
    """The sureness of a key with a share of 0 to 1; a larger share is never less sure."""
    place = min(bisect_right(_SHARES, share), len(_SHARES) - 1)
    (low, less), (high, more) = _SURENESS[place - 1], _SURENESS[place]
    return less + (more - less) * (share - low) / (high - low)
