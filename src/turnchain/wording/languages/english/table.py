"""English patterns, US and UK: one table of phrases, one table of tokens with two columns.

In: nothing. Out: ``US`` and ``UK``. The stitch names are those of ``terms``. Source of the
pairs: three published conversion tables agree on the stitches, on skip and miss.
"""

from __future__ import annotations

from collections.abc import Sequence

from turnchain import terms
from turnchain.numbers import ordinal
from turnchain.pattern import Terms
from turnchain.wording.languages.english.beside import BESIDE
from turnchain.wording.languages.english.cautions import CAUTIONS
from turnchain.wording.languages.english.charts import CHARTS
from turnchain.wording.languages.english.edging import EDGING
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
    "Colors": (Token("Colors"), Token("Colours")),
    "fiber": (Token("fiber"), Token("fibre")),
    "fibers": (Token("fibers"), Token("fibres")),
    "gray": (Token("gray"), Token("grey")),
    "license": (Token("license"), Token("licence")),
    "License": (Token("License"), Token("Licence")),
    "terms": (Token("US terms"), Token("UK terms")),
    **{
        key: (Token(short, full), Token(short, full))
        for key, short, full in (
            ("cl", "cl", "cluster (see special stitches)"),
            ("RS", "RS", "right side"),
            ("v", "V", "V stitch (see special stitches)"),
            ("shell", "sh", "shell (see special stitches)"),
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


def _form(number: int) -> str:
    return "one" if number == 1 else "many"


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


_PHRASES = {**ROWS, **CHARTS, **MAKING_UP, **EDGING, **CAUTIONS, **BESIDE}

US = Language("US", terms.LANGUAGE["US"], _tokens("US"), _PHRASES, ordinal, _form, _listed)
UK = Language("UK", terms.LANGUAGE["UK"], _tokens("UK"), _PHRASES, ordinal, _form, _listed)
