"""The whole pattern as a booklet.

In: a plan. Out: pages: cover with the pieces as worn, contents, materials, schematic, for every piece its short
chart with close-ups of its shaping, its rows in words and a ledger to tick, then finishing, cautions and credit.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from turnchain.drawing import key, schematic
from turnchain.drawing.chart import chart
from turnchain.drawing.detail import detail, series
from turnchain.drawing.looks import Look, for_hand
from turnchain.drawing.preview import preview
from turnchain.errors import MakerError
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import caution_words, finishing, materials
from turnchain.paper import Page
from turnchain.printing.paper_sizes import sheet
from turnchain.printing.typesetting import Block, Contents, Heading, Ledger, Picture, Typesetter, Words
from turnchain.wording import words
from turnchain.wording.alt_texts import measures_of
from turnchain.wording.languages.language import Speech
from turnchain.wording.tables import speech_of, told_in

PAPERS = ("a4", "letter")
MARGIN = 17.0
DETAIL_SIZE = (1500, 900)


def booklet(plan: Plan, paper: str = "A4", look: Look | None = None, language: str | None = None) -> list[Page]:
    """All pages on A4 or Letter, in ``language`` (the pattern's own if None). Raises MakerError."""
    if paper.lower() not in PAPERS:
        raise MakerError(f'a booklet is set on A4 or Letter, not on "{paper}"')
    size = sheet(paper)
    assert size.height is not None, "A4 and Letter are sheets"
    setter = Typesetter(size.width, size.height, MARGIN, plan.pattern.title)
    return setter.set(list(_blocks(told_in(plan, language), look or Look())))


def _blocks(plan: Plan, look: Look) -> Iterator[Block]:
    pattern, speech = plan.pattern, speech_of(plan.pattern)
    yield Heading(pattern.title, 1)
    yield Words(speech.say("credit.by", name=pattern.by) if pattern.by else "", soft=True)
    yield Picture(preview(plan, look=look), 0.62)
    if pattern.note:
        yield Words(pattern.note)
    yield Heading(speech.say("page.contents"), 2)
    yield Contents()
    yield from _materials(plan)
    yield from _schematic(plan)
    written = _written(plan)
    yield Heading(speech.say("page.written"), 1, "written", breaks=True)
    yield from written["before"]
    for piece in plan.pieces:
        yield from _piece(plan, piece, look, written.get(piece.name, []))
    yield from _last(plan)


def _materials(plan: Plan) -> Iterator[Block]:
    speech = speech_of(plan.pattern)
    yield Heading(speech.say("page.materials"), 1, "materials", breaks=True)
    yield from _listed(materials.lines(plan))
    yield Heading(speech.say("page.size"), 1, "size")
    for piece in plan.pieces:
        yield Words(measures_of(plan.pattern, piece), lead=f"{piece.name}:")


def _schematic(plan: Plan) -> Iterator[Block]:
    drawn = schematic.scenes(plan)
    if drawn:
        yield Heading(speech_of(plan.pattern).say("page.schematic"), 1, "schematic", breaks=True)
        for scene in drawn.values():
            yield Picture(scene, 0.86)


def _piece(plan: Plan, piece: PiecePlan, look: Look, written: list[Block]) -> Iterator[Block]:
    speech = speech_of(plan.pattern)
    yield Heading(piece.name, 1, f"piece-{piece.name}", breaks=True)
    yield Words(key.summary(plan.pattern, piece), soft=True)
    yield Picture(chart(plan, piece.name, None, look, short=True), 0.88)
    details = list(series(for_hand(piece, look.hand)))
    if details:
        yield Heading(speech.say("page.edges"), 2)
        for asked in details:
            yield Picture(detail(plan, piece.name, asked, DETAIL_SIZE, look), 0.42)
    yield Heading(speech.say("page.rows", piece=piece.name), 2, breaks=True)
    yield from written
    yield Heading(speech.say("page.checklist", piece=piece.name), 2)
    yield Ledger(tuple(_entries(speech, piece)))


def _entries(speech: Speech, piece: PiecePlan) -> Iterator[tuple[str, str]]:
    """One box for every row: number and, where the piece divides, the shoulder; yarn and count."""
    for row in piece.rows:
        section = "" if row.section == piece.rows[0].section else f"{speech.section(row.section)}, "
        side = speech["RS" if row.number % 2 else "WS"]
        yarn = f"{row.colour}, " if row.colour else ""
        yield f"{row.number}", f"{section}{side}, {yarn}{row.clusters} {speech['cl']}"


def _last(plan: Plan) -> Iterator[Block]:
    speech = speech_of(plan.pattern)
    yield Heading(speech.say("page.finishing"), 1, "finishing", breaks=True)
    for chapter in finishing.chapters(plan):
        yield Heading(chapter.heading, 3)
        yield from _listed(list(chapter.entries))
    yield Heading(speech.say("page.cautions"), 1, "cautions")
    yield from _listed(caution_words.for_customer(plan))
    yield Words(key.credit(plan.pattern), soft=True)


def _listed(lines: list[str]) -> Iterator[Block]:
    for said in lines:
        yield Words(said, mark="–")


def _written(plan: Plan) -> dict[str, list[Block]]:
    """The written pattern cut at its headings: what explains the rows, and the rows of every piece by its name."""
    written = words.written(plan)
    before = [block for part in written.explained for block in _set(part, heading=True)]
    found: dict[str, list[Block]] = {"before": before}
    for piece, part in zip(plan.pieces, written.pieces, strict=True):
        found[piece.name] = list(_set(part, heading=False))
    return found


def _set(part: str, heading: bool) -> Iterator[Block]:
    """Paragraphs, lists and headings of one part of the written pattern; the number of a row is set bold."""
    for index, paragraph in enumerate(part.split("\n\n")):
        if paragraph.startswith("#"):
            level = 3 if paragraph.startswith("###") else 2
            if heading or index:
                yield Heading(paragraph.lstrip("# "), level)
        elif paragraph.startswith("- "):
            for said in paragraph.split("\n"):
                yield Words(said.removeprefix("- "), mark="–")
        else:
            lead = re.match(r"[^:.]{1,60}:", paragraph)
            said = paragraph.replace("\n", " ")
            yield Words(said[lead.end() :].strip() if lead else said, lead=lead.group(0) if lead else "")
