"""index.html of a pattern in several sizes: where each size is, what it measures, and the one text of all.

In: the plans of all sizes. Out: the text of a page, as ``overview`` makes it for one size.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape
from urllib.parse import quote

from turnchain import file_names
from turnchain.drawing import nested
from turnchain.drawing.key import credit
from turnchain.fabric.plan import Plan
from turnchain.pages.overview import file_picture, opened
from turnchain.wording.all_sizes import how_to_read, side_by_side
from turnchain.wording.merging import DASH
from turnchain.wording.tables import language_of, speech_of


def page(plans: Sequence[Plan]) -> str:
    """The whole page as HTML in the language of the pattern, ending in a line break; ``plans`` are of the sizes of one
    pattern, in their order."""
    pattern = plans[0].pattern
    speech, title = speech_of(pattern), escape(pattern.common_title)
    links = " ".join(_link(plan.pattern.size) for plan in plans)
    parts = [
        *opened(language_of(pattern).tag, pattern.common_title),
        f"<header>\n<h1>{title}</h1>",
        f'<nav aria-label="{escape(speech.say("page.sizes"))}">{escape(speech.say("page.sizes"))}: {links} '
        f'<a href="{file_names.PATTERN}">{file_names.PATTERN}</a></nav>\n</header>\n<main>',
        f"<p>{escape(how_to_read(plans, language_of(pattern)))}</p>",
        *_tables(plans),
        f"</main>\n<footer>{escape(credit(pattern))}</footer>\n</body>\n</html>\n",
    ]
    return "\n".join(parts)


def _link(size: str) -> str:
    return f'<a href="{quote(file_names.size_folder(size))}/{file_names.INDEX}">{escape(size)}</a>'


def _tables(plans: Sequence[Plan]) -> Iterator[str]:
    """Every measure of every piece, a column for each size."""
    speech, unit = speech_of(plans[0].pattern), plans[0].pattern.units
    heads = "".join(f'<th scope="col">{escape(plan.pattern.size)}</th>' for plan in plans)
    for name in dict.fromkeys(piece.name for plan in plans for piece in plan.pieces):
        pieces = [next((piece for piece in plan.pieces if piece.name == name), None) for plan in plans]
        rows = ""
        for measure, fits in side_by_side([piece.fit if piece else () for piece in pieces], speech.measure):
            cells = "".join(f"<td>{escape(speech.taped(fit.worked, unit) if fit else DASH)}</td>" for fit in fits)
            rows += f'<tr><th scope="row">{escape(measure)}</th>{cells}</tr>'
        picture = file_picture(file_names.nested(name), nested.told(plans, name))
        yield f"<h2>{escape(name)}</h2>\n<table><tr><td></td>{heads}</tr>{rows}</table>\n{picture}"
