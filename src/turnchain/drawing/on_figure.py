"""What is made, on the figure of its wearer, for those who show it where the wearer is known.

In: a plan. Out: the picture of ``worn``, its words, or nothing. What draws it is loaded where somebody wears it alone:
that takes time, which other patterns have no use for.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from types import ModuleType

from turnchain import file_names, style
from turnchain.drawing.looks import Look
from turnchain.fabric.plan import Plan
from turnchain.scene import Fits, Scene


def scenes(
    plan: Plan, width: int = style.REFERENCE_WIDTH, look: Look | None = None, fits: Fits | None = None
) -> dict[str, Scene]:
    """The picture ``width`` px wide by the name of its file without its ending, as ``worn.worn`` has it; none where its
    wearer is not known."""
    return {name: draw() for name, draw in drawings(plan, width, look, fits).items()}


def drawings(
    plan: Plan, width: int = style.REFERENCE_WIDTH, look: Look | None = None, fits: Fits | None = None
) -> dict[str, Callable[[], Scene]]:
    """What draws it, under the same name."""
    worn = _drawing(plan)
    return {file_names.ON_FIGURE: partial(worn.worn, plan, width, look, fits=fits)} if worn else {}


def told(plan: Plan) -> dict[str, str]:
    """Its alt text under the same name, without drawing it."""
    worn = _drawing(plan)
    return {file_names.ON_FIGURE: worn.told(plan)} if worn else {}


def sentences(plan: Plan) -> tuple[str, ...]:
    """What falls where, as ``worn.sentences`` has it; none where its wearer is not known."""
    worn = _drawing(plan)
    return worn.sentences(plan) if worn else ()


def alone(plan: Plan, look: Look) -> Scene | None:
    """The picture without these sentences; None where its wearer is not known."""
    worn = _drawing(plan)
    return worn.worn(plan, look=look, alone=True) if worn else None


def _drawing(plan: Plan) -> ModuleType | None:
    """``worn``, where the wearer is known."""
    if plan.pattern.wearer is None:
        return None
    from turnchain.drawing import worn  # see above

    return worn if worn.is_wearer_known(plan) else None
