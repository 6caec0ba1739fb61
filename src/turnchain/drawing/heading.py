"""The heading of a picture, alike in all: what it belongs to, what it is, and the facts, with an arrow at the right.

In: words and a place. Out: scene items and how far down they reach.
"""

from __future__ import annotations

from turnchain.drawing.sheet import WHOLE
from turnchain.lettering.measuring import measure, wrapped
from turnchain.numbers import rounded
from turnchain.records import frozen
from turnchain.scene import Group, Item, Path, Text, Weight, arrow
from turnchain.style import Theme

#: Sizes of the line over the title, the title, and the facts, over the words of the page; and of a picture to post.
SIZES, OF_POST = (1.1, 1.93, 1.1), (0.985, 1.45, 0.985)
LEADING, LEADING_OF_POST = 1.3, 1.24  # from line to line, over the size of each
DOT = "  ·  "  # between facts
ARROW = 1.15  # half its length, the same


@frozen
class PictureHeading:
    """What stands above a drawing: ``over`` the ``title`` in a fainter line, ``facts`` below. ``credit`` stands at the
    right of the first line; ``arrow``: words and the way (dx, dy; a unit vector, y downwards) an arrow points, at the
    right of the title. What is empty or None is left out."""

    over: str
    title: str
    facts: str = ""
    credit: str = ""
    arrow: tuple[str, tuple[float, float]] | None = None


@frozen
class HeadingPlace:
    """Where a heading stands: from (``left``, ``top``), ``width`` px wide. ``words`` is the px of the em of the words
    of the page, of which the sizes of a heading are multiples."""

    left: float
    top: float
    width: float
    words: float
    theme: Theme


def of_page(heading: PictureHeading, width: float, theme: Theme, margin: float) -> tuple[list[Item], float]:
    """The items of the heading of a whole page ``width`` px wide, and the y, in px, from which the drawing may stand;
    ``margin`` in px at the reference width."""
    unit = width / WHOLE.reference
    words = WHOLE.words * unit
    place = HeadingPlace(margin * unit, margin * unit - 0.4 * words, width - 2 * margin * unit, words, theme)
    items, y = drawn(heading, place)
    return items, y + 0.9 * words


def drawn(heading: PictureHeading, place: HeadingPlace, post: bool = False) -> tuple[list[Item], float]:
    """The items of the heading, and the y of its foot in px; ``post``: in the smaller sizes of a picture to post."""
    words = place.words
    over, title, facts = (size * words for size in (OF_POST if post else SIZES))
    lines = _Lines(place, LEADING_OF_POST if post else LEADING)
    credit = measure(heading.credit, over) + 1.5 * words if heading.credit else 0.0
    beside = bool(credit) and measure(heading.over, over) + credit <= place.width
    lines.put(heading.over, over, place.theme.soft)
    if beside:
        lines.right(heading.credit, over)
    elif credit:
        lines.put(heading.credit, over, place.theme.soft)
    pointed = _arrow_width(heading, words)
    room = place.width - (pointed if pointed + measure(heading.title, title, "semibold") <= place.width else 0.0)
    lines.put(heading.title, title, place.theme.ink, "semibold", room, leading=1.14)
    arrow_at = lines.y - 0.36 * title
    fits = room < place.width
    if heading.facts:
        room = place.width - (2 * ARROW + 0.8) * words * fits
        for line in fact_lines(heading.facts, room, facts):
            lines.put(line, facts, place.theme.soft, room=room)
    if heading.arrow and not fits:
        lines.y += 1.9 * words
        arrow_at = lines.y - 0.6 * words
    items = [Group(tuple(lines.items), "header")]
    if heading.arrow:
        items.append(_arrow(heading.arrow, place, arrow_at, at_right=fits))
    return [*items], lines.y + 0.3 * words


def fact_lines(facts: str, room: float, size: float) -> list[str]:
    """``facts``, with a ``DOT`` between each two on a line, in lines no wider than ``room`` px: as many on a line as
    fit, each fact whole."""
    first, *more = facts.split(DOT)
    lines = [first]
    for fact in more:
        longer = f"{lines[-1]}{DOT}{fact}"
        if measure(longer, size) <= room:
            lines[-1] = longer
        else:
            lines.append(fact)
    return lines


def _arrow_width(heading: PictureHeading, words: float) -> float:
    return 0.0 if heading.arrow is None else measure(heading.arrow[0], words) + (2 * ARROW + 2.6) * words


def _arrow(pointed: tuple[str, tuple[float, float]], place: HeadingPlace, y: float, at_right: bool) -> Group:
    """The words and the arrow, at the right end of the heading or, below it, at the left."""
    said, (dx, dy) = pointed
    size, reach = place.words, ARROW * place.words
    label = measure(said, size)
    x = place.left + (place.width - reach if at_right else label + 0.9 * size + reach)
    tip, tail = (x + dx * reach, y + dy * reach), (x - dx * reach, y - dy * reach)
    thick = rounded(0.105 * size)
    shaft = Path(arrow(tail, tip, 0.5 * size), stroke=place.theme.ink, width=thick)
    at = rounded(x - reach - 0.8 * size)
    text = Text(at, rounded(y + 0.34 * size), said, rounded(size), place.theme.soft, anchor="end")
    return Group((shaft, text), "this-way-up", said)


class _Lines:
    """Lines of words, one below the other."""

    def __init__(self, place: HeadingPlace, leading: float) -> None:
        self.place, self.y, self.leading = place, place.top, leading
        self.items: list[Item] = []

    def put(
        self, words: str, size: float, colour: str, weight: Weight = "regular", room: float | None = None,
        leading: float | None = None,
    ) -> None:
        """``words`` in as many lines as they need in the ``room``."""
        for line in wrapped(words, room or self.place.width, size, weight) if words else ():
            self.y += (leading or self.leading) * size
            at = rounded(self.place.left), rounded(self.y - 0.28 * size)
            self.items.append(Text(*at, line, rounded(size), colour, weight))

    def right(self, words: str, size: float) -> None:
        """``words`` at the right end of the last line."""
        x, y = rounded(self.place.left + self.place.width), rounded(self.y - 0.28 * size)
        self.items.append(Text(x, y, words, rounded(size), self.place.theme.soft, anchor="end"))
