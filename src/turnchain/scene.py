"""The drawing vocabulary: what a chart is made of once every colour and place is settled.

In: nothing. Out: frozen shapes that the chart builds and the writers draw. Units are px of the picture,
x to the right and y downwards. Nothing in a scene is about crochet, and a writer
needs nothing but scenes.

Painting is in order: later items cover earlier ones. A *definition* is drawn in one ink and stated once; a
``Use`` places it, so that a symbol or a whole row costs its drawing only once in every kind of file.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Literal, TypeAlias, cast

from turnchain.numbers import rounded
from turnchain.records import frozen, replace

#: One step of an outline, absolute: ("M", x, y), ("L", x, y), ("C", x1, y1, x2, y2, x, y) or ("Z",).
Step: TypeAlias = tuple[str] | tuple[str, float, float] | tuple[str, float, float, float, float, float, float]
Steps: TypeAlias = tuple[Step, ...]

Weight: TypeAlias = Literal["regular", "semibold"]
Anchor: TypeAlias = Literal["start", "middle", "end"]

#: Called with the width of a picture and the height that it has at least, in px, before any of it is drawn; raises
#: MakerError where no file could hold it.
Fits: TypeAlias = Callable[[int, float], None]

#: Stands for the ink of the ``Use`` that places a definition.
INK = "ink"


@frozen
class Path:
    """An outline: filled (non-zero rule), stroked, or both; fill first, then stroke.

    ``fill`` and ``stroke`` are "#rrggbb", ``INK`` (inside a definition only) or None. Joins are round;
    ``cap`` holds for the ends of open strokes. ``dash`` is a tuple of px lengths, empty for a whole line.
    ``opacity`` from 0 to 1 holds for the item as a whole.
    """

    steps: Steps
    fill: str | None = None
    stroke: str | None = None
    width: float = 1.0
    cap: Literal["round", "butt"] = "round"
    dash: tuple[float, ...] = ()
    opacity: float = 1.0


@frozen
class Text:
    """One line of words, its baseline at (x, y), ``size`` px high (the em); turned about (x, y) by
    ``turn`` degrees clockwise. ``colour`` is "#rrggbb" or, inside a definition, ``INK``."""

    x: float
    y: float
    words: str
    size: float
    colour: str
    weight: Weight = "regular"
    anchor: Anchor = "start"
    turn: float = 0.0


@frozen
class Use:
    """Places the definition ``name`` with its origin at (x, y), drawn in ``ink`` ("#rrggbb", or ``INK``
    inside another definition)."""

    name: str
    x: float
    y: float
    ink: str


@frozen
class Group:
    """Items that belong together. ``name`` becomes the id in files that have ids (unique in a scene);
    ``words`` says what it shows, for readers of the file."""

    items: tuple[Item, ...]
    name: str = ""
    words: str = ""


Item: TypeAlias = Path | Text | Use | Group


@frozen
class Scene:
    """A finished picture of ``width`` x ``height`` whole px.

    ``definitions`` maps a name (letters, digits, hyphens; unique) to items about a local origin; they may use
    other definitions that stand earlier in the mapping. ``background`` is "#rrggbb" or None (transparent).
    ``title`` and ``words`` are its alt text, short and long, in ``language`` (BCP 47).
    """

    width: int
    height: int
    title: str
    words: str
    language: str
    definitions: dict[str, tuple[Item, ...]]
    items: tuple[Item, ...]
    background: str | None = "#ffffff"


def words_in(scene: Scene) -> Iterator[str]:
    """All words that ``scene`` shows, definitions first."""
    for items in (*scene.definitions.values(), scene.items):
        yield from (text.words for text in texts_in(items))


def texts_in(items: Iterable[Item]) -> Iterator[Text]:
    """The texts among ``items``, those of groups at their places."""
    for item in items:
        if isinstance(item, Group):
            yield from texts_in(item.items)
        elif isinstance(item, Text):
            yield item


def line(x1: float, y1: float, x2: float, y2: float) -> Steps:
    """The steps of one straight stroke."""
    return (("M", x1, y1), ("L", x2, y2))


def polyline(points: list[tuple[float, float]], closed: bool = False) -> Steps:
    """The steps through ``points`` (at least one) in order, as a closed polygon where ``closed``."""
    (x0, y0), *rest = points
    ends: Steps = (("Z",),) if closed else ()
    return (("M", x0, y0), *(("L", x, y) for x, y in rest), *ends)


def rectangle(x: float, y: float, width: float, height: float) -> Steps:
    """The steps of an upright rectangle with its top left corner at (x, y)."""
    return polyline([(x, y), (x + width, y), (x + width, y + height), (x, y + height)], closed=True)


def ruled(start: tuple[float, float], end: tuple[float, float], thick: float) -> Steps:
    """The steps of a level or upright line as a rectangle of whole px, to be filled: sharp on every screen, and one
    colour in a picture of few. It is ``thick`` px across, rounded, at least 1. A line that is neither is drawn upright
    at the x of ``start``."""
    across = max(1, round(thick))
    (x0, y0), (x1, y1) = ((round(x), round(y)) for x, y in (start, end))
    if y0 == y1:
        return rectangle(min(x0, x1), y0 - across // 2, max(1, abs(x1 - x0)), across)
    return rectangle(x0 - across // 2, min(y0, y1), across, max(1, abs(y1 - y0)))


#: With handles this share of a half axis long, four cubic curves are within 0.03 % of an ellipse.
ROUND = 4 / 3 * (2**0.5 - 1)


def ellipse(x: float, y: float, rx: float, ry: float) -> Steps:
    """The steps of an upright ellipse about (x, y) with half axes ``rx`` and ``ry``: four cubic curves, from the right
    end and clockwise as seen."""
    kx, ky = rx * ROUND, ry * ROUND
    return (
        ("M", x + rx, y),
        ("C", x + rx, y + ky, x + kx, y + ry, x, y + ry),
        ("C", x - kx, y + ry, x - rx, y + ky, x - rx, y),
        ("C", x - rx, y - ky, x - kx, y - ry, x, y - ry),
        ("C", x + kx, y - ry, x + rx, y - ky, x + rx, y),
        ("Z",),
    )


def arrow(tail: tuple[float, float], tip: tuple[float, float], barb: float) -> Steps:
    """The steps of an arrow from ``tail`` to ``tip``, which must differ, with two open barbs reaching ``barb`` px
    back."""
    length = ((tip[0] - tail[0]) ** 2 + (tip[1] - tail[1]) ** 2) ** 0.5
    dx, dy = (tip[0] - tail[0]) / length, (tip[1] - tail[1]) / length
    wings = [
        (rounded(tip[0] - dx * barb - side * dy * barb * 0.8), rounded(tip[1] - dy * barb + side * dx * barb * 0.8))
        for side in (-1, 1)
    ]
    shaft = [(rounded(x), rounded(y)) for x, y in (tail, tip)]
    return (*polyline(shaft), *polyline([wings[0], shaft[1], wings[1]]))


def flattened(scene: Scene) -> Scene:
    """The same picture without definitions: every use written out where it stands, for programs that cannot read
    uses."""
    items = tuple(_written_out(scene, item, 0.0, 0.0, INK) for item in scene.items)
    return replace(scene, definitions={}, items=items)


def _written_out(scene: Scene, item: Item, x: float, y: float, ink: str) -> Item:
    """``item`` moved by (``x``, ``y``) px, its uses as groups of what they show, in ``ink``."""
    match item:
        case Use():
            own = ink if item.ink == INK else item.ink
            inner = scene.definitions[item.name]
            return Group(tuple(_written_out(scene, one, x + item.x, y + item.y, own) for one in inner))
        case Group():
            return replace(item, items=tuple(_written_out(scene, one, x, y, ink) for one in item.items))
        case Text():
            colour = ink if item.colour == INK else item.colour
            return replace(item, x=rounded(item.x + x), y=rounded(item.y + y), colour=colour)
    fill, stroke = (ink if colour == INK else colour for colour in (item.fill, item.stroke))
    return replace(item, steps=_moved(item.steps, x, y), fill=fill, stroke=stroke)


def _moved(steps: Steps, x: float, y: float) -> Steps:
    """``steps`` moved by (``x``, ``y``)."""
    made: list[Step] = []
    for letter, *numbers in cast("tuple[tuple[str, *tuple[float, ...]], ...]", steps):
        places = (rounded(number + (y if index % 2 else x)) for index, number in enumerate(numbers))
        made.append(cast(Step, (letter, *places)))
    return tuple(made)


@frozen
class MovingPicture:
    """``scenes`` of one size shown one after the other, each for the ``seconds`` at its place, and then from the first
    again. ``words`` are the alt text of all of it."""

    scenes: tuple[Scene, ...]
    seconds: tuple[float, ...]
    words: str
