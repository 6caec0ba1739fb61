"""The phrases of the grammar in every language: this reader's own, not those that wrote the text.

In: nothing. Out: ``TABLES``, for every language its words and its phrases, which stand in ``english``, ``german`` and
``french``. {token} stands for a word of the column, <n> for a number, <nth> for a number in order, <yarn> and
<section> for names. {dc} is whichever stitch the fabric is made of, {cl} that stitch too where each is worked by
itself, {rep} what half of one more or less is told of. What is said in a sentence of its own begins with a capital,
which the reader undoes.
"""

from __future__ import annotations

from typing import TypeAlias

from turnchain.proof.words import english, french, german

PhraseTable: TypeAlias = dict[str, str]

TABLES: dict[str, tuple[PhraseTable, PhraseTable]] = {
    "US": (english.US, english.PHRASES),
    "UK": (english.UK, english.PHRASES),
    "de": (german.WORDS, german.PHRASES),
    "fr": (french.WORDS, french.PHRASES),
}

#: The gender of the stitches and of "cl", where phrases depend on it: a key that ends in "/st-f" or "/cl-n" is for
#: those of another gender than dc and cl.
GENDERS: dict[str, dict[str, str]] = {
    "de": {"sc": "f", "hdc": "n", "dc": "n", "tr": "n", "cl": "f", "v": "f", "shell": "f"},
    "fr": {"sc": "f", "hdc": "f", "dc": "f", "tr": "f", "cl": "m", "v": "m", "shell": "f"},
}

STITCHES = ("sc", "hdc", "dc", "tr")
PLACES = tuple(key for key in english.PHRASES if key.startswith("at_"))  # the phrases for a place to work into
