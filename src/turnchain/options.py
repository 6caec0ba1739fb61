"""Options that several commands of the command line share, and how their help is set.

In: nothing. Out: decorators and choices for ``commands``. Words that take long to import are imported when a choice is
made or help is shown.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from turnchain.drawing.looks import Look

    _Choice = click.Choice[str]
else:
    _Choice = click.Choice  # before click 8.2 it takes no type

#: The names of the options that change how charts look.
LOOKS = ("hand", "mono", "full_colour", "page", "true", "symbols")


class LateChoice(_Choice):
    """A choice whose words come from a call of ``words``, made when a choice is read or help is shown, not when the
    program starts."""

    def __init__(self, words: Callable[[], Iterable[str]], case_sensitive: bool = True) -> None:
        self._words, self.case_sensitive = words, case_sensitive

    @property
    def choices(self) -> Sequence[str]:  # type: ignore[override]  # click sets it when a choice is made
        """The words to choose from."""
        return tuple(self._words())


def one_of(endings: Iterable[str]) -> str:
    """"FILE.svg or FILE.png." for help."""
    return f"{' or '.join(f'FILE{ending}' for ending in endings)}."


def languages() -> Iterable[str]:
    """The codes of the languages of words, as "US" and "de"."""
    from turnchain.wording.tables import LANGUAGES  # tables of words, for this option alone

    return LANGUAGES


def post_sizes() -> Iterable[str]:
    """The names of the sizes of pictures for posting."""
    from turnchain.drawing.posting import SIZES  # it brings drawings

    return SIZES


def garments() -> Iterable[str]:
    """The names of the garments that a pattern file can begin with."""
    from turnchain.recipes.recipe import names  # for this option alone

    return names()


GARMENT = LateChoice(garments, case_sensitive=False)
POST_SIZE = LateChoice(post_sizes)
FILE = click.argument("file", type=click.Path(path_type=Path))
width = click.option(
    "--width",
    type=click.IntRange(300, 100_000),
    help="Width of the pictures in px (1600, or wider where a piece needs it).",
)

language = click.option(
    "--language",
    type=LateChoice(languages, case_sensitive=False),
    help="The language of all words; left out, that of the pattern file, or English.",
)


def _use_fonts(context: click.Context, parameter: click.Parameter, files: tuple[Path, ...]) -> None:
    if files:
        from turnchain.lettering import others  # for letters that are not shipped

        others.use(files)


font = click.option(
    "--font",
    multiple=True,
    type=click.Path(path_type=Path),
    metavar="FILE",
    expose_value=False,
    callback=_use_fonts,
    help="A font (TTF, OTF, TTC) for letters such as Japanese; left out, one of this computer's.",
)
size = click.option("--for", "size", metavar="SIZE", help="One of the sizes of the file, where it has several.")


def _of_a_hem(context: click.Context, parameter: click.Parameter, by: float) -> float:
    if not 0 <= by <= 200:  # neither is nan
        raise click.BadParameter("must be from 0 to 200, in the units of the file", param=parameter)
    return by


def on_a_figure(command: Callable[..., None]) -> Callable[..., None]:
    """Adds to ``command`` the options of a garment on a figure: ``figure``, ``longer`` and ``shorter``."""
    words = "With --figure: a second hem, so many of the file's units {}."
    options = (
        click.option("--figure", is_flag=True, help="The garment on a figure by the wearer's measures."),
        click.option("--longer", type=float, default=0.0, callback=_of_a_hem, help=words.format("lower")),
        click.option("--shorter", type=float, default=0.0, callback=_of_a_hem, help=words.format("higher")),
    )
    for option in reversed(options):
        command = option(command)
    return command


def looks(command: Callable[..., None]) -> Callable[..., None]:
    """Adds to ``command`` the options that change how charts look; it is called with each of ``LOOKS`` by name."""
    options = (
        click.option("--hand", type=click.Choice(["right", "left"]), default="right", help="The hand you hook with."),
        click.option("--mono", is_flag=True, help="Black on white, yarns shown by hatching: to print without colour."),
        click.option(
            "--full-colour", is_flag=True, help="Rows in the yarns' own colours, not in pale tints with dark symbols."
        ),
        click.option(
            "--page",
            type=click.Choice(["light", "dark", "clear"]),
            default="light",
            help="The ground of the picture; clear: none.",
        ),
        click.option("--true", "true", is_flag=True, help="Proportions true to the gauge, though harder to read."),
        click.option(
            "--symbols",
            type=click.Path(path_type=Path),
            help="A folder with symbols of your own.",
        ),
    )
    for option in reversed(options):
        command = option(command)
    return command


def look_of(
    hand: str, mono: bool, page: str, true: bool, symbols: Path | None, full_colour: bool = False
) -> Look:
    """The look that the options ask for. Raises MakerError as ``programs.look`` does."""
    from turnchain import programs  # loaded when the command runs

    return programs.look(hand, mono, page, true, symbols, full_colour)


class Example(click.Command):
    """A command whose help keeps its example on a line of its own."""

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Writes the epilog on one line, however long."""
        if self.epilog:
            formatter.write(f"\n{self.epilog}\n")
