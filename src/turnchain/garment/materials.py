"""What to have at hand: yarns, hook, notions.

In: a plan. Out: lines of words, in makers' terms. The mm of a hook count; its US label is a label and varies.
"""

from __future__ import annotations

from fractions import Fraction

from turnchain import sizes, style
from turnchain.fabric.plan import Plan
from turnchain.pattern import Pattern
from turnchain.units import SWATCH_WORDS, per_swatch, plain
from turnchain.yarns import figure_words
from turnchain.yarns import figures as yarn


def lines(plan: Plan) -> list[str]:
    """Yarns, hook, gauge and notions, one to a line."""
    return [*_yarns(plan), _hook(plan.pattern), _gauge(plan), notions(plan)]


def _yarns(plan: Plan) -> list[str]:
    """Each yarn with its letter, colour and how much of it; estimates, and told so, where no swatch was weighed."""
    pattern = plan.pattern
    if not pattern.yarns:
        return ["yarn: any that gives the gauge"]
    found = yarn.figures(plan)
    needs = {need.yarn: need for need in found.needs}
    estimate = "an estimate of " if found.density.rough else ""
    told = []
    for index, one in enumerate(pattern.yarns):
        need = needs.get(one.name)
        amount = "" if need is None else f": {estimate}{figure_words.amount(pattern, found, need)}"
        told.append(f"yarn {style.letter(index)}, {one.name} ({one.colour}){amount}")
    if found.density.rough:
        told += [*figure_words.shopping(plan, found), f"yarn amounts are estimates: {found.density.how}"]
    return told


def _hook(pattern: Pattern) -> str:
    hooks = sorted({swatch.hook for swatch in pattern.swatches if swatch.hook})
    if not hooks:
        return "hook: the size that gives the gauge; the pattern file names none"
    return f"hook: {' and '.join(hook_words(size) for size in hooks)}, or the size that gives the gauge"


def hook_words(mm: Fraction) -> str:
    """A hook's mm with its US label where it has one: "5 mm (US H-8)"."""
    label = sizes.HOOKS.get(mm)
    return f"{plain(mm)} mm (US {label})" if label else f"{plain(mm)} mm"


def _gauge(plan: Plan) -> str:
    unit = plan.pattern.units
    return (
        f"gauge: {per_swatch(plan.gauge.pitch, unit)} clusters and {per_swatch(plan.gauge.row, unit)} rows to "
        f"{SWATCH_WORDS[unit]}, counted on a swatch treated as the piece will be"
    )


def notions(plan: Plan) -> str:
    """Needle, scissors, tape, and pins where pieces are sewn or blocked."""
    markers = ", stitch markers" if any(len(piece.sections) > 1 or piece.count > 1 for piece in plan.pieces) else ""
    return f"notions: a blunt sewing needle, scissors, a tape measure, rustless pins for blocking{markers}"
