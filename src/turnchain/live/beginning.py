"""What a pattern can begin with, where there is none yet: garments with every measure worked out.

In: what a page asks for. Out: the garments there are, or the text of a pattern file.
"""

from __future__ import annotations

from functools import cache
from typing import Any, Final, TypeAlias

from turnchain import sizes
from turnchain.errors import MakerError
from turnchain.recipes import recipe, writing
from turnchain.recipes.recipe import GarmentRecipe
from turnchain.units import Unit

Json: TypeAlias = Any

MOST_SIZES: Final = 20


def answer(wish: Json) -> dict[str, Json]:
    """Of an empty ``wish`` the "garments", each with its "name", what it is "about" (English), whom it is for ("who"),
    the measures of the "body" that it needs, and the size "tables" that have them all, with their sizes. Of one with a
    "garment" the "text" of its pattern file, for the "table" and "sizes", the measures in "own" (by name, numbers or
    words) and the "ease", all of them optional, in "units". Raises MakerError for what cannot be made of it."""
    if not wish.get("garment"):
        return {"garments": _garments()}
    unit: Unit = "in" if wish.get("units") == "in" else "cm"
    own = [f"{name}={measure}" for name, measure in (wish.get("own") or {}).items()]
    chosen = tuple(str(size) for size in wish.get("sizes") or ())[:MOST_SIZES]
    ease = wish.get("ease")
    wearer = writing.asked(str(wish.get("table") or ""), chosen, own, None if ease is None else str(ease), unit)
    return {"text": writing.written(recipe.recipe(str(wish["garment"])), wearer, unit)}


@cache
def _garments() -> list[dict[str, Json]]:
    return [_told(recipe.recipe(name)) for name in recipe.names()]


def _told(garment: GarmentRecipe) -> dict[str, Json]:
    tables = {name: [size for size in table if _fits(garment, name, size)] for name, table in sizes.tables().items()}
    return {
        "name": garment.name,
        "about": garment.about,
        "who": garment.who,
        "body": list(garment.body),
        "tables": {name: found for name, found in tables.items() if found and garment.body},
    }


def _fits(garment: GarmentRecipe, table: str, size: str) -> bool:
    """Whether a size table has all measures of the body that a garment needs."""
    try:
        writing.written(garment, writing.RecipeWearer(table, (size,)))
    except MakerError:
        return False
    return True
