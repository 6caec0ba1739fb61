"""French patterns.

In: nothing. Out: ``FRENCH``. The terms for chain, single and double crochet and yarn over are those of published French
pages (blogahistoires.over-blog.com, luniversdelalu.com: "maille en l'air", "maille serrée", "bride", "jeté"); the slip
stitch and all sentences are from general knowledge. Not yet read by a native maker, and the text says so itself.
"""

from __future__ import annotations

from collections.abc import Sequence

from turnchain.wording.languages.french.beside import BESIDE
from turnchain.wording.languages.french.cautions import CAUTIONS
from turnchain.wording.languages.french.charts import CHARTS
from turnchain.wording.languages.french.edging import EDGING
from turnchain.wording.languages.french.making_up import MAKING_UP
from turnchain.wording.languages.french.rows import ROWS
from turnchain.wording.languages.language import Language, Token

_TOKENS: dict[str, Token] = {
    "ch": Token("ml", "maille en l'air"),
    "sl_st": Token("mc", "maille coulée"),
    "sc": Token("ms", "maille serrée"),
    "hdc": Token("demi-b", "demi-bride"),
    "dc": Token("b", "bride"),
    "tr": Token("dbl-b", "double bride"),
    "v": Token("pV", "point en V (voir les mailles spéciales)"),
    "shell": Token("coq", "coquille (voir les mailles spéciales)"),
    "rep": Token("mtf", "motif : une maille avec les mailles en l'air à côté"),
    "skip": Token("sauter"),
    "yo": Token("jeté"),
    "color": Token("couleur"),
    "colors": Token("couleurs"),
    "Colors": Token("Couleurs"),
    "fiber": Token("fibre"),
    "fibers": Token("fibres"),
    "gray": Token("gris"),
    "license": Token("licence"),
    "License": Token("Licence"),
    "terms": Token("termes français"),
    "cl": Token("gr", "groupe (voir les mailles spéciales)"),
    "RS": Token("end", "rang endroit, l'endroit de l'ouvrage devant"),
    "WS": Token("env", "rang envers, l'envers de l'ouvrage devant"),
    "sp": Token("esp", "espace (voir les mailles spéciales)"),
    "st": Token("m", "maille ; une maille en l'air compte ici pour une maille"),
    "tch": Token("mlt", "mailles en l'air pour tourner (voir les mailles spéciales)"),
}


_GENDERS = {"sc": "f", "hdc": "f", "dc": "f", "tr": "f", "cl": "m", "v": "m", "shell": "f"}


def _ordinal(number: int) -> str:
    """In the feminine, as mailles and brides are."""
    return "1re" if number == 1 else f"{number}e"


def _form(number: int) -> str:
    return "one" if number < 2 else "many"


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} et {words[-1]}"


_PHRASES = {**ROWS, **CHARTS, **MAKING_UP, **EDGING, **CAUTIONS, **BESIDE}

FRENCH = Language(
    "fr", "fr", _TOKENS, _PHRASES, _ordinal, _form, _listed, reviewed=False, decimal=",", genders=_GENDERS
)
