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


def weighed(cloth: WorkedCloth) -> dict[Yarn, Fraction]:
    """Square cm of one piece by yarn (None: of a pattern that names none): each row as wide as the mean of its foot and
    its head; rows of a kind that was weighed by itself are taken for as much of the whole swatch as weighs the same."""
    found: dict[Yarn, Fraction] = defaultdict(Fraction)
    for (row, below), yarn in zip(_over(cloth), cloth.yarns, strict=True):
        found[yarn] += _area(cloth, row, below) * cloth.tape.weight(row.kind)
    found[cloth.yarns[0]] += _sc_below(cloth)
    return dict(found)


def levels(cloth: WorkedCloth) -> dict[int, Fraction]:
    """The same by the number of rows, of whatever yarn: a number that comes twice beside a neck has both."""
    found: dict[int, Fraction] = defaultdict(Fraction)
    for row, below in _over(cloth):
        found[row.number] += _area(cloth, row, below) * cloth.tape.weight(row.kind)
    found[1] += _sc_below(cloth)
    return dict(found)


def _sc_below(cloth: WorkedCloth) -> Fraction:
    """The square cm of the single crochet along an armhole, as wide as row 1 that stands on it, in its yarn."""
    first = cloth.rows[0]
    return (first.right.at - first.left.at) * cloth.tape.half * cloth.sc_below * cloth.tape.weight("sc")


def stretches(cloth: WorkedCloth) -> Iterator[tuple[int, int]]:
    """The first and the last row of all that is worked without joining anew: all of a piece, or to the end of a first
    shoulder, and the second."""
    numbers = [row.number for row in cloth.rows]
    first = numbers[0]
    for before, number in zip(numbers, [*numbers[1:], 0], strict=True):
        if number <= before:
            yield first, before
            first = number


def _area(cloth: WorkedCloth, row: WorkedRow, below: WorkedRow | None) -> Fraction:
    wide = row.right.at - row.left.at
    foot = wide if below is None else _foot(row, below)
    return Fraction(wide + foot, 2) * cloth.tape.half * cloth.tape.high(row.kind)


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
    """The width of a row at its foot: an edge that leans stands on the edge below."""
    left = row.left.at if row.left.step else below.left.at
    right = row.right.at if row.right.step else below.right.at
    return right - left


def ends(cloth: WorkedCloth, carry: int) -> Counter[Yarn]:
    """Ends of one piece by yarn: two wherever a yarn is joined, where it is carried over up to ``carry`` rows."""
    found: Counter[Yarn] = Counter()
    for yarn, carried, _ in begun(cloth, carry):
        found[yarn] += 0 if carried else 2
    return found


def begun(cloth: WorkedCloth, carry: int) -> Iterator[tuple[Yarn, int, Fraction]]:
    """Every beginning of a stripe, in the order worked: its yarn, and over how many rows and how many cm it is carried
    there; 0 where it is joined."""
    for yarn, row, hung, stepped in _joins(cloth):
        over = 0 if hung is None or _why(hung, row, carry, stepped) else row.number - hung.number - 1
        yield yarn, over, cloth.tops[row.number - 1] - cloth.tops[row.number - 1 - over]


def carried(cloth: WorkedCloth, carry: int) -> Iterator[tuple[Yarn, str, int]]:
    """Every time a yarn is carried: its name, at which side, and over how many rows."""
    for yarn, row, hung, stepped in _joins(cloth):
        if hung is not None and not _why(hung, row, carry, stepped):
            yield yarn, "left" if row.towards == 1 else "right", row.number - hung.number - 1


def why_cut(cloth: WorkedCloth, carry: int) -> Iterator[str]:
    """At every beginning of a stripe why its yarn is not carried there: it hangs at the other edge ("odd"), too "far"
    below, or there is a "step" on the way; "" where it is carried, or is new."""
    for _, row, hung, stepped in _joins(cloth):
        yield "" if hung is None else _why(hung, row, carry, stepped)


Stepped = dict[int, set[int]]


def _joins(cloth: WorkedCloth) -> Iterator[tuple[Yarn, WorkedRow, WorkedRow | None, Stepped]]:
    """Every beginning of a stripe: its yarn and row, the row that the yarn hangs at (None: it is new), and the rows
    with a step."""
    last: dict[Yarn, WorkedRow] = {}
    before: WorkedRow | None = None
    stepped: Stepped = {}  # rows with a step, by the side: 1 the left, -1 the right
    for (row, below), yarn in zip(_over(cloth), cloth.yarns, strict=True):
        anew = before is None or row.number <= before.number
        if anew:
            last, stepped = {}, {1: set(), -1: set()}
        _mark(stepped, row, below)
        if anew or yarn not in last or last[yarn] is not before:
            yield yarn, row, last.get(yarn), stepped
        last[yarn], before = row, row


def _mark(stepped: Stepped, row: WorkedRow, below: WorkedRow | None) -> None:
    if below is None:
        return
    for side, edge in ((1, row.left), (-1, row.right)):
        if edge.step:
            stepped[side].add(row.number)


def _why(hung: WorkedRow, row: WorkedRow, carry: int, stepped: Stepped) -> str:
    """Why a yarn that ``hung`` leaves is cut, and not taken up for ``row``."""
    if hung.towards == row.towards:  # it hangs where its row ended, and rows begin at the two edges in turn
        return "odd"
    if row.number - hung.number - 1 > carry:
        return "far"
    return "step" if any(hung.number < number <= row.number for number in stepped[row.towards]) else ""


def cut_ends(cloth: WorkedCloth) -> int:
    """Ends of one piece, of all yarns, where every stripe is cut: two to a stripe."""
    return 2 * len(list(begun(cloth, -1)))
