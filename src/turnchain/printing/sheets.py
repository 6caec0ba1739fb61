"""Charts on paper: one sheet, a poster of many, or as large as life.

In: a plan and what is wanted. Out: pages for the PDF writer, or one scene for a picture of a sheet.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from turnchain import style
from turnchain.drawing.chart import drawn, laid_out
from turnchain.drawing.looks import Look, for_hand
from turnchain.drawing.setting import Setting, setting
from turnchain.drawing.sheet import WHOLE, Sheet
from turnchain.drawing.sizing import exact, measured
from turnchain.errors import MakerError
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.numbers import rounded
from turnchain.paper import Crop, Page, View, fitted, tile_counts, tiled
from turnchain.printing.paper_sizes import INCH, LONGEST_ROLL, SHEETS, PaperSize, sheet
from turnchain.scene import Item, Path, Scene, Steps, Text, line, rectangle
from turnchain.wording.languages.language import Speech
from turnchain.wording.tables import speech_of

OVERLAP = 12.0  # mm that neighbouring sheets of a poster share
READABLE = 1.4  # mm that a cluster must be wide on paper for its three stems to be told apart
LARGEST_CLUSTER = 1000.0  # mm: the largest sheets are not much wider
# mm: widths of a cluster that read well from across a work table, tried for the fewest sheets.
POSTER_CLUSTERS = tuple(quarter / 4 for quarter in range(36, 49))
LARGEST_MARGIN = 60.0
MARKS = 10.0  # px of the marks' own scene to a mm
RULER = 100.0  # mm
MOST_SHEETS = 400
LEAST_DPI, MOST_DPI = 30, 2400


@dataclass(frozen=True, slots=True)
class Printed:
    """What is printed: the pieces ``names`` on ``paper``, with ``margin`` mm left free by the printer. ``poster``: cut
    onto sheets, a cluster ``cluster`` mm wide; ``life_size``: 1 cm of chart is 1 cm of fabric."""

    names: tuple[str, ...]
    paper: str
    margin: float = 10.0
    poster: bool = False
    cluster: float | None = None
    life_size: bool = False
    look: Look = field(default_factory=Look)


def pages(plan: Plan, wanted: Printed) -> list[Page]:
    """All pages, piece by piece. Raises MakerError where the symbols would be too small, or a scale cannot be."""
    paper = sheet(wanted.paper)
    if not 0 <= wanted.margin <= LARGEST_MARGIN:
        raise MakerError(f"a margin of {wanted.margin:g} mm cannot be; 0 to {LARGEST_MARGIN:g} mm can")
    made: list[Page] = []
    for name in wanted.names:
        piece = for_hand(plan.piece(name), wanted.look.hand)
        if wanted.poster or wanted.life_size:
            made += _poster(plan, piece, paper, wanted)
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


def _poster(plan: Plan, piece: PiecePlan, paper: PaperSize, wanted: Printed) -> list[Page]:
    """The chart cut onto sheets: a map of them first, then the sheets with their marks."""
    if paper.height is None:
        raise MakerError(f"a poster is cut onto sheets, and {paper.name} is a roll; take A4 or Letter, say")
    scene, scales = _at_scale(plan, piece, wanted)
    # The fewest sheets and, of those, the largest scale; upright before lying.
    tries = [
        (_sheets_needed(scene, scale, one, wanted.margin), -scale, lying, one)
        for scale in scales
        for lying, one in enumerate((paper, paper.turned()))
    ]
    count, scale, _, turned = min(tries, key=lambda one: one[:3])
    if count > MOST_SHEETS:
        raise MakerError(
            f'piece "{piece.name}": at this scale the poster takes {count:,} sheets of {paper.name}; '
            f"{MOST_SHEETS} are allowed: take a smaller scale (--cluster) or larger sheets"
        )
    speech = speech_of(plan.pattern)
    tiles = _tiles(scene, -scale, turned, wanted.margin)
    numbered = [replace(page, label=f"{piece.name} {page.label}") for page in tiles]
    return [
        _map(speech, scene, tiles, piece, wanted, _scale_words(speech, plan, piece, -scale, wanted)),
        *(_marked(speech, page, tiles, wanted, number) for number, page in enumerate(numbered, start=2)),
    ]


def _scale_words(speech: Speech, plan: Plan, piece: PiecePlan, mm_per_px: float, wanted: Printed) -> str:
    if wanted.life_size:
        return speech.say("poster.life_size")
    laid = laid_out(setting(plan, piece.name, wanted.look), None, WHOLE).sheet
    return speech.say("poster.scale", mm=speech.figure(f"{2 * laid.half * mm_per_px:.1f}"))


def _sheets_needed(scene: Scene, mm_per_px: float, paper: PaperSize, margin: float) -> int:
    """How many sheets ``_tiles`` gives. Raises MakerError where the margin leaves nothing of a sheet."""
    try:
        columns, rows = tile_counts(scene, mm_per_px, *_tile(paper, margin))
    except ValueError as error:
        raise MakerError(str(error)) from error
    return columns * rows


def _tiles(scene: Scene, mm_per_px: float, paper: PaperSize, margin: float) -> list[Page]:
    """The sheets of a poster."""
    assert paper.height is not None
    pages = tiled(scene, mm_per_px, *_tile(paper, margin))
    return [replace(page, height=paper.height) for page in pages]


def _tile(paper: PaperSize, margin: float) -> tuple[float, float, float, float]:
    """Width, height, margin and overlap of a sheet of a poster; a strip at the foot of each is kept for the ruler and
    the words of the sheet."""
    assert paper.height is not None
    return paper.width, paper.height - STRIP, margin + MARKS_ROOM, OVERLAP


STRIP = 7.0  # mm kept free for ruler, coordinates and words on every sheet of a poster
MARKS_ROOM = 3.0  # mm outside the picture for cut marks


def _at_scale(plan: Plan, piece: PiecePlan, wanted: Printed) -> tuple[Scene, list[float]]:
    """The scene of a poster and its mm to a px, or several to choose from where no scale is asked for.

    As large as life both directions must be true, so the px of half a pitch are chosen that a row's whole px come
    nearest to its height.
    """
    if wanted.life_size:
        look = replace(wanted.look, proportion="true")
        half = true_half(float(piece.gauge.row / piece.gauge.half))
        found = setting(plan, piece.name, look)
        return drawn(found.on(exact(found, half))), [float(piece.gauge.half) * 10 / half]
    scene, laid = _scene(plan, piece, wanted.look)
    if wanted.cluster is not None and wanted.cluster < READABLE:
        raise MakerError(f"a cluster of {wanted.cluster:g} mm is too small to read; at least {READABLE} mm")
    if wanted.cluster is not None and not wanted.cluster <= LARGEST_CLUSTER:
        raise MakerError(
            f"a cluster of {wanted.cluster:g} mm cannot be; {READABLE} to {LARGEST_CLUSTER:g} mm can be printed"
        )
    clusters = POSTER_CLUSTERS if wanted.cluster is None else (wanted.cluster,)
    return scene, [cluster / (2 * laid.half) for cluster in clusters]


def true_half(ratio: float) -> int:
    """The px of half a pitch, from 40 to 240, for which ``ratio`` times as many are nearest to whole."""
    return min(range(40, 241), key=lambda half: (round(abs(round(half * ratio) / (half * ratio) - 1), 5), half))


def _map(
    speech: Speech, scene: Scene, tiles: list[Page], piece: PiecePlan, wanted: Printed, scale_words: str
) -> Page:
    """A page that shows how the sheets lie, with their coordinates and page numbers, and how to put them together."""
    width, height = tiles[0].width, tiles[0].height
    marks: list[Item] = []
    room = (width - 2 * wanted.margin, (height - 2 * wanted.margin) * 0.74)
    scale = min(room[0] / scene.width, room[1] / scene.height)
    left, top = (width - scale * scene.width) / 2, wanted.margin + (height - 2 * wanted.margin) * 0.22
    for number, page in enumerate(tiles, start=2):
        window = page.views[0].seen()
        box = [(window.left, window.top), (window.right, window.bottom)]
        (x0, y0), (x1, y1) = ((left + x * scale, top + y * scale) for x, y in box)
        frame = rectangle(_mm(x0), _mm(y0), _mm(x1 - x0), _mm(y1 - y0))
        marks.append(Path(frame, stroke=style.LIGHT.accent, width=3.5))
        words = speech.say("poster.tile", label=page.label, n=number)
        size = min(80.0, 0.3 * _mm(y1 - y0), _mm(x1 - x0) / (0.62 * len(words)))
        marks += _outlined(_mm((x0 + x1) / 2), _mm((y0 + y1) / 2) + 0.35 * size, words, size)
    title = speech.say("poster.title", piece=piece.name, n=len(tiles))
    lines = [
        speech.say("poster.print", scale=scale_words),
        speech.say("poster.measure"),
        speech.say("poster.cut", mm=f"{OVERLAP:g}"),
    ]
    y = _mm(wanted.margin) + 70
    marks.append(Text(_mm(wanted.margin), y, title, 80, style.LIGHT.ink, "semibold"))
    for words in lines:
        y += 56
        marks.append(Text(_mm(wanted.margin), y, words, 38, style.LIGHT.ink))
    return Page(
        width, height, (View(scene, scale, left, top), View(_overlay(speech, width, height, marks), 1 / MARKS)), "map"
    )


def _outlined(x: float, y: float, words: str, size: float) -> list[Item]:
    """Words on a scrap of paper, so that they can be read on the chart."""
    wide = 0.58 * size * len(words)
    scrap = rectangle(rounded(x - wide / 2), rounded(y - size), rounded(wide), rounded(1.35 * size))
    return [
        Path(scrap, fill=style.LIGHT.paper, opacity=0.85),
        Text(rounded(x), rounded(y), words, rounded(size), style.LIGHT.ink, "semibold", "middle"),
    ]


def _mm(length: float) -> float:
    return rounded(length * MARKS)


def _overlay(speech: Speech, width: float, height: float, items: list[Item]) -> Scene:
    """The marks of a sheet as a scene of their own, ``MARKS`` px to a mm."""
    size = (round(width * MARKS), round(height * MARKS))
    return Scene(*size, "marks", speech.say("poster.marks"), speech.language.tag, {}, tuple(items), None)


def _marked(speech: Speech, page: Page, tiles: list[Page], wanted: Printed, number: int) -> Page:
    """A sheet of a poster with its coordinate, glue lines, cut marks and a ruler."""
    view = page.views[0]
    window = view.seen()
    left, top = view.left, view.top
    right = left + (window.right - window.left) * view.mm_per_px
    bottom = top + (window.bottom - window.top) * view.mm_per_px
    items = [
        *_glue_lines(window, (left, top, right, bottom)),
        *_cut_marks(left, top, right, bottom),
        *_ruler(speech, page, wanted),
        Text(
            _mm(page.width - max(wanted.margin, 4)),
            _mm(page.height - max(wanted.margin, 4)) - 8,
            speech.say("poster.page", label=page.label, n=number, of=len(tiles) + 1),
            30,
            style.LIGHT.ink,
            "semibold",
            "end",
        ),
    ]
    return replace(page, views=(view, View(_overlay(speech, page.width, page.height, list(items)), 1 / MARKS)))


def _glue_lines(window: Crop, box: tuple[float, float, float, float]) -> Iterator[Item]:
    """Where the sheet before and the one above reach to: dashed lines ``OVERLAP`` mm inside."""
    left, top, right, bottom = box
    if window.left > 0:
        x = left + OVERLAP
        yield _dashed(line(_mm(x), _mm(top), _mm(x), _mm(bottom)))
    if window.top > 0:
        y = top + OVERLAP
        yield _dashed(line(_mm(left), _mm(y), _mm(right), _mm(y)))


def _dashed(steps: Steps) -> Path:
    return Path(steps, stroke=style.LIGHT.accent, width=2.0, dash=(18.0, 12.0), cap="butt", opacity=0.8)


def _cut_marks(left: float, top: float, right: float, bottom: float) -> Iterator[Item]:
    """Short strokes outside the four corners."""
    reach, off = 5.0, 1.0
    for x, way_x in ((left, -1), (right, 1)):
        for y, way_y in ((top, -1), (bottom, 1)):
            across = line(_mm(x + way_x * off), _mm(y), _mm(x + way_x * (off + reach)), _mm(y))
            down = line(_mm(x), _mm(y + way_y * off), _mm(x), _mm(y + way_y * (off + reach)))
            for steps in (across, down):
                yield Path(steps, stroke=style.LIGHT.ink, width=2.0, cap="butt")


def _ruler(speech: Speech, page: Page, wanted: Printed) -> Iterator[Item]:
    """10 cm to measure, with its words."""
    x, y = max(wanted.margin, 4.0), page.height - max(wanted.margin, 4.0) - 0.5
    yield Path(line(_mm(x), _mm(y), _mm(x + RULER), _mm(y)), stroke=style.LIGHT.ink, width=3.0, cap="butt")
    for centimetre in range(11):
        at, tall = x + centimetre * 10, 3.0 if centimetre % 5 == 0 else 1.8
        yield Path(line(_mm(at), _mm(y), _mm(at), _mm(y - tall)), stroke=style.LIGHT.ink, width=3.0, cap="butt")
    words = speech.say("poster.ruler")
    yield Text(_mm(x + RULER + 4), _mm(y), words, 26, style.LIGHT.ink)


def picture(plan: Plan, name: str, paper_name: str, dpi: int, look: Look) -> Scene:
    """One sheet as a picture of just its px at ``dpi``: whole px to a cell, what is over goes to the margins.

    Raises MakerError for a roll, a ``dpi`` that makes no sense, or symbols too small to tell apart.
    """
    paper = sheet(paper_name)
    if paper.height is None:
        raise MakerError(f"{paper.name} is a roll; a picture of a sheet needs a sheet, A0 say")
    if not LEAST_DPI <= dpi <= MOST_DPI:
        raise MakerError(f"{dpi} dots per inch cannot be drawn; {LEAST_DPI} to {MOST_DPI} can, 300 is usual for print")
    found = setting(plan, name, look)
    width, height = round(paper.width / INCH * dpi), round(paper.height / INCH * dpi)
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


