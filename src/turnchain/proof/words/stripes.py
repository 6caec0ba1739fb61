"""The yarns of rows told together, where their stripes change.

In: a finger on what is said of yarns, and the rows. Out: the rows in their yarns, each with the yarn that it changes
to.
"""

from __future__ import annotations

import re

from turnchain.proof.maker.told import Told
from turnchain.proof.words.finger import Finger
from turnchain.proof.words.ranges import MOST_ROWS, rows_named

_NEXT = r"(?=, |; )"  # another stripe, or the end of all
_NEXT_HEIGHT = r"(?=, | \()"


def take_yarns(finger: Finger, rows: list[Told]) -> bool:
    """Takes the yarns of ``rows`` and the change after them; whether they fit."""
    found = finger.take("change_row")
    if found is not None:
        rows[-1].change_to = finger.words.yarn(found["yarn"])
        return int(found["n"]) == rows[-1].number and rows[-1].change_to is not None
    if not finger.literal(finger.words.say("colors")):
        return True
    yarns = _stripes(finger)
    numbers = {row.number for row in rows}
    if yarns is None or not numbers <= set(yarns) <= numbers | {rows[-1].number + 1}:
        return False
    for row in rows:
        row.yarn = yarns[row.number]
        following = yarns.get(row.number + 1, row.yarn)
        row.change_to = following if following != row.yarn else None
    return True


def _stripes(finger: Finger) -> dict[int, str] | None:
    yarns: dict[int, str] = {}
    while True:
        stripe = _stripe(finger)
        if stripe is None or (yarns and min(stripe) != max(yarns) + 1):
            return None
        yarns |= stripe
        if finger.literal(finger.words.say("colors_end")):
            return yarns
        if not finger.literal(", "):
            return None


def _stripe(finger: Finger) -> dict[int, str] | None:
    for key in ("stripe_two", "stripe_many", "stripe_one"):
        found = finger.take(key, _NEXT)
        if found is not None:
            rows, yarn = rows_named(key, found), finger.words.yarn(found["yarn"])
            return dict.fromkeys(rows, yarn) if rows and yarn else None
    return cycle(finger)


def cycle(finger: Finger) -> dict[int, str] | None:
    """ "from row 3 over and over to row 8: 2 rows Reed, 1 row Silt (begins in rows 3 and 6)". """
    found = finger.take("cycle")
    order = _order(finger) if found else []
    begins = finger.take("begins")
    if found is None or begins is None or not order:
        return None
    first, last = int(found["a"]), int(found["b"])
    said = re.split(r", |" + re.escape(finger.words.phrases["and"]), begins["list"])
    if last >= first + MOST_ROWS or said != [str(row) for row in range(first, last + 1, len(order))]:
        return None
    return {row: order[(row - first) % len(order)] for row in range(first, last + 1)}


def _order(finger: Finger) -> list[str]:
    """The yarns of one round of the stripes, row by row; none where they do not fit."""
    order: list[str] = []
    while True:
        height = finger.take("height_many", _NEXT_HEIGHT) or finger.take("height_one", _NEXT_HEIGHT)
        yarn = finger.words.yarn(height["yarn"]) if height else None
        if height is None or yarn is None or int(height["n"]) > MOST_ROWS:
            return []
        order += [yarn] * int(height["n"])
        if not finger.literal(", "):
            return order
