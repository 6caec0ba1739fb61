"""The second path for figures: whatever is printed of a plan, held against the cloth as worked.

In: a plan and the worked rows of its pieces. Out: how many figures were looked at, and every one that is not so. This
module gathers what the program prints; ``worked_cloths`` has the cloth, and ``held`` holds one against the other. The
cloth is measured in ``cloth``, what is printed is read in ``printed`` and compared in ``compared``, none of them given
the plan.
"""

from __future__ import annotations

import io
from collections.abc import Iterator, Mapping, Sequence

from turnchain.drawing import schematic
from turnchain.fabric.lattice import SIDES
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.pages import blog
from turnchain.pages.report import report
from turnchain.pattern import Pattern
from turnchain.printing.booklet import booklet
from turnchain.proof.compared import captions
from turnchain.proof.held import Held
from turnchain.proof.printed import pattern as written
from turnchain.proof.worked_cloths import WorkedPieces, cloths
from turnchain.records import frozen
from turnchain.scene import Scene
from turnchain.wording.edge_captions import of_edge
from turnchain.wording.words import pattern_text
from turnchain.writers import svg


@frozen
class PrintedFiles:
    """What is printed of a plan: the ``report``, the written ``pattern`` (Markdown), the same in ``others`` languages,
    and SVG files: the ``schematic`` and, by the names of pieces, the ``charts``; by the same names ``captions`` of
    edges; what stands on the pages of its ``booklet`` as SVG files, if there is one; the ``words`` that are worked, by
    language, the pattern's own as ""."""

    report: str
    pattern: str
    others: Mapping[str, str]
    schematic: bytes
    charts: Mapping[str, bytes]
    captions: Mapping[str, Sequence[captions.Caption]]
    booklet: tuple[bytes, ...] = ()
    words: Mapping[str, str] = {}


def printed(plan: Plan, charts: Mapping[str, bytes], with_booklet: bool = False) -> PrintedFiles:
    """What is printed of ``plan``; ``charts`` are its SVG files by the names of pieces, made already. Raises MakerError
    where its booklet cannot be made."""
    told = {piece.name: list(_captions(plan.pattern, piece)) for piece in plan.pieces}
    others = {code: blog.markdown(plan, code) for code in written.LANGUAGES}
    drawn = svg_of(schematic.schematic(plan))
    pages = _on_pages(plan) if with_booklet else ()
    worked = {code: pattern_text(plan, code or None) for code in ("", *written.LANGUAGES)}
    return PrintedFiles(report(plan, colours=True), blog.markdown(plan), others, drawn, charts, told, pages, worked)


def _on_pages(plan: Plan) -> tuple[bytes, ...]:
    """What stands on the pages of the booklet, each picture once."""
    scenes = {id(view.scene): view.scene for page in booklet(plan) for view in page.views}
    return tuple(map(svg_of, scenes.values()))


def _captions(pattern: Pattern, piece: PiecePlan) -> Iterator[captions.Caption]:
    """Of row 1, and of every edge of the body that is shaped."""
    for row in piece.section(piece.sections[0]):
        for side in SIDES:
            if row.number == 1 or row.edge(side).move != "straight":
                yield captions.Caption(row.number, side, *of_edge(pattern, piece, row, side))


def hold(plan: Plan, worked: WorkedPieces, said: PrintedFiles) -> Held:
    """Every figure that is ``said`` of ``plan``, held against the cloth of the ``worked`` rows; what is not
    so is among the reasons."""
    held = Held(plan, cloths(plan, worked))
    held.planned()
    held.report(said.report)
    held.pattern(said.pattern)
    for language, text in said.others.items():
        held.translated(language, text)
        held.retold(f"pattern.md in {language}", text, said.words.get(language, ""))
    held.schematic(said.schematic)
    for name, file in said.charts.items():
        held.chart(name, file)
    held.edges(said.captions, said.pattern)
    if said.booklet:
        held.booklet(said.booklet, said.pattern, said.captions)
    held.retold("pattern.md", said.pattern, said.words.get("", ""))
    return held


def svg_of(scene: Scene) -> bytes:
    """The bytes of ``scene`` as an SVG file. ValueError for a place that is no number."""
    stream = io.BytesIO()
    svg.write(scene, stream)
    return stream.getvalue()
