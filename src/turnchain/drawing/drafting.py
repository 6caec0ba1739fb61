"""Lines and letters of a technical drawing: dimension arrows, edge names, seam letters, chains.

In: places in px of a picture 1600 px wide, y downwards. Out: scene items in the colours of ``style``.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import TypeAlias

from turnchain import style
from turnchain.lettering.measuring import measure
from turnchain.numbers import rounded
from turnchain.scene import Anchor, Item, Path, Step, Steps, Text, Weight, line, polyline, rectangle

Px: TypeAlias = tuple[float, float]

# In px:
NAME, FIGURE = 16.0, 20.0  # em of a measure's name and of its figure
HEAD_LONG, HEAD_WIDE = 11.0, 3.6  # an arrow head from tip to back, and half of it across
LEADING = 1.24  # from line to line, of the em
BADGE = 14.0  # radius of the disc of a seam's letter
INK, SOFT, ACCENT = style.LIGHT.ink, style.LIGHT.soft, style.LIGHT.accent
PAPER = style.LIGHT.paper
LINE = 1.5  # breadth of a dimension's line


def words(
    at: Px, said: str, size: float, colour: str = INK, weight: Weight = "regular", anchor: Anchor = "start"
) -> Text:
    """One line of words, ``at`` their baseline, ``size`` px to the em."""
    return Text(rounded(at[0]), rounded(at[1]), said, size, colour, weight, anchor)


def arrow_line(one: Px, other: Px) -> list[Item]:
    """A line from ``one`` to ``other`` with a solid head at both ends; where it is too short for them (less than three
    heads), the heads point at it from outside. Where both are one place, as for a neck that is a slit, it lies
    level."""
    long = math.dist(one, other)
    way = ((other[0] - one[0]) / long, (other[1] - one[1]) / long) if long else (1.0, 0.0)
    inside = long >= 3 * HEAD_LONG
    reach = 0.0 if inside else 2.2 * HEAD_LONG
    ends = [(one[0] - way[0] * reach, one[1] - way[1] * reach), (other[0] + way[0] * reach, other[1] + way[1] * reach)]
    sign = 1.0 if inside else -1.0
    return [
        Path(_line(*ends), stroke=INK, width=LINE, cap="butt"),
        _head(one, (-way[0] * sign, -way[1] * sign)),
        _head(other, (way[0] * sign, way[1] * sign)),
    ]


def _head(tip: Px, way: Px) -> Path:
    """A solid arrow head whose ``tip`` points along ``way``."""
    back = (tip[0] - way[0] * HEAD_LONG, tip[1] - way[1] * HEAD_LONG)
    aside = (-way[1] * HEAD_WIDE, way[0] * HEAD_WIDE)
    corners = [tip, (back[0] + aside[0], back[1] + aside[1]), (back[0] - aside[0], back[1] - aside[1])]
    return Path(polyline([_rounded(corner) for corner in corners], closed=True), fill=INK)


def hair(one: Px, other: Px, dash: tuple[float, ...] = ()) -> Path:
    """A thin line that leads from a drawing to its dimension; ``dash`` in px, empty for a whole line."""
    return Path(_line(one, other), stroke=SOFT, width=0.9, cap="butt", dash=dash)


def tick(at: Px, outwards: Px, far: float = 7.0) -> Path:
    """A short stroke across an edge, 7 px into the piece and ``far`` px out of it; ``outwards`` is a unit vector."""
    one = (at[0] - outwards[0] * 7, at[1] - outwards[1] * 7)
    return Path(_line(one, (at[0] + outwards[0] * far, at[1] + outwards[1] * far)), stroke=INK, width=2.0, cap="butt")


def _line(one: Px, other: Px) -> Steps:
    return line(rounded(one[0]), rounded(one[1]), rounded(other[0]), rounded(other[1]))


def _rounded(point: Px) -> Px:
    return rounded(point[0]), rounded(point[1])


def label_width(name: str, figure: str) -> float:
    """The px across of a ``label``: of its wider line."""
    return max(measure(name, NAME), measure(figure, FIGURE, "semibold"))


LABEL_HEIGHT = (NAME + FIGURE) * LEADING


def label(at: Px, name: str, figure: str, anchor: Anchor, plate: bool = False) -> list[Item]:
    """A measure's name over its figure, ``LABEL_HEIGHT`` px high; ``at`` is the top of its middle or, as
    ``anchor`` has it, of its left or right side. A ``plate`` of paper keeps lines under it from running through the
    words."""
    x, y = at
    items: list[Item] = []
    if plate:
        wide = label_width(name, figure) + 14
        left = x - {"start": 7.0, "middle": wide / 2, "end": wide - 7.0}[anchor]
        box = rectangle(rounded(left), rounded(y - 2), rounded(wide), rounded(LABEL_HEIGHT + 6))
        items.append(Path(box, fill=PAPER, opacity=0.86))
    lines: tuple[tuple[str, float, str, Weight], ...] = (
        (name, NAME, SOFT, "regular"), (figure, FIGURE, INK, "semibold"),
    )  # fmt: skip
    for said, size, colour, weight in lines:
        y += size * LEADING
        items.append(words((x, y - 0.24 * size), said, size, colour, weight, anchor))
    return items


def badge(at: Px, letter: str) -> list[Item]:
    """A seam's letter in a disc about ``at``, ``BADGE`` px in radius."""
    size = 18.0 if len(letter) == 1 else 14.0
    return [
        Path(circle(at, BADGE), fill=INK, stroke=PAPER, width=2.0),
        words((at[0], at[1] + 0.36 * size), letter, size, PAPER, "semibold", "middle"),
    ]


def led_badge(at: Px, outwards: Px, far: float, letter: str) -> list[Item]:
    """A seam's letter ``far`` px outside the place ``at`` on an edge, with a thin line that leads there; ``outwards``
    is a unit vector."""
    centre = (at[0] + outwards[0] * far, at[1] + outwards[1] * far)
    tip = (centre[0] - outwards[0] * (BADGE + 4), centre[1] - outwards[1] * (BADGE + 4))
    return [*badge(centre, letter), *([hair(at, tip)] if math.dist(at, tip) > 6 else [])]


def circle(at: Px, radius: float) -> Steps:
    """The steps of a circle about ``at``, its ``radius`` in px."""
    return ellipse(at, radius, radius, 0.0)


def ellipse(at: Px, long: float, wide: float, angle: float) -> Steps:
    """The steps of an ellipse about ``at`` with half axes ``long`` and ``wide`` (px), turned by ``angle`` radians,
    clockwise as seen."""
    bend = 0.5523
    unit: list[tuple[str, tuple[Px, ...]]] = [
        ("M", ((1, 0),)),
        ("C", ((1, bend), (bend, 1), (0, 1))),
        ("C", ((-bend, 1), (-1, bend), (-1, 0))),
        ("C", ((-1, -bend), (-bend, -1), (0, -1))),
        ("C", ((bend, -1), (1, -bend), (1, 0))),
    ]
    cosine, sine = math.cos(angle), math.sin(angle)

    def placed(point: Px) -> Px:
        x, y = point[0] * long, point[1] * wide
        return rounded(at[0] + x * cosine - y * sine), rounded(at[1] + x * sine + y * cosine)

    steps: list[Step] = []
    for letter, points in unit:
        numbers = [number for point in points for number in placed(point)]
        steps.append((letter, *numbers))  # type: ignore[arg-type]
    return (*steps, ("Z",))


def chains(one: Px, other: Px, outwards: Px) -> Path:
    """A row of chains along the edge from ``one`` to ``other``, 6 px outside it: the sign of the foundation, at least
    three of about 13 px each, not the chains of the piece. ``outwards`` is a unit vector."""
    long = math.dist(one, other)
    count = max(3, round(long / 13.0))
    angle = math.atan2(other[1] - one[1], other[0] - one[0])
    steps: list[Step] = []
    for nth in range(count):
        share = (nth + 0.5) / count
        x = one[0] + (other[0] - one[0]) * share + outwards[0] * 6.0
        y = one[1] + (other[1] - one[1]) * share + outwards[1] * 6.0
        steps += ellipse((x, y), 0.44 * long / count, 2.9, angle)
    return Path(tuple(steps), fill=PAPER, stroke=INK, width=1.3)


def along(points: Sequence[Px], said: str, size: float, inset: float, share: float = 0.5) -> list[Item]:
    """``said`` along a line and left of its way, ``inset`` px off it, about the place at a ``share`` (0 to 1) of its
    length; it is turned as the straight line between its ends, never upside down. Empty where it is too long."""
    (x0, y0), (x1, y1) = points[0], points[-1]
    long = math.dist(points[0], points[-1])
    if long < measure(said, size) + 20:
        return []
    # With y downwards, the left of a line that runs (dx, dy) is at (dy, -dx).
    inward = ((y1 - y0) / long, -(x1 - x0) / long)
    x, y = middle(points, share)
    angle = math.degrees(math.atan2(y1 - y0, x1 - x0))
    if angle > 90 or angle <= -90:
        angle += 180 if angle <= -90 else -180
    turn = math.radians(angle)
    # The baseline lies a third of the size below the middle of the letters, across the line of the text.
    x += inward[0] * inset - math.sin(turn) * 0.34 * size
    y += inward[1] * inset + math.cos(turn) * 0.34 * size
    return [Text(rounded(x), rounded(y), said, size, INK, "regular", "middle", rounded(angle))]


def led(at: Px, outwards: Px, far: float, said: str, size: float) -> list[Item]:
    """``said`` level, ``far`` px outside the place ``at`` on an edge, with a thin line that leads there; ``outwards``
    is a unit vector."""
    tip = (at[0] + outwards[0] * 8, at[1] + outwards[1] * 8)
    tail = (at[0] + outwards[0] * (far - 6), at[1] + outwards[1] * (far - 6))
    x, y = at[0] + outwards[0] * far, at[1] + outwards[1] * far
    if abs(outwards[0]) > 0.5:
        anchor: Anchor = "start" if outwards[0] > 0 else "end"
        base = y + 0.34 * size
    else:
        anchor, base = "middle", y + (0.8 * size if outwards[1] > 0 else -0.1 * size)
    return [words((x, base), said, size, INK, "regular", anchor), hair(tip, tail)]


def middle(points: Sequence[Px], share: float = 0.5) -> Px:
    """The point at a ``share`` (0 to 1) of the length of the line through ``points``."""
    left = math.fsum(math.dist(one, other) for one, other in pairwise(points)) * share
    for one, other in pairwise(points):
        long = math.dist(one, other)
        if left <= long and long:
            part = left / long
            return one[0] + (other[0] - one[0]) * part, one[1] + (other[1] - one[1]) * part
        left -= long
    return points[-1]


def tinted(colour: str, strength: float = 0.42) -> str:
    """``colour`` ("#rrggbb") mixed with white, with a share of ``strength`` (0 to 1) of it left, so that dark words can
    be read on it."""
    mixed = (round(255 + (int(colour[i : i + 2], 16) - 255) * strength) for i in (1, 3, 5))
    return "#" + "".join(f"{part:02x}" for part in mixed)
