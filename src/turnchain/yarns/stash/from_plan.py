"""From the plan to its task, and back to the yarns of its rows.

In: a ``Plan`` whose rows are counted, its stock and its wishes. Out: the ``Task`` of its stash stripes, their
``Answer``, the yarn of every row.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from turnchain.fabric.plan import Plan
from turnchain.pattern import Stripes
from turnchain.yarns import figures as yarn
from turnchain.yarns.carrying import threads
from turnchain.yarns.stash.solving import solve
from turnchain.yarns.stash.task import Answer, Task, Thread, Wishes
from turnchain.yarns.stripes import heights, stripes_of, written


def task_of(plan: Plan, names: Iterable[str]) -> Task:
    """The task of striping the pieces called ``names``, all others being worked from the same stock first."""
    pieces = [piece for piece in plan.pieces if piece.name in set(names)]
    stripes = stripes_of(plan.pattern, written(plan, pieces[0].name)) or Stripes()
    order = tuple(dict.fromkeys(stripes.order))
    dense = yarn.density(plan.pattern)
    row_grams: list[Fraction] = []
    strands: list[Thread] = []
    for piece in pieces:
        begin = written(plan, piece.name).stripes_begin - 2  # the row of the stripes that its row 1 takes, less 2
        row_grams += [Fraction(0)] * (begin + 1 + piece.row_count - len(row_grams))
        for row in piece.rows:
            grams = yarn.row_area(piece, row) * (dense.likely or dense.high) * piece.count
            row_grams[begin + row.number] += grams
        strands += [Thread(begin + t[0].number, begin + t[-1].number, piece.count) for t in threads(piece)]
    others = replace(plan, pieces=tuple(piece for piece in plan.pieces if piece not in pieces))
    use_up = tuple(order.index(name) for name in stripes.use_up if name in order)
    return Task(
        yarns=order,
        room=tuple(_room(plan, others, name) for name in order),
        row_grams=tuple(row_grams),
        tail=tuple(yarn.tail_grams(plan.pattern, name) for name in order),
        threads=tuple(strands),
        wishes=Wishes(heights(stripes), stripes.apart, use_up),
    )


def _room(plan: Plan, others: Plan, name: str) -> Fraction:
    """Grams of fabric and tails that the stock of a yarn has room for beside the pieces in ``others``."""
    one = yarn.yarn_named(plan.pattern, name)
    stock = (one.stock or Fraction(0)) - one.keep if one else Fraction(0)
    taken = [need.fabric + need.tails for need in yarn.figures(others).needs if need.yarn == name]
    return stock / (1 + yarn.margin_of(plan.pattern) / 100) - sum(taken, Fraction(0))


def stash_colours(plan: Plan, names: tuple[str, ...]) -> dict[str, tuple[str, ...]]:
    """The yarn of every row of the pieces called ``names``; where the stock cannot suffice, the plan that is short
    of the least."""
    answer = solve(task_of(plan, names))
    colours = [answer.task.yarns[index] for index in answer.colours]
    return {name: tuple(colours[written(plan, name).stripes_begin - 1 :]) for name in names}


def stash_pieces(plan: Plan) -> tuple[str, ...]:
    """The names of the pieces whose stripes come from the stash."""
    found = []
    for piece in plan.pieces:
        stripes = stripes_of(plan.pattern, written(plan, piece.name))
        if stripes and stripes.kind == "stash":
            found.append(piece.name)
    return tuple(found)


def answer_of(plan: Plan) -> Answer | None:
    """The answer that a plan's stash stripes are from; None where it has none."""
    names = stash_pieces(plan)
    return solve(task_of(plan, names)) if names else None
