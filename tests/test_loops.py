"""Carried yarns: every loop is drawn beside its edge, and loops that run side by side have lanes of their own."""

from __future__ import annotations

from itertools import combinations

import pytest

from test_short import CASES, groups
from test_text_boxes import panel
from turnchain.drawing import loops
from turnchain.drawing.chart import chart, laid_out
from turnchain.drawing.looks import Look
from turnchain.drawing.setting import setting
from turnchain.drawing.sheet import WHOLE
from turnchain.fabric.plan import Plan
from turnchain.making import planned
from turnchain.pattern import Neck
from turnchain.scene import Path

PLANS = {
    "heron_top": lambda: planned(CASES / "heron_top.toml"),
    "mudflat_blanket": lambda: planned(CASES / "mudflat_blanket.toml"),
    "three yarns": lambda: panel("rug", 30, 30),
    "a neck": lambda: panel("front", 40, 36, neck=Neck(12, 10)),  # type: ignore[arg-type]
}


@pytest.mark.parametrize("name", PLANS)
def test_every_yarn_carried_is_drawn_in_a_lane_of_its_own(name: str) -> None:
    plan: Plan = PLANS[name]()
    for piece in plan.pieces:
        found = setting(plan, piece.name, Look())
        made = loops.loops(found.on(laid_out(found, None, WHOLE).sheet))
        carried = [change for change in found.changes if change.carried]
        assert len(made) == len(carried), "on slopes too"
        for one, other in combinations(made, 2):
            if one.side == other.side and one.lane == other.lane and one.rows[0].section == other.rows[0].section:
                assert one.last <= other.first or other.last <= one.first
        (group,) = groups(chart(plan, piece.name), "carried-yarns")
        assert len(group.items) == 2 * len(carried), "each with a dark rim"


def test_a_loop_keeps_its_distance_from_the_edge_on_slopes() -> None:
    plan = PLANS["heron_top"]()
    found = setting(plan, "front", Look())
    found = found.on(laid_out(found, None, WHOLE).sheet.grounded(3000))
    sloping = [loop for loop in loops.loops(found) if any(row.right.move == "decrease" for row in loop.rows[1:-1])]
    assert sloping
    rise = found.sheet.rise
    drawn = [item for item in loops.drawn(found, tuple(sloping)) if isinstance(item, Path)]
    for path in drawn:
        places = [step[-2:] for step in path.steps]
        # between its ends the loop runs along the edge line, a lane away from it: never on the cloth
        for x, y in places[1:-1]:  # type: ignore[misc]
            row = next(row for row in sloping[0].rows + sum((loop.rows for loop in sloping), ())
                       if found.sheet.top(row.number) <= y <= found.sheet.top(row.number - 1) + 1)  # type: ignore[operator]
            assert x > found.sheet.side(min(row.right.at, row.right.at), "right") + 0.1 * rise  # type: ignore[operator]
