"""The report of ``turnchain check`` for a pattern in several sizes: every size in one table.

In: the plans of all sizes. Out: lines of text, in English with the pattern's terms: what is doubtful, every measure
wanted, worked and off, rows and chains, what could not be told in the same words, what was worked out from the body and
how it fits, yarn, and every warning with its sizes. The report of one size has the details.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from math import ceil, floor

from turnchain.errors import sizes_said
from turnchain.fabric.plan import Fit, PiecePlan, Plan
from turnchain.garment import grading, wearing
from turnchain.numbers import counted
from turnchain.pages.report import doubts, shown_off
from turnchain.planning.every_size import worked_form
from turnchain.records import replace
from turnchain.sizes import EASE_NAMES
from turnchain.units import shown
from turnchain.wording.all_sizes import side_by_side, sizes_of
from turnchain.wording.merging import merged
from turnchain.wording.tables import language_of, told_in
from turnchain.yarns import figures as yarn

NOTHING = "–"


def report_of_sizes(plans: Sequence[Plan]) -> str:
    """The report of all sizes, ending in a line break; ``plans`` in their order."""
    plans = [told_in(plan, plan.pattern.terms) for plan in plans]  # it is for the designer, and in English
    names = [plan.pattern.size for plan in plans]
    said = _merged(plans, doubts)
    lines = [f"{plans[0].pattern.common_title}: sizes {', '.join(names)}", ""]
    lines += [f"doubts: {counted(len(said), 'warning') if said else 'none'}", *(f"warning: {words}" for words in said)]
    for name in _pieces(plans):
        lines += ["", *_table(name, plans)]
    lines += ["", "told in the same words", *(f"  {words}" for words in _forms(plans))]
    if any(plan.pattern.graded for plan in plans):
        lines += ["", *_graded(plans)]
    if fit := _merged(plans, wearing.lines):
        lines += ["", "fit", *(f"  {words}" for words in fit)]
    if plans[0].pattern.yarns:
        lines += ["", *_yarns(plans)]
    lines += ["", f"for the details of one size: --for {names[0]}"]
    return "\n".join(lines) + "\n"


def _merged(plans: Sequence[Plan], lines: Callable[[Plan], list[str]]) -> list[str]:
    """What is said of every size in ``lines``, as one: those that are for some sizes only begin with them, so that a
    size that breaks what others keep is seen."""
    texts = ["".join(f"{_unsized(line, plan)}\n" for line in dict.fromkeys(lines(plan))) for plan in plans]
    sizes = sizes_of(plans, language_of(plans[0].pattern))
    words = (*sizes.words, [name for _, name in EASE_NAMES])
    return merged(texts, replace(sizes, words=words)).replace("**", "").splitlines()


def _unsized(line: str, plan: Plan) -> str:
    """A line without the size in the name of a row of a size table: every size has its own."""
    wearer = plan.pattern.wearer
    return line.replace(f"size table, {wearer.table} {wearer.size}", f"size table, {wearer.table}") if wearer else line


def _pieces(plans: Sequence[Plan]) -> list[str]:
    return list(dict.fromkeys(piece.name for plan in plans for piece in plan.pieces))


def _piece(plan: Plan, name: str) -> PiecePlan | None:
    return next((piece for piece in plan.pieces if piece.name == name), None)


def _table(name: str, plans: Sequence[Plan]) -> Iterator[str]:
    """The piece in every size: three lines for each measure, then its rows and chains."""
    pieces = [_piece(plan, name) for plan in plans]
    unit = plans[0].pattern.units
    rows = [(name, "", [plan.pattern.size for plan in plans])]
    ways: tuple[tuple[str, Callable[[Fit], str]], ...] = (
        ("wanted", lambda fit: shown(fit.wanted, unit)),
        ("worked", lambda fit: shown(fit.worked, unit)),
        ("off", lambda fit: shown_off(fit, unit) or "exact"),
    )
    for measure, found in side_by_side([piece.fit if piece else () for piece in pieces]):
        for nth, (way, say) in enumerate(ways):
            figures = [say(fit) if fit else NOTHING for fit in found]
            rows.append(("" if nth else measure, way, figures))
    counts: tuple[tuple[str, Callable[[PiecePlan], str]], ...] = (
        ("rows", lambda piece: str(piece.row_count)),
        ("chain", lambda piece: str(piece.foundation_chain)),
        (f"{plans[0].recipe.noun}s in row 1", lambda piece: str(piece.rows[0].clusters)),
    )
    rows += [(count, "", [say(piece) if piece else NOTHING for piece in pieces]) for count, say in counts]
    yield from _columns(rows)


def _graded(plans: Sequence[Plan]) -> Iterator[str]:
    """Every measure that was worked out from the body with its formula, and the measures in that with their
    sources."""
    unit = plans[0].pattern.units
    rows = [("worked out from the body", "", [plan.pattern.size for plan in plans])]
    found: dict[tuple[str, str], dict[str, str]] = {}
    for plan in plans:
        for one in grading.measures(plan.pattern):
            formula = f"= {one.formula}{'' if one.given else ' (to start with)'}"
            found.setdefault((one.measure, formula), {})[plan.pattern.size] = shown(one.cm, unit)
        for by in grading.bodies(plan.pattern):
            found.setdefault((by.name, by.source), {})[plan.pattern.size] = shown(by.cm, unit)
    ordered = sorted(found, key=lambda key: not key[1].startswith("="))
    rows += [(*key, [found[key].get(plan.pattern.size, NOTHING) for plan in plans]) for key in ordered]
    yield from _columns(rows)


def _columns(rows: Sequence[tuple[str, str, list[str]]]) -> Iterator[str]:
    """Rows of two words and figures, in columns; the first row is a heading."""
    first, second = (max(len(row[part]) for row in rows) for part in (0, 1))
    wide = [max(8, *(len(row[2][nth]) for row in rows)) for nth in range(len(rows[0][2]))]
    for nth, (head, way, figures) in enumerate(rows):
        cells = "  ".join(figure.rjust(width) for figure, width in zip(figures, wide, strict=True))
        words = (head if nth == 0 else f"  {head}").ljust(first + 2)
        yield f"{words}  {way.ljust(second)}  {cells}".rstrip()


def _forms(plans: Sequence[Plan]) -> Iterator[str]:
    """Which sizes of each piece have rows of one form, which one text tells with other figures."""
    for name in _pieces(plans):
        groups: dict[object, list[str]] = {}
        for plan in plans:
            if piece := _piece(plan, name):
                groups.setdefault(worked_form(piece), []).append(plan.pattern.size)
        together = [sizes_said(sizes) for sizes in groups.values()]
        yield f"{name}: {'; '.join(together) if len(together) > 1 else 'all sizes'}"


def _yarns(plans: Sequence[Plan]) -> Iterator[str]:
    """Of each yarn in every size what is worked up, the smallest stock that makes the size, and what is left of the
    maker's; then which sizes that reaches for."""
    found = [yarn.figures(plan) for plan in plans]
    needs = [{need.yarn: need for need in one.needs} for one in found]
    rows = [("yarn", "", [plan.pattern.size for plan in plans])]
    for one in plans[0].pattern.yarns:
        each = [need.get(one.name) for need in needs]
        rows.append((one.name, "worked up, g at most", [_grams(need.high if need else None) for need in each]))
        rows.append(("", "smallest stock, g", [_grams(need.needed if need else None) for need in each]))
        if one.ball is not None:
            rows.append(("", "smallest stock, balls", [str(need.balls) if need else NOTHING for need in each]))
        if one.stock is not None:
            left = [str(floor(need.left)) if need and need.left is not None else NOTHING for need in each]
            rows.append(("", f"left of {ceil(one.stock)} g", [words.replace("-", "−") for words in left]))
    yield from _columns(rows)
    if any(need.left is not None for one in needs for need in one.values()):
        short = [any(need.left is not None and need.left < 0 for need in one.values()) for one in needs]
        reached = [plan.pattern.size for plan, is_short in zip(plans, short, strict=True) if not is_short]
        yield f"  the stock reaches for {sizes_said(reached) if reached else 'no size'}"


def _grams(grams: Fraction | None) -> str:
    return NOTHING if grams is None else str(ceil(grams))
