"""Stitch names in US and UK terms.

In: nothing. Out: the words for a token in the pattern's terms. Symbols follow the stitch and not its name, so
only words change here. Source of the pairs: three published conversion tables agree (sc = UK dc, hdc = UK htr,
dc = UK tr, tr = UK dtr); the tokens are the US abbreviations, "sl_st" for sl st.
"""

from __future__ import annotations

from turnchain.pattern import Terms
from turnchain.records import frozen


@frozen
class Name:
    """A stitch's abbreviation and full name."""

    short: str
    full: str


STITCHES: dict[Terms, dict[str, Name]] = {
    "US": {
        "ch": Name("ch", "chain"),
        "sl_st": Name("sl st", "slip stitch"),
        "sc": Name("sc", "single crochet"),
        "hdc": Name("hdc", "half double crochet"),
        "dc": Name("dc", "double crochet"),
        "tr": Name("tr", "treble crochet"),
    },
    "UK": {
        "ch": Name("ch", "chain"),
        "sl_st": Name("ss", "slip stitch"),
        "sc": Name("dc", "double crochet"),
        "hdc": Name("htr", "half treble crochet"),
        "dc": Name("tr", "treble crochet"),
        "tr": Name("dtr", "double treble crochet"),
    },
}

LANGUAGE: dict[Terms, str] = {"US": "en-US", "UK": "en-GB"}


def short(token: str, terms: Terms) -> str:
    """The abbreviation of ``token`` (a key of ``STITCHES``, such as "sl_st") in ``terms``. Raises KeyError for
    another."""
    return STITCHES[terms][token].short


def full(token: str, terms: Terms) -> str:
    """The full name of ``token`` (a key of ``STITCHES``) in ``terms``. Raises KeyError for another."""
    return STITCHES[terms][token].full
