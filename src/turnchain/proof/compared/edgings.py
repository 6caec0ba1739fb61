"""Edgings worked again: the words read, the edge of the cloth walked place by place, every row counted.

In: the worked pieces, the seams of the report, the written pattern's lines. Out: how many figures were looked at, and
reasons, in words. What seams leave of an edge is known as for borders; a row end is what the cloth has there, an edge
stitch that stands or leans.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil

from turnchain.proof.cloth.edges import EdgePart, WorkedCloth
from turnchain.proof.compared import borders
from turnchain.proof.compared.edged_rows import EdgedRow
from turnchain.proof.compared.yarns import Weighing
from turnchain.proof.printed.edging.reader import EdgingReader, SaidPhrase, SaidPlaces, parted
from turnchain.proof.printed.lengths import Length, length, shown
from turnchain.proof.printed.report import SeamSaid

#: From published answers: how many sc, hdc and dc lie along a row of dc, and what goes into a corner.
_TO_A_ROW = {"sc": 2.0, "hdc": 1 / 0.54, "dc": 1.5}
_CORNER = {"sc": 3, "hdc": 3, "dc": 5}
#: From memory: how high their rows are, in rows of dc.
_HIGH = {"sc": 0.5, "hdc": 0.75, "dc": 1.0}


@dataclass(frozen=True, slots=True)
class EdgingAsked:
    """What the file asks of an edging: how many ``rows`` of which ``stitch`` (US), in which ``yarn``; how ``wide`` a
    stitch and how ``high`` a row is in cm, None where no swatch of it was counted; its ``buttonholes``, and over how
    many stitches each; the length of its ``tie`` s or ``strap`` in cm, None where it has none."""

    rows: int
    stitch: str
    yarn: str | None
    wide: float | None = None
    high: float | None = None
    buttonholes: int = 0
    buttonhole: int = 2
    tie: float | None = None
    strap: float | None = None


@dataclass
class WorkedBand:
    """A band worked from its words: its ``name``, ``times``, ``yarn``, ``stitch`` and ``rows``, each stitch ``wide``
    and each row ``high`` in cm (``counted``: the stitches were, in a swatch); ``counts`` of the rows so far, the
    stitches ``along`` each edge in the first, its corners ``outer`` and ``inner``, and how long it is in ``cm``, give
    or take ``near``; ``tied``: square cm of its ties or strap; the
    ``sides`` of the first, and the last ``row`` as worked."""

    name: str
    times: int
    yarn: str
    stitch: str
    rows: int
    wide: float
    high: float
    counted: bool = False
    counts: list[int] = field(default_factory=list)
    along: dict[str, set[int]] = field(default_factory=dict)
    outer: int = 0
    inner: int = 0
    cm: float = 0.0
    near: float = 0.0
    tied: float = 0.0
    sides: list[tuple[WorkedCloth, int]] = field(default_factory=list)
    row: EdgedRow | None = None


@dataclass(frozen=True, slots=True)
class _Open:
    """A way in which an edge may lie open: its row ends, standing and leaning, or the stitches across it; ``near``:
    those may be so many more or fewer; ``cm`` long; ``kinds``: of its row ends."""

    straight: int
    slanting: int
    across: int
    near: int
    cm: float
    upright: float
    kinds: tuple[tuple[str, int], ...] = ()


def worked(
    pieces: dict[str, WorkedCloth],
    seams: Sequence[SeamSaid],
    asked: Sequence[EdgingAsked],
    said: Sequence[str],
    reported: Sequence[str],
    scale: Weighing,
    language: str,
) -> Edgings:
    """The edgings in the lines ``said``, in a ``language`` of ``tables.PHRASES``, worked: how many figures were looked
    at, and what is wrong in them; the lines ``reported`` tell the grams of each yarn as well."""
    made = Edgings(pieces, seams, asked, language)
    if asked:
        made.work(said)
        made.weigh(scale, [line for line in said if made.reader.tells_yarn(line)], reported)
    return made


class Edgings:
    """The edgings of a written pattern, worked in the order of its lines."""

    def __init__(
        self, pieces: dict[str, WorkedCloth], seams: Sequence[SeamSaid], asked: Sequence[EdgingAsked], language: str
    ) -> None:
        self.pieces, self.seams, self.asked = pieces, seams, asked
        self.reader = EdgingReader(language)
        self.bands: list[WorkedBand] = []
        self.along: dict[str, set[int]] = {}  # by piece: the stitches told along each of its edges
        self.tied: dict[str, list[tuple[int, float]]] = {}  # by piece: those of an edge that is tied, and cm of a tie
        self.figures = 0
        self.wrong: list[str] = []

    def work(self, lines: Sequence[str]) -> None:
        """Works every line that is one of an edging."""
        for line in filter(self.reader.is_one, lines):
            told = self.reader.read(line, "intro", "first", "later", "holes", "ties", "strap")
            if told is None or (told.key != "intro" and not self.bands):
                self.wrong.append(f'"{line[:60]}" cannot be worked')
                continue
            if told.key == "intro":
                self._whole()
                self._begin(told)
            elif told.number("number") != len(self.bands):
                self._say(f'"{line[:60]}" is of edging {told.number("number")}')
            elif told.key == "first":
                self._first(told, self.reader.is_round(line))
            elif told.key == "later":
                self._later(told)
            elif told.key == "holes":
                self._buttonholes(told)
            else:
                self._tied(told)
        self._whole()
        if self.asked and not self.bands:
            self.wrong.append("edgings are asked for, and none is told")

    def weigh(self, scale: Weighing, *told: Sequence[str]) -> None:
        """Holds what all bands take in grams, at the weight of the swatch, against lines that tell it of each yarn."""
        if scale.dense is None or self.wrong or not self.bands:
            return
        grams = float(sum(area for area, _ in self.areas.values()) * scale.dense * scale.more)
        for lines in filter(None, told):
            said = [int(one) for line in lines for one in re.findall(r"(\d+) g\b(?! kept)", line)]
            near = len(said) + grams / 20  # each is rounded up; along a part of a row half a cluster is not known
            self.figures += len(said)
            if abs(sum(said) - grams) > near:
                self.wrong.append(f"edgings: {sum(said)} g are printed, {grams:.1f} g reckoned")

    @property
    def areas(self) -> dict[str, tuple[Fraction, Fraction]]:
        """The fabric of all bands by yarn, in square cm, and by how much it may be more or less."""
        found: dict[str, tuple[Fraction, Fraction]] = {}
        for one in self.bands:
            area, near = found.get(one.yarn, (Fraction(0), Fraction(0)))
            near += Fraction(one.near * one.rows * one.high * one.times + 1e-6)
            found[one.yarn] = area + Fraction(_area(one) * one.times), near
        return found

    def _say(self, words: str) -> None:
        self.wrong.append(f"edging {len(self.bands)}: {words}")

    def _begin(self, told: SaidPhrase) -> None:
        self.figures += 2
        rows = told.number("rows")
        stitch = self.reader.stitches[told.slots["st"]]
        asked = [one for one in self.asked if (one.rows, one.stitch) == (rows, stitch)]
        made = (asked or [EdgingAsked(rows, stitch, None)])[0]
        row = self._row_high
        wide, high = made.wide or row / _TO_A_ROW[made.stitch], made.high or row * _HIGH[made.stitch]
        name, times, yarn = told.slots["name"], told.number("times", 1), told.slots.get("yarn", "")
        self.bands.append(WorkedBand(name, times, yarn, made.stitch, rows, wide, high, made.wide is not None))
        if asked and yarn not in {one.yarn or "" for one in asked}:
            self._say(f"it is told in {yarn or 'no yarn'}, asked for in {asked[0].yarn}")
        if not asked:
            wanted = " or ".join(f"{one.rows} of {one.stitch}" for one in self.asked)
            self._say(f"{rows} rows of {stitch} are told, {wanted} asked for")
        if told.number("number") != len(self.bands):
            self._say(f"it is called {told.number('number')}")

    @property
    def _row_high(self) -> float:
        """How high a row of dc is in the yarn of the fabric, in cm."""
        return float(next(iter(self.pieces.values())).tape.dc_row)

    def _whole(self) -> None:
        if self.bands and len(self.bands[-1].counts) != self.bands[-1].rows:
            self._say(f"{self.bands[-1].rows} rows are told, {len(self.bands[-1].counts)} worked")
        for edge in self.bands[-1].along if self.bands else ():
            if self.reader.read(edge, "part") and edge not in self.bands[-1].name:
                self._say(f"{edge} is not in its name")

    # ---------------------------------------------------------------------------------------------- the first row

    def _first(self, told: SaidPhrase, closed: bool) -> None:
        band = self.bands[-1]
        band.row = row = EdgedRow(self.reader, (_CORNER[band.stitch] - 1) // 2, closed)
        self.figures += 2
        sides = [(words, self.reader.read(words, "outer", "inner", "side")) for words in parted(told.slots["sides"])]
        for nth, (words, side) in enumerate(sides):
            beside = [sides[nth - 1][1], sides[(nth + 1) % len(sides)][1]]
            if side is None:
                self._say(f'"{words}" cannot be worked')
            elif side.key == "outer":
                row.corner(outer=True)
                band.outer += 1
                if side.number("n") != _CORNER[band.stitch]:
                    self._say(f"{words}; {_CORNER[band.stitch]} lie flat")
            elif side.key == "inner":
                row.corner(outer=False)
                band.inner += 1
                if side.number("n", 2) != 2:
                    self._say(f"{words}; 2 are worked together there")
            else:
                row.along(self._side(words, side, sum(one is not None and one.key == "outer" for one in beside)))
        row.begun()
        if told.number("first") != 1:
            self._say(f"its first row is called {told.number('first')}")
        self._count(told.number("all"), len(row.stitches))
        long = _length(told)
        if not long.tapes(band.cm, band.near):
            self._say(f"{long} long; it measures {shown(band.cm, long.unit)}")

    def _side(self, words: str, side: SaidPhrase, corners: int) -> int:
        """The stitches worked along one edge."""
        cut = self.reader.read(side.slots["edge"], "part")
        called = self.reader.edge((cut or side).slots["edge"])
        cloth, edge = borders.placed(self.pieces, self.bands[-1].name, called)
        met = [self.reader.places(how) for how in parted(side.slots["how"])]
        if cloth is None or not all(met):
            self._say(f'"{words}" cannot be worked')
            return 0
        spread = [one for one in met if one is not None]
        self.figures += side.figures
        if any(one.stitches is None for one in spread):
            self._say(f'"{side.slots["how"]}" does not end where its places do')
        worked = sum(one.stitches or 0 for one in spread)
        if worked != side.number("n"):
            self._say(f"{words}: {worked} come of it")
        self.bands[-1].along.setdefault(side.slots["edge"], set()).add(worked)
        self.bands[-1].sides.append((cloth, worked))
        for other in self.pieces.values():
            if other is cloth or (self.bands[-1].times > 1 and _mirrored(cloth, other)):  # told once for both
                self.along.setdefault(other.name, set()).add(worked)
        rows = range(cut.number("first"), cut.number("last") + 1) if cut else None
        ways = list(_ways(cloth, edge, self.seams, _has_ends(spread), rows))
        self._on_the_cloth(ways, spread, words, corners, cloth, times := side.number("times", 1))
        return worked * times

    def _on_the_cloth(
        self,
        ways: Sequence[_Open],
        spread: Sequence[SaidPlaces],
        words: str,
        corners: int,
        cloth: WorkedCloth,
        times: int,
    ) -> None:
        """Whether the places are there at each of so many ``times``, and the stitches lie flat on them."""
        band, ends = self.bands[-1], _has_ends(spread)
        fits = [one for one in ways if _has(one, spread, corners)]
        if not fits:
            self._say(f"{words}: not the places of that edge")
            return
        along = sum(one.stitches or 0 for one in spread if one.what in _ENDS)
        wanted = [one.upright / band.wide for one in fits]
        if ends and not any(abs(along - one) <= 0.5 + 1e-4 for one in wanted):
            self._say(f"{words}: {along} along row ends, {wanted[0]:.1f} lie flat")
        across = sum(one.stitches or 0 for one in spread) - along
        if not any(self._lies_flat(across, one, 0 if ends else corners) for one in fits):
            self._say(f"{words}: {across} across do not lie flat")
        least, most = min(one.cm for one in fits), max(one.cm for one in fits)
        band.cm += times * (least + most) / 2
        band.near += times * ((most - least) / 2 + borders.one_half(cloth) * any(one.near for one in fits))

    def _lies_flat(self, across: int, one: _Open, corners: int) -> bool:
        """Whether so many stitches do along what lies across an edge: by the swatch, else one in each."""
        band = self.bands[-1]
        if not band.counted:
            return abs(across + corners - one.across) <= one.near
        return abs(across + corners - (one.cm - one.upright) / band.wide) <= 0.5 + 1e-4 + one.near

    # ------------------------------------------------------------------------------------------------ later rows

    def _later(self, told: SaidPhrase) -> None:
        band, outer, inner = self.bands[-1], 0, 0
        counts = [int(count) for count in told.slots["counts"].split(", ")]
        steps = list(self.reader.parts(told.slots["how"], *_ON))
        self.figures += len(counts) + len(steps) - 1
        for step in steps:
            if isinstance(step, str):
                self._say(f'"{step}" cannot be worked')
            elif step.key == "on.outer":
                outer = step.number("n", 1)
            elif step.key == "on.inner":
                inner = step.number("n", 1)
            if not isinstance(step, str) and step.number("corner", _CORNER[band.stitch]) != _CORNER[band.stitch]:
                self._say(f"{step.number('corner')} in a corner; {_CORNER[band.stitch]} lie flat")
        if (outer, inner) != (band.outer, band.inner):
            self._say(f"{outer} corners and {inner} inwards, {band.outer} and {band.inner} in the first row")
        first, last = told.number("first"), told.number("last", told.number("first"))
        if first != len(band.counts) + 1:
            self._say(f"row {first} after {len(band.counts)} rows")
        if last - first + 1 != len(counts):
            self._say(f"{len(counts)} counts of rows {first} to {last}")
        row = band.row or EdgedRow(self.reader, 0, closed=False)
        for count in counts:
            worked = row.work([step for step in steps if not isinstance(step, str)])
            if row.wrong:
                self._say(row.wrong)
            self._count(count, worked)

    def _buttonholes(self, told: SaidPhrase) -> None:
        """Worked along their edge: as far from its one end as from its other, but for a stitch."""
        band, over = self.bands[-1], told.number("over")
        holes = told.number("times", 1)
        gaps = [(one.number("gap"), one.number("n", 1)) for one in self.reader.each("gap", told.slots.get("gaps", ""))]
        self.figures += 5 + 2 * len(gaps)
        if not any((one.buttonholes, one.buttonhole) == (holes, over) for one in self.asked):
            self._say(f"{holes} buttonholes over {over} are not asked for")
        if told.number("chains") != over or sum(times for _, times in gaps) != holes - 1:
            self._say("its buttonholes do not come out")
        if not 1 < told.number("row") < band.rows:
            self._say(f"buttonholes in row {told.number('row')} of {band.rows}")
        first = told.number("first")
        taken = first + holes * over + sum(gap * times for gap, times in gaps)
        after = {stitches - taken for stitches in band.along.get(told.slots["edge"], {0})}
        if not any(0 <= last - first <= 1 for last in after):
            self._say(f"{max(after)} stitches after its buttonholes, {first} before them")

    def _tied(self, told: SaidPhrase) -> None:
        """Its ties or its strap: as many chains as stitches come back along them, as long as they are asked for."""
        band, stitches = self.bands[-1], told.number("n")
        self.figures += 3
        asked = [one.tie if told.key == "ties" else one.strap for one in self.asked if one.rows == band.rows]
        own = [one for one in self.asked if one.stitch == "sc" and one.wide]
        wide = own[0].wide if own and own[0].wide else self._row_high / _TO_A_ROW["sc"]
        high = own[0].high if own and own[0].high else self._row_high * _HIGH["sc"]
        if not any(one is not None and round(one / wide) == stitches for one in asked):
            self._say(f"a {told.key} of {stitches} stitches is not asked for")
        more = 1 if told.key == "ties" else 0  # to turn: it does not count as a stitch
        if told.number("chains") != stitches + more or (more and told.number("nth") != 2):
            self._say(f"{stitches} stitches do not go into {told.number('chains')} chains")
        if told.key == "strap" and told.number("nth", 1) not in (1, band.counts[-1] // 2 + 1):
            self._say(f"its strap ends at stitch {told.number('nth')} of {band.counts[-1]}")
        if not _length(told).tapes(stitches * wide):
            self._say(f"its {told.key} are {_length(told)} long; they measure {shown(stitches * wide, 'cm')}")
        band.tied = stitches * wide * high * (2 if told.key == "ties" else 1)
        for at in (0, -1) if told.key == "ties" else (-1,):
            cloth, along = band.sides[at] if band.sides else (None, 0)
            for other in self.pieces.values():
                if cloth and (other is cloth or (band.times > 1 and _mirrored(cloth, other))):
                    self.tied.setdefault(other.name, []).append((along, stitches * wide))

    def _count(self, told: int, worked: int) -> None:
        if told != worked:
            self._say(f"{told} are told of row {len(self.bands[-1].counts) + 1}, {worked} worked")
        self.bands[-1].counts.append(worked)


def _mirrored(one: WorkedCloth, other: WorkedCloth) -> bool:
    """Whether a piece is the mirror image of another, row by row; or both are halves of one front, worked sideways, in
    which a step may be made a row later."""
    if one.parts_up is not None and other.parts_up is not None and one.parts_up.opens and other.parts_up.opens:
        return one.upper != other.upper
    pairs = list(zip(one.rows, other.rows, strict=False))
    sums = {here.left.at + there.right.at for here, there in pairs} | {
        here.right.at + there.left.at for here, there in pairs
    }
    return len(one.rows) == len(other.rows) and len(sums) == 1


def _area(one: WorkedBand) -> float:
    """The fabric of a band, once, in square cm."""
    further = sum(count - one.counts[0] for count in one.counts)
    return (one.cm * one.rows + further * one.wide) * one.high + one.tied


_ON = ("on", "on.outer", "on.inner", "on.fewer", "on.more", "on.before", "on.after")
_ENDS = ("straight", "slant")


def _length(told: SaidPhrase) -> Length:
    """The length that is told, whatever the decimal sign of its language."""
    return length(told.slots["length"].replace(",", "."))


def _has_ends(spread: Sequence[SaidPlaces]) -> bool:
    return any(one.what in _ENDS for one in spread)


# ------------------------------------------------------------------------------------------------------ what lies open


def _has(one: _Open, spread: Sequence[SaidPlaces], corners: int) -> bool:
    """Whether an open edge has the places that are told."""
    kinds = Counter[str]()
    for met in spread:
        kinds[met.kind] += met.places if met.what in _ENDS else 0
    of_kinds = {kind: count for kind, count in kinds.items() if kind}
    if of_kinds and of_kinds != dict(one.kinds):
        return False
    straight, slanting = (sum(met.places for met in spread if met.what == what) for what in _ENDS)
    across = sum(met.places for met in spread if met.what not in _ENDS)
    taken = 0 if straight or slanting else corners
    return (straight, slanting) == (one.straight, one.slanting) and abs(across + taken - one.across) <= one.near


def _ways(cloth: WorkedCloth, edge: str, seams: Sequence[SeamSaid], ends: bool, rows: range | None) -> Iterator[_Open]:
    """The ways in which an edge may lie open; ``rows``: those alone."""
    for whole in borders.open_row_ends(cloth, edge, seams):
        parts = whole if rows is None else [part for part in whole if part.row in rows]
        if rows is not None and [part.row for part in parts if not part.level] != list(rows):
            continue
        for run in _at_long_steps(parts):
            made = _of_parts(cloth, run)
            if bool(made.straight or made.slanting) == ends:
                yield made
    if not ends:
        for way in borders.open_across(cloth, edge, seams):
            yield _Open(0, 0, way.stitches, way.near, way.cm, 0.0)


def _at_long_steps(parts: Sequence[EdgePart]) -> Iterator[Sequence[EdgePart]]:
    """Parts of an edge between its steps of two clusters and more, and those steps."""
    start = 0
    for nth, part in enumerate(parts):
        if part.level and abs(part.head - part.foot) >= 4:
            yield parts[start:nth]
            yield parts[nth : nth + 1]
            start = nth + 1
    yield parts[start:]


def _of_parts(cloth: WorkedCloth, parts: Sequence[EdgePart]) -> _Open:
    ends = [part for part in parts if not part.level]
    halves = sum(abs(part.head - part.foot) for part in parts if part.level)
    upright = sum(part.long(cloth.tape) for part in ends)
    kinds = Counter(part.kind for part in ends)
    slanting = sum(not part.upright for part in ends)
    across = round(halves * borders.to_a_half(cloth))
    near = ceil(2 * borders.to_a_half(cloth)) if halves else 0
    return _Open(
        len(ends) - slanting, slanting, across, near, upright + halves * borders.one_half(cloth), upright,
        tuple(sorted(kinds.items())),
    )  # fmt: skip
