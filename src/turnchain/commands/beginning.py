"""What a maker begins with: a new pattern file, the page to design on, fabrics, and colours of yarns.

In: arguments. Out: ``new``, ``design``, ``fabrics`` and ``colours`` for the command line.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

import click

from turnchain import console, options, packaged


@click.command(
    cls=options.Example, epilog='Example: turnchain new mytop.toml --garment "boxy top" --table woman --size S,M,L'
)
@options.FILE
@click.option("--garment", type=options.GARMENT, help="Begin with a garment, all its measures worked out.")
@click.option("--table", type=click.Choice(["woman", "child"]), help="The size table of the garment's wearer.")
@click.option("--size", "sizes", metavar="SIZES", help="One size of the table or several: M, or S,M,L.")
@click.option(
    "--measure", "own", multiple=True, metavar="NAME=LENGTH", help='A measure of the body: bust=96, or "head=22 in".'
)
@click.option("--ease", metavar="LENGTH", help="How much wider than the body; left out, what is usual.")
@click.option("--units", type=click.Choice(["cm", "in"]), help="The unit of the file that begins with a garment (cm).")
def new(file: Path, garment: str | None, **wearer: Any) -> None:
    """Write a starter pattern file, with a remark on every line, to change into your own."""
    from turnchain.errors import FileError  # loaded when the command runs
    from turnchain.writers.files import replaced

    if file.exists():
        raise FileError(f"{file}: there is already a file of this name; it was left as it is")
    if garment is None and any(wearer.values()):
        raise click.UsageError("--table, --size, --measure, --ease and --units go with --garment")
    with replaced(file) as stream:
        stream.write(_starter() if garment is None else _garment(garment, **wearer))
    console.show(f"{file} is ready. Change what you like, then: turnchain check {file}")


def _starter() -> bytes:
    return packaged.file("starter.toml").read_bytes()


def _garment(
    garment: str, table: str | None, sizes: str | None, own: tuple[str, ...], ease: str | None, units: Any
) -> bytes:
    from turnchain.recipes import recipe, writing  # loaded when the command runs

    names = tuple(filter(None, (name.strip() for name in (sizes or "").split(","))))
    wearer = writing.asked(table or "", names, own, ease, units or "cm")
    return writing.written(recipe.recipe(garment), wearer, units or "cm").encode()


@click.command(cls=options.Example, epilog="Example: turnchain design mytop.toml")
@click.argument("file", type=click.Path(path_type=Path), required=False)
@click.option("--port", type=click.IntRange(0, 65535), default=0, help="A port of this computer (any that is free).")
@click.option("--no-browser", is_flag=True, help="Only print the address; open it yourself.")
@click.option(
    "--build", type=click.Path(path_type=Path), metavar="DIR", help="Make the page as a folder for any web host."
)
@click.option("--pyodide", type=click.Path(path_type=Path), metavar="DIR", help="A folder of pyodide for --build.")
def design(file: Path | None, port: int, no_browser: bool, build: Path | None, pyodide: Path | None) -> None:
    """Design a pattern in your browser; charts follow every change. FILE is saved as you go; it may be new.

    Nothing leaves this computer. Ctrl-C ends it.
    """
    if build is not None:
        if file is not None or port or no_browser:
            raise click.UsageError("--build makes a page that opens patterns itself; leave out all but --pyodide")
        from turnchain.design import building  # loaded when the command runs

        for path in building.build(build, pyodide):
            console.show(str(path))
        return
    if pyodide is not None:
        raise click.UsageError("--pyodide goes with --build")
    from turnchain.design.opening import opened  # loaded when the command runs

    opened(file, port, browser=not no_browser, tell=console.show)


@click.command(cls=options.Example, epilog="Example: turnchain fabrics -o fabrics.html")
@click.option(
    "--output", "-o", type=click.Path(dir_okay=False, path_type=Path), metavar="FILE.html",
    help="Write them as a page instead, with a picture of each.",
)  # fmt: skip
def fabrics(output: Path | None) -> None:
    """List the fabrics that a pattern file can name, each with a row in words."""
    if output is not None:
        from turnchain.pages.fabrics_page import fabrics_page  # loaded when it is asked for
        from turnchain.writers.files import replaced

        with replaced(output) as stream:
            stream.write(fabrics_page().encode())
        console.show(f"written: {output}")
        return
    from turnchain.pages.fabrics import fabrics_text  # loaded when the command runs

    for line in fabrics_text().splitlines():
        console.show(line)


@click.command(cls=options.Example, epilog="Example: turnchain colours stash.jpg --yarns 5")
@click.argument("photograph", type=click.Path(path_type=Path))
@click.option("--yarns", type=click.IntRange(1, 24), help="Find at most this many yarns.")
def colours(photograph: Path, yarns: int | None) -> None:
    """Find the colours of yarns in a PHOTOGRAPH of them, as lines for the pattern file.

    Lay the yarns on a plain ground of another colour, in daylight.
    """
    from turnchain.yarns.photograph import colours_in, lines  # loaded when the command runs

    for line in lines(colours_in(photograph, yarns), patches=sys.stdout.isatty()):
        click.echo(line)
