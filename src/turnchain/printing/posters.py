"""Charts on many sheets, or along a roll: posters, and charts in life size.

In: a planned piece, paper, a scale. Out: pages. The chart alone is cut, trimmed to what is drawn, onto the fewest
sheets; heading, key and a map of the sheets stand on one small sheet before them, or on the chart's own sheet where
it is but one and has room.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from turnchain import style
from turnchain.drawing.chart import CHART_ALONE, drawn
from turnchain.drawing.looks import Look
from turnchain.drawing.setting import Setting, setting
from turnchain.drawing.sizing import exact
from turnchain.errors import MakerError
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.lettering.measuring import measure, wrapped
from turnchain.paper import Crop, Page, Tiling, View
from turnchain.printing.key_scene import KEY_UNIT, LEAST, MOST, key_scenes
from turnchain.printing.paper_sizes import LONGEST_ROLL, PaperSize, sheet
from turnchain.printing.sheet_marks import MARKS, MARKS_ROOM, OVERLAP, STRIP, marked, mm, outlined, over
from turnchain.raster.bounds import Bounds, Extents, union
from turnchain.records import frozen, replace
from turnchain.scene import Group, Item, Path, Scene, Text, rectangle
from turnchain.wording.languages.language import Speech

READABLE = 1.4  # mm that a cluster must be wide on paper for its three stems to be told apart
LARGEST_CLUSTER = 1000.0  # mm: the largest sheets are not much wider
# mm: widths of a cluster that read well from across a work table, tried for the fewest sheets.
POSTER_CLUSTERS = tuple(quarter / 4 for quarter in range(36, 49))
POSTER_HALF = 40  # px of half a pitch on a poster
MOST_SHEETS = 400  # of one poster
CHART_WORDS = 3.4  # mm of the em of what stands beside the chart
KEY_WORDS, LEAST_KEY_WORDS = 2.8, 1.9  # mm of the em of the key: as it is set, and as small as it may be
WIDEST_KEY, KEY_BESIDE = 320.0, 150.0  # mm that a key below a chart, and one beside it, is wide
GAP = 6.0  # mm between heading, chart and key
LEAST_OVERVIEW = 100.0  # mm between the margins of the sheet of an overview
LEFT_OUT = ("stripe-letters", "edge-names")  # beside the chart, where that saves a sheet
MAP_SHARE = 0.3  # of the page at least, for the map of the sheets


@frozen
class Poster:
    """What is wanted: the chart of ``piece`` on ``paper`` with ``margin`` mm left free by the printer, a cluster
    ``cluster`` mm wide (None: as suits the sheets); ``life_size``: 1 cm of chart is 1 cm of fabric, and ``cluster`` is
    not used. ``piece`` is as planned: ``look`` has the hand. The first page is page ``first`` of the whole print."""

    plan: Plan
    piece: PiecePlan
    paper: PaperSize
    margin: float
    look: Look
    cluster: float | None = None
    life_size: bool = False
    first: int = 1


class _Cut(NamedTuple):
    """A chart on the fewest sheets."""

    tiling: Tiling
    paper: PaperSize
    wanted: frozenset[tuple[int, int]]


def poster(asked: Poster, speech: Speech) -> list[Page]:
    """All pages of a piece: the chart's sheets row by row from the top, after a sheet with heading, map and key; or one
    page, where all of it fits there. MakerError where a cluster would be too small or too large, the margins leave no
    room, or more than ``MOST_SHEETS`` sheets would be needed."""
    found, scales = _at_scale(asked)
    whole = drawn(found, CHART_ALONE)
    cut = min((_fewest(asked, scene, scales) for scene in _scenes(whole)), key=lambda one: len(one.wanted))
    scale_words = _scale_words(speech, asked, 2 * found.sheet.half * cut.tiling.mm_per_px)
    if len(cut.wanted) == 1:
        return _one_sheet(asked, speech, found, cut, scale_words)
    pages = _numbered(asked, speech, cut)
    return [_overview(asked, speech, found, cut, pages, scale_words), *pages]


def _scenes(whole: Scene) -> Iterator[Scene]:
    """The chart with all that stands beside it, and without the letters of stripes and the names of edges."""
    yield whole
    bare = tuple(item for item in whole.items if not (isinstance(item, Group) and item.name in LEFT_OUT))
    yield replace(whole, items=bare)


def _at_scale(asked: Poster) -> tuple[Setting, list[float]]:
    """The piece on its measured page, and the mm to a px, several to choose from where no scale is given.

    In life size both directions must be true, so the px of half a pitch are chosen for which the whole px of a row come
    nearest to its height.
    """
    piece, cluster = asked.piece, asked.cluster
    if asked.life_size:
        look = replace(asked.look, proportion="true")
        half = true_half(float(piece.cluster_row / piece.gauge.half))
        scales = [float(piece.gauge.half) * 10 / half]
    else:
        look, half = asked.look, POSTER_HALF
        if cluster is not None and cluster < READABLE:
            raise MakerError(f"a cluster of {cluster:g} mm is too small to read; at least {READABLE} mm")
        if cluster is not None and not cluster <= LARGEST_CLUSTER:
            raise MakerError(
                f"a cluster of {cluster:g} mm cannot be; {READABLE} to {LARGEST_CLUSTER:g} mm can be printed"
            )
        scales = [one / (2 * half) for one in (POSTER_CLUSTERS if cluster is None else (cluster,))]
    found = setting(asked.plan, piece.name, look)
    return found.on(exact(found, half, unit=CHART_WORDS / (KEY_UNIT * min(scales)))), scales


def true_half(ratio: float) -> int:
    """The px of half a pitch, from 40 to 240, for which ``ratio`` (height of a row over half a pitch) times as many px
    are nearest to a whole number, relative to it; of equals the least."""
    return min(range(40, 241), key=lambda half: (round(abs(round(half * ratio) / (half * ratio) - 1), 5), half))


def _scale_words(speech: Speech, asked: Poster, cluster: float) -> str:
    if asked.life_size:
        return speech.say("poster.life_size")
    return speech.say("poster.scale", mm=speech.figure(f"{cluster:.1f}"))


# ------------------------------------------------------------------------------------------------ the fewest sheets


def _fewest(asked: Poster, scene: Scene, scales: list[float]) -> _Cut:
    """The chart cut onto the fewest sheets and, of those, at the largest scale; upright before on its side."""
    parts = list(_parts(Extents(scene.definitions), scene.items))
    whole = _within(union(parts), scene)
    tries: list[tuple[tuple[int, float, float, int], _Cut]] = []
    least = 0
    for scale in scales:
        for nth, paper in enumerate(_papers(asked, whole, scale)):
            tiling = _tiling(asked, scene, scale, paper, whole)
            columns, rows = tiling.counts
            least = min(columns * rows, least or columns * rows)
            if columns * rows <= 2 * MOST_SHEETS:
                area = paper.width * (paper.height or 0.0)
                tries += [((len(one.wanted), -scale, area, nth), one) for one in _shifted(tiling, paper, parts)]
    tries.sort(key=lambda one: one[0])
    if not tries or tries[0][0][0] > MOST_SHEETS:
        count = tries[0][0][0] if tries else least
        raise MakerError(
            f'piece "{asked.piece.name}": at this scale the poster takes {count:,} sheets of {asked.paper.name}; '
            f"{MOST_SHEETS} are allowed: take a smaller scale (--cluster) or larger sheets"
        )
    return tries[0][1]


def _papers(asked: Poster, whole: Crop, scale: float) -> Iterator[PaperSize]:
    """The sheet both ways; of a roll, as long a piece as the chart needs, along the roll or across it."""
    paper = asked.paper
    if paper.height is not None:
        yield paper
        yield paper.turned()
        return
    around = 2 * (asked.margin + MARKS_ROOM)
    long = min((whole.bottom - whole.top) * scale + around + STRIP, LONGEST_ROLL)
    wide = min((whole.right - whole.left) * scale + around, LONGEST_ROLL)
    yield PaperSize(paper.name, paper.width, long)
    yield PaperSize(paper.name, wide, paper.width)


def _tiling(asked: Poster, scene: Scene, scale: float, paper: PaperSize, whole: Crop) -> Tiling:
    """A strip at the foot of each sheet is kept for the ruler and the words of the sheet."""
    assert paper.height is not None
    height = paper.height - STRIP
    try:
        return Tiling(scene, scale, paper.width, height, asked.margin + MARKS_ROOM, OVERLAP, whole)
    except ValueError as error:
        raise MakerError(str(error)) from error


def _shifted(tiling: Tiling, paper: PaperSize, parts: list[Bounds]) -> Iterator[_Cut]:
    """The sheets where they lie, and moved as far as they may be: of a shaped piece fewer may show anything then."""
    across, down = tiling.spare()
    for share_x in (0.0, 0.5, 1.0) if tiling.counts[0] > 1 else (0.0,):
        for share_y in (0.0, 0.5, 1.0) if tiling.counts[1] > 1 else (0.0,):
            moved = replace(tiling, shift=(share_x * across, share_y * down))
            yield _Cut(moved, paper, frozenset(moved.filled(parts)))


def _parts(extents: Extents, items: Iterable[Item]) -> Iterator[Bounds]:
    """How far every stroke, word and row of stitches reaches; of a long line every step by itself."""
    for item in items:
        if isinstance(item, Group):
            yield from _parts(extents, item.items)
        elif isinstance(item, Path) and item.stroke and not item.fill and len(item.steps) > 2:
            pairs = zip(item.steps, item.steps[1:], strict=False)
            yield from (extents.of(replace(item, steps=pair)) for pair in pairs if all(len(step) > 1 for step in pair))
        else:
            yield extents.of(item)


def _within(bounds: Bounds, scene: Scene) -> Crop:
    return Crop(
        max(bounds.left, 0.0),
        max(bounds.top, 0.0),
        min(bounds.right, float(scene.width)),
        min(bounds.bottom, float(scene.height)),
    )


# ------------------------------------------------------------------------------------------------ the pages


def _numbered(asked: Poster, speech: Speech, cut: _Cut) -> list[Page]:
    """The sheets with their marks, numbered after the sheet of the overview."""
    assert cut.paper.height is not None
    last = asked.first + len(cut.wanted)
    made = []
    for number, (page, place) in enumerate(
        zip(cut.tiling.pages(cut.wanted), sorted(cut.wanted), strict=True), asked.first + 1
    ):
        label = f"{asked.piece.name} {page.label}"
        said = speech.say("poster.page", label=label, n=number, of=last)
        tall = replace(page, height=cut.paper.height, label=label)
        made.append(marked(speech, tall, _sides(cut, place), asked.margin, said))
    return made


def _sides(cut: _Cut, place: tuple[int, int]) -> set[str]:
    """Where another sheet is glued to the one at ``place``."""
    row, column = place
    beside = {
        "left": (row, column - 1), "right": (row, column + 1), "above": (row - 1, column), "below": (row + 1, column),
    }  # fmt: skip
    return {side for side, other in beside.items() if other in cut.wanted}


def _key_scenes(found: Setting, width: float, words: float) -> tuple[Scene, Scene, float]:
    """Heading and key for ``width`` mm of paper, their words ``words`` mm high, and the mm to a px."""
    px = min(max(round(width / words * KEY_UNIT), LEAST), MOST)
    above, below = key_scenes(found, px)
    return above, below, min(words / KEY_UNIT, width / px)


def _one_sheet(asked: Poster, speech: Speech, found: Setting, cut: _Cut, scale_words: str) -> list[Page]:
    """A chart that one sheet takes: with its heading and its key on the same sheet where there is room for them."""
    (page,) = cut.tiling.pages(cut.wanted)
    label = asked.piece.name
    together = next(_together(asked, found, cut, page.views[0]), None)
    if together is not None:
        return [marked(speech, replace(together, label=label), (), asked.margin, scale_words)]
    assert cut.paper.height is not None
    sheet_of_one = replace(page, height=cut.paper.height, label=label)
    alone = marked(speech, sheet_of_one, (), asked.margin, scale_words)
    return [_overview(asked, speech, found, cut, [alone], scale_words), alone]


def _together(asked: Poster, found: Setting, cut: _Cut, chart: View) -> Iterator[Page]:
    """Pages with the heading above the chart and the key below it, or along a roll with both beside it."""
    window, margin = chart.seen(), asked.margin
    wide, tall = (side * chart.mm_per_px for side in (window.right - window.left, window.bottom - window.top))
    for paper in (asked.paper, asked.paper.turned()):
        width = min(paper.width - 2 * margin, WIDEST_KEY)
        above, below, scale = _key_scenes(found, width, KEY_WORDS)
        needed = (above.height + below.height) * scale + tall + 2 * GAP + 2 * margin + STRIP
        if wide <= paper.width - 2 * margin and needed <= (paper.height or LONGEST_ROLL):
            top = margin + above.height * scale + GAP
            yield Page(paper.width, paper.height or needed, (
                replace(chart, left=margin, top=top),
                View(above, scale, margin, margin),
                View(below, scale, margin, top + tall + GAP),
            ))  # fmt: skip
    if asked.paper.height is None and cut.paper.height is not None:
        above, below, scale = _key_scenes(found, KEY_BESIDE, KEY_WORDS)
        left, top = margin + wide + GAP, margin + above.height * scale + GAP
        if top + below.height * scale + margin <= cut.paper.height and left + KEY_BESIDE + margin <= LONGEST_ROLL:
            yield Page(left + KEY_BESIDE + margin, cut.paper.height, (
                replace(chart, left=margin, top=margin),
                View(above, scale, left, margin),
                View(below, scale, left, top),
            ))  # fmt: skip


def _small(asked: Poster) -> PaperSize:
    """The sheet of the overview: A4 or Letter, or the poster's own where that is smaller and leaves room within its
    margins."""
    small = sheet("Letter" if asked.plan.pattern.units == "in" else "A4")
    assert small.height is not None
    paper = asked.paper
    if paper.height is None or paper.width * paper.height > small.width * small.height:
        return small
    return paper if paper.width - 2 * asked.margin >= LEAST_OVERVIEW else small


def _overview(
    asked: Poster, speech: Speech, found: Setting, cut: _Cut, pages: list[Page], scale_words: str
) -> Page:
    """One small sheet: heading, how the sheets are put together, a map of them with their pages, and the key."""
    paper = _small(asked)
    assert paper.height is not None
    width, left = paper.width - 2 * asked.margin, asked.margin
    above, below, scale = _key_scenes(found, width, KEY_WORDS)
    marks, y = _how(speech, asked, width, asked.margin + above.height * scale, len(pages), scale_words)
    room = paper.height - asked.margin - y
    while below.height * scale > (1 - MAP_SHARE) * room and scale * KEY_UNIT > LEAST_KEY_WORDS:
        above, below, scale = _key_scenes(found, width, 0.94 * scale * KEY_UNIT)
    views = [View(above, scale, left, asked.margin)]
    shrunk = min(scale, (1 - MAP_SHARE) * room / below.height)
    foot = paper.height - asked.margin - below.height * shrunk
    window = cut.tiling.whole
    across, down = window.right - window.left, window.bottom - window.top
    map_scale = min(width / across, (foot - GAP - y) / down)
    map_left = left + (width - across * map_scale) / 2
    views.append(View(cut.tiling.scene, map_scale, map_left, y, window))
    views.append(View(below, shrunk, left, y + down * map_scale + GAP))
    marks += _map(speech, pages, asked.first + 1, window, (map_left, y, map_scale))
    label = f"{asked.piece.name}"
    return Page(paper.width, paper.height, (*views, over(speech, paper.width, paper.height, marks)), label)


def _how(
    speech: Speech, asked: Poster, width: float, top: float, count: int, scale_words: str
) -> tuple[list[Item], float]:
    """How the sheets are printed and put together, in words, and how far down they reach in mm."""
    said = [
        speech.say("poster.title", piece=asked.piece.name, n=count),
        speech.say("poster.print", scale=scale_words),
        speech.say("poster.measure"),
        *([speech.say("poster.cut", mm=f"{OVERLAP:g}")] if count > 1 else []),
    ]
    items: list[Item] = []
    y = top + 2.0
    for words in wrapped("  ".join([said[0] + ".", *said[1:]]), width, 3.2):
        y += 3.2 * 1.35
        items.append(Text(mm(asked.margin), mm(y), words, 3.2 * MARKS, style.LIGHT.ink))
    return items, y + 4.0


def _map(
    speech: Speech, pages: list[Page], first: int, whole: Crop, at: tuple[float, float, float]
) -> list[Item]:
    """The sheets as frames with their coordinates and page numbers, over the chart that lies at left, top and scale
    ``at``."""
    left, top, scale = at
    marks: list[Item] = []
    for number, page in enumerate(pages, start=first):
        window = page.views[0].seen()
        corners = [(window.left, window.top), (window.right, window.bottom)]
        (x0, y0), (x1, y1) = ((left + (x - whole.left) * scale, top + (y - whole.top) * scale) for x, y in corners)
        frame = rectangle(mm(x0), mm(y0), mm(x1 - x0), mm(y1 - y0))
        marks.append(Path(frame, stroke=style.LIGHT.accent, width=3.5))
        words = speech.say("poster.tile", label=page.label.rpartition(" ")[2], n=number)
        size = min(50.0, 0.3 * mm(y1 - y0), 0.8 * mm(x1 - x0) / measure(words, 1.0, "semibold"))
        marks += outlined(mm((x0 + x1) / 2), mm((y0 + y1) / 2) + 0.35 * size, words, size)
    return marks
