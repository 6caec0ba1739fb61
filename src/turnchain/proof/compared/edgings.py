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
from math import ceil

from turnchain.proof.cloth.edges import EdgePart, WorkedCloth
from turnchain.proof.compared import borders
from turnchain.proof.compared.yarns import Weighing
from turnchain.proof.printed.lengths import LENGTH, length, shown
from turnchain.proof.printed.report import SeamSaid

_ST = r"(?:sc|hdc|htr|dc|tr)"
_ROW = r"Edging (?P<number>\d+), (?:round|row)s? (?P<first>\d+)(?: to (?P<last>\d+))?"
_INTRO = re.compile(
    rf"Edging (?P<number>\d+), (?P<name>.+?)(?:, (?P<times>\d+) times)?: (?P<rows>\d+) (?P<kind>round|row)s? of "
    rf"(?P<st>{_ST}) \(.*\)(?: in .+?)?\. .*"
)
_FIRST = re.compile(rf"{_ROW}: (?P<sides>.*): (?P<all>\d+) {_ST} in all, (?P<long>{LENGTH}) long")
_LATER = re.compile(rf"{_ROW}: (?P<how>1 {_ST} in each {_ST}.*): (?P<counts>\d+(?:, \d+)*) {_ST}")
_SIDE = re.compile(rf"(?P<edge>.+?) (?P<n>\d+) {_ST} \((?P<how>.*)\)")
_OUTER = re.compile(r"(\d+) in the corner")
_INNER = re.compile(rf"{_ST}2tog over the corner inwards")
_PLACES = re.compile(
    r"(?P<n>\d+) in (?:each of (?:the )?(?P<places>\d+)|the) (?P<what>chains? of the foundation|stitches and chains|"
    r"stitch|stitch(?:es)? of the step|row ends? of \w+|(?:straight |slanting )?row ends?)"
    r"(?:, (?P<change>1 more in|1 fewer in|skipping) (?P<where>.*))?"
)
_HOLES = re.compile(
    rf"Edging \d+, buttonholes in (?:round|row) (?P<row>\d+) along (?P<edge>.+): (?P<first>\d+) {_ST}; "
    rf"(?P<times>once|\d+ times) (?P<chains>\d+) ch over (?P<over>\d+) skipped {_ST}"
    rf"(?:, between them (?P<gaps>[^;]+))?; {_ST} to its end; in the next, 1 {_ST} in each ch"
)
_GAP = re.compile(rf"(\d+) {_ST} (?:once|(\d+) times)")
_EVERY = re.compile(r"every (\d+)(?:st|nd|rd|th) (?:once|(\d+) times)")
#: From published answers: how many sc, hdc and dc lie along a row of dc, and what goes into a corner.
_TO_A_ROW = {"sc": 2.0, "hdc": 1 / 0.54, "dc": 1.5}
_CORNER = {"sc": 3, "hdc": 3, "dc": 5}
#: From memory: how high their rows are, in rows of dc.
_HIGH = {"sc": 0.5, "hdc": 0.75, "dc": 1.0}


@dataclass(frozen=True, slots=True)
class EdgingAsked:
    """What the file asks of an edging: how many ``rows`` of which ``stitch`` (US), in which ``yarn``; how ``wide`` a
    stitch and how ``high`` a row is in cm, None where no swatch of it was counted; its ``buttonholes``, and over how
    many stitches each."""

    rows: int
    stitch: str
    yarn: str | None
    wide: float | None = None
    high: float | None = None
    buttonholes: int = 0
    buttonhole: int = 2


@dataclass
class WorkedBand:
    """A band worked from its words: its ``name``, ``times``, ``stitch`` and ``rows``, each stitch ``wide`` and each row
    ``high`` in cm (``counted``: the stitches were, in a swatch); ``counts`` of the rows so far, the stitches ``along``
    each edge in the first, its corners ``outer`` and ``inner``, and how long it is in ``cm``, give or take ``near``."""

    name: str
    times: int
    stitch: str
    rows: int
    wide: float
    high: float
    counted: bool = False
    counts: list[int] = field(default_factory=list)
    along: dict[str, int] = field(default_factory=dict)
    outer: int = 0
    inner: int = 0
    cm: float = 0.0
    near: float = 0.0


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


def held(
    pieces: dict[str, WorkedCloth],
    seams: Sequence[SeamSaid],
    asked: Sequence[EdgingAsked],
    said: Sequence[str],
    reported: Sequence[str],
    scale: Weighing,
) -> tuple[int, list[str]]:
    """How many figures of the edgings in the lines ``said`` were looked at, and what is wrong in them; the lines
    ``reported`` tell the grams of each yarn as well."""
    if not asked:
        return 0, []
    worked = Edgings(pieces, seams, asked)
    worked.work(said)
    worked.weigh(scale, [line for line in said if line.startswith("yarn for the edgings")], reported)
    return worked.figures, worked.wrong


class Edgings:
    """The edgings of a written pattern, worked in the order of its lines."""

    def __init__(self, pieces: dict[str, WorkedCloth], seams: Sequence[SeamSaid], asked: Sequence[EdgingAsked]) -> None:
        self.pieces, self.seams, self.asked = pieces, seams, asked
        self.bands: list[WorkedBand] = []
        self.figures = 0
        self.wrong: list[str] = []

    def work(self, lines: Sequence[str]) -> None:
        """Works every line that is one of an edging."""
        for line in lines:
            if found := _INTRO.fullmatch(line):
                self._whole()
                self._begin(found)
            elif self.bands and (found := _FIRST.fullmatch(line)):
                self._first(found)
            elif self.bands and (found := _LATER.fullmatch(line)):
                self._later(found)
            elif self.bands and (found := _HOLES.fullmatch(line)):
                self._buttonholes(found)
            elif re.match(r"Edging \d+, ", line):
                self.wrong.append(f'"{line[:60]}" cannot be worked')
        self._whole()
        if self.asked and not self.bands:
            self.wrong.append("edgings are asked for, and none is told")

    def weigh(self, scale: Weighing, *told: Sequence[str]) -> None:
        """Holds what all bands take in grams, at the weight of the swatch, against lines that tell it of each yarn."""
        if scale.dense is None or self.wrong or not self.bands:
            return
        grams = sum(self._area(one) * one.times for one in self.bands) * float(scale.dense * scale.more)
        for lines in filter(None, told):
            said = [int(one) for line in lines for one in re.findall(r"(?:about|,|and) (\d+) g(?: of|,|$)", line)]
            near = len(said) + grams / 20  # each is rounded up; along a part of a row half a cluster is not known
            self.figures += len(said)
            if abs(sum(said) - grams) > near:
                self.wrong.append(f"edgings: {sum(said)} g are printed, {grams:.1f} g reckoned")

    @staticmethod
    def _area(one: WorkedBand) -> float:
        further = sum(count - one.counts[0] for count in one.counts)
        return (one.cm * one.rows + further * one.wide) * one.high

    def _say(self, words: str) -> None:
        self.wrong.append(f"edging {len(self.bands)}: {words}")

    def _begin(self, found: re.Match[str]) -> None:
        self.figures += 2
        rows = int(found["rows"])
        asked = [one for one in self.asked if one.rows == rows]
        made = (asked or [EdgingAsked(rows, "sc", None)])[0]
        row = float(next(iter(self.pieces.values())).tape.high("cluster"))
        wide, high = made.wide or row / _TO_A_ROW[made.stitch], made.high or row * _HIGH[made.stitch]
        band = WorkedBand(found["name"], int(found["times"] or 1), made.stitch, rows, wide, high, made.wide is not None)
        self.bands.append(band)
        if not asked:
            self._say(f"{rows} rows are told, {' or '.join(str(one.rows) for one in self.asked)} asked for")
        if int(found["number"]) != len(self.bands):
            self._say(f"it is called {found['number']}")

    def _whole(self) -> None:
        if self.bands and len(self.bands[-1].counts) != self.bands[-1].rows:
            self._say(f"{self.bands[-1].rows} rows are told, {len(self.bands[-1].counts)} worked")

    # ---------------------------------------------------------------------------------------------- the first row

    def _first(self, found: re.Match[str]) -> None:
        band, stitches = self.bands[-1], 0
        self.figures += 2
        sides = _parted(found["sides"])
        for nth, words in enumerate(sides):
            beside = [sides[nth - 1], sides[(nth + 1) % len(sides)]]
            if outer := _OUTER.fullmatch(words):
                stitches += int(outer[1])
                band.outer += 1
                if int(outer[1]) != _CORNER[band.stitch]:
                    self._say(f"{words}; {_CORNER[band.stitch]} lie flat")
            elif _INNER.fullmatch(words):
                stitches -= 1
                band.inner += 1
            else:
                stitches += self._side(words, sum(_OUTER.fullmatch(one) is not None for one in beside))
        self._count(int(found["all"]), stitches)
        told = length(found["long"])
        if not told.tapes(band.cm, band.near):
            self._say(f"{told} long; it measures {shown(band.cm, told.unit)}")

    def _side(self, words: str, corners: int) -> int:
        """The stitches worked along one edge."""
        side = _SIDE.fullmatch(words)
        cloth, edge = borders.placed(self.pieces, self.bands[-1].name, side["edge"]) if side else (None, "")
        spread = [_PLACES.fullmatch(how) for how in side["how"].split("; ")] if side else []
        if side is None or cloth is None or not all(spread):
            self._say(f'"{words}" cannot be worked')
            return 0
        met = [one for one in spread if one is not None]
        self.figures += 1 + sum(len(re.findall(r"\d+", one[0])) for one in met)
        worked = 0
        for one in met:
            count = _walked(one)
            if count is None:
                self._say(f'"{one[0]}" does not end where its places do')
            worked += count or 0
        if worked != int(side["n"]):
            self._say(f"{words}: {worked} come of it")
        self.bands[-1].along[side["edge"]] = worked
        self._on_the_cloth(cloth, edge, met, words, corners)
        return worked

    def _on_the_cloth(
        self, cloth: WorkedCloth, edge: str, met: Sequence[re.Match[str]], words: str, corners: int
    ) -> None:
        """Whether the places are there, and the stitches lie flat on them."""
        band, told = self.bands[-1], Counter[str]()
        for one in met:
            what = one["what"].removeprefix("straight ").replace("ends", "end").replace("end", "ends")
            told[what] += int(one["places"] or 1)
        ends = sum(count for what, count in told.items() if "row ends" in what)
        ways = list(_ways(cloth, edge, self.seams, bool(ends)))
        fits = [one for one in ways if _has(one, told, corners)]
        if not fits:
            self._say(f"{words}: not the places of that edge")
            return
        along = sum(_walked(one) or 0 for one in met if "row end" in one["what"])
        wanted = [one.upright / band.wide for one in fits]
        if ends and not any(abs(along - one) <= 0.5 + 1e-4 for one in wanted):
            self._say(f"{words}: {along} along row ends, {wanted[0]:.1f} lie flat")
        across = sum(_walked(one) or 0 for one in met) - along
        if not any(self._lies_flat(across, one, 0 if ends else corners) for one in fits):
            self._say(f"{words}: {across} across do not lie flat")
        least, most = min(one.cm for one in fits), max(one.cm for one in fits)
        band.cm += (least + most) / 2
        band.near += (most - least) / 2 + borders.one_half(cloth) * any(one.near for one in fits)

    def _lies_flat(self, across: int, one: _Open, corners: int) -> bool:
        """Whether so many stitches do along what lies across an edge: by the swatch, else one in each."""
        band = self.bands[-1]
        if not band.counted:
            return abs(across + corners - one.across) <= one.near
        return abs(across + corners - (one.cm - one.upright) / band.wide) <= 0.5 + 1e-4 + one.near

    # ------------------------------------------------------------------------------------------------ later rows

    def _later(self, found: re.Match[str]) -> None:
        band, how = self.bands[-1], re.split(r", (?!spread)", found["how"])[1:]
        counts = [int(count) for count in found["counts"].split(", ")]
        self.figures += len(counts) + len(how)
        change, outer, inner = 0, 0, 0
        for words in how:
            if corner := re.fullmatch(r"(\d+) in the middle one of (?:the corner|each of (\d+) corners)", words):
                outer = int(corner[2] or 1)
                change += (int(corner[1]) - 1) * outer
            elif corner := re.fullmatch(
                rf"{_ST}(\d+)tog with its middle one in (?:the corner|each of (\d+) corners) inwards", words
            ):
                inner = int(corner[2] or 1)
                change -= (int(corner[1]) - 1) * inner
            elif bent := re.fullmatch(r"(\d+) (fewer|more), spread evenly", words):
                change += int(bent[1]) * (1 if bent[2] == "more" else -1)
            else:
                self._say(f'"{words}" cannot be worked')
        if (outer, inner) != (band.outer, band.inner):
            self._say(f"{outer} corners and {inner} inwards, {band.outer} and {band.inner} in the first row")
        if int(found["first"]) != len(band.counts) + 1:
            self._say(f"row {found['first']} after {len(band.counts)} rows")
        if int(found["last"] or found["first"]) - int(found["first"]) + 1 != len(counts):
            self._say(f"{len(counts)} counts of rows {found['first']} to {found['last']}")
        for count in counts:
            self._count(count, (band.counts[-1] if band.counts else 0) + change)

    def _buttonholes(self, found: re.Match[str]) -> None:
        """Worked along their edge: as far from its one end as from its other, but for a stitch."""
        band = self.bands[-1]
        holes = 1 if found["times"] == "once" else int(found["times"].split()[0])
        gaps = [(int(gap), int(times or 1)) for gap, times in _GAP.findall(found["gaps"] or "")]
        self.figures += 5 + 2 * len(gaps)
        if not any((one.buttonholes, one.buttonhole) == (holes, int(found["over"])) for one in self.asked):
            self._say(f"{holes} buttonholes over {found['over']} are not asked for")
        if found["chains"] != found["over"] or sum(times for _, times in gaps) != holes - 1:
            self._say("its buttonholes do not come out")
        if not 1 < int(found["row"]) < band.rows:
            self._say(f"buttonholes in row {found['row']} of {band.rows}")
        last = band.along.get(found["edge"], 0) - int(found["first"]) - holes * int(found["over"])
        last -= sum(gap * times for gap, times in gaps)
        if not 0 <= last - int(found["first"]) <= 1:
            self._say(f"{last} stitches after its buttonholes, {found['first']} before them")

    def _count(self, told: int, worked: int) -> None:
        if told != worked:
            self._say(f"{told} are told of row {len(self.bands[-1].counts) + 1}, {worked} worked")
        self.bands[-1].counts.append(worked)


def _parted(words: str) -> list[str]:
    """``words`` at every semicolon that is not within brackets."""
    return [part.strip() for part in re.findall(r"(?:[^;()]|\([^()]*\))+", words)]


def _walked(found: re.Match[str]) -> int | None:
    """The stitches that a maker works who walks the places one by one, in each as many as told; None where the places
    do not suffice."""
    each, places, where = int(found["n"]), int(found["places"] or 1), found["where"] or ""
    change = {"": 0, "1 more in": 1, "1 fewer in": -1, "skipping": -1}[found["change"] or ""]
    if where == "the middle one":
        changed = {(places + 1) // 2}
    else:
        changed, at = set(), 0
        for every, times in _EVERY.findall(where):
            for _ in range(int(times or 1)):
                at += int(every)
                changed.add(at)
        if at > places or (change and at == 0):
            return None
    return sum(each + change * (place in changed) for place in range(1, places + 1))


# ------------------------------------------------------------------------------------------------------ what lies open


def _has(one: _Open, told: Counter[str], corners: int) -> bool:
    """Whether an open edge has the places that are told."""
    of_kinds = {what.rpartition(" ")[2]: count for what, count in told.items() if what.startswith("row ends of")}
    if of_kinds and of_kinds != dict(one.kinds):
        return False
    ends = told["row ends"] + sum(of_kinds.values()), told["slanting row ends"]
    across = sum(count for what, count in told.items() if "row ends" not in what)
    taken = 0 if any(ends) else corners
    return ends == (one.straight, one.slanting) and abs(across + taken - one.across) <= one.near


def _ways(cloth: WorkedCloth, edge: str, seams: Sequence[SeamSaid], ends: bool) -> Iterator[_Open]:
    for parts in borders.open_row_ends(cloth, edge, seams):
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
    names = {"cluster": "clusters"}
    kinds = Counter(names.get(part.kind, part.kind) for part in ends)
    slanting = sum(not part.upright for part in ends)
    across = round(halves * borders.to_a_half(cloth))
    near = ceil(2 * borders.to_a_half(cloth)) if halves else 0
    return _Open(
        len(ends) - slanting, slanting, across, near, upright + halves * borders.one_half(cloth), upright,
        tuple(sorted(kinds.items())),
    )  # fmt: skip
