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
from turnchain.wording.languages.english.beside import BESIDE
from turnchain.wording.languages.english.cautions import CAUTIONS
from turnchain.wording.languages.english.charts import CHARTS
from turnchain.wording.languages.english.making_up import MAKING_UP
from turnchain.wording.languages.english.rows import ROWS
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
            ("rep", "rep", "repeat: a stitch with the chains beside it"),
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


_PHRASES = {**ROWS, **CHARTS, **MAKING_UP, **CAUTIONS, **BESIDE}

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
    """``text``, a finished pattern in one kind of English, in the terms ``to``. ``names`` (yarns, pieces, the title)
    are left as they stand, even where a word of the craft is among them."""
    pairs = _pairs(to)
    kept = sorted({name for name in names if name}, key=len, reverse=True)
    words = [*kept, *sorted(pairs, key=len, reverse=True)]
    found = re.compile(r"(?<!\w)(?:" + "|".join(re.escape(word) for word in words) + r")(?!\w)")
    return found.sub(lambda match: match[0] if match[0] in kept else pairs[match[0]], text)
