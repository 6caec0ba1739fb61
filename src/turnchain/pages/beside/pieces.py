"""The chapter of a piece: its chart, the card of the row in work, what is left, all rows.

In: a plan, a piece as the maker's hand sees it, its chart. Out: HTML. Every row is told once, in the list of all rows.
"""

from __future__ import annotations

import re
from unicodedata import bidirectional

from turnchain import style
from turnchain.drawing.key import summary
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.pages.beside import pictures
from turnchain.pages.beside.lengths import Lengths, left_table
from turnchain.pages.beside.markup import in_each, languages_of, plain, set_apart
from turnchain.pages.choosing import OfSize
from turnchain.pattern import Pattern
from turnchain.records import frozen
from turnchain.wording import alt_texts, founding, words
from turnchain.wording.languages.language import Speech
from turnchain.wording.tables import speech_of


@frozen
class Shown:
    """A piece on the page: its ``number`` from 1, the ``piece`` as planned and as the maker's hand ``own`` sees it;
    in which ``part`` of the page it stands."""

    number: int
    piece: PiecePlan
    own: PiecePlan
    part: OfSize = OfSize()

    @property
    def anchor(self) -> str:
        """The id of its chapter: "piece-1", or "size-M/piece-1"."""
        return f"{self.part.above}piece-{self.number}"

    def address(self, row: Row) -> str:
        """The id of a row: "piece-1/row-12"; where a neck divides the piece "piece-1/first-shoulder/row-40"."""
        section = "" if row.section == "body" else row.section.replace(" ", "-") + "/"
        return f"{self.anchor}/{section}row-{row.number}"


def chapter(plan: Plan, shown: Shown, chart: str) -> str:
    """The chapter of a piece as HTML, with its ``chart`` (an SVG). The card and the table begin with row 1, as the page
    is without its script."""
    piece, first, name = shown.piece, shown.piece.rows[0], f"{shown.part.above}name-{shown.number}"
    lengths = Lengths(plan, piece)
    rows = "\n".join(_row(plan, shown, row, lengths) for row in piece.rows)
    speech = speech_of(plan.pattern)
    label = plain(speech.say("beside.chart", piece=piece.name))
    chain = founding.said(speech, "beside.chain", piece)
    all_rows = speech.say("beside.all_rows", piece="%PIECE%")
    summary_words = plain(all_rows).replace("%PIECE%", set_apart(piece.name))
    return "\n".join(
        [
            f'<section class="piece" id="{shown.anchor}" data-name="{plain(piece.name)}" '
            f'aria-labelledby="{name}">',
            f'<div class="head"><h2 id="{name}">{set_apart(piece.name)}</h2>',
            '<button type="button" class="closer" aria-pressed="false" hidden>'
            f"{plain(speech.say('beside.closer'))}</button></div>",
            '<p class="notice" role="status" hidden></p>',
            '<div class="bench">\n<div class="chart">',
            f'<div class="frame" tabindex="0" role="group" aria-label="{label}"><div class="sheet" role="img" '
            f'aria-label="{plain(alt_texts.of_chart(plan, shown.own))}">{chart}</div></div>',
            '</div>\n<div class="reading">',
            '<div class="card" aria-live="polite" aria-atomic="true">',
            f'<h3 class="row">{_label(speech, first)}</h3>{_told(plan, shown, first)}',
            f'<p class="rest"><span class="done">{_left(speech, len(piece.rows))}</span></p>\n</div>',
            f'<div class="turn" hidden><button type="button" class="back">{plain(speech.say("beside.back"))}</button>'
            f'<button type="button" class="next">{plain(speech.say("beside.next"))}</button></div>',
            left_table(plan, piece, lengths),
            f'<p class="quiet about">{plain(summary(plan.pattern, piece))}  ·  {plain(chain)}</p>',
            f'<p class="quiet hint" hidden>{plain(speech.say("beside.hint"))}</p>',
            "</div>\n</div>",
            f'<details class="ledger" open><summary>{summary_words}</summary>\n<ol>\n{rows}\n</ol>'
            "</details>\n</section>",
        ]
    )


def _label(speech: Speech, row: Row) -> str:
    section = "" if row.section == "body" else f" <small>{plain(speech.section(row.section))}</small>"
    return plain(speech.say("beside.row", n=row.number)) + section


def _row(plan: Plan, shown: Shown, row: Row, lengths: Lengths) -> str:
    """One row in the list, with the data that the script reads."""
    own = shown.own.rows[row.index]
    known = f' data-long="{lengths.fine[row.index]}"' if lengths.of(row) else ""
    return (
        f'<li id="{shown.address(row)}" data-chart="{shown.part.ids}{pictures.row_name(shown.number, row)}" '
        f'data-yarn="{_number(plan.pattern, row)}" data-from="{own.starts}"{known}>'
        f'<a class="row" href="#{shown.address(row)}">{_label(speech_of(plan.pattern), row)}</a>'
        f"{_told(plan, shown, row)}</li>"
    )


def _told(plan: Plan, shown: Shown, row: Row) -> str:
    """HTML for all that a maker needs in a row: yarn, side and direction, words, count."""
    own = shown.own.rows[row.index]
    speech = speech_of(plan.pattern)
    side = speech.say("beside.side.RS" if row.number % 2 else "beside.side.WS")
    arrow = "\N{LEFTWARDS ARROW}" if own.starts == "right" else "\N{RIGHTWARDS ARROW}"
    said = [(term, words.row_said(shown.piece, row, term)) for term in languages_of(plan.pattern)]
    clusters = "" if row.solid else f"<b>{plain(alt_texts.counted(speech, row))}</b> "
    count = f"{clusters}{in_each((term, plain(one.stitches)) for term, one in said)}"
    after = said[0][1].after
    begin = founding.said(speech, "beside.begin", shown.piece)
    chain = f'<p class="chain">{begin}</p>' if row.under is None else ""
    return (
        f"{_yarn(plan.pattern, row)}"
        f'<p class="side">{side} '
        f'<span class="way">{speech.say(f"beside.from.{own.starts}")} <i aria-hidden="true">{arrow}</i></span></p>'
        f'<div class="how">{chain}<p class="words">{in_each((term, _isolated(plan, one.steps)) for term, one in said)}'
        f'</p><p class="count">{count}</p>'
        + (f'<p class="after">{in_each((t, plain(one.after)) for t, one in said)}</p></div>' if after else "</div>")
    )


def _isolated(plan: Plan, text: str) -> str:
    """Words for HTML in which names of yarns that are written from right to left stay in their place."""
    names = [plain(one.name) for one in plan.pattern.yarns if any(bidirectional(c) in ("R", "AL") for c in one.name)]
    if not names:
        return plain(text)
    longest_first = "|".join(map(re.escape, sorted(names, key=len, reverse=True)))
    return re.sub(longest_first, r"<bdi>\g<0></bdi>", plain(text))


def _yarn(pattern: Pattern, row: Row) -> str:
    number = _number(pattern, row)
    if row.colour is None:
        return ""
    letter = style.letter(number - 1)
    return f'<p class="yarn c{number}"><b class="letter">{letter}</b> {set_apart(row.colour)}</p>'


def _number(pattern: Pattern, row: Row) -> int:
    """The number of the row's yarn, from 1; 0 where the pattern names none."""
    return next((n for n, one in enumerate(pattern.yarns, 1) if one.name == row.colour), 0)


def _left(speech: Speech, rows: int) -> str:
    return speech.say("beside.last_row") if rows == 1 else speech.say("beside.rows_left", n=rows)
