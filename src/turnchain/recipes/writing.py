"""A pattern file written from a recipe.

In: a recipe, a wearer and the unit. Out: the text of a pattern file, of one size or several, whose every measure has a
remark that says how it was worked out, from what. Measures are rounded as a tape is read: to half a cm, or a quarter of
an inch; those in whole rows or clusters down to a mm, or the 20th of an inch: so a width of clusters and a half stays
nearer to that many than to one more.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from math import floor
from typing import Final

from turnchain import sizes
from turnchain.errors import MakerError
from turnchain.formulas import names_in
from turnchain.garment import body
from turnchain.pattern import Wearer
from turnchain.recipes.recipe import GarmentRecipe, RecipeMeasure, common
from turnchain.records import frozen
from turnchain.units import INCH, Unit, length, plain
from turnchain.wording.merging import in_brackets

STEPS: Final[dict[Unit, Fraction]] = {"cm": Fraction(1, 2), "in": INCH / 4}  # cm
_FINE: Final[dict[Unit, Fraction]] = {"cm": Fraction(1, 10), "in": INCH / 20}  # cm
_CM: Final[dict[Unit, Fraction]] = {"cm": Fraction(1), "in": INCH}
_SLOT: Final = re.compile(r"\{(\w+)\}")


@frozen
class RecipeWearer:
    """Whom a garment is for: ``sizes`` of a ``table`` (none: "" and ()), own measures of the body in cm (``own``),
    which go first, and the ``ease`` in cm (None: the recipe's)."""

    table: str = ""
    sizes: tuple[str, ...] = ()
    own: Mapping[str, Fraction] | None = None
    ease: Fraction | None = None


def asked(table: str, names: tuple[str, ...], own: Iterable[str], ease: str | None, unit: Unit) -> RecipeWearer:
    """The wearer that words ask for: ``own`` measures as "bust=96" or "head=22 in", lengths without a unit in ``unit``.
    Raises MakerError for measures that there are not, and for what is no length."""
    twice = [name for nth, name in enumerate(names) if name in names[:nth]]
    if twice:
        raise MakerError(f"size {twice[0]} is given twice")
    measured: dict[str, Fraction] = {}
    for one in own:
        name, _, words = one.partition("=")
        if name.strip() not in sizes.POSSIBLE:
            raise MakerError(f'"{one}" names no measure of the body; there are {", ".join(sizes.POSSIBLE)}')
        measured[name.strip()] = _length(words.strip(), unit)
    return RecipeWearer(table, names, measured, None if ease is None else _length(ease, unit))


def _length(words: str, unit: Unit) -> Fraction:
    try:
        return length(words, unit)
    except ValueError as error:
        raise MakerError(f'"{words}" {error}') from None


def written(recipe: GarmentRecipe, wearer: RecipeWearer, unit: Unit = "cm") -> str:
    """The text of a pattern file. Raises MakerError for a size that the table has not, and where a measure of the body
    is needed that neither the table nor the wearer has."""
    if not recipe.body and (wearer.table or wearer.sizes):
        raise MakerError(f"a {recipe.name} is the same for every size; leave out --table and --size")
    bodies = _bodies(recipe, wearer)
    ease = recipe.ease if wearer.ease is None else wearer.ease
    figures = [recipe.worked_out(one, ease) for one in bodies]
    filled = "\n".join(_line(line, recipe, figures, unit) for line in recipe.pattern.splitlines())
    parts = (_head(recipe, wearer, unit, ease), [common()], [filled], _wearer(recipe, wearer, unit))
    return "\n\n".join("\n".join(part) for part in parts) + "\n"


# ----------------------------------------------------------------------------------------------------------- the body


def _bodies(recipe: GarmentRecipe, wearer: RecipeWearer) -> list[dict[str, Fraction]]:
    """The measures of the body that the recipe needs, in each size."""
    found = [_body(recipe, wearer, size) for size in wearer.sizes or ("",)]
    missing = sorted({name for one in found for name in recipe.body if name not in one})
    if missing:
        raise MakerError(
            f"{recipe.name} needs {', '.join(missing)}: give --table with --size, or --measure {missing[0]}=..., "
            "or another table"
        )
    return found


def _body(recipe: GarmentRecipe, wearer: RecipeWearer, size: str) -> dict[str, Fraction]:
    table = next((name for name in sizes.tables() if name == wearer.table), None)
    if size and (table is None or size not in sizes.tables()[table]):
        there = ", ".join(sizes.tables()[table]) if table else "give --table woman or child"
        raise MakerError(f'there is no size "{size}"; {f"the sizes are {there}" if table else there}')
    whose = Wearer(table=table, size=size or None, **dict(wearer.own or {}))  # type: ignore[arg-type]
    found = ((name, body.graded_by(whose, name)) for name in recipe.body)
    return {name: cm for name, cm in found if cm is not None}


# ----------------------------------------------------------------------------------------------------------- the text


def _head(recipe: GarmentRecipe, wearer: RecipeWearer, unit: Unit, ease: Fraction) -> list[str]:
    lines = [
        f"# {recipe.about[:1].upper()}{recipe.about[1:]}.",
        "# Every measure was worked out as its remark says; change what you like.",
        "# The swatch and the yarns are examples: put in what you counted and have.",
        f'title = "{recipe.title}"',
    ]
    if len(wearer.sizes) > 1:
        lines.append(f"sizes = [{', '.join(_quoted(size) for size in wearer.sizes)}]")
    lines.append(f'units = "{unit}"')
    if any(one.steps for one in recipe.measures):
        lines.insert(3, "# What is in rows or clusters goes by this swatch; by another it may be off by half of one.")
    return [*lines, f"# ease, on top of the body: {_figure(ease, unit)} {unit}"] if "ease" in _used(recipe) else lines


def _used(recipe: GarmentRecipe) -> str:
    return " ".join(one.formula for one in recipe.measures)


def _line(line: str, recipe: GarmentRecipe, figures: Sequence[Mapping[str, Fraction]], unit: Unit) -> str:
    """A line with its measures filled in, and a remark on how each was worked out."""
    known = {one.name: one for one in recipe.measures}
    slots = [name for name in _SLOT.findall(line) if name in known]
    if not slots:
        return line
    filled = _SLOT.sub(lambda found: _value(known[found[1]], figures, unit) if found[1] in known else found[0], line)
    cm = " (in cm)" if unit == "in" else ""
    said = [_said(known[name], cm) for name in _with_helpers(slots, recipe)]
    return "\n".join([*(f"# {words}" for words in said), filled])


def _with_helpers(slots: Sequence[str], recipe: GarmentRecipe) -> list[str]:
    """The measures of ``slots``, each after those that it is worked out by and that stand nowhere in the pattern."""
    known = {one.name: one for one in recipe.measures}
    found: dict[str, None] = {}
    for name in slots:
        helpers = sorted((names_in(known[name].formula) & known.keys()) - set(_SLOT.findall(recipe.pattern)))
        found |= dict.fromkeys([*_with_helpers(helpers, recipe), name])
    return list(found)


def _said(one: RecipeMeasure, cm: str) -> str:
    steps = f", in {one.steps}" if one.steps else ""
    return f"{one.name} = {one.formula}{cm}{steps}: {one.why}"


def _value(measure: RecipeMeasure, figures: Sequence[Mapping[str, Fraction]], unit: Unit) -> str:
    told = in_brackets([_figure(_rounded(one[measure.name], measure, unit), unit) for one in figures])
    return _quoted(told) if "(" in told else told


def _rounded(cm: Fraction, measure: RecipeMeasure, unit: Unit) -> Fraction:
    if measure.steps:
        return floor(cm / _FINE[unit]) * _FINE[unit]
    step = STEPS[unit]
    return max(step, floor(cm / step + Fraction(1, 2)) * step)


def _figure(cm: Fraction, unit: Unit) -> str:
    return plain(cm / _CM[unit])


def _wearer(recipe: GarmentRecipe, wearer: RecipeWearer, unit: Unit) -> list[str]:
    lines = ["[wearer]"] if wearer.table else ["[wearer]", f'who = "{recipe.who}"']  # a table says whom it is for
    if wearer.table and wearer.sizes:
        told = in_brackets(wearer.sizes) if len(wearer.sizes) > 1 else wearer.sizes[0]
        lines += [f'table = "{wearer.table}"', f"size = {_quoted(told)}"]
    return [*lines, *(f"{name} = {_figure(cm, unit)}" for name, cm in (wearer.own or {}).items())]


def _quoted(text: str) -> str:
    return f'"{text}"'
