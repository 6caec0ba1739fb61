"""How much of each px an outline covers: our own scan converter, in numpy.

In: ``Edges``. Out: a ``Mask`` of coverage from 0 to 255, with its place in the picture.

It is our own because the strokers that could be installed either draw far worse or need a system library
that not every machine has, and because one symbol must be drawn at many sub-pixel places very fast. A px is
15 sub-scanlines high; along each the covered length is counted in 256ths of a px, in whole numbers, so that
no sum depends on its order. What is inside follows the non-zero winding rule.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import accumulate
from typing import NamedTuple, TypeAlias

import numpy as np
from numpy.typing import NDArray

from turnchain.raster.edges import Edges
from turnchain.records import frozen

#: Coverage by row and px, 0 to 255, or to the levels of a palette.
Alpha: TypeAlias = NDArray[np.uint8]

SUBLINES = 15
SUBPIXELS = 256
WHOLE = SUBLINES * SUBPIXELS
#: Two sums are kept in one number so far apart: neither reaches half of it, and both together are exact as a float.
_APART = 1 << 26
#: The coverage of small shapes of together about so many px is computed at once: all the numbers still fit the cache of
#: a processor's core.
AT_ONCE = 1 << 14


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
    small ones take little longer than one: about ``AT_ONCE`` px of them are computed together."""
    masks: list[Mask | None] = [cover(edges, EVERYWHERE) if _upright(edges) else None for edges in shapes]
    slanted = [number for number, edges in enumerate(shapes) if len(edges) and not _upright(edges)]
    for batch in _batches(zip(slanted, _frames([shapes[number] for number in slanted]), strict=True)):
        covered = _cover_together([shapes[number] for number, _ in batch], [frame for _, frame in batch])
        for (number, _), mask in zip(batch, covered, strict=True):
            masks[number] = mask
    return masks


def _batches(placed: Iterable[tuple[int, Window | None]]) -> Iterator[list[tuple[int, Window]]]:
    """Those of ``placed`` that have a window, so many together that they hold about ``AT_ONCE`` px."""
    batch: list[tuple[int, Window]] = []
    room = AT_ONCE
    for number, frame in placed:
        if frame:
            batch.append((number, frame))
            room -= (frame.right - frame.left) * (frame.bottom - frame.top)
        if room <= 0:
            yield batch
            batch, room = [], AT_ONCE
    if batch:
        yield batch


def _cover_together(shapes: Sequence[Edges], frames: Sequence[Window]) -> Iterator[Mask]:
    """The coverage of ``shapes``, each in its frame: they are laid out below one another, and all crossings are sorted
    at once."""
    counts = [len(edges) for edges in shapes]
    lefts, tops, rights, bottoms = np.array(frames).T
    heights, widths = bottoms - tops, rights - lefts
    below = np.cumsum(heights) - heights  # px rows above each
    # whole px, so that nothing is rounded otherwise than by itself
    shift = np.repeat(below - tops, counts)
    bits = int(widths.max() * SUBPIXELS).bit_length()
    frame = Window(0, 0, int(widths.max()), int(heights.sum()))
    crossings = _sorted(_crossings(np.concatenate(shapes), frame, bits, np.repeat(lefts, counts), shift))
    rows = np.repeat(widths + 2, heights)
    covered = _covered(crossings, bits, np.cumsum(rows) - rows, int(rows.sum()))
    end = 0
    for own in frames:
        height, stride = own.bottom - own.top, own.right - own.left + 2
        end, start = end + height * stride, end
        alpha = covered[start:end].reshape(height, stride)[:, :-2]
        yield Mask(own.left, own.top, np.ascontiguousarray(alpha))


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
    return _met(edges.min(axis=0).tolist(), edges.max(axis=0).tolist(), window) if len(edges) else None


def _frames(shapes: Sequence[Edges]) -> list[Window | None]:
    """What ``_frame`` gives for each of ``shapes``, which have edges, in ``EVERYWHERE``."""
    if not shapes:
        return []
    edges = np.concatenate(shapes)
    starts = list(accumulate(map(len, shapes[:-1]), initial=0))
    least, most = (ends.reduceat(edges, starts, axis=0).tolist() for ends in (np.minimum, np.maximum))
    return [_met(*both, EVERYWHERE) for both in zip(least, most, strict=True)]


def _met(least: list[float], most: list[float], window: Window) -> Window | None:
    """The part of ``window`` between the ``least`` and the ``most`` of x, y, x and y."""
    left, top = max(math.floor(min(least[::2])), window.left), max(math.floor(min(least[1::2])), window.top)
    right, bottom = min(math.ceil(max(most[::2])), window.right), min(math.ceil(max(most[1::2])), window.bottom)
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
