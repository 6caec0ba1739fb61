"""The fabric as it will look: soft clusters in the colours of the yarns, in true proportion.

In: a plan. Out: a ``Scene`` of one piece, or of all laid out as worn, with a card of the yarns.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from turnchain import lettering, style, terms
from turnchain.drawing import columns, key, placement
from turnchain.drawing.looks import Look
from turnchain.drawing.margins import Colours
from turnchain.drawing.placement import Placed, Scale
from turnchain.fabric import lattice
from turnchain.fabric.plan import Plan, Row
from turnchain.numbers import rounded
from turnchain.scene import INK, Group, Item, Path, Scene, Step, Text, Use, polyline, rectangle
from turnchain.style import Theme

MARGIN = 56.0
TALLEST = 1.7  # the laid-out pieces are at most this many times as high as the page is wide
SHADE, SHINE = 0.74, 0.8  # how much of the yarn's colour is in the shadow between clusters, and in the light on them
DUSK = "#2e2019"  # shadows are warm
STEP = 0.25  # px


@dataclass(frozen=True, slots=True)
class Tabletop:
    """Where the table lies in the picture: its (0, 0) at (``left``, ``top``) px, whole."""

    left: int
    top: int

    def px(self, place: tuple[float, float]) -> tuple[float, float]:
        """A place on the table (px, y upwards) in the picture (y downwards)."""
        return rounded(self.left + place[0]), rounded(self.top - place[1])


def preview(plan: Plan, name: str | None = None, width: int = style.REFERENCE_WIDTH, look: Look | None = None) -> Scene:
    """All pieces as worn, or the one called ``name``, ``width`` px wide."""
    look = look or Look()
    unit = width / style.REFERENCE_WIDTH
    margin = MARGIN * unit
    head = columns.Column(margin, margin, width - 2 * margin, unit, look.theme)
    head.words(plan.pattern.title, size=40)
    head.words(name or "as worn: the stripes of every piece", size=22, colour=look.theme.soft)
    laid = lay_in(plan, name, width - 2 * margin, TALLEST * width)
    across = max(one.x + one.size[0] for one in laid)
    table = Tabletop(round((width - across) / 2), round(head.y + 46 * unit))
    bottom = table.top + max(one.size[1] for one in laid)
    weaver = Weaver(table, Colours(plan.pattern, look.inks), look.theme, unit)
    cloth = [Group(tuple(weaver.piece(one)), f"cloth-{index}", one.piece.name) for index, one in enumerate(laid, 1)]
    names = [weaver.name(one) for one in laid]
    card, height = _card(plan, look, weaver.colours, margin, bottom + 50 * unit, unit, width)
    return Scene(
        width=width,
        height=height,
        title=f"{plan.pattern.title}: stripes",
        words=told(plan, name),
        language=terms.LANGUAGE[plan.pattern.terms],
        definitions=weaver.made,
        items=(Group(tuple(head.items), "header"), *cloth, *names, *card),
        background=look.background,
    )


def lay_in(plan: Plan, name: str | None, width: float, height: float) -> list[Placed]:
    """The pieces laid out in px, as large as fits ``width`` and ``height``."""

    def lay(to: Scale) -> list[Placed]:
        return placement.laid_out(plan, to) if name is None else placement.alone(plan.piece(name), to)

    row = float(plan.gauge.row / plan.gauge.half)
    whole = lay(Scale(1.0, row))
    across = max(one.x + one.size[0] for one in whole)
    scale = min(width / across, height / max(one.size[1] for one in whole))
    return lay(Scale(_stepped(scale), _stepped(scale * row)))


def _stepped(length: float) -> float:
    """``length`` px down to a whole step, so that few stamps serve the whole cloth; the proportion is off by as
    little as that."""
    return max(STEP, math.floor(length / STEP) * STEP)


def told(plan: Plan, name: str | None) -> str:
    """The alt text of the preview."""
    pieces = [piece for piece in plan.pieces if name in (None, piece.name)]
    said = []
    for piece in pieces:
        way = "vertical" if placement.lies_on_its_side(plan, piece) else "horizontal"
        yarns = list(dict.fromkeys(row.colour for row in piece.row_levels if row.colour))
        said.append(f"{piece.name} with {way} stripes of {', '.join(yarns) if yarns else 'one yarn'}")
    return f"The fabric of {plan.pattern.title} as it will look: {'; '.join(said)}."


class Weaver:
    """Draws cloth: definitions of clusters and rows made so far, by the way a piece lies."""

    def __init__(self, table: Tabletop, colours: Colours, theme: Theme, unit: float, prefix: str = "") -> None:
        self.table, self.colours, self.theme, self.unit, self.prefix = table, colours, theme, unit, prefix
        self.made: dict[str, tuple[Item, ...]] = {}
        self._rows: dict[tuple[object, ...], str] = {}

    def piece(self, laid: Placed) -> list[Item]:
        """The cloth of one piece, row by row, and a quiet line around it."""
        cloth: list[Item] = []
        clusters: list[Item] = []
        for row in laid.piece.rows:
            colour = self.colours.of(row)
            corners = self._corners(laid, row)
            shadow = colour if self.colours.mono else style.mixed(colour, DUSK, SHADE)
            # black on white each row needs a line around it: one yarn is without any hatching
            line, width = (self.theme.soft, rounded(0.9 * self.unit)) if self.colours.mono else (shadow, 0.5)
            cloth.append(Path(polyline(corners, closed=True), fill=shadow, stroke=line, width=width))
            cloth += self.colours.hatched(row, corners, self.unit)
            if not self.colours.mono:
                x, y = self.table.px(laid.at(row.left.at, row.number))
                shine = style.mixed(colour, "#ffffff", SHINE)
                clusters.append(Use(self._row(laid, row, "body"), x, y, colour))
                clusters.append(Use(self._row(laid, row, "shine"), x, y, shine))
        return cloth + clusters

    def _corners(self, laid: Placed, row: Row) -> list[tuple[float, float]]:
        under = laid.piece.below(row)
        low_left = row.left.at if under is None or row.left.step else under.left.at
        low_right = row.right.at if under is None or row.right.step else under.right.at
        places = [
            (low_left, row.number - 1),
            (row.left.at, row.number),
            (row.right.at, row.number),
            (low_right, row.number - 1),
        ]
        return [self.table.px(laid.at(*place)) for place in places]

    def _row(self, laid: Placed, row: Row, part: str) -> str:
        """The definition of all clusters of a row, about the head of its left post."""
        centres = [c - row.left.at for c in lattice.centres(row.left.at, row.right.at, row.number, laid.piece.phase)]
        shape = (laid.piece.name, laid.quarters, part, tuple(centres))
        if shape not in self._rows:
            self._rows[shape] = name = f"{self.prefix}{part}-row-{len(self._rows) + 1}"
            cluster = self._cluster(laid, part)
            self.made[name] = tuple(Use(cluster, *self._offset(laid, centre, 0.0), INK) for centre in centres)
        return self._rows[shape]

    def _offset(self, laid: Placed, right: float, up: float) -> tuple[float, float]:
        """How far apart two places of a piece lie in px: ``right`` half pitches and ``up`` rows."""
        x0, y0 = laid.at(0.0, 0.0)
        x1, y1 = laid.at(right, up)
        return rounded(x1 - x0), rounded(y0 - y1)

    def _cluster(self, laid: Placed, part: str) -> str:
        """One cluster: a soft petal for each dc, or the light along it."""
        name = f"{self.prefix}{part}-cluster-{laid.piece.fabric.cluster}-{laid.piece.fabric.gap}-{laid.quarters}"
        if name not in self.made:
            k, g = laid.piece.fabric.cluster, laid.piece.fabric.gap
            pace = 2 / (k + g)
            heads = [(nth - (k - 1) / 2) * pace for nth in range(k)]
            steps: list[Step] = []
            for head in heads:
                steps += self._petal(laid, head, 0.9 * pace) if part == "body" else self._light(laid, head, pace)
            thin = 0.09 * laid.scale.half
            body = Path(tuple(steps), fill=INK)
            light = Path(tuple(steps), stroke=INK, width=rounded(max(0.4, thin)))
            self.made[name] = (body if part == "body" else light,)
        return name

    def _petal(self, laid: Placed, head: float, wide: float) -> list[Step]:
        """A drop from the foot to (``head``, 0), ``wide`` half pitches at its thickest, near the head."""
        foot, top, base, thin = -1.02, 0.06, head * 0.5, wide * 0.34

        def at(right: float, up: float) -> tuple[float, float]:
            return self._offset(laid, right, up)

        left, right = head - wide / 2, head + wide / 2
        return [
            ("M", *at(base - thin, foot)),
            ("C", *at(base - thin, foot * 0.7), *at(left, foot * 0.6), *at(left, -0.2)),
            ("C", *at(left, top), *at(right, top), *at(right, -0.2)),
            ("C", *at(right, foot * 0.6), *at(base + thin, foot * 0.7), *at(base + thin, foot)),
            ("Z",),
        ]

    def _light(self, laid: Placed, head: float, pace: float) -> list[Step]:
        """A short stroke of light near the head of a petal."""
        start, end = self._offset(laid, head * 0.62 - 0.08 * pace, -0.6), self._offset(laid, head - 0.12 * pace, -0.18)
        return [("M", *start), ("L", *end)]

    def name(self, laid: Placed) -> Text:
        """The piece's name below it."""
        x, y = self.table.px((laid.x + laid.size[0] / 2, laid.y))
        size = 20 * self.unit
        return Text(x, rounded(y + 1.5 * size), laid.piece.name, rounded(size), self.theme.soft, anchor="middle")


def _card(
    plan: Plan, look: Look, colours: Colours, left: float, top: float, unit: float, width: int
) -> tuple[list[Item], int]:
    """The yarns with their letters, names and colours, in a row of chips; and the height of the page."""
    items: list[Item] = []
    size, tall, gap = 116 * unit, 74 * unit, 24 * unit
    used = {row.colour: row for piece in plan.pieces for row in piece.rows if row.colour}
    x, y, high = left, top, tall
    for yarn in plan.pattern.yarns:
        if yarn.name not in used:
            continue
        words = lettering.wrapped(yarn.name, size, 18 * unit)
        wide = max(size, *(lettering.measure(line, 18 * unit) for line in words))
        if x > left and x + wide > width - left:
            x, y = left, y + high + 24 * unit
            high = tall
        high = max(high, tall + (24 + 22 * len(words) + 22) * unit)
        colour = colours.of(used[yarn.name])
        box = (rounded(x), rounded(y), rounded(size), rounded(tall))
        corners = [(x, y + tall), (x, y), (x + size, y), (x + size, y + tall)]
        items.append(Path(rectangle(*box), fill=colour, stroke=look.theme.hair, width=rounded(max(0.7, unit))))
        items += colours.hatched(used[yarn.name], corners, unit)
        letter = colours.letter(used[yarn.name])
        ink = style.ink_on(colour)
        items.append(
            Text(rounded(x + 12 * unit), rounded(y + tall - 13 * unit), letter, rounded(26 * unit), ink, "semibold")
        )
        base = y + tall + 24 * unit
        for line in words:
            items.append(Text(rounded(x), rounded(base), line, rounded(18 * unit), look.theme.ink))
            base += 22 * unit
        items.append(Text(rounded(x), rounded(base), yarn.colour, rounded(15 * unit), look.theme.soft))
        x += wide + gap
    bottom = y + (high + 24 * unit if items else 0)
    foot = columns.Column(left, bottom, width - 2 * left, unit, look.theme)
    foot.words(key.credit(plan.pattern), size=columns.SMALL, colour=look.theme.soft)
    return [Group(tuple(items), "yarns"), Group(tuple(foot.items), "credit")], round(foot.y + 30 * unit)
