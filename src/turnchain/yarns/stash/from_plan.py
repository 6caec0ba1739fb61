"""From the plan to its task, and back: the yarns of its rows, and what they come to in makers' words.

In: a ``Plan`` whose rows are counted, its stock and its wishes. Out: the ``Task`` of its stash stripes, their
``Answer``, the yarn of every row; lines for the report: the stripes, what is left or short, what could be done instead.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction
from math import ceil

from turnchain.fabric.plan import Plan
from turnchain.numbers import counted
from turnchain.pattern import Stripes
from turnchain.yarns import figures as yarn
from turnchain.yarns.carrying import threads
from turnchain.yarns.stash.solving import nearest, solve
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


# -------------------------------------------------------------------------------------------------- makers' words


def lines(plan: Plan) -> list[str]:
    """What the stash stripes come to, in makers' words; nothing where a plan has none."""
    answer = answer_of(plan)
    if answer is None:
        return []
    told = [f"stripes from the stash: {_stripes_words(answer)}"]
    if answer.possible:
        return [*told, *_rest_lines(answer)]
    return [*told, *_short_lines(plan, answer)]


def _stripes_words(answer: Answer) -> str:
    parts = [f"{name} {rows} rows" for index, name in enumerate(answer.task.yarns) if (rows := _rows(answer, index))]
    return f"{counted(len(answer.stripes), 'stripe')}; {', '.join(parts)}"


def _rows(answer: Answer, index: int) -> int:
    return sum(one == index for one in answer.colours)


def _rests(answer: Answer) -> str:
    """What is left of every yarn, in whole grams."""
    return ", ".join(f"{name} {int(rest)} g" for name, rest in zip(answer.task.yarns, answer.rests, strict=True))


def _rest_lines(answer: Answer) -> Iterator[str]:
    largest = max(answer.rests)
    yield (
        f"left after the margin, before tails: {_rests(answer)}. The rows weigh the same in any order; the largest "
        f"rest is {float(largest):.1f} g, and no plan can have it under {float(answer.least_rest):.1f} g"
        f"{' (no plan within your wishes is better than this one)' if answer.exact else ''}"
    )
    unused = [name for index, name in enumerate(answer.task.yarns) if not _rows(answer, index)]
    if unused:
        yield f"{', '.join(unused)}: in no stripe of this plan"


def _short_lines(plan: Plan, answer: Answer) -> Iterator[str]:
    task = answer.task
    margin = 1 + yarn.margin_of(plan.pattern) / 100
    for index, (name, short) in enumerate(zip(task.yarns, answer.short, strict=True)):
        if short:
            rows = min(_rows(answer, index), ceil(short / (task.weight / len(task.row_grams))))
            grams = ceil(short * margin)
            yield f"{name} falls short by {grams} g, margin included, about {counted(rows, 'row')}"
    if answer.least_short:
        yield f"no plan within your wishes is short of less than {float(answer.least_short * margin):.1f} g in all"
    elif not answer.exact:
        yield "no plan was found that suffices; that there is none is not proved"
    other = nearest(task)
    if other:
        yield f"it can be done {other.words}; left then: {_rests(other.answer)}"
    else:
        yield "the stock does not reach for a single row"
