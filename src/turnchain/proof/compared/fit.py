"""The lines about fit in the report: every length of the garment measured on the cloth, every sum done again.

In: the worked pieces, and lines as printed. Out: how many figures were looked at, and reasons, in words. What a wearer
measures is taken as printed: it is no measure of the cloth.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from turnchain.proof.cloth import measures, neckline
from turnchain.proof.cloth.edges import WorkedCloth
from turnchain.proof.compared.sewn import seams
from turnchain.proof.printed.lengths import LENGTH, length, shown
from turnchain.proof.printed.report import SeamSaid, read_seam

Pieces = Mapping[str, WorkedCloth]


@dataclass(frozen=True, slots=True)
class Worn:
    """The ``pieces`` by their names, which of them are worked ``sideways`` as panels and which have an ``outline``, and
    the seams of the report, ``assumed`` where the pattern file has none."""

    pieces: dict[str, WorkedCloth]
    sideways: Mapping[str, bool]
    outlines: frozenset[str]
    sewn: Sequence[SeamSaid]
    assumed: bool

    def wide(self, name: str) -> float:
        """The width of a piece as worn, in cm: of an outline from its farthest edge to the other."""
        cloth = self.pieces[name]
        if name not in self.outlines:
            return float(measures.panel(cloth, self.sideways[name])["width"])
        lefts, rights = zip(*((row.left.at, row.right.at) for row in cloth.rows), strict=True)
        return float((max(rights) - min(lefts)) * cloth.tape.half)

    def long(self, name: str) -> float:
        """The length of a piece as worn, in cm: of an outline all its rows."""
        cloth = self.pieces[name]
        if name not in self.outlines:
            return float(measures.panel(cloth, self.sideways[name])["length"])
        return float(measures.along(cloth))

    def opening(self, front: str, back: str) -> tuple[float, float, float]:
        """Round the neck at the front and at the back, and straight across; of a piece without a neck what the other's
        shoulders leave of its upper edge."""
        pair = [self.pieces[name] for name in (front, back)]
        wide = max(neckline.across(one) for one in pair)
        one, other = (
            neckline.around(one) if "neck" in one.edges else max(0.0, _top_of(one) - _long(met, "shoulder"))
            for one, met in (pair, pair[::-1])
        )
        return one, other, wide

    def side(self) -> float:
        """The length in cm of the side edge that the first sleeve is sewn to."""
        tops = [seam.sides[0].edges[0] for seam in self.sewn if seam.kind == "sleeve top"]
        name, _, edge = tops[0].rpartition(".") if tops else ("", "", "")
        return _long(self.pieces[name], edge) if name in self.pieces else 0.0


def _long(cloth: WorkedCloth, edge: str) -> float:
    return sum(run.long(cloth.tape) for run in cloth.edges.get(edge, ()))


def _top_of(cloth: WorkedCloth) -> float:
    return _long(cloth, "upper" if cloth.upper else "last")


def lines(worn: Worn, said: Sequence[str]) -> tuple[int, list[str]]:
    """How many lines about fit were looked at, and what is wrong in them. Which piece is the back is said by no line:
    it is the one with which most is so."""
    front = next((found[1] for line in said if (found := re.match(r"where it falls: (.+?) is ", line))), None)
    if front not in worn.pieces:
        return 0, []
    backs = [name for name in worn.pieces if name != front or worn.pieces[name].count > 1]
    tried = [_lines(worn, front, back, said) for back in backs] or [(0, [])]
    return min(tried, key=lambda one: len(one[1]))


def _lines(worn: Worn, front: str, back: str, said: Sequence[str]) -> tuple[int, list[str]]:
    looked, wrong = 0, []
    for line in said:
        about, _, words = line.partition(": ")
        words = words.removeprefix("look again: ")
        check = _CHECKS.get(about)
        if check is not None:
            looked += 1
            wrong += [f'"{line}": {reason}' for reason in check(worn, front, back, words)]
    return looked, wrong


def _is(words: str, before: str, cm: float, after: str = "", near: float = 0.0) -> Iterator[str]:
    """Whether the length between two texts is so many cm, give or take; nothing where it does not stand there."""
    found = re.search(rf"{before}({LENGTH}){after}", words)
    if found and not length(found[1]).says(cm, near):
        yield f"{found[1]} is printed, {shown(cm, length(found[1]).unit)} measured"


def _width(worn: Worn, front: str, back: str, words: str) -> Iterator[str]:
    yield from _is(words, "", worn.wide(front) + worn.wide(back), " round the body")
    if wider := re.fullmatch(rf"(.+) is ({LENGTH}) wider than (.+)", words):
        yield from _is(words, " is ", worn.wide(wider[1]) - worn.wide(wider[3]))


def _ease(worn: Worn, front: str, back: str, words: str) -> Iterator[str]:
    around = worn.wide(front) + worn.wide(back)
    yield from _is(words, "^", around)
    yield from _more_than(words, around, rf" on a \w+ of ({LENGTH})(?: to ({LENGTH}))?")


def _more_than(words: str, cm: float, of: str) -> Iterator[str]:
    """Whether "+8.36 cm", or "+8 cm to +12 cm", at the end is by how much ``cm`` is more than the body."""
    body = re.search(of, words)
    told = re.search(rf": ([−+])({LENGTH})(?: to ([−+])({LENGTH}))?", words)
    if not body or not told:
        return
    bodies = [length(one) for one in body.groups() if one]
    off = [(sign, length(one)) for sign, one in ((told[1], told[2]), (told[3], told[4])) if one]
    wanted = sorted(cm - float(one.cm) for one in bodies)
    if len(off) != len(wanted):  # of a range its middle
        wanted = [sum(wanted) / len(wanted)]
    for (sign, one), more in zip(off, wanted, strict=True):
        if not one.says(abs(more), _ROUNDED) or (more < -_ROUNDED and sign == "+") or (more > _ROUNDED and sign == "−"):
            yield f"{sign}{one} is printed, {shown(more, one.unit)} measured"


_ROUNDED = 0.013  # cm: what is printed of a body is rounded to a hundredth of an inch at most


def _neck(worn: Worn, front: str, back: str, words: str) -> Iterator[str]:
    one, other, _ = worn.opening(front, back)
    yield from _is(words, "the opening is ", one + other)
    yield from _is(words, r"\(front ", one)
    yield from _is(words, ", back ", other)
    short = re.search(rf", ({LENGTH}) too small for a head of ({LENGTH})(?: to ({LENGTH}))?", words)
    if short:
        head = length(short[3] or short[2])
        if not length(short[1]).says(float(head.cm) - one - other, _ROUNDED):
            yield f"{short[1]} too small is printed for {head}"


def _rule(worn: Worn, front: str, back: str, words: str) -> Iterator[str]:
    wide = worn.opening(front, back)[2]
    yield from _is(words, "together are ", wide + float(measures.neck_depth(worn.pieces[front])))


def _falls(worn: Worn, front: str, back: str, words: str) -> Iterator[str]:
    long = worn.long(front)
    yield from _is(words, f"^{re.escape(front)} is ", long)
    for off, way, at in re.findall(rf"({LENGTH}) (below|above) the \w+ \(({LENGTH})", words):
        more = long - float(length(at).cm)
        if not length(off).says(abs(more), _ROUNDED) or (more > _ROUNDED) > (way == "below"):
            yield f"{off} {way} {at} is printed, {shown(more, length(off).unit)} below it measured"


def _shoulder_seam(worn: Worn, front: str, back: str, words: str) -> Iterator[str]:
    seam = read_seam(f"A, shoulder: {words}")
    if seam is None:
        yield "no seam that can be read"
        return
    yield from seams(worn.pieces, [seam], assumed=False)


def _shoulder(worn: Worn, front: str, back: str, words: str) -> Iterator[str]:
    back_of = rf"\(cross back ({LENGTH})(?: to ({LENGTH}))?"
    told = re.search(rf"lies ({LENGTH}) (beyond|short of) the shoulder {back_of}", words)
    if told:
        across = [float(length(one).cm) for one in told.groups()[2:] if one]
        drop = (worn.wide(front) - sum(across) / len(across)) / 2
        if not length(told[1]).says(abs(drop), _ROUNDED) or (drop > _ROUNDED) > (told[2] == "beyond"):
            yield f"{told[1]} {told[2]} is printed, {shown(drop, length(told[1]).unit)} beyond it measured"


def _armhole(worn: Worn, front: str, back: str, words: str) -> Iterator[str]:
    if found := re.search(rf"half of (.+?)'s top is ({LENGTH})", words):
        yield from _is(words, "top is ", _top(worn, found[1]) / 2)
        side, deep = worn.side(), _deep(worn)
        yield from _is(words, "taken from the ", side)
        yield from _is(words, " of the side as ", deep, near=_ROUNDED)
        yield from _is(words, "a side seam of ", side - deep, near=_ROUNDED)  # a seam's length is printed rounded
        return
    if re.search("left open|round an upper arm", words):
        told, rounds = length(words), list(_left_open(worn)) if worn.assumed else []
        near = 2 * float(worn.pieces[front].tape.half)  # what is sewn along a row is told to half a cluster
        if rounds and not any(told.says(cm, near) for cm in rounds):
            yield f"{told} is printed, {' or '.join(shown(cm, told.unit) for cm in rounds)} measured"
        yield from _more_than(words, float(told.cm), rf"upper arm of ({LENGTH})(?: to ({LENGTH}))?")


def _left_open(worn: Worn) -> Iterator[float]:
    """What every side seam leaves open above it, at both pieces together, in cm."""
    for seam in worn.sewn:
        if seam.kind != "side" or not seam.lengths:
            continue
        left = 0.0
        for side, sewn in zip(seam.sides, seam.lengths, strict=True):
            name, _, of = side.edges[0].rpartition(".")
            cloth = worn.pieces[name]
            lowest = min(side.rows) if side.rows else 1
            slit = [part for run in cloth.edges.get(of, ()) for part in run.parts if part.row < lowest]
            nth = 0 if of == "first" or not (cloth.parts_up and cloth.parts_up.armed[0]) else 1
            apart = cloth.edges["armhole"][nth].long(cloth.tape) if _arm_above(cloth, of) else 0.0
            if apart:  # what is left open of the side itself is a slit
                left += apart
                continue
            low = 0.0 if side.rows else 2 * side.inset * float(cloth.tape.half)
            left += _long(cloth, of) - float(sewn.cm) - sum(part.long(cloth.tape) for part in slit) - low
        yield left


def _arm_above(cloth: WorkedCloth, of: str) -> bool:
    """Whether the armhole above a side of a piece worked sideways is cut into its upper edge."""
    return cloth.parts_up is not None and of in ("first", "last") and cloth.parts_up.armed[of == "last"]


def _deep(worn: Worn) -> float:
    """How deep the sleeves are sewn in, by the seam of the report."""
    return next((float(seam.lengths[0].cm) for seam in worn.sewn if seam.kind == "sleeve top" and seam.lengths), 0.0)


def _top(worn: Worn, sleeve: str) -> float:
    """The whole of the edge of a sleeve that is sewn in."""
    for seam in worn.sewn:
        for side in seam.sides:
            for edge in side.edges if seam.kind == "sleeve top" else ():
                name, _, of = edge.rpartition(".")
                if name == sleeve and of in worn.pieces[name].edges:
                    return sum(one.long(worn.pieces[name].tape) for one in worn.pieces[name].edges[of])
    return 0.0


def _depth(worn: Worn, front: str, back: str, words: str) -> Iterator[str]:
    yield from _is(words, "^", _deep(worn), " deep")
    yield from _more_than(words, _deep(worn), rf"on a body of ({LENGTH})(?: to ({LENGTH}))?")


def _sleeve_top(worn: Worn, front: str, back: str, words: str) -> Iterator[str]:
    told = length(words)
    others = [cloth for name, cloth in worn.pieces.items() if name not in (front, back)]
    tops = [run.long(cloth.tape) for cloth in others for runs in cloth.edges.values() for run in runs]
    tops += [worn.wide(cloth.name) for cloth in others]  # of a sleeve with a cap
    if not any(told.says(cm) for cm in tops):
        yield f"{told} is printed, which no edge of a sleeve measures"
    yield from _more_than(words, float(told.cm), rf"upper arm of ({LENGTH})(?: to ({LENGTH}))?")


def _sleeve_length(worn: Worn, front: str, back: str, words: str) -> Iterator[str]:
    found = re.match(rf"(.+) is ({LENGTH}) long, ({LENGTH}) from the middle of the back", words)
    if found is None or found[1] not in worn.pieces:
        yield "no sleeve that can be read"
        return
    long = worn.long(found[1])
    reach = worn.wide(front) / 2 + long
    yield from _is(words, " is ", long)
    yield from _is(words, " long, ", reach)
    if end := re.search(rf"it ends ({LENGTH}) (beyond|short of) the wrist \(({LENGTH})(?: to ({LENGTH}))?", words):
        wrists = [float(length(one).cm) for one in end.groups()[2:] if one]
        more = reach - sum(wrists) / len(wrists)
        if not length(end[1]).says(abs(more), _ROUNDED) or (more > _ROUNDED) > (end[2] == "beyond"):
            yield f"{end[1]} {end[2]} is printed, {shown(more, length(end[1]).unit)} beyond it measured"


_CHECKS: dict[str, Callable[[Worn, str, str, str], Iterator[str]]] = {
    "width": _width,
    "ease at the bust": _ease,
    "ease at the hip": _ease,
    "neck over head": _neck,
    "neck, a second rule": _rule,
    "where it falls": _falls,
    "shoulder seam": _shoulder_seam,
    "shoulder": _shoulder,
    "armhole": _armhole,
    "armhole depth": _depth,
    "sleeve at the top": _sleeve_top,
    "sleeve length": _sleeve_length,
}
