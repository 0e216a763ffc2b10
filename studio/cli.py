"""The `studio` command: reads what is asked, has it done, says what was made.

Nothing heavy is imported here, so that `--help` answers at once.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from io import TextIOWrapper
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from studio import __version__

if TYPE_CHECKING:
    from studio.build import Made, Opened

MOVING = ("prores", "rle", "png", "vp9")
DONE, PROJECT_ERRORS, WRONG_USE, MACHINE_FAILED, INTERRUPTED = 0, 1, 2, 3, 130

PROJECT = click.argument("project", type=click.Path(path_type=Path))
SEGMENTS = click.argument("segments", nargs=-1, metavar="[SEGMENT]...")
OUTSIDE = click.option("--allow-outside", is_flag=True, help="Let the project use files outside its folder.")
WORKERS = click.option(
    "--workers",
    type=click.IntRange(1, 64),
    metavar="N",
    help="Processes that encode; as many as cores if not said.",
)


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="studio")
def studio() -> None:
    """Turn one project file about one song into the overlays, excerpts, draft clips and rough cut of an episode.

    \b
    Start here:
      studio new my-episode        a project to edit
      studio check my-episode      what is wrong with it, all at once
      studio build my-episode      everything, under my-episode/build

    \b
    Exit status: 0 done, 1 something in the project is to be put right, 2 wrong use, 3 the machine failed.
    """


@studio.command()
@click.argument("folder", type=click.Path(path_type=Path), metavar="DIR")
def new(folder: Path) -> None:
    """Make a project to start from in the folder DIR.

    \b
    Example:
      studio new my-episode
    """
    from studio.starter import FolderInUseError, start

    try:
        file = start(folder)
    except FolderInUseError as error:
        raise click.UsageError(str(error)) from error
    click.echo(f"Made {file}. It builds as it is: studio build {folder}")


@studio.command()
@PROJECT
@OUTSIDE
def check(project: Path, allow_outside: bool) -> None:
    """Say all that is wrong with PROJECT (a folder or its YAML file), and render nothing.

    Notes tell of what is right as it is written and still worth a look.

    \b
    Example:
      studio check my-episode
    """
    from studio.findings import findings
    from studio.findings.clips import clip_findings

    opened = _opened(project, allow_outside)
    notes = [*findings(opened.project, opened.plan), *clip_findings(opened.plan)]
    for sentence in notes:
        click.echo(f"note: {sentence}")
    seconds, segments = float(opened.plan.frames / opened.plan.canvas.rate), len(opened.plan.segments)
    click.echo(
        f"{opened.project.file.name} is right: {segments} segment{'s' * (segments != 1)}, {_clock(seconds)}."
    )


@studio.command()
@PROJECT
@click.option("--json", "form", flag_value="json", help="Print JSON, for programs.")
@click.option("--markdown", "form", flag_value="markdown", help="Print Markdown, for notes.")
@OUTSIDE
def facts(project: Path, form: str | None, allow_outside: bool) -> None:
    """Print what the theory core says of PROJECT: its facts, keys, form, chords, parts and grooves.

    JSON and Markdown hold more than the tables: every note, every reason, and how sure each answer is.

    \b
    Examples:
      studio facts my-episode
      studio facts my-episode --markdown > facts.md
    """
    from studio.facts_report.printing import print_facts

    print_facts(_opened(project, allow_outside), form or "tables")


@studio.command()
@click.argument("project", type=click.Path(path_type=Path), required=False)
@SEGMENTS
@click.option("--list", "listed", is_flag=True, help="Show the kinds of callout and their options instead.")
@click.option(
    "--pictures",
    type=click.Path(path_type=Path, file_okay=False),
    metavar="DIR",
    help="With --list: save a picture of each kind in the folder DIR.",
)
@click.option(
    "--moving",
    type=click.Choice(MOVING),
    help="Also a moving overlay with alpha for each segment, in sync with its clip: ProRes 4444, QuickTime RLE or "
    "PNG in .mov for editing, VP9 in .webm for the web.",
)
@OUTSIDE
def overlays(
    project: Path | None,
    segments: tuple[str, ...],
    listed: bool,
    pictures: Path | None,
    moving: str | None,
    allow_outside: bool,
) -> None:
    """Draw the still of each callout of PROJECT, or of some SEGMENTs only; or list the kinds of callout.

    \b
    Examples:
      studio overlays my-episode hook bridge
      studio overlays my-episode hook --moving prores
      studio overlays --list
    """
    if listed and project is not None:
        raise click.UsageError("--list shows every kind of callout there is, and takes no PROJECT.")
    if pictures is not None and not listed:
        raise click.UsageError(
            "--pictures goes with --list; the stills of a project are under its build/overlays."
        )
    if listed:
        from studio.kinds_shown.printing import print_kinds

        print_kinds(pictures)
        return
    if project is None:
        raise click.UsageError("Missing argument 'PROJECT'.")
    from studio.build import build_overlays

    _make(lambda opened, progress: build_overlays(opened, segments, progress, moving), project, allow_outside)


@studio.command()
@PROJECT
@SEGMENTS
@OUTSIDE
def excerpts(project: Path, segments: tuple[str, ...], allow_outside: bool) -> None:
    """Cut the excerpts of PROJECT, or of some SEGMENTs only, to WAV files at the programme's loudness.

    Each is what is heard in its clip, with count-in, repeats and tail, and has a picture of its wave under
    build/waves. Says how loud each one is: integrated, in its loudest three seconds, from soft to loud, and
    its true peak; and what to know of it and of the files that it comes from.

    \b
    Example:
      studio excerpts my-episode hook
    """
    from studio.build import build_excerpts, level_lines

    made = _make(lambda opened, progress: build_excerpts(opened, segments, progress), project, allow_outside)
    for line in level_lines(made.levels):
        click.echo(line)


@studio.command()
@PROJECT
@SEGMENTS
@click.option("--burn-in/--no-burn-in", default=True, help="Segment name and timecode in the rough cut.")
@WORKERS
@OUTSIDE
def build(
    project: Path, segments: tuple[str, ...], burn_in: bool, workers: int | None, allow_outside: bool
) -> None:
    """Make everything: overlays, excerpts and pictures of their waves, draft clips, and the rough cut with its
    captions, chapters, report and review page.

    With SEGMENTs named, only their overlays, excerpts and clips are made. What did not change is not
    encoded again.

    \b
    Examples:
      studio build my-episode
      studio build my-episode hook --workers 1
    """
    from studio.build import build_all

    _make(
        lambda opened, progress: build_all(opened, segments, progress, workers, burn_in),
        project,
        allow_outside,
    )


@studio.command()
@PROJECT
@WORKERS
@OUTSIDE
def review(project: Path, workers: int | None, allow_outside: bool) -> None:
    """Make the review page of PROJECT, and the clips, stills and waves that it shows where they are missing.

    The page opens from disk in any browser, without a network.

    \b
    Example:
      studio review my-episode
    """
    from studio.build import build_review

    _make(lambda opened, progress: build_review(opened, progress, workers), project, allow_outside)


def _opened(project: Path, allow_outside: bool) -> Opened:
    from studio.build import open_project

    return open_project(project, allow_outside)


def _make(work: Callable[[Opened, Any], Made], project: Path, allow_outside: bool) -> Made:
    """Open the project, do the work with progress on screen, and say what was made and where."""
    from studio.build import UnknownSegmentError
    from studio.terminal import progress_on_screen

    opened = _opened(project, allow_outside)
    try:
        with progress_on_screen() as progress:
            made = work(opened, progress)
    except UnknownSegmentError as error:
        raise click.UsageError(str(error)) from error
    _summarise(opened, made)
    return made


def _summarise(opened: Opened, made: Made) -> None:
    for sentence in made.findings:
        click.echo(f"note: {sentence}")
    new = sum(written for _, written in made.results)
    files = len(made.results)
    click.echo(f"{files} files in {opened.build}: {new} made now, {files - new} unchanged.")
    for words, name in (("Watch", "rough-cut.mp4"), ("Look over", "index.html")):
        if last := next((path for path, _ in made.results if path.name == name), None):
            click.echo(f"{words} {last}")


def _clock(seconds: float) -> str:
    return f"{int(seconds // 60)}:{int(seconds % 60):02}"


def main(arguments: list[str] | None = None) -> None:
    """Run the command and leave with its exit status; nobody is shown a traceback."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):  # a pipe of an old code page has no sharps: write what it has
            stream.reconfigure(errors="replace")
    sys.exit(run(arguments))


def run(arguments: list[str] | None = None) -> int:
    """Run the command. Returns 0 done, 1 project errors, 2 wrong use, 3 the machine failed, 130 interrupted."""
    try:
        studio.main(arguments, prog_name="studio", standalone_mode=False)
    except click.ClickException as error:
        error.show()
        return WRONG_USE
    except (KeyboardInterrupt, click.Abort):
        click.echo("Interrupted; nothing is left half-written.", err=True)
        return INTERRUPTED
    except Exception as error:
        return _explained(error)
    return DONE


def _explained(error: Exception) -> int:
    """Print a failure in words and return its exit status."""
    from studio.failures import as_sentence, is_the_project_s
    from studio.project.complaints import ProjectError

    if isinstance(error, ProjectError):
        for complaint in error.complaints:
            click.echo(str(complaint), err=True)
        count = len(error.complaints)
        click.echo(f"{count} {'thing' if count == 1 else 'things'} to put right; nothing was made.", err=True)
        return PROJECT_ERRORS
    click.echo(as_sentence(error), err=True)
    return PROJECT_ERRORS if is_the_project_s(error) else MACHINE_FAILED


if __name__ == "__main__":
    main()
