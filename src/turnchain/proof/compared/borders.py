"""The border of every open edge, counted again on the cloth: 2 to a row of dc, 1 to every stitch and chain.

In: the worked pieces, the seams of the report, the written pattern's lines about the border. Out: how many figures were
looked at, and reasons, in words. An edge that seams take a part of is walked where they leave it; what lies along a row
is known there to half a cluster, since seams tell it so.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise, takewhile
from math import ceil

from turnchain.proof.cloth.edges import EdgePart, Stretch, WorkedCloth
from turnchain.proof.compared.sewn import candidates
from turnchain.proof.compared.yarns import Weighing
from turnchain.proof.hook.stitches import SPACES
from turnchain.proof.printed.lengths import LENGTH, length, shown
from turnchain.proof.printed.report import SeamSaid, SideSaid

_SC = r"(?:sc|dc)"
_LINE = re.compile(
    rf"(?P<name>.+?)(?:, (?P<times>\d+) times)?: (?P<sides>.*): (?P<all>\d+) {_SC} in all, (?P<long>{LENGTH}) long"
)
_SIDE = re.compile(rf"(?P<edge>.+?)(?:, (?P<times>\d+) times)? (?P<n>\d+) {_SC} \((?P<how>[^()]*)\)")
_CORNERS = re.compile(r"(\d+) in (?:the|each of (\d+)) corners?")
_IN_A_CORNER = 3  # a published answer, as the program's own count has it
_TO_A_ROW_END = 2
_MOST_CUTS = 4  # stretches of one edge that seams take
_TIE = 1e-4  # of a stitch
_HEIGHT = 0.5  # of a row of dc, from memory: a round of sc


@dataclass(frozen=True, slots=True)
class Way:
    """A way in which an edge may lie open: ``stitches`` to work along it, ``near``: give or take, over
    ``cm``."""

    stitches: int
    near: int
    cm: float


def lines(pieces: dict[str, WorkedCloth], seams: Sequence[SeamSaid], said: Sequence[str]) -> tuple[int, list[str]]:
    """How many figures of borders were looked at, and what is wrong in them; ``said`` are the pattern's lines."""
    looked, wrong = 0, []
    for line in said:
        found = _LINE.fullmatch(line)
        if found is not None:
            figures, reasons, _ = _border(pieces, seams, found)
            looked += figures
            wrong += [f'"{line[:60]}": {reason}' for reason in reasons]
    return looked, wrong


def held(
    pieces: dict[str, WorkedCloth],
    seams: Sequence[SeamSaid],
    said: Sequence[str],
    reported: Sequence[str],
    scale: Weighing,
) -> tuple[int, list[str]]:
    """The same with what a border takes, which the lines ``reported`` tell as well."""
    looked, wrong = lines(pieces, seams, said)
    weighed = grams(pieces, seams, said, scale)
    for line in (*said, *reported) if weighed is not None and not wrong else ():
        for told in re.finditer(r"(?:on every edge named: about|write keep =|takes about) (\d+)\b", line):
            looked += 1
            if abs(int(told[1]) - (weighed or 0)) > max(1, (weighed or 0) // 20):  # a part of a row: to half a cluster
                wrong.append(f"a border: {told[0]} g are printed, {weighed} g reckoned")
    return looked, wrong


def grams(
    pieces: dict[str, WorkedCloth], seams: Sequence[SeamSaid], said: Sequence[str], scale: Weighing
) -> int | None:
    """Grams for one round of every border that is told, rounded up; None where no swatch was weighed."""
    if scale.dense is None:
        return None
    long = sum(
        _border(pieces, seams, found)[2] * int(found["times"] or 1)
        for line in said if (found := _LINE.fullmatch(line))
    )  # fmt: skip
    row = float(next(iter(pieces.values())).tape.dc_row)
    return ceil(long * _HEIGHT * row * float(scale.dense * scale.more) - 1e-9)


def _border(
    pieces: dict[str, WorkedCloth], seams: Sequence[SeamSaid], found: re.Match[str]
) -> tuple[int, list[str], float]:
    """The figures of one border, what is wrong with them, and how long it is in cm."""
    wrong: list[str] = []
    looked, whole, long, near = 2, 0, 0.0, 0.0
    for words in found["sides"].split("; "):
        if corners := _CORNERS.fullmatch(words):
            whole += int(corners[1]) * int(corners[2] or 1)
            continue
        side, looked = _SIDE.fullmatch(words), looked + 1
        cloth, edge = placed(pieces, found["name"], side["edge"]) if side else (None, "")
        if side is None or cloth is None:
            wrong.append(f'"{words}" names no edge')
            continue
        rate = re.match(r"(\d+) in each ", side["how"])
        if rate and int(rate[1]) != (_TO_A_ROW_END if "row end" in side["how"] else 1):
            wrong.append(f"{words}: {rate[0].strip()} is not what was counted")
        times = int(side["times"] or 1)
        whole += times * int(side["n"])
        if "foundation" in side["how"] and int(found["times"] or 1) > _begun_alike(pieces, cloth):
            wrong.append(f"{words}: not at all {found['times']} is that a chain")
        ways = list(_ways(cloth, edge, seams, side["how"]))
        corner = 0 if "row end" in side["how"] else 2  # the end stitch of a chain or a row is worked with its corner
        fits = [one for one in ways if -corner - one.near <= int(side["n"]) - one.stitches <= one.near]
        if not fits:
            wrong.append(f"{words}; {' or '.join(str(one.stitches) for one in ways[:6]) or 'none'} counted")
            continue
        least, most = min(one.cm for one in fits), max(one.cm for one in fits)
        long += times * (least + most) / 2
        near += times * ((most - least) / 2 + one_half(cloth) * any(one.near for one in fits))
    if whole != int(found["all"]):
        wrong.append(f"{found['all']} in all; the sum is {whole}")
    told = length(found["long"])
    if not wrong and not told.tapes(long, near):
        wrong.append(f"{told} long; it measures {shown(long, told.unit)}")
    return looked, wrong, long


def _begun_alike(pieces: dict[str, WorkedCloth], cloth: WorkedCloth) -> int:
    """How many chains there are as wide as that of a piece: its copies', and those of its mirror image."""
    width = cloth.rows[0].right.at - cloth.rows[0].left.at
    return sum(one.count for one in pieces.values() if one.rows[0].right.at - one.rows[0].left.at == width)


def one_half(cloth: WorkedCloth) -> float:
    """Half a cluster in cm."""
    return float(cloth.tape.half)


def placed(pieces: dict[str, WorkedCloth], name: str, edge: str) -> tuple[WorkedCloth | None, str]:
    """The piece that an edge is told of, in its own name or in that of the border."""
    for words in (edge, name):
        for piece in sorted(pieces, key=len, reverse=True):
            if words.casefold().startswith(f"{piece.casefold()}, "):
                return pieces[piece], edge[len(piece) + 2 :] if words is edge else edge
    return None, edge


# ------------------------------------------------------------------------------------------------ what lies open


def _ways(cloth: WorkedCloth, called: str, seams: Sequence[SeamSaid], how: str) -> Iterator[Way]:
    """Every way in which an edge of this name may lie open: whole, or without what some of the seams take."""
    if "row end" in how:
        yield from (_row_ends(cloth, parts) for parts in open_row_ends(cloth, called, seams))
    else:
        yield from open_across(cloth, called, seams)


def open_row_ends(cloth: WorkedCloth, called: str, seams: Sequence[SeamSaid]) -> Iterator[list[EdgePart]]:
    """The parts of an edge of this name in every way in which its row ends may lie open."""
    if _along_a_front(cloth, called):  # along a row the neck edge is that of a last row
        taken = [side for side in _all_sides(seams) if any(of.startswith(f"{cloth.name}.") for of in side.edges)]
        for side in ("left", "right"):
            yield from _along_row_ends(_of_a_front(cloth.edges[side][0], called), taken)
        return
    for edge, taken in _edges_called(cloth, called, seams):
        for run in cloth.edges.get(edge, ()):
            yield from _along_row_ends(run, taken)


def open_across(cloth: WorkedCloth, called: str, seams: Sequence[SeamSaid]) -> Iterator[Way]:
    """Every way in which what lies along a row may lie open, of an edge of this name."""
    for edge, taken in _edges_called(cloth, called, seams):
        for nth, run in enumerate(cloth.edges.get(edge, ())):
            if run.across:
                yield from _along_a_row(cloth, run, _wide(cloth, edge, nth), taken)


def _along_a_front(cloth: WorkedCloth, called: str) -> bool:
    return called in _OF_A_FRONT and cloth.upper is None and "neck" not in cloth.edges


def _edges_called(
    cloth: WorkedCloth, called: str, seams: Sequence[SeamSaid]
) -> Iterator[tuple[str, list[SideSaid]]]:
    """The edges that may be called so, each with the sides of seams that lie along it."""
    others = ["shoulder"] if called in _OF_A_SHOULDER else _SIDES if called == "lower edge" else []
    for edge in dict.fromkeys([*candidates(cloth, called), *others]):
        yield edge, [
            side for seam in seams for side in seam.each
            for name, _, of in [one.rpartition(".") for one in side.edges] if name == cloth.name and of == edge
        ]  # fmt: skip


_SIDES = ["left", "right", "first", "last"]  # with a slit, which stays open with the lower edge


_OF_A_SHOULDER = ("cuff", "upper edge")  # of a piece that is no body, and has a neck


_OF_A_FRONT = ("front edge", "neck edge")  # of half a front that opens


def _all_sides(seams: Sequence[SeamSaid]) -> list[SideSaid]:
    return [side for seam in seams for side in seam.each]


def _of_a_front(run: Stretch, called: str) -> Stretch:
    """The edge in the middle of half a front: straight up from row 1, and from where it is first shaped the neck."""
    straight = len(list(takewhile(lambda part: part.upright and not part.level, run.parts)))
    return Stretch(run.parts[:straight] if called == "front edge" else run.parts[straight:])


def _along_row_ends(run: Stretch, taken: Sequence[SideSaid]) -> Iterator[list[EdgePart]]:
    sewn = [set(range(min(side.rows), max(side.rows) + 1)) for side in taken if side.rows]
    for count in range(len(sewn) + 1):
        for some in combinations(sewn, count):
            away = set().union(*some)
            for parts in _pieces_of(run, away):
                yield parts
                if away and parts[0].level and len(parts) > 1:  # a step may be sewn with the rows below it
                    yield parts[1:]


def _pieces_of(run: Stretch, away: set[int]) -> Iterator[list[EdgePart]]:
    """What is left of a stretch without some of its rows, piece by piece."""
    left: list[EdgePart] = []
    for part in run.parts:
        if part.row in away:
            if left:
                yield left
            left = []
        else:
            left.append(part)
    if left:
        yield left


def _row_ends(cloth: WorkedCloth, parts: Sequence[EdgePart]) -> Way:
    row, half = float(cloth.tape.dc_row), float(cloth.tape.half)
    upright = sum(part.long(cloth.tape) for part in parts if not part.level)
    level = sum(abs(part.head - part.foot) for part in parts if part.level)
    steps = round(level * to_a_half(cloth))
    exact = upright * _TO_A_ROW_END / row
    stitches = round(exact) + steps
    tie = abs(exact % 1 - 0.5) < _TIE  # a millionth of a cm then decides
    near = ceil(2 * to_a_half(cloth)) if level else int(tie)
    return Way(stitches, near, upright + level * half)


def _along_a_row(cloth: WorkedCloth, run: Stretch, wide: int | None, taken: Sequence[SideSaid]) -> Iterator[Way]:
    """Along all of a row of ``wide`` stitches (None: along a part of one), or what seams leave of it."""
    if wide is not None:
        yield Way(wide, 0, run.across * one_half(cloth))
    else:
        yield Way(round(run.across * to_a_half(cloth)), ceil(2 * to_a_half(cloth)) + 1, run.across * one_half(cloth))
    cuts = sorted({(2 * (side.clusters or 0.0), 2 * side.inset) for side in taken if side.clusters})
    found = [(low, low + long) for long, low in cuts]
    found += [(run.across - high, run.across - low) for low, high in found]
    for count in range(1, min(len(found), _MOST_CUTS) + 1):
        for some in combinations(found, count):
            for across in _between(run.across, some):
                near = ceil(2 * to_a_half(cloth)) + 1
                yield Way(round(across * to_a_half(cloth)), near, across * one_half(cloth))


def _between(across: float, taken: Sequence[tuple[float, float]]) -> Iterator[float]:
    """How long what is left of an edge is, part by part, without stretches that are taken; none where these overlap by
    more than half a cluster."""
    ends = [(0.0, 0.0), *sorted(taken), (across, across)]
    gaps = [after[0] - before[1] for before, after in pairwise(ends)]
    if min(gaps) >= -1:
        yield from (gap for gap in gaps if gap > 0)


def _wide(cloth: WorkedCloth, edge: str, nth: int) -> int | None:
    """The stitches of the row that the ``nth`` run of an edge lies along, or the chains under it; None of a neck, which
    lies along a part of a row."""
    if edge == "first":
        return cloth.rows[0].wide
    return None if edge == "neck" else (cloth.parts[1:] or cloth.parts)[nth][-1].wide


def to_a_half(cloth: WorkedCloth) -> float:
    """Stitches and chains to half a cluster with its gap: from a cluster to the next, in the widest row. Where each row
    has one alone, by all of that row."""
    row = max(cloth.rows, key=lambda row: row.right.at - row.left.at)
    if row.clusters < 2:
        return (row.wide - 1) / (row.right.at - row.left.at)
    first, second = (next(nth for nth, spot in enumerate(row.spots) if spot.cluster == one) for one in (0, 1))
    stitches = sum(spot.chains if spot.what in SPACES else 1 for spot in row.spots[first:second])
    return stitches / abs(row.centres[1] - row.centres[0])
