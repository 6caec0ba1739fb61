"""Everything of a pattern as one Markdown file, ready for a blog.

In: a plan and, where asked, a language. Out: Markdown with the pictures that ``make`` writes beside
it, each with its alt text: stripes as worn, schematic, pieces as sewn, and the chart of every piece above its rows.
All of it is told in the language of the pattern, or in the one asked for.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from urllib.parse import quote

from turnchain import file_names
from turnchain.drawing import key, preview, schematic
from turnchain.fabric.plan import Plan
from turnchain.garment import caution_words, finishing, materials
from turnchain.wording import alt_texts, words
from turnchain.wording.markdown import escaped
from turnchain.wording.tables import speech_of, told_in
from turnchain.writers import formats


def markdown(plan: Plan, language: str | None = None) -> str:
    """The whole file, ending in a line break."""
    plan = told_in(plan, language)
    speech, written = speech_of(plan.pattern), words.written(plan)
    shown_there = {name: _picture(name, alt) for name, alt in pictures(plan).items()}
    drawn = [picture for name, picture in shown_there.items() if name not in _charted(plan)]
    parts = [
        *_top(plan, written.head, drawn[0]),
        f"## {speech.say('page.size')}",
        _table(plan),
        *drawn[1:],
        f"## {speech.say('page.materials')}",
        *_list(materials.lines(plan)),
        *written.explained,
        *_pieces(plan, written.pieces, shown_there),
        f"## {speech.say('page.finishing')}",
        *_finishing(plan),
        f"## {speech.say('page.cautions')}",
        *_list(caution_words.for_customer(plan)),
        f"*{escaped(key.credit(plan.pattern))}*",
    ]
    return "\n\n".join(part for part in parts if part) + "\n"


def pictures(plan: Plan) -> dict[str, str]:
    """The pictures that the file shows: file name without ending, and alt text, in their order."""
    charts = {piece.name: alt_texts.of_chart(plan, piece) for piece in plan.pieces}
    return {file_names.STRIPES: preview.told(plan, None), **schematic.told(plan), **charts}


def _charted(plan: Plan) -> set[str]:
    return {piece.name for piece in plan.pieces}


def _top(plan: Plan, head: str, picture: str) -> Iterator[str]:
    """Title, picture, credit, note; and what the written pattern says of its terms."""
    title, _, terms = head.partition("\n\n")
    yield title
    yield picture
    yield escaped(plan.pattern.note)
    yield terms


def _picture(name: str, alt: str) -> str:
    return f"![{escaped(alt)}]({quote(name)}{formats.SHOWN.ending})"


def _table(plan: Plan) -> str:
    """Every worked measure in the unit of the pattern, as exactly as a tape is read."""
    speech, unit = speech_of(plan.pattern), plan.pattern.units
    rows = [f"| {speech.say('page.piece')} | {speech.say('page.measure')} | {unit} |", "| --- | --- | ---: |"]
    for piece in plan.pieces:
        for fit in piece.fit:
            figure = speech.taped(fit.worked, unit).removesuffix(f" {unit}")
            rows.append(f"| {escaped(piece.name)} | {escaped(speech.measure(fit.measure))} | {figure} |")
    return "\n".join(rows)


def _list(lines: Iterable[str]) -> list[str]:
    """``lines`` as a list, or nothing where there are none."""
    told = "\n".join(f"- {escaped(_sentence(line))}" for line in lines)
    return [told] if told else []


def _sentence(line: str) -> str:
    return f"{line[:1].upper()}{line[1:]}."


def _pieces(plan: Plan, rows: Iterable[str], drawn: dict[str, str]) -> Iterator[str]:
    """Each piece's heading, its chart, its rows."""
    for piece, part in zip(plan.pieces, rows, strict=True):
        heading, _, text = part.partition("\n\n")
        yield heading
        yield drawn[piece.name]
        yield text


def _finishing(plan: Plan) -> Iterator[str]:
    for chapter in finishing.chapters(plan):
        yield f"### {chapter.heading}"
        yield from _list(chapter.entries)
