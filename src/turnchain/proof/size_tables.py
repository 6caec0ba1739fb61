"""The tables of a pattern in several sizes, held against the cloth of every size.

In: the plans of all sizes and the text of their report. Out: how many figures were looked at, and reasons, in words.
What is wanted is held against the report of the one size.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import ceil, floor

from turnchain.fabric.plan import Plan
from turnchain.pages.report import report
from turnchain.proof import asking, worked_cloths
from turnchain.proof.alternatives import Working
from turnchain.proof.compared import captions, measures, yarns
from turnchain.proof.held import Held
from turnchain.proof.printed.lengths import Length, is_length, length
from turnchain.proof.printed.report import PieceSaid, read_report
from turnchain.proof.printed.size_tables import SizeTables, of_size, read_tables

Column = dict[str, str | None]


def held(plans: Sequence[Plan], text: str, work: Working) -> tuple[int, list[str]]:
    """Every figure of the tables in ``text``, the report of all sizes, of every size in turn."""
    names = list(dict.fromkeys(piece.name for plan in plans for piece in plan.pieces))
    sizes = [plan.pattern.size for plan in plans]
    tables = read_tables(text, sizes, names, [one.name for one in plans[0].pattern.yarns])
    looked, wrong = 0, list[str]()
    for nth, plan in enumerate(plans):
        made, reasons = work(plan)
        size = _Size(plan, made, tables, nth)
        found = reasons or [*size.measures(), *size.counts(), *size.yarns()]
        looked, wrong = looked + size.looked, [*wrong, *(f"size {sizes[nth]}: {reason}" for reason in found)]
    return looked, wrong


class _Size:
    """One size, the ``nth`` column of the tables."""

    def __init__(self, plan: Plan, made: worked_cloths.WorkedPieces, tables: SizeTables, nth: int) -> None:
        self.plan, self.tables, self.nth, self.looked = plan, tables, nth, 0
        self.held = Held(plan, worked_cloths.cloths(plan, made))
        text = report(plan)
        self.held.report(text)
        self.said = read_report(text, list(self.held.cloths), [one.name for one in plan.pattern.yarns]).pieces

    def measures(self) -> Iterator[str]:
        """What is wrong in the measures of each piece."""
        for piece in self.plan.pattern.pieces:
            cloth, asked = self.held.cloths[piece.name], asking.measures(piece)
            told: list[tuple[str, Length]] = []
            for measure, rows in self.tables.measures.get(piece.name, {}).items():
                found = {way: cells[self.nth] for way, cells in rows.items()}
                if found.get("worked") is None:
                    continue
                name = of_size(measure, sum(cell is not None for cell in rows["worked"][: self.nth]))
                self.looked += 3
                told.append((name, length(found["worked"] or "")))
                yield from (f"{piece.name}, {name}: {reason}" for reason in _wanted(found, self.said[piece.name], name))
            yield from measures.differing(cloth, asked, told)
            missing = {one.name for one in self.said[piece.name].measures} - {name for name, _ in told}
            yield from (f"{piece.name}: {name} is not told" for name in sorted(missing))

    def counts(self) -> Iterator[str]:
        """What is wrong in the rows and chains of each piece."""
        for name, cloth in self.held.cloths.items():
            rows = self.tables.counts.get(name, {})
            made = [cloth.high, captions.chain(cloth), cloth.rows[0].clusters]
            told = [cells[self.nth] for cells in rows.values()]
            self.looked += len(told)
            if told != [str(count) for count in made]:
                yield f"{name}: {dict(zip(rows, told, strict=True))} are printed, {made} worked"

    def yarns(self) -> Iterator[str]:
        """What is wrong in what each yarn takes, where a swatch was weighed."""
        scale, cloths = self.held.scale, list(self.held.cloths.values())
        dense = scale.dense
        for one in self.held.asked_yarns if dense is not None else ():
            assert dense is not None, "a swatch was weighed"
            rows = {what: cells[self.nth] for what, cells in self.tables.yarns.get(one.name, {}).items()}
            area, ends = yarns.area_of(cloths, one.name), yarns.ends_of(cloths, one.name, scale)
            needed = (area * dense + yarns.tails_of(one, ends, scale)) * scale.more
            needed += one.kept(dense, scale.more)
            near = one.near * dense * scale.more
            for what, cell in rows.items():
                if cell is not None and what.startswith(("smallest stock", "left of")):
                    self.looked += 1
                    yield from (f"{one.name}, {what}: {reason}" for reason in _grams(what, cell, one, needed, near))


def _wanted(found: Column, said: PieceSaid, name: str) -> Iterator[str]:
    """Whether what is wanted is what the report of the one size has, and what it is off by comes of the two."""
    row = next((one for one in said.measures if one.name == name), None)
    wanted, worked, off = (found.get(way) or "" for way in ("wanted", "worked", "off"))
    if row is None or not is_length(wanted) or length(wanted) != row.wanted:
        yield f"{wanted} is wanted, {row.wanted if row else 'nothing'} in the report of this size"
    elif (length(off.lstrip("+")) if off != "exact" else None) != row.off or length(worked) != row.worked:
        yield f"{worked}, {off} is printed, {row.worked}, {row.off or 'exact'} in the report of this size"


def _grams(what: str, cell: str, one: yarns.YarnAsked, needed: Fraction, near: Fraction) -> Iterator[str]:
    printed = int(cell.replace("−", "-"))
    if what == "smallest stock, balls":
        low, high = (ceil((needed + off) / (one.ball or 1)) for off in (-near, near))
    elif what.startswith("left of"):
        low, high = (floor((one.stock or 0) - needed + off) for off in (-near, near))
    else:
        low, high = (ceil(needed + off) for off in (-near, near))
    if not low <= printed <= high:
        yield f"{printed} is printed, {low} reckoned"
