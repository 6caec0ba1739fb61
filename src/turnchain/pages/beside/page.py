"""The whole page beside the work.

In: a plan, or the plans of all sizes, and a look. Out: HTML: head, switches, pieces, colours, abbreviations, cautions.
Of several sizes each has a part of its own, and what all have in common stands once; a switch at the top chooses the
size, by the style sheet alone, so that it needs no script.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cache

from turnchain import packaged
from turnchain.drawing.key import credit
from turnchain.drawing.looks import Look, for_hand
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import caution_words
from turnchain.pages.beside import colours, edgings, pictures, pieces
from turnchain.pages.beside.markup import TERMS, languages_of, plain, set_apart
from turnchain.pages.choosing import OfSize, digest, hash_of, of_sizes, page_key, size_anchor, style_of, switch
from turnchain.pattern import Pattern
from turnchain.records import frozen
from turnchain.wording import words
from turnchain.wording.tables import LANGUAGES, language_of, speech_of

_ICON = (
    "data:image/svg+xml,%3Csvg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 16 16'%3E%3Cpath d='M8 14 3 3m5 11V3"
    "m0 11 5-11M1 3h4m1 0h4m1 0h4' fill='none' stroke='%23b02a37' stroke-width='1.5'/%3E%3C/svg%3E"
).replace(" ", "%20")


#: The sentences that the script of the page fills, by their names there.
_SCRIPTED = {
    "comeGone": "come_gone", "come": "come", "ofAnother": "of_another", "otherTab": "other_tab", "go": "go",
    "lastRow": "last_row", "rowsLeft": "rows_left", "row": "row.within",
}  # fmt: skip


@frozen
class _Told:
    """The ``plan`` of one size with its ``pictures``, in its ``part`` of the page."""

    plan: Plan
    part: OfSize
    own_hand: tuple[PiecePlan, ...]
    pictures: pictures.Drawn

    def within(self, html: str) -> str:
        """``html`` that is seen while this size is chosen."""
        return f'<div class="{of_sizes([self.part.anchor])}">{html}</div>' if self.part.anchor else html


def page(plan: Plan, look: Look | None = None) -> str:
    """The whole page as HTML, ending in a line break; charts and directions are for a maker of the look's hand, the
    right one where ``look`` is None."""
    return _page([(plan, OfSize())], plan.pattern.title, look or Look())


def page_of_sizes(plans: Sequence[Plan], look: Look | None = None) -> str:
    """One page of all sizes of a pattern, ``plans`` in their order (one alone: as ``page``): its reader chooses one at
    the top, and each keeps its own place. All else as in ``page``."""
    if len(plans) == 1:
        return page(plans[0], look)
    parts = [(plan, OfSize(size_anchor(plan.pattern.size))) for plan in plans]
    return _page(parts, plans[0].pattern.common_title, look or Look())


def _page(sizes: Sequence[tuple[Plan, OfSize]], title: str, look: Look) -> str:
    to_draw = [
        pictures.ToDraw(plan, tuple(for_hand(piece, look.hand) for piece in plan.pieces), part.ids)
        for plan, part in sizes
    ]
    shared, drawn = pictures.drawn(to_draw, look)
    told = [
        _Told(plan, part, one.pieces, made) for (plan, part), one, made in zip(sizes, to_draw, drawn, strict=True)
    ]
    pattern, script = told[0].plan.pattern, _file("beside.js")
    speech = speech_of(pattern)
    parts = [
        *_head(told, title, script),
        f'<a class="skip" href="#work">{plain(speech.say("beside.skip"))}</a>',
        _top(told, title),
        f'<p class="notice unkept" role="status" hidden>{plain(speech.say("beside.unkept"))}</p>',
        *(_pieces_nav(one) for one in told),
        shared,
        '<main id="work" tabindex="-1">',
        *(_chapters(one) for one in told),
        colours.chapter(pattern, "".join(one.within(colours.figure(one.plan, one.pictures.cloth)) for one in told)),
        _abbreviations(told),
        _cautions(told),
        f"</main>\n<footer><bdi>{plain(credit(pattern))}</bdi></footer>",
        f"<script>{script}</script>\n</body>\n</html>\n",
    ]
    return "\n".join(part for part in parts if part)


def _chapters(one: _Told) -> str:
    """The chapters of all pieces of one size; those of several sizes in a block with what its places are kept under."""
    made = "\n".join(
        pieces.chapter(one.plan, pieces.Shown(number, piece, own, one.part), one.pictures.charts[number - 1])
        for number, (piece, own) in enumerate(zip(one.plan.pieces, one.own_hand, strict=True), 1)
    )
    pattern = one.plan.pattern
    made += edgings.chapter(one.plan, one.part, page_key(pattern.title, pattern))
    if not one.part.anchor:
        return made
    anchor = one.part.anchor
    kept = f'data-size="{anchor}" data-key="{page_key(pattern.title, pattern)}"'
    return f'<div class="size {of_sizes([anchor])}" {kept}>{made}</div>'


def _head(told: Sequence[_Told], title: str, script: str) -> tuple[str, ...]:
    """Everything up to the body; the policy allows our own style and ``script``, and nothing else."""
    plan = told[0].plan
    pattern = plan.pattern
    anchors = [one.part.anchor for one in told if one.part.anchor]
    styles = colours.variables(pattern) + _file("beside.css") + style_of(anchors)
    policy = f"default-src 'none'; img-src data:; style-src '{hash_of(styles)}'; script-src '{hash_of(script)}'; "
    older = "" if anchors else f' data-before="{_older_key(plan)}"'
    return (
        f'<!DOCTYPE html>\n<html lang="{language_of(pattern).tag}">\n<head>\n<meta charset="utf-8">',
        f'<meta http-equiv="Content-Security-Policy" content="{policy}base-uri \'none\'; form-action \'none\'">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        '<meta name="color-scheme" content="light dark">\n<meta name="referrer" content="no-referrer">',
        f"<title>{plain(speech_of(pattern).say('beside.title', title=title))}</title>",
        f'<link rel="icon" href="{_ICON}">',
        f"<style>{styles}</style>\n</head>",
        f'<body data-key="{page_key(title, pattern)}"{older}{_scripted(pattern)}>',
    )


def _scripted(pattern: Pattern) -> str:
    """The sentences of the script in the language of the page, as data of the body."""
    phrases = language_of(pattern).phrases
    return "".join(
        f' data-{re.sub("[A-Z]", lambda capital: "-" + capital[0].lower(), name)}="{plain(phrases[f"beside.{key}"])}"'
        for name, key in _SCRIPTED.items()
    )


@cache
def _file(name: str) -> str:
    return packaged.file("pages", "beside", name).read_text("utf-8")


def _older_key(plan: Plan) -> str:
    """Under what earlier pages kept the place; it changed with the names of the pieces."""
    return digest(plan.pattern.title, plan.pattern.by, *(piece.name for piece in plan.pieces))


def _top(told: Sequence[_Told], title: str) -> str:
    pattern = told[0].plan.pattern
    speech = speech_of(pattern)
    by = plain(speech.say("credit.by", name="%BY%")).replace("%BY%", set_apart(pattern.by))
    said = [by] if pattern.by else []
    said += [set_apart(pattern.note)] if pattern.note else []
    about = f'<p class="quiet">{"  ·  ".join(said)}</p>' if said else ""
    kicker = plain(speech.say("beside.kicker"))
    return "\n".join(
        [
            f'<header class="top">\n<div><p class="kicker">{kicker}</p>\n<h1>{set_apart(title)}</h1>',
            f'{about}</div>\n<div class="switches">',
            *_switches(told),
            "</div>\n</header>",
        ]
    )


def _switches(told: Sequence[_Told]) -> Iterator[str]:
    """The size, where there are several; the terms, where they are English; the light."""
    pattern = told[0].plan.pattern
    speech, seen = speech_of(pattern), pattern.language or pattern.terms
    if told[0].part.anchor:
        sizes = [(one.part.anchor, set_apart(one.plan.pattern.size), one is told[0]) for one in told]
        yield switch(plain(speech.say("beside.size")), "size", sizes, "switch sizes")
    if languages_of(pattern) == TERMS:
        stitches = [(f"terms-{term.lower()}", term, term == seen) for term in TERMS]
        yield switch(plain(speech.say("beside.terms")), "terms", stitches)
    lights = ("device", "light", "dark")
    light = [(f"page-{key}", plain(speech.say(f"beside.{key}")), key == "device") for key in lights]
    yield switch(plain(speech.say("beside.page")), "page", light)


def _pieces_nav(one: _Told) -> str:
    links = "".join(
        f'<li><a href="#{one.part.above}piece-{number}">{set_apart(piece.name)}</a></li>'
        for number, piece in enumerate(one.plan.pieces, 1)
    )
    speech = speech_of(one.plan.pattern)
    if one.plan.pattern.edgings:
        links += f'<li><a href="#{one.part.above}edgings">{plain(speech.say("beside.edgings"))}</a></li>'
    colours_name = plain(speech.say("beside.colours.tab"))
    anchor = one.part.anchor
    classes, whose = (f"pieces {of_sizes([anchor])}", f' data-size="{anchor}"') if anchor else ("pieces", "")
    return (
        f'<nav class="{classes}" aria-label="{plain(speech.say("beside.pieces"))}"{whose}><ul>{links}'
        f'<li><a href="#colours">{colours_name}</a></li></ul></nav>'
    )


def _in_sizes(
    told: Sequence[_Told], entries: Callable[[Plan], Iterable[str]], html: Callable[[str, str], str]
) -> str:
    """Every entry of the ``entries`` of all sizes once, as ``html`` makes it with its class: what only some sizes have
    is seen while one of them is chosen."""
    found: dict[str, list[str]] = {}
    for one in told:
        for entry in dict.fromkeys(entries(one.plan)):
            found.setdefault(entry, []).append(one.part.anchor)
    return "".join(
        html(entry, "" if len(anchors) == len(told) else f' class="{of_sizes(anchors)}"')
        for entry, anchors in found.items()
    )


def _abbreviations(told: Sequence[_Told]) -> str:
    """The abbreviations and the special stitches, in every language of the page."""
    pattern = told[0].plan.pattern
    parts, heading = [], plain(speech_of(pattern).say("beside.words"))
    for term in languages_of(pattern):

        used = {id(one.plan): words.used(one.plan, term) for one in told}

        def listed(plan: Plan, used: dict[int, words.Used] = used) -> Iterator[str]:
            for short, full in used[id(plan)].abbreviations:
                yield f"<dt>{plain(short)}</dt><dd>{plain(full)}</dd>"

        def special(plan: Plan, used: dict[int, words.Used] = used) -> Iterator[str]:
            yield from map(plain, used[id(plan)].special_stitches)

        abbreviations = _in_sizes(told, listed, lambda entry, kind: f"<div{kind}>{entry}</div>")
        paragraphs = _in_sizes(told, special, lambda entry, kind: f"<p{kind}>{entry}</p>")
        parts.append(
            f'<div class="{term.lower()}" lang="{LANGUAGES[term].tag}"><dl>{abbreviations}</dl>\n'
            f'<div class="special">{paragraphs}</div></div>'
        )
    return (
        f'<section class="glossary" aria-labelledby="glossary-name"><h2 id="glossary-name">{heading}</h2>'
        f"{''.join(parts)}</section>"
    )


def _cautions(told: Sequence[_Told]) -> str:
    """The cautions as the last chapter of the page."""
    heading = plain(speech_of(told[0].plan.pattern).say("page.cautions"))

    def lines(plan: Plan) -> Iterator[str]:
        for line in caution_words.for_customer(plan):
            yield f"{plain(line[:1].upper() + line[1:])}."

    return (
        '<section class="glossary" id="cautions" aria-labelledby="cautions-name">'
        f'<h2 id="cautions-name">{heading}</h2>'
        f"<ul>{_in_sizes(told, lines, lambda entry, kind: f'<li{kind}>{entry}</li>')}</ul></section>"
    )
