"""What the report says no number of rows would mend in a neck worked sideways, tried with every number close by.

In: a plan and the text of its report. Out: how many plans were tried, and reasons, in words. The number of rows is put
into the pattern, the pattern planned and told anew, and the cloth measured that its words make: one whose neck reads
alike from both ends, with regular shaping, must not come nearer.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from math import ceil, floor

from turnchain.errors import MakerError
from turnchain.fabric.plan import Plan
from turnchain.pattern import Piece
from turnchain.planning.planner import plan_pattern
from turnchain.proof import asking, worked_cloths
from turnchain.proof.alternatives import Working
from turnchain.proof.cloth import measures
from turnchain.proof.cloth.edges import EdgePart, WorkedCloth
from turnchain.proof.cloth.irregular import irregular_rows
from turnchain.proof.compared import doubts
from turnchain.records import replace

_NEAR = Fraction(1, 10**5)  # of a cm: measures are compared in millionths


def held(plan: Plan, report: str, work: Working) -> tuple[int, list[str]]:
    """Every warning of this kind in the ``report``, tried."""
    of_odd = _warned(plan, report, doubts.NO_ODD_NEARER, doubts.NO_ODD_ROWS)
    named = [*of_odd, *_warned(plan, report, doubts.NO_NEARER, doubts.NO_ROWS)]
    # beside a piece begun others have another gauge than by themselves
    followers = _warned(plan, report, doubts.FOLLOWS) if not plan.pattern.progress else []
    if not followers and not named:
        return 0, []
    made, wrong = work(plan)
    cloths, looked = worked_cloths.cloths(plan, made) if not wrong else {}, len(followers)
    for piece in named if cloths else ():
        for rows in _close(piece, cloths[piece.name], piece in of_odd):
            looked += 1
            reasons = _nearer(plan, piece, cloths[piece.name], rows, work)
            wrong += [f"{piece.name}, with {rows} rows: {reason}" for reason in reasons]
    wrong += [f"{piece.name} follows no other piece" for piece in followers if cloths and _alone(plan, piece, cloths)]
    return looked, wrong


def _warned(plan: Plan, report: str, *whys: str) -> list[Piece]:
    """The pieces of which a warning ends so."""
    told = [line for line in report.splitlines() if line.endswith(tuple(f": {why}" for why in whys))]
    return [one for one in plan.pattern.pieces if any(line.startswith(f"warning: {one.name}: ") for line in told)]


def _alone(plan: Plan, piece: Piece, cloths: Mapping[str, WorkedCloth]) -> bool:
    """Whether a piece has the same number of rows where it is the only one, in its size alone."""
    here = cloths[piece.name]
    single = replace(piece, faces=None, neck_edge=here.upper or "right")
    return plan_pattern(replace(plan.pattern, pieces=(single,), seams=(), edgings=())).pieces[0].row_count == here.high


def _close(piece: Piece, cloth: WorkedCloth, odd: bool) -> list[int]:
    """The numbers of rows close to the one wanted, but for the one worked: the two ``odd`` ones that enclose it, over
    which leaning edges read alike, and the two whole ones."""
    wanted = asking.shape(piece).high / cloth.tape.row
    numbers = {2 * to((wanted - 1) / 2) + 1 for to in (floor, ceil)}
    numbers |= set() if odd else {floor(wanted), ceil(wanted)}
    return sorted(rows for rows in numbers - {cloth.high} if rows > 0)


def _nearer(plan: Plan, piece: Piece, here: WorkedCloth, rows: int, work: Working) -> Iterator[str]:
    pieces = tuple(replace(one, exact_rows=rows) if one.name == piece.name else one for one in plan.pattern.pieces)
    try:
        other = plan_pattern(replace(plan.pattern, pieces=pieces))
    except MakerError:  # so many rows cannot be planned
        return
    made, reasons = work(other)
    yield from reasons
    cloth = worked_cloths.cloths(other, made)[piece.name]
    if "neck" not in cloth.edges or not reads_alike(cloth) or irregular_rows(cloth):
        return
    if not reads_alike(here):
        yield "the two ends of its neck match"
    elif (off := _off(piece, cloth)) < (was := _off(piece, here)):
        yield f"{off[0]} measures are off, by {float(off[1]):.2f} cm at most; {was[0]}, by {float(was[1]):.2f} cm, here"


def _off(piece: Piece, cloth: WorkedCloth) -> tuple[int, Fraction]:
    """How many measures of its neck and its armholes are off by more than they may, and by how much the worst of these
    is."""
    shape, neck = asking.shape(piece), asking.neck(piece)
    doubted = doubts.Doubted(cloth, shape, neck, None, {})
    named = doubts.named(doubted)
    if doubts.shallow(doubted):  # a slant as deep as it can be, whatever is wanted
        named.pop("neck depth")
    for name, asked in _armholes(piece, cloth).items():
        named[name] = asked
    missed = [
        abs(cm - wanted) for wanted, worked, most in named.values() for cm in worked if abs(cm - wanted) > most
    ]
    worst = max(missed, default=Fraction(0))
    return len(missed), worst - worst % _NEAR


def _armholes(piece: Piece, cloth: WorkedCloth) -> dict[str, tuple[Fraction, tuple[Fraction, ...], Fraction]]:
    """Of every measure of armholes in the upper edge what is wanted, what is worked, and how far that may be off."""
    asked, found = asking.measures(piece).arms, measures.upper_armholes(cloth)
    if asked is None or not found:
        return {}
    alike = found if len({one[1:] for one in found}) > 1 else found[:1]
    deep = {f"{side} armhole depth": (asked[0], (cm,), cloth.tape.half) for side, cm, _ in alike}
    return {**deep, **{f"{side} armhole width": (asked[1], (cm,), cloth.tape.row / 2) for side, _, cm in alike}}


def reads_alike(cloth: WorkedCloth) -> bool:
    """Whether the edge with the neck of a piece worked sideways reads alike from both its ends."""
    assert cloth.upper is not None, "the neck is at a side"
    line = list(dict.fromkeys(_line(cloth.side(cloth.upper))))
    return line == [(cloth.high - height, at) for height, at in reversed(line)]


def _line(parts: tuple[EdgePart, ...]) -> Iterator[tuple[int, int]]:
    """The line along row ends, as heights in rows and positions in half clusters."""
    for part in parts:
        yield part.row - 1, part.foot
        yield (part.row - 1 if part.level else part.row), part.head
