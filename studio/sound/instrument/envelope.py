"""How a note begins and ends, so that neither edge clicks."""

from __future__ import annotations

import numpy as np

from studio.sound.samples import Samples


def begun(samples: Samples, attack: int) -> Samples:
    """The samples, from silence up over `attack` samples; a raised cosine, flat at both ends. In place."""
    count = min(attack, len(samples))
    samples[:count] *= _fall(attack)[::-1][:count, None]
    return samples


def ended(samples: Samples, held: int, release: int) -> Samples:
    """The samples with the key held for `held` of them, then dying away over `release`, and nothing after. In place.

    A hand or a damper takes most of the sound at once and the rest slowly: the square of a raised cosine.
    """
    count = max(min(release, len(samples) - held), 0)
    samples[held : held + count] *= _fall(release)[:count, None] ** 2
    samples[held + count :] = 0
    return samples


def _fall(length: int) -> Samples:
    """Gains from nearly 1 to nearly 0, symmetric about the middle."""
    phase = (np.arange(length) + 0.5) / max(length, 1)
    return (0.5 + 0.5 * np.cos(np.pi * phase)).astype(np.float32)
