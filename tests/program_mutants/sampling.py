"""The rooms: which modules are changed, which tests know them best, and the mutants that change nothing.

``unchanged.toml`` lists those, each with its reason: they are no mutants, and are left out of every count. Under
``survivor`` and ``table`` it lists others that no test can hold, with the reason; they are counted.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from pathlib import Path
from random import Random

from .changes import SOURCE, Mutant, file_of, mutants, name_of


@dataclass(frozen=True, slots=True)
class Room:
    """The ``modules`` that are changed (patterns of files under the package) and the ``tests`` that are run first.
    ``px``: whether it counts how many px something is."""

    modules: tuple[str, ...]
    tests: tuple[str, ...]
    px: bool = True


ROOMS = {
    "planning": Room(("planning/*.py",), (
        "choices", "wanted", "planning", "necks", "neck_measures", "shapes", "fitting", "progress", "agreeing",
        "bounds", "outlines", "reading_sense", "sizes", "escaped")),
    "fabric": Room(("fabric/*.py",), (
        "lattice", "stitches", "grid", "planning", "fabric_recipes", "fabrics", "shared_clusters", "gauge", "plan",
        "escaped", "proof")),
    "garment": Room(("garment/*.py",), (
        "edges", "edge_names", "border", "openings", "wearing", "schematic", "finishing", "cautions", "own_words",
        "escaped")),
    "yarns": Room(("yarns/*.py", "yarns/stash/*.py"), (
        "yarn", "stripes", "carrying", "stash", "stash_search", "stash_bounds", "colour_checks", "contact",
        "photograph", "escaped")),
    "wording": Room(("wording/*.py", "wording/instructions/*.py", "wording/languages/*.py",
                     "wording/languages/*/*.py"), (
        "instructions", "words", "any_fabric", "stitch_by_stitch", "detail", "sizes", "escaped", "proof", "languages")),
    "units": Room(("units.py", "numbers.py"), ("numbers", "escaped", "units", "reading")),
    "sizes": Room(("sizes.py", "garment/body.py"), ("reading_wearer", "wearing", "escaped")),
    # What it counts: rows, letters, marks, labels, repeats and where they stand. How many px a margin or a word takes
    # is a matter of look, where a px more or less is as good.
    "drawing": Room(("drawing/bands.py", "drawing/brackets.py", "drawing/breaks.py", "drawing/detail.py",
                     "drawing/folds.py", "drawing/key.py", "drawing/margins.py", "drawing/marks.py",
                     "drawing/placement.py", "drawing/to_scale.py"), (
        "chart", "short", "detail", "stitch_by_stitch", "looks", "schematic", "clearance", "preview", "posting",
        "to_scale", "placement", "folds", "marks", "key",
        "escaped"), px=False),
}  # fmt: skip

#: Tests that know several rooms.
SEVERAL_ROOMS = (
    "edging", "fabric_tables", "fitting_fabrics", "forms_sewn", "garments_sewn", "graded", "grid", "heading",
    "joining", "loops", "nested", "order", "parts", "places_named", "plan_json", "published_sizes", "recipes",
    "report", "sewn", "two_readers", "worn",
)  # fmt: skip
#: Those that make random files and hold what comes of them by properties, and by figures measured on the worked cloth.
RANDOM_FILES = ("end_to_end", "figures")
#: Those that compare with what was made before. What is kept of many small files sees most for the time it takes.
KEPT = ("kept_results",)
#: And what was made before and looked at, which comes last.
GALLERY = ("gallery",)

_UNCHANGED = Path(__file__).with_name("unchanged.toml")


def modules(room: Room) -> list[str]:
    """The names of the modules of a room."""
    return [name_of(file) for pattern in room.modules for file in sorted(SOURCE.glob(pattern))]


def drawn(room: Room, number: int | None, seed: int) -> list[Mutant]:
    """So many mutants of a room (None: all), its modules in turn."""
    rng = Random(seed)
    none = unchanged()
    found = [mutants(module) for module in modules(room)]
    for some in found:
        rng.shuffle(some)  # all of them, so that what is listed later leaves the sample as it was
        some[:] = [one for one in some if told(one) not in none and (room.px or not one.px)]
    taken = [one for nth in range(max(map(len, found), default=0)) for some in found for one in some[nth : nth + 1]]
    return taken[:number]


def told(mutant: Mutant) -> tuple[str, str, str, str]:
    """How a mutant is told in ``unchanged.toml``: its module, the line, what stands there before and after."""
    return mutant.module, mutant.text, mutant.was, mutant.now


def unchanged() -> dict[tuple[str, str, str, str], str]:
    """Mutants that change nothing that could be seen, with the reason."""
    return _listed("mutant")


def survivors() -> dict[tuple[str, ...], str]:
    """Mutants that are not caught and need not be, with the reason; a table of figures by its module and name, a whole
    module by its name."""
    listed = tomllib.loads(_UNCHANGED.read_text("utf-8"))
    tables = {(one["module"], one["name"]): one["why"] for one in listed.get("table", [])}
    return {**_listed("survivor"), **tables, **{(one["module"],): one["why"] for one in listed.get("module", [])}}


def reason(mutant: Mutant) -> str | None:
    """Why a mutant need not be caught; None where nothing is listed."""
    listed = survivors()
    statement = file_of(mutant.module).read_text("utf-8").splitlines()[mutant.lines.start - 1]
    name = re.match(r"\w*", statement)
    return listed.get(told(mutant)) or listed.get((mutant.module, name[0] if name else "")) or listed.get(
        (mutant.module,)
    )


def _listed(name: str) -> dict[tuple[str, str, str, str], str]:
    listed = tomllib.loads(_UNCHANGED.read_text("utf-8")).get(name, [])
    return {(one["module"], one["in"], one["was"], one["now"]): one["why"] for one in listed}
