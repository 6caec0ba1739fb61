"""Every plan that the report tells of beside the one chosen: others that are offered, and what a piece begun was to be.

In: a plan and the text of its report. Out: how many figures were looked at, and reasons, in words. The line to write is
put into the pattern, or its progress left out, the pattern planned and told anew, and the cloth measured that its words
make.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from turnchain.errors import MakerError
from turnchain.fabric.plan import Plan
from turnchain.planning.planner import plan_pattern
from turnchain.proof import asking, worked_cloths
from turnchain.proof.cloth.edges import WorkedCloth
from turnchain.proof.cloth.irregular import irregular_rows
from turnchain.proof.compared import begun, measures
from turnchain.proof.printed.lengths import LENGTH, length
from turnchain.proof.printed.report import read_report
from turnchain.records import replace

_LINE = re.compile(
    r" +(?P<number>\d+)  (?P<piece>.+?): (?P<rows>\d+) rows?, "
    r"(?P<one>\d+)(?: and (?P<other>\d+))? (?:cluster|repeat)s?(?: in turn)? at the start: (?P<measures>.*?)"
    r"(?:; (?P<irregular>\d+) rows? shaped irregularly)?; "
    r"to choose it, write (?P<keys>.*)"
)
_MEASURE = re.compile(rf"(?P<name>.+?) (?P<worked>{LENGTH}) \((?:exact|[+−]{LENGTH})\)")


#: The rows of a plan as worked from its words, and what is wrong with these.
Working = Callable[[Plan], tuple[worked_cloths.WorkedPieces, list[str]]]


def held(plan: Plan, report: str, work: Working) -> tuple[int, list[str]]:
    """Every numbered line under "also possible" in the ``report``, tried; a line that cannot be read is a reason."""
    looked, wrong = 0, []
    lines = report.partition("\n\nalso possible\n")[2].partition("\n\n")[0].splitlines()
    for nth, line in enumerate(lines, 1):
        found = _LINE.fullmatch(line)
        if found is None or int(found["number"]) != nth:
            wrong.append(f'"{line}" offers nothing that can be read')
            continue
        looked += 3 + len(found["measures"].split("; "))
        wrong += [f"alternative {nth}: {reason}" for reason in _wrong(plan, found, work)]
    return looked, wrong


def begun_as_planned(plan: Plan, text: str, work: Working) -> tuple[int, list[str]]:
    """What the report, ``text``, says that pieces begun would have come to as planned by the swatch."""
    if not plan.pattern.progress:
        return 0, []
    made, reasons = work(plan)
    before = plan_pattern(replace(plan.pattern, progress=()))
    rows, others = work(before)
    if reasons or others:
        return 0, [*reasons, *others]
    cloths, planned = worked_cloths.cloths(plan, made), worked_cloths.cloths(before, rows)
    said = read_report(text, list(cloths), [one.name for one in plan.pattern.yarns]).pieces
    looked, wrong = 0, list[str]()
    for one in plan.pattern.progress:
        asked = asking.measures(next(piece for piece in plan.pattern.pieces if piece.name == one.piece))
        lines = said[one.piece].lines if one.piece in said else ()
        looked += 2 + len(said[one.piece].measures if one.piece in said else ())
        wrong += begun.as_planned(cloths[one.piece], planned[one.piece], asked, lines)
        wrong += begun.keeps_its_yarns(cloths[one.piece], planned[one.piece], one.rows)
    return looked, [f"a piece begun: {reason}" for reason in wrong]


def _wrong(plan: Plan, found: re.Match[str], work: Working) -> Iterator[str]:
    try:
        other = _chosen(plan, found["piece"], found["keys"])
    except MakerError as error:
        yield f"{found['keys']}: {error}"
        return
    made, reasons = work(other)
    if reasons:
        yield from reasons
        return
    cloth = worked_cloths.cloths(other, made)[found["piece"]]
    yield from _told(cloth, found)
    yield from _irregular(cloth, found)
    asked = asking.measures(next(one for one in other.pattern.pieces if one.name == found["piece"]))
    told = map(_MEASURE.fullmatch, found["measures"].split("; "))
    yield from measures.differing(cloth, asked, [(one["name"], length(one["worked"])) for one in told if one])


def _told(cloth: WorkedCloth, found: re.Match[str]) -> Iterator[str]:
    """What is wrong with the rows, and with the clusters at the start, that are promised."""
    if cloth.high != int(found["rows"]):
        yield f"{found['rows']} rows are promised, {cloth.high} worked"
    promised = [int(found[key]) for key in ("one", "other") if found[key]]
    made = [row.clusters for row in cloth.rows if not row.solid][: len(promised)]
    if made != promised:
        yield f"{promised} clusters are promised at the start, {made} worked"


def _irregular(cloth: WorkedCloth, found: re.Match[str]) -> Iterator[str]:
    rows = {(part, row) for (part, _, _), some in irregular_rows(cloth).items() for row in some}
    if int(found["irregular"] or 0) != len(rows):
        yield f"{found['irregular'] or 'no'} rows are said to be shaped irregularly, {len(rows)} are"


def _chosen(plan: Plan, name: str, keys: str) -> Plan:
    """The pattern planned with a line such as 'row_plan = "alike" and exact_rows = 29' written for a piece."""
    values: dict[str, object] = {}
    for one in keys.split(" and "):
        key, value = one.split(" = ")
        values[key] = value.strip('"') if value.startswith('"') else int(value)
    pieces = tuple(replace(one, **values) if one.name == name else one for one in plan.pattern.pieces)  # type: ignore[arg-type]
    return plan_pattern(replace(plan.pattern, pieces=pieces))
