"""The whole page beside the work.

In: a plan and a look. Out: HTML: head, switches, pieces, colours, abbreviations, cautions.
"""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Sequence
from functools import cache

from turnchain import packaged
from turnchain.drawing.key import credit
from turnchain.drawing.looks import Look, for_hand
from turnchain.fabric.plan import Plan
from turnchain.garment import caution_words
from turnchain.pages.beside import colours, pictures, pieces
from turnchain.pages.beside.markup import TERMS, languages_of, plain, set_apart
from turnchain.pattern import Pattern
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


def page(plan: Plan, look: Look | None = None) -> str:
    """The whole page as HTML, ending in a line break; charts and directions are for a maker of the look's hand, the
    right one where ``look`` is None."""
    look = look or Look()
    own_hand = tuple(for_hand(piece, look.hand) for piece in plan.pieces)
    speech = speech_of(plan.pattern)
    drawn = pictures.drawn(plan, own_hand, look)
    script = _file("beside.js")
    parts = [
        *_head(plan, script),
        f'<a class="skip" href="#work">{plain(speech.say("beside.skip"))}</a>',
        _top(plan.pattern),
        f'<p class="notice unkept" role="status" hidden>{plain(speech.say("beside.unkept"))}</p>',
        _pieces_nav(plan),
        drawn.shared,
        '<main id="work" tabindex="-1">',
        *(
            pieces.chapter(plan, pieces.Shown(number, piece, own), drawn.charts[number - 1])
            for number, (piece, own) in enumerate(zip(plan.pieces, own_hand, strict=True), 1)
        ),
        colours.chapter(plan, drawn.cloth),
        _abbreviations(plan),
        _cautions(plan),
        f"</main>\n<footer><bdi>{plain(credit(plan.pattern))}</bdi></footer>",
        f"<script>{script}</script>\n</body>\n</html>\n",
    ]
    return "\n".join(part for part in parts if part)


def _head(plan: Plan, script: str) -> tuple[str, ...]:
    """Everything up to the body; the policy allows our own style and ``script``, and nothing else."""
    pattern = plan.pattern
    title = speech_of(pattern).say("beside.title", title=pattern.title)
    styles = colours.variables(pattern) + _file("beside.css")
    policy = f"default-src 'none'; img-src data:; style-src '{_hash(styles)}'; script-src '{_hash(script)}'; "
    return (
        f'<!DOCTYPE html>\n<html lang="{language_of(pattern).tag}">\n<head>\n<meta charset="utf-8">',
        f'<meta http-equiv="Content-Security-Policy" content="{policy}base-uri \'none\'; form-action \'none\'">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        '<meta name="color-scheme" content="light dark">\n<meta name="referrer" content="no-referrer">',
        f'<title>{plain(title)}</title>\n<link rel="icon" href="{_ICON}">',
        f"<style>{styles}</style>\n</head>",
        f'<body data-key="{_key(plan)}" data-before="{_older_key(plan)}"{_scripted(pattern)}>',
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


def _hash(text: str) -> str:
    return "sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()


def _key(plan: Plan) -> str:
    """Under what the browser keeps the place: the same for one pattern made again, even if its pieces are renamed."""
    return _digest(plan.pattern.title, plan.pattern.by)


def _older_key(plan: Plan) -> str:
    """Under what earlier pages kept the place; it changed with the names of the pieces."""
    return _digest(plan.pattern.title, plan.pattern.by, *(piece.name for piece in plan.pieces))


def _digest(*names: str) -> str:
    return hashlib.sha256("\n".join(names).encode("utf-8", "replace")).hexdigest()[:16]


def _top(pattern: Pattern) -> str:
    speech = speech_of(pattern)
    by = plain(speech.say("credit.by", name="%BY%")).replace("%BY%", set_apart(pattern.by))
    said = [by] if pattern.by else []
    said += [set_apart(pattern.note)] if pattern.note else []
    about = f'<p class="quiet">{"  ·  ".join(said)}</p>' if said else ""
    english = languages_of(pattern) == TERMS
    seen = pattern.language or pattern.terms
    stitches = [(f"terms-{term.lower()}", term, term == seen) for term in TERMS]
    lights = ("device", "light", "dark")
    light = [(f"page-{key}", plain(speech.say(f"beside.{key}")), key == "device") for key in lights]
    kicker = plain(speech.say("beside.kicker"))
    return "\n".join(
        [
            f'<header class="top">\n<div><p class="kicker">{kicker}</p>\n<h1>{set_apart(pattern.title)}</h1>',
            f'{about}</div>\n<div class="switches">',
            *([_switch(plain(speech.say("beside.terms")), "terms", stitches)] if english else []),
            _switch(plain(speech.say("beside.page")), "page", light),
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
        f'<li><a href="#piece-{number}">{set_apart(piece.name)}</a></li>' for number, piece in enumerate(plan.pieces, 1)
    )
    speech = speech_of(plan.pattern)
    colours_name = plain(speech.say("beside.colours.tab"))
    return (
        f'<nav class="pieces" aria-label="{plain(speech.say("beside.pieces"))}"><ul>{links}'
        f'<li><a href="#colours">{colours_name}</a></li></ul></nav>'
    )


def _abbreviations(plan: Plan) -> str:
    """The abbreviations and the special stitches, in every language of the page."""
    parts, heading = [], plain(speech_of(plan.pattern).say("beside.words"))
    for term in languages_of(plan.pattern):
        listed = "".join(
            f"<div><dt>{plain(short)}</dt><dd>{plain(full)}</dd></div>"
            for short, full in words.abbreviations(plan, term)
        )
        told = "".join(f"<p>{plain(text)}</p>" for text in words.special_stitches(plan, term))
        parts.append(
            f'<div class="{term.lower()}" lang="{LANGUAGES[term].tag}"><dl>{listed}</dl>\n<div class="special">{told}'
            "</div></div>"
        )
    return (
        f'<section class="glossary" aria-labelledby="glossary-name"><h2 id="glossary-name">{heading}</h2>'
        f"{''.join(parts)}</section>"
    )


def _cautions(plan: Plan) -> str:
    """The cautions as the last chapter of the page."""
    heading = plain(speech_of(plan.pattern).say("page.cautions"))
    told = "".join(f"<li>{plain(line[:1].upper() + line[1:])}.</li>" for line in caution_words.for_customer(plan))
    return (
        '<section class="glossary" id="cautions" aria-labelledby="cautions-name">'
        f'<h2 id="cautions-name">{heading}</h2>'
        f"<ul>{told}</ul></section>"
    )
