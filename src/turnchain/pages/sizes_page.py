"""index.html of a pattern in several sizes: what each measures, and every picture of the size that is chosen.

In: the plans of all sizes, with their pictures. Out: the text of a page, as ``overview`` makes it for one size.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from html import escape
from urllib.parse import quote

from turnchain import file_names, packaged
from turnchain.drawing import nested
from turnchain.drawing.key import credit
from turnchain.fabric.plan import Plan
from turnchain.pages.choosing import hash_of, of_sizes, page_key, size_anchor, style_of, switch
from turnchain.pages.overview import file_picture, links, opened, shown
from turnchain.wording.all_sizes import how_to_read, side_by_side
from turnchain.wording.merging import DASH
from turnchain.wording.tables import language_of, speech_of

#: What the page has beside the style of ``overview``.
STYLE = """
.switch { display: flex; flex-wrap: wrap; border: 0; padding: 0; margin: .8rem 0; }
.switch legend { float: left; padding: 0 .8rem 0 0; line-height: 44px; }
.switch input { position: absolute; opacity: 0; width: 44px; height: 44px; margin: 0; }
.switch label { min-width: 46px; line-height: 42px; padding: 0 .6rem; text-align: center; cursor: pointer;
  border: 1px solid var(--soft); margin: 0 -1px -1px 0; box-sizing: border-box; }
.switch input:checked + label { background: var(--ink); color: var(--paper); }
.switch input:focus-visible + label { outline: 3px solid var(--accent); outline-offset: 2px; }
.wide { overflow-x: auto; }
@media print { .switch { display: none; } }
"""


def page(plans: Sequence[Plan], pictures: Sequence[Sequence[tuple[str, str]]]) -> str:
    """The whole page as HTML in the language of the pattern, ending in a line break; ``plans`` are of the sizes of one
    pattern, in their order, ``pictures`` of each as ``overview`` takes them, in the folder of its size."""
    pattern, script = plans[0].pattern, _script()
    speech, title = speech_of(pattern), pattern.common_title
    anchors = [size_anchor(plan.pattern.size) for plan in plans]
    sizes = [(size_anchor(plan.pattern.size), escape(plan.pattern.size), plan is plans[0]) for plan in plans]
    head = opened(language_of(pattern).tag, title, hash_of(script), STYLE + style_of(anchors))
    parts = [
        *head[:-1],
        head[-1].replace("<body>", f'<body data-key="{page_key(title, pattern)}">'),
        f"<header>\n<h1>{escape(title)}</h1>",
        switch(escape(speech.say("beside.size")), "size", sizes),
        *(_nav(plan, anchor) for plan, anchor in zip(plans, anchors, strict=True)),
        "</header>\n<main>",
        f"<p>{escape(pattern.note)}</p>" if pattern.note else "",
        f"<p>{escape(how_to_read(plans, language_of(pattern)))}</p>",
        *_tables(plans),
        *(_size(*one) for one in zip(plans, anchors, pictures, strict=True)),
        f"</main>\n<footer>{escape(credit(pattern))}</footer>",
        f"<script>{script}</script>\n</body>\n</html>\n",
    ]
    return "\n".join(part for part in parts if part)


@cache
def _script() -> str:
    return packaged.file("pages", "sizes.js").read_text("utf-8")


def _nav(plan: Plan, anchor: str) -> str:
    """The links that are seen while a size is chosen: to its pieces, and to the other pages."""
    speech = speech_of(plan.pattern)
    return (
        f'<nav class="{of_sizes([anchor])}" aria-label="{escape(speech.say("beside.pieces"))}">'
        f"{links(plan, f'{anchor}/')} "
        f'<a href="{file_names.BESIDE}#{anchor}">{escape(speech.say("beside.kicker"))}</a> '
        f'<a href="{file_names.PATTERN}">{file_names.PATTERN}</a> '
        f'<a href="{file_names.PLAN}">{file_names.PLAN}</a></nav>'
    )


def _size(plan: Plan, anchor: str, pictures: Sequence[tuple[str, str]]) -> str:
    """All that was made of one size."""
    folder = file_names.size_folder(plan.pattern.size)
    told = "\n".join(shown(plan, pictures, f"{folder}/", f"{anchor}/"))
    link = f'<a href="{quote(folder)}/{file_names.PATTERN}">{escape(folder)}/{file_names.PATTERN}</a>'
    heading = escape(f"{speech_of(plan.pattern).say('beside.size')} {plan.pattern.size}")
    return f'<div class="{of_sizes([anchor])}">\n<h2>{heading}</h2>\n<p>{link}</p>\n{told}\n</div>'


def _tables(plans: Sequence[Plan]) -> Iterator[str]:
    """Every measure of every piece, a column for each size."""
    speech, unit = speech_of(plans[0].pattern), plans[0].pattern.units
    heads = "".join(f'<th scope="col">{escape(plan.pattern.size)}</th>' for plan in plans)
    for name in dict.fromkeys(piece.name for plan in plans for piece in plan.pieces):
        pieces = [next((piece for piece in plan.pieces if piece.name == name), None) for plan in plans]
        rows = ""
        for measure, fits in side_by_side([piece.fit if piece else () for piece in pieces], speech.measure):
            figures = (speech.taped(fit.worked, unit).removesuffix(f" {unit}") if fit else DASH for fit in fits)
            cells = "".join(f"<td>{escape(figure)}</td>" for figure in figures)
            rows += f'<tr><th scope="row">{escape(measure)}</th>{cells}</tr>'
        picture = file_picture(file_names.nested(name), nested.told(plans, name))
        table = f"<table><tr><td>{unit}</td>{heads}</tr>{rows}</table>"
        yield (
            f"<h2>{escape(name)}</h2>\n"
            f'<div class="wide" tabindex="0" role="group" aria-label="{escape(name)}">{table}</div>\n{picture}'
        )
