"""What is printed on the sheets of a poster beside the chart: cut marks, glue lines, a ruler, the name of the sheet.

In: pages of a poster. Out: the same with their marks as a scene of their own, ``MARKS`` px to a mm.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator

from turnchain import style
from turnchain.numbers import rounded
from turnchain.paper import Page, View
from turnchain.records import replace
from turnchain.scene import Item, Path, Scene, Steps, Text, line, rectangle
from turnchain.wording.languages.language import Speech

OVERLAP = 12.0  # mm that neighbouring sheets of a poster share
MARKS = 10.0  # px of the marks' own scene to a mm
RULER = 100.0  # mm
STRIP = 7.0  # mm kept free for ruler and words on every sheet of a poster
MARKS_ROOM = 3.0  # mm outside the picture for cut marks
EDGE = 4.0  # mm from the edge of the paper that marks keep, however small the margin


def marked(speech: Speech, page: Page, sides: Collection[str], margin: float, said: str) -> Page:
    """A sheet, whose first view is its part of the chart, with its cut marks, glue lines, ruler and name ``said`` ("":
    none) as one more view; ``margin`` is in mm. ``sides`` ("left", "above", "right", "below") are those where another
    sheet is glued on; without any there are no cut marks."""
    view = page.views[0]
    window = view.seen()
    right = view.left + (window.right - window.left) * view.mm_per_px
    bottom = view.top + (window.bottom - window.top) * view.mm_per_px
    box = (view.left, view.top, right, bottom)
    items: list[Item] = [*_glue_lines(sides, box), *(_cut_marks(*box) if sides else ()), *ruler(speech, page, margin)]
    if said:
        right = page.width - max(margin, EDGE)
        y = page.height - max(margin, EDGE) - (0.8 if sides else 4.6)  # one sheet alone has more to say
        items.append(Text(mm(right), mm(y), said, 30, style.LIGHT.ink, "semibold", "end"))
    return replace(page, views=(*page.views, over(speech, page.width, page.height, items)))


def mm(length: float) -> float:
    """A ``length`` in mm on the paper in px of the marks, rounded."""
    return rounded(length * MARKS)


def over(speech: Speech, width: float, height: float, items: list[Item]) -> View:
    """The marks of a sheet of ``width`` x ``height`` mm, ``items`` in px of the marks, as a view of their own over all
    of it."""
    size = (round(width * MARKS), round(height * MARKS))
    tag = speech.language.tag
    return View(Scene(*size, "marks", speech.say("poster.marks"), tag, {}, tuple(items), None), 1 / MARKS)


def outlined(x: float, y: float, words: str, size: float) -> list[Item]:
    """Words with the middle of their base line at ``x``, ``y``, on a rectangle in the colour of paper, so that they can
    be read on the chart; places and ``size`` (the em) in px of the marks."""
    wide = 0.58 * size * len(words)
    scrap = rectangle(rounded(x - wide / 2), rounded(y - size), rounded(wide), rounded(1.35 * size))
    return [
        Path(scrap, fill=style.LIGHT.paper, opacity=0.85),
        Text(rounded(x), rounded(y), words, rounded(size), style.LIGHT.ink, "semibold", "middle"),
    ]


def _glue_lines(sides: Collection[str], box: tuple[float, float, float, float]) -> Iterator[Item]:
    """Where the sheet before and the one above reach to: dashed lines ``OVERLAP`` mm inside."""
    left, top, right, bottom = box
    if "left" in sides:
        x = left + OVERLAP
        yield _dashed(line(mm(x), mm(top), mm(x), mm(bottom)))
    if "above" in sides:
        y = top + OVERLAP
        yield _dashed(line(mm(left), mm(y), mm(right), mm(y)))


def _dashed(steps: Steps) -> Path:
    return Path(steps, stroke=style.LIGHT.accent, width=2.0, dash=(18.0, 12.0), cap="butt", opacity=0.8)


def _cut_marks(left: float, top: float, right: float, bottom: float) -> Iterator[Item]:
    """Short strokes outside the four corners."""
    reach, off = 5.0, 1.0
    for x, way_x in ((left, -1), (right, 1)):
        for y, way_y in ((top, -1), (bottom, 1)):
            across = line(mm(x + way_x * off), mm(y), mm(x + way_x * (off + reach)), mm(y))
            down = line(mm(x), mm(y + way_y * off), mm(x), mm(y + way_y * (off + reach)))
            for steps in (across, down):
                yield Path(steps, stroke=style.LIGHT.ink, width=2.0, cap="butt")


def ruler(speech: Speech, page: Page, margin: float) -> Iterator[Item]:
    """A ruler of 10 cm at the lower left of ``page``, ``margin`` mm from its edges (at least ``EDGE``), with its
    words."""
    x, y = max(margin, EDGE), page.height - max(margin, EDGE) - 0.5
    yield Path(line(mm(x), mm(y), mm(x + RULER), mm(y)), stroke=style.LIGHT.ink, width=3.0, cap="butt")
    for centimetre in range(11):
        at, tall = x + centimetre * 10, 3.0 if centimetre % 5 == 0 else 1.8
        yield Path(line(mm(at), mm(y), mm(at), mm(y - tall)), stroke=style.LIGHT.ink, width=3.0, cap="butt")
    yield Text(mm(x + RULER + 4), mm(y), speech.say("poster.ruler"), 26, style.LIGHT.ink)
