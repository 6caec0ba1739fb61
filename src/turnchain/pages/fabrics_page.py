"""The fabrics that a pattern file can name, as one page with a picture of each.

In: nothing; the package's fabrics. Out: the text of a page that needs nothing from outside itself: it can be kept on a
phone, or printed.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterator
from html import escape
from io import BytesIO

from turnchain import style
from turnchain.drawing.sample import ROWS, sample, straight
from turnchain.fabric import library
from turnchain.pages.fabrics import FabricTold, told
from turnchain.pattern import Fabric
from turnchain.writers import svg

STYLE = f"""
:root {{ color-scheme: light dark; --paper: {style.LIGHT.paper}; --ink: {style.LIGHT.ink}; --soft: {style.LIGHT.soft};
  --hair: {style.LIGHT.hair}; }}
@media screen and (prefers-color-scheme: dark) {{ :root {{ --paper: {style.DARK.paper}; --ink: {style.DARK.ink};
  --soft: {style.DARK.soft}; --hair: {style.DARK.hair}; }} }}
body {{ margin: 0 auto; max-width: 68rem; padding: 1.5rem 1rem 4rem; background: var(--paper); color: var(--ink);
  font: 1.06rem/1.5 Lato, "Source Sans 3", "Segoe UI", Roboto, sans-serif; }}
h1 {{ font-size: 2rem; line-height: 1.15; margin: 0 0 .5rem; }}
h2 {{ font-size: 1.35rem; margin: 2.2rem 0 .4rem; }}
h3 {{ font-size: 1.15rem; margin: .4rem 0 .1rem; }}
p {{ margin: .3rem 0; max-width: 42rem; }}
code {{ font: .92em ui-monospace, monospace; }}
.fabrics {{ display: grid; gap: 1.6rem 1.4rem;
  grid-template-columns: repeat(auto-fill, minmax(min(100%, 19rem), 1fr)); }}
img {{ display: block; width: 100%; height: auto; border: 1px solid var(--hair); border-radius: 4px; }}
dl {{ margin: .4rem 0 0; display: grid; grid-template-columns: auto 1fr; gap: .15rem .8rem; font-size: .95rem; }}
dt {{ color: var(--soft); }}
dd {{ margin: 0; }}
.row {{ font-weight: 600; }}
.unit {{ color: var(--soft); font-size: .95rem; }}
@media print {{
  body {{ max-width: none; padding: 0; font-size: 9.5pt; line-height: 1.35; }}
  .fabrics {{ display: block; columns: 3; column-gap: 1rem; }}
  h1 {{ font-size: 16pt; }} h2 {{ font-size: 12pt; margin: .9rem 0 .3rem; break-after: avoid; }}
  h3 {{ font-size: 10.5pt; }} article {{ break-inside: avoid; padding-bottom: .7rem; }}
  dl, .unit {{ font-size: 8.5pt; }}
}}
"""
TITLE = "Stitch library"
INTRODUCTION = (
    'A pattern file names its fabric: kind = "moss" under [fabric]. Each picture shows three rows, right side facing, '
    "in the fabric's usual proportion. Terms are US: sc single crochet, hdc half double crochet, dc double crochet; ch "
    "chain, tch turning chain, st stitch, sp space, cl cluster, V V stitch, sh shell."
)
#: The fabrics by the names of their edge tables, and what such fabrics have in common.
GROUPS = {
    "staggered": "Worked into the gaps of the row below",
    "bare": "Worked into the gaps, without edge stitches",
    "stacked": "Worked into one another",
    "whole": "Stitch into stitch",
}


def fabrics_page() -> str:
    """The page as HTML, ending in a line break."""
    return "\n".join(_page()) + "\n"


def _page() -> Iterator[str]:
    yield '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>{TITLE}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n<main>"
    yield f"<h1>{TITLE}</h1>\n<p>{escape(INTRODUCTION)}</p>"
    tables = {name: str(library.named(name)["edges"]) for name in library.names()}
    for table in dict.fromkeys([*GROUPS, *sorted(set(tables.values()))]):
        names = [name for name, edges in tables.items() if edges == table]
        if names:
            yield f"<h2>{escape(GROUPS.get(table, table.capitalize()))}</h2>\n<div class=\"fabrics\">"
            yield from (_article(told(name)) for name in names)
            yield "</div>"
    yield "</main>\n</body>\n</html>"


def _article(one: FabricTold) -> str:
    alt = f"{ROWS} rows of {one.name} in symbols"
    facts = (
        ("a row", f'<span class="row">{escape(one.row)}</span>'),
        ("chain", escape(one.chain)),
        ("a repeat", escape(one.proportion)),
        ("edges", escape(one.shaping)),
    )
    listed = "".join(f"<dt>{term}</dt><dd>{words}</dd>" for term, words in facts)
    return (
        f'<article id="{one.name}">\n<img src="{_picture(one.name)}" alt="{alt}">\n<h3><code>{one.name}</code></h3>\n'
        f'<p class="unit">{escape(one.unit)}</p>\n<dl>{listed}</dl>\n</article>'
    )


def _picture(name: str) -> str:
    """The picture of a fabric as an address that holds it."""
    stream = BytesIO()
    svg.write(sample(straight(library.clusters_of(name) or Fabric(kind=name))), stream)
    return f"data:image/svg+xml;base64,{b64encode(stream.getvalue()).decode()}"
