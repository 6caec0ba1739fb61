"""Scenes as PNG pictures, in bands, so that memory does not grow with the height.

In: a scene. Out: bytes on a stream, the same for the same scene: 8 bits per channel, RGB on a background and
RGBA without one. The scene becomes a flat list of paths and uses with their upper and lower ends; a band
draws those that meet it, in order. A definition is a *stamp*: drawn once for each sub-pixel place (to 1/64
px) as masks of coverage, put together from the stamps of definitions it uses, then laid down wherever it is
used.

All text is outlines of the shipped fonts, so that no renderer's font can move a label; a character that they
lack is the font's box for such (see ``lettering``).
"""

from __future__ import annotations

import struct
import zlib
from collections import OrderedDict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Any, BinaryIO, TypeAlias

import numpy as np
from numpy.typing import NDArray

from turnchain import lettering
from turnchain.scene import INK, Group, Item, Path, Scene, Text, Use
from turnchain.writers.coverage import Alpha, Edges, Mask, Window, cover, fill_edges, stroke_edges

#: One plane per channel (red, green, blue and, without a background, opacity), rows and columns of px;
#: colours are multiplied with their opacity.
Planes: TypeAlias = NDArray[np.uint8]

#: Stamps are made for places on a grid this fine, per px.
PHASES = 64
#: About how many px a band holds, so that its planes and sums stay a few MB.
BAND = 1 << 20
#: A definition of more px than this is drawn item by item instead of stamped.
LARGEST_STAMP = 1 << 22
#: Bytes of stamps kept at a time; those not used for longest are dropped, and made again if need be.
KEPT = 1 << 25
#: Definitions have no borders.
EVERYWHERE = Window(-(1 << 20), -(1 << 20), 1 << 20, 1 << 20)
INCH = 0.0254  # metres


def write(scene: Scene, stream: BinaryIO, dpi: float | None = None) -> None:
    """Writes ``scene`` to ``stream``, px for px; ``dpi`` only says how large to print it."""
    colour = 2 if scene.background else 6
    stream.write(b"\x89PNG\r\n\x1a\n")
    _chunk(stream, b"IHDR", struct.pack(">2I5B", scene.width, scene.height, 8, colour, 0, 0, 0))
    if dpi:
        _chunk(stream, b"pHYs", struct.pack(">2IB", round(dpi / INCH), round(dpi / INCH), 1))
    packer = _packer()
    for planes in _bands(scene):
        if packed := packer.compress(_scanlines(planes if scene.background else _straight(planes))):
            _chunk(stream, b"IDAT", packed)
    _chunk(stream, b"IDAT", packer.flush())
    _chunk(stream, b"IEND", b"")


def _chunk(stream: BinaryIO, kind: bytes, data: bytes) -> None:
    stream.write(struct.pack(">I", len(data)) + kind)
    stream.write(data)
    stream.write(struct.pack(">I", zlib.crc32(data, zlib.crc32(kind))))


def _packer() -> Any:
    """A deflater: isal's, many times faster than zlib's, where there is one."""
    try:
        from isal import isal_zlib
    except ImportError:
        return zlib.compressobj(6)
    return isal_zlib.compressobj(2)


def _scanlines(planes: Planes) -> memoryview:
    """The px of ``planes`` channel by channel, a 0 before each row: unfiltered, as drawings hardly gain."""
    channels, height, width = planes.shape
    rows = np.zeros((height, 1 + channels * width), np.uint8)
    for channel, plane in enumerate(planes):
        rows[:, 1 + channel :: channels] = plane
    return rows.ravel().data


def _straight(planes: Planes) -> Planes:
    """Colours no longer multiplied with their opacity, as files want them."""
    opacity = planes[3].astype(np.uint16)
    colours = (planes[:3] * np.uint16(255) + opacity // 2) // np.maximum(opacity, 1)
    return np.concatenate([colours.clip(max=255).astype(np.uint8), planes[3:]])


def _bands(scene: Scene) -> Iterator[Planes]:
    """The picture, band by band from the top."""
    stamps = _Stamps(scene)
    placed = list(stamps.opened(scene.items))
    tops, bottoms = np.array([(each.top, each.bottom) for each in placed]).reshape(-1, 2).T
    base = np.array(_channels(scene.background) if scene.background else (0, 0, 0, 0), np.uint8)
    shapes: dict[int, _Shape] = {}  # of paths that run on into the next band
    height = max(1, BAND // scene.width)
    for top in range(0, scene.height, height):
        window = Window(0, top, scene.width, min(top + height, scene.height))
        planes = np.empty((len(base), window.bottom - top, scene.width), np.uint8)
        planes[:] = base[:, None, None]
        for index in np.flatnonzero((tops < window.bottom) & (bottoms > top)).tolist():
            item, x, y = placed[index].item, placed[index].x, placed[index].y
            if isinstance(item, Use):
                layers = stamps.placed(item.name, x, y, item.ink)
            elif item.fill and (rectangle := _plain_rectangle(item, x, y)):
                _fill(planes, window, rectangle, item.fill)
                continue
            else:
                shape = shapes.pop(index, None) or _shape(item)
                if placed[index].bottom > window.bottom:
                    shapes[index] = shape
                layers = shape.layers(x, y, window)
            for layer in layers:
                _blend(planes, window, layer)
        yield planes


@dataclass(frozen=True, slots=True)
class _Placed:
    """A path or use with its inks settled, its origin at (``x``, ``y``), between two heights in px."""

    item: Path | Use
    x: float
    y: float
    top: float
    bottom: float


@dataclass(frozen=True, slots=True, eq=False)
class _Layer:
    """A mask in one colour, "#rrggbb" or ``INK``."""

    mask: Mask
    ink: str

    def window(self) -> Window:
        left, top = self.mask.left, self.mask.top
        height, width = self.mask.alpha.shape
        return Window(left, top, left + width, top + height)

    def moved(self, x: int, y: int, ink: str) -> _Layer:
        """The layer moved by whole px, in ``ink`` where it waits for one."""
        mask = Mask(self.mask.left + x, self.mask.top + y, self.mask.alpha)
        return _Layer(mask, ink if self.ink == INK else self.ink)


@dataclass(frozen=True, slots=True, eq=False)
class _Shape:
    """A path made ready: the edges of fill and stroke (those it has) with their inks."""

    parts: tuple[tuple[Edges, str], ...]
    opacity: float

    def layers(self, x: float, y: float, window: Window) -> list[_Layer]:
        """What is to be seen in ``window`` of the shape moved to (x, y)."""
        shift = np.array((x, y, x, y))
        masks = [(cover(edges + shift, window), ink) for edges, ink in self.parts]
        layers = [_Layer(mask, ink) for mask, ink in masks if mask]
        return layers if self.opacity == 1 else _faded(layers, self.opacity)


class _Stamps:
    """The definitions of a scene as layers of coverage, made when first asked for."""

    def __init__(self, scene: Scene) -> None:
        self._definitions: dict[str, tuple[_Shape | Use, ...]] = {}
        self._bounds: dict[str, _Bounds] = {}
        self._items = scene.definitions
        self._made: OrderedDict[tuple[str, int, int], tuple[_Layer, ...]] = OrderedDict()
        self._bytes = 0
        for name, items in scene.definitions.items():
            self._bounds[name] = _union(self._bounds_of(item) for item in _flat(items))

    def opened(self, items: Iterable[Item], x: float = 0, y: float = 0, ink: str = INK) -> Iterator[_Placed]:
        """``items`` as paths and uses in a flat row, definitions too large to be stamps taken apart."""
        for item in _flat(items):
            if isinstance(item, Use):
                item = replace(item, ink=ink if item.ink == INK else item.ink)
                if _area(self._bounds[item.name]) > LARGEST_STAMP:
                    yield from self.opened(self._items[item.name], x + item.x, y + item.y, item.ink)
                    continue
            elif INK in (item.fill, item.stroke):
                fill, stroke = (ink if each == INK else each for each in (item.fill, item.stroke))
                item = replace(item, fill=fill, stroke=stroke)
            _, top, _, bottom = self._bounds_of(item)
            # the place of a use is rounded to a phase: a px of air at both ends
            place = (x + item.x, y + item.y) if isinstance(item, Use) else (x, y)
            yield _Placed(item, *place, y + top - 1, y + bottom + 1)

    def placed(self, name: str, x: float, y: float, ink: str) -> list[_Layer]:
        """The definition ``name`` with its origin at (x, y)."""
        (left, right), (top, down) = (divmod(round(n * PHASES), PHASES) for n in (x, y))
        return [layer.moved(left, top, ink) for layer in self._stamp(name, right, down)]

    def _stamp(self, name: str, right: int, down: int) -> tuple[_Layer, ...]:
        """The definition ``name`` with its origin so many 64ths right of and below that of a px."""
        key = (name, right, down)
        if key in self._made:
            self._made.move_to_end(key)
            return self._made[key]
        layers: list[_Layer] = []
        for item in self._definition(name):
            x, y = right / PHASES, down / PHASES
            if isinstance(item, Use):
                layers += self.placed(item.name, x + item.x, y + item.y, item.ink)
            else:
                layers += item.layers(x, y, EVERYWHERE)
        made = tuple(_united(layers))
        self._made[key] = made
        self._bytes += _size(made)
        while self._bytes > KEPT and len(self._made) > 1:
            self._bytes -= _size(self._made.popitem(last=False)[1])
        return made

    def _definition(self, name: str) -> tuple[_Shape | Use, ...]:
        if name not in self._definitions:
            items = _flat(self._items[name])
            self._definitions[name] = tuple(i if isinstance(i, Use) else _shape(i) for i in items)
        return self._definitions[name]

    def _bounds_of(self, item: Path | Use) -> _Bounds:
        if isinstance(item, Path):
            return _path_bounds(item)
        left, top, right, bottom = self._bounds[item.name]
        return left + item.x, top + item.y, right + item.x, bottom + item.y


def _flat(items: Iterable[Item]) -> Iterator[Path | Use]:
    """``items`` without groups, and with text as paths."""
    for item in items:
        match item:
            case Group():
                yield from _flat(item.items)
            case Text():
                yield Path(lettering.outlines(item), fill=item.colour)
            case _:
                yield item


def _shape(path: Path) -> _Shape:
    parts: list[tuple[Edges, str]] = []
    if path.fill:
        parts.append((fill_edges(path.steps), path.fill))
    if path.stroke:
        parts.append((stroke_edges(path), path.stroke))
    return _Shape(tuple(parts), path.opacity)


#: Left, top, right and bottom, in px.
_Bounds: TypeAlias = tuple[float, float, float, float]


def _path_bounds(path: Path) -> _Bounds:
    """Where ``path`` may leave ink (curves lie between their handles)."""
    xs = [x for step in path.steps for x in step[1::2]]
    ys = [y for step in path.steps for y in step[2::2]]
    if not xs:
        return (0, 0, 0, 0)
    reach = path.width / 2 if path.stroke else 0
    return min(xs) - reach, min(ys) - reach, max(xs) + reach, max(ys) + reach


def _union(bounds: Iterable[_Bounds]) -> _Bounds:
    lefts, tops, rights, bottoms = zip(*bounds, strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)


def _area(bounds: _Bounds) -> float:
    left, top, right, bottom = bounds
    return (right - left) * (bottom - top)


def _size(layers: Iterable[_Layer]) -> int:
    return sum(layer.mask.alpha.nbytes for layer in layers)


def _united(layers: list[_Layer]) -> Iterator[_Layer]:
    """``layers`` with neighbours of one ink made one: what the upper leaves free shows the lower."""
    for ink, neighbours in groupby(layers, lambda layer: layer.ink):
        run = list(neighbours)
        if len(run) == 1:
            yield run[0]
            continue
        frame = _frame(run)
        alpha = np.zeros((frame.bottom - frame.top, frame.right - frame.left), np.uint8)
        for layer in run:
            rows, columns = _slices(layer.window(), frame)
            part = alpha[rows, columns]
            part[:] = _share(part, 255 - layer.mask.alpha) + layer.mask.alpha
        yield _Layer(Mask(frame.left, frame.top, alpha), ink)


def _frame(layers: list[_Layer]) -> Window:
    """The smallest window around ``layers``."""
    lefts, tops, rights, bottoms = zip(*(layer.window() for layer in layers), strict=True)
    return Window(min(lefts), min(tops), max(rights), max(bottoms))


def _slices(window: Window, frame: Window) -> tuple[slice, slice]:
    """The rows and columns of ``window`` in an array that stands for ``frame``."""
    rows = slice(window.top - frame.top, window.bottom - frame.top)
    return rows, slice(window.left - frame.left, window.right - frame.left)


def _share(values: Alpha, of_255: Alpha) -> Alpha:
    """``values`` x ``of_255`` / 255, rounded."""
    product = values.astype(np.uint16) * of_255 + np.uint16(128)
    return ((product + (product >> 8)) >> 8).astype(np.uint8)


def _faded(layers: list[_Layer], opacity: float) -> list[_Layer]:
    """``layers`` (at most fill and stroke) seen through as one: the fill must not show through the stroke.

    Drawn one after the other, the stroke S at o S and the fill F at o F (1 - S) / (1 - o S) leave the ground
    exactly 1 - o (S + F (1 - S)), as the whole drawn at opacity o would.
    """
    if not layers:
        return []
    frame = _frame(layers)
    above = np.zeros((frame.bottom - frame.top, frame.right - frame.left))
    faded: list[_Layer] = []
    for layer in reversed(layers):
        alpha = np.zeros_like(above)
        alpha[_slices(layer.window(), frame)] = layer.mask.alpha / 255
        seen = opacity * alpha * (1 - above) / np.maximum(1 - opacity * above, 1e-9)
        mask = Mask(frame.left, frame.top, np.rint(seen * 255).astype(np.uint8))
        faded.insert(0, _Layer(mask, layer.ink))
        above = alpha
    return faded


def _channels(colour: str) -> tuple[int, int, int]:
    red, green, blue = bytes.fromhex(colour.removeprefix("#"))
    return red, green, blue


def _plain_rectangle(path: Path, x: float, y: float) -> Window | None:
    """The px that the filled ``path`` covers, if it is a rectangle of whole px and nothing more."""
    letters = "".join(step[0] for step in path.steps[:6])
    if letters != "MLLLZ" or path.stroke or path.opacity < 1:
        return None
    xs = [x + step[1] for step in path.steps[:4] if len(step) == 3]
    ys = [y + step[2] for step in path.steps[:4] if len(step) == 3]
    corners = set(zip(xs, ys, strict=True))
    upright = len(corners) == 4 and len(set(xs)) == len(set(ys)) == 2 and (xs[0] == xs[1]) != (ys[0] == ys[1])
    if not upright or not all(float(n).is_integer() for n in xs + ys):
        return None
    return Window(int(min(xs)), int(min(ys)), int(max(xs)), int(max(ys)))


def _clipped(window: Window, limits: Window) -> Window | None:
    left, top = max(window.left, limits.left), max(window.top, limits.top)
    right, bottom = min(window.right, limits.right), min(window.bottom, limits.bottom)
    return Window(left, top, right, bottom) if left < right and top < bottom else None


def _fill(planes: Planes, window: Window, rectangle: Window, colour: str) -> None:
    """Paints ``rectangle`` over ``planes``, which show ``window``."""
    if seen := _clipped(rectangle, window):
        rows, columns = _slices(seen, window)
        for plane, value in zip(planes, (*_channels(colour), 255), strict=False):
            plane[rows, columns] = value


def _blend(planes: Planes, window: Window, layer: _Layer) -> None:
    """Lays ``layer`` over ``planes``, which show ``window``."""
    seen = _clipped(layer.window(), window)
    if not seen:
        return
    alpha = layer.mask.alpha[_slices(seen, layer.window())].astype(np.uint16)
    free = 255 - alpha
    rows, columns = _slices(seen, window)
    for plane, value in zip(planes, (*_channels(layer.ink), 255), strict=False):
        part = plane[rows, columns]
        mixed = part * free + alpha * np.uint16(value) + np.uint16(128)
        mixed += mixed >> 8
        np.right_shift(mixed, 8, out=part, casting="unsafe")
