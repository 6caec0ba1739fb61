"""The fabrics to choose from, as small pictures.

In: the language of the words. Out: for every fabric of the package its name, its picture, what it is made of in a
sentence, and where its stitches go.
"""

from __future__ import annotations

from functools import cache
from typing import Any, TypeAlias

from turnchain.drawing.sample import sample, straight
from turnchain.fabric import library
from turnchain.live.drawn import scene_json
from turnchain.pattern import Fabric
from turnchain.wording.words import special_stitches

Json: TypeAlias = Any


@cache
def samples(language: str) -> list[dict[str, Json]]:
    """Every fabric by the alphabet: "name", "scene" (as ``drawn`` has it), "words" in ``language`` ("US", "UK", "de",
    "fr") and "edges", the name of its edge table."""
    return [_sample(name, language) for name in library.names()]


def _sample(name: str, language: str) -> dict[str, Json]:
    plan = straight(library.clusters_of(name) or Fabric(kind=name))
    first, _, _ = next(iter(special_stitches(plan, language))).partition(". ")
    return {
        "name": name,
        "scene": scene_json(sample(plan)),
        "words": f"{first.rstrip('.')}.",
        "edges": plan.recipe.table.name,
    }
