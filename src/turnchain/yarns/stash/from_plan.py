"""From the plan to its task, and back: the yarns of its rows, and what they come to in makers' words.

In: a ``Plan`` whose rows are counted, with its stock and its wishes. Out: the ``Task`` of its stash stripes, their
``Answer``, the yarn of every row; lines for the report: the stripes, what is left or short, what could be done instead.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import groupby
from math import ceil

from turnchain.errors import Stopped
from turnchain.fabric.plan import Plan
from turnchain.numbers import counted
from turnchain.pattern import Stripes
from turnchain.records import replace
from turnchain.terminal import Tell
from turnchain.yarns import figures as yarn
from turnchain.yarns import meeting
from turnchain.yarns.carrying import threads
from turnchain.yarns.stash.solving import EXACT_ROWS, StoppedSearch, nearest, solve
from turnchain.yarns.stash.task import Answer, Task, Thread, Wishes, rest_bound, shortage_bound, summed
from turnchain.yarns.stripes import begin_of, heights, stripes_of, written


def task_of(plan: Plan, names: Iterable[str], begun: Plan | None = None) -> Task:
    """The task of striping the pieces called ``names``, all others being worked from the same stock first.

    Its yarns are those that the stripes of the first of ``names`` name, its rows those of the stripes, from 0. Rows
    that are worked, by the progress in the pattern, keep the yarns that they have in ``begun``; left out, those that
    they have in ``plan``. The pieces called otherwise must be in their colours.
    """
    pieces = [piece for piece in plan.pieces if piece.name in set(names)]
    stripes = stripes_of(plan.pattern, written(plan, pieces[0].name)) or Stripes()
    order = tuple(dict.fromkeys(stripes.order))
    dense = yarn.density(plan.pattern)
    row_grams: list[Fraction] = []
    found: list[Thread] = []
    for piece in pieces:
        begin = begin_of(plan, piece.name) - 2  # the row of the stripes that its row 1 takes, less 2
        row_grams += [Fraction(0)] * (begin + 1 + piece.row_count - len(row_grams))
        for row in piece.rows:
            grams = yarn.row_weighed(piece, row) * (dense.likely or dense.high) * piece.count
            row_grams[begin + row.number] += grams
        found += [Thread(begin + t[0].number, begin + t[-1].number, piece.count) for t in threads(piece)]
    others = replace(plan, pieces=tuple(piece for piece in plan.pieces if piece not in pieces))
    use_up = tuple(order.index(name) for name in stripes.use_up if name in order)
    return Task(
        yarns=order,
        room=tuple(_room(plan, others, name) for name in order),
        row_grams=tuple(row_grams),
        tail=tuple(yarn.tail_grams(plan.pattern, name) for name in order),
        threads=tuple(found),
        wishes=Wishes(heights(stripes), stripes.apart, use_up, *_at_seams(plan, names, order)),
        worked=_worked(begun or plan, plan, names, order),
    )


def _room(plan: Plan, others: Plan, name: str) -> Fraction:
    """Grams of fabric and tails that the stock of a yarn has room for beside the pieces in ``others``."""
    one = yarn.yarn_named(plan.pattern, name)
    edged = sum((grams for used, grams in yarn.edging_of(plan) if used == one), Fraction(0))
    stock = (one.stock or Fraction(0)) - max(one.keep, edged) if one else Fraction(0)
    return stock / (1 + yarn.margin_of(plan.pattern) / 100) - yarn.worked_up(others, name)


def _worked(begun: Plan, plan: Plan, names: Iterable[str], order: tuple[str, ...]) -> tuple[int, ...]:
    """The yarns, by index, of all rows of the stripes up to the last that is worked in any of the pieces."""
    rows = {one.piece: one.rows for one in plan.pattern.progress}
    last = 0
    for name in set(names) & set(rows):
        numbers = [row.number for row in begun.piece(name).rows[: rows[name]]]
        last = max(last, begin_of(plan, name) - 1 + max(numbers))
    known: dict[int, str | None] = {}
    for name in names:
        for row in begun.piece(name).rows:
            known.setdefault(begin_of(plan, name) - 2 + row.number, row.colour)
    found: list[int] = []
    for place in range(last):  # what no piece works (rows before all beginnings) takes the yarn before it
        colour = known.get(place)
        found.append(order.index(colour) if colour in order else found[-1] if found else 0)
    return tuple(found)


def _at_seams(
    plan: Plan, names: Iterable[str], order: tuple[str, ...]
) -> tuple[tuple[tuple[int, int], ...], tuple[tuple[int, int], ...]]:
    """Rows of the stripes that should be in different yarns since they meet at a seam; and rows that should not be
    in the yarn of the row that they meet in a piece with stripes of its own."""
    differ: set[tuple[int, int]] = set()
    barred: set[tuple[int, int]] = set()
    for seam in meeting.wished(plan):
        if seam.wish == "meet":
            continue
        for pair in seam.pairs:
            ends = [(name, number) for name, number in zip((seam.one, seam.other), pair, strict=True)]
            rows = [begin_of(plan, name) - 2 + number for name, number in ends if name in names]
            if len(rows) == 2 and rows[0] != rows[1]:
                differ.add((min(rows), max(rows)))
            for (name, _), (other, number) in (ends, ends[::-1]):
                colour = plan.piece(other).row_levels[number - 1].colour
                if name in names and other not in names and colour in order:
                    barred.add((rows[0], order.index(colour)))
    return tuple(sorted(differ)), tuple(sorted(barred))


def stash_colours(
    plan: Plan, names: tuple[str, ...], begun: Plan | None = None, tell: Tell | None = None
) -> dict[str, tuple[str, ...]]:
    """The yarns of the pieces called ``names``: by piece, the yarn of every row from row 1 up, and of those of the
    stripes above its last row too; where the stock cannot suffice, those that are short of the least. ``begun`` as for
    ``task_of``; ``tell`` is called with words for every better answer on the way. Raises Stopped with the best stripes
    so far where the search is interrupted, KeyboardInterrupt where there are none yet."""
    task = task_of(plan, names, begun)
    try:
        answer = solve(task, tell and (lambda found: tell(on_the_way(found))))
    except StoppedSearch as stopped:
        raise Stopped(as_list(stopped.answer)) from None
    colours = [answer.task.yarns[index] for index in answer.colours]
    return {name: tuple(colours[begin_of(plan, name) - 1 :]) for name in names}


def stash_pieces(plan: Plan) -> tuple[str, ...]:
    """The names of the pieces whose stripes come from the stash, in the order of the plan."""
    found = []
    for piece in plan.pieces:
        stripes = stripes_of(plan.pattern, written(plan, piece.name))
        if stripes and stripes.kind == "stash":
            found.append(piece.name)
    return tuple(found)


def answer_of(plan: Plan) -> Answer | None:
    """The stripes of a coloured plan as the answer to its task, read from its rows; None where none are from the
    stash. Only a small task (``EXACT_ROWS``) is solved for it, to say whether it can be beaten. ValueError where a row
    of such a piece is in a yarn that its stripes do not name."""
    names = stash_pieces(plan)
    if not names:
        return None
    task = task_of(plan, names)
    known: dict[int, int] = {}
    for name in names:
        for row in plan.piece(name).rows:
            known.setdefault(begin_of(plan, name) - 2 + row.number, task.yarns.index(row.colour or ""))
    colours: list[int] = []
    for place in range(len(task.row_grams)):
        colours.append(known.get(place, colours[-1] if colours else 0))
    answer = summed(task, colours, shortage_bound(task), rest_bound(task))
    exact = len(colours) <= EXACT_ROWS and solve(task).exact
    return replace(answer, exact=exact or answer.at_the_bound)


# -------------------------------------------------------------------------------------------------- makers' words


def lines(plan: Plan) -> list[str]:
    """What the stash stripes of a coloured plan come to, in makers' words, in English and in grams; nothing where it
    has none. Raises Stopped with the stripes where the search for what the stock suffices for is interrupted."""
    answer = answer_of(plan)
    if answer is None:
        return []
    told = [f"stripes from the stash: {_stripes_words(answer)}", *_to_keep(plan, answer)]
    if answer.possible:
        return [*told, *_rest_lines(answer)]
    return [*told, *_short_lines(plan, answer)]


def on_the_way(answer: Answer) -> str:
    """How good an answer is while a better one is searched, and how good one can be at best: one line in English, in
    grams before the margin."""
    short = sum(answer.short, Fraction(0))
    if short:
        least = float(answer.least_short)
        return f"stripes from the stash: {float(short):.1f} g short so far; at least {least:.1f} g in any order"
    largest, least = float(answer.score.largest_rest), float(answer.least_rest)
    return (
        f"stripes from the stash: the most left of a yarn is {largest:.1f} g so far; "
        f"at least {least:.1f} g in any order"
    )


def as_list(answer: Answer) -> str:
    """The stripes as a list to paste into a pattern file in place of [stripes]: three lines of TOML."""
    names = ", ".join(f'"{answer.task.yarns[index]}"' for index, _ in answer.stripes)
    rows = ", ".join(str(height) for _, height in answer.stripes)
    return f"[stripes]\norder = [{names}]\nrows = [{rows}]"


def _to_keep(plan: Plan, answer: Answer) -> Iterator[str]:
    """How to keep stripes that were searched after some rows were worked: progress noted later is taken to be worked by
    the first stripes, which are those without any progress."""
    if plan.pattern.progress:
        yield "the rows still to be worked were planned again; before you note more rows, paste these stripes:"
        yield from as_list(answer).splitlines()


def _stripes_words(answer: Answer) -> str:
    parts = [f"{name} {rows} rows" for index, name in enumerate(answer.task.yarns) if (rows := _rows(answer, index))]
    stripes = sum(1 for _ in groupby(_in_pieces(answer)))
    return f"{counted(stripes, 'stripe')}; {', '.join(parts)}"


def _rows(answer: Answer, index: int) -> int:
    return _in_pieces(answer).count(index)


def _in_pieces(answer: Answer) -> list[int]:
    """The yarns of the rows that a piece has; where all begin later, the first of the stripes are in none."""
    return [index for index, grams in zip(answer.colours, answer.task.row_grams, strict=True) if grams]


def _rests(answer: Answer) -> str:
    """What is left of every yarn, in whole grams."""
    return ", ".join(f"{name} {int(rest)} g" for name, rest in zip(answer.task.yarns, answer.rests, strict=True))


def _rest_lines(answer: Answer) -> Iterator[str]:
    largest = max(answer.rests)
    yield (
        f"left after the margin, before tails: {_rests(answer)}. The rows weigh the same in any order; the most left "
        f"of a yarn is {float(largest):.1f} g, and no plan can get below {float(answer.least_rest):.1f} g"
        f"{' (no plan within your wishes is better than this one)' if answer.exact else ''}"
    )
    unused = [name for index, name in enumerate(answer.task.yarns) if not _rows(answer, index)]
    if unused:
        yield f"{', '.join(unused)}: in no stripe"


def _short_lines(plan: Plan, answer: Answer) -> Iterator[str]:
    task = answer.task
    margin = 1 + yarn.margin_of(plan.pattern) / 100
    for index, (name, short) in enumerate(zip(task.yarns, answer.short, strict=True)):
        if short:
            rows = min(_rows(answer, index), ceil(short / (task.weight / len(_in_pieces(answer)))))
            grams = ceil(short * margin)
            yield f"{name} falls short by {grams} g, margin included, about {counted(rows, 'row')}"
    if answer.least_short:
        yield f"every plan within your wishes is short of at least {float(answer.least_short * margin):.1f} g in all"
    elif not answer.exact:
        yield "no plan was found for which the stock is enough, though there may be one"
    try:
        other = nearest(task)
    except KeyboardInterrupt:  # the stripes that were found are still of use
        raise Stopped(as_list(answer)) from None
    if other:
        yield f"it can be done {other.words}; left then: {_rests(other.answer)}"
    else:
        yield "the stock is not enough for a single row"
