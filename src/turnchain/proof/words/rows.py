"""A paragraph as rows: one row written alone, or several written together.

In: a paragraph, the rows that come before it and the piece's one yarn, if it has one. Out: its rows as written, each
with steps of its own where rows share theirs or repeat those of others, their counts, edges and yarns; none where the
words do not fit.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Literal, TypeAlias

from turnchain.proof.maker import steps as do
from turnchain.proof.maker.steps import Count, Shaped, Told
from turnchain.proof.words.phrasebook import Cursor, Phrasebook
from turnchain.proof.words.sentences import sentence

MOST_ROWS = 100_000  # told together: far more than a piece has


def rows_in(words: Phrasebook, text: str) -> range:
    """The numbers of the rows that ``text`` names and nothing beside; empty where it names none."""
    for key in ("range_two", "range_many"):
        pattern = words.pattern(key)
        found = pattern.fullmatch(text) or pattern.fullmatch(capital(text))
        if found is not None:
            return rows_named(key, found)
    return range(0)


def rows_named(key: str, found: re.Match[str]) -> range:
    """The numbers of the rows from a to b of a phrase for one row, for two or for many; empty where they do not fit the
    phrase, or are more than ``MOST_ROWS``."""
    first = int(found["a"])
    last = first if key.endswith("_one") else int(found["b"])
    if key.endswith("_two"):
        fits = last == first + 1
    elif key.endswith("_many"):
        fits = first + 1 < last < first + MOST_ROWS
    else:
        fits = True
    return range(first, last + 1) if fits else range(0)


def capital(words: str) -> str:
    """The words with a capital, as they begin a sentence."""
    return words[:1].upper() + words[1:]


_EDGES: tuple[Literal["start", "end"], ...] = ("start", "end")


Counted: TypeAlias = tuple[str, Count]  # the kind of a row, and what it counts


def _next_count(cursor: Cursor) -> Counted | None:
    """ "22 cl (67 dc, 21 ch, 1 tch)", or "130 sc" for a solid row; None where neither comes next."""
    found = cursor.take("count")
    if found is not None:
        count = _count(cursor, int(found["n"]), found["parts"])
        return None if count is None else ("cluster", count)
    solid = cursor.take("part_solid", r"(?=, |; |\.)")
    if solid is None:
        return None
    turned = cursor.literal(", ") and cursor.take("part_tch")
    kind = cursor.words.stitch_of(solid["stitch"])
    return kind, Count(0, int(solid["n"]), 0, 0, int(turned["n"]) if turned else 0)


def _counts(cursor: Cursor, lead: str | None = None) -> list[Counted]:
    """ "22 cl (67 dc, 21 ch, 1 tch); ..."."""
    if lead is not None and cursor.take(lead) is None:
        return []
    made: list[Counted] = []
    while (count := _next_count(cursor)) is not None:
        made.append(count)
        if not cursor.literal("; "):
            break
    return made if cursor.literal(".") else []


def _count(cursor: Cursor, clusters: int, parts: str) -> Count | None:
    numbers = {"dc": 0, "ch": 0, "slips": 0, "tch": 0}
    order = []
    for part in parts.split(", "):
        for key in numbers:
            found = cursor.words.pattern(f"part_{key}").fullmatch(part)
            if found is not None:
                numbers[key] = int(found["n"])
                order.append(key)
                break
        else:
            return None
    in_order = order == [key for key in numbers if key in order]
    return Count(clusters, **numbers) if in_order and all(numbers[key] for key in order) else None


def _shaped(cursor: Cursor) -> tuple[Shaped, ...]:
    """ " At start: half a cl less; at end: 1½ cl more."."""
    begun, text = cursor.at, cursor.text
    made: list[Shaped] = []
    if not cursor.literal(" "):
        return ()
    cursor.text = text[: cursor.at] + text[cursor.at : cursor.at + 1].lower() + text[cursor.at + 1 :]
    for where in _EDGES:
        if made and not cursor.literal("; "):
            break
        less, more = cursor.take(f"{where}_less"), cursor.take(f"{where}_more")
        found = less or more
        if found is not None:
            halves = _halves(cursor, found["amount"])
            made.append(Shaped(where, halves if more else -halves))
    cursor.text = text
    if not made or not cursor.literal("."):
        cursor.at = begun
        return ()
    return tuple(made)


def _halves(cursor: Cursor, amount: str) -> int:
    """ "1½" as three halves."""
    return 1 if amount == cursor.words.phrases["half"] else 2 * int(amount.rstrip("½")) + amount.endswith("½")


def _spaces(cursor: Cursor) -> tuple[int, int] | None:
    """ " Sp for next row, counted from its start: the first between 4th and 5th st, then one after every 3 st."."""
    found = cursor.take("spaces_each") or cursor.take("spaces_found")
    if found is None:
        return None
    slots = found.groupdict()
    first, after = (int(re.sub(r"\D", "", slots[name])) for name in ("nth", "after"))
    return (first if after == first + 1 else 0), int(slots.get("every") or 0)


def _off(cursor: Cursor) -> bool:
    """ " Fasten off."."""
    return cursor.literal(cursor.words.say("off"))


_NEXT = r"(?=, |; )"  # another stripe, or the end of all
_NEXT_HEIGHT = r"(?=, | \()"


def take_yarns(cursor: Cursor, rows: list[Told]) -> bool:
    """Reads what ``cursor`` comes to as the yarns of ``rows``, and puts them and the changes between into the rows;
    False where they do not fit. Words that tell no yarns leave all as it is."""
    found = cursor.take("change_row")
    if found is not None:
        rows[-1].change_to = cursor.words.yarn(found["yarn"])
        return int(found["n"]) == rows[-1].number and rows[-1].change_to is not None
    if not cursor.literal(cursor.words.say("colors")):
        return True
    yarns = _stripes(cursor)
    numbers = {row.number for row in rows}
    if yarns is None or not numbers <= set(yarns) <= numbers | {rows[-1].number + 1}:
        return False
    for row in rows:
        row.yarn = yarns[row.number]
        following = yarns.get(row.number + 1, row.yarn)
        row.change_to = following if following != row.yarn else None
    return True


def _stripes(cursor: Cursor) -> dict[int, str] | None:
    yarns: dict[int, str] = {}
    while True:
        stripe = _stripe(cursor)
        if stripe is None or (yarns and min(stripe) != max(yarns) + 1):
            return None
        yarns |= stripe
        if cursor.literal(cursor.words.say("colors_end")):
            return yarns
        if not cursor.literal(", "):
            return None


def _stripe(cursor: Cursor) -> dict[int, str] | None:
    for key in ("stripe_two", "stripe_many", "stripe_one"):
        found = cursor.take(key, _NEXT)
        if found is not None:
            rows, yarn = rows_named(key, found), cursor.words.yarn(found["yarn"])
            return dict.fromkeys(rows, yarn) if rows and yarn else None
    return cycle(cursor)


def cycle(cursor: Cursor) -> dict[int, str] | None:
    """The yarn of each row by its number, from "from row 3 over and over to row 8: 2 rows Reed, 1 row Silt (begins in
    rows 3 and 6)"; None where the words or their numbers do not fit."""
    found = cursor.take("cycle")
    order = _order(cursor) if found else []
    begins = cursor.take("begins")
    if found is None or begins is None or not order:
        return None
    first, last = int(found["a"]), int(found["b"])
    said = re.split(r", |" + re.escape(cursor.words.phrases["and"]), begins["list"])
    if last >= first + MOST_ROWS or said != [str(row) for row in range(first, last + 1, len(order))]:
        return None
    return {row: order[(row - first) % len(order)] for row in range(first, last + 1)}


def _order(cursor: Cursor) -> list[str]:
    """The yarns of one round of the stripes, row by row; none where they do not fit."""
    order: list[str] = []
    while True:
        height = cursor.take("height_many", _NEXT_HEIGHT) or cursor.take("height_one", _NEXT_HEIGHT)
        yarn = cursor.words.yarn(height["yarn"]) if height else None
        if height is None or yarn is None or int(height["n"]) > MOST_ROWS:
            return []
        order += [yarn] * int(height["n"])
        if not cursor.literal(", "):
            return order


Model: TypeAlias = tuple[tuple[do.ReadStep, ...], Counted, tuple[Shaped, ...]]  # steps of a row, its count, its edges


def rows_of(words: Phrasebook, text: str, before: Sequence[Told], single_yarn: str | None) -> list[Told]:
    """The rows that the paragraph ``text`` tells after those ``before``, which it may repeat; empty where the words do
    not fit. ``single_yarn``: the one of a piece in one yarn (None: there is none, or it has no name)."""
    for key in ("row_in", "row", "rows_in", "rows"):
        head = words.pattern(key, ": ").match(text)
        if head is not None:
            yarn = words.yarn(head["yarn"]) if "yarn" in head.groupdict() else single_yarn
            cursor = Cursor(words, text[head.end() :])
            alone = key in ("row_in", "row")
            rows = _alone(cursor, head, yarn) if alone else _together(cursor, head, yarn, before)
            if rows:
                return rows
    return []


def _alone(cursor: Cursor, head: re.Match[str], yarn: str | None) -> list[Told]:
    steps = _steps(cursor)
    counts, shaped, spaces, off = _counts(cursor), _shaped(cursor), _spaces(cursor), _off(cursor)
    if not steps or len(counts) != 1 or not cursor.done:
        return []
    side = cursor.words.side(head["side"])
    kind, count = counts[0]
    return [Told(int(head["n"]), side, yarn, steps, count, shaped, None, off, spaces, kind)]


def _together(cursor: Cursor, head: re.Match[str], yarn: str | None, before: Sequence[Told]) -> list[Told]:
    numbers = rows_in(cursor.words, head["range"])
    sides = [cursor.words.side(head[name]) for name in ("side", "other")]
    if not numbers or sides[0] == sides[1]:
        return []
    again = cursor.take("again_ending") or cursor.take("again")
    models = _each(cursor) if again is None else _in_turn(cursor, _repeated(cursor.words, again, numbers, before))
    if not models:
        return []
    rows = [
        Told(number, sides[nth % 2], yarn, steps, count, shaped, kind=kind)
        for nth, number in enumerate(numbers)
        for steps, (kind, count), shaped in (models[nth % len(models)],)
    ]
    if not take_yarns(cursor, rows):
        return []
    rows[-1].fasten_off = _off(cursor)
    return rows if cursor.done else []


def _each(cursor: Cursor) -> list[Model]:
    """What every one of the rows has, where they tell their own steps."""
    steps = _steps(cursor)
    counts, shaped = _counts(cursor, "each"), _shaped(cursor)
    return [(steps, counts[0], shaped)] if steps and len(counts) == 1 else []


def _repeated(words: Phrasebook, again: re.Match[str], numbers: range, before: Sequence[Told]) -> list[Told]:
    """The rows that are to be repeated, where it is said rightly with which of them the ``numbers`` end."""
    known = {row.number: row for row in before}
    wanted = rows_in(words, again["range"])
    if not wanted or any(number not in known for number in wanted):
        return []
    over = len(numbers) % len(wanted)
    ending = wanted[over - 1] if over else None
    said = int(again["end"]) if "end" in again.groupdict() else None
    return [known[number] for number in wanted] if said == ending else []


def _in_turn(cursor: Cursor, rows: list[Told]) -> list[Model]:
    """What rows that repeat those have in turn; the counts are told anew."""
    counts = _counts(cursor, "turns")
    if len(counts) != len(rows):
        return []
    return [(_plain(row), count, row.shaped) for row, count in zip(rows, counts, strict=True)]


def _plain(told: Told) -> tuple[do.ReadStep, ...]:
    """A row's steps without the change of yarn, which the rows that repeat it tell by themselves."""
    return tuple(step for step in told.steps if not isinstance(step, do.ChangeYarn))


def _steps(cursor: Cursor) -> tuple[do.ReadStep, ...]:
    """The steps of the sentence that the text begins with; none where it does not fit."""
    steps, cursor.at = sentence(cursor.words, cursor.text)
    return steps
