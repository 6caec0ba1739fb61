"""The inner loops of the rasteriser in numpy, for where no compiler was found: see ``loops`` for what they do.

Everything is calculated in the order in which ``compiled`` does, so that the bytes are the same.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    from turnchain.scene import Steps

_Px: TypeAlias = bytes | bytearray  # one for each, row behind row
_Points: TypeAlias = NDArray[np.float64]  # x and y of each
_Edges: TypeAlias = NDArray[np.float64]  # x and y of the start and of the end of each
_Alpha: TypeAlias = NDArray[np.uint8]
_Window: TypeAlias = tuple[int, int, int, int]  # left, top, right, bottom
_Mask: TypeAlias = tuple[int, int, int, int, bytes]
_Part: TypeAlias = tuple[int, int, int, int, int, int]

SUBLINES = 15
SUBPIXELS = 256
WHOLE = SUBLINES * SUBPIXELS
#: Two sums are kept in one number so far apart: neither reaches half of it, and both together are exact as a float.
_APART = 1 << 26
MOST_PIECES = 512
#: Parts of a shade that are told apart when the nearest is looked for.
FINE = 64
_CLOCKWISE = np.array((-1, 1))


# ---- outlines as polylines ----


def flatten(steps: Steps, tolerance: float) -> tuple[bytes, list[int], list[bool]]:
    curves: list[tuple[float, ...]] = []  # all cubic; of places and straight lines only the end is used
    curved: list[bool] = []
    starts: list[int] = []
    closed: list[bool] = []
    here = start = (0.0, 0.0)
    begins = True
    for step in steps:
        if len(step) == 1:
            if not closed:
                raise ValueError("an outline is closed before it begins")
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
    if not any(curved):
        return controls[:, 3].tobytes(), starts, closed
    bend = np.abs(np.diff(controls, 2, axis=1)).max(axis=(1, 2), initial=0) * curved
    pieces = np.ceil(np.sqrt(bend * (0.75 / tolerance))).clip(1, MOST_PIECES).astype(np.intp)
    curve = np.repeat(np.arange(len(controls)), pieces)
    before = np.cumsum(pieces) - pieces
    t = ((np.arange(len(curve)) - before[curve] + 1) / pieces[curve])[:, None]
    p0, p1, p2, p3 = controls[curve].transpose(1, 0, 2)
    s = 1 - t
    points = s * s * s * p0 + 3 * (s * s) * t * p1 + 3 * s * (t * t) * p2 + t * t * t * p3
    return points.tobytes(), before[np.array(starts, np.intp)].tolist(), closed


# ---- polylines as edges ----


def fill_lines(points: bytes, starts: list[int], closed: list[bool]) -> bytes:
    places = np.frombuffer(points).reshape(-1, 2)
    return np.hstack([places, places[_following(len(places), starts)]]).tobytes()


def _following(count: int, starts: list[int]) -> NDArray[np.intp]:
    """For each of ``count`` points the next one round its polyline."""
    following = np.arange(1, count + 1)
    following[np.array([*starts[1:], count][: len(starts)], np.intp) - 1] = starts
    return following


def stroke_lines(
    points: bytes, starts: list[int], closed: list[bool], radius: float, flat: bool, disc: bytes, tolerance: float
) -> bytes:
    places = np.frombuffer(points).reshape(-1, 2)
    first, is_open = np.array(starts, np.intp), ~np.array(closed, bool)
    ends, following = np.append(first, len(places))[1:], _following(len(places), starts)
    along = places[following] - places
    along[ends[is_open] - 1] = 0
    length = np.hypot(*along.T)[:, None]
    outward = np.divide(along, length, out=np.zeros_like(along), where=length > 0)
    inward = np.empty_like(outward)
    inward[following] = outward
    joints = np.ones(len(along), bool)
    if flat:
        joints[first[is_open]] = joints[ends[is_open] - 1] = False
    # a place without a stroke (a lone M) is not drawn, as in SVG
    joints[first[is_open & (ends - first == 1)]] = False
    # where a line hardly turns, as all along a curve, only a wedge is missing between two slabs
    cosine = (inward * outward).sum(axis=1)
    gentle = (cosine > 0.5) & (radius * (1 - np.sqrt((1 + cosine.clip(-1)) / 2)) < tolerance)
    centres = np.array(list(dict.fromkeys(map(tuple, places[joints & ~gentle].tolist())))).reshape(-1, 2)
    slabs, wedges = length[:, 0] > 0, joints & gentle
    edges = [
        _slabs(places[slabs], along[slabs], radius * outward[slabs]),
        _wedges(places[wedges], radius * inward[wedges], radius * outward[wedges]),
    ]
    if radius > 0:
        edges.append(_closed(centres[:, None] + np.frombuffer(disc).reshape(-1, 2)))
    return np.vstack(edges).tobytes()


def _turned(vectors: _Points) -> _Points:
    """``vectors`` a quarter turn clockwise as seen."""
    turned: _Points = vectors[:, ::-1] * _CLOCKWISE
    return turned


def _slabs(starts: _Points, along: _Points, half: _Points) -> _Edges:
    """Rectangles from ``starts`` along segments; ``half`` is half the width, in the segments' directions."""
    beside = _turned(half)
    stops = starts + along
    return _closed(np.stack([starts - beside, stops - beside, stops + beside, starts + beside], axis=1))


def _wedges(places: _Points, inward: _Points, outward: _Points) -> _Edges:
    """Triangles outside the turn between two slabs, given half the width in both directions."""
    clockwise = (inward * _turned(outward)).sum(axis=1, keepdims=True) < 0
    first, second = -_turned(inward), -_turned(outward)
    corners = np.where(clockwise, first, -second), np.where(clockwise, second, -first)
    return _closed(np.stack([places, places + corners[0], places + corners[1]], axis=1))


def _closed(polygons: NDArray[np.float64]) -> _Edges:
    """The edges of many polygons of equally many corners (polygon, corner, axis)."""
    edges = np.empty((*polygons.shape[:2], 4))
    edges[:, :, :2] = polygons
    edges[:, :-1, 2:], edges[:, -1:, 2:] = polygons[:, 1:], polygons[:, :1]
    return edges.reshape(-1, 4)


def set_letters(
    letters: list[bytes], along: list[float], cosine: float, sine: float, right: float, down: float
) -> bytes:
    edges = np.frombuffer(b"".join(letters)).reshape(-1, 4).copy()
    counts = np.array([len(letter) // edges.itemsize // 4 for letter in letters], np.intp)
    x, y = edges[:, ::2] + np.repeat(np.array(along, float), counts)[:, None], edges[:, 1::2]
    edges[:, ::2], edges[:, 1::2] = x * cosine - y * sine + right, x * sine + y * cosine + down
    return edges.tobytes()


# ---- coverage ----


def cover(edges: bytes, x: float, y: float, window: _Window) -> _Mask | None:
    moved = np.frombuffer(edges).reshape(-1, 4) + np.array((x, y, x, y))
    if rectangle := _upright(moved):
        return _cover_rectangle(rectangle, window)
    # of a long slanted line, a low window meets only a short piece
    _, start, _, stop = moved.T
    moved = moved[(np.minimum(start, stop) < window[3]) & (np.maximum(start, stop) > window[1])]
    if not len(moved):
        return None
    least, most = moved.min(axis=0).tolist(), moved.max(axis=0).tolist()
    frame = _met((min(least[::2]), min(least[1::2]), max(most[::2]), max(most[1::2])), window)
    return None if frame is None else _cover_crossed(moved, frame)


def _met(area: tuple[float, float, float, float], window: _Window) -> _Window | None:
    """The part of ``window`` that ``area`` meets."""
    left, top = (max(int(np.floor(side)), limit) for side, limit in zip(area[:2], window[:2], strict=True))
    right, bottom = (min(int(np.ceil(side)), limit) for side, limit in zip(area[2:], window[2:], strict=True))
    return (left, top, right, bottom) if left < right and top < bottom else None


def _upright(edges: _Edges) -> tuple[float, float, float, float] | None:
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


def _cover_rectangle(rectangle: tuple[float, float, float, float], window: _Window) -> _Mask | None:
    if (frame := _met(rectangle, window)) is None:
        return None
    across = _share_of_px(rectangle[0], rectangle[2], frame[0], frame[2])
    down = _share_of_px(rectangle[1], rectangle[3], frame[1], frame[3])
    alpha = (np.outer(down, across) * 255 + 0.5).astype(np.uint8)
    return frame[0], frame[1], len(across), len(down), alpha.tobytes()


def _share_of_px(start: float, stop: float, first: int, last: int) -> NDArray[np.float64]:
    """How much of each px from ``first`` to before ``last`` lies between ``start`` and ``stop``."""
    px = np.arange(first, last)
    share: NDArray[np.float64] = np.clip(np.minimum(px + 1, stop) - np.maximum(px, start), 0, 1)
    return share


def _cover_crossed(edges: _Edges, frame: _Window) -> _Mask:
    width, height = frame[2] - frame[0], frame[3] - frame[1]
    bits = (width * SUBPIXELS).bit_length()
    crossings = _crossings(edges, frame, bits)
    # those of an edge are in order already: a sort that merges such runs is four times as fast here as another
    crossings.sort(kind="stable")
    covered = _covered(crossings, bits, width + 2, height)
    return frame[0], frame[1], width, height, covered.reshape(height, width + 2)[:, :width].tobytes()


def _covered(crossings: NDArray[np.int64], bits: int, stride: int, height: int) -> _Alpha:
    """The coverage that sorted ``crossings`` leave, row behind row, each two cells longer than it is wide."""
    outside = np.cumsum(((crossings & 1) << 1).astype(np.int8) - np.int8(1), dtype=np.int32) == 0
    # a covered stretch begins where the winding leaves 0 and ends where it comes back to it, by turns
    turns = outside.copy()
    turns[:1] = ~outside[:1]
    turns[1:] ^= outside[:-1]
    ends = crossings[turns] >> 1
    cell = (ends >> bits) // SUBLINES * stride
    cell += (ends & ((1 << bits) - 1)) // SUBPIXELS
    # each end adds to its px what is covered from there on, and to all px behind it the whole: both in one number
    weights = (_APART - (ends & (SUBPIXELS - 1))).astype(float)
    weights[1::2] *= -1
    sums = np.bincount(cell.astype(np.intp), weights, stride * height).astype(float, copy=False)
    counts = np.rint(sums / _APART)
    sums -= _APART * counts
    sums += np.cumsum(counts, out=counts) * SUBPIXELS
    sums *= 255 / WHOLE
    sums += 0.5
    return sums.astype(np.uint8)


def _crossings(edges: _Edges, frame: _Window, bits: int) -> NDArray[np.int64]:
    """Where ``edges`` cross the sub-scanlines of ``frame``, as numbers that sort by line and place: the
    line, ``bits`` bits for the place in 256ths, and 1 if the edge runs down. Places beside the frame count as
    on its rim, so that the winding of every line still ends at 0."""
    x0, y0, x1, y1 = edges.T
    # sub-scanline k lies at (k + 1/2) / 15 px
    start, stop = y0 * SUBLINES - 0.5, y1 * SUBLINES - 0.5
    limits = frame[1] * SUBLINES, frame[3] * SUBLINES
    first = np.ceil(np.minimum(start, stop)).clip(*limits)
    counts = np.ceil(np.maximum(start, stop)).clip(*limits).astype(np.intp) - first.astype(np.intp)
    slope = np.divide(x1 - x0, stop - start, out=np.zeros_like(x0), where=counts > 0)
    # the numbers need more than 32 bits, whatever the machine counts with
    line = np.arange(counts.sum()).astype(np.int64, copy=False)
    line += np.repeat(first.astype(np.int64) - np.cumsum(counts) + counts, counts)
    x = (line - np.repeat(start, counts)) * np.repeat(slope, counts)
    x += np.repeat(x0, counts)
    x -= frame[0]
    x *= SUBPIXELS
    np.clip(x, 0, (frame[2] - frame[0]) * SUBPIXELS, out=x)
    line -= limits[0]
    found = line << bits
    found |= np.rint(x, out=x).astype(np.int64)
    found <<= 1
    found |= np.repeat(y1 > y0, counts)
    return found


# ---- masks over one another ----


def strew(
    alpha: bytearray, width: int, mask: _Px, mask_width: int, places: list[tuple[int, int]], in_rows: bool
) -> None:
    sheet, ink = _sheet(alpha, width), _sheet(mask, mask_width)
    if not places:
        return
    every = 1
    if in_rows:
        places = sorted(places, key=lambda place: (place[1], place[0]))
        every = _clear_of_next(places, mask_width)
    height = len(ink)
    for first in range(every):
        for x, y in places[first::every]:
            part = sheet[y : y + height, x : x + mask_width]
            if x < 0 or y < 0 or part.shape != ink.shape:
                raise ValueError("a mask reaches out of its frame")
            part[:] = _share(part, 255 - ink) + ink if part.any() else ink


def _sheet(buffer: _Px, width: int) -> _Alpha:
    if width < 1:
        raise ValueError("px and width do not fit")
    return np.frombuffer(buffer, np.uint8).reshape(-1, width)


def _clear_of_next(places: list[tuple[int, int]], width: int) -> int:
    """The least n for which every n-th of the sorted ``places`` is clear of the next in a row of masks ``width`` px
    wide; where they do not lie in one row, so many that each is by itself."""
    count = len(places)
    if places[0][1] != places[-1][1]:
        return count
    lefts = np.array([x for x, _ in places])
    return next(n for n in range(1, count + 1) if n == count or (lefts[n:] - lefts[:-n]).min() >= width)


def _share(values: _Alpha, of_255: _Alpha) -> _Alpha:
    """``values`` x ``of_255`` / 255, rounded."""
    product = values.astype(np.uint16) * of_255 + np.uint16(128)
    return ((product + (product >> 8)) >> 8).astype(np.uint8)


def fade(alpha: _Px, above: _Px, opacity: float) -> bytes:
    own, over = (np.frombuffer(each, np.uint8) / 255 for each in (alpha, above))
    seen = opacity * own * (1 - over) / np.maximum(1 - opacity * over, 1e-9)
    return np.rint(np.clip(seen, 0, 1) * 255).astype(np.uint8).tobytes()


# ---- masks on a canvas ----


def _parts(canvas: NDArray[Any], mask: _Alpha, part: _Part) -> tuple[NDArray[Any], _Alpha]:
    """The px of the canvas and of the mask that ``part`` names."""
    x, y, width, height, from_x, from_y = part
    on = canvas[y : y + height, x : x + width]
    ink = mask[from_y : from_y + height, from_x : from_x + width]
    if min(part) < 0 or on.shape != (height, width) or ink.shape != (height, width):
        raise ValueError("a mask reaches out of its canvas")
    return on, ink


def lay_indexed(
    canvas: bytearray, width: int, mask: _Px, mask_width: int, part: _Part, table: bytearray, known: bytearray,
    shades: bytes, ink: tuple[float, float, float, float], lines: bytes,
) -> None:  # fmt: skip
    on, levels = _parts(_sheet(canvas, width), _sheet(mask, mask_width), part)
    at = levels != 0
    rows, count = np.frombuffer(table, np.uint8).reshape(256, -1), len(table) // 256
    met = np.flatnonzero(np.bincount(on[at], minlength=256))
    for number in met[np.frombuffer(known, np.uint8)[met] == 0].tolist():
        rows[number] = number + np.arange(count)
        if not lines[number]:
            rows[number, 1:] = _nearest(np.frombuffer(shades).reshape(-1, 4), number, ink, count)[1:]
        known[number] = 1
    on[at] = rows[on[at], levels[at]]


def _nearest(
    shades: NDArray[np.float64], number: int, ink: tuple[float, float, float, float], steps: int
) -> NDArray[np.intp]:
    """The nearest of ``shades`` to each step from that of ``number`` to ``ink``."""
    part = (np.arange(steps) / (steps - 1))[:, None]
    # in whole numbers, which are exact as floats: of two that are equally near, the first is taken on every machine
    wanted = np.rint((shades[number] * (1 - part) + np.array(ink) * part) * FINE)
    all_of_them = np.rint(shades * FINE)
    # |w - s|^2 = |w|^2 - 2 w s + |s|^2, of which the first does not matter
    apart = (all_of_them**2).sum(axis=1) - 2 * (wanted @ all_of_them.T)
    found: NDArray[np.intp] = np.argmin(apart, axis=1)
    return found


#: Every other channel of a colour, and those between; a half in both; a byte's bits, and how many they are.
_PAIR, _OTHER, _HALF, _ALL, _BYTE = np.array([0xFF00FF, 0xFF00FF00, 0x800080, 255, 8], np.uint32)


def lay_full(canvas: bytearray, width: int, mask: _Px, mask_width: int, part: _Part, ink: bytes) -> None:
    colours = np.frombuffer(canvas, np.uint32).reshape(-1, width)
    on, alpha = _parts(colours, _sheet(mask, mask_width), part)
    at = alpha != 0
    on[at] = _blended(on[at], alpha[at], int(np.frombuffer(ink, np.uint32)[0]))


def _blended(grounds: NDArray[np.uint32], alpha: _Alpha, over: int) -> NDArray[np.uint32]:
    """Each of ``grounds`` under its ``alpha`` of ``over``."""
    share = alpha.astype(np.uint32)
    # two channels at a time, each a byte with one free above it: (ground x rest + over x share) / 255, rounded
    pairs = np.empty((2, len(grounds)), np.uint32)
    np.bitwise_and(grounds, _PAIR, out=pairs[0])
    np.right_shift(grounds, _BYTE, out=pairs[1])
    pairs[1] &= _PAIR
    pairs *= share ^ _ALL
    pairs += np.array([[over & 0xFF00FF], [over >> 8 & 0xFF00FF]], np.uint32) * share
    pairs += _HALF
    pairs += pairs >> _BYTE & _PAIR
    pairs[0] >>= _BYTE
    pairs[0] &= _PAIR
    pairs[1] &= _OTHER
    blended: NDArray[np.uint32] = pairs[0] | pairs[1]
    return blended


def packed(colours: _Px, width: int, opaque: bool, lead: int) -> bytes:
    channels = np.frombuffer(colours, np.uint8).reshape(-1, 4)
    used = channels[:, :3] if opaque else _straight(channels)
    rows = np.zeros((len(used) // width, lead + width * used.shape[1]), np.uint8)
    rows[:, lead:] = used.reshape(len(rows), -1)
    return rows.tobytes()


def _straight(channels: _Alpha) -> _Alpha:
    """Colours no longer multiplied with their opacity."""
    straight = channels.copy()
    # all others are as they should be: most of a picture
    (some,) = np.nonzero((straight[:, 3] != 0) & (straight[:, 3] != 255))
    opacity = straight[some, 3:].astype(np.uint16)
    # widened first: before numpy 2 a product with a number that fits a byte stays a byte
    straight[some, :3] = ((straight[some, :3].astype(np.uint16) * 255 + opacity // 2) // opacity).clip(max=255)
    return straight


def fill(canvas: bytearray, start: int, stride: int, count: int, rows: int, px: bytes) -> None:
    line = px * count
    for row in range(rows):
        first = start + row * stride
        canvas[first : first + len(line)] = line


# ---- rectangles over one another ----


#: How many rectangles are compared with all others at once: memory for little time.
AT_A_TIME = 64


def overlap(below: bytes, above: bytes) -> int:
    under, over = (np.frombuffer(each).reshape(-1, 5).T for each in (below, above))
    reach, total = np.maximum.accumulate(over[3]), 0
    for start in range(0, under.shape[1], AT_A_TIME):
        left, top, right, bottom, order = under[:, start : start + AT_A_TIME, None]
        # all others lie higher or lower
        near = slice(reach.searchsorted(top[0, 0], "right"), over[1].searchsorted(bottom.max(), "left"))
        across = np.minimum(right, over[2, near]) - np.maximum(left, over[0, near])
        down = np.minimum(bottom, over[3, near]) - np.maximum(top, over[1, near])
        met = (across > 0) & (down > 0) & (over[4, near] >= order)
        total += int(np.rint(across[met] * down[met] * 256).astype(np.int64).sum())
    return total
