"""How much of each px an outline covers: our own scan converter and stroker, in numpy.

In: ``Steps`` or a stroked ``Path``. Out: ``Edges`` (straight, directed), and from them a ``Mask`` of coverage
from 0 to 255, with its place in the picture.

It is our own because the strokers that could be installed either draw far worse or need a system library
that not every machine has, and because one symbol must be drawn at many sub-pixel places very fast. A px is
15 sub-scanlines high; along each the covered length is counted in 256ths of a px, in whole numbers, so that
no sum depends on its order. What is inside follows the non-zero winding rule, which makes strokes easy: a
stroke is the union of one slab per segment and one round disc (in gentle turns a wedge) per joint, all wound
alike. Where a flat end comes within half a width of a corner, the corner's disc shows whole.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import accumulate, chain
from typing import NamedTuple, TypeAlias

import numpy as np
from numpy.typing import NDArray

from turnchain.records import frozen
from turnchain.scene import Path, Steps

#: One row per straight edge: x and y of its start, x and y of its end, in px. Shape (edges, 4).
Edges: TypeAlias = NDArray[np.float64]
#: Coverage by row and px, 0 to 255, or to the levels of a palette.
Alpha: TypeAlias = NDArray[np.uint8]
#: x and y of each point, in px. Shape (points, 2).
Points: TypeAlias = NDArray[np.float64]

SUBLINES = 15
SUBPIXELS = 256
WHOLE = SUBLINES * SUBPIXELS
#: Two sums are kept in one number so far apart: neither reaches half of it, and both together are exact as a float.
_APART = 1 << 26
#: How far (px) a polygon may be from the curve that it is used for.
TOLERANCE = 0.04
MOST_PIECES = 512
_CLOCKWISE = np.array((-1, 1))


class Window(NamedTuple):
    """A rectangle of whole px; right and bottom are outside."""

    left: int
    top: int
    right: int
    bottom: int


#: A window that nothing reaches out of.
EVERYWHERE = Window(-(1 << 20), -(1 << 20), 1 << 20, 1 << 20)


@frozen(eq=False)
class Mask:
    """Coverage by row and px; ``alpha[0, 0]`` is that of the px at (``left``, ``top``) of the picture."""

    left: int
    top: int
    alpha: Alpha


@frozen(eq=False)
class _Lines:
    """Polylines one behind the other: all their points, where each starts, and whether it is closed."""

    points: Points
    starts: NDArray[np.intp]
    closed: NDArray[np.bool_]

    def ends(self) -> NDArray[np.intp]:
        """Where each ends; outside, as in slices."""
        return np.append(self.starts, len(self.points))[1:]

    def following(self) -> NDArray[np.intp]:
        """For each point the next one round its polyline."""
        following = np.arange(1, len(self.points) + 1)
        following[self.ends() - 1] = self.starts
        return following


def fill_edges(steps: Steps) -> Edges:
    """The edges of ``steps`` filled; open outlines are closed. No rows where there are no steps. ValueError for a place
    that is not finite."""
    lines = _flattened(steps, TOLERANCE)
    return np.hstack([lines.points, lines.points[lines.following()]])


def fill_edges_of_all(outlines: Sequence[Steps], fine: float) -> list[Edges]:
    """The edges of each of ``outlines`` filled, as ``fill_edges`` has them, fit to be drawn ``fine`` times as large.
    Each part of an outline begins with M."""
    if not outlines:
        return []
    lines = _flattened(tuple(chain.from_iterable(outlines)), TOLERANCE / fine)
    edges = np.hstack([lines.points, lines.points[lines.following()]])
    counts = [sum(step[0] == "M" for step in outline) for outline in outlines]
    starts = np.append(lines.starts, len(edges))[list(accumulate(counts[:-1], initial=0))]
    return np.split(edges, starts[1:])


def stroke_edges(path: Path) -> Edges:
    """The edges of the area that the stroke of ``path`` covers, its dashes cut; the fill does not matter. To be filled
    by the non-zero rule. ValueError for a place that is nan."""
    if rule := _rule(path):
        return _slabs(*rule)
    lines = _flattened(path.steps, TOLERANCE)
    if sum(path.dash) > 0:
        lines = _dashed(lines, path.dash)
    radius = path.width / 2
    ends, is_open, following = lines.ends(), ~lines.closed, lines.following()
    along = lines.points[following] - lines.points
    along[ends[is_open] - 1] = 0
    length = np.hypot(*along.T)[:, None]
    outward = np.divide(along, length, out=np.zeros_like(along), where=length > 0)
    inward = np.empty_like(outward)
    inward[following] = outward
    joints = np.ones(len(along), bool)
    if path.cap == "butt":
        joints[lines.starts[is_open]] = joints[ends[is_open] - 1] = False
    # a place without a stroke (a lone M) is not drawn, as in SVG
    joints[lines.starts[is_open & (ends - lines.starts == 1)]] = False
    # where a line hardly turns, as all along a curve, only a wedge is missing between two slabs
    cosine = (inward * outward).sum(axis=1)
    gentle = (cosine > 0.5) & (radius * (1 - np.sqrt((1 + cosine.clip(-1)) / 2)) < TOLERANCE)
    discs = np.array(list(dict.fromkeys(map(tuple, lines.points[joints & ~gentle].tolist())))).reshape(-1, 2)
    slabs = length[:, 0] > 0
    wedges = joints & gentle
    return np.vstack(
        [
            _slabs(lines.points[slabs], along[slabs], radius * outward[slabs]),
            _wedges(lines.points[wedges], radius * inward[wedges], radius * outward[wedges]),
            _discs(discs, radius),
        ]
    )


def _rule(path: Path) -> tuple[Points, Points, Points] | None:
    """Start, course and half the width of a level or upright line with flat ends, of which charts are full."""
    if len(path.steps) != 2 or path.cap != "butt" or sum(path.dash) > 0:
        return None
    places = [step[1:] for step in path.steps if len(step) == 3]
    if len(places) != 2:
        return None
    (x0, y0), (x1, y1) = places
    if (x0 == x1) == (y0 == y1):
        return None
    along = np.array([[x1 - x0, y1 - y0]])
    return np.array([[x0, y0]]), along, np.sign(along) * path.width / 2


def cover(edges: Edges, window: Window) -> Mask | None:
    """The coverage of ``edges``, filled by the non-zero rule, inside ``window``: the mask is no larger than the bounds
    of both. None where these share no px."""
    if rectangle := _upright(edges):
        return _cover_rectangle(rectangle, window)
    # of a long slanted line, a low window meets only a short piece
    _, start, _, stop = edges.T
    edges = edges[(np.minimum(start, stop) < window.bottom) & (np.maximum(start, stop) > window.top)]
    frame = _frame(edges, window)
    if frame is None:
        return None
    width, height = frame.right - frame.left, frame.bottom - frame.top
    bits = (width * SUBPIXELS).bit_length()
    crossings = _sorted(_crossings(edges, frame, bits))
    covered = _covered(crossings, bits, np.arange(height) * (width + 2), height * (width + 2))
    return Mask(frame.left, frame.top, np.ascontiguousarray(covered.reshape(height, width + 2)[:, :width]))


def cover_all(shapes: Sequence[Edges]) -> list[Mask | None]:
    """The coverage of each of ``shapes`` for itself and in their order, as ``cover`` finds it in ``EVERYWHERE``. Many
    small ones take little longer than one: they are laid out below one another, and all crossings are sorted at
    once."""
    masks: list[Mask | None] = [None] * len(shapes)
    placed: list[tuple[int, Window]] = []
    for number, edges in enumerate(shapes):
        if len(edges) == 4 and _upright(edges):
            masks[number] = cover(edges, EVERYWHERE)
        elif frame := _frame(edges, EVERYWHERE):
            placed.append((number, frame))
    if not placed:
        return masks
    counts = [len(shapes[number]) for number, _ in placed]
    heights = np.array([frame.bottom - frame.top for _, frame in placed])
    widths = np.array([frame.right - frame.left for _, frame in placed])
    lefts, tops = np.array([frame[:2] for _, frame in placed]).T
    below = np.cumsum(heights) - heights  # px rows above each
    edges = np.concatenate([shapes[number] for number, _ in placed])
    # whole px, so that nothing is rounded otherwise than by itself
    shift = np.repeat(below - tops, counts)
    bits = int(widths.max() * SUBPIXELS).bit_length()
    frame = Window(0, 0, int(widths.max()), int(heights.sum()))
    crossings = _sorted(_crossings(edges, frame, bits, np.repeat(lefts, counts), shift))
    stride = widths + 2
    rows = np.repeat(stride, heights)
    starts = np.cumsum(rows) - rows
    covered = _covered(crossings, bits, starts, int(rows.sum()))
    ends = np.cumsum(stride * heights)
    for (number, own), end, width, height in zip(placed, ends.tolist(), widths.tolist(), heights.tolist(), strict=True):
        alpha = covered[end - height * (width + 2) : end].reshape(height, width + 2)[:, :width]
        masks[number] = Mask(own.left, own.top, np.ascontiguousarray(alpha))
    return masks


def _sorted(crossings: NDArray[np.int64]) -> NDArray[np.int64]:
    """``crossings`` in order. Those of an edge are in order already: a sort that merges such runs is four times as fast
    here as one that does not look for them."""
    crossings.sort(kind="stable")
    return crossings


def _covered(crossings: NDArray[np.int64], bits: int, starts: NDArray[np.intp], size: int) -> Alpha:
    """The coverage that sorted ``crossings`` leave, row behind row in ``size`` cells; ``starts``: where each row of px
    begins, each two cells longer than it is wide."""
    outside = np.cumsum(((crossings & 1) << 1).astype(np.int8) - np.int8(1), dtype=np.int32) == 0
    # a covered stretch begins where the winding leaves 0 and ends where it comes back to it, by turns
    turns = outside.copy()
    turns[:1] = ~outside[:1]
    turns[1:] ^= outside[:-1]
    ends = crossings[turns] >> 1
    cell = np.repeat(starts, SUBLINES)[ends >> bits]
    cell += (ends & ((1 << bits) - 1)) // SUBPIXELS
    # each end adds to its px what is covered from there on, and to all px behind it the whole: both in one number
    weights = (_APART - (ends & (SUBPIXELS - 1))).astype(float)
    weights[1::2] *= -1
    sums = np.bincount(cell, weights, size).astype(float, copy=False)
    counts = np.rint(sums / _APART)
    sums -= _APART * counts
    sums += np.cumsum(counts, out=counts) * SUBPIXELS
    sums *= 255 / WHOLE
    sums += 0.5
    return sums.astype(np.uint8)


_Rectangle: TypeAlias = tuple[float, float, float, float]  # left, top, right, bottom


def _upright(edges: Edges) -> _Rectangle | None:
    """The upright rectangle that ``edges`` go round: rules, boxes and stripes are nothing else."""
    if len(edges) != 4:
        return None
    sides = edges.tolist()
    corners = {(x, y) for x, y, _, _ in sides}
    xs, ys = {x for x, _ in corners}, {y for _, y in corners}
    slanted = any(x0 != x1 and y0 != y1 for x0, y0, x1, y1 in sides)
    if len(corners) != 4 or len(xs) != 2 or len(ys) != 2 or slanted:
        return None
    return min(xs), min(ys), max(xs), max(ys)


def _cover_rectangle(rectangle: _Rectangle, window: Window) -> Mask | None:
    left, top, right, bottom = rectangle
    frame = Window(
        max(math.floor(left), window.left),
        max(math.floor(top), window.top),
        min(math.ceil(right), window.right),
        min(math.ceil(bottom), window.bottom),
    )
    if frame.left >= frame.right or frame.top >= frame.bottom:
        return None
    across, down = _share(left, right, frame.left, frame.right), _share(top, bottom, frame.top, frame.bottom)
    return Mask(frame.left, frame.top, (np.outer(down, across) * 255 + 0.5).astype(np.uint8))


def _share(start: float, stop: float, first: int, last: int) -> NDArray[np.float64]:
    """How much of each px from ``first`` to before ``last`` lies between ``start`` and ``stop``."""
    px = np.arange(first, last)
    share: NDArray[np.float64] = np.clip(np.minimum(px + 1, stop) - np.maximum(px, start), 0, 1)
    return share


def _frame(edges: Edges, window: Window) -> Window | None:
    """The part of ``window`` that the bounds of ``edges`` meet."""
    if not len(edges):
        return None
    x0, y0, x1, y1 = edges.min(axis=0).tolist()  # in Python from here on: numpy takes longer for so few
    left, top = max(math.floor(min(x0, x1)), window.left), max(math.floor(min(y0, y1)), window.top)
    x0, y0, x1, y1 = edges.max(axis=0).tolist()
    right, bottom = min(math.ceil(max(x0, x1)), window.right), min(math.ceil(max(y0, y1)), window.bottom)
    return Window(left, top, right, bottom) if left < right and top < bottom else None


def _crossings(
    edges: Edges, frame: Window, bits: int, left: NDArray[np.intp] | None = None, down: NDArray[np.intp] | None = None
) -> NDArray[np.int64]:
    """Where ``edges`` cross the sub-scanlines of ``frame``, as numbers that sort by line and place: the
    line, ``bits`` bits for the place in 256ths, and 1 if the edge runs down. Places beside the frame count as
    on its rim, so that the winding of every line still ends at 0. Of edges of several shapes ``left`` says where the
    frame of each begins, and ``down`` by how many px it is moved."""
    x0, y0, x1, y1 = edges.T
    # sub-scanline k lies at (k + 1/2) / 15 px
    start, stop = y0 * SUBLINES - 0.5, y1 * SUBLINES - 0.5
    limits = frame.top * SUBLINES, frame.bottom * SUBLINES
    first, after = np.ceil(np.minimum(start, stop)), np.ceil(np.maximum(start, stop))
    if down is None:  # else each frame is that of its shape
        first, after = np.clip(first, *limits), np.clip(after, *limits)
    counts = after.astype(np.intp) - first.astype(np.intp)
    slope = np.divide(x1 - x0, stop - start, out=np.zeros_like(x0), where=counts > 0)
    # the numbers need more than 32 bits, whatever the machine counts with
    line = np.arange(counts.sum()).astype(np.int64, copy=False)
    line += np.repeat(first.astype(np.int64) - np.cumsum(counts) + counts, counts)
    x = (line - np.repeat(start, counts)) * np.repeat(slope, counts)
    x += np.repeat(x0, counts)
    x -= frame.left if left is None else np.repeat(left, counts)
    x *= SUBPIXELS
    np.clip(x, 0, (frame.right - frame.left) * SUBPIXELS, out=x)
    line += -limits[0] if down is None else np.repeat(down * SUBLINES, counts)
    found = line << bits
    found |= np.rint(x, out=x).astype(np.int64)
    found <<= 1
    found |= np.repeat(y1 > y0, counts)
    return found


def _flattened(steps: Steps, tolerance: float) -> _Lines:
    """``steps`` as polylines, curves cut into as many pieces as ``tolerance`` (in their unit) needs."""
    curves: list[tuple[float, ...]] = []  # all cubic; of places and straight lines only the end is used
    curved: list[bool] = []
    starts: list[int] = []
    closed: list[bool] = []
    here = start = (0.0, 0.0)
    begins = True
    for step in steps:
        if len(step) == 1:
            closed[-1], begins, here = True, True, start
            continue
        end = (step[-2], step[-1])
        if begins or step[0] == "M":
            start = end if step[0] == "M" else here
            starts.append(len(curves))
            closed.append(False)
            curves.append(start * 4)
            curved.append(False)
            begins = False
        if step[0] != "M":
            curves.append((*here, *step[1:]) if len(step) == 7 else end * 4)
            curved.append(len(step) == 7)
        here = end
    controls = np.array(curves, float).reshape(-1, 4, 2)
    if not np.isfinite(controls).all():
        raise ValueError("an outline runs to a place that is no number")
    first, is_closed = np.array(starts, np.intp), np.array(closed, bool)
    if not any(curved):
        return _Lines(np.ascontiguousarray(controls[:, 3]), first, is_closed)
    bend = np.abs(np.diff(controls, 2, axis=1)).max(axis=(1, 2), initial=0) * curved
    pieces = np.ceil(np.sqrt(bend * (0.75 / tolerance))).clip(1, MOST_PIECES).astype(np.intp)
    curve = np.repeat(np.arange(len(controls)), pieces)
    before = np.cumsum(pieces) - pieces
    t = ((np.arange(len(curve)) - before[curve] + 1) / pieces[curve])[:, None]
    p0, p1, p2, p3 = controls[curve].transpose(1, 0, 2)
    s = 1 - t
    points = s**3 * p0 + 3 * s**2 * t * p1 + 3 * s * t**2 * p2 + t**3 * p3
    return _Lines(points, before[first], is_closed)


def _dashed(lines: _Lines, dash: tuple[float, ...]) -> _Lines:
    """``lines`` cut into dashes: on, off, on ... along each polyline from its start."""
    pieces = [
        piece
        for start, end, closed in zip(lines.starts, lines.ends(), lines.closed, strict=True)
        for piece in _dashes(lines.points[start:end], bool(closed), dash)
    ]
    points = np.vstack([piece.points for piece in pieces] or [np.empty((0, 2))])
    before = np.cumsum([0, *(len(piece.points) for piece in pieces)])
    starts = [piece.starts + shift for piece, shift in zip(pieces, before, strict=False)]
    closed = [piece.closed for piece in pieces]
    return _Lines(points, np.concatenate([*starts, []]).astype(int), np.concatenate([*closed, []]).astype(bool))


def _dashes(line: Points, closed: bool, dash: tuple[float, ...]) -> Iterator[_Lines]:
    """The dashes of one polyline; first and last one of a closed line are joined where they meet."""
    if closed:
        line = np.vstack([line, line[:1]])
    at = np.append(0, np.cumsum(np.hypot(*np.diff(line, axis=0).T)))
    stops = np.cumsum(dash * (1 + len(dash) % 2))
    turns = np.arange(math.ceil(at[-1] / stops[-1]))[:, None] * stops[-1]
    on, off = (turns + np.append(0, stops)[:-1:2]).ravel(), (turns + stops[::2]).ravel()
    off = off[on < at[-1]].clip(max=at[-1])
    on = on[on < at[-1]]
    if not len(on):
        return
    owner = np.searchsorted(on, at, "right") - 1
    turned = (at > on[owner]) & (at < off[owner])  # corners inside a dash
    marks = np.concatenate([on, off, at[turned]])
    owners = np.concatenate([np.arange(len(on)), np.arange(len(on)), owner[turned]])
    marks = marks[np.lexsort((marks, owners))]
    points = np.column_stack([np.interp(marks, at, axis) for axis in line.T])
    starts = np.cumsum(np.bincount(owners)) - np.bincount(owners)
    yield _Lines(points, starts, np.zeros(len(starts), bool))
    if closed and off[-1] == at[-1]:
        yield _Lines(line[:1], np.zeros(1, int), np.ones(1, bool))


def _slabs(starts: Points, along: Points, half: Points) -> Edges:
    """Rectangles from ``starts`` along segments; ``half`` is half the width, in the segments' directions."""
    beside = _turned(half)
    stops = starts + along
    return _closed(np.stack([starts - beside, stops - beside, stops + beside, starts + beside], axis=1))


def _wedges(places: Points, inward: Points, outward: Points) -> Edges:
    """Triangles outside the turn between two slabs, given half the width in both directions."""
    if not len(places):
        return np.empty((0, 4))
    clockwise = (inward * _turned(outward)).sum(axis=1, keepdims=True) < 0
    first, second = -_turned(inward), -_turned(outward)
    corners = np.where(clockwise, first, -second), np.where(clockwise, second, -first)
    return _closed(np.stack([places, places + corners[0], places + corners[1]], axis=1))


def _turned(vectors: Points) -> Points:
    """``vectors`` a quarter turn clockwise as seen."""
    turned: Points = vectors[:, ::-1] * _CLOCKWISE
    return turned


def _discs(centres: Points, radius: float) -> Edges:
    """Polygons in place of discs, wound like the slabs."""
    if not len(centres) or radius <= 0:
        return np.empty((0, 4))
    return _closed(centres[:, None] + _disc(radius))


@lru_cache(256)
def _disc(radius: float) -> Points:
    """The corners of a polygon in place of a disc of ``radius`` (above 0) about (0, 0)."""
    sides = max(8, math.ceil(math.pi / math.acos(max(0.0, 1 - TOLERANCE / 2 / radius))))
    turns = 2 * math.pi / sides * np.arange(sides)
    # a little outside the circle, so that polygon and disc have the same area
    reach = radius * math.sqrt(2 * math.pi / sides / math.sin(2 * math.pi / sides))
    corners: Points = reach * np.column_stack([np.cos(turns), np.sin(turns)])
    return corners


def _closed(polygons: NDArray[np.float64]) -> Edges:
    """The edges of many polygons of equally many corners (polygon, corner, axis)."""
    edges = np.empty((*polygons.shape[:2], 4))
    edges[:, :, :2] = polygons
    edges[:, :-1, 2:], edges[:, -1:, 2:] = polygons[:, 1:], polygons[:, :1]
    return edges.reshape(-1, 4)
