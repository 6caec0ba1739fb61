"""What the parts of a fabric are called in words.

In: a ``Recipe``. Out: its ``Naming``: the tokens of languages that stand for its stitch and its units.
"""

from __future__ import annotations

from itertools import groupby

from turnchain.fabric.recipe import CHAIN, Recipe
from turnchain.wording.languages.language import Naming, Speech


def naming_of(recipe: Recipe) -> Naming:
    """The naming of a fabric: units of one stitch are called by that, those worked into one another V stitches or
    shells, others clusters."""
    stitch = recipe.stitch
    if recipe.unit_width == 1:
        unit = {"cl": stitch.name}
    elif recipe.stacked:
        unit = {"cl": "v" if recipe.inner else "shell"}
    else:
        unit = {"rep": "cl"}
    return Naming({"dc": stitch.name} | unit, stitch.turning, recipe.table.whole)


def inside(speech: Speech, recipe: Recipe) -> str:
    """The stitches of a unit in words: "dc, ch 1, dc"."""
    told = []
    for name, run in groupby(recipe.unit):
        many = len(list(run))
        told.append(speech.say("chain", n=many) if name == CHAIN else speech.say("part.dc", n=many))
    return ", ".join(told)
