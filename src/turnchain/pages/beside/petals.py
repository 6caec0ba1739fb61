"""Cloth drawn simply, for a small picture whose colours a reader can change: the shape of a drop for each stitch.

In: pieces laid out. Out: definitions of clusters and rows, which ``pictures`` gathers into few outlines.
"""

from __future__ import annotations

from turnchain.drawing.cloth import Tabletop
from turnchain.drawing.colours import Colours
from turnchain.drawing.placement import Placed
from turnchain.fabric.plan import Row
from turnchain.fabric.recipe import CHAIN
from turnchain.numbers import rounded
from turnchain.scene import INK, Item, Path, Step, Use

SHADE, SHINE = 0.74, 0.8  # how much of the yarn's colour is in the shadow between clusters, and in the light on them
DUSK = "#2e2019"  # of shadows: a dark brown


class Petals:
    """Draws cloth simply. ``made`` holds the definitions made so far, in px, by names that begin with ``prefix``: a row
    once for its piece, its shape and the number of quarter turns, a cluster once for its fabric and the turns.
    ``table`` says where the cloth lies in the picture."""

    def __init__(self, table: Tabletop, colours: Colours, prefix: str = "") -> None:
        self.table, self.colours, self.prefix = table, colours, prefix
        self.made: dict[str, tuple[Item, ...]] = {}
        self._rows: dict[tuple[object, ...], str] = {}

    def _corners(self, laid: Placed, row: Row) -> list[tuple[float, float]]:
        under = laid.piece.below(row)
        low_left = row.left.at if under is None or row.left.step else under.left.at
        low_right = row.right.at if under is None or row.right.step else under.right.at
        low, high = (float(laid.piece.level(number)) for number in (row.number - 1, row.number))
        places = [(low_left, low), (row.left.at, high), (row.right.at, high), (low_right, low)]
        return [self.table.px(laid.at(*place)) for place in places]

    def _row(self, laid: Placed, row: Row, part: str) -> str:
        """The definition of all clusters of a row, about the head of its left post."""
        centres = [c - row.left.at for c in row.centres]
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
        """One cluster: the shape of a drop for each dc, or the light along it."""
        k, g = laid.piece.recipe.unit_width, laid.piece.recipe.gap
        name = f"{self.prefix}{part}-cluster-{k}-{g}-{laid.quarters}"  # one recipe to a pattern
        if name not in self.made:
            pace = laid.piece.recipe.pace
            unit = laid.piece.recipe.unit
            heads = [(nth - (k - 1) / 2) * pace for nth in range(k) if unit[nth] != CHAIN]
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
        """A short light stroke near the head of a drop."""
        start, end = self._offset(laid, head * 0.62 - 0.08 * pace, -0.6), self._offset(laid, head - 0.12 * pace, -0.18)
        return [("M", *start), ("L", *end)]

