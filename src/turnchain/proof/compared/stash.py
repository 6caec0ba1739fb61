"""What the report says of stripes from the stash: what is left, what falls short, and what no stripes can beat.

In: the worked pieces, what the pattern file asks for, and lines as printed. Out: how many figures were looked at, and
reasons, in words. The rows as worked, those of a piece begun among them, are weighed against the stock: what is told to
suffice does. The least that any stripes would leave is worked out anew (``stash_bounds``).
"""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import groupby
from math import ceil, floor

from turnchain.proof.cloth import yarn as taken
from turnchain.proof.cloth.edges import WorkedCloth
from turnchain.proof.compared import stash_bounds
from turnchain.proof.compared.stash_bounds import StashAsked
from turnchain.proof.compared.striped import levels, listed
from turnchain.proof.compared.yarns import Weighing, YarnAsked, area_of, ends_of, tails_of

Said = tuple[int, list[str]]

_LEFT = re.compile(
    r"left after the margin, before tails: (?P<left>.*)\. The rows weigh the same in any order; the most left of a "
    r"yarn is (?P<most>[\d.]+) g, and no plan can get below (?P<least>[\d.]+) g(?P<best> \(no plan within your wishes "
    r"is better than this one\))?"
)
_FALLS = re.compile(r"(?P<yarn>.+) falls short by (?P<grams>\d+) g, margin included, about (?P<rows>\d+) rows?")
_DONE = re.compile(r"it can be done (?P<how>.*); left then: (?P<left>.*)")
_LIST = re.compile(r"(order|rows) = (\[.*\])")
_BOUND = re.compile(r"every plan within your wishes is short of at least (?P<grams>[\d.]+) g in all")


def stash(
    pieces: Sequence[WorkedCloth], others: Sequence[WorkedCloth], begins: Mapping[str, int],
    asked: Sequence[YarnAsked], scale: Weighing, wished: StashAsked, lines: Sequence[str],
) -> Said:  # fmt: skip
    """The lines under "stash": ``pieces`` have these stripes, ``others`` are worked from the same stock."""
    if scale.dense is None or not lines or not pieces:
        return 0, []
    run = _run(pieces, begins)
    rest = {one.name: _rest(one, pieces, others, scale) for one in asked}
    looked, wrong = 2, list(_called(lines, rest, pieces, [one for one in asked if one.name in wished.order], scale))
    share = _share(pieces, begins, rest, asked, scale, wished)
    for line in lines:
        if line.startswith("stripes from the stash: "):
            reasons = _stripes(run, line)
        elif found := _LEFT.fullmatch(line):
            reasons = iter([*_left(found, rest, asked, scale.dense), *_unbeaten(found, share)])
        elif found := _FALLS.fullmatch(line):
            reasons = _falls(found, run, rest, pieces, asked, scale)
        elif found := _BOUND.fullmatch(line):
            short = sum(_short(one, rest, pieces, scale) for one in asked) * scale.more
            least = stash_bounds.least_short(share) * scale.more
            near = 0.051 + share.near
            so = least - near <= float(found["grams"]) <= short + near
            reasons = iter([] if so else [f"it is short of {float(short):.1f} g, and any of {float(least):.1f} g"])
        elif line.endswith(": in no stripe"):
            reasons = _in_none(line.removesuffix(": in no stripe"), run, asked)
        elif found := _DONE.fullmatch(line):
            reasons = _done(found, run, rest)
        elif (found := _LIST.fullmatch(line)) and set(begins.values()) == {1}:
            told = json.loads(found[2])
            made = [name if found[1] == "order" else len(rows) for name, rows in map(listed, groupby(run))]
            reasons = iter([] if told == made else [f"{made} are worked"])
        else:
            continue
        looked += 2
        wrong += [f'"{line[:60]}": {reason}' for reason in reasons]
    return looked, wrong


def _called(
    lines: Sequence[str], rest: Mapping[str, Fraction], pieces: Sequence[WorkedCloth], asked: Sequence[YarnAsked],
    scale: Weighing,
) -> Iterator[str]:  # fmt: skip
    """Whether what is told to suffice does, tails and margin included, and every yarn that is short is told."""
    short = {one.name for one in asked if _short(one, rest, pieces, scale)}
    told = {found["yarn"] for line in lines if (found := _FALLS.fullmatch(line))}
    if told != short:
        said, does = (", ".join(sorted(names)) or "nothing" for names in (told, short))
        yield f"{said} is told to fall short, {does} does"
    if any(map(_LEFT.fullmatch, lines)) is bool(short):
        yield f"it is told that the stock {'suffices' if short else 'does not suffice'}"


def _share(
    pieces: Sequence[WorkedCloth], begins: Mapping[str, int], rest: Mapping[str, Fraction],
    asked: Sequence[YarnAsked], scale: Weighing, wished: StashAsked,
) -> stash_bounds.Share:  # fmt: skip
    """What is shared out, as the worked pieces have it: the rows of the stripes from the first, in grams."""
    assert scale.dense is not None, "a swatch was weighed"
    grams: dict[int, Fraction] = {}
    yarns: dict[int, str | None] = {}
    done = 0
    for cloth in pieces:
        numbers = [row.number for row in cloth.rows[: wished.worked.get(cloth.name, 0)]]
        done = max([done, *(begins[cloth.name] - 1 + number for number in numbers)])
        for number, area in taken.levels(cloth).items():
            at = begins[cloth.name] - 1 + number
            grams[at] = grams.get(at, Fraction(0)) + area * scale.dense * cloth.count
        for number, yarn in enumerate(levels(cloth), begins[cloth.name]):
            yarns.setdefault(number, yarn)
    by_name = {one.name: one for one in asked}
    rows = [grams.get(at, Fraction(0)) for at in range(1, max(grams) + 1)]
    return stash_bounds.Share(
        wished, tuple(rows), tuple(yarns.get(at) for at in range(1, len(rows) + 1)), done,
        tuple(rest[name] + area_of(pieces, name) * scale.dense for name in wished.order),
        tuple(tails_of(by_name[name], 1, scale) for name in wished.order),
        tuple((first + begins[cloth.name] - 2, last + begins[cloth.name] - 2, cloth.count)
              for cloth in pieces for first, last in taken.stretches(cloth)),
        float(sum(one.near for one in asked) * scale.dense),
    )  # fmt: skip


def _unbeaten(found: re.Match[str], share: stash_bounds.Share) -> Iterator[str]:
    """What no stripes can beat: the least that is left of some yarn, and, where that is told, these stripes."""
    least = float(stash_bounds.least_rest(share))
    if abs(float(found["least"]) - least) > 0.051 + share.near:
        yield f"{found['least']} g are printed as the least that can be, {least:.2f} reckoned"
    if found["best"] and (better := stash_bounds.better(share)):
        yield f"better ones are {', '.join(better)}"


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
    room = ((one.stock or Fraction(0)) - one.kept(scale.dense, scale.more)) / scale.more
    elsewhere = area_of(others, one.name) * scale.dense + tails_of(one, ends_of(others, one.name, scale), scale)
    return room - elsewhere - area_of(pieces, one.name) * scale.dense


def _whole(grams: Fraction) -> int:
    return floor(grams) if grams >= 0 else ceil(grams)


def _left(
    found: re.Match[str], rest: Mapping[str, Fraction], asked: Sequence[YarnAsked], dense: Fraction
) -> Iterator[str]:
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
        low, high = rest[one.name] - one.near * dense, rest[one.name] + one.near * dense
        if not _whole(low) <= int(said[1]) <= _whole(high):
            yield f"{said[1]} g of {one.name} are printed, {float(rest[one.name]):.2f} left"
    most, least = float(found["most"]), float(found["least"])
    near = float(max(one.near for one in asked) * dense) + 0.051
    if told and abs(most - float(max(told))) > near:
        yield f"{most} g are printed as the most, {float(max(told)):.2f} left"
    mean = float(sum(told)) / max(1, len(told))
    if told and not mean - near <= least <= most + 0.051:
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
