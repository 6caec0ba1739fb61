"""What the report says of stripes: whether they meet, and ends saved by other stripes.

In: the worked pieces, what the pattern file asks for, and lines as printed. Out: how many figures were looked at, and
reasons, in words.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import groupby

from turnchain.proof.cloth import yarn as taken
from turnchain.proof.cloth.edges import WorkedCloth

Said = tuple[int, list[str]]


# ------------------------------------------------------------------------------------------------ do they meet

_APART = re.compile(
    r"(?P<one>.+) and (?P<other>.+): the stripes do not meet in (?P<off>\d+) of the (?P<rows>\d+) rows"
    r"(?:; those of (?P<moved>.+) come (?P<shift>\d+) rows? too (?P<way>early|late)"
    r"(?: \(stripes_begin = (?P<begin>\d+) there would mend it\))?)?"
)
_OVER = re.compile(
    r"(?P<one>.+) and (?P<other>.+): (?P<longer>.+) has (?P<more>\d+) rows? more, so past row (?P<rows>\d+) there is "
    r"no stripe to meet"
)
_UNUSED = re.compile(r"(?P<yarn>.+) is in no row: leave it out, or add it to the order of the stripes")


def meetings(
    pieces: Mapping[str, WorkedCloth], begins: Mapping[str, int], yarns: Collection[str], lines: Sequence[str]
) -> Said:
    """The lines under "stripes"; ``yarns``: the names of all; ``begins``: the row of the stripes that row 1 of each
    piece takes."""
    looked, wrong = 0, []
    for line in lines:
        if (found := _APART.fullmatch(line)) and {found["one"], found["other"]} <= set(pieces):
            looked, reasons = looked + 4, _apart(found, pieces, begins)
        elif (found := _OVER.fullmatch(line)) and {found["one"], found["other"]} <= set(pieces):
            looked, reasons = looked + 2, _over(found, pieces)
        elif found := _UNUSED.fullmatch(line):
            used = any(found["yarn"] in cloth.yarns for cloth in pieces.values()) or found["yarn"] not in yarns
            looked, reasons = looked + 1, iter(["rows are worked in it, or it is no yarn"] if used else [])
        else:
            continue
        wrong += [f'"{line[:70]}": {reason}' for reason in reasons]
    return looked, wrong


def levels(cloth: WorkedCloth) -> list[str | None]:
    """The yarn of one row of every number, from row 1 up."""
    found: dict[int, str | None] = {}
    for row, yarn in zip(cloth.rows, cloth.yarns, strict=True):
        found.setdefault(row.number, yarn)
    return [found[number] for number in sorted(found)]


def _apart(found: re.Match[str], pieces: Mapping[str, WorkedCloth], begins: Mapping[str, int]) -> Iterator[str]:
    one, other = (levels(pieces[found[side]]) for side in ("one", "other"))
    rows = min(len(one), len(other))
    off = sum(a != b for a, b in zip(one, other, strict=False))
    if (int(found["off"]), int(found["rows"])) != (off, rows):
        yield f"they differ in {off} of {rows} rows"
    if found["shift"] is None:
        return
    shift = int(found["shift"]) * (1 if found["way"] == "early" else -1)
    if any(one[row + shift] != other[row] for row in range(len(other)) if 0 <= row + shift < len(one)):
        yield "moved so, they do not meet either"
    if found["begin"] and int(found["begin"]) != begins[found["other"]] - shift:
        yield f"stripes_begin = {begins[found['other']] - shift} would"


def _over(found: re.Match[str], pieces: Mapping[str, WorkedCloth]) -> Iterator[str]:
    one, other = (pieces[found[side]].high for side in ("one", "other"))
    longer = found["one"] if one > other else found["other"]
    if (found["longer"], int(found["more"]), int(found["rows"])) != (longer, abs(one - other), min(one, other)):
        yield f"they have {one} and {other} rows"


# ------------------------------------------------------------------------------------------------ ends and carrying

_CUT = re.compile(r"(\d+) times? because (it is at|it is farther|the edge)")
_SAVED = re.compile(r"(?P<how>.+?): (?P<ends>\d+) ends instead of (?P<now>\d+)")
_FAR = re.compile(r"carried over up to (\d+) rows$")
_WHY = {"it is at": "odd", "it is farther": "far", "the edge": "step"}


def ends(cloth: WorkedCloth, carry: int, lines: Sequence[str]) -> Said:
    """The lines under "carry or cut" about a piece, its name taken off, but for the first of its ends and carrying."""
    looked, wrong = 0, []
    if len(set(cloth.yarns)) < 2:
        return 0, []
    now = taken.ends(cloth, carry).total()
    for head, wanted in (
        (r"\d+ ends to weave in", True), ("yarn is cut", any(taken.why_cut(cloth, carry))),
        ("with the same yarns", _fewest(cloth, carry) < now),
    ):  # fmt: skip
        if any(re.match(head, line) for line in lines) is not wanted:
            wrong.append(f'{"nothing" if wanted else "something"} is said as "{head}"')
    for line in lines:
        if all_of := re.search(r"ends to weave in, (\d+) for (?:both|all (\d+)) pieces", line):
            looked += 1
            if (int(all_of[1]), int(all_of[2] or 2)) != (now * cloth.count, cloth.count):
                wrong.append(f'"{all_of[0]}" is printed; {now * cloth.count} ends are in {cloth.count} pieces')
        if line.startswith("yarn is cut and joined again"):
            looked += 2
            wrong += _cut(cloth, carry, line)
        if line.startswith("with the same yarns in the same order, "):
            looked += 2
            wrong += _saved(cloth, carry, line.removeprefix("with the same yarns in the same order, "))
    return looked, [f"{cloth.name}: {reason}" for reason in wrong]


def _cut(cloth: WorkedCloth, carry: int, line: str) -> Iterator[str]:
    told = {_WHY[why]: int(times) for times, why in _CUT.findall(line)}
    made = Counter(why for why in taken.why_cut(cloth, carry) if why)
    if told != dict(made) or not line.endswith(f"(carry = {carry})"):
        yield f'"{line}" is printed; cut are {dict(made)}, carry is {carry}'


def _saved(cloth: WorkedCloth, carry: int, line: str) -> Iterator[str]:
    now = taken.ends(cloth, carry).total()
    even = _even(cloth)
    ways = {False: cloth, True: even}
    two = all(len(list(rows)) == 2 for _, rows in list(map(listed, groupby(levels(even))))[:-1])
    best = now
    for one in line.split("; "):
        found = _SAVED.fullmatch(one)
        if found is None:
            yield f'"{one}" saves nothing that can be read'
            continue
        striped = found["how"].startswith(("two-row stripes", "stripes of an even number of rows"))
        if striped and found["how"].startswith("two-row") != two:
            yield f'"{found["how"]}" is printed of {"" if two else "no "}stripes of two rows'
        far = _FAR.search(found["how"])
        reach = _reach(ways[striped]) if far else carry
        made = taken.ends(ways[striped], max(reach, carry)).total()
        if (far and int(far[1]) != reach) or (int(found["ends"]), int(found["now"])) != (made, now):
            yield f'"{one}" is printed; {made} ends instead of {now}, carried over up to {reach} rows'
        best = min(best, int(found["ends"]))
    if best != _fewest(cloth, carry):
        yield f"{best} ends are the fewest told; {_fewest(cloth, carry)} can be had"


def _fewest(cloth: WorkedCloth, carry: int) -> int:
    """The fewest ends, with stripes as they are or of even heights, carried as now or as far as can be."""
    ways = cloth, _even(cloth)
    return min(taken.ends(way, max(over, carry)).total() for way in ways for over in (carry, _reach(way)))


def listed(group: tuple[str | None, Iterator[str | None]]) -> tuple[str | None, list[str | None]]:
    return group[0], list(group[1])


def _even(cloth: WorkedCloth) -> WorkedCloth:
    """The piece with every stripe a row higher where its rows are odd, the last cut where the rows end."""
    yarns = [yarn for yarn, rows in map(listed, groupby(levels(cloth))) for _ in range(len(rows) + len(rows) % 2)]
    return replace(cloth, yarns=tuple(yarns[row.number - 1] for row in cloth.rows))


def _reach(cloth: WorkedCloth) -> int:
    """Over how many rows a yarn can be carried at most."""
    return max((over for _, over, _ in taken.begun(cloth, cloth.high)), default=0)
