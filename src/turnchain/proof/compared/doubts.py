"""The warnings of the report, held against the cloth: every figure of theirs, and that none is missing.

In: the worked pieces, what the pattern file asks for, and the report. Out: how many figures were looked at, and
reasons, in words. The usual gauge is said here a second time: a cluster of k dc is 1.6 to 2.4 rows wide, times k / 3.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from turnchain.proof.cloth import measures as tape_measures
from turnchain.proof.cloth.edges import WorkedCloth
from turnchain.proof.cloth.irregular import irregular_rows
from turnchain.proof.cloth.tape import Tape
from turnchain.proof.compared import armholes, hues
from turnchain.proof.compared.wanted import AskedShape
from turnchain.proof.printed.lengths import LENGTH, Length, length, shown
from turnchain.proof.printed.report import PrintedMeasure


@dataclass(frozen=True, slots=True)
class AskedFabric:
    """Clusters of so many dc (``k``) with so many chains between (``gap``)."""

    k: int
    gap: int

    @property
    def usual(self) -> Fraction:
        """How many rows a cluster with its gap is usually wide; single dc with their chains 0.58 to each."""
        if self.k == 1:
            return Fraction(58, 100) * (1 + self.gap)
        return Fraction(2 * self.k, 3)


@dataclass(frozen=True, slots=True)
class AskedOfNeck:
    """A neck asked for, in cm: a ``shoulder``, the ``depth``, and the ``width`` between the shoulders; ``slant``: it
    goes in by half a cluster a row."""

    shoulder: Fraction
    depth: Fraction
    width: Fraction
    slant: bool


@dataclass(frozen=True, slots=True)
class Doubted:
    """A piece: its ``cloth``, the ``shape`` and the ``neck`` asked for (None: none), how far its edges are off, as
    printed: side, row and length (None: not printed); its table of measures by their names, as printed, how many of
    its rows are ``worked`` already, and how many were ``chosen`` (None: any)."""

    cloth: WorkedCloth
    shape: AskedShape
    neck: AskedOfNeck | None
    off: tuple[str, int, Length] | None
    table: Mapping[str, PrintedMeasure]
    worked: int = 0
    chosen: int | None = None


def lines(
    pieces: Sequence[Doubted], usual: Tape, fabric: AskedFabric | None, said: Sequence[str], short: Mapping[str, str],
    colours: Mapping[str, str],
) -> tuple[int, list[str]]:  # fmt: skip
    """What is wrong in the warnings, "warning: " taken off. ``usual``: the tape of pieces that are not begun;
    ``fabric``: None where it is no plain fabric of clusters; ``short``: the line of each yarn of the report;
    ``colours``: that of each yarn of the pattern file by its name."""
    looked, wrong = 0, []
    of_pieces: dict[str, list[str]] = defaultdict(list)
    general: list[str] = []
    for line in said:
        heads = [one.cloth.name for one in pieces if line.startswith(f"{one.cloth.name}: ")]
        name = max(heads, key=len, default=None)
        (general if name is None else of_pieces[name]).append(line.removeprefix(f"{name}: "))
    looked += 3 * len(general)
    wrong += [f'"{line[:70]}": {reason}' for line in general for reason in _general(line, usual, fabric, short)]
    wrong += _missing_general(general, usual, fabric, short)
    wrong += hues.lines([piece.cloth for piece in pieces], [line for line in general if hues.told(line)], colours)
    for piece in pieces:
        told = of_pieces[piece.cloth.name]
        looked += 3 * len(told)
        for line in told:
            wrong += [f'{piece.cloth.name}: "{line[:70]}": {reason}' for reason in _of_piece(line, piece, fabric)]
        wrong += [f"{piece.cloth.name}: {reason}" for reason in _missing(told, piece, fabric)]
    return looked, wrong


def _off(words: str, printed: str, cm: Fraction | float, near: float = 0.0) -> Iterator[str]:
    told = length(printed)
    if not told.says(cm, near):
        yield f"{printed} {words} is printed, {shown(cm, told.unit)} measured"


def _figure(words: str, printed: str, wanted: Fraction | float, near: float) -> Iterator[str]:
    if abs(float(printed) - float(wanted)) > near:
        yield f"{printed} {words} is printed, {float(wanted):.3f} counted"


# ------------------------------------------------------------------------------------------- of the whole pattern

_OVER = {"10 cm": Fraction(10), "4 in": 4 * Fraction(254, 100)}
_RATIO = re.compile(
    r"an? .+ is (?P<ratio>[\d.]+) rows wide in this swatch; (?P<least>[\d.]+) to (?P<most>[\d.]+) is usual for "
    r"(?:clusters of (?P<k>\d)|this fabric)\. .* too (?P<way>few|many): (?P<rows>[\d.]+) rows to (?P<over>10 cm|4 in) "
    r"counted, where with (?P<units>[\d.]+) \w+s about (?P<about>[\d.]+) are usual\..*"
)
_STITCH = re.compile(
    rf"a stitch is (?P<wide>{LENGTH}) wide in this swatch; .* give (?P<least>[\d.]+) to (?P<most>{LENGTH})\. "
    r".* make a piece 2\.54 times too large or too small"
)
_SHORT = re.compile(r"(?P<yarn>.+) (?:may run|runs) out before the end")
#: cm of a stitch: 32 sc in 10 cm of the finest yarn to 8 of bulky, as published lists of yarn weights have them.
_FINEST, _THICKEST = Fraction(10, 32), Fraction(10, 8)


def _general(line: str, usual: Tape, fabric: AskedFabric | None, short: Mapping[str, str]) -> Iterator[str]:
    if found := _RATIO.fullmatch(line):
        yield from _ratio(found, usual, fabric)
    elif found := _STITCH.fullmatch(line):
        wide = length(found["wide"])
        yield from _figure("as the least", found["least"], _FINEST / _cm(wide.unit), 0.0051)
        yield from _off("as the most", found["most"], _THICKEST)
        if fabric:
            yield from _off("of a stitch", found["wide"], 2 * usual.half / (fabric.k + fabric.gap))
    elif found := _SHORT.fullmatch(line):
        if "short" not in short.get(found["yarn"], "short"):
            yield "no stock is said to be short"
    elif not hues.told(line):
        yield "a warning that nothing looks at"


def _cm(unit: str) -> Fraction:
    return Fraction(1) if unit == "cm" else Fraction(254, 100)


def _ratio(found: re.Match[str], usual: Tape, fabric: AskedFabric | None) -> Iterator[str]:
    ratio, over = 2 * usual.half / usual.row, _OVER[found["over"]]
    least, most = float(found["least"]), float(found["most"])
    if fabric:
        yield from _figure("as the least", found["least"], fabric.usual * Fraction(4, 5), 0.0051)
        yield from _figure("as the most", found["most"], fabric.usual * Fraction(6, 5), 0.0051)
        if found["k"] and int(found["k"]) != fabric.k:
            yield f"clusters of {found['k']} are told"
    yield from _figure("rows wide", found["ratio"], ratio, 0.0051)
    yield from _figure("rows", found["rows"], over / usual.row, 0.0501)
    yield from _figure("across", found["units"], over / usual.half / 2, 0.0501)
    about = float(over / usual.half / 2) * (least + most) / 2
    yield from _figure("as usual", found["about"], about, 0.0501 + 0.006 * about / least)
    low, high = least + 0.0051, most - 0.0051  # printed rounded
    if fabric:
        low, high = float(fabric.usual * Fraction(4, 5)), float(fabric.usual * Fraction(6, 5))
    if not (ratio < low if found["way"] == "few" else ratio > high):
        yield f"rows too {found['way']} are told of where a cluster is {float(ratio):.2f} rows wide"


def _missing_general(
    said: Sequence[str], usual: Tape, fabric: AskedFabric | None, short: Mapping[str, str]
) -> Iterator[str]:
    if fabric:
        ratio = 2 * usual.half / usual.row / fabric.usual
        if (not Fraction(4, 5) <= ratio <= Fraction(6, 5)) != any(map(_RATIO.fullmatch, said)):
            yield f"a cluster is {float(ratio):.2f} of what is usual, and the warnings do not agree"
        stitch = 2 * usual.half / (fabric.k + fabric.gap)
        if (not _FINEST <= stitch <= _THICKEST) != any(map(_STITCH.fullmatch, said)):
            yield f"a stitch is {float(stitch):.2f} cm wide, and the warnings do not agree"
    for yarn, line in short.items():
        if re.search(r"\bg short\b", line) and not any(one.startswith(f"{yarn} ") for one in said):
            yield f"{yarn} runs out, and no warning says so"


# --------------------------------------------------------------------------------------------------- of a piece


def _of_piece(line: str, piece: Doubted, fabric: AskedFabric | None) -> Iterator[str]:
    for pattern, check in _CHECKS.items():
        if found := pattern.fullmatch(line):
            yield from check(found, piece, fabric)
            return
    yield "a warning that nothing looks at"


def _slip(found: re.Match[str], piece: Doubted, fabric: AskedFabric | None) -> Iterator[str]:
    cloth = piece.cloth
    if int(found["rows"]) != cloth.high:
        yield f"{found['rows']} rows are printed, {cloth.high} worked"
    yield from _off("planned", found["planned"], tape_measures.along(cloth))
    if fabric:
        usual = 2 * cloth.tape.half / fabric.usual
        yield from _off("by the usual gauge", found["usual"], tape_measures.along(cloth) / cloth.tape.row * usual)
    if (found["way"] == "wide") != (cloth.upper is not None):
        yield f"{found['way']} is printed of its rows"


def _pulls(found: re.Match[str], piece: Doubted, fabric: AskedFabric | None) -> Iterator[str]:
    if fabric is None:
        return
    k, short = fabric.k, Fraction(fabric.k - (1 if fabric.gap else 3), 2)
    if int(found["k"]) != k:
        yield f"clusters of {found['k']} are told"
    yield from _figure("stitches", found["short"], short, 0.0051)
    yield from _off("short", found["about"], short * 2 * piece.cloth.tape.half / (k + fabric.gap))


def _reaches(piece: Doubted) -> list[Fraction]:
    """How deep a slant can be between the shoulders wanted: half a cluster in to a row, or a whole one; both where the
    cloth has a single row of clusters, which does not show it."""
    assert piece.neck is not None, "the warning is of a neck"
    alone = sum(row.kind == "cluster" for row in piece.cloth.rows) == 1
    leans = (1, 2) if alone else (piece.cloth.lean,)
    slopes = [lean * piece.cloth.tape.half / piece.cloth.tape.row for lean in leans]
    return [piece.neck.width / 2 * (slope if piece.cloth.upper else 1 / slope) for slope in slopes]


def _unreached(piece: Doubted) -> list[bool]:
    """Whether the neck is a slant that cannot be as deep as wanted; both where that is not known."""
    neck = piece.neck
    return [reach < neck.depth for reach in _reaches(piece)] if neck and neck.slant else [False]


def shallow(piece: Doubted) -> bool:
    """Whether the neck may be a slant that cannot be as deep as wanted."""
    return any(_unreached(piece))


def _shallow(found: re.Match[str], piece: Doubted, fabric: AskedFabric | None) -> Iterator[str]:
    if piece.neck is None or not piece.neck.slant:
        yield "no slant neck is asked for"
        return
    yield from min((list(_off("reached", found["reach"], reach)) for reach in _reaches(piece)), key=len)
    yield from _off("wanted", found["depth"], piece.neck.depth)


def named(piece: Doubted) -> dict[str, tuple[Fraction, tuple[Fraction, ...], Fraction]]:
    """Of every measure of the neck, what is wanted, what is worked, and how far that may be off, in cm."""
    neck, cloth = piece.neck, piece.cloth
    if neck is None:
        return {}
    along, across = cloth.tape.row / 2, cloth.tape.half
    if not cloth.upper:
        along, across = across, along
    whole = tape_measures.along(cloth) if cloth.upper else tape_measures.across(cloth)
    shoulders = tape_measures.shoulders(cloth) or (whole / 2, whole / 2)
    half = cloth.parts_up is not None and bool(cloth.parts_up.opens)
    shoulders = (shoulders[0], shoulders[0]) if half else shoulders
    first, second = shoulders if cloth.upper else _in_turn(cloth, shoulders)
    found = {"shoulder": shoulders} if first == second else {"first shoulder": (first,), "second shoulder": (second,)}
    return {
        **{name: (neck.shoulder, worked, along) for name, worked in found.items()},
        "neck depth": (neck.depth, (tape_measures.neck_depth(cloth),), across),
        **({} if half else {"neck width": (neck.width, (tape_measures.neck_width(cloth),), along)}),
    }


def _in_turn(cloth: WorkedCloth, shoulders: tuple[Fraction, ...]) -> tuple[Fraction, ...]:
    """The shoulders in the order worked; they are measured from the left."""
    again = next((nth for nth in range(1, len(cloth.rows)) if cloth.rows[nth].number <= cloth.rows[nth - 1].number), 0)
    left_first = not again or cloth.rows[again - 1].left.at < cloth.rows[-1].left.at
    return shoulders if left_first else shoulders[::-1]


def _missed(found: re.Match[str], piece: Doubted, fabric: AskedFabric | None) -> Iterator[str]:
    measured = named(piece).get(found["name"])
    if measured is None:
        yield f"nothing on the cloth is called {found['name']}"
        return
    wanted, worked, most = measured
    yield from _off("worked", found["worked"], worked[0])
    yield from _off("wanted", found["wanted"], wanted)
    by_rows = (found["name"] == "neck depth") == (piece.cloth.upper is None)
    if (found["much"] == "row") != by_rows:
        yield f"half a {found['much']} is told of"
    if abs(worked[0] - wanted) <= most:
        yield f"it is no more than half a {found['much']} off"
    row = piece.table.get(found["name"])
    if row is None or (row.worked, row.wanted) != (length(found["worked"]), length(found["wanted"])):
        yield f"the table of measures has {row.text.strip() if row else 'no such measure'}"
    yield from _why_missed(found["why"], piece, by_rows, abs(worked[0] - wanted))


_WORKED = "the rows already worked stay as they are"
_ENDS = "the two ends of the neck are to match"
_REGULAR = "with regular shaping no {}number of rows close to the one wanted"
#: What is said of a neck worked sideways that no other number of rows would mend, or that is not as by itself.
NO_NEARER, NO_ODD_NEARER = (f"{_ENDS}, and {_REGULAR.format(odd)} comes nearer" for odd in ("", "odd "))
NO_ROWS, NO_ODD_ROWS = (f"{_REGULAR.format(odd)} lets them match" for odd in ("", "odd "))
FOLLOWS = "its number of rows follows that of other pieces or sizes"
_ROOM = re.compile(r"every row needs room for a \w+, and an edge can move in or out only where its stitches allow it")
_UNLIKE = "the sides of the piece are not alike"
_ALIKE = re.compile(
    r"rows that are alike have half a \w+ more on one side; with row_plan = \"alternate\" they match"
)


def _why_missed(told: str, piece: Doubted, by_rows: bool, off: Fraction) -> Iterator[str]:
    """Whether the reason told is the cloth's: along the height of rows those worked already, whole rows or, sideways,
    two ends that match; across them, and where whole rows would do, room and places."""
    cloth, so = piece.cloth, bool(_ROOM.fullmatch(told))
    if by_rows and cloth.upper:
        so = told in _held_fast(piece, NO_NEARER, NO_ODD_NEARER)
    elif by_rows and piece.worked > len(cloth.parts[0]):
        so = told == _WORKED
    elif by_rows and off <= cloth.tape.row:
        so = told == "a neck begins on a whole row"
    if not so:
        yield f'"{told}" is told as the reason, and the cloth does not have it'


def _held_fast(piece: Doubted, *others: str) -> tuple[str, ...]:
    if piece.worked:
        return (_WORKED,)
    return (FOLLOWS, *others) if piece.chosen is None else (f"exact_rows = {piece.chosen} stays as you chose it",)


def _why_unlike(told: str, piece: Doubted) -> Iterator[str]:
    """Whether the reason told for two shoulders that differ is the cloth's: rows alike are an odd number of half
    clusters wide."""
    first, alike = piece.cloth.rows[0], False
    if not piece.cloth.stacked:
        alike = (first.right.at - first.left.at) % 2 == 1
    if piece.cloth.upper:
        so = told in _held_fast(piece, NO_ROWS, NO_ODD_ROWS)
    elif piece.worked:
        so = told == _WORKED
    else:
        mirrored = len({row.left.at + row.right.at for row in piece.cloth.parts[0]}) == 1
        other = "no place for the neck on the stitches lets them match" if mirrored else _UNLIKE
        so = bool(_ALIKE.fullmatch(told)) if alike else told == other
    if not so:
        yield f'"{told}" is told as the reason, and the cloth does not have it'


def _differ(found: re.Match[str], piece: Doubted, fabric: AskedFabric | None) -> Iterator[str]:
    found_of = named(piece)
    for nth in ("first", "second"):
        if f"{nth} shoulder" not in found_of:
            yield "the two shoulders are alike"
            return
        yield from _off(nth, found[nth], found_of[f"{nth} shoulder"][1][0])
    yield from _why_unlike(found["why"], piece)


def _irregular(found: re.Match[str], piece: Doubted, fabric: AskedFabric | None) -> Iterator[str]:
    place = ((found["part"] or "body").split()[0], found["side"], found["way"])
    rows = tuple(map(int, re.findall(r"\d+", found["rows"])))
    if (found["way"] == "less") != (found["gap"] == "with"):
        yield f"an edge {found['gap']} a gap is told of"
    if irregular_rows(piece.cloth).get(place) != rows:
        yield f"rows {rows} are printed, {irregular_rows(piece.cloth).get(place)} worked so"


def _away(found: re.Match[str], piece: Doubted, fabric: AskedFabric | None) -> Iterator[str]:
    if piece.off is None or piece.off != (found["side"], int(found["row"]), length(found["off"])):
        yield "the largest deviation is printed otherwise"
    elif float(piece.off[2].cm) < 2 * float(piece.cloth.tape.half) - 0.013:
        yield "it is less than a whole cluster"


def _later(found: re.Match[str], piece: Doubted, fabric: AskedFabric | None) -> Iterator[str]:
    row, side = int(found["row"]), found["side"]
    if piece.off is None or piece.off[:2] != (side, row - 1):
        yield "the largest deviation is not in the row below it"
    parts = piece.cloth.side("left" if side == "left" else "right")
    if not any(part.level and part.row == row for part in parts):
        yield f"no step is in row {row}"


_CHECKS: dict[re.Pattern[str], Callable[[re.Match[str], Doubted, AskedFabric | None], Iterator[str]]] = {
    re.compile(
        rf"if the rows were miscounted as the gauge suggests, the (?P<rows>\d+) rows planned to be "
        rf"(?P<planned>{LENGTH}) (?P<way>wide|high) would come out (?P<usual>{LENGTH}) (?P=way)"
    ): _slip,
    re.compile(
        rf"with clusters of (?P<k>\d+), an edge with a gap falls short of half a cluster by (?P<short>[\d.]+) "
        rf"stitch(?:es)? \(about (?P<about>{LENGTH})\) and pulls in a little there"
    ): _pulls,
    re.compile(
        rf"a slant neck goes in (?:half )?a \w+ a row: .* at most (?P<reach>{LENGTH}) deep, not (?P<depth>{LENGTH});.*"
    ): _shallow,
    re.compile(
        rf"(?P<name>(?:first |second )?shoulder|neck depth|neck width): (?P<worked>{LENGTH}), not "
        rf"(?P<wanted>{LENGTH}), more than half a (?P<much>\w+) off: (?P<why>.*)"
    ): _missed,
    armholes.MISSED: lambda found, piece, fabric: armholes.missed(found, piece.cloth, piece.table),
    re.compile(
        rf"the two shoulders differ, (?P<first>{LENGTH}) first and (?P<second>{LENGTH}) then: (?P<why>.*)"
    ): _differ,
    re.compile(
        r"(?:(?P<part>first|second) shoulder, )?(?P<side>left|right) edge, (?P<rows>rows? [\d, and]+): half a \w+ "
        r"(?P<way>less|more) right after an edge (?P<gap>with|without) a gap \(irregular; .*\)"
    ): _irregular,
    re.compile(
        rf"the (?P<side>left|right) edge is (?P<off>{LENGTH}) away from the shape you gave in row (?P<row>\d+): .*"
    ): _away,
    re.compile(
        r"a step outwards can only be made where a row starts: at the (?P<side>left|right) edge it comes a row later, "
        r"in row (?P<row>\d+)"
    ): _later,
}  # fmt: skip
_SLIP, _PULLS, _SHALLOW, _MISSED, _, _DIFFER, _IRREGULAR, _AWAY, _LATER = _CHECKS


def _missing(said: Sequence[str], piece: Doubted, fabric: AskedFabric | None) -> Iterator[str]:
    """What the cloth has that a maker is warned of, and is not."""
    missed = {found["name"] for line in said if (found := _MISSED.fullmatch(line))}
    warned, neck = any(map(_SHALLOW.fullmatch, said)), piece.neck
    either = _unreached(piece)
    too_deep = warned if warned in either else either[0]
    for name, (wanted, worked, most) in named(piece).items():
        if abs(worked[0] - wanted) > most and name not in missed and not (too_deep and name == "neck depth"):
            yield f"{name} is {shown(worked[0], 'cm')}, not {shown(wanted, 'cm')}, and no warning says so"
    yield from armholes.missing(said, piece.cloth, piece.table)
    if too_deep != warned:
        deep = " or ".join(shown(reach, "cm") for reach in (_reaches(piece) if neck else ()))
        yield f"a slant neck reaches {deep}, and the warnings do not agree"
    if ("first shoulder" in named(piece)) != any(map(_DIFFER.fullmatch, said)):
        yield "whether the two shoulders differ is told otherwise"
    told = [found for line in said if (found := _IRREGULAR.fullmatch(line))]
    places = {((one["part"] or "body"), one["side"], one["way"]) for one in told}
    for place, rows in irregular_rows(piece.cloth).items():
        if place not in places:
            yield f"rows {rows} are irregular at the {place[1]} edge, and no warning says so"
    if fabric:
        ratio = 2 * piece.cloth.tape.half / piece.cloth.tape.row / fabric.usual
        if (not Fraction(4, 5) <= ratio <= Fraction(6, 5)) != any(map(_SLIP.fullmatch, said)):
            yield "whether its rows may be miscounted is told otherwise"
        spaced = any("spaced" in (row.left.kind, row.right.kind) for row in piece.cloth.rows)
        if (fabric.k >= 4 and spaced) != any(map(_PULLS.fullmatch, said)):
            yield "whether its edges pull in is told otherwise"
    far = piece.off is not None and float(piece.off[2].cm) > 2 * float(piece.cloth.tape.half) + 0.013
    if far and not any(_AWAY.fullmatch(line) or _LATER.fullmatch(line) for line in said):
        yield "its largest deviation is more than a cluster, and no warning says so"
