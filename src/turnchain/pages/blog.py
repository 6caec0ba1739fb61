"""Everything of a pattern as one Markdown file, ready for a blog.

In: a plan and, where asked, a language. Out: Markdown with the pictures that ``make`` writes beside
it, each with its alt text: what is made on the figure of its wearer, stripes as worn, schematic, pieces as sewn, and
the chart of every piece above its rows.
All of it is told in the language of the pattern, or in the one asked for.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from urllib.parse import quote

from turnchain import file_names
from turnchain.drawing import key, on_figure, preview, schematic
from turnchain.fabric.plan import Plan
from turnchain.garment import finishing, parts
from turnchain.garment.finishing import Chapter
from turnchain.records import replace
from turnchain.wording import alt_texts, words
from turnchain.wording.all_sizes import only_in, to_tick, told_together
from turnchain.wording.markdown import escaped, escaped_name
from turnchain.wording.tables import language_of, speech_of, told_in
from turnchain.writers import formats


def markdown(plan: Plan, language: str | None = None) -> str:
    """The whole file as Markdown, ending in a line break. ``language`` is a code of ``wording.tables.LANGUAGES``, else
    KeyError; None: the pattern's own."""
    plan = told_in(plan, language)
    drawn = {name: _picture(f"{name}{formats.SHOWN.ending}", alt) for name, alt in pictures(plan).items()}
    return _markdown(plan, drawn)


def markdown_of_sizes(plans: Sequence[Plan]) -> str:
    """The whole file for all sizes of a pattern, without pictures, which are of one size, ending in a line break: what
    differs stands in brackets (``wording.merging``), and the row checklist says which rows are for some sizes only. In
    the language of the pattern."""
    told = told_together(plans, lambda plan: "\n\n".join(_parts(plan, {})) + "\n")
    common = replace(plans[0], pattern=replace(plans[0].pattern, title=plans[0].pattern.common_title))
    return "\n\n".join([told.rstrip("\n"), *_checklist_of_sizes(plans), *_contact(common)]) + "\n"


def _markdown(plan: Plan, drawn: Mapping[str, str]) -> str:
    """The file with the pictures ``drawn``, as Markdown, by the names of their files."""
    return "\n\n".join([*_parts(plan, drawn), *_checklist(plan), *_contact(plan)]) + "\n"


def _parts(plan: Plan, drawn: Mapping[str, str]) -> list[str]:
    """All that is told up to the row checklist."""
    speech, written = speech_of(plan.pattern), words.written(plan)
    told = [
        *_top(plan, written.head, [drawn.get(name, "") for name in (file_names.ON_FIGURE, file_names.STRIPES)]),
        f"## {speech.say('page.size')}",
        _table(plan),
        drawn.get(file_names.SCHEMATIC, ""),
        *_chapter(parts.at_hand(plan)),
        *_chapter(parts.gauge(plan)),
        *written.explained,
        *_pieces(plan, written.pieces, drawn),
        f"## {speech.say('page.finishing')}",
        *_finishing(plan, drawn.get(file_names.AS_SEWN, "")),
        *_chapter(parts.cautions(plan)),
    ]
    return [part for part in told if part]


def pictures(plan: Plan) -> dict[str, str]:
    """The pictures that the file shows, in the order figure, stripes, schematics (as far as the plan has any), charts:
    file name without ending, and alt text in the language of the pattern."""
    charts = {piece.name: alt_texts.of_chart(plan, piece) for piece in plan.pieces}
    return {**on_figure.told(plan), file_names.STRIPES: preview.told(plan, None), **schematic.told(plan), **charts}


def _top(plan: Plan, head: str, shown: Iterable[str]) -> Iterator[str]:
    """Title, pictures, credit, what it is and for whom; and what the written pattern says of its terms."""
    title, _, terms = head.partition("\n\n")
    yield title
    yield from shown
    if plan.pattern.by:
        yield f"*{escaped(key.by_words(plan.pattern))}*"
    yield from _photos(plan, parts.TOP)
    yield from map(escaped, parts.about(plan))
    yield terms


def _picture(file: str, alt: str) -> str:
    return f"![{escaped(alt)}]({quote(file)})"


def _photos(plan: Plan, place: str) -> Iterator[str]:
    for nth, photo in parts.photos(plan, place):
        yield _picture(file_names.photo(nth), photo.alt)


def _chapter(chapter: Chapter, level: int = 2) -> Iterator[str]:
    """A heading and its list; nothing where there is nothing to list."""
    if chapter.entries:
        yield f"{'#' * level} {chapter.heading}"
        yield from _list(chapter.entries)


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


def _pieces(plan: Plan, rows: Iterable[str], drawn: Mapping[str, str]) -> Iterator[str]:
    """Each piece's heading, the maker's words and photographs, its chart, its rows."""
    for piece, part in zip(plan.pieces, rows, strict=True):
        heading, _, text = part.partition("\n\n")
        yield heading
        yield from map(escaped, parts.before(plan, piece))
        yield from _photos(plan, piece.name)
        yield drawn.get(piece.name, "")
        yield text
        yield from map(escaped, parts.after(plan, piece))


def _finishing(plan: Plan, sewn: str) -> Iterator[str]:
    """Joining with its pictures, border, ends, blocking and care."""
    joined = finishing.joining(plan)
    pictures_of_joining = [*_photos(plan, parts.JOINING), sewn]
    if not joined.entries:
        yield from pictures_of_joining
    for chapter in finishing.chapters(plan):
        heading, *listed = _chapter(chapter, 3)
        yield heading
        yield from pictures_of_joining if chapter == joined else ()
        yield from listed


def _checklist(plan: Plan) -> Iterator[str]:
    """A box to tick for every row of every piece."""
    yield f"## {speech_of(plan.pattern).say('page.ticks')}"
    for piece in plan.pieces:
        yield f"### {escaped_name(piece.name)}"
        yield _boxes(row.number for row in piece.rows)


def _checklist_of_sizes(plans: Sequence[Plan]) -> Iterator[str]:
    """A box to tick for every row of every piece in all sizes; what is for some sizes only says so."""
    yield f"## {speech_of(plans[0].pattern).say('page.ticks')}"
    only = only_in(language_of(plans[0].pattern))
    for name in dict.fromkeys(piece.name for plan in plans for piece in plan.pieces):
        yield f"### {escaped_name(name)}"
        for some in to_tick(plans, name):
            whose = "" if some.section == "body" else speech_of(plans[0].pattern).section(some.section)
            if len(some.sizes) < len(plans):
                sizes = only([escaped_name(plans[nth].pattern.size) for nth in some.sizes])
                yield f"{whose}, **{sizes}**" if whose else f"**{sizes}**"
            elif whose:
                yield f"{whose}:"
            yield _boxes(rows[0].number for rows in some.rows)


def _boxes(numbers: Iterable[int]) -> str:
    """A box to tick for each of these ``numbers``, ten to a line."""
    boxes = [f"☐ {number}" for number in numbers]
    return "  \n".join(" ".join(boxes[start : start + 10]) for start in range(0, len(boxes), 10))


def _contact(plan: Plan) -> Iterator[str]:
    chapter = parts.contact(plan)
    if chapter.entries:
        yield f"## {chapter.heading}"
        yield from map(escaped, chapter.entries)
    yield f"*{escaped(key.credit(plan.pattern))}*"
