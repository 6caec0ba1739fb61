"""The yarn in a worked piece: rows, stitches and fabric of each, and the ends that are left.

In: a ``WorkedCloth``. Out: counts, square cm, and the ends to weave in where yarns are carried up the edge or cut. A
yarn can be taken up again where it hangs: at the side where the next row begins, after not too many rows, with no step
between.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator
from fractions import Fraction

from turnchain.proof.cloth.edges import WorkedCloth
from turnchain.proof.hook.stitches import WorkedRow

Yarn = str | None


def rows(cloth: WorkedCloth) -> Counter[Yarn]:
    """How many rows are in each yarn; the two parts beside a neck count each their own."""
    return Counter(cloth.yarns)


def stitches(cloth: WorkedCloth) -> Counter[Yarn]:
    """How many stitches of one piece are in each yarn: every chain is one, a turning chain is one."""
    found: Counter[Yarn] = Counter()
    for row, yarn in zip(cloth.rows, cloth.yarns, strict=True):
        found[yarn] += len(row.stitches)
    return found


def areas(cloth: WorkedCloth) -> dict[Yarn, Fraction]:
    """Square cm of one piece by yarn (None: of a pattern that names none): each row as wide as the mean of its foot and
    its head."""
    found: dict[Yarn, Fraction] = defaultdict(Fraction)
    for (row, below), yarn in zip(_over(cloth), cloth.yarns, strict=True):
        wide = row.right.at - row.left.at
        foot = wide if below is None else _foot(row, below)
        found[yarn] += Fraction(wide + foot, 2) * cloth.tape.half * cloth.tape.row
    return dict(found)


def _over(cloth: WorkedCloth) -> Iterator[tuple[WorkedRow, WorkedRow | None]]:
    """Every row with the one it is worked into."""
    done: dict[int, WorkedRow] = {}
    low = len(cloth.parts[0])
    for row in cloth.rows:
        below = done.get(row.number - 1)
        yield row, below
        done[row.number] = row
        if row.number == cloth.high and len(cloth.parts) > 1:
            done = {low: done[low]}


def _foot(row: WorkedRow, below: WorkedRow) -> int:
    """The width of a row at its foot: an edge that leans by half a cluster stands on the edge below."""
    left = below.left.at if abs(row.left.at - below.left.at) <= 1 else row.left.at
    right = below.right.at if abs(row.right.at - below.right.at) <= 1 else row.right.at
    return right - left


def ends(cloth: WorkedCloth, carry: int) -> Counter[Yarn]:
    """Ends of one piece by yarn: two wherever a yarn is joined, where it is carried over up to ``carry`` rows."""
    found: Counter[Yarn] = Counter()
    for yarn, carried in begun(cloth, carry):
        found[yarn] += 0 if carried else 2
    return found


def begun(cloth: WorkedCloth, carry: int) -> Iterator[tuple[Yarn, int]]:
    """Every beginning of a stripe, in the order worked: its yarn, and over how many rows it is carried there; 0 where
    it is joined."""
    last: dict[Yarn, WorkedRow] = {}
    before: WorkedRow | None = None
    stepped: dict[int, set[int]] = {}  # rows with a step, by the side: 1 the left, -1 the right
    for (row, below), yarn in zip(_over(cloth), cloth.yarns, strict=True):
        anew = before is None or row.number <= before.number
        if anew:
            last, stepped = {}, {1: set(), -1: set()}
        _mark(stepped, row, below)
        if anew or yarn not in last or last[yarn] is not before:
            hung = last.get(yarn)
            yield yarn, _carried(hung, row, carry, stepped) if hung else 0
        last[yarn], before = row, row


def _mark(stepped: dict[int, set[int]], row: WorkedRow, below: WorkedRow | None) -> None:
    if below is None:
        return
    for side, way in ((1, row.left.at - below.left.at), (-1, row.right.at - below.right.at)):
        if abs(way) > 1:
            stepped[side].add(row.number)


def _carried(hung: WorkedRow, row: WorkedRow, carry: int, stepped: dict[int, set[int]]) -> int:
    """Over how many rows a yarn that ``hung`` leaves is taken up for ``row``; 0 where it is cut."""
    between = row.number - hung.number - 1
    at_start = hung.towards != row.towards  # it hangs where its row ended, which is where this one begins
    free = not any(hung.number < number <= row.number for number in stepped[row.towards])
    return between if at_start and between <= carry and free else 0


def cut_ends(cloth: WorkedCloth) -> int:
    """Ends of one piece, of all yarns, where every stripe is cut: two to a stripe."""
    return 2 * len(list(begun(cloth, -1)))
