"""Single pictures and paper: a chart, stripes, sheets, posters and booklets.

In: arguments. Out: ``chart``, ``stripes`` and ``print_`` for the command line.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from turnchain import console, options
from turnchain.commands.files import check_ending, show_fonts
from turnchain.writers import formats


@click.command(
    cls=options.Example, epilog="Example: turnchain chart mytop.toml --piece front -o front.png --width 1600"
)
@options.FILE
@click.option("--piece", required=True, help="The name of the piece.")
@click.option("-o", "--output", required=True, type=click.Path(path_type=Path), help=options.one_of(formats.PICTURES))
@options.width
@options.font
@options.language
@click.option("--for", "for_size", metavar="SIZE", help="One of the sizes of the file, where it has several.")
@click.option(
    "--short/--whole",
    default=None,
    help="What repeats once, in a bracket with its count; or all of it. Left out, a wide piece is short.",
)
@click.option("--size", type=options.POST_SIZE, help="A picture for posting, fitted into this size.")
@click.option("--detail", metavar="ROWS", help="A close-up of these rows: 12 or 12-14. Goes with --at.")
@click.option("--at", type=click.Choice(["left", "right"]), help="The edge of the close-up.")
@click.option(
    "--moving", is_flag=True, help="The close-up worked stitch by stitch, as a moving picture: FILE.webp or FILE.gif."
)
@click.option("--strip", is_flag=True, help="The same steps side by side in numbered panels, for print.")
@click.option("--flat", is_flag=True, help="Repeat every symbol in the SVG, for programs that cannot read references.")
@options.looks
def chart(file: Path, piece: str, output: Path, **choices: Any) -> None:
    """Make the chart of one piece as a picture, with its alt text in a file beside it."""
    check_ending(output, formats.MOVING if choices["moving"] else formats.PICTURES)
    from turnchain.making.one import Wanted, make_chart  # loaded when the command runs

    look = options.look_of(**{name: choices.pop(name) for name in options.LOOKS})
    if (choices["detail"] is None) != (choices["at"] is None):
        raise click.UsageError("--detail and --at go together: give the rows and the edge")
    if (choices["moving"] or choices["strip"]) and choices["detail"] is None:
        raise click.UsageError("--moving and --strip show an edge stitch by stitch: give --detail and --at as well")
    if choices["strip"] and (choices["moving"] or choices["size"]):
        raise click.UsageError("--strip is a picture for print of its own size; leave out --moving and --size")
    if choices["size"] and (choices["width"] or choices["short"]):
        raise click.UsageError("--size sets the width and whether the chart is short; leave out --width and --short")
    if choices["detail"] and (choices["width"] or choices["short"]):
        raise click.UsageError("a close-up has a width of its own; leave out --width and --short, or give a --size")
    rows = None if choices["detail"] is None else _rows(choices["detail"])
    with console.progress():
        made = make_chart(file, output, Wanted(piece, look, **{**choices, "detail": rows}))
    for path in made:
        console.show(str(path))
    show_fonts()


def _rows(words: str) -> tuple[int, int]:
    """ "12" or "12-14" as first and last row."""
    first, _, last = words.partition("-")
    if not first.strip().isdecimal() or (last and not last.strip().isdecimal()):
        said = f'"{console.shown(words)}" is no row number; write 12, or 12-14'
        raise click.BadParameter(said, param_hint="--detail")
    return int(first[:9]), int((last or first)[:9])


@click.command(cls=options.Example, epilog="Example: turnchain stripes mytop.toml -o stripes.png")
@options.FILE
@click.option("--piece", help="One piece by itself; left out: all of them as worn.")
@click.option("--orders", is_flag=True, help="The same yarns in other orders, with ends to weave in and yarn left.")
@options.on_a_figure
@click.option("-o", "--output", required=True, type=click.Path(path_type=Path), help=options.one_of(formats.PICTURES))
@options.width
@options.font
@options.language
@options.size
@click.option("--mono", is_flag=True, help="Black on white, yarns shown by hatching.")
@click.option(
    "--page", type=click.Choice(["light", "dark", "clear"]), default="light", help="The picture's ground; clear: none."
)
def stripes(
    file: Path,
    piece: str | None,
    orders: bool,
    figure: bool,
    longer: float,
    shorter: float,
    output: Path,
    width: int | None,
    mono: bool,
    page: str,
    language: str | None,
    size: str | None,
) -> None:
    """Show the fabric as it will look: the stripes of all pieces as worn, and the yarns."""
    check_ending(output)
    if (orders or figure) and piece is not None:
        raise click.UsageError("--orders and --figure show all pieces; leave out --piece")
    if (longer or shorter) and not figure:
        raise click.UsageError("--longer and --shorter are of a garment on a figure: add --figure")
    from turnchain.making.one import make_orders, make_stripes, make_worn  # loaded when the command runs

    look = options.look_of(hand="right", mono=mono, page=page, true=True, symbols=None)
    with console.progress():
        if orders:
            made = make_orders(file, output, width, look, language, size)
        elif figure:
            made = make_worn(file, output, width, look, longer - shorter, language, size)
        else:
            made = make_stripes(file, piece, output, width, look, language, size)
    for path in made:
        console.show(str(path))
    show_fonts()


@click.command(
    name="print",
    cls=options.Example,
    epilog="Example: turnchain print mytop.toml --poster --piece front -o front.pdf",
)
@options.FILE
@click.option("--piece", multiple=True, help="The piece to print; may be given again. Left out: all of them.")
@click.option(
    "-o",
    "--output",
    required=True,
    type=click.Path(path_type=Path),
    help=f"FILE.pdf, or a sheet's {options.one_of(formats.pixel_endings())}",
)
@click.option(
    "--paper",
    default="A4",
    help="A0 to A5, Letter, Legal, Tabloid, Arch-A to Arch-E, Roll-24 to Roll-44, Roll-61cm to Roll-107cm.",
)
@click.option("--poster", is_flag=True, help="Cut the chart onto sheets to be glued together.")
@click.option("--booklet", is_flag=True, help="The whole pattern: charts, rows in words, a row checklist, finishing.")
@click.option("--cluster", type=float, metavar="MM", help="How wide a cluster is on the poster.")
@click.option("--life-size", is_flag=True, help="1 cm of chart is 1 cm of fabric, on as many sheets as that takes.")
@click.option("--margin", type=float, default=10.0, metavar="MM", help="The margin of every sheet (10).")
@click.option("--dpi", type=int, default=300, help="Dots per inch of a PNG (300).")
@options.font
@options.language
@options.size
@options.looks
def print_(
    file: Path,
    piece: tuple[str, ...],
    output: Path,
    paper: str,
    dpi: int,
    language: str | None,
    size: str | None,
    **choices: Any,
) -> None:
    """Print charts on one sheet each, as a poster of many sheets, or in life size."""
    check_ending(output, (*formats.PAGES, *formats.pixel_endings()))
    paged = output.suffix.lower() in formats.PAGES
    look = options.look_of(**{name: choices.pop(name) for name in options.LOOKS})
    from turnchain.making.printed import print_booklet, print_pages, print_picture  # loaded when the command runs
    from turnchain.printing.sheets import Printed

    if choices["cluster"] is not None and (not choices["poster"] or choices["life_size"]):
        raise click.UsageError("--cluster goes with --poster alone: it sets how large the stitches of the poster are")
    booklet = choices.pop("booklet")
    if booklet and (not paged or piece or choices["poster"] or choices["life_size"]):
        raise click.UsageError("a booklet is a PDF of the whole pattern: leave out --piece, --poster and --life-size")
    if booklet:
        with console.progress():
            count = print_booklet(file, output, paper, look, language, size)
        console.show(f"{output}: {count} pages")
        show_fonts()
        return
    if not paged:
        if len(piece) != 1 or choices["poster"] or choices["life_size"]:
            raise click.UsageError("a picture shows one sheet with one --piece; posters and life size are PDF")
        with console.progress():
            print_picture(file, output, piece[0], paper, dpi, look, language, size)
        console.show(str(output))
        show_fonts()
        return
    with console.progress():
        count = print_pages(file, output, Printed(piece, paper, look=look, **choices), language, size)
    console.show(f"{output}: {count} {'page' if count == 1 else 'pages'}")
    show_fonts()
