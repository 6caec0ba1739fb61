"""Wishes for the stripes at a seam: what the report says of each, held against the yarns of the rows that meet there.

In: the worked pieces, the wishes of the pattern file, the seams of the report as read. Out: how many figures were
looked at, and reasons, in words. Which rows lie side by side follows from the edges: laid out with their right sides
up, a left edge meets a right one with rows going the same way; of two alike one piece is turned.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from turnchain.proof.cloth.edges import WorkedCloth
from turnchain.proof.compared.striped import levels
from turnchain.proof.printed.report import SeamSaid, SideSaid

_Pairs = tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class WishAsked:
    """A seam of the pattern file with a wish: the two edges as "piece.edge", and whether stripes should "meet" or
    "differ" there."""

    join: tuple[str, str]
    wish: str


@dataclass(frozen=True, slots=True)
class _Met:
    """Rows that lie side by side at the seam called ``letter``, of the pieces ``names``, and the ``off`` of them that
    are not as wished."""

    letter: str
    wish: str
    names: tuple[str, str]
    pairs: _Pairs
    off: _Pairs


_WARNING = re.compile(
    r"seam (?P<letter>\w+): stripes should (?P<wish>meet|differ) there, and do not in (?P<n>\d+) rows?"
)
_KEPT = {"meet": "the same yarn meets itself in every row", "differ": "different yarns meet in every row"}
_BROKEN = {"meet": "different yarns meet", "differ": "a yarn meets itself"}
_ROWS = r"rows? (\d+)(?: to (\d+))?"


def is_warning(line: str) -> bool:
    """Whether a warning, "warning: " taken off, is about such a wish."""
    return _WARNING.fullmatch(line) is not None


def lines(
    pieces: Mapping[str, WorkedCloth], asked: Sequence[WishAsked], seams: Sequence[SeamSaid],
    begins: Mapping[str, int], said: Sequence[str], warnings: Sequence[str],
) -> tuple[int, list[str]]:  # fmt: skip
    """What is wrong in the lines under "stripes" about seams, and in the ``warnings`` about them; ``begins``: the row
    of the stripes that row 1 of each piece takes."""
    met = list(dict.fromkeys(one for wish in asked for one in _met(pieces, wish, seams)))
    met.sort(key=lambda one: [seam.letter for seam in seams].index(one.letter))
    told = [line for line in said if re.match(r"seam \w+, ", line)]
    wrong = [reason for pair in zip_longest(met, told) for reason in _line(*pair, begins)]
    wished = Counter((one.letter, one.wish, len(one.off)) for one in met if one.off)
    warned = Counter((found["letter"], found["wish"], int(found["n"])) for line in warnings
                     if (found := _WARNING.fullmatch(line)))  # fmt: skip
    for why, of in (("that does not hold", warned - wished), ("that is missing", wished - warned)):
        wrong += [f"seam {letter}: a warning {why}: {wish}, not in {rows} rows" for letter, wish, rows in of]
    return sum(2 + 2 * len(one.off) for one in met), wrong


def _met(pieces: Mapping[str, WorkedCloth], asked: WishAsked, seams: Sequence[SeamSaid]) -> Iterator[_Met]:
    for seam in seams:
        if [*seam.sides[0].edges, *seam.sides[1].edges] not in ([*asked.join], [*asked.join[::-1]]):
            continue
        names = tuple(side.edges[0].rpartition(".")[0] for side in seam.sides)
        one, other = (levels(pieces[name]) for name in names)
        pairs = tuple(_pairs(pieces, seam))
        off = tuple(
            (first, second) for first, second in pairs
            if (one[first - 1] == other[second - 1]) != (asked.wish == "meet")
        )  # fmt: skip
        yield _Met(seam.letter, asked.wish, (names[0], names[1]), pairs, off)


def _pairs(pieces: Mapping[str, WorkedCloth], seam: SeamSaid) -> list[tuple[int, int]]:
    """The rows that meet, as far as both have rows: from the foundation on or, at a second shoulder and below one, from
    the last row."""
    (one, first), (other, second) = (_rows(pieces, side) for side in seam.sides)
    if first == second:
        other.reverse()
    high = pieces[seam.sides[0].edges[0].rpartition(".")[0]].high
    if one and one[0] > 1 and one[-1] == high:
        short = min(len(one), len(other))
        one, other = one[len(one) - short :], other[len(other) - short :]
    return list(zip(one, other, strict=False))


def _rows(pieces: Mapping[str, WorkedCloth], side: SideSaid) -> tuple[list[int], str]:
    """The rows of a side upwards, and at which side of the work it lies."""
    name, _, edge = side.edges[0].rpartition(".")
    upper = pieces[name].upper or "right"
    lower = "left" if upper == "right" else "right"
    at = {"left": "left", "right": "right", "lower": lower}.get(edge, upper)
    return list(range(min(side.rows), max(side.rows) + 1)) if side.rows else [], at


def _line(met: _Met | None, line: str | None, begins: Mapping[str, int]) -> Iterator[str]:
    """What is wrong with one line about a seam (None: there is none)."""
    if met is None or line is None:
        yield f'"{line}" is printed, and no such wish is given' if line else f"nothing is said of the wish for {met}"
        return
    head = f"seam {met.letter}, {met.names[0]} to {met.names[1]}: "
    told = line.removeprefix(head)
    if told == line:
        yield f'"{line}" is not about seam {met.letter}'
    elif not met.pairs:
        if told != f"no row ends lie side by side there, so stripes cannot {met.wish}":
            yield f'"{line}" is printed, and no row ends meet there'
    elif not met.off:
        if told != _KEPT[met.wish] + _begun(met, begins):
            yield f'"{line}" is printed; all rows are as wished{_begun(met, begins)}'
    else:
        yield from (f'"{line}": {reason}' for reason in _broken(met, told))


def _begun(met: _Met, begins: Mapping[str, int]) -> str:
    later = {name: begins[name] for name in met.names if begins[name] > 1}
    told = "; ".join(f"{name} has stripes_begin = {begin}" for name, begin in later.items())
    return f" ({told})" if told else ""


def _broken(met: _Met, told: str) -> Iterator[str]:
    head = re.match(rf"{_BROKEN[met.wish]} in (\d+) rows? of (\d+): ", told)
    if head is None or (int(head[1]), int(head[2])) != (len(met.off), len(met.pairs)):
        yield f"{len(met.off)} rows of {len(met.pairs)} are not as wished"
        return
    span = re.compile(rf"{_ROWS}(?: \({re.escape(met.names[1])}: {_ROWS}\))?(?:, |$)")
    rest, rows = told[head.end() :], []
    while found := span.match(rest):
        one, other = _listed(found[1], found[2]), _listed(found[3] or found[1], found[4] if found[3] else found[2])
        rows += list(zip_longest(one, other))
        rest = rest[found.end() :]
    if rest or rows != list(met.off):
        yield f"the rows that are not as wished are {met.off}"


def _listed(first: str, last: str | None) -> list[int]:
    """The numbers from first to last, up or down."""
    low, high = int(first), int(last or first)
    return list(range(low, high + 1)) if low <= high else list(range(low, high - 1, -1))
