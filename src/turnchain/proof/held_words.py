"""What is printed of a plan, held against the cloth as worked: a method for each thing that is printed.

In: a plan, its worked cloth, and what was printed. Out: how many figures were looked at, and every one that is not so.
What the pattern file asks for is read by ``asking``; ``compared``, which holds one against the other, is not given the
plan.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction

from turnchain import style
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.proof import asking
from turnchain.proof.cloth import tape, yarn
from turnchain.proof.cloth.edges import WorkedCloth
from turnchain.proof.compared import (
    begun,
    bodies,
    borders,
    captions,
    doubts,
    edgings,
    estimates,
    gauge,
    glance,
    graded,
    joined,
    measures,
    retold,
    sewn,
    stash,
    striped,
    told_apart,
    wanted,
    wishes,
    yarns,
)
from turnchain.proof.compared import fit as fitting
from turnchain.proof.compared.measures import AskedMeasures
from turnchain.proof.compared.yarns import Weighing, YarnAsked
from turnchain.proof.printed import pattern as written
from turnchain.proof.printed.report import Report, SeamSaid, read_report
from turnchain.records import field, mutable


@mutable
class HeldWords:
    """What is printed of ``plan`` held against its ``cloths`` (by the names of pieces): how many ``figures``, and in
    words the ``reasons`` where they are not so. Every method adds to both; a picture whose words are not what is drawn
    is a reason too."""

    plan: Plan
    cloths: dict[str, WorkedCloth]
    figures: int = 0
    reasons: list[str] = field(default_factory=list)
    # Of the report: how heavy the fabric is, what a border takes, the square cm of edgings by yarn, the seams.
    heavy: str = ""
    border: list[str] = field(default_factory=list)
    edged: dict[str, tuple[Fraction, Fraction]] = field(default_factory=dict)
    along: dict[str, set[int]] = field(default_factory=dict)  # by piece, the stitches of its edgings
    tied: dict[str, list[captions.Tied]] = field(default_factory=dict)  # by piece, the ties and straps of these
    sewn: list[SeamSaid] = field(default_factory=list)
    reported: str = ""
    told: dict[str, str] = field(default_factory=dict)  # the alt texts of pictures, by the names of these

    def _take(self, where: str, figures: int, reasons: Iterator[str]) -> None:
        self.figures += figures
        self.reasons += [f"{where}: {reason}" for reason in reasons]

    def _pieces(self) -> Iterator[tuple[WorkedCloth, AskedMeasures]]:
        for piece in self.plan.pattern.pieces:
            yield self.cloths[piece.name], asking.measures(piece)

    def planned(self) -> None:
        """The plan's own measures, exactly, and its rows and stitches of each yarn."""
        for piece, (cloth, asked) in zip(self.plan.pieces, self._pieces(), strict=True):
            self._take("the plan", len(piece.fit) + 2 * len(set(cloth.yarns)), _planned(piece, cloth, asked))

    @property
    def _usual(self) -> tape.Tape:
        """The tape of pieces that are not begun."""
        own = {one.piece for one in self.plan.pattern.progress}
        others = [cloth.tape for name, cloth in self.cloths.items() if name not in own]
        return others[0] if others else tape.mean([cloth.tape for cloth in self.cloths.values()])

    @property
    def scale(self) -> Weighing:
        """What is weighed, with how far single readings of the gauge, or pieces begun, lie from their mean."""
        own = [self.cloths[one.piece].tape for one in self.plan.pattern.progress]
        halves, rows = ([one.half for one in own], [one.row for one in own]) if own else self._readings
        usual = sum(halves, Fraction(0)) / len(halves) * sum(rows, Fraction(0)) / len(rows)
        return asking.weighing(self.plan.pattern, min(halves) * min(rows) / usual, max(halves) * max(rows) / usual)

    @property
    def _readings(self) -> tuple[list[Fraction], list[Fraction]]:
        """Half a cluster and a row by each reading of the gauge, in cm."""
        clusters, rows = asking.readings(self.plan.pattern)
        halves = [cm / count / 2 for count, cm in clusters if count and cm]
        return halves, [cm / count for count, cm in rows if count and cm]

    def report(self, text: str) -> None:
        """The text of the report of ``check``: counts, measures, gauge, fit, seams, yarn and ends."""
        names = [one.name for one in self.plan.pattern.yarns]
        said = read_report(text, list(self.cloths), names)
        self.reported = text
        for cloth, asked in self._pieces():
            piece = said.pieces.get(cloth.name)
            self._take("the report", 4 + len(piece.measures if piece else ()), measures.report(cloth, asked, piece))
            for one in piece.measures if piece else ():
                self._take("the report", 1, gauge.per_cent(cloth.name, one, one.text))
        looked, wrong = glance.head(text, said.pieces, said.yarns)
        self._take("the report", looked, iter(wrong))
        looked, wrong = graded.lines(said.under.get("worked out from the body", ()), said.pieces)
        self._take("the report", looked, iter(wrong))
        self._seams("the report", said.seams)
        self._add("the report", *joined.held(self.cloths, said.under.get("seams", ()), said.seams, "US"))
        self.sewn = said.seams
        self._gauge("the report", said.under.get("gauge", ())[:1])
        self._kinds("the report", said.under.get("gauge", ()))
        self._readings_alone(said.under.get("edges", ()))
        self._deviations(said.under.get("edges", ()))
        warnings = [line.removeprefix("warning: ") for line in text.splitlines() if line.startswith("warning: ")]
        of_wishes = [line for line in warnings if wishes.is_warning(line)]
        self._doubts([line for line in warnings if line not in of_wishes], said)
        self._wishes(of_wishes, said)
        swatch = tape.of_swatches(*asking.readings(self.plan.pattern))
        for done in self.plan.pattern.progress:
            lines = said.pieces[done.piece].lines if done.piece in said.pieces else ()
            self._take("a piece begun", 5, begun.measured(self.cloths[done.piece], done.rows, swatch, lines))
        self._fit("the report", said)
        self._edgings("the report", said.under.get("edging", ()), self.plan.pattern.terms, said.under.get("yarn", ()))
        self._yarns("the report", said)

    def _kinds(self, where: str, lines: Sequence[str]) -> None:
        """How high rows of each kind are, where there are several."""
        told = [line for line in lines if line.startswith("gauge: rows of ")]
        if not told and not self._usual.kinds:
            return
        reasons = gauge.kinds(self._usual, self.plan.pattern.terms, told[0] if told else "")
        self._take(where, len(self._usual.kinds), reasons)

    def _yarns(self, where: str, said: Report) -> None:
        scale, cloths = self.scale, list(self.cloths.values())
        lines = said.under.get("yarn", ())
        if lines:
            self.heavy, self.border = lines[0], [line for line in lines if line.startswith("a border of one round")]
            self._take(where, 3 * bool(scale.swatches), yarns.density(scale, lines[0]))
            if scale.dense is None:
                self._take(where, *estimates.lines(cloths, self.asked_yarns, scale, lines, self.heavy))
        self._take(where, 2 * len(said.yarns), yarns.yarns(cloths, self.asked_yarns, scale, said.yarns))
        self._take(where, len(cloths) if len(cloths) > 1 else 0, yarns.pieces(cloths, scale, lines))
        for cloth in cloths:
            self._take(where, cloth.name in said.ends, yarns.ends(cloth, scale, said.ends.get(cloth.name)))
        self._stripes(said)
        self._colours(said)

    @property
    def asked_yarns(self) -> list[YarnAsked]:
        """What is asked of each yarn, with what edgings take of it."""
        return asking.yarns(self.plan.pattern, self.edged)

    def _colours(self, said: Report) -> None:
        """Which stripes are hard to tell apart, where that is told."""
        colours = {one.name: one.colour for one in self.plan.pattern.yarns}
        inks = (style.INK_DARK, style.INK_LIGHT, style.INK_FULL)
        if (lines := said.under.get("colours")) is not None:
            self._add("the report", *told_apart.lines(list(self.cloths.values()), lines, colours, inks))

    def _stripes(self, said: Report) -> None:
        """Whether stripes meet, what other stripes would save, and what is left of a stash."""
        begins = self._begins
        names = [one.name for one in self.plan.pattern.yarns]
        self._add("stripes", *striped.meetings(self.cloths, begins, names, said.under.get("stripes", ())))
        for cloth in self.cloths.values():
            told = [line.removeprefix(f"{cloth.name}: ") for line in said.under.get("carry or cut", ())
                    if line.startswith(f"{cloth.name}: ")]  # fmt: skip
            self._add("ends", *striped.ends(cloth, self.scale.carry[cloth.name], told))
        from_stash = asking.from_stash(self.plan.pattern)
        ours, others = ([cloth for name, cloth in self.cloths.items() if (name in from_stash) is own]
                        for own in (True, False))  # fmt: skip
        asked = self.asked_yarns
        lines = said.under.get("stash", ())
        wished = asking.stash(self.plan.pattern)
        self._add("the stash", *stash.stash(ours, others, begins, asked, self.scale, wished, lines))

    @property
    def _begins(self) -> dict[str, int]:
        return {one.name: one.stripes_begin or 1 for one in self.plan.pattern.pieces}

    def _add(self, where: str, figures: int, reasons: list[str]) -> None:
        self._take(where, figures, iter(reasons))

    def _gauge(self, where: str, said: Sequence[str]) -> None:
        for line in said:
            self._take(where, 2, gauge.gauge(self._usual, line))

    def _readings_alone(self, said: Sequence[str]) -> None:
        if self.plan.pattern.progress:  # then the readings are those of the pieces begun
            return
        clusters, rows = asking.readings(self.plan.pattern)
        for name, cloth in self.cloths.items():
            head = f"{name}: by each gauge reading alone, "
            for line in said:
                if line.startswith(head):
                    told = gauge.readings(cloth, clusters, rows, line.removeprefix(head))
                    self._take("the report", 4, told)

    def _deviations(self, said: Sequence[str]) -> None:
        """How far the edges lie from the shape asked for."""
        for piece in self.plan.pattern.pieces:
            head = f"{piece.name}: largest deviation "
            line = next((line for line in said if line.startswith(head)), None)
            told = wanted.deviation(self.cloths[piece.name], asking.shape(piece), line)
            self._take("the report", line is not None, told)

    def _wishes(self, warnings: Sequence[str], said: Report) -> None:
        """Wishes for the stripes at seams."""
        asked, lines = asking.wishes(self.plan.pattern), said.under.get("stripes", ())
        self._add("stripes", *wishes.lines(self.cloths, asked, said.seams, self._begins, lines, warnings))

    def _doubts(self, warnings: Sequence[str], said: Report) -> None:
        """All other warnings: what they say, and that none is missing."""
        off = wanted.told(said.under.get("edges", ()))
        tables = {name: {row.name: row for row in piece.measures} for name, piece in said.pieces.items()}
        done = {one.piece: one.rows for one in self.plan.pattern.progress}
        pieces = [
            doubts.Doubted(
                self.cloths[one.name], asking.shape(one), asking.neck(one), off.get(one.name),
                tables.get(one.name, {}), done.get(one.name, 0), one.exact_rows,
            )
            for one in self.plan.pattern.pieces
        ]  # fmt: skip
        fabric = asking.fabric(self.plan.pattern)
        colours = {one.name: one.colour for one in self.plan.pattern.yarns}
        looked, wrong = doubts.lines(pieces, self._usual, fabric, warnings, said.yarns, colours)
        self._take("a warning", looked, iter(wrong))

    def _seams(self, where: str, said: Sequence[SeamSaid]) -> None:
        self._take(where, 2 * len(said), sewn.seams(self.cloths, said, assumed=not self.plan.pattern.seams))

    def _fit(self, where: str, said: Report) -> None:
        asked = {piece.name: piece for piece in self.plan.pattern.pieces}
        outlines = frozenset(name for name, piece in asked.items() if asking.measures(piece).heights)
        sideways = {name: piece.worked == "sideways" for name, piece in asked.items()}
        worn = fitting.Worn(self.cloths, sideways, outlines, said.seams, assumed=not self.plan.pattern.seams)
        lines = said.under.get("fit", [])
        for looked, wrong in (fitting.lines(worn, lines), bodies.lines([*lines, *said.under.get("seams", ())])):
            self._take(where, looked, iter(wrong))

    def pattern(self, text: str) -> None:
        """The Markdown of the written pattern: measures, seams and ends."""
        lines = text.splitlines()
        told = [*written.table(lines, list(self.cloths)), *written.blocking(lines, list(self.cloths))]
        for cloth, asked in self._pieces():
            own = [(measure, one) for piece, measure, both in told if piece == cloth.name for one in both]
            self._measures("pattern.md", cloth, asked, own)
        self._seams("pattern.md", list(written.seams(lines, list(self.cloths))))
        ends = yarns.all_ends(list(self.cloths.values()), self.scale, written.ends(lines))
        self._take("pattern.md", 2, ends)
        self._take("pattern.md", len(self.cloths), yarns.cut_of_each(list(self.cloths.values()), lines))
        self._take("pattern.md", 1, yarns.crowns(list(self.cloths.values()), lines))
        self._gauge("pattern.md", [line for line in lines if "clusters and" in line and " rows to " in line])
        self._materials(list(map(written.plain, lines)))
        self._borders(list(map(written.plain, lines)))

    def _borders(self, lines: Sequence[str]) -> None:
        """The border of every open edge, and its yarn, which the report tells as well; what sleeves begin with."""
        language = self.plan.pattern.language or self.plan.pattern.terms
        self._add("pattern.md", *joined.held(self.cloths, lines, self.sewn, language))
        if self.plan.pattern.edgings:
            self._edgings("pattern.md", lines, language)
            return
        looked, wrong = borders.held(self.cloths, self.sewn, lines, self.border, self.scale)
        self._take("pattern.md", looked, iter(wrong))

    def _edgings(self, where: str, lines: Sequence[str], language: str, reported: Sequence[str] = ()) -> None:
        """The edgings that are asked for, worked again, and what they take."""
        takes = [line for line in reported if line.startswith("the edging takes")]
        asked = asking.edgings(self.plan.pattern)
        found = edgings.worked(self.cloths, self.sewn, asked, lines, takes, self.scale, language)
        self.edged, self.along, self.tied = found.areas, found.along, found.tied
        self._take(where, found.figures, iter(found.wrong))

    def _materials(self, lines: Sequence[str]) -> None:
        """The yarns to buy."""
        scale, cloths, asked = self.scale, list(self.cloths.values()), self.asked_yarns
        if scale.dense is None:
            self._take("pattern.md", *estimates.lines(cloths, asked, scale, lines, self.heavy))
        else:
            self._take("pattern.md", len(asked), yarns.to_buy(cloths, asked, scale, lines))

    def retold(self, where: str, text: str, worked: str) -> None:
        """The rows in the Markdown ``text``: those ``worked``; and in the language of the pictures looked at, what they
        say of themselves."""
        self._add(where, *retold.worked(worked, text))
        if where == "pattern.md":
            self._add(where, *retold.alt_texts(text, self.told))

    def translated(self, language: str, text: str) -> None:
        """The measures in the Markdown of the pattern in another ``language``, one of ``written.LANGUAGES``."""
        told = written.measures_in(language, text, list(self.cloths))
        for cloth, asked in self._pieces():
            own = [(measure, one) for piece, measure, both in told if piece == cloth.name for one in both]
            self._measures(f"pattern.md in {language}", cloth, asked, own)
        lines = list(map(written.plain, text.splitlines()))
        self._add(f"pattern.md in {language}", *joined.held(self.cloths, lines, self.sewn, language))
        if self.plan.pattern.edgings:
            self._edgings(f"pattern.md in {language}", lines, language)

    def _measures(self, where: str, cloth: WorkedCloth, asked: AskedMeasures, said: measures.Said) -> None:
        """Measures that are told in one place: none wrong, and none left out."""
        self._take(where, len(said), measures.differing(cloth, asked, said, taped=True))
        self._take(where, 0, measures.complete(cloth, asked, [name for name, _ in said]))


def _planned(piece: PiecePlan, cloth: WorkedCloth, asked: AskedMeasures) -> Iterator[str]:
    """The plan's own measures, to the last fraction of a cm, and its rows and stitches of each yarn."""
    for fit in piece.fit:
        measured = measures.named(cloth, asked, fit.measure) or ()
        if fit.worked not in measured:
            told = " and ".join(f"{float(cm):g}" for cm in measured)
            yield f"{piece.name}: {fit.measure}: {float(fit.worked):g} cm planned, {told or 'nothing'} measured"
    rows, stitches = Counter(row.colour for row in piece.rows), Counter[str | None]()
    for row in piece.rows:
        stitches[row.colour] += row.counts.dc + row.counts.ch + row.counts.sl_st + row.counts.tch
    if (rows, stitches) != (yarn.rows(cloth), yarn.stitches(cloth)):
        yield f"{piece.name}: rows and stitches of each yarn are not those planned"


