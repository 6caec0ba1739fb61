"""A row whose units are worked into the units of the row below, as the steps that a maker works.

In: a row of a ``PiecePlan`` and the row below it, in a stacked or a whole fabric. Out: its steps. Where its edge
stitches and its outermost units go, the edge table says.
"""

from __future__ import annotations

from turnchain.fabric import stitches
from turnchain.wording.instructions.row_parts import RowParts
from turnchain.wording.instructions.steps import (
    BaseOfTurningChain,
    BesidePost,
    Chain,
    ChainToTurn,
    ClusterInUnits,
    EdgeDc,
    HalfCluster,
    JoinTurningChain,
    Place,
    PlaceReached,
    Space,
    Step,
    Together,
    Turn,
    UnitBelow,
    Work,
    repeated,
)


class UnitRow(RowParts):
    """Works out one row above the first: its start, its units in units, its end."""

    def all(self) -> tuple[Step, ...]:
        """Every step of the row."""
        before = self._begin()
        after = self._unit_on_edge(self.row.ends)
        self._units(self.row.clusters - before - (after is not None), begun=before > 0)
        self._finish(after)
        return tuple(self.steps)

    # The start.

    def _begin(self) -> int:
        """The start, with the units that do not stand in units of the row below; how many these are."""
        move = self.start.move
        if self.row.joined:
            self._join()
        elif move == "step_out":
            self._step_out()
            return self.start.step // 2
        elif move == "step_in" or stitches.led_inwards(self.recipe.table, move, self.start_below.kind):
            self._slip_in()
        elif self.recipe.table.together(move, self.start_below.kind):
            self._together()
        else:
            return self._upright()
        return 0

    def _together(self) -> None:
        turning = stitches.turning_chain(self.recipe, self.start.kind, together=True)
        self._put(ChainToTurn(turning), Turn())
        if self.counts:
            self._put(JoinTurningChain(UnitBelow("next"), turning))
        else:
            self._put(Together(EdgeDc(), UnitBelow("next")))
        if self.recipe.edge_chains:
            self._put(Chain(self.recipe.edge_chains))

    def _upright(self) -> int:
        """The post stands on the post below, or a unit beside it too."""
        self._put(self._turning_chain(), Turn())
        unit = self._unit_on_edge(self.row.starts)
        if unit == "post" and not self.counts and not self.g:  # edge stitch and unit are worked alike
            self._put(Work("dc", EdgeDc(), 2))
            return 1
        self._beside_turning_chain(EdgeDc())
        if unit is None:
            return 0
        beside: Place = BaseOfTurningChain() if self.counts else PlaceReached()
        self._put(Work("cl", HalfCluster() if unit == "half" else beside))
        return 1

    def _unit_on_edge(self, side: str) -> str | None:
        """The place of the outermost unit at a side where that is no unit of the row below, but for a new chain."""
        edge, below = (self.start, self.start_below) if side == self.row.starts else (self.end, self.end_below)
        rule = None if self.row.joined and side == self.row.starts else self.recipe.table.rule(edge.move, below.kind)
        return rule.unit if rule is not None and rule.unit in ("post", "half") else None

    # The units.

    def _units(self, units: int, begun: bool) -> None:
        """So many units in units; ``begun``: after others."""
        if not self.g:
            self._put(*([ClusterInUnits(units)] if units else []))
            return
        one: tuple[Step, ...] = (Chain(self.g), Work("cl", UnitBelow("next")))
        if begun:
            self._put(*repeated(units, *one))
        elif units:
            self._put(one[1], *repeated(units - 1, *one))

    # The end.

    def _finish(self, unit: str | None) -> None:
        """The end; ``unit``: the place of a last unit that stands in no unit of the row below."""
        rule = self.recipe.table.rule(self.end.move, self.end_below.kind)
        beside = self.recipe.extra if self.end.kind == "spaced" else 0
        if unit == "post" and not self.g:
            self._put(Work("dc", self._old_post(), 2))
            return
        if unit is not None:
            if self.row.clusters > 1:  # else the start has put its chain before it
                self._gap()
            self._put(Work("cl", HalfCluster() if unit == "half" else self._old_post()))
        if self.recipe.edge_chains:
            self._put(Chain(self.recipe.edge_chains))
        if rule is not None and "+" in rule.end:
            self._put(Together(UnitBelow("next"), self._old_post()))
            return
        self._put(Work("dc", PlaceReached() if unit == "post" else self._end_place(), 1 + beside))
        if self.end.move in ("decrease", "step_in"):
            self._put(self._left())

    def _end_place(self) -> Place:
        if self.end.move in ("straight", "increase"):
            return self._old_post()
        if self.end.move == "decrease":
            return UnitBelow("last") if self.end.kind == "spaced" else BesidePost()
        return UnitBelow("next") if self._on_unit(self.row.ends) else Space("next")
