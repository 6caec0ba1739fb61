"""Scenes as px, in bands, so that memory does not grow with the height.

In: a scene. Out: a ``Raster``: the bands of its picture from the top. While 256 colours are enough for every ink on
every ground in 16 steps or more (see ``palette``), the picture is indexed: a byte for each px. Beyond that it is RGB,
8 bits per channel. Without a background both are transparent where nothing is painted.

The scene becomes a flat list of rectangles, cached glyphs (see ``glyph_cache``) and paths too large to be cached, each
with its upper and lower end; a band paints those that meet it, in order, on its canvas (see ``canvas``). A row of
stitches is one glyph, drawn once however often it is worked.

All text is outlines of the shipped fonts, so that no renderer's font can move a label; a character that they
lack is the font's box for such (see ``lettering.measuring``).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from typing import TypeAlias

from turnchain.raster import limits
from turnchain.raster.bounds import Bounds, Extents
from turnchain.raster.canvas import Canvas, Full, Indexed, levelled
from turnchain.raster.coverage import Window
from turnchain.raster.glyph_cache import BoundedCache, GlyphCache, PlacedGlyph, Shape, flat
from turnchain.raster.palette import PaintedArea, Palette, chosen
from turnchain.raster.repeats import Reach, Repeats
from turnchain.records import frozen, replace
from turnchain.scene import INK, Item, Path, Scene, Text, Use, polyline
from turnchain.terminal import progress

#: About how many bytes a band holds.
BAND = 1 << 21
#: A definition of more px than this is drawn item by item instead of cached.
LARGEST_GLYPH = 1 << 22
#: A path of more px than this is drawn anew for each band, so many px at a time, instead of cached: to compute
#: what it covers may take twenty bytes for each.
LARGEST_SHAPE = 1 << 18
#: A higher one (px) as well: its outline crosses so many lines of px.
HIGHEST_SHAPE = 1 << 9


class Raster:
    """A scene made ready to be painted: ``width`` and ``height`` in px; ``palette`` where its colours are numbered,
    None where the picture is RGB; ``opaque``: it has a background. Pictures of one run may share ``glyphs``; where one
    item is to have the same px in all of them, they are not ``numbered``. MakerError for more than
    ``limits.MOST_PX``."""

    def __init__(self, scene: Scene, glyphs: BoundedCache | None = None, numbered: bool = True) -> None:
        limits.PNG.check(scene.width, scene.height)
        self.width, self.height, self.opaque = scene.width, scene.height, scene.background is not None
        self._glyphs = glyphs
        self._scene, self._extents = scene, Extents(scene.definitions)
        self._items = list(_opened(scene.definitions, self._extents, scene.items))
        self.palette = chosen(scene.background, _painted(scene, self._items)) if numbered else None

    def bands(self) -> Iterator[Canvas]:
        """The picture, band by band from the top, each as wide as the picture and of about ``BAND`` bytes. A canvas is
        made for each, so that one may be kept while the next is painted. ValueError or OverflowError for a place that
        is no finite number."""
        return _bands(self._scene, self.palette, self._extents, self._items, self._glyphs)


@frozen
class _Opened:
    """A path, text or use with its inks settled, moved by (x, y), where it lies in the picture; ``rectangle``: the px
    that it fills, if these are a rectangle of whole px and no more."""

    item: Path | Text | Use
    x: float
    y: float
    bounds: Bounds
    rectangle: Window | None = None


def _opened(
    definitions: dict[str, tuple[Item, ...]],
    extents: Extents,
    items: Iterable[Item],
    x: float = 0,
    y: float = 0,
    ink: str = INK,
) -> Iterator[_Opened]:
    """``items`` in a flat row: definitions too large to be cached taken apart, and bands of stripes into the
    rectangle in their middle and what is left at their sides."""
    for item in flat(items):
        settled = _inked(item, ink)
        if isinstance(settled, Use) and extents.definition(settled.name).area() > LARGEST_GLYPH:
            inside = definitions[settled.name]
            yield from _opened(definitions, extents, inside, x + settled.x, y + settled.y, settled.ink)
        elif isinstance(settled, Path) and (corners := _corners(settled, x, y)):
            for path in _split(settled, corners, x, y):
                rectangle = _rectangle(path, x, y)
                yield _Opened(path, x, y, extents.of(path).moved(x, y), rectangle)
        else:
            yield _Opened(settled, x, y, extents.of(settled).moved(x, y))


def _inked(item: Path | Text | Use, ink: str) -> Path | Text | Use:
    """``item`` with ``ink`` where its own is ``INK``."""
    match item:
        case Use():
            return replace(item, ink=ink) if item.ink == INK else item
        case Text():
            return replace(item, colour=ink) if item.colour == INK else item
        case Path() if INK in (item.fill, item.stroke):
            fill, stroke = (ink if each == INK else each for each in (item.fill, item.stroke))
            return replace(item, fill=fill, stroke=stroke)
    return item


def _painted(scene: Scene, items: Iterable[_Opened]) -> Iterator[PaintedArea]:
    """What ``items`` paint on what, for the palette."""
    inks: dict[str, set[str]] = {}
    for name, parts in scene.definitions.items():
        # a row uses few definitions, but each of them often
        distinct = {(p.name, p.ink) if isinstance(p, Use) else id(p): p for p in flat(parts)}
        inks[name] = {colour for part in distinct.values() for colour in _colours(part, inks)}
    for opened in items:
        item, bounds, exact = opened.item, opened.bounds, opened.rectangle is not None
        for colour in sorted(_colours(item, inks)):
            area = isinstance(item, Path) and item.fill == colour
            faint = isinstance(item, Path) and item.opacity < 1
            yield PaintedArea(colour, bounds, area and not faint, not exact, area and faint)


def _colours(item: Path | Text | Use, inks: dict[str, set[str]]) -> set[str]:
    """The colours of ``item``, given those of definitions."""
    match item:
        case Path():
            return {colour for colour in (item.fill, item.stroke) if colour}
        case Text():
            return {item.colour}
        case Use():
            return {item.ink if colour == INK else colour for colour in inks[item.name]}


def _bands(
    scene: Scene, palette: Palette | None, extents: Extents, items: list[_Opened], glyphs: BoundedCache | None
) -> Iterator[Canvas]:
    """The picture, band by band from the top."""
    cache = GlyphCache(scene.definitions, levelled(palette.levels) if palette else None, glyphs)
    painters = [_painter(opened, cache, extents) for opened in items]
    limits = [opened.bounds for opened in items]
    # the place of a glyph is rounded: a px more at both ends
    spans = [(each.top - 1, each.bottom + 1) for each in limits]
    height = max(1, BAND // ((1 if palette else 4) * scene.width))
    repeats = Repeats()
    for top in range(0, scene.height, height):
        if height < scene.height:
            progress("lines of the picture", top, scene.height)
        window = Window(0, top, scene.width, min(top + height, scene.height))
        canvas: Canvas = Indexed(palette, window) if palette else Full(scene.background, window)
        met = [index for index, (first, last) in enumerate(spans) if first < window.bottom and last > top]
        shown = repeats.lines([_reach(painters[index], limits[index]) for index in met], top, window.bottom)
        parts = [slice(0, window.bottom - top)] if shown is None else repeats.parts(shown)
        for lines in parts:
            part = Window(window.left, top + lines.start, window.right, top + lines.stop)
            canvas.keep_to(part)
            for index in met:
                first, last = spans[index]
                if first < part.bottom and last > part.top:
                    painters[index](canvas, part)
        if shown is not None:
            repeats.copy(shown, parts, canvas.rows)
        yield canvas
        del canvas


def _reach(painter: _Painter, limits: Bounds) -> Reach:
    """What ``painter`` paints, for the search of lines alike."""
    top, bottom = math.floor(limits.top) - 1, math.ceil(limits.bottom) + 1
    if isinstance(painter, _Cached):
        placed = painter.placed
        return Reach((placed.key, placed.left, placed.ink), placed.top, top, bottom)
    if isinstance(painter, _Filled):
        area = painter.rectangle
        return Reach((area.left, area.right, painter.colour), None, area.top, area.bottom)
    return Reach(id(painter), 0, top, bottom)


#: Paints one thing on a band's canvas.
_Painter: TypeAlias = Callable[[Canvas, Window], None]


def _painter(opened: _Opened, cache: GlyphCache, extents: Extents) -> _Painter:
    item, x, y = opened.item, opened.x, opened.y
    match item:
        case Use():
            return _Cached(cache, cache.use(item, x, y))
        case Text():
            return _Cached(cache, cache.text(item, x, y))
        case Path():
            if item.fill and opened.rectangle:
                return _Filled(opened.rectangle, item.fill)
            bounds = extents.of(item)
            if bounds.area() <= LARGEST_SHAPE and bounds.bottom - bounds.top <= HIGHEST_SHAPE:
                return _Cached(cache, cache.path(item, x, y))
            return _drawn(cache, item, x, y, opened.bounds)


class _Filled:
    """Paints a rectangle of whole px."""

    def __init__(self, rectangle: Window, colour: str) -> None:
        self.rectangle, self.colour = rectangle, colour

    def __call__(self, canvas: Canvas, _: Window) -> None:
        """On the band's canvas."""
        canvas.fill(self.rectangle, self.colour)


class _Cached:
    """Paints a glyph at its place."""

    def __init__(self, cache: GlyphCache, placed: PlacedGlyph) -> None:
        self._cache, self.placed = cache, placed

    def __call__(self, canvas: Canvas, _: Window) -> None:
        """On the band's canvas."""
        for layer in self._cache.layers(self.placed):
            canvas.lay(layer)


def _drawn(cache: GlyphCache, path: Path, x: float, y: float, bounds: Bounds) -> _Painter:
    """Draws so much of ``path`` as a band shows; its shape is kept from band to band."""
    shapes: list[Shape] = []
    lines = max(1, min(HIGHEST_SHAPE, LARGEST_SHAPE // math.ceil(bounds.right - bounds.left + 1)))

    def paint(canvas: Canvas, window: Window) -> None:
        shape = shapes.pop() if shapes else Shape.of(path)
        top, bottom = max(window.top, math.floor(bounds.top)), min(window.bottom, math.ceil(bounds.bottom))
        for start in range(top, bottom, lines):
            part = Window(window.left, start, window.right, min(start + lines, bottom))
            for layer in cache.finished(tuple(shape.layers(x, y, part))):
                canvas.lay(layer)
        if bounds.bottom > window.bottom:
            shapes.append(shape)

    return paint


def _rectangle(path: Path, x: float, y: float) -> Window | None:
    """The px that the filled ``path``, moved by (x, y), covers, if it is a rectangle of whole px and no more."""
    corners = _corners(path, x, y)
    if not corners or not all(float(number).is_integer() for corner in corners for number in corner):
        return None
    xs, ys = zip(*corners, strict=True)
    upright = len(set(corners)) == 4 and len(set(xs)) == len(set(ys)) == 2 and (xs[0] == xs[1]) != (ys[0] == ys[1])
    return Window(int(min(xs)), int(min(ys)), int(max(xs)), int(max(ys))) if upright else None


def _split(path: Path, corners: list[tuple[float, float]], x: float, y: float) -> list[Path]:
    """``path``, whose corners lie there once it is moved by (x, y), as one or more that together look the same: a
    stripe with slanted sides becomes the large rectangle of whole px inside it, which takes next to no time to paint,
    and its two ends."""
    if not all(float(down).is_integer() for _, down in corners):
        return [path]
    (a, top_a), (b, top_b), (c, top_c), (d, top_d) = corners
    if not (top_a == top_d != top_b == top_c and (a < d) == (b < c)):
        return [path]
    (left, left_too), (right, right_too) = sorted([(a, b), (d, c)])
    start, stop = math.ceil(max(left, left_too)), math.floor(min(right, right_too))
    if stop <= start:
        return [path]
    pieces = [
        polyline([(side - x, top_a - y), (side_too - x, top_b - y), (cut - x, top_b - y), (cut - x, top_a - y)], True)
        for side, side_too, cut in ((left, left_too, start), (stop, stop, start), (right, right_too, stop))
    ]
    return [replace(path, steps=steps) for steps in pieces]


def _corners(path: Path, x: float, y: float) -> list[tuple[float, float]]:
    """The corners of ``path``, moved by (x, y), if it is a filled opaque quadrangle without a stroke."""
    if not path.fill or path.stroke or path.opacity < 1 or len(path.steps) != 5:
        return []
    if "".join(step[0] for step in path.steps) != "MLLLZ":
        return []
    return [(x + step[1], y + step[2]) for step in path.steps if len(step) == 3]
