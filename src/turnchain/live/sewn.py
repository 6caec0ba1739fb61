"""The seams of a garment, and what they leave open, as a page lists them.

In: a plan. Out: plain values for JSON. The sentences are those of the report, in English.
"""

from __future__ import annotations

from typing import Any, TypeAlias

from turnchain import pattern
from turnchain.fabric.plan import Plan
from turnchain.garment import borders, named_stretches, seam_words
from turnchain.garment import seams as planned
from turnchain.garment.seam_sides import PlannedSeam
from turnchain.records import replace
from turnchain.units import shown

Json: TypeAlias = Any
Join: TypeAlias = tuple[str, str]


def seams(plan: Plan) -> dict[str, Json] | None:
    """None for one piece that is sewn to nothing. Else "sewn", every seam by its letter: its sentences ("told", without
    the letter), what its "stripes" should do ("": no wish), and its "joins" for which that can be wished, the two edges
    of each as a pattern file names them. "write": the joins of all seams where the file has none and would, with these,
    have the same; "notes": what else the report says of seams; "open": what stays open, each with its "kind", its
    "piece" (empty: it goes round several), its "length" in words and "times"."""
    found = planned.of(plan)
    if not found and sum(piece.count for piece in plan.pieces) == 1:
        return None
    write = _to_write(plan, found)
    return {
        "sewn": [_sewn(plan, letter, found, write) for letter in dict.fromkeys(seam.letter for seam in found)],
        "write": [list(join) for join in write],
        "notes": seam_words.notes(plan),
        "open": [
            {
                "kind": one.kind,
                "piece": one.piece,
                "length": shown(one.border.length, plan.pattern.units),
                "times": one.count,
            }
            for one in borders.edgings(plan)
        ],
    }


def _sewn(plan: Plan, letter: str, found: tuple[PlannedSeam, ...], write: list[Join]) -> dict[str, Json]:
    alike = tuple(seam for seam in found if seam.letter == letter)
    return {
        "letter": letter,
        "told": [seam_words.told(group, plan.pattern.units) for group in seam_words.grouped(alike)],
        "stripes": alike[0].stripes or "",
        "joins": [list(join) for join in _to_wish_for(plan, alike, write)],
    }


def _to_wish_for(plan: Plan, alike: tuple[PlannedSeam, ...], write: list[Join]) -> list[Join]:
    """The joins of seams at which row ends of two pieces meet along edges, as far as the file has them, or would."""
    if not plan.pattern.yarns:
        return []
    filed = {frozenset(seam.join) for seam in plan.pattern.seams} or set(map(frozenset, write))
    meeting = [seam for seam in alike if seam.one.unit == seam.other.unit == "rows" and _are_two(seam)]
    return [
        join
        for join in _joins(tuple(meeting))
        if frozenset(join) in filed and not any(named_stretches.is_stretch(plan, name) for name in join)
    ]


def _are_two(seam: PlannedSeam) -> bool:
    """Whether it sews one piece to another, and not to itself, where the rows that meet are the same."""
    return (seam.one.piece.name, seam.one.copy) != (seam.other.piece.name, seam.other.copy)


def _joins(found: tuple[PlannedSeam, ...]) -> list[Join]:
    """The edges of seams as a pattern file joins them, each pair once."""
    pairs = {frozenset((seam.one.name, seam.other.name)): (seam.one.name, seam.other.name) for seam in found}
    return list(pairs.values())


def _to_write(plan: Plan, found: tuple[PlannedSeam, ...]) -> list[Join]:
    """What a pattern file would join to have the seams that are assumed; none where it could not say just those, as of
    stretches without a name, or has seams of its own."""
    if plan.pattern.seams:
        return []
    joins = _joins(found)
    filed = tuple(pattern.Seam(join) for join in joins)
    same = planned.of(replace(plan, pattern=replace(plan.pattern, seams=filed)))
    return joins if _cloth(same) == _cloth(found) else []


def _cloth(found: tuple[PlannedSeam, ...]) -> set[object]:
    """Which cloth is sewn to which, whatever the seams are called, and whichever side is named first."""
    pairs = [(seam.one, seam.other) for seam in found]
    return {frozenset((side.piece.name, side.copy, side.stretches) for side in pair) for pair in pairs}
