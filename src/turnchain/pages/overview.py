"""index.html: one page that shows everything made of a pattern, in the language of the pattern.

In: a plan. Out: the text of a page that needs no script, no server and nothing from outside its folder. It is given
away with the pattern, so what is meant for the designer (warnings, measures wanted) is in the report and not here.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape
from urllib.parse import quote

from turnchain import file_names, style
from turnchain.drawing.key import credit, summary
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import caution_words
from turnchain.wording import founding
from turnchain.wording.languages.language import Speech
from turnchain.wording.tables import language_of, speech_of
from turnchain.writers import formats

#: How index.html looks.
STYLE = f"""
:root {{ color-scheme: light dark; --paper: {style.LIGHT.paper}; --ink: {style.LIGHT.ink}; --soft: {style.LIGHT.soft};
  --hair: {style.LIGHT.hair}; --accent: {style.LIGHT.accent}; }}
@media screen and (prefers-color-scheme: dark) {{ :root {{ --paper: {style.DARK.paper}; --ink: {style.DARK.ink};
  --soft: {style.DARK.soft}; --hair: {style.DARK.hair}; --accent: {style.DARK.accent}; }} }}
body {{ margin: 0 auto; max-width: 62rem; padding: 2rem 1.25rem 4rem; background: var(--paper);
  color: var(--ink); font: 1.06rem/1.5 Lato, "Source Sans 3", "Segoe UI", Roboto, sans-serif; }}
h1 {{ font-size: 2.1rem; line-height: 1.15; margin: 0 0 .3rem; }}
h2 {{ margin: 3rem 0 .2rem; font-size: 1.5rem; }}
p.quiet {{ color: var(--soft); margin: .1rem 0 1rem; }}
nav a {{ margin-right: 1rem; }}
a {{ color: var(--accent); }}
figure {{ margin: 0 0 1.5rem; }}
figcaption {{ font-size: .95rem; }}
figcaption a {{ margin-right: .8rem; }}
.details {{ display: grid; grid-template-columns: repeat(auto-fill, minmax(17rem, 1fr)); gap: 1rem; }}
img {{ display: block; width: 100%; height: auto; border: 1px solid var(--hair); }}
table {{ border-collapse: collapse; margin: 1rem 0; }}
th, td {{ text-align: right; padding: .2rem .9rem; border-bottom: 1px solid var(--hair); }}
th:first-child, td:first-child {{ text-align: left; padding-left: 0; }}
footer {{ margin-top: 3rem; color: var(--soft); }}
@media print {{
  body {{ max-width: none; padding: 0; font-size: 10.5pt; }}
  nav, figcaption {{ display: none; }}
  figure, table, .details > * {{ break-inside: avoid; }}
  h2, h3, p.quiet {{ break-after: avoid; }}
  section + section {{ break-before: page; }}
  img {{ width: auto; max-width: 100%; max-height: 23cm; margin: 0 auto; border: 0; }}
  section figure:first-of-type img {{ max-height: 18cm; }}
  .details {{ grid-template-columns: 1fr 1fr; }}
}}
"""


def overview(plan: Plan, pictures: Sequence[tuple[str, str]]) -> str:
    """The whole page as HTML, ending in a line break. ``pictures`` are the names of the files made (without their
    endings) and their alt texts, in the order in which they are shown; those that are not of one piece stand before the
    pieces."""
    pattern = plan.pattern
    speech = speech_of(pattern)
    parts = [
        *opened(language_of(pattern).tag, pattern.title),
        f"<header>\n<h1>{escape(pattern.title)}</h1>",
        f'<nav aria-label="{escape(speech.say("beside.pieces"))}">{links(plan)} '
        f'<a href="{file_names.BESIDE}">{escape(speech.say("beside.kicker"))}</a> '
        f'<a href="{file_names.PATTERN}">{file_names.PATTERN}</a> '
        f'<a href="{file_names.PLAN}">{file_names.PLAN}</a></nav>\n</header>\n<main>',
        f"<p>{escape(pattern.note)}</p>" if pattern.note else "",
        *shown(plan, pictures),
        f"</main>\n<footer>{escape(credit(pattern))}</footer>\n</body>\n</html>\n",
    ]
    return "\n".join(part for part in parts if part)


def links(plan: Plan, before: str = "") -> str:
    """Links to the pieces, whose ids have ``before`` before them."""
    return " ".join(
        f'<a href="#{before}piece-{number}">{escape(piece.name)}</a>' for number, piece in enumerate(plan.pieces, 1)
    )


def shown(plan: Plan, pictures: Sequence[tuple[str, str]], folder: str = "", before: str = "") -> Iterator[str]:
    """The pictures of a plan, which lie in ``folder`` ("" or a name with a slash), with the measures of its pieces; and
    cautions. Every id has ``before`` before it."""
    own = {name: alt for name, alt in pictures if not any(file_names.kind(name, piece.name) for piece in plan.pieces)}
    yield from (file_picture(name, alt, folder) for name, alt in own.items())
    for number, piece in enumerate(plan.pieces, 1):
        yield _piece(plan, piece, f"{before}piece-{number}", pictures, folder)
    yield _cautions(plan, before)


def opened(tag: str, title: str, script: str = "", style: str = "") -> list[str]:
    """A page of this ``title`` up to its body; ``tag`` is that of its language. ``script``: the hash of the one that
    may run; ``style``: added to its style sheet."""
    allowed = f"; script-src '{script}'" if script else ""
    return [
        f'<!DOCTYPE html>\n<html lang="{tag}">\n<head>\n<meta charset="utf-8">',
        '<meta http-equiv="Content-Security-Policy" content="default-src \'none\'; img-src \'self\' file:; '
        f"style-src 'unsafe-inline'{allowed}\">",
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        f"<title>{escape(title)}</title>\n<style>{STYLE}{style}</style>\n</head>\n<body>",
    ]


def _cautions(plan: Plan, before: str) -> str:
    told = "".join(f"<li>{escape(line[:1].upper() + line[1:])}.</li>" for line in caution_words.for_customer(plan))
    heading = escape(speech_of(plan.pattern).say("page.cautions"))
    return f'<section id="{before}cautions">\n<h2>{heading}</h2>\n<ul>{told}</ul>\n</section>'


def file_picture(name: str, alt: str, folder: str = "") -> str:
    """A picture with links to its files, which lie in ``folder``."""
    file = escape(quote(f"{folder}{name}"))
    shown = escape(name)
    endings = (*(form.ending for form in formats.MADE), file_names.ALT_TEXT)
    links = " ".join(f'<a href="{file}{ending}">{shown}{ending}</a>' for ending in endings)
    return (
        f'<figure><a href="{file}{endings[0]}"><img src="{file}{formats.SHOWN.ending}" alt="{escape(alt)}" '
        f'loading="lazy"></a>\n<figcaption>{links}</figcaption></figure>'
    )


def _piece(plan: Plan, piece: PiecePlan, anchor: str, pictures: Sequence[tuple[str, str]], folder: str) -> str:
    speech = speech_of(plan.pattern)
    mine = [(file_names.kind(name, piece.name), file_picture(name, alt, folder)) for name, alt in pictures]
    charts = [picture for kind, picture in mine if kind in ("chart", "short chart")]
    details = [picture for kind, picture in mine if kind == "close-up"]
    chain = founding.said(speech, "beside.chain", piece)
    return "\n".join(
        [
            f'<section id="{anchor}">\n<h2>{escape(piece.name)}</h2>',
            f'<p class="quiet">{escape(summary(plan.pattern, piece))}  ·  {escape(chain)}</p>',
            _measures(speech, plan, piece),
            *charts,
            *_close_ups(speech, details),
            "</section>",
        ]
    )


def _close_ups(speech: Speech, details: Sequence[str]) -> list[str]:
    if not details:
        return []
    return [f"<h3>{escape(speech.say('page.edges'))}</h3>", '<div class="details">', *details, "</div>"]


def _measures(speech: Speech, plan: Plan, piece: PiecePlan) -> str:
    """Every worked measure, as exactly as a tape is read."""
    rows = "".join(
        f'<tr><th scope="row">{escape(speech.measure(fit.measure))}</th>'
        f"<td>{speech.taped(fit.worked, plan.pattern.units)}</td></tr>"
        for fit in piece.fit
    )
    return f"<table>{rows}</table>"
