"""The report of ``turnchain check`` for a pattern in several sizes: every size in one table.

In: the plans of all sizes. Out: lines of text, in English with the pattern's terms: what is doubtful, every measure
wanted, worked and off, rows and chains, what could not be told in the same words, yarn, and every warning with its
sizes. The report of one size has the details.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from math import ceil

from turnchain.errors import sizes_said
from turnchain.fabric.plan import Fit, PiecePlan, Plan
from turnchain.numbers import counted
from turnchain.pages.report import doubts, shown_off
from turnchain.planning.every_size import worked_form
from turnchain.units import shown
from turnchain.wording.tables import told_in
from turnchain.yarns import figures as yarn

NOTHING = "–"


def report_of_sizes(plans: Sequence[Plan]) -> str:
    """The report of all sizes, ending in a line break; ``plans`` in their order."""
    plans = [told_in(plan, plan.pattern.terms) for plan in plans]  # it is for the designer, and in English
    names = [plan.pattern.size for plan in plans]
    said = list(_doubts(plans))
    lines = [f"{plans[0].pattern.common_title}: sizes {', '.join(names)}", ""]
    lines += [f"doubts: {counted(len(said), 'warning') if said else 'none'}", *(f"warning: {words}" for words in said)]
    for name in _pieces(plans):
        lines += ["", *_table(name, plans)]
    lines += ["", "told in the same words", *(f"  {words}" for words in _forms(plans))]
    if plans[0].pattern.yarns:
        lines += ["", *_yarns(plans)]
    lines += ["", f"for the details of one size: --for {names[0]}"]
    return "\n".join(lines) + "\n"


def _pieces(plans: Sequence[Plan]) -> list[str]:
    return list(dict.fromkeys(piece.name for plan in plans for piece in plan.pieces))


def _piece(plan: Plan, name: str) -> PiecePlan | None:
    return next((piece for piece in plan.pieces if piece.name == name), None)


def _doubts(plans: Sequence[Plan]) -> Iterator[str]:
    """Every warning once, with the sizes it is for where they are not all."""
    found: dict[str, list[str]] = {}
    for plan in plans:
        for words in dict.fromkeys(doubts(plan)):
            found.setdefault(words, []).append(plan.pattern.size)
    for words, sizes in found.items():
        yield words if len(sizes) == len(plans) else f"{sizes_said(sizes)}: {words}"


def _table(name: str, plans: Sequence[Plan]) -> Iterator[str]:
    """The piece in every size: three lines for each measure, then its rows and chains."""
    pieces = [_piece(plan, name) for plan in plans]
    unit = plans[0].pattern.units
    fits = [{fit.measure: fit for fit in piece.fit} if piece else {} for piece in pieces]
    rows = [(name, "", [plan.pattern.size for plan in plans])]
    ways: tuple[tuple[str, Callable[[Fit], str]], ...] = (
        ("wanted", lambda fit: shown(fit.wanted, unit)),
        ("worked", lambda fit: shown(fit.worked, unit)),
        ("off", lambda fit: shown_off(fit, unit) or "exact"),
    )
    for measure in dict.fromkeys(measure for one in fits for measure in one):
        for nth, (way, say) in enumerate(ways):
            figures = [say(one[measure]) if measure in one else NOTHING for one in fits]
            rows.append(("" if nth else measure, way, figures))
    counts: tuple[tuple[str, Callable[[PiecePlan], str]], ...] = (
        ("rows", lambda piece: str(piece.row_count)),
        ("chain", lambda piece: str(piece.foundation_chain)),
        (f"{plans[0].recipe.noun}s in row 1", lambda piece: str(piece.rows[0].clusters)),
    )
    rows += [(count, "", [say(piece) if piece else NOTHING for piece in pieces]) for count, say in counts]
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
    """Grams of each yarn in every size, and which sizes the stock reaches."""
    found = [yarn.figures(plan) for plan in plans]
    needs = [{need.yarn: need for need in one.needs} for one in found]
    rows = [("yarn, g at most", "", [plan.pattern.size for plan in plans])]
    for one in plans[0].pattern.yarns:
        figures = [str(ceil(need[one.name].high)) if one.name in need else NOTHING for need in needs]
        rows.append((one.name, f"of {ceil(one.stock)}" if one.stock is not None else "", figures))
    yield from _columns(rows)
    if any(need.left is not None for one in needs for need in one.values()):
        short = [any(need.left is not None and need.left < 0 for need in one.values()) for one in needs]
        reached = [plan.pattern.size for plan, is_short in zip(plans, short, strict=True) if not is_short]
        yield f"  the stock reaches for {sizes_said(reached) if reached else 'no size'}"
