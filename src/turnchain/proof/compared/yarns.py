"""What is printed of yarn, held against the cloth: fabric, tails, balls, what is left, ends to weave in.

In: the worked pieces, what the pattern file says of its yarns and swatches, and lines as printed. Out: reasons, in
words. Grams are the areas of the rows by the weight of the swatch; what is needed is told rounded up, what is left
rounded down.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from turnchain.proof.cloth import yarn as taken
from turnchain.proof.cloth.edges import WorkedCloth
from turnchain.proof.printed import pattern as written
from turnchain.proof.printed.lengths import LENGTH, length

#: From memory of common practice, as the report says: a margin where one or several swatches were weighed.
_MARGINS = (Fraction(0), Fraction(15), Fraction(10))
#: From memory: metres in 100 g where the label was not copied.
_METRES = Fraction(240)


@dataclass(frozen=True, slots=True)
class YarnAsked:
    """What the pattern file says of a yarn: ``stock`` and what to ``keep`` of it in g, ``metres`` in 100 g, g of a
    ``ball``; None where it says nothing. ``edged``: the square cm of edgings worked in it, give or take ``near``."""

    name: str
    stock: Fraction | None
    metres: Fraction | None
    ball: Fraction | None
    keep: Fraction | None
    edged: Fraction = Fraction(0)
    near: Fraction = Fraction(0)

    def kept(self, dense: Fraction, more: Fraction) -> Fraction:
        """Grams beside rows and tails, of a fabric so ``dense`` and with ``more``, the factor of the margin: what is
        kept for border and seams, or what the edgings take where that is more."""
        return max(self.keep or Fraction(0), self.edged * dense * more)


@dataclass(frozen=True, slots=True)
class Weighing:
    """What is weighed: each swatch as grams, width and height in cm; ``margin`` in per cent (None: the usual one),
    ``tail`` in cm to an end; ``carry``: by the name of a piece over how many rows a yarn may be carried; how much
    smaller (``least``, 1 or less) and larger (``most``) the fabric of a stitch is by single readings of the gauge."""

    swatches: tuple[tuple[Fraction, Fraction, Fraction], ...]
    margin: Fraction | None
    tail: Fraction
    carry: dict[str, int]
    least: Fraction = Fraction(1)
    most: Fraction = Fraction(1)

    @property
    def dense(self) -> Fraction | None:
        """Grams to a square cm; None where nothing was weighed."""
        if not self.swatches:
            return None
        return sum((one[0] for one in self.swatches), Fraction(0)) / sum(wide * high for _, wide, high in self.swatches)

    @property
    def more(self) -> Fraction:
        """The factor of the margin, 1 or more: 1.15 for 15 per cent."""
        return 1 + (_MARGINS[min(len(self.swatches), 2)] if self.margin is None else self.margin) / 100


def yarns(
    cloths: Sequence[WorkedCloth], asked: Sequence[YarnAsked], scale: Weighing, said: dict[str, str]
) -> Iterator[str]:
    """What is wrong in the lines of the report about each yarn; ``said``: by a yarn's name its line."""
    for one in asked:
        line, area, tails = said.get(one.name), area_of(cloths, one.name), ends_of(cloths, one.name, scale)
        if line is None:
            if area:
                yield f"{one.name}: nothing is said of its grams"
        elif scale.dense is not None:
            told = [*_margin(line, scale), *_grams(line, area * scale.dense, tails, one, scale)]
            yield from (f"{one.name}: {reason}" for reason in told)


def area_of(cloths: Sequence[WorkedCloth], yarn: str) -> Fraction:
    """Square cm of the whole swatch that weigh as much as all that is worked in a yarn."""
    return sum((taken.weighed(cloth).get(yarn, Fraction(0)) * cloth.count for cloth in cloths), Fraction(0))


def ends_of(cloths: Sequence[WorkedCloth], yarn: str, scale: Weighing) -> int:
    """Ends of a yarn in all pieces, each a tail."""
    return sum(taken.ends(cloth, scale.carry[cloth.name])[yarn] * cloth.count for cloth in cloths)


def to_buy(
    cloths: Sequence[WorkedCloth], asked: Sequence[YarnAsked], scale: Weighing, said: Sequence[str]
) -> Iterator[str]:
    """What is wrong in the materials of the written pattern: "Yarn A, Heron: 108 g, 220 m, 3 balls"."""
    assert scale.dense is not None, "a swatch was weighed"
    for one in asked:
        line = next((line for line in said if re.match(rf"Yarn \w+, {re.escape(one.name)}: ", line)), "")
        area, tails = area_of(cloths, one.name), ends_of(cloths, one.name, scale)
        if area and not re.search(r": \d+ g", line):
            yield f"{one.name}: no grams are told of it"
        yield from (f"{one.name}: {reason}" for reason in _grams(line, area * scale.dense, tails, one, scale))


def tails_of(asked: YarnAsked, ends: int, scale: Weighing) -> Fraction:
    """What so many tails of a yarn weigh, in grams."""
    return scale.tail / (asked.metres or _METRES) * ends


def _margin(line: str, scale: Weighing) -> Iterator[str]:
    margin, asked = re.search(r"([\d.]+) % margin", line), float(100 * (scale.more - 1))
    if (float(margin[1]) if margin else 0.0) != asked:
        yield f"{margin[0] if margin else 'no margin'} is printed, {asked:g} % asked for"


def _grams(line: str, fabric: Fraction, ends: int, asked: YarnAsked, scale: Weighing) -> Iterator[str]:
    tails = tails_of(asked, ends, scale)
    assert scale.dense is not None
    needed = (fabric + tails) * scale.more + asked.kept(scale.dense, scale.more)
    near = asked.near * scale.dense * scale.more
    low, high = (fabric / scale.dense * one for one in _range(scale))
    rounded: dict[str, tuple[Callable[[Fraction], int], Fraction, Fraction]] = {
        r"(\d+) g of fabric": (round, fabric, _EXACT),
        r"g of fabric \((\d+) to ": (round, low * scale.least, _EXACT),
        r"g of fabric \(\d+ to (\d+)\)": (round, high * scale.most, _EXACT),
        r"(\d+) g of tails": (ceil, tails, _EXACT),
        r"(\d+) g for the edging": (ceil, asked.kept(scale.dense, scale.more), near),
        r"(?<!at most )(?<=: )(\d+) g(?=[,;]|$)": (ceil, needed, near),
    }
    if asked.metres:
        metres = asked.metres / 100
        rounded[r", (\d+) m\b"] = (ceil, needed * metres, near * metres)
        rounded[r", (\d+) yd\b"] = (ceil, needed * metres / _YARD, near * metres / _YARD)
    if asked.ball:
        rounded[r", (\d+) balls?\b"] = (ceil, needed / asked.ball, near / asked.ball)
    if asked.stock is not None:
        rounded[r"(\d+) g of the stock left"] = (floor, asked.stock - needed, near)
        rounded[r"the stock is (\d+) g short"] = (ceil, needed - asked.stock, near)
    for pattern, (whole, value, off) in rounded.items():
        found = re.search(pattern, line)
        if found and not whole(value - off) <= int(found[1]) <= whole(value + off):
            yield f'"{found[0].strip(", ")}" is printed, {whole(value)} measured'


_EXACT, _YARD = Fraction(0), Fraction("0.9144")


#: How finely a swatch is weighed and measured, as the report says: half a gram, a quarter of a cm.
_SCALE, _TAPE = Fraction(1, 2), Fraction(1, 4)


def density(scale: Weighing, words: str) -> Iterator[str]:
    """What is wrong in the line on how heavy the swatch is: "455 g to the square metre; from 439 to 471 g"."""
    if scale.dense is None:
        return
    wanted = [scale.dense, *_range(scale)]
    printed = [int(one) for one in re.findall(r"(\d+)(?= g to the square metre| to \d+ g to the square)", words)]
    made = [round(10_000 * one) for one in wanted]
    if printed != made:
        yield f"{printed} g to the square metre are printed, {made} weighed"


def _range(scale: Weighing) -> tuple[Fraction, Fraction]:
    """Grams to a square cm at least and at most, by how finely a swatch is weighed and measured."""
    least = [
        (grams - min(_SCALE, grams / 2)) / ((wide + _TAPE) * (high + _TAPE)) for grams, wide, high in scale.swatches
    ]
    most = [
        (grams + _SCALE) / ((wide - min(_TAPE, wide / 2)) * (high - min(_TAPE, high / 2)))
        for grams, wide, high in scale.swatches
    ]
    return min(least), max(most)


def pieces(cloths: Sequence[WorkedCloth], scale: Weighing, said: Sequence[str]) -> Iterator[str]:
    """What is wrong in the lines about the fabric of each piece: "front: 125 g of fabric: Heron 32 g, Silt 61 g"."""
    for cloth in cloths:
        head = rf"{re.escape(cloth.name)}(, [^:]*)?: \d+ g of fabric: "
        line = next((one for one in said if re.match(head, one)), None)
        if line is None or scale.dense is None:
            continue
        grams = {name: area * scale.dense * cloth.count for name, area in taken.weighed(cloth).items()}
        whole, parts = line.removeprefix(cloth.name).split(" g of fabric: ", 1)
        made = [round(sum(grams.values())), *(round(one) for one in grams.values())]
        printed = [int(whole.rpartition(": ")[2]), *(int(one) for one in re.findall(r" (\d+) g(?=, |$)", parts))]
        if printed != made:
            yield f"{cloth.name}: {printed} g of fabric are printed, {made} measured"


def ends(cloth: WorkedCloth, scale: Weighing, said: str | None) -> Iterator[str]:
    """What is wrong in the line of the report about the ends of one such piece (None: it has none)."""
    if said is None:
        return
    begun = list(taken.begun(cloth, scale.carry[cloth.name]))
    carried = [over for _, over, _ in begun if over]
    joined = 2 * (len(begun) - len(carried))
    times = {0: None, 1: "once", 2: "twice"}.get(len(carried), f"{len(carried)} times")
    if not said.startswith(f"{joined} ends to weave in"):
        yield f'{cloth.name}: "{said.split(";")[0]}" is printed, {joined} measured'
    for long in re.findall(rf"rows? at most \(({LENGTH})\)", said) if carried else ():
        if not length(long).says(max(cm for _, _, cm in begun)):
            yield f"{cloth.name}: {long} is printed, carried over {max(carried)} rows"
    if times and f"carried up the edge {times}, over {max(carried)} rows" not in said:
        yield f'{cloth.name}: "{said}" is printed; carried {times}, over {max(carried)} rows at most'


def cut_of_each(cloths: Sequence[WorkedCloth], said: Sequence[str]) -> Iterator[str]:
    """What is wrong with the ends of each piece where every stripe is cut: "2 to a stripe (front 48, back 48)"."""
    line = next((line for line in said if "where every stripe is cut, 2 to a stripe (" in line), None)
    for cloth in cloths if line is not None else ():
        found = re.search(rf"(?:\(|, ){re.escape(cloth.name)} (\d+)(?=[,)])", written.plain(line or ""))
        made = taken.cut_ends(cloth) * cloth.count
        if found is None or int(found[1]) != made:
            printed = found[1] if found else "no"
            yield f"{cloth.name}: {printed} ends are printed where every stripe is cut, {made} measured"


def all_ends(cloths: Sequence[WorkedCloth], scale: Weighing, said: tuple[int | None, int | None]) -> Iterator[str]:
    """What is wrong with the ends of all pieces as the finishing tells them: where every stripe is cut, and where yarns
    are carried (None: not told)."""
    cut = sum(taken.cut_ends(cloth) * cloth.count for cloth in cloths)
    joined = sum(taken.ends(cloth, scale.carry[cloth.name]).total() * cloth.count for cloth in cloths)
    for name, printed, made in (("where every stripe is cut", said[0], cut), ("carried", said[1], joined)):
        if printed is not None and printed != made:
            yield f"{printed} ends {name} are printed, {made} measured"


def crowns(cloths: Sequence[WorkedCloth], said: Sequence[str]) -> Iterator[str]:
    """What is wrong with the crowns that the finishing has gathered: the stitches of the last row, or its rows."""
    for piece, count, row in written.crowns(said):
        cloth = next((one for one in cloths if one.name.casefold() == piece.casefold()), None)
        last = cloth.rows[-1] if cloth else None
        made = 0 if cloth is None or last is None else (
            len(cloth.rows) if row is None else sum(stitch.kind not in ("ch", "sl st") for stitch in last.stitches)
        )
        if count != made or (row is not None and last is not None and row != last.number):
            yield f"{piece}: {count} stitches are taken up at the crown, {made} are there"
