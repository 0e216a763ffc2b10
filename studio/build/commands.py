"""One function for each command that makes something: which stages it has, in order."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from studio.build import stages
from studio.build.clearing import clear
from studio.build.made import Made
from studio.build.opening import Opened, chosen, workshop
from studio.build.papers import write_papers, write_review
from studio.findings import findings
from studio.findings.clips import clip_findings
from studio.findings.sound import level_findings, source_findings
from studio.handoff.figures import relative
from studio.handoff.report import report
from studio.progress import Progress, Quiet
from studio.render.flashes import Flashes, flash_findings
from studio.render.moving import stale_overlays
from studio.render.workshop import Workshop
from studio.sound.condition import Condition
from studio.timeline.plan import Plan


def build_overlays(
    opened: Opened,
    ids: Sequence[str],
    progress: Progress | None = None,
    moving: str | None = None,
) -> Made:
    """Write the still of each callout, and with `moving`, the name of a codec, each segment's moving overlay."""
    shop = workshop(opened, progress or Quiet(), None)
    plan, made = chosen(opened, ids), Made()
    stages.stills(plan, shop, made)
    bare = stages.moving(plan, moving, shop, made) if moving else []
    flashing = stages.flashing(plan, shop)
    made.findings = [*bare, *flash_findings(plan, flashing), *stale_overlays(plan, shop)]
    made.encoded = shop.encoded
    return made


def build_excerpts(opened: Opened, ids: Sequence[str], progress: Progress | None = None) -> Made:
    """Write the excerpt of each segment that has one, and say what is to be known of their sound."""
    shop = workshop(opened, progress or Quiet(), 1)
    plan, made = chosen(opened, ids), Made()
    stages.excerpts(opened.project, plan, shop, made)
    files = stages.excerpt_sources(plan, shop)
    made.findings = [
        *level_findings(plan, excerpts=dict(made.levels)),
        *source_findings(_by_place(opened, files)),
    ]
    made.encoded = shop.encoded
    return made


def build_all(
    opened: Opened,
    ids: Sequence[str],
    progress: Progress | None = None,
    workers: int | None = None,
    burnt: bool = True,
) -> Made:
    """Everything: overlays, excerpts, clips; and, when no segments are named, the rough cut and its papers."""
    shop = workshop(opened, progress or Quiet(), workers)
    plan, made = chosen(opened, ids), Made()
    stages.stills(plan, shop, made)
    stages.excerpts(opened.project, plan, shop, made)
    loud = stages.sounds(plan, shop)
    if ids:
        stages.chunks(plan, shop)
    else:
        stages.all_chunks(plan, burnt, shop)
    stages.clips(plan, shop, made)
    flashing = stages.flashing(plan, shop)
    made.findings = _findings(opened, plan, loud, flashing, shop)
    if not ids:
        whole, of_clips = stages.rough_cut(plan, burnt, shop, made), list(made.findings)
        made.findings += level_findings(plan, whole=whole)
        about = report(opened.project, plan, loud.clips, made.findings, flashing, loud.beside, whole)
        write_papers(opened, about, shop, made)
        # The page is about clips, and the same whether it is made here or by itself, without a rough cut.
        write_review(opened, {**about, "findings": of_clips}, shop, made)
        clear(plan, shop, made)
    shop.store.clean()
    made.encoded = shop.encoded
    return made


def build_review(opened: Opened, progress: Progress | None = None, workers: int | None = None) -> Made:
    """The review page, and what it shows: stills, excerpts and clips. A rough cut is linked to where there is one."""
    shop = workshop(opened, progress or Quiet(), workers)
    plan, made = opened.plan, Made()
    stages.stills(plan, shop, made)
    stages.excerpts(opened.project, plan, shop, made)
    loud = stages.sounds(plan, shop)
    stages.chunks(plan, shop)
    stages.clips(plan, shop, made)
    flashing = stages.flashing(plan, shop)
    made.findings = _findings(opened, plan, loud, flashing, shop)
    about = report(opened.project, plan, loud.clips, made.findings, flashing, loud.beside)
    write_review(opened, about, shop, made)
    shop.store.clean()
    made.encoded = shop.encoded
    return made


def _findings(
    opened: Opened, plan: Plan, loud: stages.Loudnesses, flashing: Mapping[str, Flashes], shop: Workshop
) -> list[str]:
    files = _by_place(opened, loud.beside.sources)
    return [
        *findings(opened.project, plan, loud.clips, files, loud.beside.excerpts),
        *clip_findings(plan),
        *flash_findings(plan, flashing),
        *stale_overlays(plan, shop),
    ]


def _by_place(opened: Opened, files: Mapping[str, Condition]) -> dict[str, Condition]:
    """Conditions by the path of each file from the project's folder on: what a person calls it."""
    return {relative(opened.project, path): found for path, found in files.items()}
