"""The shoulders of a front that opens, as wide as those of the back that they are sewn to.

In: what the pieces of a pattern might be. Out: the same, half a front with its neck moved by half a cluster or a whole
one where its shoulder would else be another than the back's. A back chooses its shoulders together with its neck; half
a front has its shoulder from where its two edges end.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from turnchain.pattern import Piece
from turnchain.planning.agreeing import height_of
from turnchain.planning.budget import BudgetSpent
from turnchain.planning.candidate import Candidate
from turnchain.planning.curves import Curve
from turnchain.planning.pieces import Choice
from turnchain.planning.row_plans import ranked_with
from turnchain.records import replace

#: A neck is moved by so many half pitches at the most.
_MOST: Final = 2


def as_at_the_back(choices: Mapping[str, Choice]) -> dict[str, Choice]:
    """``choices`` by the names of pieces, every half of a front with shoulders as wide as the back's where it can be
    planned so; what a search has no budget for stays."""
    backs = [one for one in choices.values() if one.best.split is not None]
    found = dict(choices)
    for name, choice in choices.items():
        back = next((one for one in backs if _wished(one.job.target.piece) == _wished(choice.job.target.piece)), None)
        if back is not None and choice.job.target.piece.opens_at:
            found[name] = _moved(choice, _back_shoulder(back) - _shoulder(choice))
    return found


def _wished(piece: Piece) -> object:
    """What a front and a back that belong together have alike: their armholes or, without any, their height."""
    return {(one.low, one.high) for one in piece.stretches if one.name == "armhole"} or height_of(piece)


def _shoulder(front: Choice) -> int:
    return _wide(front, front.best)


def _wide(front: Choice, plan: Candidate) -> int:
    """From the neck at the top to where the shoulder begins at the arm, in half pitches."""
    arm, opens_left = -1 - front.job.target.slope, front.job.target.piece.opens_at == "left"
    return plan.right[arm] - plan.left[-1] if opens_left else plan.right[-1] - plan.left[arm]


def _back_shoulder(back: Choice) -> int:
    """The shoulder of a back in half pitches: the narrower of two that differ."""
    best = back.best
    assert best.split is not None, "its neck divides it"
    arm = -1 - back.job.target.slope
    return min(best.right[arm] - best.split.right[-1], best.split.left[-1] - best.left[arm])


def _moved(front: Choice, by: int) -> Choice:
    """``front`` with its shoulder wider ``by`` so many half pitches, in as many rows."""
    side = front.job.target.piece.opens_at
    if not 0 < abs(by) <= _MOST or side is None:
        return front
    curve = front.job.target.curve(side)
    begins = curve.points[0][1]
    points = tuple((height, reach if reach == begins else reach + by) for height, reach in curve.points)
    target = front.job.target
    target = replace(target, left=Curve(points)) if side == "left" else replace(target, right=Curve(points))
    job = replace(front.job, target=target)
    try:
        ranked = [one for one in ranked_with(job, front.best.row_plan) if one.rows == front.best.rows]
    except BudgetSpent:
        return front
    fitting = [one for one in ranked if _wide(front, one) == _shoulder(front) + by]
    return Choice(job, ranked, fitting[0]) if fitting else front
