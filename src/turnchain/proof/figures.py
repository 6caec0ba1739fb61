"""The second path for figures: whatever is printed of a plan, held against the cloth as worked.

In: a plan and the worked rows of its pieces. Out: how many figures were looked at, and every one that is not so. This
module knows what the pattern file asks and what the program prints; the cloth is measured in ``cloth``, what is printed
is read in ``printed``, and ``compared`` holds one against the other, none of them knowing the plan.
"""

from __future__ import annotations

import io
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from turnchain.drawing import schematic
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.pages import blog
from turnchain.pages.report import report
from turnchain.pattern import Pattern, Piece, Stripes
from turnchain.proof.cloth import tape
from turnchain.proof.cloth.edges import Cloth
from turnchain.proof.compared import captions, measures, sewn, yarns
from turnchain.proof.compared.measures import Asked
from turnchain.proof.compared.yarns import Scale, YarnAsked
from turnchain.proof.hook.stitches import WorkedRow
from turnchain.proof.printed import pattern as written
from turnchain.proof.printed.lengths import is_length, length
from turnchain.proof.printed.picture import UnreadablePicture, read_picture
from turnchain.proof.printed.report import read_report
from turnchain.scene import Scene
from turnchain.writers import svg

#: The worked rows of each piece by its name, each with its yarn.
WorkedPieces = Mapping[str, Sequence[tuple[WorkedRow, str | None]]]


@dataclass(frozen=True, slots=True)
class Printed:
    """What is printed of a plan: the ``report``, the written ``pattern`` (Markdown), and SVG files: the ``schematic``
    and, by the names of pieces, the ``charts``."""

    report: str
    pattern: str
    schematic: bytes
    charts: Mapping[str, bytes]


def printed(plan: Plan, charts: Mapping[str, bytes]) -> Printed:
    """What is printed of ``plan``; its ``charts`` are made already."""
    return Printed(report(plan), blog.markdown(plan), svg_of(schematic.schematic(plan)), charts)


@dataclass(slots=True)
class Held:
    """How many ``figures`` were held against the cloth, and ``reasons`` where they are not so."""

    figures: int = 0
    reasons: list[str] = field(default_factory=list)

    def take(self, where: str, figures: int, reasons: Iterator[str]) -> None:
        """What was looked at in one place."""
        self.figures += figures
        self.reasons += [f"{where}: {reason}" for reason in reasons]


def cloths(plan: Plan, worked: WorkedPieces) -> dict[str, Cloth]:
    """Every worked piece with the tape to measure it."""
    swatch = _swatch_tape(plan.pattern)
    begun = {
        one.piece: tape.of_begun(swatch, [row for row, _ in worked[one.piece]][: one.rows], one.height, one.width)
        for one in plan.pattern.progress
    }
    usual = tape.mean(list(begun.values())) if begun else swatch
    return {piece.name: _cloth(piece, worked[piece.name], begun.get(piece.name, usual)) for piece in plan.pieces}


def _cloth(piece: PiecePlan, rows: Sequence[tuple[WorkedRow, str | None]], by: tape.Tape) -> Cloth:
    made, yarn_of = zip(*rows, strict=True)
    return Cloth(piece.name, made, yarn_of, by, piece.top, piece.count)


def _swatch_tape(pattern: Pattern) -> tape.Tape:
    clusters = [(one.clusters, one.width) for one in pattern.swatches]
    return tape.of_swatches(clusters, [(one.rows, one.height) for one in pattern.swatches])


def asked_of(piece: Piece) -> Asked:
    """What the pattern file asks to be measured of a piece."""
    lines = [line for line in (piece.outline, piece.left_outline, piece.right_outline) if line]
    heights = [height for line in lines for height, _ in line]
    steps = {low for line in lines for (low, _), (high, _) in pairwise(line) if low == high}
    return Asked(
        piece.worked == "sideways", piece.neck is not None, tuple(sorted(set(heights))), frozenset(steps)
    )


def hold(plan: Plan, worked: WorkedPieces, said: Printed) -> Held:
    """Every figure that is ``said`` of ``plan``, held against the worked cloth."""
    made = cloths(plan, worked)
    asked = {piece.name: asked_of(piece) for piece in plan.pattern.pieces}
    held = Held()
    for piece in plan.pieces:
        held.take("the plan", len(piece.fit), _planned(piece, made[piece.name], asked[piece.name]))
    _hold_report(held, plan, made, asked, said.report)
    _hold_pattern(held, plan, made, asked, said.pattern)
    _hold_schematic(held, made, asked, said.schematic)
    for name, file in said.charts.items():
        _hold_chart(held, made[name], asked[name], file)
    return held


def _planned(piece: PiecePlan, cloth: Cloth, asked: Asked) -> Iterator[str]:
    """The plan's own measures, to the last fraction of a cm."""
    for fit in piece.fit:
        measured = measures.named(cloth, asked, fit.measure) or ()
        if fit.worked not in measured:
            told = " and ".join(f"{float(cm):g}" for cm in measured)
            yield f"{piece.name}: {fit.measure}: {float(fit.worked):g} cm planned, {told or 'nothing'} measured"


def _hold_report(held: Held, plan: Plan, made: dict[str, Cloth], asked: dict[str, Asked], text: str) -> None:
    said = read_report(text, list(made), [yarn.name for yarn in plan.pattern.yarns])
    for name, cloth in made.items():
        table = said.pieces[name].measures if name in said.pieces else []
        held.take("the report", 4 + len(table), measures.report(cloth, asked[name], said.pieces.get(name)))
    held.take("the report", 2 * len(said.seams), sewn.seams(made, said.seams, not plan.pattern.seams))
    scale, yarns_asked = _scale(plan), _yarns(plan.pattern)
    held.take("the report", len(said.yarns), yarns.yarns(list(made.values()), yarns_asked, scale, said.yarns))
    for name, cloth in made.items():
        held.take("the report", name in said.ends, yarns.ends(cloth, scale, said.ends.get(name)))


def _yarns(pattern: Pattern) -> list[YarnAsked]:
    return [YarnAsked(one.name, one.stock, one.metres_per_100g, one.ball, one.keep) for one in pattern.yarns]


def _scale(plan: Plan) -> Scale:
    pattern = plan.pattern
    weighed = [
        (one.weight, *(one.weighed or (one.width, one.height))) for one in pattern.swatches if one.weight is not None
    ]
    carry = {piece.name: (piece.stripes or pattern.stripes or Stripes()).carry for piece in pattern.pieces}
    whole = tuple((grams, wide, high) for grams, wide, high in weighed if wide and high)
    return Scale(whole, pattern.allowance.margin, pattern.allowance.tail, carry)


def _hold_pattern(held: Held, plan: Plan, made: dict[str, Cloth], asked: dict[str, Asked], text: str) -> None:
    lines = text.splitlines()
    told = [*written.table(lines, list(made)), *written.blocking(lines, list(made))]
    for name, cloth in made.items():
        own = [(measure, one) for piece, measure, both in told if piece == name for one in both]
        held.take("pattern.md", len(own), measures.differing(cloth, asked[name], own))
        held.take("pattern.md", 0, measures.complete(cloth, asked[name], [measure for measure, _ in own]))
    sewing = list(written.seams(lines))
    held.take("pattern.md", 2 * len(sewing), sewn.seams(made, sewing, not plan.pattern.seams))
    held.take("pattern.md", 2, yarns.all_ends(list(made.values()), _scale(plan), written.ends(lines)))


def _hold_schematic(held: Held, made: dict[str, Cloth], asked: dict[str, Asked], file: bytes) -> None:
    try:
        picture = read_picture(file)
    except UnreadablePicture as error:
        held.take("the schematic", 0, iter([str(error)]))
        return
    held.take("the schematic", 2 * len(picture.arrows), measures.arrows(made, asked, picture))


def _hold_chart(held: Held, cloth: Cloth, asked: Asked, file: bytes) -> None:
    """The measures beside a chart, and its alt text."""
    where = f"the chart of {cloth.name}"
    try:
        picture = read_picture(file)
    except UnreadablePicture as error:
        held.take(where, 0, iter([str(error)]))
        return
    beside = [
        (name, length(said))
        for name, said in pairwise(picture.words)
        if is_length(said) and measures.named(cloth, asked, name) is not None
    ]
    held.take(where, len(beside), measures.differing(cloth, asked, beside))
    held.take(where, 0, measures.complete(cloth, asked, [name for name, _ in beside]))
    told = [(name, one) for _, name, both in written.finished(picture.told, cloth.name) for one in both]
    held.take(f"{where}, told", len(told), measures.differing(cloth, asked, told))
    held.take(f"{where}, told", 0, measures.complete(cloth, asked, [name for name, _ in told]))
    held.take(f"{where}, told", 3, captions.chart(cloth, picture.told))


def svg_of(scene: Scene) -> bytes:
    """A scene as an SVG file."""
    stream = io.BytesIO()
    svg.write(scene, stream)
    return stream.getvalue()
