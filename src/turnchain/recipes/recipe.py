"""Recipes as they stand in their files.

In: a file of ``data``, or of a maker's. Out: a ``GarmentRecipe``. A file has ``name``, ``title``, ``about`` (a line for
lists), ``who`` (as in [wearer]), ``ease`` (cm, where none is asked for), ``body`` (the measures of a body that it
needs), [[measure]] with ``name``, ``formula`` and ``why``, in an order in which each uses those before it, and in
[pattern] the ``text`` of a pattern file where {name} stands for a measure. A measure that ``garment.usual`` knows needs
no formula. One with ``in``, of ``STEPS``, is rounded to what can be worked at the gauge of the swatch that patterns
begin with; formulas may use that as ``cluster`` and ``row``.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Final

from turnchain import packaged
from turnchain.errors import MakerError
from turnchain.formulas import names_in, value
from turnchain.garment.usual import USUAL
from turnchain.records import frozen
from turnchain.units import length

FOLDER: Final = "data"
#: Steps of a measure: their unit, and the least number of units and how many more each next one has.
STEPS: Final = {
    "whole clusters": ("cluster", Fraction(1), Fraction(1)),
    "clusters and a half": ("cluster", Fraction(3, 2), Fraction(1)),  # as wide as rows alike are
    "half clusters": ("cluster", Fraction(1, 2), Fraction(1, 2)),
    "whole rows": ("row", Fraction(1), Fraction(1)),
    "odd rows": ("row", Fraction(1), Fraction(2)),
}


@frozen
class RecipeMeasure:
    """A measure of a garment in cm: its ``name``, the ``formula`` it is worked out by, ``why`` in words, and the
    ``steps`` it is rounded to, of ``STEPS`` ("": as a tape is read)."""

    name: str
    formula: str
    why: str
    steps: str = ""


@frozen(slots=False)
class GarmentRecipe:
    """A recipe: ``name``, ``title`` of the patterns made of it, ``about`` in a line, ``who`` it is for, the usual
    ``ease`` in cm, the ``body`` measures it needs, its ``measures`` in their order, and the ``pattern`` to fill in."""

    name: str
    title: str
    about: str
    who: str
    ease: Fraction
    body: tuple[str, ...]
    measures: tuple[RecipeMeasure, ...]
    pattern: str

    def worked_out(self, body: Mapping[str, Fraction], ease: Fraction) -> dict[str, Fraction]:
        """Every measure of the garment in cm by its name, for a ``body`` with all measures of ``self.body``. Raises
        MakerError where a formula cannot be worked out or a measure comes to nothing."""
        known = {**body, "ease": ease, **worked_in()}
        for one in self.measures:
            known[one.name] = value(one.formula, known)
            if known[one.name] <= 0:
                raise MakerError(f"{self.name}: {one.name} = {one.formula} is 0 or less for these measures")
            if one.steps:
                known[one.name] = _stepped(known[one.name], one.steps, known)
        return {one.name: known[one.name] for one in self.measures}


def names() -> list[str]:
    """The names of the recipes there are, by the alphabet."""
    files = (file.name for file in _folder().iterdir() if file.name.endswith(".toml"))
    return sorted(name.removesuffix(".toml").replace("_", " ") for name in files)


@cache
def worked_in() -> Mapping[str, Fraction]:
    """How wide a ``cluster`` with its gap is and how high a ``row``, in cm, in the swatch that patterns begin with."""
    swatch = tomllib.loads(common())["swatch"]
    return {
        "cluster": length(swatch["width"], "cm") / swatch["clusters"],
        "row": length(swatch["height"], "cm") / swatch["rows"],
    }


def _stepped(cm: Fraction, steps: str, known: Mapping[str, Fraction]) -> Fraction:
    unit, least, further = STEPS[steps]
    return known[unit] * (least + max(0, round((cm / known[unit] - least) / further)) * further)


@cache
def recipe(name: str) -> GarmentRecipe:
    """The recipe called ``name``. Raises MakerError where there is none."""
    if name not in names():
        raise MakerError(f'there is no garment "{name}"; there are {", ".join(names())}')
    return read(_folder().joinpath(f"{name.replace(' ', '_')}.toml").read_text("utf-8"))


def common() -> str:
    """What every pattern made of a recipe begins with: swatch, yarns and stripes, as examples."""
    return _folder().joinpath("common.txt").read_text("utf-8").rstrip()


def read(text: str) -> GarmentRecipe:
    """The recipe in the text of a file. Raises MakerError where it is none, or where a formula uses a measure that does
    not stand before it."""
    try:
        raw = tomllib.loads(text)
        measures = tuple(_measure(one) for one in raw.get("measure", ()))
        found = GarmentRecipe(
            raw["name"], raw["title"], raw["about"], raw["who"], Fraction(str(raw.get("ease", 0))),
            tuple(raw.get("body", ())), measures, raw["pattern"]["text"].strip("\n"),
        )  # fmt: skip
    except (tomllib.TOMLDecodeError, KeyError, TypeError, ValueError) as error:
        raise MakerError(f"this is no recipe ({error})") from None
    for problem in _problems(found):
        raise MakerError(f"{found.name}: {problem}")
    return found


def _measure(raw: dict[str, str]) -> RecipeMeasure:
    usual = dict(zip(("formula", "why"), USUAL.get(raw["name"], ()), strict=False))
    whole = {**usual, **raw}
    return RecipeMeasure(whole["name"], whole["formula"], whole["why"], whole.get("in", ""))


def _problems(found: GarmentRecipe) -> Iterator[str]:
    known = {*found.body, "ease", *worked_in()}
    for one in found.measures:
        if one.steps and one.steps not in STEPS:
            yield f'{one.name} is in "{one.steps}"; there are {", ".join(STEPS)}'
        if missing := names_in(one.formula) - known:
            yield f"{one.name} needs {', '.join(sorted(missing))}, which no measure before it is"
        known.add(one.name)


def _folder() -> Path:
    return packaged.file("recipes", FOLDER)
