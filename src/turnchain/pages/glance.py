"""What matters most of a plan, in a few lines: does it fit, does the yarn last, what is doubtful.

In: a ``Plan`` in its colours. Out: lines for the head of the report; and the report painted for a terminal.
"""

from __future__ import annotations

import re
from math import ceil

from turnchain.fabric.plan import Plan
from turnchain.garment import wearing
from turnchain.numbers import counted
from turnchain.units import shown
from turnchain.yarns import figure_words
from turnchain.yarns import figures as yarn


def lines(plan: Plan, doubts: int) -> list[str]:
    """One line each, in English, for the fit, the yarn (where the pattern names any) and the number of ``doubts``,
    which are the warnings of the report; their words start below one another."""
    said = [("fit:", _fit(plan))]
    if plan.pattern.yarns:
        said.append(("yarn:", _yarn(plan)))
    said.append(("doubts:", _count(doubts)))
    wide = max(len(about) for about, _ in said)
    return [f"{about.ljust(wide)}  {words}" for about, words in said]


def _count(doubts: int) -> str:
    return f"{counted(doubts, 'warning')}, see below" if doubts else "none"


def _fit(plan: Plan) -> str:
    checks = wearing.checks(plan)
    look = dict.fromkeys(_name(check.about) for check in checks if check.says == "look")
    good = dict.fromkeys(_name(check.about) for check in checks if check.says == "good")
    if look:
        return f"look again at {', '.join(look)}; {_measures(plan)}"
    if plan.pattern.wearer is None and any(check.about == "wearer" for check in checks):
        return f"not checked, since the file has no [wearer]; {_measures(plan)}"
    return f"good in {counted(len(good), 'check')}; {_measures(plan)}" if good else _measures(plan)


def _name(about: str) -> str:
    """What a check is about, fit for a list: "neck (a second rule)"."""
    name, _, more = about.partition(", ")
    return f"{name} ({more})" if more else name


def _measures(plan: Plan) -> str:
    """The measure that is farthest off."""
    fits = [(abs(fit.off), piece.name, fit) for piece in plan.pieces for fit in piece.fit]
    unit = plan.pattern.units
    most, name, fit = max(fits, key=lambda one: one[0])
    if shown(most, unit) == shown(0 * most, unit):
        return "every measure is exact"
    return f"every measure within {shown(most, unit)} of what was wanted ({name}, {fit.measure})"


def short_yarns(plan: Plan) -> list[yarn.Need]:
    """What is needed of each yarn whose stock does not suffice, ``left`` being less than 0 g; a yarn without a stock in
    the file is never among them."""
    return [need for need in yarn.figures(plan).needs if need.left is not None and need.left < 0]


def _yarn(plan: Plan) -> str:
    found = yarn.figures(plan)
    rough = found.density.rough
    short = short_yarns(plan)
    if short:
        told = ", ".join(f"{need.yarn} by {ceil(-(need.left or 0))} g" for need in short)
        return f"{'may fall short, by the highest estimate' if rough else 'falls short'}: {told}"
    stocked = [(need.left, need.yarn) for need in found.needs if need.left is not None]
    if stocked:
        left, name = min(stocked)
        return f"lasts{', by the highest estimate' if rough else ''}; least is left of {name}, {int(left)} g"
    return f"{figure_words.in_all(found)} in all; no stock is given to compare it with"


# -------------------------------------------------------------------------------------------------- on a terminal

# Select Graphic Rendition, ECMA-48: 1 bold, 2 faint, 31 red, 32 green, 33 yellow; 0 ends it.
_PAINT: tuple[tuple[str, str], ...] = (
    (r"^warning: .*", "33"),
    (r"(?<=^fit:)(\s+)(look again at [^;]*)", "31"),
    (r"(?<=^fit:)(\s+)(good in [^;]*)", "32"),
    (r"(?<=^yarn:)(\s+)((?:may fall|falls) short.*)", "31"),
    (r"(?<=^yarn:)(\s+)(lasts)", "32"),
    (r"(?<=^doubts:)(\s+)(none)", "32"),
    (r"(?<=^doubts:)(\s+)(\d.*)", "33"),
    (r"^[^\s:]+(?: [^\s:]+)*$", "1"),  # headings
    (r"^(?!warning:|fit:|yarn:|doubts:)[^\s:][^:]*(?=: \d+ rows? of )", "1"),  # a piece
    (r"look again: .*", "31"),
    (r"(?<=to choose it, write ).*", "36"),
)


def painted(text: str) -> str:
    """The text of a report with the colours of a terminal (control sequences of ECMA-48): headings bold, what is good
    green, what is doubtful yellow or red. Lines and words stay as they are."""
    head, _, rest = text.partition("\n")
    rest = "\n".join(_line(line) for line in rest.split("\n"))
    return f"\x1b[1m{head}\x1b[0m\n{rest}"


def _line(line: str) -> str:
    for words, code in _PAINT:
        pattern = re.compile(words, re.M)  # kept by ``re``; a report in a pipe needs none
        found = pattern.search(line)
        if found and found[0]:
            start = found.start(2) if pattern.groups else found.start()
            return f"{line[:start]}\x1b[{code}m{line[start : found.end()]}\x1b[0m{line[found.end() :]}"
    return line
