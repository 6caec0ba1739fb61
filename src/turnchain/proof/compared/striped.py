"""What the report says of stripes: whether they meet, ends saved by other stripes, the stash.

In: the worked pieces, what the pattern file asks for, and lines as printed. Out: how many figures were looked at, and
reasons, in words. The grams and rows of the stash that are a bound on every other plan are only set against those of
this one.
"""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import groupby
from math import ceil, floor

from turnchain.proof.cloth import yarn as taken
from turnchain.proof.cloth.edges import WorkedCloth
from turnchain.proof.compared.yarns import Weighing, YarnAsked, area_of, ends_of, tails_of

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
    two = all(len(list(rows)) == 2 for _, rows in list(map(_listed, groupby(levels(even))))[:-1])
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


def _listed(group: tuple[str | None, Iterator[str | None]]) -> tuple[str | None, list[str | None]]:
    return group[0], list(group[1])


def _even(cloth: WorkedCloth) -> WorkedCloth:
    """The piece with every stripe a row higher where its rows are odd, the last cut where the rows end."""
    yarns = [yarn for yarn, rows in map(_listed, groupby(levels(cloth))) for _ in range(len(rows) + len(rows) % 2)]
    return replace(cloth, yarns=tuple(yarns[row.number - 1] for row in cloth.rows))


def _reach(cloth: WorkedCloth) -> int:
    """Over how many rows a yarn can be carried at most."""
    return max((over for _, over, _ in taken.begun(cloth, cloth.high)), default=0)


# ------------------------------------------------------------------------------------------------------- the stash

_LEFT = re.compile(
    r"left after the margin, before tails: (?P<left>.*)\. The rows weigh the same in any order; the most left of a "
    r"yarn is (?P<most>[\d.]+) g, and no plan can get below (?P<least>[\d.]+) g.*"
)
_FALLS = re.compile(r"(?P<yarn>.+) falls short by (?P<grams>\d+) g, margin included, about (?P<rows>\d+) rows?")
_DONE = re.compile(r"it can be done (?P<how>.*); left then: (?P<left>.*)")
_LIST = re.compile(r"(order|rows) = (\[.*\])")
_BOUND = re.compile(r"every plan within your wishes is short of at least (?P<grams>[\d.]+) g in all")


def stash(
    pieces: Sequence[WorkedCloth], others: Sequence[WorkedCloth], begins: Mapping[str, int],
    asked: Sequence[YarnAsked], scale: Weighing, lines: Sequence[str],
) -> Said:  # fmt: skip
    """The lines under "stash": ``pieces`` have these stripes, ``others`` are worked from the same stock."""
    if scale.dense is None or not lines or not pieces:
        return 0, []
    run = _run(pieces, begins)
    rest = {one.name: _rest(one, pieces, others, scale) for one in asked}
    looked, wrong = 0, []
    for line in lines:
        if line.startswith("stripes from the stash: "):
            reasons = _stripes(run, line)
        elif found := _LEFT.fullmatch(line):
            reasons = _left(found, rest, asked)
        elif found := _FALLS.fullmatch(line):
            reasons = _falls(found, run, rest, pieces, asked, scale)
        elif found := _BOUND.fullmatch(line):
            short = sum(_short(one, rest, pieces, scale) for one in asked) * scale.more
            reasons = iter([f"it is short of {float(short):.1f} g"] if float(found["grams"]) > short + 0.051 else [])
        elif line.endswith(": in no stripe"):
            reasons = _in_none(line.removesuffix(": in no stripe"), run, asked)
        elif found := _DONE.fullmatch(line):
            reasons = _done(found, run, rest)
        elif (found := _LIST.fullmatch(line)) and set(begins.values()) == {1}:
            told = json.loads(found[2])
            made = [name if found[1] == "order" else len(rows) for name, rows in map(_listed, groupby(run))]
            reasons = iter([] if told == made else [f"{made} are worked"])
        else:
            continue
        looked += 2
        wrong += [f'"{line[:60]}": {reason}' for reason in reasons]
    return looked, wrong


def _in_none(names: str, run: list[str | None], asked: Sequence[YarnAsked]) -> Iterator[str]:
    """Whether the yarns that are told to be in no stripe are those; names may have a comma in them."""
    unused = [one.name for one in asked if one.name not in run]
    left = f", {names}"
    for name in sorted(unused, key=len, reverse=True):
        left = left.replace(f", {name}", "", 1)
    if left:
        yield f'"{left}" is in one, or is no yarn'


def _done(found: re.Match[str], run: list[str | None], rest: Mapping[str, Fraction]) -> Iterator[str]:
    """What could be done instead: with all rows as much is left in all; which yarn has it is not looked at."""
    left = re.findall(r" (-?\d+) g(?=, |$)", f" {found['left']}")
    rows = re.search(r"with (\d+) of (\d+) rows", found["how"])
    if rows and not int(rows[1]) < int(rows[2]) == len(run):
        yield f"there are {len(run)} rows"
    names = [name for name in rest if re.search(rf"(?:^|, ){re.escape(name)} \d+ g(?=, |$)", found["left"])]
    if len(names) != len(left):
        yield f"of {len(left)} yarns {len(names)} are known"
    whole = sum(rest[name] for name in names)
    if not rows and not whole - len(names) < sum(map(int, left)) <= whole:
        yield f"{sum(map(int, left))} g are left in all, {float(whole):.1f} by the rows"


def _run(pieces: Sequence[WorkedCloth], begins: Mapping[str, int]) -> list[str | None]:
    """The yarns of the stripes, row by row from the first, as far as pieces reach."""
    found: dict[int, str | None] = {}
    for cloth in pieces:
        for number, yarn in enumerate(levels(cloth), begins[cloth.name]):
            found.setdefault(number, yarn)
    return [found[number] for number in sorted(found)]


def _stripes(run: list[str | None], line: str) -> Iterator[str]:
    told = re.match(r"stripes from the stash: (\d+) stripes?; ", line)
    stripes = len(list(groupby(run)))
    if told is None or int(told[1]) != stripes:
        yield f"{stripes} stripes are worked"
    for yarn, rows in Counter(run).items():
        if not re.search(rf"(?:; |, ){re.escape(str(yarn))} {rows} rows(?=, |$)", line):
            yield f"{yarn} has {rows} rows"


def _rest(
    one: YarnAsked, pieces: Sequence[WorkedCloth], others: Sequence[WorkedCloth], scale: Weighing
) -> Fraction:
    """Grams of a yarn that are left before tails and after the margin, below 0 where it falls short."""
    assert scale.dense is not None, "a swatch was weighed"
    room = ((one.stock or Fraction(0)) - (one.keep or Fraction(0))) / scale.more
    elsewhere = area_of(others, one.name) * scale.dense + tails_of(one, ends_of(others, one.name, scale), scale)
    return room - elsewhere - area_of(pieces, one.name) * scale.dense


def _left(found: re.Match[str], rest: Mapping[str, Fraction], asked: Sequence[YarnAsked]) -> Iterator[str]:
    told: list[Fraction] = []
    if found["left"].count(" g, ") + 1 != sum(
        re.search(rf"(?:^|, ){re.escape(one.name)} -?\d+ g(?=, |$)", found["left"]) is not None for one in asked
    ):
        yield "a yarn is told that there is not"
    for one in asked:
        said = re.search(rf"(?:^|, ){re.escape(one.name)} (-?\d+) g(?=, |$)", found["left"])
        if said is None:
            continue
        told.append(rest[one.name])
        if int(said[1]) != (floor(rest[one.name]) if rest[one.name] >= 0 else ceil(rest[one.name])):
            yield f"{said[1]} g of {one.name} are printed, {float(rest[one.name]):.2f} left"
    most, least = float(found["most"]), float(found["least"])
    if told and abs(most - float(max(told))) > 0.051:
        yield f"{most} g are printed as the most, {float(max(told)):.2f} left"
    mean = float(sum(told)) / max(1, len(told))
    if told and not mean - 0.051 <= least <= most + 0.051:
        yield f"{least} g are printed as the least that can be; on the average {mean:.1f} are left"


def _short(one: YarnAsked, rest: Mapping[str, Fraction], pieces: Sequence[WorkedCloth], scale: Weighing) -> Fraction:
    """Grams that a yarn falls short of, before the margin: with tails where every stripe is cut."""
    ends = sum(taken.ends(cloth, -1)[one.name] * cloth.count for cloth in pieces)
    return max(Fraction(0), tails_of(one, ends, scale) - rest[one.name])


def _falls(
    found: re.Match[str], run: list[str | None], rest: Mapping[str, Fraction], pieces: Sequence[WorkedCloth],
    asked: Sequence[YarnAsked], scale: Weighing,
) -> Iterator[str]:  # fmt: skip
    one = next((one for one in asked if one.name == found["yarn"]), None)
    if one is None or scale.dense is None:
        yield "no yarn is called so"
        return
    short = _short(one, rest, pieces, scale)
    if int(found["grams"]) != ceil(short * scale.more):
        yield f"{float(short * scale.more):.2f} g are short"
    whole = sum((area_of(pieces, each.name) for each in asked), Fraction(0)) * scale.dense
    rows = min(run.count(one.name), ceil(short / (whole / len(run))))
    if int(found["rows"]) != rows:
        yield f"that is {rows} rows"
