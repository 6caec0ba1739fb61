"""How much yarn the rows of a piece take, and what is left to work.

In: a plan and one of its pieces. Out: the length of every row, and the table of all rows still to come.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import accumulate
from math import ceil

from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.pages.beside.markup import chip, plain, set_apart
from turnchain.pattern import Yarn
from turnchain.wording.tables import speech_of
from turnchain.yarns import figures as yarn

FINE = 1000  # the script of the page gets lengths in thousandths of their unit


class Lengths:
    """How much yarn each row of one such piece takes, fabric alone. ``fine`` has a whole number for each row, by its
    ``index``: thousandths of the yarn's unit (see ``unit``); 0 for a row without a yarn, or where the weight of the
    fabric is not known.

    Each is the difference of two rounded sums, so that any rows of a yarn, up to its last, add up to what they take
    within a thousandth.
    """

    def __init__(self, plan: Plan, piece: PiecePlan) -> None:
        self._yarns = {one.name: one for one in plan.pattern.yarns}
        self._likely = yarn.density(plan.pattern).likely
        self._inches = plan.pattern.units == "in"
        self.fine = [0] * len(piece.rows)
        for name in {row.colour for row in piece.rows}:
            rows = [row for row in piece.rows if row.colour == name]
            sums = accumulate((self._long(piece, row) for row in rows), initial=Fraction(0))
            rounded = [round(FINE * total) for total in sums]
            for row, before, upto in zip(rows, rounded, rounded[1:], strict=False):
                self.fine[row.index] = upto - before

    def unit(self, one: Yarn) -> str:
        """The unit of a yarn's lengths: "m", or "yd" in a pattern in inches; "g" where its metres are not known; ""
        where the weight of the fabric is not."""
        if self._likely is None:
            return ""
        return ("yd" if self._inches else "m") if one.metres_per_100g else "g"

    def of(self, row: Row) -> str:
        """The unit of the lengths of ``row``; "" where it has no yarn or nothing is known."""
        return self.unit(self._yarns[row.colour]) if row.colour else ""

    def _long(self, piece: PiecePlan, row: Row) -> Fraction:
        if row.colour is None or self._likely is None:
            return Fraction(0)
        grams = yarn.row_weighed(piece, row) * self._likely
        one = self._yarns[row.colour]
        if one.metres_per_100g is None:
            return grams
        metres = grams * one.metres_per_100g / 100
        return metres * 100 / yarn.YARD if self._inches else metres


def left_table(plan: Plan, piece: PiecePlan, lengths: Lengths) -> str:
    """An HTML table of the rows and lengths (rounded up to whole units) still to be worked in each yarn, as they are
    before row 1; "" for a piece without yarns."""
    used = [(n, one) for n, one in enumerate(plan.pattern.yarns, 1) if any(r.colour == one.name for r in piece.rows)]
    if not used:
        return ""
    known = any(lengths.unit(one) for _, one in used)
    rows = []
    for number, one in used:
        mine = [row for row in piece.rows if row.colour == one.name]
        total, unit = sum(lengths.fine[row.index] for row in mine), lengths.unit(one)
        long = f'<td class="long" data-unit="{unit}">{ceil(total / FINE)}\u00a0{unit}</td>' if unit else ""
        rows.append(
            f'<tr data-yarn="{number}"><th scope="row">{chip(number)} '
            f'{set_apart(one.name)}</th><td class="rows">{len(mine)}</td>{long or ("<td></td>" if known else "")}</tr>'
        )
    speech = speech_of(plan.pattern)
    column = f'<th scope="col">{speech.say("beside.yarn")}</th>' if known else ""
    note = f'<p class="quiet note">{plain(speech.say("beside.fabric_alone"))}</p>' if known else ""
    caption = speech.say("beside.from_here.one" if piece.count > 1 else "beside.from_here", n=piece.count)
    colour, count = (f'<th scope="col">{plain(speech.say(f"beside.{key}"))}</th>' for key in ("colour", "rows"))
    return (
        f'<table class="left"><caption>{plain(caption)}</caption><thead><tr>{colour}{count}{column}</tr></thead>'
        f"<tbody>{''.join(rows)}</tbody></table>{note}"
    )
