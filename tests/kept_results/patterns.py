"""The pattern files: the shared cases, the starter, garments from recipes, random files and garments by fixed seeds,
the same with a slip, and those made by hand for what is rare, with others that cannot be made."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import cache, partial
from pathlib import Path

from random_files import file_at, slipped_at
from random_garments import garment_at
from turnchain import packaged
from turnchain.recipes import writing
from turnchain.recipes.recipe import names, recipe
from turnchain.units import Unit

from .bodies import SIZED, worn
from .hand_made import GOOD, told_off

_CASES = Path(__file__).parents[1] / "cases"
_WOMAN, _CHILD = ("XS", "S", "M", "L", "1X", "2X", "3X", "4X", "5X"), ("2", "4", "6", "8", "10", "12", "14", "16")

#: Recipes of large garments: what is written for them, and nothing made of it. Files to be refused or doubted are not
#: drawn.
ONLY_WRITTEN = (
    "boxy top", "cardigan", "drop shoulder pullover", "open jacket", "skirt in panels", "slipover", "triangle shawl",
)  # fmt: skip
UNDRAWN = ("slip ", "length ", "problem ", "worn ", "no body ")


@cache
def patterns() -> dict[str, Callable[[], str]]:
    """What writes the text of every file, by its name."""
    return dict(_patterns())


def _patterns() -> Iterator[tuple[str, Callable[[], str]]]:
    for file in sorted(_CASES.glob("*.toml")):
        yield file.stem.replace("_", " "), partial(file.read_text, "utf-8")
    yield "starter", partial(packaged.file("starter.toml").read_text, "utf-8")
    yield from _of_recipes()
    yield from ((name, text.__str__) for name, text in GOOD.items())
    for seed in sorted({*range(36)} - {5, 20, 22, 31, 34}):  # these cannot be made
        yield f"random {seed}", partial(_random, seed)
    for seed in sorted({*range(44)} - {0, 3, 4, 11, 12, 13, 14, 18, 22, 26, 32, 42}):  # nor can these
        yield f"garment {seed}", partial(_garment, seed)
    for seed in range(40):
        yield f"slip {seed}", partial(_slip, seed)
    yield from ((name, text.__str__) for name, text in told_off())
    yield from ((name, text.__str__) for name, text in (*SIZED.items(), *worn()))


def _random(seed: int) -> str:
    return file_at(seed, rows=12, clusters=6).text


def _garment(seed: int) -> str:
    return garment_at(seed).text


def _slip(seed: int) -> str:
    return slipped_at(seed).text


def _of_recipes() -> Iterator[tuple[str, Callable[[], str]]]:
    """Each garment in one size, woman's and children's in turn, in cm and inches."""
    for nth, name in enumerate(names()):
        table, sizes = ("child", _CHILD) if nth % 3 == 2 else ("woman", _WOMAN)
        size = sizes[nth * 2 % len(sizes)]
        yield f"{name}, {table} {size}", partial(_written, name, table, size, "in" if nth % 2 else "cm")


def _written(name: str, table: str, size: str, unit: Unit) -> str:
    made = recipe(name)
    own = {"neck_to_cuff": Fraction(76)} if "neck_to_cuff" in made.body else {}
    wearer = writing.RecipeWearer(table, (size,), own) if made.body else writing.RecipeWearer()
    return writing.written(made, wearer, unit)
