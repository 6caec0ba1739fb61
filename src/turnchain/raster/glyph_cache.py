"""Glyphs: whatever a scene draws more than once, as masks of coverage that are made once.

In: paths, texts and uses of definitions. Out: *layers*, masks in one ink each, at their place in the picture.
A glyph is made for a sub-pixel place (to 1/64 px) when first needed, put together from the glyphs of what
it uses, and kept while there is room; needed again whole px away, it is only moved. Paths and texts that are the
same but for whole px share a glyph as well: the rules and numbers of a chart are mostly alike.
"""

from __future__ import annotations

import math
from collections import OrderedDict
from collections.abc import Callable, Hashable, Iterable, Iterator
from functools import partial
from itertools import groupby
from typing import Any

from turnchain.raster.coverage import EVERYWHERE, Alpha, Mask, Window, cover
from turnchain.raster.edges import Edges, fill_edges, stroke_edges
from turnchain.raster.layers import Layer, Layers, Place, blank, faded, reach, strew, united
from turnchain.raster.words import text_edges, text_pieces
from turnchain.records import frozen, replace
from turnchain.scene import INK, Group, Item, Path, Step, Text, Use

#: Glyphs are made for places on a grid this fine, per px.
PHASES = 64
#: Bytes of glyphs kept at a time; those not used for longest are dropped, and made again if need be.
MOST_BYTES = 3 << 20


@frozen(eq=False)
class Shape:
    """A path made ready: the edges of fill and stroke (those it has) about its own origin, each with its ink, "#rrggbb"
    or ``INK``; and its ``opacity``, 0 to 1."""

    parts: tuple[tuple[Edges, str], ...]
    opacity: float

    @classmethod
    def of(cls, path: Path) -> Shape:
        """The shape of ``path``. ValueError for a place that is no number."""
        parts: list[tuple[Edges, str]] = []
        if path.fill:
            parts.append((fill_edges(path.steps), path.fill))
        if path.stroke:
            parts.append((stroke_edges(path), path.stroke))
        return cls(tuple(parts), path.opacity)

    def layers(self, x: float, y: float, window: Window) -> list[Layer]:
        """What is to be seen in ``window`` of the shape moved by (x, y) px, fill first; none where nothing is."""
        masks = [(cover(edges, window, x, y), ink) for edges, ink in self.parts]
        layers = [Layer(mask, ink) for mask, ink in masks if mask]
        return layers if self.opacity == 1 else faded(layers, self.opacity)


class BoundedCache:
    """The glyphs used last, within ``most`` bytes (``MOST_BYTES`` unless it is given); the last one is kept however
    large it is. What each definition is made of has a number here, so that definitions alike share their glyphs, in
    whatever picture and under whatever name they stand."""

    def __init__(self, most: int | None = None) -> None:
        self._most, self._bytes = MOST_BYTES if most is None else most, 0
        self._made: OrderedDict[Hashable, Layers] = OrderedDict()
        self._numbers: dict[Hashable, int] = {}

    def number(self, content: Hashable) -> int:
        """The number of what is made of ``content``: from 0, the same for equal content in this cache."""
        return self._numbers.setdefault(content, len(self._numbers))

    def get(self, key: Hashable, make: Callable[[], Layers]) -> Layers:
        """The glyph ``key``, made by ``make`` if it is not there."""
        if key in self._made:
            self._made.move_to_end(key)
            return self._made[key]
        made = self._made[key] = make()
        self._bytes += _size(made)
        while self._bytes > self._most and len(self._made) > 1:
            self._bytes -= _size(self._made.popitem(last=False)[1])
        return made

    def __contains__(self, key: Hashable) -> bool:
        return key in self._made

    @property
    def size(self) -> int:
        """How many bytes of coverage are kept."""
        return self._bytes


@frozen(eq=False)
class PlacedGlyph:
    """A glyph at its place: ``key`` differs from that of any other glyph, ``make`` makes it about its own origin, which
    comes to lie ``left`` and ``top`` px into the picture; ``ink`` is that of its parts in ``INK``."""

    key: Hashable
    make: Callable[[], Layers]
    left: int
    top: int
    ink: str


class GlyphCache:
    """The glyphs of a scene's ``definitions`` (by name), paths and texts. ``finish`` turns coverage from 0 to 255 into
    what a canvas lays down (see ``canvas.levelled``; None leaves it as it is). What only goes into other glyphs stays
    coverage, and is kept in ``parts``, which several pictures may share."""

    def __init__(
        self,
        definitions: dict[str, tuple[Item, ...]],
        finish: Callable[[Alpha], Alpha] | None = None,
        parts: BoundedCache | None = None,
    ):
        self._items, self._finish = definitions, finish
        self._numbers: dict[str, int] = {}
        self._definitions: dict[str, tuple[Shape | Use | Text, ...]] = {}
        self._all_ink: dict[str, bool] = {}
        self._parts, self._whole = parts or BoundedCache(), BoundedCache()

    @property
    def size(self) -> int:
        """How many bytes of coverage are kept: of ``parts`` and of what is finished for this picture."""
        return self._parts.size + self._whole.size

    def layers(self, placed: PlacedGlyph) -> list[Layer]:
        """What ``placed`` shows, finished and at its place in the picture, in the order of painting."""
        made = self._whole.get(placed.key, lambda: self.finished(placed.make()))
        return [layer.moved(placed.left, placed.top, placed.ink) for layer in made]

    def use(self, use: Use, x: float, y: float) -> PlacedGlyph:
        """``use`` moved by (x, y) px, to the nearest 64th of a px. KeyError, when it is made, for a definition that is
        not there."""
        left, top, right, down = _phased(x + use.x, y + use.y)
        return PlacedGlyph(
            (use.name, right, down),
            lambda: self._definition_glyph(use.name, right, down),
            left,
            top,
            use.ink,
        )

    def path(self, path: Path, x: float, y: float) -> PlacedGlyph:
        """``path`` moved by (x, y) px, not rounded to 64ths. ValueError for a place that is nan, OverflowError for an
        endless one, where it begins."""
        first = next((step[1:] for step in path.steps if len(step) == 3), (0.0, 0.0))
        left, top = math.floor(first[0] + x), math.floor(first[1] + y)
        local = replace(path, steps=tuple(_moved(step, x - left, y - top) for step in path.steps))
        return PlacedGlyph(local, lambda: self._coats(local), left, top, INK)

    def _coats(self, path: Path) -> Layers:
        """Fill and stroke of ``path``, each put together from what was made for its like in any colour."""
        layers: list[Layer] = []
        for ink, bare in _bare_coats(path):
            made = self._parts.get(bare, partial(_covered, _only_edges, bare))
            layers += [layer.moved(0, 0, ink) for layer in made]
        return tuple(united(layers if path.opacity == 1 else faded(layers, path.opacity)))

    def text(self, text: Text, x: float, y: float) -> PlacedGlyph:
        """``text`` moved by (x, y) px, to the nearest 64th of a px."""
        left, top, right, down = _phased(x + text.x, y + text.y)
        local = replace(text, x=right / PHASES, y=down / PHASES, colour=INK)
        return PlacedGlyph(local, lambda: self._words(local), left, top, text.colour)

    def finished(self, layers: Layers) -> Layers:
        """``layers``, whose masks are coverage from 0 to 255, as a canvas lays them down."""
        if self._finish is None:
            return layers
        finish = self._finish
        return tuple(Layer(Mask.over(layer.window(), finish(layer.mask.alpha)), layer.ink) for layer in layers)

    def _words(self, text: Text) -> Layers:
        """``text`` in ``INK``, put together from pieces that need little room."""
        layers: list[Layer] = []
        for piece in text_pieces(text):
            left, top, local = _at_phase(piece)
            made = self._parts.get(local, partial(_covered, text_edges, local))
            layers += [layer.moved(left, top, INK) for layer in made]
        return tuple(united(layers))

    def _definition_glyph(self, name: str, right: int, down: int) -> Layers:
        """The definition ``name`` with its origin so many 64ths right of and below that of a px."""
        key = (self._number(name), right, down)
        return self._parts.get(key, lambda: self._composed(name, right / PHASES, down / PHASES))

    def _number(self, name: str) -> int:
        """The number of what the definition ``name`` is made of, down to the last line."""
        if name not in self._numbers:
            content = tuple(
                (self._number(item.name), item.x, item.y, item.ink) if isinstance(item, Use) else item
                for item in flat(self._items[name])
            )
            self._numbers[name] = self._parts.number(content)
        return self._numbers[name]

    def _composed(self, name: str, x: float, y: float) -> Layers:
        layers: list[Layer] = []
        # a run of uses in nothing but the ink of the whole may be laid in any order, many at a time
        for plain, items in groupby(self._definition(name), self._is_all_ink):
            if plain:
                layers += self._together(items, x, y)  # type: ignore[arg-type]
            else:
                layers += [layer for item in items for layer in self._part(item, x, y)]
        return tuple(united(layers))

    def _part(self, item: Shape | Use | Text, x: float, y: float) -> list[Layer]:
        if isinstance(item, Shape):
            return item.layers(x, y, EVERYWHERE)
        placed = self.use(item, x, y) if isinstance(item, Use) else self.text(item, x, y)
        return [layer.moved(placed.left, placed.top, placed.ink) for layer in placed.make()]

    def _is_all_ink(self, item: Shape | Use | Text) -> bool:
        """Whether ``item`` is a use that shows nothing but the ink of the whole."""
        if not isinstance(item, Use) or item.ink != INK:
            return False
        if item.name not in self._all_ink:
            self._all_ink[item.name] = all(
                all(ink == INK for _, ink in part.parts) if isinstance(part, Shape) else self._is_all_ink(part)
                for part in self._definition(item.name)
            )
        return self._all_ink[item.name]

    def _together(self, uses: Iterable[Use], x: float, y: float) -> list[Layer]:
        """``uses``, all in the ink of the whole, as one layer."""
        by_name: dict[str, list[tuple[float, float]]] = {}
        for use in uses:
            by_name.setdefault(use.name, []).append((use.x, use.y))
        strewn = [
            (layer, at)
            for name, places in by_name.items()
            for right, down, at in _by_phase(places, x, y)
            for layer in self._definition_glyph(name, right, down)
        ]
        if not strewn:
            return []
        lefts, tops, rights, bottoms = zip(*(reach(*each) for each in strewn), strict=True)
        frame = Window(min(lefts), min(tops), max(rights), max(bottoms))
        alpha = blank(frame)
        for layer, at in strewn:
            strew(alpha, frame, layer.mask, at)
        return [Layer(Mask.over(frame, alpha), INK)]

    def _definition(self, name: str) -> tuple[Shape | Use | Text, ...]:
        if name not in self._definitions:
            items = flat(self._items[name])
            self._definitions[name] = tuple(Shape.of(i) if isinstance(i, Path) else i for i in items)
        return self._definitions[name]


def flat(items: Iterable[Item]) -> Iterator[Path | Text | Use]:
    """``items`` in the order of painting, with what is in groups in place of the groups."""
    for item in items:
        if isinstance(item, Group):
            yield from flat(item.items)
        else:
            yield item


def _bare_coats(path: Path) -> Iterator[tuple[str, Path]]:
    """Fill and stroke of ``path``, those it has: the ink of each, and a path of that coat alone, in ``INK``."""
    if path.fill:
        yield path.fill, replace(path, fill=INK, stroke=None, opacity=1)
    if path.stroke:
        yield path.stroke, replace(path, fill=None, stroke=INK, opacity=1)


def _only_edges(path: Path) -> Edges:
    """The edges of ``path``, which has one coat."""
    return Shape.of(path).parts[0][0]


def _covered(edges_of: Callable[[Any], Edges], item: Path | Text) -> Layers:
    """``item``, whose edges ``edges_of`` gives, as a mask in ``INK``; none where it covers nothing."""
    mask = cover(edges_of(item), EVERYWHERE)
    return (Layer(mask, INK),) if mask else ()


def _at_phase(text: Text) -> tuple[int, int, Text]:
    """The whole px of ``text``, and the same words that much farther left and up."""
    left, top, right, down = _phased(text.x, text.y)
    return left, top, replace(text, x=right / PHASES, y=down / PHASES)


def _phased(x: float, y: float) -> tuple[int, int, int, int]:
    """The whole px of a place, right and down, and how many 64ths lie beyond."""
    across, along = round(x * PHASES), round(y * PHASES)
    return across // PHASES, along // PHASES, across % PHASES, along % PHASES


def _by_phase(places: list[tuple[float, float]], x: float, y: float) -> Iterator[tuple[int, int, list[Place]]]:
    """``places``, moved by (x, y), phase after phase: how many 64ths right and down, and the whole px of each."""
    found: dict[tuple[int, int], list[Place]] = {}
    for right, down in places:
        left, top, *phase = _phased(right + x, down + y)
        found.setdefault((phase[0], phase[1]), []).append((left, top))
    for right, down in sorted(found):
        yield right, down, found[right, down]


def _moved(step: Step, x: float, y: float) -> Step:
    # rounded, so that a shape some whole px on is the same shape
    numbers = (round(n + (y if index % 2 else x), 6) for index, n in enumerate(step[1:]))
    return (step[0], *numbers)  # type: ignore[return-value]


def _size(layers: Iterable[Layer]) -> int:
    return sum(len(layer.mask.alpha) for layer in layers)
