"""What goes when an episode is made: results of earlier builds that nothing in it is any more."""

from __future__ import annotations

from studio.build.made import Made
from studio.render.moving import moving_overlays
from studio.render.workshop import Workshop
from studio.timeline.plan import Plan


def clear(plan: Plan, shop: Workshop, made: Made) -> None:
    """Remove results of earlier builds that this plan no longer has: a renamed segment's clip, say.

    Moving overlays, which somebody asked for, stay while their segment is there.
    """
    kept = [*(path for path, _ in made.results), *(path for _, path in moving_overlays(plan, shop))]
    wanted = {path.relative_to(shop.build).as_posix() for path in kept}
    for place in shop.ledger.places:
        if place not in wanted:
            shop.ledger.drop(place)
