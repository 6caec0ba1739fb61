"""The whole pattern as a booklet, in the trade's order.

In: a plan. Out: pages: title, picture and credit with what it is and for whom, contents, measures with the schematic,
materials, gauge, abbreviations and how rows are read; every piece with its chart, its rows in words and its close-ups;
joining, border, ends, blocking and care; cautions; a row checklist; contact and licence.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from turnchain.drawing import key, on_figure, schematic
from turnchain.drawing.chart import CHART_ALONE, drawn
from turnchain.drawing.detail import detail, series
from turnchain.drawing.folds import folded
from turnchain.drawing.looks import Look, for_hand
from turnchain.drawing.preview import preview
from turnchain.drawing.setting import setting
from turnchain.drawing.sheet import WHOLE
from turnchain.drawing.sizing import measured
from turnchain.errors import MakerError
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.file_names import AS_SEWN, SCHEMATIC
from turnchain.garment import finishing, parts
from turnchain.garment.finishing import Chapter
from turnchain.paper import Page, Photograph
from turnchain.pattern import Pattern
from turnchain.printing.key_scene import key_scenes
from turnchain.printing.paper_sizes import sheet
from turnchain.printing.typesetting import (
    Block,
    Contents,
    Facing,
    Heading,
    Ledger,
    PhotographBlock,
    Picture,
    Typesetter,
    Words,
)
from turnchain.records import replace
from turnchain.scene import Group, Scene, Text
from turnchain.wording import words
from turnchain.wording.alt_texts import measures_of
from turnchain.wording.languages.language import Speech
from turnchain.wording.markdown import plain_text
from turnchain.wording.tables import language_of, speech_of, told_in

PAPERS = ("a4", "letter")
MARGIN = 17.0  # mm
CHART_WIDTH = 1240  # px of a chart as wide as the words: those in it are 3 mm high then
DETAIL_SIZE = (1500, 900)  # px of a close-up
WIDEST_CLUSTER = 22.0  # mm: a small chart is not drawn larger
#: Sizes of the words, over the usual one, that are tried so that no page is left with a few lines.
SIZES = (1.0, 0.98, 1.02, 0.96, 1.04, 0.94, 1.06, 0.92)


def booklet(
    plan: Plan,
    paper: str = "A4",
    look: Look | None = None,
    language: str | None = None,
    photographs: Sequence[Photograph] = (),
) -> list[Page]:
    """All pages on A4 or Letter, in ``language`` (a code of ``wording.tables.LANGUAGES``; the pattern's own if None);
    ``photographs`` are those of the pattern in its order, made ready, and one that is missing at the end is left out.
    Of the ``SIZES`` of words the first is taken that leaves the fewest pages with a few lines. The garment on a figure
    stands where it takes no page more, else before the schematic. MakerError for any other paper or language."""
    plan, look = told_in(plan, language), look or Look()
    opening, size = list(_opening(plan, look, photographs)), list(_size(plan))
    rest = list(_rest(plan, look, photographs))

    def with_figure(below_contents: Sequence[Block], below_size: Sequence[Block]) -> list[Page]:
        blocks = [*opening, *below_contents, *size, *below_size, *rest]
        return set_in_pages(blocks, plan.pattern, plan.pattern.title, paper)

    without = with_figure((), ())
    tried = [with_figure(*places) for places in _places_of_figure(plan, look)]
    return next((pages for pages in tried if len(pages) <= len(without)), (*tried, without)[0])


def set_in_pages(blocks: Sequence[Block], pattern: Pattern, title: str, paper: str) -> list[Page]:
    """The ``blocks`` of a ``pattern`` on pages with its ``title`` at their foot, as ``booklet`` sets them. MakerError
    for any other ``paper``."""
    if paper.lower() not in PAPERS:
        raise MakerError(f'a booklet is set on A4 or Letter, not on "{paper}"')
    size = sheet(paper)
    assert size.height is not None, "A4 and Letter are sheets"
    best: tuple[int, list[Page]] | None = None
    for share in SIZES:
        setter = Typesetter(size.width, size.height, MARGIN, title, share, pattern.colour)
        pages = setter.set(blocks)
        if best is None or setter.thin() < best[0]:
            best = (setter.thin(), pages)
        if not best[0]:
            break
    assert best is not None
    return [replace(page, language=language_of(pattern).tag) for page in best[1]]


def _opening(plan: Plan, look: Look, photographs: Sequence[Photograph]) -> Iterator[Block]:
    pattern, speech = plan.pattern, speech_of(plan.pattern)
    yield Heading(pattern.title, 1)
    yield Words(speech.say("credit.by", name=pattern.by) if pattern.by else "", soft=True)
    yield Picture(*bare(preview(plan, look=look)), tallest=0.5)
    yield from (Words(said) for said in parts.about(plan))
    yield from _photos(plan, parts.TOP, photographs)
    yield Heading(speech.say("page.contents"), 2)
    yield Contents()


def _size(plan: Plan) -> Iterator[Block]:
    yield Heading(speech_of(plan.pattern).say("page.size"), 1, "size", breaks=True)
    for piece in plan.pieces:
        yield Words(measures_of(plan.pattern, piece), lead=f"{piece.name}:")


def _places_of_figure(plan: Plan, look: Look) -> Iterator[tuple[list[Block], list[Block]]]:
    """What can stand below the contents and below the sizes to show what is made on the figure of its wearer, where
    that is known, and to tell what falls where; the best first."""
    told: list[Block] = [Words(said, mark="–") for said in on_figure.sentences(plan)]
    shown: list[Block] = [*picture_on_figure(plan, look)]
    if shown:
        yield from (([], [*told, *shown]), (shown, told), (shown, []))


def picture_on_figure(plan: Plan, look: Look) -> Iterator[Picture]:
    """What is made, on the figure of its wearer, where that is known."""
    scene = on_figure.alone(plan, look)
    if scene is not None:
        yield Picture(*bare(scene), tallest=0.6, least=0.45)


def _rest(plan: Plan, look: Look, photographs: Sequence[Photograph]) -> Iterator[Block]:
    """All from the schematic on."""
    speech, written, sewn = speech_of(plan.pattern), _written(plan), schematic.scenes(plan)
    yield Picture(*bare(sewn[SCHEMATIC]), tallest=0.8)
    yield from _listed(parts.at_hand(plan), 1, "materials")
    yield from _listed(parts.gauge(plan), 2)
    yield Heading(speech.say("page.written"), 1, "written")
    yield from written["before"]
    for piece in plan.pieces:
        yield from _piece(plan, piece, look, written[piece.name], photographs)
    yield from _last(plan, sewn, photographs)


def _photos(plan: Plan, place: str, photographs: Sequence[Photograph]) -> Iterator[Block]:
    for nth, _ in parts.photos(plan, place):
        if nth <= len(photographs):
            yield PhotographBlock(photographs[nth - 1])


def _piece(
    plan: Plan, piece: PiecePlan, look: Look, written: list[Block], photographs: Sequence[Photograph]
) -> Iterator[Block]:
    speech = speech_of(plan.pattern)
    opening = [Words(said) for said in parts.before(plan, piece)]
    rows: list[Block] = [Heading(speech.say("page.rows", piece=piece.name), 2), *written]
    rows += [Words(said) for said in parts.after(plan, piece)]
    yield Facing(
        (
            Heading(piece.name, 1, f"piece-{piece.name}"),
            Words(key.summary(plan.pattern, piece), soft=True),
            *opening,
            *_photos(plan, piece.name, photographs),
        ),
        *chart_and_key(plan, piece, look),
        tuple(rows),
        tuple(_close_ups(plan, piece, look)),
    )


def chart_and_key(plan: Plan, piece: PiecePlan, look: Look, tallest: float = 0.86) -> tuple[Picture, Picture]:
    """The short chart by itself, as wide as the words of the page where its height allows (``tallest``: that share of a
    page), and its key."""
    found, folds = setting(plan, piece.name, look), folded(for_hand(piece, look.hand))
    placed = found.on(measured(found, None, replace(WHOLE, reference=CHART_WIDTH, margin=6), folds))
    scene = drawn(placed, CHART_ALONE)
    widest = scene.width * WIDEST_CLUSTER / (2 * placed.sheet.half)
    return Picture(scene, tallest=tallest, widest=widest), Picture(key_scenes(placed, CHART_WIDTH, credit=False)[1])


def _close_ups(plan: Plan, piece: PiecePlan, look: Look) -> Iterator[Block]:
    details = list(series(for_hand(piece, look.hand)))
    if details:
        yield Heading(speech_of(plan.pattern).say("page.edges"), 2)
        for asked in details:
            scene = detail(plan, piece.name, asked, DETAIL_SIZE, look)
            yield Picture(*bare(scene, lines=1), tallest=0.31)


def bare(scene: Scene, lines: int | None = None) -> tuple[Scene, float, float | None]:
    """A picture, the y below its heading, or below the first ``lines`` of it, and that above its credit (None: its
    foot): the booklet has those in its own words."""
    header, credit = (_lines_of(scene, name) for name in ("header", "credit"))
    bases = sorted({text.y for text in header})[:lines]
    top = max((text.y + 0.35 * text.size for text in header if text.y <= bases[-1]), default=0.0)
    return scene, top, min((text.y - 1.2 * text.size for text in credit), default=None)


def _lines_of(scene: Scene, name: str) -> list[Text]:
    """The words in the group of that ``name``; none where there is no such group."""
    found = next((item for item in scene.items if isinstance(item, Group) and item.name == name), Group(()))
    return [item for item in found.items if isinstance(item, Text)]


def _entries(speech: Speech, piece: PiecePlan) -> Iterator[tuple[str, str]]:
    """One box for every row: number and, where the piece divides, the shoulder; yarn and count."""
    for row in piece.rows:
        section = "" if row.section == piece.rows[0].section else f"{speech.section(row.section)}, "
        side = speech["RS" if row.number % 2 else "WS"]
        yarn = f"{row.colour}, " if row.colour else ""
        count, what = (row.counts.dc + row.counts.tch, speech.stitch(row.kind)) if row.solid else (
            row.clusters,
            speech["cl"],
        )
        yield f"{row.number}", f"{section}{side}, {yarn}{count} {what}"


def _last(plan: Plan, sewn: dict[str, Scene], photographs: Sequence[Photograph]) -> Iterator[Block]:
    speech = speech_of(plan.pattern)
    joined = finishing.joining(plan)
    yield Heading(speech.say("page.finishing"), 1, "finishing")
    for chapter in finishing.chapters(plan):
        yield from _listed(chapter, 2)
        if chapter == joined:
            yield from _photos(plan, parts.JOINING, photographs)
            yield from (Picture(*bare(sewn[name]), tallest=0.6) for name in (AS_SEWN,) if name in sewn)
    yield from _listed(parts.cautions(plan), 1, "cautions")
    yield Heading(speech.say("page.ticks"), 1, "checklist")
    for piece in plan.pieces:
        yield Heading(piece.name, 3)
        yield Ledger(tuple(_entries(speech, piece)), 3)
    contact = parts.contact(plan)
    if contact.entries:
        yield Heading(contact.heading, 1, "contact")
        yield from (Words(said) for said in contact.entries)
    yield Words(key.credit(plan.pattern), soft=True)


def _listed(chapter: Chapter, level: int, anchor: str = "") -> Iterator[Block]:
    """A heading and its list; nothing where there is nothing to list."""
    if chapter.entries:
        yield Heading(chapter.heading, level, anchor)
        yield from (Words(said, mark="–") for said in chapter.entries)


def _written(plan: Plan) -> dict[str, list[Block]]:
    """The written pattern cut at its headings: what explains the rows, and the rows of every piece by its name."""
    written = words.written(plan)
    before = [block for part in written.explained for block in _set(part, heading=True)]
    found: dict[str, list[Block]] = {"before": before}
    for piece, part in zip(plan.pieces, written.pieces, strict=True):
        found[piece.name] = list(_set(part, heading=False))
    return found


#: What is set bold before a paragraph: "Foundation:", "Row 1 (RS, Heron):"; the name of a yarn may have a colon itself.
LEAD = re.compile(r"[^:.(]{1,60}(?:\(.{1,120}?\))?:")


def _set(part: str, heading: bool) -> Iterator[Block]:
    """Paragraphs, lists and headings of one part of the written pattern; the number of a row is set bold."""
    for index, paragraph in enumerate(part.split("\n\n")):
        if paragraph.startswith("#"):
            level = 3 if paragraph.startswith("###") else 2
            if heading or index:
                yield Heading(plain_text(paragraph.lstrip("# ")), level)
        elif paragraph.startswith("- "):
            for said in paragraph.split("\n"):
                yield Words(plain_text(said.removeprefix("- ")), mark="–")
        else:
            said = plain_text(paragraph.replace("\n", " "))
            lead = LEAD.match(said)
            yield Words(said[lead.end() :].strip() if lead else said, lead=lead.group(0) if lead else "")
