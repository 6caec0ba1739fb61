"""Charts on paper: one sheet, a poster of many, or life size.

In: a plan and what is wanted. Out: pages for the PDF writer, or one scene for a picture of a sheet.
"""

from __future__ import annotations

from turnchain import style
from turnchain.drawing.chart import drawn, laid_out
from turnchain.drawing.looks import Look, for_hand
from turnchain.drawing.setting import Setting, setting
from turnchain.drawing.sheet import WHOLE, Sheet
from turnchain.drawing.sizing import measured
from turnchain.errors import MakerError
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.paper import Page, fitted
from turnchain.printing.paper_sizes import INCH, LONGEST_ROLL, SHEETS, PaperSize, sheet
from turnchain.printing.posters import READABLE, Poster, poster
from turnchain.records import field, frozen
from turnchain.scene import Fits, Scene
from turnchain.terminal import progress
from turnchain.wording.tables import speech_of

LARGEST_MARGIN = 60.0  # mm
LEAST_DPI, MOST_DPI = 30, 2400  # dots per inch


@frozen
class Printed:
    """What is printed: the pieces ``names`` on ``paper`` (a name of ``paper_sizes``), with ``margin`` mm left free by
    the printer. Neither ``poster`` nor ``life_size``: a page for each piece, as large as fits. ``poster``: cut onto
    sheets, a cluster ``cluster`` mm wide (None: as suits the sheets); ``life_size``: cut onto sheets, 1 cm of chart is
    1 cm of fabric."""

    names: tuple[str, ...]
    paper: str
    margin: float = 10.0
    poster: bool = False
    cluster: float | None = None
    life_size: bool = False
    look: Look = field(default_factory=Look)


def pages(plan: Plan, wanted: Printed) -> list[Page]:
    """All pages, piece by piece. MakerError for an unknown paper, a margin that cannot be, symbols that would be too
    small, a chart longer than a roll, or a poster that cannot be; KeyError for an unknown piece."""
    paper = sheet(wanted.paper)
    if not 0 <= wanted.margin <= LARGEST_MARGIN:
        raise MakerError(f"a margin of {wanted.margin:g} mm cannot be; 0 to {LARGEST_MARGIN:g} mm can")
    made: list[Page] = []
    for number, name in enumerate(wanted.names):
        progress(f"charts: {name}", number, len(wanted.names))
        piece = for_hand(plan.piece(name), wanted.look.hand)
        if wanted.poster or wanted.life_size:
            asked = Poster(
                plan, plan.piece(name), paper, wanted.margin, wanted.look,
                wanted.cluster, wanted.life_size, first=len(made) + 1,
            )  # fmt: skip
            made += poster(asked, speech_of(plan.pattern))
        else:
            made.append(_single(plan, piece, paper, wanted))
    return made


def _single(plan: Plan, piece: PiecePlan, paper: PaperSize, wanted: Printed) -> Page:
    """The chart as large as fits one sheet, upright or on its side; on a roll as wide as the roll."""
    scene, laid = _scene(plan, piece, wanted.look)
    if paper.height is None:
        scale = (paper.width - 2 * wanted.margin) / scene.width
        height = scene.height * scale + 2 * wanted.margin
        if height > LONGEST_ROLL:
            raise MakerError(
                f'piece "{piece.name}": the chart would be {height / 1000:.1f} m long on a {paper.name}; a roll takes '
                f"{LONGEST_ROLL / 1000:g} m here: print a poster, or take a narrower roll"
            )
        page = fitted(scene, paper.width, height, wanted.margin, piece.name)
    else:
        both = [_on_sheet(scene, one, wanted.margin, piece.name) for one in (paper, paper.turned())]
        page = max(both, key=lambda one: one.views[0].mm_per_px)
    _check_readable(piece, laid, page.views[0].mm_per_px, paper, scene)
    return page


def _on_sheet(scene: Scene, paper: PaperSize, margin: float, label: str) -> Page:
    assert paper.height is not None
    try:
        return fitted(scene, paper.width, paper.height, margin, label)
    except ValueError as error:
        raise MakerError(str(error)) from error


def _scene(plan: Plan, piece: PiecePlan, look: Look) -> tuple[Scene, Sheet]:
    found = laid_out(setting(plan, piece.name, look), None, WHOLE)
    return drawn(found), found.sheet


def _check_readable(piece: PiecePlan, laid: Sheet, mm_per_px: float, paper: PaperSize, scene: Scene) -> None:
    cluster = 2 * laid.half * mm_per_px
    if cluster >= READABLE:
        return
    enough = [one for one in SHEETS.values() if one.height and _cluster_on(one, scene, laid) >= READABLE]
    smallest = min(enough, key=lambda one: one.width * (one.height or 0), default=None)
    offer = f"the smallest sheet that shows them is {smallest.name}" if smallest else "no single sheet shows them"
    raise MakerError(
        f'piece "{piece.name}": on {paper.name} a cluster would be {cluster:.2f} mm wide, too small to read (at least '
        f"{READABLE} mm); {offer}; or print a poster"
    )


def _cluster_on(paper: PaperSize, scene: Scene, laid: Sheet) -> float:
    assert paper.height is not None
    scales = (
        min((one.width - 20) / scene.width, ((one.height or 0) - 20) / scene.height) for one in (paper, paper.turned())
    )
    return 2 * laid.half * max(scales)


def picture(plan: Plan, name: str, paper_name: str, dpi: int, look: Look, fits: Fits | None = None) -> Scene:
    """The sheet called ``paper_name`` with the chart of the piece ``name``, as a picture of just its px at ``dpi``:
    whole px to a cell, what is over goes to the margins; ``fits`` is asked before anything is drawn.

    MakerError for an unknown paper, a roll, a ``dpi`` outside ``LEAST_DPI`` to ``MOST_DPI``, or a chart that does not
    fit with symbols that can be told apart; KeyError for an unknown piece.
    """
    paper = sheet(paper_name)
    if paper.height is None:
        raise MakerError(f"{paper.name} is a roll; a picture of a sheet needs a sheet, A0 say")
    if not LEAST_DPI <= dpi <= MOST_DPI:
        raise MakerError(f"{dpi} dots per inch cannot be drawn; {LEAST_DPI} to {MOST_DPI} can, 300 is usual for print")
    width, height = round(paper.width / INCH * dpi), round(paper.height / INCH * dpi)
    if fits is not None:
        fits(width, height)
    found = setting(plan, name, look)
    limit: int | None = None
    while True:
        laid = measured(found, width, WHOLE, limit=limit)
        scene = drawn(found.on(laid), height=height)
        if scene.height <= height:
            return scene
        limit = _lower(found, laid, scene.height - height)
        if limit is None:
            raise MakerError(f'piece "{name}": too high for {paper.name} at {dpi} dots per inch')


def _lower(found: Setting, laid: Sheet, over: int) -> int | None:
    """The most px to half a pitch whose rows are together at least ``over`` px lower; None where stitches would be too
    small."""
    for half in range(laid.half - 1, style.LEAST_HALF_PITCH - 1, -1):
        if found.piece.row_count * (laid.rise - found.look.rise(found.piece, half)) >= over:
            return half
    return None
