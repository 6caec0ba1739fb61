"""Whole plans in their colours.

In: a plan whose rows are counted, and its stripes. Out: the plan with every row in its yarn, and other orders of the
same yarns to lay beside it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from turnchain.errors import PatternError, Problem
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.numbers import counted
from turnchain.pattern import Pattern, Stripes, Yarn
from turnchain.records import replace
from turnchain.style import luminance
from turnchain.terminal import Tell
from turnchain.yarns.stripes import begin_of, by_kinds, heights, rows_left, sequence, sharing, stripes_of, written

MOST_STASH = 10_000  # rows (of all copies) times yarns: so many take some seconds
MOST_STASH_YARNS = 40


def coloured(plan: Plan, source: str = "pattern", begun: Plan | None = None, tell: Tell | None = None) -> Plan:
    """The plan with every row in its yarn (the first yarn where there are no stripes, none where there is no yarn), and
    in its pattern the row at which the stripes of each piece begin.

    PatternError, with ``source`` as the name of the file, where random or stash stripes are higher than a piece has
    rows, and where stripes from the stash lack the weight of a swatch or are too many (``MOST_STASH``,
    ``MOST_STASH_YARNS``).

    ``begun`` is the coloured plan by which the rows were worked that the pattern's progress tells of: they keep their
    yarns. ``tell`` is called with words for what is found while stripes from the stash are searched; where that is
    stopped, a Stopped has the best stripes so far.
    """
    problems = list(_problems(plan, _rows(plan)))
    if problems:
        raise PatternError(source, problems)
    plan = replace(plan, pieces=tuple(_with_possible(plan, piece) for piece in plan.pieces))
    plan = _beginning(plan) if begun is None else replace(plan, pattern=_begun_pattern(plan, begun))
    colours = dict(_own_and_shared(plan))
    done = replace(plan, pieces=tuple(_in_colours(piece, colours[piece.name]) for piece in plan.pieces))
    stash = tuple(piece.name for piece in plan.pieces if _kind(plan, piece.name) == "stash")
    if begun is not None:
        done = _worked_kept(done, begun)
    if not stash:
        return done
    from turnchain.yarns.stash.from_plan import stash_colours  # numpy: only where it is needed

    shared = stash_colours(done, stash, begun, tell)
    pieces = (_in_colours(p, shared[p.name]) if p.name in shared else p for p in done.pieces)
    return replace(done, pieces=tuple(pieces))


def _beginning(plan: Plan) -> Plan:
    """The plan whose pattern says where the stripes of each piece begin, for the wishes of its seams."""
    if not any(seam.stripes for seam in plan.pattern.seams):
        return plan
    from turnchain.yarns.meeting import with_beginnings  # all about seams: few patterns have such wishes

    return with_beginnings(plan)


def _begun_pattern(plan: Plan, begun: Plan) -> Pattern:
    """The pattern with the stripes of every piece beginning where they did in ``begun``."""
    pieces = tuple(replace(one, stripes_begin=written(begun, one.name).stripes_begin) for one in plan.pattern.pieces)
    return replace(plan.pattern, pieces=pieces)


def _worked_kept(plan: Plan, begun: Plan) -> Plan:
    """``plan`` with every worked row in the yarn it was worked in: stripes that depend on the number of rows or on the
    gauge may be others now, but only in what is still to work."""
    worked = {one.piece: one.rows for one in plan.pattern.progress}

    def kept(piece: PiecePlan) -> PiecePlan:
        done = begun.piece(piece.name).rows[: worked.get(piece.name, 0)]
        rows = [replace(row, colour=old.colour) for row, old in zip(piece.rows, done, strict=False)]
        return replace(piece, rows=(*rows, *piece.rows[len(rows) :]))

    return replace(plan, pieces=tuple(kept(piece) for piece in plan.pieces))


def _kind(plan: Plan, name: str) -> str:
    stripes = stripes_of(plan.pattern, written(plan, name))
    return stripes.kind if stripes else ""


def _own_and_shared(plan: Plan) -> Iterator[tuple[str, tuple[str | None, ...]]]:
    for piece in plan.pieces:
        wish = written(plan, piece.name)
        stripes, begin = stripes_of(plan.pattern, wish), begin_of(plan, piece.name) - 1
        if stripes is None:
            first = plan.pattern.yarns[0].name if plan.pattern.yarns else None
            yield piece.name, (first,) * piece.row_count
            continue
        rows = max(_rows_wanted(plan, name, stripes) for name in sharing(plan, piece.name))
        yield piece.name, by_kinds(stripes, _kinds(piece), sequence(stripes, rows)[begin:])


def _rows_wanted(plan: Plan, name: str, stripes: Stripes) -> int:
    return begin_of(plan, name) - 1 + rows_left(stripes, _kinds(plan.piece(name)))


def _kinds(piece: PiecePlan) -> list[str]:
    return [row.kind for row in piece.row_levels]


def _in_colours(piece: PiecePlan, colours: tuple[str | None, ...]) -> PiecePlan:
    return replace(piece, rows=tuple(replace(row, colour=colours[row.number - 1]) for row in piece.rows))


def _rows(plan: Plan) -> dict[str, int]:
    return {piece.name: piece.row_count for piece in plan.pieces}


def _with_possible(plan: Plan, piece: PiecePlan) -> PiecePlan:
    """``piece`` with those of its alternatives whose rows its stripes can fill."""
    rows = _rows(plan)
    others = (one for one in piece.alternatives if not any(_problems(plan, {**rows, piece.name: one.rows})))
    return replace(piece, alternatives=tuple(others))


def _problems(plan: Plan, rows: Mapping[str, int]) -> Iterator[Problem]:
    """What is wrong with the stripes of pieces of so many ``rows``, by their names."""
    weighed = any(swatch.weight for swatch in plan.pattern.swatches)
    highest: dict[Stripes, str] = {}
    for name, high in rows.items():
        stripes = stripes_of(plan.pattern, written(plan, name))
        if stripes and (stripes not in highest or rows[highest[stripes]] < high):
            highest[stripes] = name
    for stripes, name in highest.items():
        if stripes.kind in ("random", "stash") and min(heights(stripes), default=0) > rows[name]:
            found = f"stripes of at least {min(heights(stripes))} rows"
            allowed = f'cannot fill the {counted(rows[name], "row")} of piece "{name}"'
            yield Problem("stripes, least", found, allowed, "make `least` smaller")
        if stripes.kind == "stash" and not weighed:
            allowed = "stripes from the stash need the weight of a swatch"
            yield Problem("swatch", "no `weight`", allowed, "weigh a swatch, and measure all of it")
    yield from too_much_for_a_stash(plan.pattern, rows)


def too_much_for_a_stash(pattern: Pattern, rows: Mapping[str, int], at_least: bool = False) -> Iterator[Problem]:
    """What is wrong where stripes from the stash are worked out row by row for every yarn, over all pieces at once, and
    those are too many (``MOST_STASH``, ``MOST_STASH_YARNS``). ``rows``: how high each piece is by its name, or
    ``at_least`` is."""
    asked = [(piece, stripes_of(pattern, piece)) for piece in pattern.pieces]
    found = [piece for piece, stripes in asked if stripes and stripes.kind == "stash"]
    whole = sum(rows[piece.name] * piece.count for piece in found)
    stripes = pattern.stripes
    yarns = len(set(stripes.order) if stripes and stripes.order else pattern.yarns)
    if found and yarns > MOST_STASH_YARNS:
        allowed = f"stripes from the stash are worked out for at most {MOST_STASH_YARNS} yarns"
        yield Problem("stripes", f"{yarns} yarns", allowed, "name some of them in `order`")
    elif whole * yarns > MOST_STASH:
        allowed = f"rows times yarns must be at most {MOST_STASH:,} for stripes from the stash"
        told = f"{whole} rows{' or more' if at_least else ''} and {yarns} yarns"
        yield Problem("stripes", told, allowed, "name some of the yarns in `order`")


def in_order(plan: Plan, stripes: Stripes) -> Plan:
    """The same pieces in other stripes, coloured; those with stripes of their own keep them. PatternError as for
    ``coloured``."""
    return coloured(replace(plan, pattern=replace(plan.pattern, stripes=stripes)))


def choices(plan: Plan) -> tuple[tuple[str, Stripes], ...]:
    """Orders to lay side by side, each with a key for its name ("orders.<key>" among the phrases): the maker's first,
    then others of the same yarns, without those kept for the border. With fewer than two such yarns the maker's
    alone."""
    now = plan.pattern.stripes or Stripes()
    of_kinds = set(now.of_kinds.values())
    apart = {yarn.name for yarn in plan.pattern.yarns if _for_the_border(plan.pattern, yarn)} | of_kinds
    free = [yarn for yarn in plan.pattern.yarns if yarn.name not in apart]
    order = tuple(yarn.name for yarn in free)
    if len(order) < 2:
        return (("as_it_is", now),)
    base = Stripes(order, (2,), carry=now.carry, **now.of_kinds)  # type: ignore[arg-type]  # names of yarns
    light = max(free, key=lambda yarn: luminance(yarn.colour)).name
    rest = tuple(name for name in order if name != light)
    found = [
        ("as_it_is", now),
        ("two_rows", base),
        ("mirrored", replace(base, kind="mirrored", begin="middle")),
        ("numbers", replace(base, kind="numbers", run="there and back")),
        ("gradual", replace(base, kind="gradual", even=True)),
        ("between", replace(base, order=rest, kind="between", between=light, between_rows=2)),
    ]
    found += [("random", replace(base, kind="random", seed=seed, even=True)) for seed in (1, 2)]
    stocked = [yarn for yarn in free if yarn.stock]
    if len(stocked) > 1 and not of_kinds and any(swatch.weight for swatch in plan.pattern.swatches):
        names = tuple(yarn.name for yarn in stocked)
        found.append(("stash", replace(base, order=names, kind="stash", even=True)))
    return tuple(found)


def _for_the_border(pattern: Pattern, yarn: Yarn) -> bool:
    """Whether a yarn is kept for border and seams alone: all of its stock, or while the stripes name only others."""
    named = {
        name
        for stripes in (pattern.stripes, *(piece.stripes for piece in pattern.pieces))
        if stripes is not None
        for name in (*stripes.order, stripes.between, *stripes.of_kinds.values())
    } - {None}
    all_kept = yarn.stock is not None and yarn.stock <= yarn.keep
    return bool(yarn.keep) and (all_kept or (bool(named) and yarn.name not in named))
