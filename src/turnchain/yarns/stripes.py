"""Which yarn works which row.

In: the stripes of a pattern, and for whole pieces a plan whose rows are counted. Out: a yarn's name for every row.

``sequence`` gives the yarns of so many rows; ``colouring`` puts them into a plan when the rows of all pieces are
counted, since stripes that are mirrored, gradual or from the stash depend on them. Pieces that are sewn together
along the ends of their rows share one run of stripes from row 1, so that a stripe stands at the same height on
both; where they cannot meet, ``meetings`` tells by how much.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from itertools import chain, cycle, islice, pairwise

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.pattern import Pattern, Piece, Stripes
from turnchain.records import frozen, replace

#: The greatest and least stripe height in rows where the pattern names none; up to which of Fibonacci's numbers.
USUAL_MOST = 4
USUAL_LEAST = {False: 1, True: 2}  # True: from the stash, where two rows save many ends
FIBONACCI_MOST = 8

#: Edges made of the ends of rows: where two of them are sewn, stripes meet stripes. ("shoulder" only of a piece
#: worked sideways.)
_ROW_ENDS = ("left", "right", "lower", "upper", "neck")

Run = tuple[str, int]  # a yarn and how many rows it works


def stripes_of(pattern: Pattern, piece: Piece | None) -> Stripes | None:
    """A piece's own stripes, else the pattern's; None where there are neither. Where they name no order, it is all
    yarns in the order given (from the stash: all of which there is a stock) but the one that works ``between`` and
    those of kinds of row."""
    stripes = (piece and piece.stripes) or pattern.stripes
    if stripes is None or stripes.order:
        return stripes
    yarns = [yarn for yarn in pattern.yarns if yarn.stock is not None or stripes.kind != "stash"]
    apart = {stripes.between, *stripes.of_kinds.values()}
    order = tuple(yarn.name for yarn in yarns if yarn.name not in apart)
    return replace(stripes, order=order or tuple(stripes.of_kinds.values()))


def heights(stripes: Stripes) -> tuple[int, ...]:
    """The heights in rows that random and stash stripes may have, rising; empty where only even ones are wished and
    there is none between the least and the most."""
    least = stripes.least or min(USUAL_LEAST[stripes.kind == "stash"], stripes.most or USUAL_MOST)
    most = stripes.most or max(USUAL_MOST, least)
    return tuple(h for h in range(least, most + 1) if not (stripes.even and h % 2))


# ---------------------------------------------------------------------------------------------------- the orders


def sequence(stripes: Stripes, rows: int) -> tuple[str, ...]:
    """The name of the yarn of each of ``rows`` rows, from row 1 up; whatever the kind, the last stripe is cut where the
    rows end. ``stripes.order`` must name a yarn. Those from the stash come as a plain list: ``stash`` finds their
    yarns."""
    made: dict[str, Callable[[Stripes, int], Iterator[Run]]] = {
        "mirrored": _mirrored,
        "numbers": _numbers,
        "gradual": _gradual,
        "random": _random,
        "between": _between,
    }
    runs = made.get(stripes.kind, _listed)(stripes, rows)
    return tuple(islice(chain.from_iterable([name] * height for name, height in runs), rows))


def by_kinds(stripes: Stripes, kinds: Sequence[str], others: Sequence[str]) -> tuple[str, ...]:
    """The name of the yarn of each row, from row 1 up, by the ``kinds`` of all rows: that of its kind, or the next of
    the ``others``, which must be enough for the rows that are left."""
    own = stripes.of_kinds
    rest = iter(others)
    return tuple(own[kind] if kind in own else next(rest) for kind in kinds) if own else tuple(others[: len(kinds)])


def rows_left(stripes: Stripes, kinds: Sequence[str]) -> int:
    """How many rows of these ``kinds`` the order goes over: those without a yarn by their kind."""
    return sum(kind not in stripes.of_kinds for kind in kinds)


def _listed(stripes: Stripes, rows: int) -> Iterator[Run]:
    return zip(cycle(stripes.order), cycle(stripes.rows), strict=False)


def _mirrored(stripes: Stripes, rows: int) -> Iterator[Run]:
    """The rows outwards from the middle, and their mirror image."""
    odd, reach = rows % 2, (rows + 1) // 2
    if stripes.begin == "edge":
        outwards = [*islice(_rows_of(_listed(stripes, rows)), reach)][::-1]
    else:
        first, *_ = stripes.rows
        # The stripe across the middle is as odd or even as all rows together, a row higher where it must be.
        half = first // 2 + 1 if odd else (first + 1) // 2
        rest = islice(_listed(stripes, rows), 1, None)
        outwards = [*islice(chain([stripes.order[0]] * half, _rows_of(rest)), reach)]
    # An odd number of rows has a middle row, which stands once.
    return ((name, 1) for name in outwards[odd:][::-1] + outwards)


def _rows_of(runs: Iterator[Run]) -> Iterator[str]:
    return chain.from_iterable([name] * height for name, height in runs)


def fibonacci(most: int) -> tuple[int, ...]:
    """Fibonacci's numbers 1, 1, 2, 3, 5 ... up to ``most``, at least the first two."""
    found = [1, 1]
    while (following := found[-1] + found[-2]) <= most:
        found.append(following)
    return tuple(found)


def _numbers(stripes: Stripes, rows: int) -> Iterator[Run]:
    """Heights after a number run. Crossing: every other yarn's stripes fall while those between them rise, as in
    a published blanket (menwhoknit.com node 5908)."""
    rising = stripes.numbers or fibonacci(stripes.most or FIBONACCI_MOST)
    falling = rising[::-1]
    if stripes.run == "crossing":
        pairs = chain.from_iterable(zip(falling, rising, strict=True))
        return zip(cycle(stripes.order), cycle(tuple(pairs)), strict=False)
    run = {"rising": rising, "falling": falling}.get(stripes.run, rising + falling[1:-1])
    return zip(cycle(stripes.order), cycle(run), strict=False)


def _gradual(stripes: Stripes, rows: int) -> Iterator[Run]:
    """From each yarn to the next, the way from the first to the last shared out evenly."""
    unit = 2 if stripes.even else 1
    ways = list(pairwise(stripes.order)) or [(stripes.order[0],) * 2]
    for (one, other), (start, end) in zip(ways, pairwise(_cuts(rows, len(ways), unit)), strict=True):
        blocks = max(1, round((end - start) / stripes.block))
        for index, (low, high) in enumerate(pairwise(_cuts(end - start, blocks, unit)), 1):
            size = high - low
            share = unit * round(Fraction(size * index, (blocks + 1) * unit))
            share = max(min(unit, size), min(share, size - unit))
            yield one, size - share
            yield other, share


def _cuts(rows: int, parts: int, unit: int) -> list[int]:
    """Where ``rows`` are cut into ``parts`` as even as multiples of ``unit`` allow."""
    return [0, *(unit * round(Fraction(rows * i, parts * unit)) for i in range(1, parts)), rows]


def _random(stripes: Stripes, rows: int) -> Iterator[Run]:
    """Drawn stripes; only ``Random.random`` is used, which gives the same numbers on every Python."""
    from random import Random  # 5 ms, for this kind alone

    draw = Random(stripes.seed)
    order = tuple(dict.fromkeys(stripes.order))
    sizes, last = heights(stripes) or (1,), list[str]()
    while True:
        recent = last[-min(stripes.apart, len(order) - 1) :] if len(order) > 1 else []
        free = [name for name in order if name not in recent]
        last.append(free[int(draw.random() * len(free))])
        yield last[-1], sizes[int(draw.random() * len(sizes))]


def _between(stripes: Stripes, rows: int) -> Iterator[Run]:
    for index, run in enumerate(_listed(stripes, rows), 1):
        yield run
        if stripes.between and index % stripes.every == 0:
            yield stripes.between, stripes.between_rows


def written(plan: Plan, name: str) -> Piece:
    """The piece called ``name`` as the maker wrote it; KeyError where there is none."""
    for piece in plan.pattern.pieces:
        if piece.name == name:
            return piece
    raise KeyError(name)


def begin_of(plan: Plan, name: str) -> int:
    """The row of the stripes, from 1, that row 1 of the piece called ``name`` takes."""
    return written(plan, name).stripes_begin or 1


# ------------------------------------------------------------------------------------------ pieces that are sewn


@frozen
class Meeting:
    """Two pieces sewn together along the ends of their rows: ``rows`` that lie side by side from row 1,
    ``differing`` of them in different yarns; ``shift`` by how many rows the second piece's stripes come too early
    (negative: too late), None where they meet or no shift helps; ``over`` rows more in the first piece (negative: in
    the second)."""

    first: str
    second: str
    rows: int
    differing: int
    shift: int | None
    over: int


def seamed(plan: Plan) -> tuple[tuple[str, str], ...]:
    """The names of the pieces that are sewn along the ends of their rows, by `faces` or by a seam, pair by pair; each
    pair once, no piece with itself."""
    named = {piece.name for piece in plan.pieces}
    pairs = [(p.faces, p.name) for p in plan.pattern.pieces if p.faces in named and p.faces is not None]
    for seam in plan.pattern.seams:
        (one, first), (other, second) = (edge.rpartition(".")[::2] for edge in seam.join)
        if {one, other} <= named and _row_ends(plan, one, first) and _row_ends(plan, other, second):
            pairs.append((one, other))
    kept: dict[frozenset[str], tuple[str, str]] = {}
    for pair in pairs:
        if pair[0] != pair[1]:
            kept.setdefault(frozenset(pair), pair)
    return tuple(kept.values())


def _row_ends(plan: Plan, name: str, edge: str) -> bool:
    piece = plan.piece(name)
    stretches = {part.name for part in piece.stretches}
    return edge in _ROW_ENDS or edge in stretches or (edge == "shoulder" and piece.worked == "sideways")


def sharing(plan: Plan, name: str) -> set[str]:
    """The names of the pieces that share one run of stripes with the one called ``name``, itself among them: those
    striped alike that are sewn to it, or to another of them."""
    found, pairs = {name}, seamed(plan)
    stripes = stripes_of(plan.pattern, written(plan, name))
    while True:
        more = {a for pair in pairs if found & set(pair) for a in pair} - found
        alike = {one for one in more if stripes_of(plan.pattern, written(plan, one)) == stripes}
        if not alike:
            return found
        found |= alike


def meetings(plan: Plan) -> tuple[Meeting, ...]:
    """How the stripes of a coloured plan meet on every pair of pieces of ``seamed``, in that order."""
    return tuple(_meeting(plan.piece(one), plan.piece(other)) for one, other in seamed(plan))


def _meeting(one: PiecePlan, other: PiecePlan) -> Meeting:
    first = [row.colour for row in one.row_levels]
    second = [row.colour for row in other.row_levels]
    rows = min(len(first), len(second))
    differing = sum(a != b for a, b in zip(first, second, strict=False))
    shift = _shift(first, second, rows // 2) if differing else None
    return Meeting(one.name, other.name, rows, differing, shift, len(first) - len(second))


def _shift(first: list[str | None], second: list[str | None], most: int) -> int | None:
    """By how many rows ``second`` comes too early (negative: too late) for ``first``; None where no shift of at
    most ``most`` rows brings all the rows that then lie side by side together."""
    for size in range(1, most + 1):
        for shift in (size, -size):
            early, late = (second, first[shift:]) if shift > 0 else (first, second[-shift:])
            if all(a == b for a, b in zip(early, late, strict=False)):
                return shift
    return None


def lines(plan: Plan) -> list[str]:
    """Where stripes of a coloured plan do not meet at a seam without a wish, and yarns that no row uses and of which
    nothing is kept back: lines in English."""
    told = [words for meeting in meetings(plan) if not _wished(plan, meeting) for words in _told(plan, meeting)]
    used = {row.colour for piece in plan.pieces for row in piece.rows}
    if plan.pattern.edgings:
        from turnchain.garment.edging import grams  # all about seams and edges: few patterns have edgings

        used |= {yarn.name for yarn in grams.areas(plan) if yarn}
    for yarn in plan.pattern.yarns:
        if yarn.name not in used and not yarn.keep:
            told.append(f"{yarn.name} is in no row: leave it out, or add it to the order of the stripes")
    return told


def _wished(plan: Plan, meeting: Meeting) -> bool:
    """Whether the maker says how stripes should meet at a seam of these pieces: the module ``meeting`` reports on it
    then."""
    pieces = {meeting.first, meeting.second}
    return any(
        seam.stripes and {edge.rpartition(".")[0] for edge in seam.join} == pieces for seam in plan.pattern.seams
    )


def _told(plan: Plan, meeting: Meeting) -> Iterator[str]:
    one, other = meeting.first, meeting.second
    if meeting.differing:
        words = f"{one} and {other}: the stripes do not meet in {meeting.differing} of the {meeting.rows} rows"
        if meeting.shift is not None:
            own = stripes_of(plan.pattern, written(plan, other))
            early = "early" if meeting.shift > 0 else "late"
            words += f"; those of {other} come {abs(meeting.shift)} {_rows(meeting.shift)} too {early}"
            begin = begin_of(plan, other) - meeting.shift
            mends = begin >= 1 and not (own and own.of_kinds)
            words += f" (stripes_begin = {begin} there would mend it)" if mends else ""
        yield words
    if meeting.over:
        longer = one if meeting.over > 0 else other
        yield (
            f"{one} and {other}: {longer} has {abs(meeting.over)} {_rows(meeting.over)} more, so past row "
            f"{meeting.rows} there is no stripe to meet"
        )


def _rows(count: int) -> str:
    return "row" if abs(count) == 1 else "rows"
