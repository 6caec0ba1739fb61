"""Outlines as straight edges: curves cut into pieces, and our own stroker.

In: ``Steps`` or a stroked ``Path``. Out: ``Edges`` (straight, directed), to be filled by the non-zero rule. That makes
strokes easy: a stroke is the union of one slab per segment and one round disc (in gentle turns a wedge) per joint, all
wound alike. Where a flat end comes within half a width of a corner, the corner's disc shows whole.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import accumulate, chain
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from turnchain.records import frozen
from turnchain.scene import Path, Steps

#: One row per straight edge: x and y of its start, x and y of its end, in px. Shape (edges, 4).
Edges: TypeAlias = NDArray[np.float64]
#: x and y of each point, in px. Shape (points, 2).
Points: TypeAlias = NDArray[np.float64]

#: How far (px) a polygon may be from the curve that it is used for.
TOLERANCE = 0.04
MOST_PIECES = 512
_CLOCKWISE = np.array((-1, 1))


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
