"""turnchain for programs: text in, results out, no files needed.

``import turnchain`` offers what stands here under its own name, and imports a room when it is first used::

    pattern = turnchain.loads(text)          # or turnchain.load("mytop.toml")
    plan = turnchain.plan(pattern)
    scene = turnchain.chart(plan, "front")
    picture = turnchain.png(scene)           # or svg(scene); scene.words is the alt text

A pattern that cannot be made raises ``PatternError`` with every problem, each with its words and its place in the text;
all errors that a maker can mend are ``MakerError``. Lengths in plans are exact fractions of a centimetre, places across
a piece half pitches (DEVELOPERS.md, The lattice), places in scenes px. The same input gives the same bytes.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from io import BytesIO
from os import PathLike
from pathlib import Path
from typing import TYPE_CHECKING

from turnchain.errors import FileError as FileError
from turnchain.errors import MakerError as MakerError
from turnchain.errors import PatternError as PatternError
from turnchain.errors import Problem as Problem

if TYPE_CHECKING:
    from turnchain.drawing.looks import Look
    from turnchain.fabric.lattice import Side
    from turnchain.fabric.plan import Plan
    from turnchain.paper import Page
    from turnchain.pattern import Pattern
    from turnchain.reading.toml_text import Beside
    from turnchain.scene import Scene

# Imports stand inside the functions: a program that wants a report does not wait for the letters of a chart.


# ------------------------------------------------------------------------------------------------ pattern and plan


def loads(text: str, name: str = "pattern", size: str | None = None, folder: Beside | None = None) -> Pattern:
    """The pattern in a TOML ``text``, in the ``size`` of that name where the text has sizes; ``name`` stands for its
    file in messages, ``folder`` is where a fabric's own file lies, or such files as texts by their names (None:
    nowhere). Raises PatternError."""
    from turnchain.reading.pattern_file import read_text  # see above

    return read_text(text, name, size, folder)


def loads_sizes(text: str, name: str = "pattern", folder: Beside | None = None) -> tuple[Pattern, ...]:
    """The pattern in a TOML ``text`` in every size, in their order; one where it has no sizes. ``name`` and ``folder``
    as in ``loads``. Raises PatternError."""
    from turnchain.reading.pattern_file import read_sizes  # see above

    return read_sizes(text, name, folder)


def load(path: str | PathLike[str], size: str | None = None) -> Pattern:
    """The pattern in a file, as ``loads`` reads it. Raises FileError where it cannot be read, PatternError where it
    cannot be made."""
    from turnchain.reading.pattern_file import read_file  # see above

    return read_file(Path(path), size)


def plan(pattern: Pattern, name: str = "pattern") -> Plan:
    """Every stitch of ``pattern``; ``name`` stands for its file in messages. Raises PatternError with every piece that
    cannot be planned."""
    from turnchain.planning.planner import plan_pattern  # see above

    return plan_pattern(pattern, name)


def plan_sizes(patterns: Sequence[Pattern], name: str = "pattern") -> tuple[Plan, ...]:
    """Every stitch of a pattern in all its sizes, of ``loads_sizes``: each as near to its measures as by itself, and
    where that allows it worked in the same words. Raises PatternError as ``plan`` does."""
    from turnchain.planning.planner import plan_sizes as plan_all  # see above

    return plan_all(patterns, name)


def plan_data(plan: Plan) -> str:
    """The plan as JSON text; plan.schema.json in the package describes it, with the units of every figure."""
    from turnchain.plan_json import plan_text  # see above

    return plan_text(plan)


# --------------------------------------------------------------------------------------------------------- letters


def use_fonts(*files: str | PathLike[str]) -> None:
    """From now on letters that the shipped fonts lack, as Japanese, come from these fonts (TTF, OTF, TTC), and then
    from those of this computer; without ``files`` from the latter alone. It holds for the whole process. Raises
    FileError for what is no font, MakerError for a font that may not be embedded in documents."""
    from turnchain.lettering import others  # see above

    others.use(Path(file) for file in files)


def letters(plan: Plan) -> list[str]:
    """Which other fonts the words of ``plan`` take, and which of their letters have none: a sentence in English for
    each. Empty where the shipped fonts are enough."""
    from turnchain.lettering import measuring  # see above

    _lettered(plan)
    return measuring.told()


def _lettered(plan: Plan) -> None:
    from turnchain.lettering import measuring  # see above

    measuring.written(plan.pattern.own_words())


def _lettered_as(*scenes: Scene) -> None:
    from turnchain.lettering import measuring  # see above
    from turnchain.scene import words_in  # see above

    measuring.written(words for scene in scenes for words in (scene.title, scene.words, *words_in(scene)))


# ---------------------------------------------------------------------------------------------------------- scenes


def look(
    hand: str = "right",
    mono: bool = False,
    page: str = "light",
    true: bool = False,
    symbols: Path | None = None,
    full_colour: bool = False,
) -> Look:
    """How charts look: the ``hand`` ("right", "left"), ``mono`` for cheap printing, the ``page`` ("light", "dark",
    "clear"), ``true`` to the gauge, a folder of ``symbols`` of one's own, rows in the ``full_colour`` of their yarns
    (not where ``mono``). Raises MakerError for other words; the folder is read when something is drawn."""
    from turnchain.drawing import looks  # see above

    hands: dict[str, looks.Hand] = {"right": "right", "left": "left"}
    pages: dict[str, looks.Page] = {"light": "light", "dark": "dark", "clear": "clear"}
    for word, allowed in ((hand, hands), (page, pages)):
        if word not in allowed:
            raise MakerError(f'"{word}" is no such look; write {" or ".join(allowed)}')
    inks: looks.Inks = "mono" if mono else "full" if full_colour else "tint"
    return looks.Look(hands[hand], inks, pages[page], "true" if true else "drawn", symbols)


def chart(plan: Plan, piece: str, *, look: Look | None = None, width: int | None = None, short: bool = False) -> Scene:
    """The chart of the ``piece`` of that name, ``width`` px wide (None: as wide as it needs), ``short`` without what
    repeats. Raises MakerError for an unknown piece, symbols that would be too small to tell apart, and symbols of
    one's own that cannot be read."""
    from turnchain.drawing import chart as room  # see above

    _check(plan, piece)
    _lettered(plan)
    return room.chart(plan, piece, width, look, short)


def close_up(
    plan: Plan,
    piece: str,
    rows: tuple[int, int],
    at: Side,
    *,
    look: Look | None = None,
    size: tuple[int, int] | None = None,
) -> Scene:
    """A close-up of ``rows`` (first and last, from 1) ``at`` the "left" or "right" edge of the chart; ``size``: width
    and height in px (None: 1080 x 1080). Raises MakerError for an unknown piece or edge, rows that it does not have
    and more rows than a close-up shows."""
    from turnchain.drawing.detail import Asked, detail  # see above
    from turnchain.fabric.lattice import SIDES  # see above
    from turnchain.making import DETAIL_SIZE  # see above

    _check(plan, piece)
    if at not in SIDES:
        raise MakerError(f'"{at}" is no edge of a chart; write {" or ".join(SIDES)}')
    _lettered(plan)
    return detail(plan, piece, Asked(*rows, at), size or DETAIL_SIZE, look)


def post(plan: Plan, piece: str, size: str, *, look: Look | None = None) -> Scene:
    """The chart of ``piece`` in a ``size`` for posting: "phone", "blog", "blog-sharp", "square", "tall" or "film" (in
    px: ``drawing.posting.SIZES``); the first picture where the size takes a series. Raises MakerError for an unknown
    piece or size, and where the chart cannot be read in that size."""
    from turnchain.drawing import posting  # see above

    _check(plan, piece)
    if size not in posting.SIZES:
        raise MakerError(f'"{size}" is no size for posting; write {", ".join(posting.SIZES)}')
    _lettered(plan)
    return posting.post(plan, piece, size, look)


def stripes(
    plan: Plan, piece: str | None = None, *, look: Look | None = None, width: int | None = None
) -> Scene:
    """The cloth as it will look, of all pieces as worn or (``piece``) of one, ``width`` px wide (None: 1600). Raises
    MakerError for an unknown piece."""
    from turnchain.drawing.preview import preview  # see above
    from turnchain.style import REFERENCE_WIDTH  # see above

    if piece is not None:
        _check(plan, piece)
    _lettered(plan)
    return preview(plan, piece, width or REFERENCE_WIDTH, look)


def orders(plan: Plan, *, look: Look | None = None, width: int | None = None) -> Scene:
    """The same yarns in other orders, side by side, each with its warnings; ``width`` px wide (None: 1600). Orders that
    cannot be worked are left out. Raises MakerError where there are fewer than two yarns."""
    from turnchain.drawing.contact import contact_sheet  # see above
    from turnchain.style import REFERENCE_WIDTH  # see above

    _lettered(plan)
    return contact_sheet(plan, width or REFERENCE_WIDTH, look)


def schematic(plan: Plan) -> Scene:
    """Every piece to scale with its measures, in the unit of the pattern."""
    from turnchain.drawing import schematic as room  # see above

    _lettered(plan)
    return room.schematic(plan)


def on_figure(
    plan: Plan, *, look: Look | None = None, width: int | None = None, longer: Fraction | int = 0
) -> Scene:
    """What is made, put together: on the figure of its wearer or, where nobody wears it, by itself, ``width`` px wide
    (None: 1600); with a second lower edge, so many cm ``longer`` (below 0: shorter). Raises MakerError where none of
    the pieces is known for what they are."""
    from turnchain.drawing.worn import worn  # see above
    from turnchain.style import REFERENCE_WIDTH  # see above

    _lettered(plan)
    return worn(plan, width or REFERENCE_WIDTH, look, Fraction(longer))


def nested(plans: Sequence[Plan], piece: str) -> Scene:
    """A ``piece`` in all its sizes, the edges of each over one lattice; ``plans`` of ``plan_sizes``. Raises MakerError
    for an unknown piece."""
    from turnchain.drawing.nested import nested as drawn  # see above

    try:
        return drawn(plans, piece)
    except KeyError:
        raise MakerError(f'no size has a piece "{piece}"') from None


def as_sewn(plan: Plan) -> Scene | None:
    """All pieces laid together along their seams, to scale; None where there are no seams."""
    from turnchain.drawing import sewn as room  # see above
    from turnchain.garment import seams  # see above

    _lettered(plan)
    return room.as_sewn(plan) if seams.of(plan) else None


# ----------------------------------------------------------------------------------------------------------- texts


def words(plan: Plan, language: str | None = None) -> str:
    """The rows in words, as Markdown that ends in a line break; ``language`` as the command line lists them (None: the
    terms that the pattern names). Raises MakerError for another language."""
    from turnchain.wording.tables import told_in  # see above
    from turnchain.wording.words import pattern_text  # see above

    return pattern_text(told_in(plan, language))


def words_of_sizes(plans: Sequence[Plan], language: str | None = None) -> str:
    """The rows of all sizes in one text, figures that differ in brackets; ``plans`` of ``plan_sizes``, ``language`` as
    in ``words``."""
    from turnchain.wording.all_sizes import all_sizes_text  # see above

    return all_sizes_text(plans, language)


def report(plan: Plan, colours: bool = False) -> str:
    """Every measure wanted and worked in the unit of the pattern file, yarn in g, and warnings; with ``colours`` also
    how well the colours can be told apart. Plain text in English."""
    from turnchain.pages import report as room  # see above

    return room.report(plan, colours)


def prove(plan: Plan, name: str = "pattern") -> str:
    """What was proved by working words and charts stitch by stitch, a line for each; ``name`` stands for the pattern in
    messages. Raises MakerError with every place where they disagree with the plan."""
    from turnchain.proof.proving import checked  # see above

    return checked(plan, name)


def markdown(plan: Plan, language: str | None = None) -> str:
    """The whole written pattern for a blog, as Markdown with links to the pictures that ``make`` writes; ``language``
    as in ``words``."""
    from turnchain.pages import blog  # see above

    return blog.markdown(plan, language)


def page(plan: Plan, *, look: Look | None = None) -> str:
    """The page beside the work, as one HTML file that needs no others. Raises MakerError as ``chart`` does."""
    from turnchain.drawing.looks import Look  # see above
    from turnchain.pages.beside import page as beside  # see above

    _lettered(plan)
    return beside.page(plan, look or Look())


# ----------------------------------------------------------------------------------------------------------- bytes


def svg(scene: Scene, flat: bool = False) -> bytes:
    """``scene`` as SVG 1.1 in UTF-8; ``flat`` with every symbol written out, for programs that cannot read
    references. ValueError for a place that is no number."""
    from turnchain.scene import flattened  # see above
    from turnchain.writers import svg as writer  # see above

    _lettered_as(scene)
    stream = BytesIO()
    writer.write(flattened(scene) if flat else scene, stream)
    return stream.getvalue()


def png(scene: Scene, dpi: float | None = None) -> bytes:
    """``scene`` as PNG, px for px; ``dpi`` (px to an inch) only says how large to print it. Raises MakerError where the
    scene is too large to be drawn."""
    from turnchain.writers import png as writer  # see above

    _lettered_as(scene)
    stream = BytesIO()
    writer.write(scene, stream, dpi)
    return stream.getvalue()


def on_paper(
    plan: Plan,
    *,
    pieces: tuple[str, ...] = (),
    paper: str = "A4",
    poster: bool = False,
    life_size: bool = False,
    look: Look | None = None,
) -> list[Page]:
    """Charts of ``pieces`` (none named: all) on ``paper`` ("A4", "Letter", ...): a sheet each, a ``poster`` of many
    sheets, or ``life_size``, where 1 cm of chart is 1 cm of fabric. Places on pages are mm. Raises MakerError for an
    unknown piece or paper, and where the symbols would be too small to read."""
    from turnchain.drawing.looks import Look  # see above
    from turnchain.printing import sheets  # see above

    for piece in pieces:
        _check(plan, piece)
    _lettered(plan)
    names = pieces or tuple(one.name for one in plan.pieces)
    return sheets.pages(plan, sheets.Printed(names, paper, look=look or Look(), poster=poster, life_size=life_size))


def booklet(
    plan: Plan, *, paper: str = "A4", look: Look | None = None, language: str | None = None
) -> list[Page]:
    """The whole pattern as pages of a booklet on "A4" or "Letter", without photographs; ``language`` as in ``words``.
    Raises MakerError for other paper."""
    from turnchain.printing.booklet import booklet as made  # see above

    _lettered(plan)
    return made(plan, paper, look, language)


def pdf(plan: Plan, pages: list[Page]) -> bytes:
    """``pages`` as one PDF with the title of ``plan``, in the language of the pages. ValueError for no pages and for a
    page of more than 5 m."""
    from turnchain.wording.tables import language_of  # see above
    from turnchain.writers import pdf as writer  # see above

    _lettered(plan)
    stream = BytesIO()
    language = pages[0].language if pages and pages[0].language else language_of(plan.pattern).tag
    writer.write(pages, stream, title=plan.pattern.title, language=language)
    return stream.getvalue()


def save(scene: Scene, path: str | PathLike[str]) -> None:
    """Writes ``scene`` to the file ``path`` in the format of its ending (.svg, .png, .webp, .jpg, .jpeg). At any moment
    the file is the old one or the new one, whole. Raises FileError where it cannot be written, MakerError for another
    ending and for a scene that the format cannot hold."""
    from turnchain.writers import formats  # see above
    from turnchain.writers.files import replaced  # see above

    file = Path(path)
    if file.suffix.lower() not in formats.PICTURES:
        raise MakerError(f"{file}: the name must end in {' or '.join(formats.PICTURES)}")
    _lettered_as(scene)
    with replaced(file) as stream:
        formats.of(file).write(scene, stream)


def _check(plan: Plan, piece: str) -> None:
    """Raises MakerError where ``plan`` has no such piece."""
    names = [one.name for one in plan.pieces]
    if piece not in names:
        raise MakerError(f'there is no piece "{piece}"; its pieces are {", ".join(names)}')
