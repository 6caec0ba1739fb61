"""Every seam as it is told, walked on the cloth stitch by stitch along both its sides.

In: the worked pieces and seams as printed. Out: reasons, in words: a stretch that no such edge has, a length that is
another, sides said to agree that do not, a seam that runs over a step of the edge (there an armhole begins), an edge
sewn twice over.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Sequence
from fractions import Fraction

from turnchain.proof.cloth.edges import Stretch, WorkedCloth
from turnchain.proof.printed.lengths import Length, shown
from turnchain.proof.printed.report import SeamSaid, SideSaid

Pieces = dict[str, WorkedCloth]


def seams(pieces: Pieces, said: Sequence[SeamSaid], assumed: bool) -> Iterator[str]:
    """What is wrong with the seams as told on ``pieces`` (by name); ``assumed``: they are not written in the pattern
    file, where a maker may have an edge sewn twice."""
    for seam in said:
        told = [_side(pieces, seam, nth) for nth in (0, 1)]
        found = [reason for reasons, _ in told for reason in reasons]
        if not found:  # a name may be that of several edges: all is well if it is with one of them
            tried = [list(_agreement(pieces, seam, one, other)) for one in told[0][1] for other in told[1][1]]
            found = [*min(tried, key=len), *_often(pieces, seam, said, assumed)]
        yield from (f"seam {seam.letter}, {seam.kind}: {reason}" for reason in found)
    known = [seam for seam in said if all(edge.rpartition(".")[0] in pieces for edge in _edges(seam))]
    if assumed:
        yield from _sewn_twice(pieces, known)


def _often(pieces: Pieces, seam: SeamSaid, said: Sequence[SeamSaid], assumed: bool) -> Iterator[str]:
    """Whether a seam that closes a sleeve, or joins a panel to the next, is told as often as there are such pieces: in
    one line, or in one of those ``said`` for each side."""
    (one, *more), (other, *others) = (side.edges for side in seam.sides)
    (name, _, left), (its, _, right) = one.rpartition("."), other.rpartition(".")
    sides = {left.removesuffix(" edge"), right.removesuffix(" edge")} == {"left", "right"}
    panels = assumed and seam.kind == "side" and sides
    alone = name == its and not (more or others)
    both = {one, other}
    times = sum(one.times for one in said if one.kind == seam.kind and {*_edges(one)} == both)
    if alone and (seam.kind == "sleeve" or panels) and times != pieces[name].count:
        yield f"it is told {times} times of {pieces[name].count} pieces"


def _edges(seam: SeamSaid) -> tuple[str, ...]:
    return (*seam.sides[0].edges, *seam.sides[1].edges)


Walked = tuple[int | None, float]  # rows (None where it runs along a row) and cm


#: The edges of the cloth that may be called so in words; left and right of a body are the wearer's.
_CALLED: dict[str, tuple[str, ...]] = {
    "shoulder": ("shoulder", "upper", "last"),
    "side": ("left", "right", "first", "last"),
    "side below the armhole": ("left", "right", "first", "last"),
    "armhole": ("left", "right", "first", "last"),
    "both shoulders": ("shoulder", "upper", "last"),
    "both sides": ("left", "right", "first", "last"),
    "both sides below the armholes": ("left", "right", "first", "last"),
    "both armholes": ("left", "right", "first", "last"),
    "neck edge": ("neck", "upper", "last"),
    "lower edge": ("lower", "first"),
    "upper edge": ("upper", "last"),
    "sleeve top": ("first", "last", "upper", "lower"),
    "sleeve cap": ("cap",),
    "edge under the arm": ("left", "right", "first", "last"),
    "cuff": ("first", "last", "upper", "lower"),
    "first row": ("first",),
    "last row": ("last",),
    "left edge": ("left",),
    "right edge": ("right",),
}


def _side(pieces: Pieces, seam: SeamSaid, nth: int) -> tuple[list[str], list[Walked]]:
    """What is wrong with one side, and what its first edge measures, of all that may be called so; sides told together
    are alike."""
    side, reasons = seam.sides[nth], []
    walked: list[Walked] = [(None, 0.0)]
    for edge in reversed(side.edges):
        name, _, called = edge.rpartition(".")
        if name not in pieces:
            reasons.append(f"{edge}: no piece is called {name}")
            continue
        tried = [
            _one_edge(pieces[name], of, seam, nth, alone)
            for of in candidates(pieces[name], called)
            for alone in (None, *(range(len(pieces[name].edges.get(of, ()))) if of == "neck" else ()))
        ]
        walked = [long for wrong, long in tried if not wrong]
        reasons += [] if walked else [f"{edge}{reason}" for reason in tried[0][0]]
    return reasons, walked


def candidates(piece: WorkedCloth, called: str) -> list[str]:
    """The edges of a piece that may be meant by a name."""
    if called in piece.edges:
        return [called]
    if called in ("cap", "sleeve cap"):
        return ["cap"]
    hand, _, plain = called.partition(" ")
    if "armhole" in (called, plain) and "armhole" in piece.edges:
        return ["armhole"]
    if called == "front edge" and piece.parts_up is not None and piece.parts_up.opens:
        return [piece.parts_up.opens]
    names = _CALLED.get(called) or (_CALLED.get(plain, ()) if hand in ("left", "right") else ())
    if plain in _AT_A_SIDE and (of := _at_hand(piece, hand)):
        names = (of,)
    return [name for name in names if name in piece.edges] or [called]


_AT_A_SIDE = ("side", "side below the armhole", "armhole")


def _at_hand(piece: WorkedCloth, hand: str) -> str | None:
    """The edge at the wearer's left or right of a piece whose name says where it is worn: what is at the right of a
    front, seen from outside, is at the wearer's left. None where the name does not say."""
    front, back = (re.search(rf"(?<![^\W_]){word}s?(?![^\W_])", piece.name.casefold()) for word in ("front", "back"))
    if bool(front) == bool(back):
        return None
    at_right = (hand == "left") == bool(front)
    # turned with its upper side up, row 1 of a piece worked sideways lies where its upper side was
    seen = {None: ("left", "right"), "right": ("last", "first"), "left": ("first", "last")}[piece.upper]
    return seen[at_right]


def _one_edge(piece: WorkedCloth, edge: str, seam: SeamSaid, nth: int, alone: int | None) -> tuple[list[str], Walked]:
    """What is wrong with one side if it is this edge, and what it measures; both sides of a neck between two parts have
    the same rows, which then are told of both and the bottom between, or of one (``alone``)."""
    side, told = seam.sides[nth], seam.lengths[nth] if seam.lengths else None
    found = stretch_told(piece, edge, side, seam.kind, alone)
    if isinstance(found, str):
        return [f": {found}"], (None, 0.0)
    walked: Walked = (len(found.rows) if side.rows else None, found.long(piece.tape))
    if told and not told.says(walked[1], _near(piece, side)):
        return [f" is told as {told}; it measures {shown(walked[1], told.unit)}"], walked
    if seam.taped and not seam.taped[nth].tapes(walked[1], _near(piece, side)):
        return [f" is told as {seam.taped[nth]}; it measures {shown(walked[1], seam.taped[nth].unit)}"], walked
    if told and not side.rows:
        walked = (None, float(told.cm))  # clusters are told to a half, their length to a hundredth
    return [], walked


def _near(piece: WorkedCloth, side: SideSaid) -> float:
    """How exactly a stretch is told: row ends to the stitch, clusters to half of one."""
    return 0.002 if side.rows else float(piece.tape.half) / 2


def _told_near(pieces: Pieces, seam: SeamSaid) -> float:
    """How far off, in cm, the difference of both sides can be: a side along a row is known by its length in hundredths
    or, where none is told, by its clusters."""
    if not seam.lengths:
        return sum(_near(pieces[side.edges[0].rpartition(".")[0]], side) for side in seam.sides)
    hundredth = float(Length(Fraction(1, 100), seam.lengths[0].unit).cm)
    return hundredth if any(side.rows is None for side in seam.sides) else 0.0


def stretch_told(
    piece: WorkedCloth, edge: str, side: SideSaid, kind: str, alone: int | None = None
) -> Stretch | str:
    """The stretch of an edge that a side names; or why there is none."""
    if edge == "cap":
        return _cap(piece, side)
    runs = piece.edges.get(edge)
    if runs is None:
        return "the cloth has no such edge"
    whole = edge == "neck" and alone is None
    runs = runs if alone is None else (runs[alone],)
    if side.rows is None:
        assert side.clusters is not None, "a side has rows or clusters"
        halves = round(2 * side.clusters)
        if halves != 2 * side.clusters:
            return f"{side.clusters:g} clusters are told, which are no halves"
        if halves > sum(run.across for run in runs) + 1:
            return f"{side.clusters:g} clusters are told, which it does not have"
        of_shoulders = kind == "shoulder" and (edge == "shoulder" or piece.slopes)
        if of_shoulders and not any(abs(run.across - halves) <= 1 for run in runs):
            return f"{side.clusters:g} clusters are told of a shoulder of {runs[0].across / 2:g}"
        return Stretch(across=halves)
    low, high = sorted(side.rows)
    found = _rows(runs, low, high) if whole else None
    found = found or next((part for run in runs if (part := _between(run, low, high, side.step))), None)
    if found is None:
        return f"rows {low} to {high} do not end in it"
    if found.across + _level(found) != round(2 * side.step):
        return f"rows {low} to {high} are sewn over a step of the edge that is not told so"
    if edge == "shoulder" == kind and len(runs) > 1 and not any(run.rows == found.rows for run in runs):
        return f"rows {low} to {high} are told of a shoulder of {' or '.join(str(len(run.rows)) for run in runs)} rows"
    return found


def _cap(piece: WorkedCloth, side: SideSaid) -> Stretch | str:
    """Half of the top of a sleeve with a cap, at either edge: a step under the arm, row ends up to the last row, and
    half of that row."""
    if side.rows is None or max(side.rows) != piece.high or "last" not in piece.edges:
        return "a cap goes up to the last row"
    (top,) = piece.edges["last"]
    low, halves = min(side.rows), (top.across // 2, top.across - top.across // 2)
    for name in ("left", "right"):
        for whole in _from_arm(piece.edges[name][0], low, piece.high):
            told = round(2 * side.step) - _level(whole)
            if told in halves:
                return Stretch(whole.parts, told)
    return f"{side.step:g} clusters are told of the step under the arm and half of the last row"


def _from_arm(run: Stretch, low: int, high: int) -> Iterator[Stretch]:
    """Row ends ``low`` to ``high`` and the steps between them, with the step under the arm and without it."""
    if inner := run.between(low, high):
        yield Stretch(tuple(part for part in run.parts if part.level and part.row == low) + inner.parts)
        yield inner


def _between(run: Stretch, low: int, high: int, step: float) -> Stretch | None:
    """Row ends ``low`` to ``high`` of a stretch; with the level ways before and after them where so much of a ``step``
    is told."""
    inner = run.between(low, high)
    if inner is None:
        return None
    before = tuple(part for part in run.parts if part.level and part.row == low)
    after = tuple(part for part in run.parts if part.level and part.row == high + 1)
    tried = [inner, Stretch(before + inner.parts), Stretch(inner.parts + after), Stretch(before + inner.parts + after)]
    return next((one for one in tried if _level(one) == round(2 * step)), inner)


def _level(one: Stretch) -> int:
    return sum(abs(part.head - part.foot) for part in one.parts if part.level)


def _rows(runs: Sequence[Stretch], low: int, high: int) -> Stretch | None:
    """A whole neck, down one side, along the bottom and up the other, where it has just these rows."""
    rows = {row for run in runs for row in run.rows}
    whole = Stretch(tuple(part for run in runs for part in run.parts), sum(run.across for run in runs))
    return whole if rows == set(range(low, high + 1)) else None


def _agreement(pieces: Pieces, seam: SeamSaid, one: Walked, other: Walked) -> Iterator[str]:
    """What is said of how both sides agree."""
    near = max(0.01, _told_near(pieces, seam))
    off = abs(one[1] - other[1])
    if seam.agree == "row for row" and one[0] != other[0]:
        yield f"they are said to agree row for row; {one[0]} rows meet {other[0]}"
    # In the report, beside the lengths, the difference is exact; for customers it is that of lengths as a tape is read.
    if seam.more is not None and not (_is_between(seam) if seam.taped else seam.more.says(off, near)):
        yield f"one is said to be {seam.more} longer; it is {shown(off, seam.more.unit)}"
    if not seam.agree and seam.lengths and seam.more is None and one[0] == other[0] and off < 0.005:
        yield f"they agree, but are not said to: {seam.text}"
    yield from _evenly(one, other, seam)


def _is_between(seam: SeamSaid) -> bool:
    """Whether one side is said to be so much longer as the lengths of both are apart."""
    one, other = seam.taped
    return seam.more is not None and seam.more.says(abs(one.cm - other.cm))


def _evenly(one: Walked, other: Walked, seam: SeamSaid) -> Iterator[str]:
    """What is wrong with how a seam is said to be sewn evenly: it must come to all rows and clusters of both sides, at
    even distances; and rows that meet clusters, or another number of rows, must be told how."""
    if any(side.step for side in seam.sides) or "cap" in seam.text or "joined as it is worked" in seam.text:
        return
    said, counts = seam.even, [_counted(long, side) for long, side in zip((one, other), seam.sides, strict=True)]
    if said is None:
        eased = seam.agree or "ease it in" in seam.text
        if eased and len({unit for _, unit in counts}) > 1:
            yield f"rows meet clusters, and nothing is said of how: {seam.text}"
        return
    halved = 2 if "half" in said.many + said.few else 1
    met = sorted(number * (1 if unit == "row" else halved) for number, unit in counts)
    units = {"row" if one.endswith("row") else "cluster" for one in (said.many, said.few)}
    few, many = met
    if units != {unit for _, unit in counts} or said.each * (few - said.times) + said.other * said.times != many:
        yield f"it is said to be sewn {said}, which does not come to {counts}"
    elif said.times > 1 and said.every != int(few // said.times):
        yield f"it is said to be sewn {said}: every {int(few // said.times)}th is even"


def _counted(walked: Walked, side: SideSaid) -> tuple[float, str]:
    """How many rows or clusters a side has."""
    return (float(walked[0]), "row") if walked[0] is not None else (side.clusters or 0.0, "cluster")


def _sewn_twice(pieces: Pieces, said: Sequence[SeamSaid]) -> Iterator[str]:
    """Row ends, or lengths along a row, that several seams take: more than all pieces alike have of them."""
    ends: dict[tuple[str, str, int], int] = defaultdict(int)
    along: dict[tuple[str, str], Fraction] = defaultdict(Fraction)
    for seam in said:
        for side in seam.each:
            for edge in side.edges:
                name, _, of = edge.rpartition(".")
                for row in range(min(side.rows), max(side.rows) + 1) if side.rows else ():
                    ends[name, of, row] += 1
                along[name, of] += Fraction(side.clusters or 0)
    for (name, of, row), times in ends.items():
        named = ("left", "right") if of == "cap" else (of,)
        there = sum(row in run.rows for one in named for run in pieces[name].edges.get(one, ())) * pieces[name].count
        if times > there > 0:
            yield f"{name}.{of}, row {row}: it is sewn {times} times"
    for (name, of), clusters in along.items():
        across = sum(run.across for run in pieces[name].edges.get(of, ())) * pieces[name].count
        if across and clusters * 2 > across + 2:
            yield f"{name}.{of}: {float(clusters):g} clusters are sewn of {across / 2:g}"
