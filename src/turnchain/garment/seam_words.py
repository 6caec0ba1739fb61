"""The seams in words for the report: what meets what, how many rows or clusters, how long, what is to be eased in.

In: a plan, or its ``PlannedSeam`` s. Out: lines of text in the pattern's unit. The geometry is in ``seams``.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from turnchain.fabric.plan import Plan
from turnchain.garment import easing, roles, seams, sleeves
from turnchain.garment.seam_sides import PlannedSeam, SeamSide
from turnchain.numbers import counted, ordinal
from turnchain.units import Unit, plain, shown
from turnchain.wording.tables import speech_of, told_in

# [memory] A seam takes in this share of its length without a pucker; more is to be looked at again.
EASES_IN = Fraction(1, 20)
ROWS_TAKE_ONE = 8  # [memory]


def lines(plan: Plan) -> list[str]:
    """The seams in English, a line to seams that are alike: what meets what, how many rows or clusters, how long, what
    is to be eased in; then edges named by the pattern file that the plan lacks, those that armholes take up whole, and
    how deep open armholes were taken."""
    assumed, unit = assumed_words(plan), plan.pattern.units
    sewn = [f"seam {alike[0].letter}, {told(alike, unit)}" for alike in grouped(seams.of(plan))]
    return [*([assumed] if assumed else []), *sewn, *_besides(plan)]


def notes(plan: Plan) -> list[str]:
    """``lines`` without those of single seams."""
    assumed = assumed_words(plan)
    return [*([assumed] if assumed else []), *_besides(plan)]


def _besides(plan: Plan) -> Iterator[str]:
    if any(piece.picked_up is not None for piece in plan.pieces):
        from turnchain.garment import picking_up  # it brings all of edgings

        yield from picking_up.lines(speech_of(told_in(plan, "US").pattern), plan)
    yield from (f"{name} cannot be sewn: in this plan there is no such edge" for name in seams.lacking(plan))
    for one, other in seams.taken(plan):
        yield (
            f"{one} and {other} are not sewn: the armhole takes one of them whole; "
            "make the body longer, or the sleeve narrower"
        )
    yield from _armholes(plan)


def _armholes(plan: Plan) -> Iterator[str]:
    """How deep armholes without sleeves were taken to be, and from where."""
    found = seams.bare_armhole(plan)
    if found is None:
        return
    deep = f"armholes: the sides are left open {shown(found.cm, plan.pattern.units)} below the shoulder ({found.from_})"
    wish = "; assumed: write armhole = ... under [wearer] for another depth" if found.assumed else ""
    yield deep + wish


def assumed_words(plan: Plan) -> str:
    """That the seams are assumed, in English; empty where the pattern file names seams, or there are none."""
    made = [] if plan.pattern.seams or not seams.of(plan) else list(_assumed(plan))
    return f"no seams in the pattern file: those of {listed(made)} are assumed" if made else ""


def _assumed(plan: Plan) -> Iterator[str]:
    """What the seams that are assumed make, in English."""
    trunk, worn = roles.trunk(plan), roles.of_role(plan, "sleeve")
    if trunk is not None:
        capped, named = any(map(sleeves.has_cap, worn)), seams.has_armholes(plan)
        kind = "with set-in sleeves" if capped else "with sleeves in its armholes" if worn and named else ""
        dropped = "a drop-shoulder garment" if worn else "a top without sleeves"
        yield f"a top {kind}" if kind else dropped if seams.is_top(plan) else "a front and a back"
    panels = sum(piece.count for piece in roles.of_role(plan, "skirt"))
    if panels:
        yield f"a skirt of {panels} panels" if panels > 1 else "a skirt of one panel"
    for role in ("hat", "cowl"):
        if roles.of_role(plan, role):
            yield f"a {role}"
    if roles.of_role(plan, "cushion"):
        yield "a cushion"
    if roles.of_role(plan, "bag"):
        yield "a bag"


def grouped(seams: tuple[PlannedSeam, ...]) -> list[list[PlannedSeam]]:
    """Seams that can be told together, in the order they first come: of one letter and kind, with the same counts,
    lengths and rows at both sides. No list is empty."""
    found: dict[object, list[PlannedSeam]] = {}
    for seam in seams:
        both = seam.one, seam.other
        sides = [(side.count, side.unit, side.length, side.rows, easing.inset(side)) for side in both]
        found.setdefault((seam.letter, seam.kind, *sides), []).append(seam)
    return list(found.values())


def told(alike: list[PlannedSeam], unit: Unit) -> str:
    """Seams that are alike (a list of ``grouped``) in English, without their letter: what meets what and whether it
    agrees, and how many times it is sewn where the names of edges do not say that, as of two shoulders on one edge."""
    seam, times = alike[0], len(alike) // max(_edges_of(alike))
    often = f", {times} times" if times > 1 else ""
    return (
        f"{seam.kind}{often}: {meeting(alike)}, {shown(seam.one.length, unit)} to "
        f"{shown(seam.other.length, unit)}: {agreement(seam, unit)}"
    )


def meeting(alike: list[PlannedSeam]) -> str:
    """Which edges meet, in English, with the row numbers in the order they meet, or with the clusters; ``alike`` is one
    list of ``grouped``."""
    one, other = names(alike)
    rows, met = rows_met(alike[0])
    return f"{one}, {_counted(alike[0].one, rows)}, to {other}, {_counted(alike[0].other, met)}"


def rows_met(seam: PlannedSeam) -> tuple[tuple[int, int] | None, tuple[int, int] | None]:
    """The numbers of the (first, last) row of each side in the order they meet, rising at the first side that has rows;
    None at a side that runs along a row, where clusters meet."""
    rows, met = seam.one.rows, seam.other.rows
    met = met and (met[1], met[0])  # the other side is walked the other way
    if _falls(seam.one if rows else seam.other) is bool(rows):
        rows, met = rows and (rows[1], rows[0]), met and (met[1], met[0])
    return rows, met


def _falls(side: SeamSide) -> bool:
    """Whether a side is walked down the work; of one row that is known by its corners alone."""
    first, *_, last = side.points
    return first[1] > last[1]


def _edges_of(alike: list[PlannedSeam]) -> tuple[int, int]:
    """How many edges are named at each side of seams that are told together."""
    return len({seam.one.name for seam in alike}), len({seam.other.name for seam in alike})


def names(alike: list[PlannedSeam]) -> tuple[str, str]:
    """The edges at both sides of seams that are told together, as a pattern file names them: "front.first and
    back.first"."""
    sides = ([seam.one for seam in alike], [seam.other for seam in alike])
    one, other = (list(dict.fromkeys(side.name for side in found)) for found in sides)
    return listed(one), listed(other)


def listed(names: list[str]) -> str:
    """ "a", "a and b", "a, b and c", of at least one name."""
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _counted(side: SeamSide, rows: tuple[int, int] | None) -> str:
    if rows is None:
        inset = easing.inset(side)
        return _clusters(side, side.count) + (f", {_clusters(side, inset)} from the end" if inset else "")
    told = f"row {rows[0]}" if rows[0] == rows[1] else f"rows {rows[0]} to {rows[1]}"
    return f"{told} and a step of {_clusters(side, side.steps)}" if side.steps else told


def _clusters(side: SeamSide, count: Fraction) -> str:
    return f"{plain(to_half(count))} {side.piece.recipe.noun}{'' if count == 1 else 's'}"


def agreement(seam: PlannedSeam, unit: Unit) -> str:
    """Whether both sides agree and, where they do not, by how much (in ``unit``, and in rows or clusters) and what to
    do; in English."""
    if seam.worked and seam.agrees:
        return "they agree; joined as it is worked, nothing to sew"
    if seam.agrees:
        both = seam.difference is not None and seam.one.unit == "rows"
        return "they agree, row for row" if both else f"they agree{_evenly(seam)}"
    longer = seam.one if seam.off > 0 else seam.other
    apart = shown(abs(seam.off), unit)
    if apart == shown(Fraction(0), unit):
        more = seam.one if (seam.difference or 0) > 0 else seam.other
        return f"they are equally long, but {more.name} has {_difference(seam)} more; {_ease_in(seam)}"
    words = f"{longer.name} is {apart} longer"
    if has_more(seam):
        words += f" ({_difference(seam)})"
    return f"{words}; {'joined as it is worked, nothing to sew' if seam.worked else _ease_in(seam)}"


def has_more(seam: PlannedSeam) -> bool:
    """Whether the longer side has more rows or clusters too, by half a cluster at the least. False where rows meet
    clusters."""
    difference = seam.difference or Fraction(0)
    return difference * seam.off > 0 and to_half(difference) != 0


def _difference(seam: PlannedSeam) -> str:
    """By how many rows or clusters the sides differ."""
    more = abs(seam.difference or Fraction(0))
    count = more if seam.one.unit == "rows" else to_half(more)
    noun = "row" if seam.one.unit == "rows" else seam.one.piece.recipe.noun
    return f"{plain(count)} {noun}{'' if count == 1 else 's'}"


def eases_in(seam: PlannedSeam) -> bool:
    """Whether a seam takes in what its longer side has more: at most ``EASES_IN`` of the shorter side's length, or a
    single row, which no plan may be able to avoid, along ``ROWS_TAKE_ONE`` rows or more."""
    rows = seam.one.unit == seam.other.unit == "rows" and not (seam.one.steps or seam.other.steps)
    single = rows and abs(seam.difference or 0) == 1 and min(seam.one.count, seam.other.count) >= ROWS_TAKE_ONE
    return single or abs(seam.off) <= EASES_IN * min(seam.one.length, seam.other.length)


def _ease_in(seam: PlannedSeam) -> str:
    if eases_in(seam):
        return f"ease it in evenly along the seam{_evenly(seam)}"
    return "more than can be eased in: make the two agree, or leave the rest open"


def _evenly(seam: PlannedSeam) -> str:
    """How to sew it evenly, after a semicolon; empty where that says nothing."""
    found = easing.evenly(seam)
    if found is None:
        return ""
    noun = seam.one.piece.recipe.noun
    many, few = (unit.replace("cluster", noun) for unit in (found.many, found.few))
    words = f"; sew {counted(found.each, many)} to 1 {few}"
    if found.times == 1:
        return f"{words}, and once, about the middle, {found.other}"
    more = f", at every {ordinal(found.every)} {few} {found.other}, {found.times} times in all"
    return words + more if found.times else words


def to_half(count: Fraction) -> Fraction:
    """A count of clusters (or rows) to the nearest half; of two as near, the whole number."""
    return Fraction(round(2 * count), 2)
