"""Everything of a pattern in one folder, and the page to work from.

In: arguments. Out: ``make`` and ``page`` for the command line.
"""

from __future__ import annotations

import sys
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from turnchain import console, options
from turnchain.commands.files import check_ending

if TYPE_CHECKING:
    from turnchain.making.record import MadeFolder


@click.command(cls=options.Example, epilog="Example: turnchain make mytop.toml -o mytop")
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option("-o", "--output", required=True, type=click.Path(path_type=Path), help="The folder to make it in.")
@options.width
@options.font
@options.language
@options.size
@options.looks
def make(
    files: tuple[Path, ...], output: Path, width: int | None, language: str | None, size: str | None, **look: Any
) -> None:
    """Make everything: the plan, charts and close-ups with alt texts, the pattern in words, and pages to open.

    Of several patterns, or a folder of them, each gets a folder of its own in the one named; so does each size.
    """
    from turnchain.making.made_of import make as make_unless_made  # loaded when the command runs
    from turnchain.making.progress_bar import ProgressBar
    from turnchain.terminal import telling

    shown = options.look_of(**look)
    with ProgressBar() as watch, telling(watch):
        if len(files) == 1 and not files[0].is_dir():
            made, failed = [make_unless_made(files[0], output, width, shown, language, watch, size)], []
        else:
            from turnchain.making.many import make_many, pattern_files  # for several

            sources = pattern_files(files)
            one = partial(make_unless_made, width=width, look=shown, language=language, size=size)
            outcomes = list(make_many(sources, output, one, watch))
            made = [outcome.made for outcome in outcomes if outcome.made]
            failed = [outcome.problem for outcome in outcomes if outcome.problem]
    for folder in made:
        _show_made(folder)
    for problem in failed:
        console.say(problem, 1)
    if failed:
        sys.exit(console.say(f"{len(failed)} of {len(outcomes)} patterns could not be made", 1))


def _show_made(made: MadeFolder) -> None:
    for path in made.written:
        console.show(str(path))
    for path in made.removed:
        console.show(f"note: {path} is no longer part of the pattern, and was removed", err=True)
    for path in made.left:
        said = "was changed since it was made, and was kept; move it away to have it made again"
        console.show(f"note: {path} {said}", err=True)
    for line in made.told:
        console.show(f"note: {line}", err=True)


@click.command(cls=options.Example, epilog="Example: turnchain page mytop.toml -o mytop.html")
@options.FILE
@click.option("-o", "--output", required=True, type=click.Path(path_type=Path), help="FILE.html.")
@click.option("--hand", type=click.Choice(["right", "left"]), default="right", help="The hand you hook with.")
@click.option(
    "--symbols",
    type=click.Path(path_type=Path),
    help="A folder with symbols of your own.",
)
@options.size
def page(file: Path, output: Path, hand: str, symbols: Path | None, size: str | None) -> None:
    """Make a page to work from: it shows row after row, keeps your place, and lets you try other colours."""
    check_ending(output, (".html", ".htm"))
    from turnchain.making.one import make_page  # loaded when the command runs

    look = options.look_of(hand=hand, mono=False, page="light", true=False, symbols=symbols)
    with console.progress():
        make_page(file, output, look, size)
    console.show(str(output))
