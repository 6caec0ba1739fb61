"""Mistakes put into finished words and charts on purpose: are they found?

A mutant is a text or a picture with one change. It is found where it cannot be read, cannot be worked or does not come
out as planned. A mutant that is not found is *equivalent* only where a named argument says that a maker does the same
stitches in the same places (``EQUIVALENT``), and the fabric worked from it is the same stitch by stitch; any other has
escaped. A symbol moved by no more than leans are rounded draws the same chart. All others must be found; what escapes
is printed with what was changed.

Two wrong examples are sums that patterns published on the web get wrong, whose addresses were not kept: "210 stitches
is 77 clusters", and a multiple of 4 plus 3 given with 60, 96 and 120 chains. That they are wrong is arithmetic.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from itertools import pairwise
from math import dist
from pathlib import Path
from random import Random

import pytest

from nightly import planned_at, walk_at
from turnchain.errors import MakerError
from turnchain.fabric.plan import Plan
from turnchain.making import planned
from turnchain.pattern import Fabric, Pattern, Piece, Swatch
from turnchain.planning.planner import plan_pattern
from turnchain.proof.chart.marks import ChartSymbol, UnreadableChart
from turnchain.proof.chart.picture import read_chart
from turnchain.proof.chart.working import work_chart
from turnchain.proof.hook.stitches import Craft, Unworkable
from turnchain.proof.maker.piece import Maker
from turnchain.proof.maker.steps import (
    ChainEnd,
    ChainStitches,
    Count,
    DcAlongChain,
    DcInPlace,
    FromHook,
    PassChains,
    RepeatSteps,
    Told,
)
from turnchain.proof.proving import chart_of, svg_of, words_of
from turnchain.proof.words.text import Unreadable, read_words, work_piece
from turnchain.records import replace
from turnchain.wording import words

pytestmark = pytest.mark.slow

CASES = Path(__file__).parent / "cases"


@dataclass(frozen=True)
class Mutant:
    """One change: what kind, what it was and what it became, where it stands, and the whole ``text`` with it."""

    kind: str
    was: str
    became: str
    around: str
    text: str

    def __str__(self) -> str:
        return f"{self.kind}: {self.was!r} became {self.became!r} in {self.around!r}"


def changed(text: str, start: int, end: int, new: str, kind: str) -> Mutant:
    """``text`` with one stretch replaced."""
    line = text.rfind("\n", 0, start) + 1
    stop = text.find("\n", end)
    around = text[line : stop if stop >= 0 else len(text)]
    return Mutant(kind, text[start:end], new, around[:240], text[:start] + new + text[end:])


# ------------------------------------------------------------------------------------------- mutants of words

#: What each language calls what is changed.
WORDS: dict[str, dict[str, str]] = {
    "US": {
        "decrease": "dc in last dc of last cl, leave tch unworked", "top": "dc in 3rd ch of tch", "off": " Fasten off.",
        "RS": "RS", "WS": "WS",
    },
    "UK": {
        "decrease": "tr in last tr of last cl, leave tch unworked", "top": "tr in 3rd ch of tch", "off": " Fasten off.",
        "RS": "RS", "WS": "WS",
    },
    "de": {
        "decrease": "1 Stb in das letzte Stb der letzten Gr, WLm unbehäkelt lassen",
        "top": "1 Stb in die 3. Lm der WLm",
        "off": " Faden abschneiden und durchziehen.", "RS": "Hinr", "WS": "Rückr",
    },
    "fr": {
        "decrease": "1 b dans la dernière b du dernier gr, laisser les mlt non crochetées",
        "top": "1 b dans la 3e ml des mlt", "off": " Arrêter le fil.", "RS": "end", "WS": "env",
    },
}  # fmt: skip

#: Words that a slip of the pen takes for one another.
PAIRS: dict[str, tuple[tuple[str, str], ...]] = {
    "US": (
        ("first sp", "next sp"), ("skip first", "skip last"), ("skip first", "skip next"), ("less", "more"),
        ("at start", "at end"), ("last ch", "next ch"), ("2 dc in", "dc in"), ("cl in", "dc in"),
        ("3rd ch of", "4th ch of"), ("in base of tch", "in first sp"), ("tch unworked", "rest of row unworked"),
        (" to ", " and "), ("half a cl", "1 cl"),
    ),
    "UK": (
        ("first sp", "next sp"), ("miss first", "miss last"), ("2 tr in", "tr in"), ("cl in", "tr in"),
        ("less", "more"), ("last ch", "next ch"), ("in base of tch", "in first sp"),
    ),
    "de": (
        ("den 1. Zwr", "den nächsten Zwr"), ("1. Gr über", "letzte Gr über"), ("2 Stb in", "1 Stb in"),
        ("1 Gr in", "1 Stb in"), ("weniger", "mehr"), ("die letzte Lm", "die nächste Lm"),
        ("in den Fuß der WLm", "in den 1. Zwr"),
    ),
    "fr": (
        ("le premier esp", "l'esp suivant"), ("le premier gr", "le dernier gr"), ("2 b dans", "1 b dans"),
        ("1 gr dans", "1 b dans"), ("en moins", "en plus"), ("la dernière ml", "la ml suivante"),
        ("dans le pied des mlt", "dans le premier esp"),
    ),
}  # fmt: skip

Change = Callable[[Random, str, int, str, Plan], Mutant | None]


def pieces_begin(text: str) -> int:
    """Where the explanations end: at the fourth heading."""
    heads = [found.start() for found in re.finditer(r"^## ", text, re.MULTILINE)]
    return heads[3]


def pick(rng: Random, pattern: str, text: str, start: int) -> re.Match[str] | None:
    """One of the places where ``pattern`` stands."""
    found = list(re.compile(pattern, re.MULTILINE).finditer(text, start))
    return rng.choice(found) if found else None


def off_by_one(rng: Random, text: str, start: int, language: str, plan: Plan) -> Mutant | None:
    found = pick(rng, r"(?<![\w.])\d+", text, start)
    if found is None:
        return None
    number = int(found[0]) + rng.choice((-1, 1))
    return changed(text, *found.span(), str(max(0, number)), "a number off by one")


STEP = r"(?<=[:,\[] )(?:\[[^\]]*\] [^,.]*|\([^)]*\)[^,.\]]*|[^,.\[\]():]*(?:\([^)]*\))?)(?=, |\])"


def step_lost(rng: Random, text: str, start: int, language: str, plan: Plan) -> Mutant | None:
    found = pick(rng, rf"{STEP}, ", text, start)
    return None if found is None else changed(text, *found.span(), "", "a step left out")


def step_twice(rng: Random, text: str, start: int, language: str, plan: Plan) -> Mutant | None:
    found = pick(rng, rf"{STEP}, ", text, start)
    return None if found is None else changed(text, *found.span(), found[0] * 2, "a step twice")


def steps_swapped(rng: Random, text: str, start: int, language: str, plan: Plan) -> Mutant | None:
    found = pick(rng, rf"({STEP}), ([^,.\[\]():]+)(?=[,.])", text, start)
    if found is None or found[1] == found[2]:
        return None
    return changed(text, *found.span(), f"{found[2]}, {found[1]}", "two steps swapped")


def no_turning_chain(rng: Random, text: str, start: int, language: str, plan: Plan) -> Mutant | None:
    found = pick(rng, r"(?<=: )(?:Ch \d+|\d+ Lm), ", text, start)
    return None if found is None else changed(text, *found.span(), "", "a turning chain missing")


def wrong_turning_chain(rng: Random, text: str, start: int, language: str, plan: Plan) -> Mutant | None:
    found = pick(rng, r"(?<=: )(Ch )?(3|4)( Lm)?(?=, )", text, start)
    if found is None:
        return None
    other = "4" if found[2] == "3" else "3"
    return changed(text, *found.span(), f"{found[1] or ''}{other}{found[3] or ''}", "the other turning chain")


def late_decrease(rng: Random, text: str, start: int, language: str, plan: Plan) -> Mutant | None:
    """A decrease where the row below has a gap at its edge, and the words of one where it is natural."""
    said = WORDS[language]
    found = pick(rng, re.escape(said["top"]), text, start)
    return None if found is None else changed(text, *found.span(), said["decrease"], "a decrease out of turn")


def words_mixed(rng: Random, text: str, start: int, language: str, plan: Plan) -> Mutant | None:
    one, other = rng.choice(PAIRS[language])
    if rng.random() < 0.5:
        one, other = other, one
    found = pick(rng, rf"(?<!\w){re.escape(one)}(?!\w)", text, start)
    return None if found is None else changed(text, *found.span(), other, "a word for another")


def rows_swapped(rng: Random, text: str, start: int, language: str, plan: Plan) -> Mutant | None:
    """The steps of two rows, with what closes them, changed about."""
    rows = list(re.compile(r"^[^#\n]*?\): (.*)$", re.MULTILINE).finditer(text, start))
    pairs = [(one, other) for one, other in pairwise(rows) if one[1] != other[1]]
    if not pairs:
        return None
    one, other = rng.choice(pairs)
    between = text[one.end(1) : other.start(1)]
    return changed(text, one.start(1), other.end(1), other[1] + between + one[1], "two rows swapped")


def row_lost(rng: Random, text: str, start: int, language: str, plan: Plan) -> Mutant | None:
    found = pick(rng, r"\n\n(?!#)[^\n]*\): [^\n]*", text, start)
    return None if found is None else changed(text, *found.span(), "", "a row left out")


def yarn_swapped(rng: Random, text: str, start: int, language: str, plan: Plan) -> Mutant | None:
    names = [re.sub(r"([\\`*_\[\]<>#|])", r"\\\1", yarn.name) for yarn in plan.pattern.yarns]
    if len(names) < 2:
        return None
    before = r"(?:(?:WS|RS|Hinr|Rückr|turn|Wechsel), |[Cc]hange to |zu |\d |with |join )"
    found = pick(rng, f"{before}({'|'.join(map(re.escape, names))})(?=[),; ])", text, start)
    if found is None:
        return None
    other = rng.choice([name for name in names if name != found[1]])
    return changed(text, found.start(1), found.end(1), other, "a yarn for another")


def foundation_wrong(rng: Random, text: str, start: int, language: str, plan: Plan) -> Mutant | None:
    """A chain too long or too short whose own sum is right."""
    told = r"((?:Foundation|Anschlag): [^\n]*?)(\d+)( (?:Lm )?[^\n]*?plus )(\d+)(: \d+ × \d+ \+ )(\d+)"
    found = pick(rng, told, text, start)
    if found is None:
        return None
    by = rng.choice((-4, -3, -2, -1, 1, 2, 3, 4))
    if int(found[6]) + by < 0:
        return None
    plus = str(int(found[6]) + by)
    new = f"{found[1]}{int(found[2]) + by}{found[3]}{plus}{found[5]}{plus}"
    return changed(text, *found.span(), new, "a wrong foundation")


def sides_swapped(rng: Random, text: str, start: int, language: str, plan: Plan) -> Mutant | None:
    said = WORDS[language]
    found = pick(rng, rf"(?<!\w)({said['RS']}|{said['WS']})(?!\w)", text, start)
    if found is None:
        return None
    return changed(text, *found.span(), said["WS"] if found[0] == said["RS"] else said["RS"], "the other side")


def not_fastened_off(rng: Random, text: str, start: int, language: str, plan: Plan) -> Mutant | None:
    found = pick(rng, re.escape(WORDS[language]["off"]), text, start)
    return None if found is None else changed(text, *found.span(), "", "not fastened off")


def shaping_lost(rng: Random, text: str, start: int, language: str, plan: Plan) -> Mutant | None:
    found = pick(rng, r" (?:At (?:start|end)|Am (?:Anfang|Ende)): [^.\n]*\.", text, start)
    return None if found is None else changed(text, *found.span(), "", "shaping not said")


def cluster_size(rng: Random, text: str, start: int, language: str, plan: Plan) -> Mutant | None:
    found = re.search(r"(?:Cluster \(cl\)|Gruppe \(Gr\)): (\d)", text)
    assert found is not None
    number = str(int(found[1]) + rng.choice((-1, 1)))
    return changed(text, found.start(1), found.end(1), number, "another cluster")


def space_skipped(rng: Random, text: str, start: int, language: str, plan: Plan) -> Mutant | None:
    """A cluster fewer in a row, and its count to match: only the row below tells that a space is passed over."""
    steps, counts = r"\] (\d+)( times|-mal)([^\n\[\]]*?\. ", r"(\d+)( \w+ \()(\d+)( \w+)(?:, (\d+)( (?:ch|Lm)))?"
    found = pick(rng, rf"{steps}(?:Each row: |Jede Reihe: )?){counts}", text, start)
    if found is None or int(found[1]) < 3:
        return None
    fabric = plan.pattern.fabric
    chains = f", {int(found[8]) - fabric.gap}{found[9]}" if found[8] else ""
    new = (
        f"] {int(found[1]) - 1}{found[2]}{found[3]}{int(found[4]) - 1}{found[5]}{int(found[6]) - fabric.cluster}"
        f"{found[7]}{chains}"
    )
    return changed(text, *found.span(), new, "a space passed over, counted right")


def about_changed(rng: Random, text: str, start: int, language: str, plan: Plan) -> Mutant | None:
    """What a piece says of itself, of which its rows know nothing."""
    found = pick(rng, r"sideways|upwards|quer|aufwärts|(?<=Make )\d+|\d+(?=-mal gleich)", text, start)
    if found is None:
        return None
    other = {"sideways": "upwards", "upwards": "sideways", "quer": "aufwärts", "aufwärts": "quer"}
    return changed(text, *found.span(), other.get(found[0], f"{found[0]}1"), "a piece told of as another")


def yarns_changed(rng: Random, text: str, start: int, language: str, plan: Plan) -> Mutant | None:
    """Two yarns changed about wherever they stand: nothing in the text contradicts it."""
    used = sorted({row.colour for piece in plan.pieces for row in piece.rows if row.colour})
    if len(used) < 2 or any(re.search(r"\W|dc", name) for name in used):
        return None
    one, other = rng.sample(used, 2)
    swapped = re.sub(rf"\b(?:{one}|{other})\b", lambda found: other if found[0] == one else one, text[start:])
    return Mutant("two yarns changed about", one, other, "the whole text", text[:start] + swapped)


WORD_CHANGES: tuple[Change, ...] = (
    off_by_one, off_by_one, off_by_one, step_lost, step_lost, step_twice, steps_swapped, no_turning_chain,
    wrong_turning_chain, late_decrease, words_mixed, words_mixed, words_mixed, rows_swapped, row_lost, yarn_swapped,
    foundation_wrong, sides_swapped, not_fastened_off, shaping_lost, cluster_size, about_changed, yarns_changed,
    space_skipped,
)  # fmt: skip

LEFT = r"(?:leave [^,]* unworked|[^,]* unbehäkelt lassen)"
CHANGED = r"(?:change to .* in last \w+|mit dem letzten U zu .* wechseln)"
CHAINED = r"(?:ch \d+|\d+ Lm)"
PASSED = r"(?:(?:skip|miss) [^,]*|[^,]* übergehen)"
BASED = r"(?:\w+ in base of tch|1 \w+ in den Fuß der WLm)"

#: Changes of words after which a maker does the same: what became of what, and why nothing changes.
EQUIVALENT: tuple[tuple[str, str, str], ...] = (
    (r"first sp|1\. Zwr|den 1\. Zwr", r"next sp|nächsten Zwr|den nächsten Zwr",
     "from the edge stitch the next space is the first, where no cluster lies before it"),
    (r"next sp|den nächsten Zwr", r"first sp|den 1\. Zwr",
     "once the first cluster is passed no space was met yet, or the first space is the next one"),
    (r"skip first|skip next|skip last", r"skip first|skip next|skip last",
     "from the edge stitch the next cluster is the first; where only one is left the next is the last"),
    (r"(?:miss|skip) (?:first|last)|1\. Gr über|letzte Gr über",
     r"(?:miss|skip) (?:first|last)|1\. Gr über|letzte Gr über",
     "in a row of one cluster the first is the last"),
    (r"last ch|die letzte Lm", r"next ch|die nächste Lm", "the next chain is the last"),
    (r"Ch \d+, turn|\d+ Lm, wenden", r"turn, Ch \d+|wenden, \d+ Lm",
     "a turning chain made after turning stands on the same stitch"),
    (r"tch unworked", r"rest of row unworked", "the turning chain is all that is left of the row"),
    (r"rest of row unworked", r"tch unworked", "the rest of the row is its turning chain"),
    (rf"{LEFT}, {CHANGED}", rf"{CHANGED}, {LEFT}",
     "the yarn changes with the last stitch, whether that is said before or after what is left unworked"),
    (rf"{CHANGED}, {LEFT}", rf"{LEFT}, {CHANGED}",
     "the yarn changes with the last stitch, whether that is said before or after what is left unworked"),
    (rf"{CHAINED}, {PASSED}|{PASSED}, {CHAINED}", rf"{CHAINED}, {PASSED}|{PASSED}, {CHAINED}",
     "a gap's chain hangs from the hook, and to pass over a place is no stitch: either may come first"),
    (rf"{BASED}, {PASSED}|{PASSED}, {BASED}", rf"{BASED}, {PASSED}|{PASSED}, {BASED}",
     "the base of the turning chain is where it was, whatever is passed over next"),
    (r"with .*, ", r"", "a piece in one yarn has said so before its foundation"),
)  # fmt: skip


def argument(mutant: Mutant) -> str | None:
    """Why a change of words may change nothing in the fabric; None where no argument is known."""
    for was, became, why in EQUIVALENT:
        if re.fullmatch(was, mutant.was) and re.fullmatch(became, mutant.became):
            return why
    return None


def fabric_of(text: str, language: str, plan: Plan) -> object:
    """Every stitch with what it is worked into and its yarn, in the order worked."""
    yarns = [yarn.name for yarn in plan.pattern.yarns]
    written = read_words(text, language, yarns, [piece.name for piece in plan.pieces])
    made = {piece.name: work_piece(written.craft, piece) for piece in written.pieces}
    return {name: [(one.row.stitches, one.row.at, one.yarn) for one in rows] for name, rows in made.items()}


@dataclass
class Tally:
    """How many mutants were found, and by what; which were equivalent and why; which escaped. Where it is asked for,
    ``alone`` counts those that show themselves: nobody need know the plan to find them."""

    asked: bool = False
    found: Counter[str] = field(default_factory=Counter)
    equivalent: Counter[str] = field(default_factory=Counter)
    escaped: list[str] = field(default_factory=list)
    alone: int = 0

    def add(self, other: Tally) -> None:
        """Another tally with this one."""
        self.found += other.found
        self.equivalent += other.equivalent
        self.escaped += other.escaped
        self.alone += other.alone

    @property
    def total(self) -> int:
        return sum(self.found.values()) + len(self.escaped)

    @property
    def share(self) -> float:
        return sum(self.found.values()) / max(1, self.total)

    def __str__(self) -> str:
        alone = f", {self.alone} of them without the plan" if self.asked else ""
        lines = [f"{sum(self.found.values())} of {self.total} found{alone}"]
        lines += [f"  {kind}: {number}" for kind, number in sorted(self.found.items())]
        lines += [f"  equivalent, {number}: {why}" for why, number in self.equivalent.items()]
        return "\n".join([*lines, *(f"  ESCAPED {one}" for one in self.escaped)])


def try_words(plan: Plan, language: str, rng: Random, tally: Tally, text: str) -> None:
    """One random mutant of the finished words."""
    mutant = rng.choice(WORD_CHANGES)(rng, text, pieces_begin(text), language, plan)
    if mutant is None or mutant.text == text:
        return
    if words_of(plan, language, mutant.text).reasons:
        tally.found[mutant.kind] += 1
        tally.alone += tally.asked and contradicts_itself(mutant.text, language, plan)
        return
    why = argument(mutant)
    if why is not None and fabric_of(mutant.text, language, plan) == fabric_of(text, language, plan):
        tally.equivalent[why] += 1
        return
    tally.escaped.append(str(mutant))


def contradicts_itself(text: str, language: str, plan: Plan) -> bool:
    """Whether the text alone shows that it is wrong: it cannot be read or cannot be worked."""
    try:
        fabric_of(text, language, plan)
    except (Unreadable, Unworkable):
        return True
    return False


# ------------------------------------------------------------------------------------------ mutants of charts

Redraw = Callable[[Random, str], Mutant | None]


def definitions(svg: str, name: str) -> list[re.Match[str]]:
    """The definitions whose ids begin with ``name``, with their contents."""
    return list(re.finditer(rf'<g id="{name}[^"]*">\n(.*?)\n</g>', svg, re.DOTALL))


def one_of(rng: Random, svg: str, name: str, inside: str) -> tuple[int, int, re.Match[str]] | None:
    """One place inside the definitions ``name``: where it begins and ends in the file."""
    places = [
        (one.start(1) + found.start(), one.start(1) + found.end(), found)
        for one in definitions(svg, name)
        for found in re.finditer(inside, one[1])
    ]
    return rng.choice(places) if places else None


STATED = "(?:row|run)-"  # where symbols have their places: in rows, and in runs of clusters alike
USE = r'<use (?:x="(?P<x>-?[\d.]+)" )?xlink:href="#(?P<name>[\w-]+)"/>'


def use_moved(rng: Random, svg: str) -> Mutant | None:
    """A symbol of a row moved by about half a cluster."""
    found = one_of(rng, svg, STATED, USE)
    if found is None:
        return None
    start, end, use = found
    leap = rng.choice((-1, 1)) * half_pitch(svg)
    x = float(use["x"] or 0) + leap
    return changed(svg, start, end, f'<use x="{x:g}" xlink:href="#{use["name"]}"/>', "a symbol half a cluster off")


def half_pitch(svg: str) -> float:
    """Half a cluster with its gap, in px, from the rows' definitions: clusters lie two of them apart."""
    apart: Counter[float] = Counter()
    for row in definitions(svg, STATED):
        xs = [float(use["x"] or 0) for use in re.finditer(USE, row[1]) if use["name"].startswith("cluster")]
        apart.update(round(b - a, 2) for a, b in pairwise(xs))
    return apart.most_common(1)[0][0] / 2 if apart else 40.0


def use_lost(rng: Random, svg: str) -> Mutant | None:
    found = one_of(rng, svg, STATED, USE + r"\n?")
    return None if found is None else changed(svg, found[0], found[1], "", "a symbol left out")


def dc_lost(rng: Random, svg: str) -> Mutant | None:
    found = one_of(rng, svg, "cluster-", USE + r"\n?")
    return None if found is None else changed(svg, found[0], found[1], "", "a dc of a cluster left out")


def symbol_swapped(rng: Random, svg: str) -> Mutant | None:
    """Another symbol in a place."""
    found = one_of(rng, svg, STATED, USE)
    names = {use["name"] for row in definitions(svg, STATED) for use in re.finditer(USE, row[1])}
    if found is None or len(names) < 2:
        return None
    start, end, use = found
    other = rng.choice(sorted(names - {use["name"]}))
    return changed(svg, start, end, use[0].replace(f'#{use["name"]}"', f'#{other}"'), "a symbol for another")


def oval_lost(rng: Random, svg: str) -> Mutant | None:
    found = one_of(rng, svg, "turning-chain", r"<path [^>]*/>\n?")
    return None if found is None else changed(svg, found[0], found[1], "", "a chain of a turning chain left out")


def foot_moved(rng: Random, svg: str) -> Mutant | None:
    """The foot of an edge stitch half a cluster off."""
    found = one_of(rng, svg, "dc", r'd="M(?P<x>-?[\d.]+) (?P<y>-?[\d.]+)L')
    if found is None:
        return None
    start, end, foot = found
    x = float(foot["x"]) + rng.choice((-1, 1)) * half_pitch(svg)
    return changed(svg, start, end, f'd="M{x:g} {foot["y"]}L', "a foot half a cluster off")


def foot_raised(rng: Random, svg: str) -> Mutant | None:
    """A foot in a space where it stood in a stitch, or the other way about."""
    found = one_of(rng, svg, "dc", r'd="M(?P<x>-?[\d.]+) (?P<y>-?[\d.]+)L')
    if found is None:
        return None
    start, end, foot = found
    y = float(foot["y"])
    return changed(
        svg,
        start,
        end,
        f'd="M{foot["x"]} {y * (0.93 / 1.06 if rng.random() < 0.5 else 1.06 / 0.93):.2f}L',
        "a foot in another place up or down",
    )


ROW = r'(<g id="row-of-stitches-\d+">\n(?:<desc>[^<]*</desc>\n)?<use [^>]*xlink:href="#)(row-\d+)("[^>]*/>)'


def rows_redrawn(rng: Random, svg: str) -> Mutant | None:
    """Two rows that follow each other, changed about: rows that are drawn alike, as shoulders may be, are no mutant."""
    rows = list(re.finditer(ROW, svg))
    made = {re.sub('.*id="([^"]*)".*', r"\1", one[0].partition("\n")[0]): one[1] for one in definitions(svg, STATED)}
    pairs = [(one, other) for one, other in pairwise(rows) if made[one[2]] != made[other[2]]]
    if not pairs:
        return None
    one, other = rng.choice(pairs)
    between = svg[one.end(2) : other.start(2)]
    return changed(svg, one.start(2), other.end(2), other[2] + between + one[2], "two rows swapped")


def row_shifted(rng: Random, svg: str) -> Mutant | None:
    """A whole row half a cluster off."""
    found = rng.choice(list(re.finditer(r'(<use [^>]*?x=")([\d.]+)("[^>]*xlink:href="#row-\d+")', svg)))
    x = float(found[2]) + rng.choice((-1, 1)) * half_pitch(svg)
    return changed(svg, found.start(2), found.end(2), f"{x:g}", "a row half a cluster off")


def stripes_redrawn(rng: Random, svg: str) -> Mutant | None:
    """A stripe, or the strip under chains or slip stitches, in another's colour."""
    fills = [
        (one.start(1) + fill.start(1), one.start(1) + fill.end(1), fill[1])
        for name in ("stripes", "strips")
        for one in re.finditer(rf'<g id="{name}">\n(.*?)\n</g>', svg, re.DOTALL)
        for fill in re.finditer(r'fill="(#\w{6})"', one[1])
    ]
    colours = sorted({colour for *_, colour in fills})
    if len(colours) < 2:
        return None
    start, end, colour = rng.choice(fills)
    other = rng.choice([one for one in colours if one != colour])
    return changed(svg, start, end, other, "a stripe in another colour")


def foundation_redrawn(rng: Random, svg: str) -> Mutant | None:
    """A chain of the foundation left out."""
    uses = list(re.finditer(r"<use [^>]*#ch-foundation[^>]*/>\n?", svg))
    found = rng.choice(uses)
    return changed(svg, *found.span(), "", "a chain of the foundation left out")


def number_redrawn(rng: Random, svg: str) -> Mutant | None:
    """Another digit in a row number."""
    start = svg.index('<g id="row-numbers">')
    end = svg.index('<g id="stripe-letters"', start)
    digits = list(re.finditer(r"#r\.3(\d)", svg[start:end]))
    if not digits:
        return None
    found = rng.choice(digits)
    other = str((int(found[1]) + rng.randint(1, 9)) % 10)
    return changed(svg, start + found.start(1), start + found.end(1), other, "a row number off")


REDRAWS: tuple[Redraw, ...] = (
    use_moved, use_moved, use_lost, dc_lost, symbol_swapped, oval_lost, foot_moved, foot_raised, rows_redrawn,
    row_shifted, stripes_redrawn, foundation_redrawn, number_redrawn,
)  # fmt: skip


def try_chart(plan: Plan, name: str, rng: Random, tally: Tally, svg: str) -> None:
    """One random mutant of the chart of a piece."""
    mutant = rng.choice(REDRAWS)(rng, svg)
    if mutant is None or mutant.text == svg:
        return
    _, reasons = chart_of(plan, plan.piece(name), mutant.text.encode())
    if reasons:
        tally.found[mutant.kind] += 1
        tally.alone += tally.asked and shows_itself(mutant.text)
    elif draws_the_same(svg, mutant.text):
        tally.equivalent["a foot no farther off than leans are drawn rounded"] += 1
    else:
        tally.escaped.append(str(mutant))


def draws_the_same(svg: str, other: str) -> bool:
    """Whether two charts show the same symbols in the same places, to a hundredth of a half cluster, which no eye
    sees and to which the lean of a dc is rounded."""
    one, two = read_chart(svg.encode()), read_chart(other.encode())
    if replace(one, rows=()) != replace(two, rows=()) or [top for top, _ in one.rows] != [top for top, _ in two.rows]:
        return False
    near = 0.011 * half_pitch(svg)
    return all(
        len(some) == len(others) and all(_near(a, b, near) for a, b in zip(some, others, strict=True))
        for (_, some), (_, others) in zip(one.rows, two.rows, strict=True)
    )


def _near(a: ChartSymbol, b: ChartSymbol, near: float) -> bool:
    return a.sign == b.sign and dist(a.foot, b.foot) < near and dist(a.head, b.head) < near


def shows_itself(svg: str) -> bool:
    """Whether the picture alone shows that it is wrong."""
    try:
        work_chart(read_chart(svg.encode()))
    except (UnreadableChart, Unworkable):
        return True
    return False


# ------------------------------------------------------------------------------------------------- the tests


@cache
def heron() -> Plan:
    return planned(CASES / "heron_top.toml", others=True)


def plans(first: int, number: int) -> Iterator[Plan]:
    """Small planned patterns and walks in turn."""
    for seed in range(first, first + number):
        plan = walk_at(seed) if seed % 2 else planned_at(seed, rows=14, clusters=7)
        if plan is not None:
            yield plan


def words_tally(first: int, number: int, each: int, asked: bool = False) -> Tally:
    """``each`` mutants of the words of ``number`` patterns."""
    tally = Tally(asked)
    for nth, plan in enumerate(plans(first, number)):
        language = ("US", "UK", "de", "US")[nth % 4]
        text = words.pattern_text(plan, language)
        rng = Random(first + nth)
        for _ in range(each):
            try_words(plan, language, rng, tally, text)
    return tally


def charts_tally(first: int, number: int, each: int, asked: bool = False) -> Tally:
    """``each`` mutants of the charts of ``number`` patterns."""
    tally = Tally(asked)
    for nth, plan in enumerate(plans(first, number)):
        (piece,) = plan.pieces
        try:
            svg = svg_of(plan, piece.name).decode()
        except MakerError:
            continue
        rng = Random(first + nth)
        for _ in range(each):
            try_chart(plan, piece.name, rng, tally, svg)
    return tally


def test_mutants_of_words_are_found() -> None:
    tally = words_tally(1, 30, 25)
    assert tally.total > 500
    assert not tally.escaped, str(tally)
    assert len(tally.found) == len(set(WORD_CHANGES))


def test_mutants_of_the_words_of_a_case_are_found() -> None:
    """With stripes told together, rows repeated and three pieces."""
    tally = Tally()
    for language in WORDS:
        text, rng = words.pattern_text(heron(), language), Random(language)
        for _ in range(18):
            try_words(heron(), language, rng, tally, text)
    assert tally.total > 40
    assert not tally.escaped, str(tally)


def test_mutants_of_charts_are_found() -> None:
    tally = charts_tally(1, 16, 25)
    assert tally.total > 300
    assert not tally.escaped, str(tally)
    assert len(tally.found) == len(set(REDRAWS))


@pytest.mark.parametrize("first", [1001, 5001, 12001])
def test_mutants_of_charts_that_once_escaped_are_found(first: int) -> None:
    """A dc on a chain that leans to where its neighbour's foot might be; a slip stitch on another one's place."""
    tally = charts_tally(first, 16, 25)
    assert tally.total > 300
    assert not tally.escaped, str(tally)


@cache
def stepped() -> str:
    """A chart in which three slip stitches, or more, lead to the turning chain of a row."""
    for plan in plans(1001, 40):
        svg = svg_of(plan, plan.pieces[0].name).decode()
        if any(row[1].count('#sl-st"') > 2 for row in definitions(svg, "row-")):
            return svg
    raise AssertionError("no step of these begins with slip stitches")


def moved(svg: str, symbol: str, nth: int, by: float) -> str:
    """A chart with the ``nth`` use of a symbol (its name begins so) moved by so many px."""
    use = list(re.finditer(rf'(<use x=")(-?[\d.]+)(" xlink:href="#{symbol}[^"]*"/>)', svg))[nth]
    return svg[: use.start(2)] + f"{float(use[2]) + by:g}" + svg[use.end(2) :]


def test_a_slip_stitch_upon_another_is_seen() -> None:
    svg = stepped()
    work_chart(read_chart(svg.encode()))
    half = half_pitch(svg)
    for nth, by in ((0, half), (1, half), (2, -half), (1, half / 4)):
        with pytest.raises((UnreadableChart, Unworkable), match="slip stitches"):
            work_chart(read_chart(moved(svg, "sl-st", nth, by).encode()))


@pytest.mark.parametrize("by", [-2.0, -1.0, 1.0, 2.0])
def test_a_dc_on_the_foundation_that_leans_otherwise_is_seen(by: float) -> None:
    """A foot a px or two off: it still stands on its chain, but not as its cluster does."""
    svg = stepped()
    foot = re.search(r'(<g id="dc[^"]*-on-chain-outer">\n<path d="M)(-?[\d.]+)( )', svg)
    assert foot is not None
    other = svg[: foot.start(2)] + f"{float(foot[2]) + by:g}" + svg[foot.end(2) :]
    with pytest.raises(UnreadableChart, match="a dc that leans otherwise"):
        work_chart(read_chart(other.encode()))


def test_mutants_of_a_wide_chart_are_found() -> None:
    """Its clusters are stated in runs, and runs of runs."""
    piece = Piece("wide", width=Fraction(76), length=Fraction(10))
    swatch = Swatch(Fraction(1), Fraction(2), Fraction(1), Fraction(2))
    plan = plan_pattern(Pattern("Wide", (swatch,), (piece,), Fabric()))
    svg = svg_of(plan, "wide").decode()
    assert 'id="run-16-of-' in svg
    tally, rng = Tally(), Random(16)
    for _ in range(60):
        try_chart(plan, "wide", rng, tally, svg)
    assert tally.total > 40
    assert not tally.escaped, str(tally)


# ------------------------------------------------------------------------------ wrong examples that were published


def closed_row(clusters: int, chains: int, dc: int) -> Told:
    """Row 1 of the closed fabric, flush at both edges."""
    steps = (
        DcInPlace(1, FromHook(5)),
        DcAlongChain(2),
        RepeatSteps((DcAlongChain(3),), clusters - 1),
        DcInPlace(1, ChainEnd()),
    )
    assert chains > 5
    return Told(1, "RS", None, steps, Count(clusters, dc, 0, 0, 1))


def test_77_clusters_are_not_210_stitches() -> None:
    """As published (see above): "210 stitches is 77 clusters". They take 231 dc and the edge stitches."""
    maker = Maker(Craft(3, 0), 210 + 3, 3, None)
    with pytest.raises(Unworkable, match=r"row 1: the chain has only 213 chains; a 214th is asked for"):
        maker.row(closed_row(77, 213, 209))
    maker = Maker(Craft(3, 0), 77 * 3 + 5, 3, None)
    with pytest.raises(Unworkable, match=r"row 1: 77 clusters take 231 dc; 209 are counted"):
        maker.row(closed_row(77, 236, 209))
    assert Maker(Craft(3, 0), 77 * 3 + 5, 3, None).row(closed_row(77, 236, 232)).wide == 233


@pytest.mark.parametrize(("chains", "over"), [(60, 1), (96, 1), (120, 1)])
def test_a_multiple_of_4_plus_3_is_not_60_nor_96_nor_120(chains: int, over: int) -> None:
    """As published (see above): "multiple of 4 plus 3" with chains that are multiples of 4."""
    plan = planned(CASES / "kite_kerchief.toml", others=True)
    text = words.pattern_text(plan, "US")
    clusters = (chains - 3) // 4
    wrong = text.replace(
        "ch 11 (a multiple of 4 plus 7: 1 × 4 + 7)", f"ch {chains} (a multiple of 4 plus 3: {clusters} × 4 + 3)"
    )
    assert wrong != text
    found = words_of(plan, "US", wrong)
    assert found.reasons == [
        f'"kerchief": {chains} chains are not {clusters} × 4 + 3: a multiple of 4 plus 3 leaves {over} over'
    ]


def test_99_is_a_multiple_of_4_plus_3() -> None:
    """Published and right (crochet2in1.com): chain 99 = 4 x 24 + 3 for 24 clusters; with a chain of its own
    under the edge stitch it is 100. Worked here with that, flush at both edges: 4 x 24 + 4."""
    between = RepeatSteps((ChainStitches(1), PassChains(1), DcAlongChain(3)), 23)
    steps = (DcInPlace(1, FromHook(5)), DcAlongChain(2), between, DcInPlace(1, ChainEnd()))
    row = Told(1, "RS", None, steps, Count(24, 73, 23, 0, 1))
    assert Maker(Craft(3, 1), 100, 3, None).row(row).clusters == 24
    with pytest.raises(Unworkable, match="all are used"):
        Maker(Craft(3, 1), 99, 3, None).row(row)


# ------------------------------------------------------------------------------------------- what is equivalent


def test_a_change_is_equivalent_only_where_the_stitches_are_the_same() -> None:
    """An argument alone does not excuse a mutant that was not found: its fabric is compared, stitch by stitch."""
    plan = planned(CASES / "kite_kerchief.toml", others=True)
    text = words.pattern_text(plan, "US")
    start = text.index("cl in first sp", pieces_begin(text))
    same = changed(text, start, start + 14, "cl in next sp", "a word for another")
    assert not words_of(plan, "US", same.text).reasons
    assert fabric_of(same.text, "US", plan) == fabric_of(text, "US", plan)
    assert argument(replace(same, was="first sp", became="next sp")) is not None
    assert argument(replace(same, was="ch 1", became="ch 2")) is None
