"""What the stash stripes come to, in makers' words.

In: a plan. Out: lines for the report: the stripes, what is left or short, what could be done instead.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from turnchain.fabric.plan import Plan
from turnchain.numbers import counted
from turnchain.yarns import figures as yarn
from turnchain.yarns.stash.from_plan import answer_of
from turnchain.yarns.stash.nearest import nearest
from turnchain.yarns.stash.task import Answer


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
