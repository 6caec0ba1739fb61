"""English patterns, US and UK: one table of phrases, one table of tokens with two columns.

In: nothing. Out: ``US`` and ``UK``, and ``converted``, which turns a finished text from one into the other in one
pass over its tokens, since replacing word by word turns sc into dc and then into tr. The stitch names are those of
``terms``. Source of the pairs: three published conversion tables agree on the stitches, on skip and miss.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from turnchain import terms
from turnchain.pattern import Terms
from turnchain.wording.languages.language import Language, Token

_COLUMN: dict[Terms, int] = {"US": 0, "UK": 1}

#: Where US and UK differ besides the stitches, then what they share.
_TOKENS: dict[str, tuple[Token, Token]] = {
    "skip": (Token("skip"), Token("miss")),
    "yo": (Token("yo", "yarn over"), Token("yrh", "yarn round hook")),
    "color": (Token("color"), Token("colour")),
    "colors": (Token("colors"), Token("colours")),
    "terms": (Token("US terms"), Token("UK terms")),
    **{
        key: (Token(short, full), Token(short, full))
        for key, short, full in (
            ("cl", "cl", "cluster (see special stitches)"),
            ("RS", "RS", "right side"),
            ("sp", "sp", "space or spaces (see special stitches)"),
            ("st", "st", "stitch or stitches; a chain counts as one here"),
            ("tch", "tch", "turning chain (see special stitches)"),
            ("WS", "WS", "wrong side"),
        )
    },
}


def _tokens(which: Terms) -> dict[str, Token]:
    named = {key: Token(name.short, name.full) for key, name in terms.STITCHES[which].items()}
    return named | {key: pair[_COLUMN[which]] for key, pair in _TOKENS.items()}


def _ordinal(number: int) -> str:
    teen = number % 100 in (11, 12, 13)
    return f"{number}{'th' if teen else {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th')}"


def _form(number: int) -> str:
    return "one" if number == 1 else "many"


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


_PHRASES: dict[str, str] = {
    # The text around the rows.
    "written": "Written in {terms}.",
    "review": "Needs review by a native reader.",
    "abbreviations": "Abbreviations",
    "specials": "Special stitches",
    "reading": "How to read the rows",
    "special.cl": (
        "Cluster ({cl}): {k} {dc} in the place named, each one completed, so that they stand side by side with {k} "
        "tops. This is not the cluster whose stitches are joined at the top."
    ),
    "special.cl.chain": "On a new chain a {cl} is {k} {dc} in {k} {ch} side by side.",
    "special.cl.chain.closed": (
        "On a new chain a {cl} is {k} {dc} in {k} {ch} side by side, with a {sp} after every {k} of them."
    ),
    "special.sp.open": (
        "Space ({sp}): the {ch} between 2 {cl} of the row below, or the {ch} beside the edge stitch. Work around "
        "the {ch}, not into it. There is no {sp} between an edge stitch and a {cl} right beside it."
    ),
    "special.sp.closed": (
        "Space ({sp}): the slit between 2 {cl} of the row below, or between the extra {dc} at an edge and the {cl} "
        "beside it. There is no {sp} beside an edge stitch itself."
    ),
    "special.tch.3": (
        "Turning chain ({tch}): the {ch} 3 that begins a row. It counts as a {dc}, the edge stitch; its {top} {ch} is "
        "the top of that stitch."
    ),
    "special.tch.4": (
        "Turning chain ({tch}): the {ch} 3 or {ch} 4 that begins a row. Its first 3 {ch} count as a {dc}, the edge "
        "stitch, and the {top} of them is the top of that stitch; the {nth} {ch} is the {sp} beside it."
    ),
    "special.base": (
        "Base of {tch}: the place that the {tch} stands on; after turning, the last {dc} of the row below."
    ),
    "special.edge": (
        "Edge stitch (edge {st}): the stitch at either end of a row: the {tch} where the row starts, a {dc} where it "
        "ends."
    ),
    "reading.sides": "Odd rows are {RS} rows, even rows {WS} rows.",
    "reading.chain": (
        "The foundation has a {ch} of its own under the edge stitch at each end; a pattern that leaves out the {ch} "
        "under the first one begins with 1 {ch} fewer."
    ),
    "reading.count": (
        "The count closes each row: the {cl}, then in brackets its stitches with the edge stitches. The {tch} counts "
        "as 1 {tch}, and its {ch} are not counted again."
    ),
    "reading.new_chain": "The {ch} of a new chain that makes a row wider count among its {ch}.",
    "reading.repeat": "[ ]: work what is inside as often as the number after it says.",
    "reading.together": "( ) before a place: work all that is inside in that one place.",
    "reading.change": "To change {color}, work the last {yo} of the last stitch with the new yarn.",
    # The piece.
    "piece": "{rows} rows, worked {worked}.",
    "worked.sideways": "sideways",
    "worked.upwards": "upwards",
    "make": "Make {n} alike.",
    "one_color": "Work in {name} throughout.",
    "foundation": "Foundation: {ch} {n} (a multiple of {multiple} plus {plus}: {times} × {multiple} + {plus}).",
    "foundation.color": (
        "Foundation: with {name}, {ch} {n} (a multiple of {multiple} plus {plus}: {times} × {multiple} + {plus})."
    ),
    "foundation.told": "The last {turning} {ch} are the {tch} of row 1.",
    "section.first shoulder": "first shoulder",
    "section.second shoulder": "second shoulder",
    "section.goes_on": (
        "Rows {first} to {last} go over the first part of row {after} only. Leave the rest of row {after} for now."
    ),
    "section.goes_on.one": (
        "Row {first} goes over the first part of row {after} only. Leave the rest of row {after} for now."
    ),
    "section.joined": (
        "Go back to row {after}, {side} facing. Work in the same direction as row {first} of the {other}."
    ),
    "fasten_off": "Fasten off.",
    # The row.
    "row": "Row {n} ({side}): ",
    "row.color": "Row {n} ({side}, {name}): ",
    "rows": "{rows} ({side} and {other} in turn): ",
    "rows.color": "{rows} ({side} and {other} in turn, {name}): ",
    "rows.two": "Rows {first} and {last}",
    "rows.range": "Rows {first} to {last}",
    "again": "repeat {rows}",
    "again.ending": "repeat {rows}, ending with row {row}",
    "again.two": "rows {first} and {last}",
    "again.range": "rows {first} to {last}",
    "count": "{clusters} {cl} ({parts})",
    "count.one_row": "{count}.",
    "count.each": "Each row: {count}.",
    "count.turn": "Counts in turn: {counts}.",
    "part.dc": "{n} {dc}",
    "part.ch": "{n} {ch}",
    "part.sl_st": "{n} {sl_st}",
    "part.tch": "{n} {tch}",
    "half": "half a",
    "shaped.start.less": "at start: {amount} {cl} less",
    "shaped.start.more": "at start: {amount} {cl} more",
    "shaped.end.less": "at end: {amount} {cl} less",
    "shaped.end.more": "at end: {amount} {cl} more",
    "spaces.one": "{sp} for next row, counted from its start: between {nth} and {next} {st}.",
    "spaces.many": (
        "{sp} for next row, counted from its start: the first between {nth} and {next} {st}, then one after "
        "every {every} {st}."
    ),
    "change": "change to {name} in last {yo}",
    "change.row": "Change to {name} in last {yo} of row {row}.",
    "stripes": "{colors}: {list}; change in last {yo} of the row before.",
    "stripe.one": "row {first} {name}",
    "stripe.two": "rows {first} and {last} {name}",
    "stripe.range": "rows {first} to {last} {name}",
    "stripe.after": "row {first} {name}",
    "stripes.cycle": "from row {first} over and over to row {last}: {list} (begins in rows {begins})",
    "stripe.height.one": "{n} row {name}",
    "stripe.height.many": "{n} rows {name}",
    # The steps.
    "chain": "{ch} {n}",
    "chain.new": "{ch} {n} (last {turning} {ch} are {tch})",
    "turn": "turn",
    "slip_along.one": "{sl_st} in next {st}",
    "slip_along.many": "{sl_st} in each of next {n} {st}",
    "slip_into": "{sl_st} {place}",
    "work.dc": "{dc} {place}",
    "work.two_dc": "2 {dc} {place}",
    "work.cl": "{cl} {place}",
    "work.cl_and_dc": "({cl}, {dc}) {place}",
    "dc_in_chains.one": "{dc} in next {ch}",
    "dc_in_chains.many": "{dc} in each of next {n} {ch}",
    "cl_in_spaces.one": "{cl} in next {sp}",
    "cl_in_spaces.many": "{cl} in each of next {n} {sp}",
    "skip_chains": "{skip} {n} {ch}",
    "skip_edge": "{skip} edge {st}",
    "skip_cluster.first": "{skip} first {cl}",
    "skip_cluster.next": "{skip} next {cl}",
    "skip_cluster.last": "{skip} last {cl}",
    "repeat": "[{steps}] {n} times",
    "join": "join {name} {place} after the {section}",
    "join.skipped": "{skip} {n} {cl} after the {section}, join {name} {place}",
    "join.same": "join {name} {place} as the {section}",
    "join.yarn": "yarn",
    "leave.tch": "leave {tch} unworked",
    "leave.clusters": "leave last {n} {cl} unworked",
    "leave.rest": "leave rest of row unworked",
    # The places.
    "in.chain_from_hook": "in {nth} {ch} from hook",
    "in.next_chain": "in next {ch}",
    "in.last_chain": "in last {ch}",
    "in.space.first": "in first {sp}",
    "in.space.next": "in next {sp}",
    "in.space.same": "in same {sp}",
    "in.dc_of_cluster.next": "in {nth} {dc} of next {cl}",
    "in.dc_of_cluster.same": "in {nth} {dc} of same {cl}",
    "in.last_dc": "in last {dc} of last {cl}",
    "in.top": "in {nth} {ch} of {tch}",
    "in.base": "in base of {tch}",
    "in.edge": "in edge {st}",
}

US = Language("US", terms.LANGUAGE["US"], _tokens("US"), _PHRASES, _ordinal, _form, _listed)
UK = Language("UK", terms.LANGUAGE["UK"], _tokens("UK"), _PHRASES, _ordinal, _form, _listed)


def _pairs(to: Terms) -> dict[str, str]:
    """Every word that differs, as it stands in a text and begins a sentence, and what it becomes."""
    wanted, given = (US, UK) if to == "US" else (UK, US)
    pairs: dict[str, str] = {}
    for key, token in given.tokens.items():
        for old, new in ((token.short, wanted.tokens[key].short), (token.full, wanted.tokens[key].full)):
            if old != new:
                pairs[old] = new
                pairs[old[0].upper() + old[1:]] = new[0].upper() + new[1:]
    return pairs


def converted(text: str, to: Terms, names: Iterable[str] = ()) -> str:
    """A finished pattern text in the other terms. ``names`` (yarns, pieces, the title) are left as they stand, even
    where a word of the craft is among them."""
    pairs = _pairs(to)
    kept = sorted({name for name in names if name}, key=len, reverse=True)
    words = [*kept, *sorted(pairs, key=len, reverse=True)]
    found = re.compile(r"(?<!\w)(?:" + "|".join(re.escape(word) for word in words) + r")(?!\w)")
    return found.sub(lambda match: match[0] if match[0] in kept else pairs[match[0]], text)
