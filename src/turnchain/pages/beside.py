"""The page beside the work: one HTML file that shows row after row while a piece is being made.

In: a plan and a look. Out: the text of a page that needs no server and nothing from elsewhere. Without its script
it can be read from top to bottom; with it, it keeps the place. Every row is told once, in the list of all rows;
the card in large type is filled from there, so script and page cannot disagree. Everything that a maker wrote is
escaped, and set apart (<bdi>) so that names written from right to left stay in their place.
"""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from html import escape
from importlib import resources
from itertools import accumulate
from math import ceil
from unicodedata import bidirectional

from turnchain import lettering, style, terms
from turnchain.drawing.key import credit, summary
from turnchain.drawing.looks import Look, for_hand
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.pages import pictures as beside_pictures
from turnchain.pattern import Pattern, Terms, Yarn
from turnchain.style import Theme
from turnchain.wording import telling, words
from turnchain.yarns import figures as yarn

FILE = "beside.html"
TERMS: tuple[Terms, ...] = ("US", "UK")
FINE = 1000  # lengths are told to the script in thousandths of their unit

_ICON = (
    "data:image/svg+xml,%3Csvg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 16 16'%3E%3Cpath d='M8 14 3 3m5 11V3"
    "m0 11 5-11M1 3h4m1 0h4m1 0h4' fill='none' stroke='%23b02a37' stroke-width='1.5'/%3E%3C/svg%3E"
).replace(" ", "%20")


def page(plan: Plan, look: Look | None = None) -> str:
    """The whole page; charts and directions for a maker of the look's hand."""
    look = look or Look()
    pieces = tuple(for_hand(piece, look.hand) for piece in plan.pieces)
    drawn = beside_pictures.drawn(plan, pieces, look)
    pattern = plan.pattern
    styles, script = _tokens(pattern) + _file("beside.css"), _file("beside.js")
    policy = f"default-src 'none'; img-src data:; style-src '{_hash(styles)}'; script-src '{_hash(script)}'; "
    parts = [
        f'<!DOCTYPE html>\n<html lang="{terms.LANGUAGE[pattern.terms]}">\n<head>\n<meta charset="utf-8">',
        f'<meta http-equiv="Content-Security-Policy" content="{policy}base-uri \'none\'; form-action \'none\'">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        '<meta name="color-scheme" content="light dark">\n<meta name="referrer" content="no-referrer">',
        f'<title>{_plain(pattern.title)}: beside the work</title>\n<link rel="icon" href="{_ICON}">',
        f"<style>{styles}</style>\n</head>\n<body data-key=\"{_key(plan)}\">",
        '<a class="skip" href="#work">To the work</a>',
        _top(pattern),
        _pieces_nav(plan),
        drawn.shared,
        '<main id="work" tabindex="-1">',
        *(
            _piece(plan, Shown(number, piece, own), drawn.charts[number - 1])
            for number, (piece, own) in enumerate(zip(plan.pieces, pieces, strict=True), 1)
        ),
        _colours(plan, drawn.cloth),
        _abbreviations(plan),
        f"</main>\n<footer><bdi>{_plain(credit(pattern))}</bdi></footer>",
        f"<script>{script}</script>\n</body>\n</html>\n",
    ]
    return "\n".join(part for part in parts if part)


@dataclass(frozen=True, slots=True)
class Shown:
    """A piece on the page: its ``number`` from 1, the ``piece`` as planned and as the maker's hand ``own`` sees it."""

    number: int
    piece: PiecePlan
    own: PiecePlan

    @property
    def anchor(self) -> str:
        """Its id."""
        return f"piece-{self.number}"

    def address(self, row: Row) -> str:
        """The id of a row: "piece-1/row-12"; where a neck divides the piece "piece-1/first-shoulder/row-40"."""
        section = "" if row.section == "body" else row.section.replace(" ", "-") + "/"
        return f"{self.anchor}/{section}row-{row.number}"


# ---------------------------------------------------------------------------------------------------- small things


@cache
def _file(name: str) -> str:
    return resources.files("turnchain.pages").joinpath(name).read_text("utf-8")


def _hash(text: str) -> str:
    return "sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()


def _key(plan: Plan) -> str:
    """Under what the browser keeps the place: alike for one pattern made again."""
    named = "\n".join([plan.pattern.title, plan.pattern.by, *(piece.name for piece in plan.pieces)])
    return hashlib.sha256(named.encode("utf-8", "replace")).hexdigest()[:16]


def _plain(text: str) -> str:
    """Words for HTML: escaped, without what no HTML may hold."""
    return escape(re.sub("[\ufdd0-\ufdef]", "\N{REPLACEMENT CHARACTER}", lettering.printable(text)))


def _name(text: str) -> str:
    """A maker's word, whichever way it is written."""
    return f"<bdi>{_plain(text)}</bdi>"


def _tokens(pattern: Pattern) -> str:
    """The colours of the page and of the yarns as CSS variables; all that the pictures are painted with."""
    dark = _theme(style.DARK)
    yarns = [style.PLAIN_STRIPE, *(one.colour for one in pattern.yarns)]
    painted = "".join(f"--y{n}:{colour};--i{n}:{style.ink_on(colour)};" for n, colour in enumerate(yarns))
    chips = "".join(f".c{n}{{background:var(--y{n});color:var(--i{n})}}" for n in range(len(yarns)))
    return (
        f"\n:root{{{painted}{_theme(style.LIGHT)}}}\n"
        f"@media screen and (prefers-color-scheme:dark){{:root:not(:has(#page-light:checked)){{{dark}}}}}\n"
        f"@media screen{{:root:has(#page-dark:checked){{{dark}}}}}\n{chips}\n"
    )


def _theme(theme: Theme) -> str:
    colours = {name: getattr(theme, name) for name in ("paper", "ink", "soft", "hair", "accent")}
    raised = style.mixed(theme.paper, theme.hair, 0.86)
    scheme = "dark" if theme is style.DARK else "light"
    told = "".join(f"--{name}:{colour};" for name, colour in colours.items())
    veils = "--worked:.4;--coming:.6" if theme is style.DARK else "--worked:.5;--coming:.72"
    return f"{told}--raised:{raised};{veils};color-scheme:{scheme}"


def _in_both(made: Iterable[tuple[Terms, str]]) -> str:
    """HTML in US and UK terms, of which one is seen."""
    return "".join(
        f'<span class="{term.lower()}" lang="{terms.LANGUAGE[term]}">{text}</span>' for term, text in made
    )


# --------------------------------------------------------------------------------------------------- top of the page


def _top(pattern: Pattern) -> str:
    said = [f"by {_name(pattern.by)}"] if pattern.by else []
    said += [_name(pattern.note)] if pattern.note else []
    about = f'<p class="quiet">{"  ·  ".join(said)}</p>' if said else ""
    stitches = [(f"terms-{term.lower()}", term, term == pattern.terms) for term in TERMS]
    light = [("page-device", "As the device", True), ("page-light", "Light", False), ("page-dark", "Dark", False)]
    return "\n".join(
        [
            f'<header class="top">\n<div><p class="kicker">Beside the work</p>\n<h1>{_name(pattern.title)}</h1>',
            f'{about}</div>\n<div class="switches">',
            _switch("Terms", "terms", stitches),
            _switch("Page", "page", light),
            "</div>\n</header>",
        ]
    )


def _switch(legend: str, name: str, choices: Sequence[tuple[str, str, bool]]) -> str:
    made = "".join(
        f'<input type="radio" name="{name}" id="{anchor}"{" checked" if chosen else ""}>'
        f'<label for="{anchor}">{said}</label>'
        for anchor, said, chosen in choices
    )
    return f'<fieldset class="switch"><legend>{legend}</legend>{made}</fieldset>'


def _pieces_nav(plan: Plan) -> str:
    links = "".join(
        f'<li><a href="#piece-{number}">{_name(piece.name)}</a></li>' for number, piece in enumerate(plan.pieces, 1)
    )
    return f'<nav class="pieces" aria-label="Pieces"><ul>{links}<li><a href="#colours">colours</a></li></ul></nav>'


# ------------------------------------------------------------------------------------------------------- the pieces


def _piece(plan: Plan, shown: Shown, chart: str) -> str:
    number, piece, first = shown.number, shown.piece, shown.piece.rows[0]
    lengths = Lengths(plan, piece)
    rows = "\n".join(_row(plan, shown, row, lengths) for row in piece.rows)
    label = f"Chart of {_plain(piece.name)}"
    return "\n".join(
        [
            f'<section class="piece" id="{shown.anchor}" aria-labelledby="name-{number}">',
            f'<div class="head"><h2 id="name-{number}">{_name(piece.name)}</h2>',
            '<button type="button" class="closer" aria-pressed="false" hidden>Closer</button></div>',
            '<div class="bench">\n<div class="chart">',
            f'<div class="frame" tabindex="0" role="group" aria-label="{label}"><div class="sheet" role="img" '
            f'aria-label="{_plain(telling.of_chart(plan, shown.own))}">{chart}</div></div>',
            '</div>\n<div class="reading">',
            '<div class="card" aria-live="polite" aria-atomic="true">',
            f'<h3 class="row">{_label(first)}</h3>{_told(plan, shown, first)}',
            f'<p class="rest"><span class="done">{_left(len(piece.rows))}</span></p>\n</div>',
            '<div class="turn" hidden><button type="button" class="back">Back</button>'
            '<button type="button" class="next">Next row</button></div>',
            _left_table(plan, piece, lengths),
            f'<p class="quiet about">{_plain(summary(piece))}  ·  chain {piece.foundation_chain}</p>',
            '<p class="quiet hint" hidden>Arrow keys, space and swipes turn the rows.</p>',
            "</div>\n</div>",
            f'<details class="ledger" open><summary>All rows of {_name(piece.name)}</summary>\n<ol>\n{rows}\n</ol>'
            "</details>\n</section>",
        ]
    )


def _label(row: Row) -> str:
    section = "" if row.section == "body" else f" <small>{_plain(row.section)}</small>"
    return f"Row {row.number}{section}"


def _row(plan: Plan, shown: Shown, row: Row, lengths: Lengths) -> str:
    """One row in the list, with what the script needs to know of it."""
    own = shown.own.rows[row.index]
    known = f' data-long="{lengths.fine[row.index]}"' if lengths.of(row) else ""
    return (
        f'<li id="{shown.address(row)}" data-chart="{beside_pictures.row_name(shown.number, row)}" '
        f'data-yarn="{_number(plan.pattern, row)}" data-from="{own.starts}"{known}>'
        f'<a class="row" href="#{shown.address(row)}">{_label(row)}</a>{_told(plan, shown, row)}</li>'
    )


def _told(plan: Plan, shown: Shown, row: Row) -> str:
    """What there is to know of a row: yarn, side and direction, words, count."""
    own = shown.own.rows[row.index]
    side = "Right" if row.number % 2 else "Wrong"
    arrow = "\N{LEFTWARDS ARROW}" if own.starts == "right" else "\N{RIGHTWARDS ARROW}"
    said = [(term, _words(shown.piece, row, term)) for term in TERMS]
    after = said[0][1].after
    clusters = f"{row.clusters} {'cluster' if row.clusters == 1 else 'clusters'}"
    chain = f'<p class="chain">Begin with a chain of {shown.piece.foundation_chain}.</p>' if row.under is None else ""
    return (
        f"{_chip(plan.pattern, row)}"
        f'<p class="side">{side} side '
        f'<span class="way">from the {own.starts} <i aria-hidden="true">{arrow}</i></span></p>'
        f'<div class="how">{chain}<p class="words">{_in_both((term, _isolated(plan, one.steps)) for term, one in said)}'
        f'</p><p class="count"><b>{clusters}</b> {_in_both((term, _plain(one.counts)) for term, one in said)}</p>'
        + (f'<p class="after">{_in_both((t, _plain(one.after)) for t, one in said)}</p></div>' if after else "</div>")
    )


def _isolated(plan: Plan, text: str) -> str:
    """Words for HTML in which names of yarns that are written from right to left stay in their place."""
    names = [_plain(one.name) for one in plan.pattern.yarns if any(bidirectional(c) in ("R", "AL") for c in one.name)]
    if not names:
        return _plain(text)
    longest_first = "|".join(map(re.escape, sorted(names, key=len, reverse=True)))
    return re.sub(longest_first, r"<bdi>\g<0></bdi>", _plain(text))


@dataclass(frozen=True, slots=True)
class Said:
    """A row in words, cut in three: the ``steps``, the stitches that ``counts`` them, and what comes ``after``."""

    steps: str
    counts: str
    after: str


def _words(piece: PiecePlan, row: Row, term: Terms) -> Said:
    """The row in words without its heading: that is told by the page."""
    text = words.row_words(piece, row, term)
    named = f"{row.colour}): " if row.colour and f"{row.colour}): " in text else "): "
    text = text.partition(named)[2] or text
    # nothing after the count is in a maker's words, so its last place is the count's
    steps, found, rest = text.rpartition(f" {row.clusters} cl (")
    if not found:
        return Said(text, "", "")
    counts, _, after = rest.partition(").")
    return Said(steps, counts, after.strip())


def _chip(pattern: Pattern, row: Row) -> str:
    number = _number(pattern, row)
    if row.colour is None:
        return ""
    letter = style.letter(number - 1)
    return f'<p class="yarn c{number}"><b class="letter">{letter}</b> {_name(row.colour)}</p>'


def _number(pattern: Pattern, row: Row) -> int:
    """The number of the row's yarn, from 1; 0 where the pattern names none."""
    return next((n for n, one in enumerate(pattern.yarns, 1) if one.name == row.colour), 0)


def _left(rows: int) -> str:
    return "The last row" if rows == 1 else f"{rows} rows left with this one"


# ------------------------------------------------------------------------------------------------- what is left


class Lengths:
    """How much yarn each row of one such piece takes, fabric alone; ``fine`` in thousandths of the yarn's unit.

    Each is the difference of two rounded sums, so that any rows of a yarn, up to its last, add up to what they take
    within a thousandth.
    """

    def __init__(self, plan: Plan, piece: PiecePlan) -> None:
        self._yarns = {one.name: one for one in plan.pattern.yarns}
        self._likely = yarn.density(plan.pattern).likely
        self._inches = plan.pattern.units == "in"
        self.fine = [0] * len(piece.rows)
        for name in {row.colour for row in piece.rows}:
            rows = [row for row in piece.rows if row.colour == name]
            sums = accumulate((self._long(piece, row) for row in rows), initial=Fraction(0))
            rounded = [round(FINE * total) for total in sums]
            for row, before, upto in zip(rows, rounded, rounded[1:], strict=False):
                self.fine[row.index] = upto - before

    def unit(self, one: Yarn) -> str:
        """The unit of a yarn's lengths: "m" or "yd", "g" where its metres are not known, "" where nothing is."""
        if self._likely is None:
            return ""
        return ("yd" if self._inches else "m") if one.metres_per_100g else "g"

    def of(self, row: Row) -> str:
        """The unit of a row."""
        return self.unit(self._yarns[row.colour]) if row.colour else ""

    def _long(self, piece: PiecePlan, row: Row) -> Fraction:
        if row.colour is None or self._likely is None:
            return Fraction(0)
        grams = yarn.row_area(piece, row) * self._likely
        one = self._yarns[row.colour]
        if one.metres_per_100g is None:
            return grams
        metres = grams * one.metres_per_100g / 100
        return metres * 100 / yarn.YARD if self._inches else metres


def _left_table(plan: Plan, piece: PiecePlan, lengths: Lengths) -> str:
    """Rows and lengths still to be worked, as they are before row 1."""
    used = [(n, one) for n, one in enumerate(plan.pattern.yarns, 1) if any(r.colour == one.name for r in piece.rows)]
    if not used:
        return ""
    known = any(lengths.unit(one) for _, one in used)
    rows = []
    for number, one in used:
        mine = [row for row in piece.rows if row.colour == one.name]
        total, unit = sum(lengths.fine[row.index] for row in mine), lengths.unit(one)
        long = f'<td class="long" data-unit="{unit}">{ceil(total / FINE)}\u00a0{unit}</td>' if unit else ""
        rows.append(
            f'<tr data-yarn="{number}"><th scope="row"><span class="chip c{number}">{style.letter(number - 1)}</span> '
            f'{_name(one.name)}</th><td class="rows">{len(mine)}</td>{long or ("<td></td>" if known else "")}</tr>'
        )
    column = '<th scope="col">yarn</th>' if known else ""
    note = '<p class="quiet note">Yarn for the fabric alone, without tails and spare.</p>' if known else ""
    make = f" (of one of {piece.count})" if piece.count > 1 else ""
    return (
        f'<table class="left"><caption>From this row on{make}</caption><thead><tr><th scope="col">colour</th>'
        f'<th scope="col">rows</th>{column}</tr></thead><tbody>{"".join(rows)}</tbody></table>{note}'
    )


# ---------------------------------------------------------------------------------------------------------- colours


def _colours(plan: Plan, cloth: str) -> str:
    """The cloth as worn, a colour picker for every yarn, and the lines for the pattern file."""
    told = f"The cloth as worn: {', '.join(piece.name for piece in plan.pieces)}"
    figure = f'<figure class="cloth"><div role="img" aria-label="{_plain(told)}">{cloth}</div></figure>'
    pickers = "".join(_picker(number, one) for number, one in enumerate(plan.pattern.yarns, 1))
    inks = f'data-inks="{style.INK_DARK} {style.INK_LIGHT} {style.INK_FULL}" data-least="{style.LEAST_CONTRAST}"'
    tools = (
        f'<div class="paint" hidden {inks}><ul class="pickers">{pickers}</ul>'
        '<p><button type="button" class="reset">Colours of the pattern</button></p></div>'
        '<div class="file" hidden><label for="lines">Lines for the pattern file, in place of those of its yarns</label>'
        f'<textarea id="lines" readonly spellcheck="false" rows="10">{_text(yarn_lines(plan.pattern))}</textarea>'
        '<p><button type="button" class="copy">Copy the lines</button> <span class="copied" role="status"></span></p>'
        "</div>"
        if pickers
        else ""
    )
    return (
        f'<section class="colours" id="colours" aria-labelledby="colours-name"><h2 id="colours-name">Colours</h2>'
        f'<p class="quiet">Stripes as worn. Try other colours: chart and cloth follow at once.</p>'
        f'<div class="dyeing">{figure}{tools}</div></section>'
    )


def _picker(number: int, one: Yarn) -> str:
    return (
        f'<li><label for="colour-{number}"><span class="chip c{number}">{style.letter(number - 1)}</span> '
        f'{_name(one.name)}</label><output for="colour-{number}">{one.colour}</output>'
        f'<input type="color" id="colour-{number}" value="{one.colour}" autocomplete="off"></li>'
    )


def _text(text: str) -> str:
    """The inside of a textarea, whose first line break HTML would swallow."""
    return "\n" + escape(text)


def yarn_lines(pattern: Pattern) -> str:
    """The yarns as they stand in a pattern file."""
    return "\n".join("\n".join(_yarn_lines(one)) + "\n" for one in pattern.yarns)


def _yarn_lines(one: Yarn) -> Iterator[str]:
    yield "[[yarn]]"
    yield f"name = {_quoted(one.name)}"
    yield f'colour = "{one.colour}"'
    figures = {"stock": one.stock, "metres_per_100g": one.metres_per_100g, "ball": one.ball, "keep": one.keep or None}
    yield from (f"{key} = {_figure(value)}" for key, value in figures.items() if value is not None)


def _quoted(text: str) -> str:
    """A TOML string; whatever does not print is told by its number."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(one if one.isprintable() else f"\\U{ord(one):08x}" for one in escaped) + '"'


def _figure(value: Fraction) -> str:
    """A number that was read from a decimal fraction, as one."""
    if value.denominator == 1:
        return str(value.numerator)
    places = next((n for n in range(1, 40) if 10**n % value.denominator == 0), None)
    if places is None:
        return repr(float(value))
    digits = str(value.numerator * 10**places // value.denominator).zfill(places + 1)
    return f"{digits[:-places]}.{digits[-places:]}"


# ------------------------------------------------------------------------------------------------------- words used


def _abbreviations(plan: Plan) -> str:
    """The abbreviations and the stitches that are not everybody's, in both terms."""
    parts = []
    for term in TERMS:
        listed = "".join(
            f"<div><dt>{_plain(short)}</dt><dd>{_plain(full)}</dd></div>"
            for short, full in words.abbreviations(plan, term)
        )
        told = "".join(f"<p>{_plain(text)}</p>" for text in words.special_stitches(plan, term))
        parts.append(
            f'<div class="{term.lower()}" lang="{terms.LANGUAGE[term]}"><dl>{listed}</dl>\n<div class="special">{told}'
            "</div></div>"
        )
    return (
        '<section class="glossary" aria-labelledby="glossary-name"><h2 id="glossary-name">Words</h2>'
        f"{''.join(parts)}</section>"
    )
