"""What the parts of a fabric are called in words.

In: a ``Recipe``. Out: its ``Naming``: the tokens of languages that stand for its stitch and its units.
"""

from __future__ import annotations

from turnchain.fabric.recipe import Recipe
from turnchain.wording.languages.language import Naming


def naming_of(recipe: Recipe) -> Naming:
    """The naming of a fabric: units of one stitch are called by that, others clusters."""
    stitch = recipe.stitch
    single = recipe.unit_width == 1
    unit = {"cl": stitch.name} if single else {"rep": "cl"}
    return Naming({"dc": stitch.name} | unit, stitch.turning)
