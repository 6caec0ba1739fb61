"""German patterns.

In: nothing. Out: ``GERMAN``. Written from general knowledge of the trade; a native reader has still to review it,
and the text says so itself.
"""

from __future__ import annotations

from collections.abc import Sequence

from turnchain.wording.languages.german.beside import BESIDE
from turnchain.wording.languages.german.cautions import CAUTIONS
from turnchain.wording.languages.german.charts import CHARTS
from turnchain.wording.languages.german.edging import EDGING
from turnchain.wording.languages.german.making_up import MAKING_UP
from turnchain.wording.languages.german.rows import ROWS
from turnchain.wording.languages.language import Language, Token

_TOKENS: dict[str, Token] = {
    "ch": Token("Lm", "Luftmasche"),
    "sl_st": Token("Km", "Kettmasche"),
    "sc": Token("fM", "feste Masche"),
    "hdc": Token("hStb", "halbes Stäbchen"),
    "dc": Token("Stb", "Stäbchen"),
    "tr": Token("DStb", "Doppelstäbchen"),
    "v": Token("VM", "V-Masche(n) (siehe besondere Maschen)"),
    "shell": Token("Mu", "Muschel(n) (siehe besondere Maschen)"),
    "rep": Token("Eh", "Einheit: eine Masche mit den Luftmaschen daneben"),
    "skip": Token("übergehen"),
    "yo": Token("U", "Umschlag"),
    "color": Token("Farbe"),
    "colors": Token("Farben"),
    "Colors": Token("Farben"),
    "fiber": Token("Faser"),
    "fibers": Token("Fasern"),
    "gray": Token("Grau"),
    "license": Token("Lizenz"),
    "License": Token("Lizenz"),
    "terms": Token("deutschen Fachwörtern"),
    "cl": Token("Gr", "Gruppe(n) (siehe besondere Maschen)"),
    "RS": Token("Hinr", "Hinreihe, rechte Seite vorn"),
    "WS": Token("Rückr", "Rückreihe, linke Seite vorn"),
    "sp": Token("Zwr", "Zwischenraum (siehe besondere Maschen)"),
    "st": Token("M", "Masche(n); auch eine Luftmasche zählt hier als eine"),
    "tch": Token("WLm", "Wendeluftmaschen (siehe besondere Maschen)"),
}


_GENDERS = {"sc": "f", "hdc": "n", "dc": "n", "tr": "n", "cl": "f", "v": "f", "shell": "f"}


def _ordinal(number: int) -> str:
    return f"{number}."


def _form(number: int) -> str:
    return "one" if number == 1 else "many"


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} und {words[-1]}"


_PHRASES = {**ROWS, **CHARTS, **MAKING_UP, **EDGING, **CAUTIONS, **BESIDE}

GERMAN = Language(
    "de", "de", _TOKENS, _PHRASES, _ordinal, _form, _listed, reviewed=False, decimal=",", genders=_GENDERS
)
