"""The whole pattern in all its sizes as one booklet: a column of measures for each size, one set of words, charts.

In: the plans of the sizes of one pattern. Out: pages, as ``booklet`` makes them for one size. The words are those of
the written pattern of all sizes (``pages.blog``), its row checklist too. Every piece has its edges of all sizes over
one lattice above its rows, and a short chart of each size below them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from turnchain import file_names
from turnchain.drawing import nested, on_figure
from turnchain.drawing.looks import Look
from turnchain.drawing.preview import preview
from turnchain.fabric.plan import Fit, Plan, Row
from turnchain.pages.blog import markdown_of_sizes
from turnchain.paper import Page, Photograph
from turnchain.printing.booklet import bare, chart_and_key, picture_on_figure, set_in_pages
from turnchain.printing.typesetting import (
    Block,
    Contents,
    FigureTable,
    Heading,
    Ledger,
    PhotographBlock,
    Picture,
    Words,
)
from turnchain.wording.all_sizes import only_in, side_by_side, to_tick
from turnchain.wording.markdown import escaped_name, plain_text
from turnchain.wording.merging import DASH
from turnchain.wording.tables import language_of, speech_of, told_in

#: How much of a page the chart of one size may take.
CHART_TALLEST = 0.45


def booklet_of_sizes(
    plans: Sequence[Plan],
    paper: str = "A4",
    look: Look | None = None,
    language: str | None = None,
    photographs: Sequence[Photograph] = (),
) -> list[Page]:
    """All pages, ``plans`` in the order of their sizes; all else as in ``booklet.booklet``. MakerError for any other
    paper or language."""
    plans = [told_in(plan, language) for plan in plans]
    blocks = list(_Blocks(plans, look or Look(), photographs).all())
    return set_in_pages(blocks, plans[0].pattern, plans[0].pattern.common_title, paper)


class _Blocks:
    def __init__(self, plans: Sequence[Plan], look: Look, photographs: Sequence[Photograph]) -> None:
        self.plans, self.look = plans, look
        self.photographs = {file_names.photo(nth): one for nth, one in enumerate(photographs, 1)}
        self.names = list(dict.fromkeys(piece.name for plan in plans for piece in plan.pieces))
        self.speech = speech_of(plans[0].pattern)

    def all(self) -> Iterator[Block]:
        """Title and picture, then the written pattern, each piece with its drawings."""
        title, *paragraphs = markdown_of_sizes(self.plans).strip().split("\n\n")
        first = next(nth for nth, paragraph in enumerate(paragraphs) if paragraph.startswith("## "))
        yield Heading(plain_text(title.removeprefix("# ")), 1)
        yield Picture(*bare(preview(self.plans[0], look=self.look)), tallest=0.5)
        for paragraph in paragraphs[:first]:
            yield from self._set(paragraph)
        yield Heading(self.speech.say("page.contents"), 2)
        yield Contents()
        yield from self._chapters(paragraphs[first:])

    def _chapters(self, paragraphs: Sequence[str]) -> Iterator[Block]:
        pieces = {f"## {escaped_name(name)}": name for name in self.names}
        piece, chapter, ticks = "", "", f"## {self.speech.say('page.ticks')}"
        for nth, paragraph in enumerate(paragraphs):
            if paragraph.startswith("## "):
                yield from self._charts(piece)
                piece, chapter = pieces.get(paragraph, ""), paragraph
                words = plain_text(paragraph.removeprefix("## "))
                yield Heading(words, 1, f"chapter-{nth}", breaks=bool(piece) or not nth)
                if piece:
                    yield Picture(*bare(nested.nested(self.plans, piece)), tallest=0.8)
                if paragraph == ticks:  # in a ledger, which says more of a row than boxes in a line
                    yield from self._checklist()
            elif chapter != ticks or re.match(r"\*[^*]", paragraph):  # the credit follows without a heading
                yield from self._set(paragraph)

    def _charts(self, name: str) -> Iterator[Block]:
        """The short chart of each size; the key with most in it stands below the chart of its own size."""
        found = [(plan, piece) for plan in self.plans for piece in plan.pieces if piece.name == name]
        drawn = [chart_and_key(plan, piece, self.look, CHART_TALLEST) for plan, piece in found]
        most = max((key.scene.height for _, key in drawn), default=0)
        for (plan, _), (chart, key) in zip(found, drawn, strict=True):
            yield Heading(f"{name}, {plan.pattern.size}", 3)
            yield chart
            if key.scene.height == most:
                yield key
                most = 0

    def _checklist(self) -> Iterator[Block]:
        """A box for every row of every piece; what is for some sizes only says so."""
        only = only_in(language_of(self.plans[0].pattern))
        for name in self.names:
            yield Heading(name, 2)
            for some in to_tick(self.plans, name):
                if len(some.sizes) < len(self.plans):
                    yield Heading(only([self.plans[nth].pattern.size for nth in some.sizes]), 3)
                yield Ledger(tuple((str(rows[0].number), self._row_told(rows)) for rows in some.rows), 3)

    def _row_told(self, rows: Sequence[Row]) -> str:
        """Of a row of several sizes: its section, its side, and its yarn where they all have one."""
        first = rows[0]
        section = "" if first.section == "body" else f"{self.speech.section(first.section)}, "
        yarns = {row.colour for row in rows}
        yarn = f", {first.colour}" if len(yarns) == 1 and first.colour else ""
        return f"{section}{self.speech['RS' if first.number % 2 else 'WS']}{yarn}"

    def _set(self, paragraph: str) -> Iterator[Block]:
        """One paragraph of the written pattern."""
        if photo := re.fullmatch(r"!\[.*\]\((.+)\)", paragraph):
            if photo[1] in self.photographs:
                yield PhotographBlock(self.photographs[photo[1]])
        elif paragraph.startswith("| "):
            yield from self._measures()
        elif paragraph.startswith("#"):
            yield Heading(plain_text(paragraph.lstrip("# ")), 2)
        elif paragraph.startswith("- "):
            for said in paragraph.split("\n"):
                yield Words(plain_text(said.removeprefix("- ")), mark="–")
        elif soft := re.fullmatch(r"\*([^*].*)\*", paragraph, re.DOTALL):
            yield Words(plain_text(soft[1]), soft=True)
        else:
            said = plain_text(paragraph.replace("\n", " "))
            lead = re.match(r"[^:.]{1,60}:", said)
            yield Words(said[lead.end() :].strip() if lead else said, lead=lead[0] if lead else "")

    def _measures(self) -> Iterator[Block]:
        """Every measure of every piece, a column for each size, in the unit of the pattern."""
        unit = self.plans[0].pattern.units
        sizes = tuple(plan.pattern.size for plan in self.plans)
        for name in self.names:
            found = [[piece.fit for piece in plan.pieces if piece.name == name] for plan in self.plans]
            measures = side_by_side([one[0] if one else () for one in found], self.speech.measure)
            rows = ((measure, *(self._figure(fit) for fit in fits)) for measure, fits in measures)
            yield FigureTable((f"{name}, {unit}", *sizes), tuple(rows))
        for shown in picture_on_figure(self.plans[0], self.look):
            yield Heading(sizes[0], 3)
            yield shown
        yield from (Words(said, mark="–") for said in on_figure.sentences(self.plans[0]))

    def _figure(self, fit: Fit | None) -> str:
        unit = self.plans[0].pattern.units
        return self.speech.taped(fit.worked, unit).removesuffix(f" {unit}") if fit else DASH
