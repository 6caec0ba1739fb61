"""One piece to be planned.

In: a ``Target``, its gauge and recipe. Out: a ``Job``, which every part of the search and the report reads.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import cache, cached_property, partial
from itertools import pairwise, product
from math import ceil, floor
from typing import TYPE_CHECKING

from turnchain.fabric import lattice
from turnchain.fabric.gauge import Gauge
from turnchain.fabric.lattice import Side
from turnchain.fabric.order import CLUSTERS
from turnchain.fabric.plan import RowPlan
from turnchain.fabric.recipe import Recipe
from turnchain.planning.budget import FEW_ROWS, PAIR_STATES, SearchBudget
from turnchain.planning.curves import Curve
from turnchain.planning.moves import MICRO, MixedRows, Room, micro
from turnchain.planning.targets import Target, reaches
from turnchain.records import field, frozen
from turnchain.units import Unit

if TYPE_CHECKING:
    from turnchain.planning.progress import BegunPiece, Line

#: Edges so many half pitches apart leave room for a cluster, wherever they stand.
ROOMY = 4


@frozen(slots=False)
class Job:
    """A target with all that is needed to plan it: passed on whole.

    ``unit``: what lengths in messages are in. ``begun``: where a part of the piece is worked already. ``pair_states``:
    how many states may be searched where a piece is so narrow that its edges hinder each other. ``budget``: what all
    searches for one pattern may take. ``armed``: armholes are as deep and as wide as asked for, wherever they can be.

    Where edges go by whole pitches alone, all that is called half pitches here is whole ones: gauge, recipe and target
    are made so (``in_pitches``), and ``recipe_made`` and ``gauge_made`` are those of the rows of a plan.
    """

    target: Target
    gauge: Gauge
    recipe: Recipe
    unit: Unit
    begun: BegunPiece | None = None
    pair_states: int = PAIR_STATES
    budget: SearchBudget = field(default_factory=SearchBudget)
    made_of: Recipe | None = None
    armed: bool = False

    @property
    def stride(self) -> int:
        """The half pitches in the unit of positions here."""
        return 2 if self.recipe.table.by_pitches else 1

    @property
    def recipe_made(self) -> Recipe:
        """The recipe of the piece, by half pitches."""
        return self.made_of or self.recipe

    @property
    def gauge_made(self) -> Gauge:
        """The gauge of the piece: ``gauge`` by half pitches."""
        return self.gauge.wider(Fraction(1, self.stride))

    def width_parities(self, row_plan: RowPlan) -> tuple[int, ...]:
        """Which widths in row 1, even (0) or odd (1) in half pitches, a shaped piece may have."""
        if self.recipe.stacked:
            return (0, 1)
        return (1,) if row_plan == "alike" else (0,)

    def held(self, line: Line) -> dict[int, int]:
        """The worked rows' reaches at an edge line, in half pitches by row number; empty where none are worked."""
        return {} if self.begun is None else self.begun.reaches(line)

    def frames(self, centres: tuple[Fraction, ...] = (Fraction(0),)) -> Iterator[tuple[Fraction, int]]:
        """The centre lines (half pitches) and phases to be tried, each of ``centres`` with 0 and 1; of a piece begun
        already only its own, or none where that is not among them. Where edges have one kind all phases are one."""
        phases = (0,) if self.recipe.table.by_pitches else (0, 1)
        own = None if self.begun is None else (self.begun.frame[0], self.begun.frame_phase)
        return (frame for frame in product(centres, phases) if own is None or frame == own)

    def panel_frames(self) -> Iterator[tuple[Fraction, int]]:
        """The frames of a panel; in a stacked fabric the one that has whole units at its edges."""
        halves = self.recipe.stacked and not self.recipe.table.by_pitches
        return (frame for frame in self.frames() if not halves or frame[1] == 1)

    @property
    def wanted_rows(self) -> Fraction:
        """The wanted height in rows, seldom whole, or the number of rows that the maker has chosen."""
        exact = self.target.piece.exact_rows
        wanted = self.target.height / self.gauge.row
        if exact is not None or self.recipe.order.plain:
            return wanted if exact is None else Fraction(exact)
        return self.recipe.order.rows_in(wanted)

    @property
    def long(self) -> bool:
        """Whether its search may be too much, so that it is told beforehand (``workload``)."""
        return ceil(self.wanted_rows) >= FEW_ROWS and self.begun is None

    def height(self, rows: int) -> Fraction:
        """How high ``rows`` rows are, in cm."""
        return self.recipe.order.height(rows) * self.gauge.row

    def may_have_rows(self, rows: int) -> bool:
        """Whether ``rows`` is what the maker has chosen by ``exact_rows``, or nothing was chosen."""
        return self.target.piece.exact_rows in (None, rows)

    def may_begin(self, left: int, right: int, phase: int, chain: int) -> bool:
        """Whether a plan whose row 1 has these edges (half pitches), on a foundation of so many ``chain`` s, begins as
        the maker has chosen: with the edge ``start`` of the fabric, and on ``exact_chain``."""
        number, recipe = len(self.recipe.order.base) + 1, self.recipe
        at = right if lattice.starting_side(number) == "right" else left
        starts = recipe.start in ("", recipe.kind(at, recipe.running(phase, number)))
        return starts and self.target.piece.exact_chain in (None, chain)

    @property
    def mirrored_along(self) -> bool:
        """Whether the shaped edges should read alike from both ends: never where rows are of more than one kind."""
        return self.recipe.order.plain and self.target.mirrored_along

    @cached_property
    def _mixed(self) -> dict[int, MixedRows]:
        return {}

    def mixed(self, rows: int) -> MixedRows | None:
        """How edges can go where ``rows`` rows are of more than one kind; None where they are not. A row over those at
        the foot has their edges."""
        order, recipe = self.recipe.order, self.recipe
        if order.plain:
            return None
        if rows not in self._mixed:
            kinds = order.kinds(rows)
            units = [kind == CLUSTERS for kind in kinds]
            over = [below and above for below, above in pairwise((False, *units))]
            first = units.index(True)
            tables = tuple(
                recipe.edges(not level) if unit and row > first else None
                for row, (unit, level) in enumerate(zip(units, over, strict=True))
            )
            shifts = order.all_shifts(rows, recipe.table.shift)
            self._mixed[rows] = MixedRows((None, *tables), (False, *over), shifts)
        return self._mixed[rows]

    def tops(self, rows: int) -> tuple[Fraction, ...]:
        """How high the tops of ``rows`` rows lie, from the foundation on, so that all are ``rows`` high."""
        return self.recipe.order.tops(rows)

    def place(self, height: Fraction, rows: int) -> Fraction:
        """Which of ``rows`` rows ``height`` cm of the target lie in: how many are below, and what share of the next."""
        return self.recipe.order.place(height * rows / self.target.height, rows)

    def room(self, phase: int, rows: int) -> Room:
        """A test whether edges at two positions (half pitches, in the frame that has this ``phase``) leave room for a
        cluster in one of ``rows`` rows, and in row 1 for just as many as the maker has chosen."""
        exact, count = self.target.piece.exact_clusters, self.recipe.clusters
        running: Callable[[int], int] = cache(partial(self.recipe.running, phase))
        if (mixed := self.mixed(rows)) is not None:
            shifts = mixed.shifts
            running = lambda row: (phase + shifts[row]) % 2  # noqa: E731  # as short as the other

        def room(row: int, left: int, right: int) -> bool:
            if right - left >= ROOMY and (row > 1 or exact is None):
                return True
            clusters = count(left, right, running(row))
            return clusters > 0 if row > 1 or exact is None else clusters == exact

        return room

    def wanted_reaches(self, curve: Curve, rows: int) -> tuple[Fraction, ...]:
        """The wanted reach at the top of each of ``rows`` rows, in half pitches, the curve stretched so that both end
        together."""
        height = self.target.height / rows
        return tuple(self._in_rows(curve, rows).sampled([height * top for top in self.tops(rows)[1:]]))

    def _in_rows(self, curve: Curve, rows: int) -> Curve:
        """``curve``, or that of a panel with parts in so many rows."""
        whole = self.target.profile
        if whole is None or curve.straight:
            return curve
        return reaches(whole, rows, self.arm_rows(rows), self.gauge)

    def arm_rows(self, rows: int) -> tuple[int, int]:
        """How many of ``rows`` rows lie under the armhole at the first row of a panel worked sideways with parts, and
        under that at the last; of a piece begun under the first as many as are worked so."""
        whole = self.target.profile
        assert whole is not None, "only a panel with parts"
        first, last = whole.arm_rows(self.gauge.row)
        held = self.held(self.target.top or "right")
        out = [row - 1 for row in held if row > 1 and held[row] - held[row - 1] > 1]
        if first and out:
            first, last = out[0], out[0] if last else 0
        elif first and len(held) > first:
            first += 2
        return min(first, max(1, rows // 2 - 1)) if first else 0, min(last, max(1, rows // 2 - 1)) if last else 0

    def late_steps(self, side: Side, rows: int) -> dict[int, Fraction]:
        """The rows of an outline in which a step outwards may still be to come at ``side``, and the reach wanted then
        in half pitches; empty where there are none, as in panels. A step is made where a row starts, so at one of two
        edges it comes a row after the other, and among rows of more than one kind it may come later."""
        if self.target.pinned:
            return {}
        curve, mixed = self.target.curve(side), self.mixed(rows)
        found = {}
        for height, below in curve.jumps_out:
            row = floor(self.place(height, rows)) + 1
            while 1 < row < rows and (lattice.starting_side(row) != side or (mixed and not mixed.steps[row])):
                found[row] = below
                row += 1
                if mixed is None:
                    break
        return found

    def marks(self, curve: Curve, rows: int) -> tuple[int, ...]:
        """``wanted_reaches`` in ``MICRO``-ths of a half pitch."""
        if not self.recipe.order.plain:
            return tuple(map(micro, self.wanted_reaches(curve, rows)))
        row = self.target.height / rows
        return tuple(self._in_rows(curve, rows).in_parts(range(1, rows + 1), row, Fraction(1, MICRO)))

    def arms(self, wanted: tuple[int, ...]) -> dict[int, tuple[int, int]]:
        """The lowest and the highest reach of the two rows below a sloping shoulder, where an edge stands upright, by
        what is ``wanted`` of it in ``MICRO``-ths of a half pitch. Empty of level shoulders, and where rows are
        worked."""
        last = len(wanted) - self.target.slope
        if not self.target.slope or last < 2 or self.begun is not None:
            return {}
        at = round(Fraction(wanted[last - 1], MICRO))
        return {last - 1: (at, at), last: (at, at)}

    def stretch_cost(self, rows: int) -> int:
        """What it costs that ``rows`` rows are not just as high as wanted, in squared ``MICRO``-ths of a half pitch:
        the error grows evenly from 0 to all of it at the top, and its square is summed over the rows."""
        off = (self.height(rows) - self.target.height) / self.gauge.half
        return round(rows * off**2 / 3 * MICRO**2)
