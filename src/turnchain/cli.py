"""The command line: arguments in, one call for each command, problems printed.

Results go to standard output, errors to standard error. Exit code 0; 1 for a pattern that cannot be made or a
file that cannot be written, and for a run that is stopped; 2 for wrong use. Control characters in names and
messages are printed as escapes. Imports stand inside the commands, so that each starts quickly.
"""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Iterable
from functools import partial
from io import StringIO, TextIOWrapper
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

import click

from turnchain import console, options, packaged
from turnchain.writers import formats

if TYPE_CHECKING:
    from turnchain.making.record import MadeFolder

#: Objects made before Python looks for circles of them that nobody holds: scenes have hundreds of thousands, and none.
RARELY = 100_000


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="turnchain", message="%(prog)s %(version)s")
def cli() -> None:
    """Stitch charts for cluster-stripe crochet, computed from your swatch, your measurements and your colours.

    Begin with: turnchain new mytop.toml
    """


@cli.command(
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


@cli.command(cls=options.Example, epilog="Example: turnchain design mytop.toml")
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


@cli.command(cls=options.Example, epilog="Example: turnchain fabrics -o fabrics.html")
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


@cli.command(cls=options.Example, epilog="Example: turnchain check mytop.toml")
@options.FILE
@options.size
@click.option("--colours", is_flag=True, help="Say also which stripes are hard to tell apart.")
@click.option("--brief", is_flag=True, help="Only what matters most, warnings and measures, without the details.")
@click.option("--prove", is_flag=True, help="Work the words and charts stitch by stitch, and say what was proved.")
def check(file: Path, size: str | None, colours: bool, brief: bool, prove: bool) -> None:
    """Report on the plan: gauge, every measure wanted and worked, fit, seams, yarn, and warnings."""
    from turnchain.making import planned, planned_sizes  # loaded when the command runs
    from turnchain.pages.glance import painted
    from turnchain.terminal import coloured_output

    with console.progress():
        plans = planned_sizes(file) if size is None else (planned(file, size=size),)
    if len(plans) == 1:
        from turnchain.pages.report import report  # of one size

        text = report(plans[0], colours, brief)
    else:
        from turnchain.pages.sizes_report import report_of_sizes  # of several

        if colours or brief:
            raise click.UsageError("--colours and --brief are of one size: give --for as well")
        text = report_of_sizes(plans)
    click.echo(painted(text) if coloured_output() else text, nl=False)
    if prove:
        from turnchain.proof.proving import checked, sizes_checked  # loaded when the command runs

        for plan in plans:
            with console.progress():
                told = checked(plan, str(file))
            click.echo(f"\n{told}", nl=False)
        if len(plans) > 1:
            click.echo(sizes_checked(plans, text, str(file)), nl=False)


@cli.command(cls=options.Example, epilog="Example: turnchain make mytop.toml -o mytop")
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


def _show_fonts() -> None:
    """Tells of letters that came from fonts of this computer, or from none."""
    from turnchain.lettering import measuring  # loaded when something was drawn

    for line in measuring.told():
        console.show(f"note: {line}", err=True)


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


@cli.command(cls=options.Example, epilog="Example: turnchain chart mytop.toml --piece front -o front.png --width 1600")
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
    _ending(output, formats.MOVING if choices["moving"] else formats.PICTURES)
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
    _show_fonts()


def _ending(output: Path, endings: Iterable[str] = formats.PICTURES) -> None:
    if output.suffix.lower() not in endings:
        listed = " or ".join(endings)
        raise click.BadParameter(f"{console.shown(output)}: the name must end in {listed}", param_hint="-o")


def _rows(words: str) -> tuple[int, int]:
    """ "12" or "12-14" as first and last row."""
    first, _, last = words.partition("-")
    if not first.strip().isdecimal() or (last and not last.strip().isdecimal()):
        said = f'"{console.shown(words)}" is no row number; write 12, or 12-14'
        raise click.BadParameter(said, param_hint="--detail")
    return int(first[:9]), int((last or first)[:9])


@cli.command(cls=options.Example, epilog="Example: turnchain stripes mytop.toml -o stripes.png")
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
    _ending(output)
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
    _show_fonts()


@cli.command(cls=options.Example, epilog="Example: turnchain colours stash.jpg --yarns 5")
@click.argument("photograph", type=click.Path(path_type=Path))
@click.option("--yarns", type=click.IntRange(1, 24), help="Find at most this many yarns.")
def colours(photograph: Path, yarns: int | None) -> None:
    """Find the colours of yarns in a PHOTOGRAPH of them, as lines for the pattern file.

    Lay the yarns on a plain ground of another colour, in daylight.
    """
    from turnchain.yarns.photograph import colours_in, lines  # loaded when the command runs

    for line in lines(colours_in(photograph, yarns), patches=sys.stdout.isatty()):
        click.echo(line)


@cli.command(cls=options.Example, epilog="Example: turnchain words mytop.toml -o mytop.md --language UK")
@options.FILE
@click.option("-o", "--output", type=click.Path(path_type=Path), help="FILE.md; left out, they are printed here.")
@options.language
@options.size
def words(file: Path, output: Path | None, language: str | None, size: str | None) -> None:
    """Write the rows in words: abbreviations, special stitches, and every piece row by row. Sizes share one text."""
    if output is not None:
        _ending(output, (".md", ".txt"))
    from turnchain.making import planned, planned_sizes  # loaded when the command runs
    from turnchain.wording.all_sizes import all_sizes_text
    from turnchain.writers.files import replaced

    with console.progress():
        text = all_sizes_text(planned_sizes(file) if size is None else (planned(file, size=size),), language)
    if output is None:
        click.echo(text, nl=False)
        return
    with replaced(output, {file: "the pattern file itself"}) as stream:
        stream.write(text.encode())
    console.show(str(output))


@cli.command(cls=options.Example, epilog="Example: turnchain page mytop.toml -o mytop.html")
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
    _ending(output, (".html", ".htm"))
    from turnchain.making.one import make_page  # loaded when the command runs

    look = options.look_of(hand=hand, mono=False, page="light", true=False, symbols=symbols)
    with console.progress():
        make_page(file, output, look, size)
    console.show(str(output))


@cli.command(
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
    _ending(output, (*formats.PAGES, *formats.pixel_endings()))
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
        _show_fonts()
        return
    if not paged:
        if len(piece) != 1 or choices["poster"] or choices["life_size"]:
            raise click.UsageError("a picture shows one sheet with one --piece; posters and life size are PDF")
        with console.progress():
            print_picture(file, output, piece[0], paper, dpi, look, language, size)
        console.show(str(output))
        _show_fonts()
        return
    with console.progress():
        count = print_pages(file, output, Printed(piece, paper, look=look, **choices), language, size)
    console.show(f"{output}: {count} {'page' if count == 1 else 'pages'}")
    _show_fonts()


def program() -> NoReturn:
    """The command ``turnchain``: ``main``, and then the end of the process at once. Python would first take apart every
    module and every drawing one by one, which takes as long as a tenth of a chart."""
    try:
        main()
    except SystemExit as stop:
        code = int(stop.code or 0)
    else:
        code = 0
    os._exit(code)


def main() -> None:
    """Runs the command line; whatever happens, ends with an exit code and words, never a traceback."""
    from turnchain.errors import MakerError, Stopped  # loaded when the command runs

    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):  # letters that this terminal lacks are told by their numbers
            stream.reconfigure(errors="backslashreplace")
    console.hear_stops()
    gc.set_threshold(RARELY)
    # numpy would start a thread for every core, which takes longer than all the sums here that could use them
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    try:
        cli.main(standalone_mode=False)
        if sys.stdout is not None:
            sys.stdout.flush()
    except (click.exceptions.Abort, KeyboardInterrupt) as stop:
        if isinstance(stop.__cause__, Stopped):
            click.echo(f"# the best stripes so far, to paste into the pattern file\n{stop.__cause__}")
        sys.exit(console.say("stopped; no file is left half written", 1))
    except click.ClickException as error:
        words = StringIO()
        error.show(words)
        for line in words.getvalue().splitlines():
            console.show(line, err=True)
        sys.exit(error.exit_code)
    except MakerError as error:
        sys.exit(console.say(str(error), 1))
    except BrokenPipeError:
        console.drop_output()
        sys.exit(1)
    except (OSError, MemoryError) as error:
        console.drop_output()
        sys.exit(console.say(f"could not finish: {console.reason(error)}", 1))
    except Exception as error:
        if os.environ.get("TURNCHAIN_DEBUG"):
            raise
        sys.exit(console.say(f"a fault in turnchain itself ({type(error).__name__}: {error}); please report it", 1))


if __name__ == "__main__":
    main()
