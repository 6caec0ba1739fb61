"""The finished text read back: every row is worked again from its words alone and compared with the plan."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from itertools import combinations, pairwise
from pathlib import Path
from string import Formatter
from types import SimpleNamespace

import pytest
from click.testing import CliRunner
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from turnchain.cli import cli
from turnchain.fabric import lattice
from turnchain.fabric import stitches as counted
from turnchain.fabric.library import recipe_of
from turnchain.fabric.plan import Edge, PiecePlan, Plan, Row
from turnchain.making import planned
from turnchain.pattern import Fabric, Neck, Pattern, Piece, Stripes, Swatch, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.records import replace
from turnchain.wording import edge_captions, edge_steps, merging, piece_phrases, words
from turnchain.wording.all_sizes import only_in
from turnchain.wording.instructions import grouping, steps
from turnchain.wording.instructions.rows import Foundation
from turnchain.wording.instructions.steps import Space
from turnchain.wording.languages.english.table import UK, US
from turnchain.wording.languages.language import Speech
from turnchain.wording.tables import LANGUAGES
from workable import YARNS, patterns

CASES = sorted((Path(__file__).parent / "cases").glob("*.toml"))


def tried(examples: int) -> settings:
    """The same examples in every run."""
    return settings(max_examples=examples, suppress_health_check=list(HealthCheck))


# ------------------------------------------------------------------------------------- reading the text back


@dataclass
class Told:
    """One row as the text has it."""

    number: int
    section: str
    side: str
    colour: str | None
    steps: list[str]
    count: str
    change_to: str | None = None
    shaped: str = ""


class Unreadable(Exception):
    """Words outside the grammar, or words that cannot be worked."""


HEADER = re.compile(
    r"(?:Row (?P<one>\d+)|Rows (?P<first>\d+) (?P<how>and|to) (?P<last>\d+)) "
    r"\((?P<side>RS|WS)(?: and (?P<other>RS|WS) in turn)?(?:, (?P<colour>[^)]+))?\): (?P<rest>.*)"
)
COUNT = r"\d+ cl \([^)]*\)"
CHANGED = r"(?:half a|\d+½?) cl (?:more|less)"
SHAPED = rf"(?P<shaped> At (?:start|end): {CHANGED}(?:; at end: {CHANGED})?\.)?"
CHANGE = r"(?: Change to (?P<change>.+) in last yo of row (?P<at>\d+)\.)?"
COLORS = r"(?: Colors: (?P<colors>.*); change in last yo of the row before\.)?"
HOW = re.compile(
    r"Rows? \d+ (?:to \d+ go|goes) over the first part of row (\d+) only\. Leave the rest of row \1 for now\."
    r"|Go back to row \d+, (?:RS|WS) facing\. Work in the same direction as row \d+ of the first shoulder\."
)
OFF = r"(?P<off> Fasten off\.)?"
SPACES = (
    r"(?P<spaces> Sp for next row, counted from its start: "
    r"(?:the first )?between \d+\w\w and \d+\w\w st(?:, then one after every \d+ st)?\.)?"
)
SINGLE = re.compile(rf"(?P<steps>[^.]*)\. (?P<count>{COUNT})\.{SHAPED}{SPACES}{OFF}")
ALIKE = re.compile(rf"(?P<steps>[^.]*)\. Each row: (?P<count>{COUNT})\.{SHAPED}{CHANGE}{COLORS}{OFF}")
CYCLE = re.compile(r"from row (\d+) over and over to row (\d+): (.*) \(begins in rows (.*)\)")
AGAIN = re.compile(
    r"Repeat rows (?P<m1>\d+) (?:and|to) (?P<m2>\d+)(?:, ending with row (?P<end>\d+))?\. "
    rf"Counts in turn: (?P<counts>{COUNT}(?:; {COUNT})*)\.{CHANGE}{COLORS}{OFF}"
)


def fullmatch(pattern: re.Pattern[str], text: str) -> re.Match[str]:
    found = pattern.fullmatch(text)
    if found is None:
        raise Unreadable(text)
    return found


def read_piece(text: str) -> tuple[dict[str, int | str | None], list[Told]]:
    """The foundation and every row of a piece's text, in the order worked."""
    paragraphs = text.strip().split("\n\n")
    assert paragraphs[0].startswith("## ")
    found = fullmatch(
        re.compile(
            r"Foundation: (?:with (?P<colour>.+), )?ch (?P<n>\d+) \(a multiple of (?P<m>\d+) plus (?P<p>\d+): "
            r"(?P<t>\d+) × (\d+) \+ (\d+)\)\. The last (?P<tch>\d+) ch are the tch of row 1\."
        ),
        paragraphs[2],
    )
    foundation: dict[str, int | str | None] = {key: int(found[key]) for key in ("n", "m", "p", "t", "tch")}
    assert (found[6], found[7]) == (found["m"], found["p"])
    foundation["colour"] = found["colour"]
    rows: list[Told] = []
    section = "body"
    for paragraph in paragraphs[3:]:
        if paragraph.startswith("### "):
            section = paragraph[4:].lower()
        elif HEADER.fullmatch(paragraph):
            rows += read_block(paragraph, section, rows)
        else:
            fullmatch(HOW, paragraph)
    single = re.search(r"Work in (.+) throughout\.", paragraphs[1])
    for row in rows:
        row.colour = row.colour or (single[1] if single else None)
    return foundation, rows


def read_block(paragraph: str, section: str, before: list[Told]) -> list[Told]:
    head = fullmatch(HEADER, paragraph)
    if head["one"]:
        return [read_single(head, section)]
    numbers = range(int(head["first"]), int(head["last"]) + 1)
    assert (head["how"] == "and") == (len(numbers) == 2)
    sides = (head["side"], head["other"])
    assert set(sides) == {"RS", "WS"}
    again = AGAIN.fullmatch(head["rest"])
    found = again or fullmatch(ALIKE, head["rest"])
    rows = []
    for index, number in enumerate(numbers):
        if again:
            models = list(range(int(again["m1"]), int(again["m2"]) + 1))
            model = models[index % len(models)]
            steps, shaped = next(
                (row.steps, row.shaped) for row in reversed(before) if (row.number, row.section) == (model, section)
            )
            count = again["counts"].split("; ")[index % len(models)]
            if number == numbers[-1] and index % len(models) != len(models) - 1:
                assert again["end"] == str(model)
        else:
            steps, count, shaped = split_steps(found["steps"]), found["count"], found["shaped"] or ""
        rows.append(Told(number, section, sides[index % 2], head["colour"], steps, count, None, shaped))
    colour_block(rows, found)
    return rows


def read_single(head: re.Match[str], section: str) -> Told:
    found = fullmatch(SINGLE, head["rest"])
    steps = split_steps(found["steps"])
    change = None
    for step in list(steps):
        if match := re.fullmatch(r"change to (.+) in last yo", step):
            change = match[1]
            steps.remove(step)
    shaped = found["shaped"] or ""
    return Told(int(head["one"]), section, head["side"], head["colour"], steps, found["count"], change, shaped)


def colour_block(rows: list[Told], found: re.Match[str]) -> None:
    """Yarns and changes of rows told together."""
    if found["change"]:
        assert int(found["at"]) == rows[-1].number
        rows[-1].change_to = found["change"]
    if not found["colors"]:
        return
    colours = read_stripes(found["colors"])
    for row in rows:
        row.colour = colours[row.number]
        follows = colours.get(row.number + 1)
        if follows is not None and follows != row.colour:
            row.change_to = follows
    assert set(colours) <= {row.number for row in rows} | {rows[-1].number + 1}


def read_stripes(text: str) -> dict[int, str]:
    colours: dict[int, str] = {}
    for part in re.findall(r"from row [^(]*\([^)]*\)|rows? [^,]+", text):
        if match := re.fullmatch(r"row (\d+) (.+)", part):
            told = {int(match[1]): match[2]}
        elif match := re.fullmatch(r"rows (\d+) (?:and|to) (\d+) (.+)", part):
            told = dict.fromkeys(range(int(match[1]), int(match[2]) + 1), match[3])
        else:
            found = fullmatch(CYCLE, part)
            runs = [fullmatch(re.compile(r"(\d+) rows? (.+)"), run) for run in found[3].split(", ")]
            order = [run[2] for run in runs for _ in range(int(run[1]))]
            first, last = int(found[1]), int(found[2])
            told = {row: order[(row - first) % len(order)] for row in range(first, last + 1)}
            begins = [int(row) for row in re.findall(r"\d+", found[4])]
            assert begins == list(range(first, last + 1, len(order)))
        assert not set(told) & set(colours), "a row in two yarns"
        colours |= told
    return colours


def split_steps(text: str) -> list[str]:
    """The steps of a sentence; a repeat is one step."""
    text = text[:1].lower() + text[1:]
    return re.split(r", (?![^\[]*\])(?![^(]*\))", text)


# --------------------------------------------------------------------------------------- working it once more


@dataclass
class Spot:
    """post, extra, dc (of a cluster), space."""

    what: str
    cluster: int = -1


@dataclass
class Work:
    """One row worked along ``walk`` (the row below, from where this row goes along it), by its words."""

    k: int
    g: int
    walk: list[Spot]
    at: int = 0
    made: list[Spot] = field(default_factory=list)
    clusters: int = 0
    chains_hung: int = 0
    chain: int | None = None  # on a new chain: the number of the chain worked last, from the hook
    chain_total: int = 0
    tch: int = 0  # on a new chain: how many of it are the turning chain, as told
    passed_edge: bool = False
    counts: dict[str, int] = field(default_factory=lambda: {"dc": 0, "ch": 0, "sl st": 0, "tch": 0})

    def post(self, chains: int) -> None:
        """The turning chain."""
        assert chains in (3, 3 + self.g), chains
        self.counts["tch"] += 1
        self.made.append(Spot("post"))
        if self.g and chains == 3 + self.g:
            self.made.append(Spot("space"))

    def cluster(self) -> None:
        if self.made[-1].what in ("dc", "extra"):
            assert not self.g, "clusters without a gap between them"
            self.made.append(Spot("space"))
        self.made += [Spot("dc", self.clusters) for _ in range(self.k)]
        self.clusters += 1
        self.counts["dc"] += self.k

    def gap(self) -> None:
        self.made.append(Spot("space"))
        self.counts["ch"] += self.g

    def end(self, dc: int) -> None:
        if dc == 2:
            assert not self.g
            self.made += [Spot("space"), Spot("extra")]
        self.made.append(Spot("post"))
        self.counts["dc"] += dc

    def next_space(self) -> None:
        self.at = next(i for i in range(self.at + 1, len(self.walk)) if self.walk[i].what == "space")

    def next_cluster(self) -> list[int]:
        """Where the dc of the next whole cluster are."""
        first = next(
            i
            for i in range(self.at + 1, len(self.walk))
            if self.walk[i].what == "dc" and self.walk[i - 1].what != "dc"
        )
        return list(range(first, first + self.k))

    def left(self) -> list[Spot]:
        return self.walk[self.at + 1 :]

    def whole_left(self) -> int:
        numbers = [spot.cluster for spot in self.left()]
        return sum(numbers.count(number) == self.k for number in set(numbers) - {-1})


def work_rows(piece: PiecePlan, foundation: int, tch: int, told: list[Told]) -> list[Work]:
    k, g = piece.recipe.unit_width, piece.recipe.gap
    made: list[Work] = []
    places: dict[tuple[str, int], Work] = {}
    before: Work | None = None
    first_end: tuple[Work, int] | None = None
    for row in told:
        try:
            joined = any("join " in step for step in row.steps)
            if before is None:
                work = Work(k, g, [])
                work.chain, work.chain_total = tch + 1, foundation
                work.post(tch)
                run(work, row.steps)
                assert work.chain == foundation, f"{work.chain} of {foundation} chains"
            else:
                if joined:
                    assert first_end is not None
                    below = places["body", row.number - 1]
                    work = Work(k, g, below.made[::-1], at=first_end[1])
                else:
                    work = Work(k, g, before.made[::-1])
                run(work, row.steps)
            if row.section == "first shoulder" and first_end is None:
                first_end = (work, work.at)
        except (Unreadable, AssertionError, StopIteration, IndexError) as error:
            raise Unreadable(f"row {row.number} of the {row.section}: {row.steps}: {error!r}") from error
        places[row.section, row.number] = work
        made.append(work)
        before = work
    return made


def run(work: Work, steps: list[str]) -> None:
    rest = list(steps)
    while rest:
        step = rest.pop(0)
        if match := re.fullmatch(r"\[(.*)\] (\d+) times", step):
            assert int(match[2]) > 1
            for _ in range(int(match[2])):
                run(work, split_steps(match[1]))
        elif step == "turn" or (step.startswith("skip ") and step.endswith("shoulder")):
            skip_between(work, step)
        elif match := re.fullmatch(r"ch (\d+)(?: \(last ([34]) ch are tch\))?", step):
            chain(work, int(match[1]), int(match[2] or 0), rest)
        else:
            one(work, step, rest)


def skip_between(work: Work, step: str) -> None:
    """Nothing for "turn"; whole clusters left between two sections."""
    if match := re.fullmatch(r"skip (\d+) cl after the first shoulder", step):
        for _ in range(int(match[1])):
            work.at = work.next_cluster()[-1]


def chain(work: Work, number: int, tch: int, rest: list[str]) -> None:
    if not work.made:
        if tch:
            assert rest[0] == "turn"
            work.tch = tch
            work.chain_total = number
            work.chain = 0
        else:
            work.post(number)
        return
    assert (number, tch) == (work.g, 0)
    work.gap()


def one(work: Work, step: str, rest: list[str]) -> None:
    for pattern, action in ACTIONS:
        if match := re.fullmatch(pattern, step):
            action(work, match, rest)
            return
    raise Unreadable(step)


def own_post(work: Work, first: int) -> None:
    """The turning chain of a new chain, as told; the chain that takes the first dc agrees."""
    if work.made:
        return
    tch = work.tch
    assert tch == (3 if first == 5 else 3 + work.g)
    work.counts["ch"] += work.chain_total - tch
    work.post(tch)


def from_hook(work: Work, match: re.Match[str], rest: list[str]) -> None:
    first = int(match[1])
    follows = rest[0] if rest else ""
    own_post(work, first)
    assert first == (5 if work.made[-1].what == "post" else 5 + 2 * work.g)
    work.chain = first
    if following_dc(follows) == work.k - 1:
        rest.pop(0)
        work.chain += work.k - 1
        work.cluster()
    else:
        assert not work.g, "only a closed edge has an extra dc"
        work.made.append(Spot("extra"))
        work.counts["dc"] += 1


def following_dc(step: str) -> int:
    if step == "dc in next ch":
        return 1
    match = re.fullmatch(r"dc in each of next (\d+) ch", step)
    return int(match[1]) if match else 0


def dc_in_chains(work: Work, match: re.Match[str], rest: list[str]) -> None:
    number = int(match[1])
    assert number == work.k
    assert work.chain is not None
    work.chain += number
    work.cluster()


def last_but_one_chain(work: Work, match: re.Match[str], rest: list[str]) -> None:
    """The extra dc of a closed edge."""
    assert not work.g
    assert work.chain is not None
    work.chain += 1
    work.made += [Spot("space"), Spot("extra")]
    work.counts["dc"] += 1


def skip_chains(work: Work, match: re.Match[str], rest: list[str]) -> None:
    number = int(match[1])
    assert work.chain is not None
    work.chain += number
    if not work.made:
        own_post(work, 0)
        assert work.chain == work.chain_total


def last_chain(work: Work, match: re.Match[str], rest: list[str]) -> None:
    assert work.chain is not None
    work.chain += 1
    work.end(1)


def in_space(work: Work, match: re.Match[str], rest: list[str]) -> None:
    what, which = match[1], match[2]
    if work.chain is not None and work.chain_total and work.walk:
        assert work.chain == work.chain_total, "chains left over"
    if which == "first":
        assert work.at == 0
        assert work.walk[1].what != "dc"
    if which != "same":
        passed = work.at
        work.next_space()
        between = {spot.cluster for spot in work.walk[passed + 1 : work.at]} - {-1, work.walk[passed].cluster}
        assert len(between) <= 1, "a cluster too many passed"
        if what in ("cl", "dc", "2 dc") and passed == 0:
            assert not between, "a cluster passed without a word"
    if what == "cl":
        work.cluster()
    elif what == "sl st":
        work.counts["sl st"] += 1
    else:
        work.end(2 if what == "2 dc" else 1)


def in_each_space(work: Work, match: re.Match[str], rest: list[str]) -> None:
    assert not work.g
    for _ in range(int(match[1])):
        work.next_space()
        work.cluster()


def skip_cluster(work: Work, match: re.Match[str], rest: list[str]) -> None:
    found = work.next_cluster()
    if match[1] == "first":
        assert work.at == 0
        assert found[0] == 1
    if match[1] in ("first", "next"):
        work.at = found[-1]
        return
    work.at = found[-1]
    assert work.whole_left() == 0, "not the last cluster"


def at_top(work: Work, match: re.Match[str], rest: list[str]) -> None:
    assert all(spot.what in ("extra", "dc") for spot in work.left()[:-1])
    assert work.whole_left() == 0, "a cluster passed without a word"
    assert not any(spot.what == "space" for spot in work.left())
    work.at = len(work.walk) - 1
    if match[1] == "(cl, dc)":
        work.cluster()
        work.end(1)
    else:
        work.end(2 if match[1] == "2 dc" else 1)


def at_base(work: Work, match: re.Match[str], rest: list[str]) -> None:
    assert work.made[-1].what == "post"
    if match[1] == "cl":
        work.cluster()
    else:
        assert not work.g
        work.made.append(Spot("extra"))
        work.counts["dc"] += 1


def at_edge(work: Work, match: re.Match[str], rest: list[str]) -> None:
    assert work.chain == work.chain_total, f"{work.chain} of {work.chain_total} chains passed"
    assert work.at == 0
    work.cluster()


def at_last_dc(work: Work, match: re.Match[str], rest: list[str]) -> None:
    found = work.next_cluster()
    work.at = found[-1]
    assert len(work.left()) == 1, "not next to the edge stitch"
    work.end(1)


def on_cluster(work: Work, match: re.Match[str], rest: list[str]) -> None:
    work.at = work.next_cluster()[int(match[1]) - 1]
    work.end(1)


def join(work: Work, match: re.Match[str], rest: list[str]) -> None:
    place = match[1]
    if place == "in next sp":
        work.next_space()
    elif found := re.fullmatch(r"in (\d)\w\w dc of (next|same) cl", place):
        if found[2] == "next":
            work.at = work.next_cluster()[int(found[1]) - 1]
        else:
            number = work.walk[work.at].cluster
            work.at = [i for i, spot in enumerate(work.walk) if spot.cluster == number][int(found[1]) - 1]
    else:
        assert place == "in same sp"


def skip_edge(work: Work, match: re.Match[str], rest: list[str]) -> None:
    assert work.at == 0
    work.passed_edge = True


def slip_along(work: Work, match: re.Match[str], rest: list[str]) -> None:
    assert work.passed_edge
    for _ in range(int(match[1] or 1)):
        work.at += 1
        if not work.g and work.walk[work.at].what == "space":
            work.at += 1
        work.counts["sl st"] += 1


def leave(work: Work, match: re.Match[str], rest: list[str]) -> None:
    assert not rest
    if match[1] == "tch":
        assert len(work.left()) == 1
    elif match[2]:
        assert work.whole_left() == int(match[2])
    else:
        assert work.left()


ACTIONS = (
    (r"dc in (\d+)th ch from hook", from_hook),
    (r"dc in each of next (\d+) ch", dc_in_chains),
    (r"dc in next ch", last_but_one_chain),
    (r"skip (\d+) ch", skip_chains),
    (r"dc in last ch", last_chain),
    (r"(cl|dc|2 dc|sl st) in (first|next|same) sp", in_space),
    (r"cl in each of next (\d+) sp", in_each_space),
    (r"skip (first|next|last) cl", skip_cluster),
    (r"(dc|2 dc|\(cl, dc\)) in 3rd ch of tch", at_top),
    (r"(cl|dc) in base of tch", at_base),
    (r"cl in edge st", at_edge),
    (r"skip edge st", skip_edge),
    (r"dc in last dc of last cl", at_last_dc),
    (r"dc in (\d)\w\w dc of next cl", on_cluster),
    (r"join \w+ (in .*? (?:sp|cl))(?: (?:after|as) the first shoulder)?", join),
    (r"sl st in (?:each of )?next (?:(\d+) )?st", slip_along),
    (r"leave (tch|last (\d+) cl|rest of row) unworked", leave),
)

# ---------------------------------------------------------------------------------------- text against plan


def disagreements(piece: PiecePlan) -> list[str]:
    """Everything in which the text of ``piece``, read and worked, is not its plan."""
    foundation, told = read_piece(words.piece_text(piece, "US"))
    assert isinstance(foundation["n"], int)
    assert isinstance(foundation["tch"], int)
    made = work_rows(piece, foundation["n"], foundation["tch"], told)
    found = []
    if foundation["n"] != piece.foundation_chain or foundation["colour"] != piece.rows[0].colour:
        found.append(f"foundation {foundation}")
    if foundation["n"] != int(foundation["t"]) * int(foundation["m"]) + int(foundation["p"]):  # type: ignore[arg-type]
        found.append(f"sum of the foundation {foundation}")
    for row, words_of, work in zip(piece.rows, told, made, strict=True):
        after = [other for other in piece.rows if other.under == row.index and not other.joined]
        change = after[0].colour if after and after[0].colour != row.colour else None
        counts = row.counts
        parts = [(counts.dc, "dc"), (counts.ch, "ch"), (counts.sl_st, "sl st"), (counts.tch, "tch")]
        count = f"{row.clusters} cl ({', '.join(f'{n} {name}' for n, name in parts if n)})"
        says = {
            "number": (row.number, words_of.number),
            "section": (row.section, words_of.section),
            "side": ("RS" if row.number % 2 else "WS", words_of.side),
            "colour": (row.colour, words_of.colour),
            "change": (change, words_of.change_to),
            "count in words": (count, words_of.count),
            "shaping": (shaped_by(piece, row), words_of.shaped.strip()),
            "clusters worked": (row.clusters, work.clusters),
            "stitches worked": ({name: n for n, name in parts}, work.counts),
        }
        found += [f"{row.section} row {row.number}: {key}: {a} != {b}" for key, (a, b) in says.items() if a != b]
    return found


def shaped_by(piece: PiecePlan, row: Row) -> str:
    """What the edges do, in words, from where they stand."""
    below, told = piece.below(row), []
    for where, side, inner in (("start", row.starts, row.joined), ("end", row.ends, not row.joined)):
        if below is None or (piece.begins_section(row) and inner):
            continue
        more = (row.edge(side).at - below.edge(side).at) * (-1 if side == "left" else 1)
        amount = "half a" if abs(more) == 1 else f"{abs(more) // 2}{'½' if more % 2 else ''}"
        if more:
            told.append(f"at {where}: {amount} cl {'more' if more > 0 else 'less'}")
    return "; ".join(told).replace("at", "At", 1) + ("." if told else "")


def whole(plan: Plan) -> list[str]:
    return [words_of for piece in plan.pieces for words_of in disagreements(piece)]


@cache
def case(path: Path) -> Plan:
    return planned(path)


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_every_number_of_a_case_is_the_plans(path: Path) -> None:
    assert whole(case(path)) == []


@pytest.mark.slow
@tried(80)
@given(patterns(most_rows=24, most_clusters=14))
def test_every_number_of_any_pattern_is_the_plans(pattern: Pattern) -> None:
    assert whole(plan_pattern_or_none(pattern)) == []


def plan_pattern_or_none(pattern: Pattern) -> Plan:
    from hypothesis import reject

    from turnchain.errors import PatternError

    try:
        return plan_pattern(pattern)
    except PatternError:
        reject()


@st.composite
def divided(draw: st.DrawFn) -> Pattern:
    """Pieces that divide for a neck, of every shape, both fabrics, k of 2 to 5."""
    width = Fraction(draw(st.integers(36, 140)), 2)
    shape = draw(st.sampled_from(["slant", "round", "vee", "square"]))
    shoulder = width * draw(st.integers(6, 19)) / 40
    height = Fraction(draw(st.integers(20, 60)), 2)
    neck = Neck(shoulder, height * draw(st.integers(2, 16)) / 20, shape)
    row_plan = draw(st.sampled_from(["auto", "alike", "alternate"]))
    piece = Piece("one", width=width, length=height, neck=neck, row_plan=row_plan)
    fabric = Fabric(draw(st.integers(2, 5)), draw(st.integers(0, 1)))
    heights = tuple(draw(st.lists(st.integers(1, 3), min_size=1, max_size=4)))
    swatch = Swatch(Fraction(10), Fraction(20), Fraction(20), Fraction(20))
    return Pattern("Divided", (swatch,), (piece,), fabric, YARNS, Stripes(("Reed", "Silt", "Kelp"), heights))


@pytest.mark.quick(0)
@tried(80)
@given(divided())
def test_every_number_of_a_divided_piece_is_the_plans(pattern: Pattern) -> None:
    assert whole(plan_pattern_or_none(pattern)) == []


@st.composite
def walks(draw: st.DrawFn) -> PiecePlan:
    """Pieces whose edges wander by every move there is, forced ones and steps too, whatever a planner would do."""
    fabric, phase = Fabric(draw(st.integers(2, 5)), draw(st.integers(0, 1))), draw(st.integers(0, 1))
    at = (0, draw(st.integers(2, 20)))
    assume(lattice.clusters(*at, 1 + phase) > 0)
    rows = [made_row(fabric, phase, 1, at, None)]
    for number in range(2, draw(st.integers(2, 9)) + 1):
        steps = [draw(st.sampled_from([0, 0, 1, 1, -1, -1, 2, 3, 4, 5, 6, 7, -2, -4, -6])) for _ in range(2)]
        if lattice.starting_side(number) == "left":
            steps[1] = max(steps[1], -1)  # a row cannot end with a step out
        else:
            steps[0] = max(steps[0], -1)
        new = (rows[-1].left.at + steps[0], rows[-1].right.at - steps[1])
        inside = all(rows[-1].left.at < at < rows[-1].right.at or step < 2 for at, step in zip(new, steps, strict=True))
        if inside and lattice.clusters(*new, number + phase) > 0:
            rows.append(made_row(fabric, phase, number, new, rows[-1]))
        else:
            break
    first = rows[0]
    model = case(CASES[0]).pieces[0]
    kinds = (first.edge(first.starts).kind, first.edge(first.ends).kind)
    chains = counted.foundation(recipe_of(fabric), first.clusters, *kinds)
    return replace(model, name="walk", recipe=recipe_of(fabric), phase=phase, foundation_chain=chains, rows=tuple(rows))


def made_row(fabric: Fabric, phase: int, number: int, at: tuple[int, int], below: Row | None) -> Row:
    """One row on the lattice, in the first yarn for three rows and then in the second."""
    recipe = recipe_of(fabric)
    edges = []
    for side, place, inwards in (("left", at[0], 1), ("right", at[1], -1)):
        step = (place - below.edge(side).at) * inwards if below else 0
        move = recipe.table.named(below.edge(side).kind, step) if below else "straight"
        size = abs(step) if move in ("step_in", "step_out") else 0
        edges.append(Edge(place, recipe.kind(place, number + phase), move, size))
    starts = lattice.starting_side(number)
    kinds = {"left": below.left.kind, "right": below.right.kind} if below else {"left": None, "right": None}
    work = [
        counted.EdgeWork(edge.kind, edge.move, edge.step, kinds[side])
        for side, edge in zip(("left", "right"), edges, strict=True)
    ]
    work = work if starts == "left" else work[::-1]
    clusters = lattice.clusters(*at, number + phase)
    counts = counted.count(recipe, clusters, *work)
    under = None if below is None else below.index
    colour = "Reed" if number % 6 < 3 else "Silt"
    place = ("body", number, number - 1, under, False)
    return Row(*place, edges[0], edges[1], starts, clusters, colour, counts, (number + phase) % 2)


@pytest.mark.slow
@tried(800)
@given(walks())
def test_every_number_of_any_walk_is_the_plans(piece: PiecePlan) -> None:
    assert disagreements(piece) == []


def test_the_walks_meet_every_move_at_both_ends() -> None:
    met = set()

    @tried(400)
    @given(walks())
    def look(piece: PiecePlan) -> None:
        for row in piece.rows[1:]:
            below = piece.below(row)
            assert below is not None
            for where, side in (("start", row.starts), ("end", row.ends)):
                met.add((piece.recipe.gap, where, row.edge(side).move, below.edge(side).kind))

    look()
    natural = [("straight", "flush"), ("straight", "spaced"), ("decrease", "flush"), ("increase", "spaced")]
    other = [("forced_decrease", "spaced"), ("forced_increase", "flush"), ("step_in", "flush"), ("step_in", "spaced")]
    wanted = {(g, where, *how) for g in (0, 1) for where in ("start", "end") for how in natural + other}
    out = {(g, "start", "step_out", kind) for g in (0, 1) for kind in ("flush", "spaced")}
    assert met == wanted | out


def spoilt(text: str, old: str, new: str) -> str:
    assert old in text
    return text.replace(old, new, 1)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("ch 93 (a multiple of 4 plus 5: 22", "ch 97 (a multiple of 4 plus 5: 23"),
        ("Dc in 5th ch", "Dc in 7th ch"),
        ("cl in next sp] 20 times", "cl in next sp] 21 times"),
        ("skip first cl, ", ""),
        ("skip last cl, ", ""),
        ("ch 1, skip last cl", "skip last cl"),
        ("Row 13 (RS", "Row 13 (WS"),
        ("leave tch unworked", "leave last 1 cl unworked"),
        ("(64 dc", "(65 dc"),
        ("rows 3 and 4 Silt", "rows 3 to 5 Silt"),
        ("change to Reed in last yo", "change to Silt in last yo"),
        ("At end: half", "At end: all"),
        ("Ch 4, turn, skip first cl", "Ch 3, turn, skip first cl"),
    ],
)
def test_a_slip_in_the_text_is_noticed(old: str, new: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The reader of these tests has teeth."""
    piece = case(CASES[0]).piece("front")
    text = spoilt(words.piece_text(piece, "US"), old, new)
    monkeypatch.setattr(words, "piece_text", lambda *_: text)
    try:
        found = disagreements(piece)
    except (Unreadable, AssertionError, KeyError) as error:
        found = [str(error)]
    assert found


# -------------------------------------------------------------------------------- the technical editor's list

ABBREVIATION = re.compile(r"^- (?P<short>.+?): (?P<full>.+)$", re.MULTILINE)


def rows_of(text: str) -> str:
    """Everything after the list of abbreviations."""
    return text.split("\n## ", 2)[2]


def case_of(name: str) -> Plan:
    """The plan of the case called ``name``."""
    return case(CASES[0].with_name(f"{name}.toml"))


def all_plans() -> list[Plan]:
    return [case(path) for path in CASES]


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_the_abbreviations_are_those_used_and_no_others(path: Path, language: str) -> None:
    text = words.pattern_text(case(path), language)
    listed = dict(ABBREVIATION.findall(text))
    assert tuple(listed.items()) == words.abbreviations(case(path), language)
    used = {
        token.short
        for token in LANGUAGES[language].tokens.values()
        if token.full and re.search(rf"(?<!\w){re.escape(token.short)}(?!\w)", rows_of(text), re.IGNORECASE)
    }
    assert set(listed) == used
    assert list(listed) == sorted(listed, key=str.lower)


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_a_cluster_is_explained_once(path: Path) -> None:
    text = words.pattern_text(case(path), "US")
    assert text.count("Cluster (cl): 3 dc in the place named") == 1
    assert "not the cluster whose stitches are joined" in text
    assert words.special_stitches(case(path), "US")[0] in text


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_every_stitch_word_of_a_row_is_known(path: Path) -> None:
    """No word stands in a row that a maker was not told: only these, numbers and the names of yarns."""
    plan = case(path)
    plain = set(
        re.findall(
            r"\w+",
            "row rows rs ws and to in turn ch dc cl sp tch st sl skip first next last of each times from hook are for "
            "counted its between one after every then as base edge leave unworked rest change yo repeat ending with "
            "counts colors the before over begins "
            "at start end half a more less fasten off th rd nd",
        )
    )
    names = {word.lower() for yarn in plan.pattern.yarns for word in yarn.name.split()}
    for piece in plan.pieces:
        for paragraph in words.piece_text(piece, "US").split("\n\n")[3:]:
            found = {word.lower() for word in re.findall(r"[A-Za-z]+", paragraph)}
            assert found <= plain | names, found - plain - names


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_chain_count_says_that_each_post_has_a_chain(language: str) -> None:
    text = words.pattern_text(case(CASES[0]), language)
    assert {
        "US": "a ch of its own under the edge stitch",
        "UK": "a ch of its own under the edge stitch",
        "de": "unter der Randmasche an jedem Ende eine eigene Lm",
        "fr": "une ml à elle sous la maille de bord à chaque bout",
    }[language] in text


def test_multiples_are_those_of_the_fabric() -> None:
    """Fabric model, the foundation: for k = 3 and g = 1, 4J + 6, 4J + 5, 4J + 4, 4J + 7 by the edges of row 1."""
    plus = {("spaced", "flush"): 6, ("flush", "spaced"): 5, ("flush", "flush"): 4, ("spaced", "spaced"): 7}
    seen = set()
    for plan in all_plans():
        for piece in plan.pieces:
            first = piece.rows[0]
            if piece.recipe == recipe_of(Fabric(3, 1)):
                foundation, _ = read_piece(words.piece_text(piece, "US"))
                kinds = (first.edge(first.starts).kind, first.edge(first.ends).kind)
                assert (foundation["m"], foundation["p"]) == (4, plus[kinds])
                seen.add(kinds)
    assert len(seen) == 4


def test_a_single_row_is_told_as_it_stands_in_the_text() -> None:
    piece = case(CASES[0]).piece("front")
    text = words.piece_text(piece, "US")
    for number in (1, 12, 13, 19, 20, 30):
        assert words.row_words(piece, piece.rows[number - 1], "US") in text
    alone = words.row_words(piece, piece.rows[4], "UK")
    assert alone == (
        "Row 5 (RS, Reed): Ch 3, turn, cl in first sp, [ch 1, cl in next sp] 21 times, ch 1, miss last cl, "
        "tr in 3rd ch of tch. 22 cl (67 tr, 22 ch, 1 tch)."
    )


@tried(30)
@given(patterns(most_rows=16, most_clusters=9))
def test_every_row_can_be_understood_alone(pattern: Pattern) -> None:
    """A row's words name no other row, and end in its count."""
    plan = plan_pattern_or_none(pattern)
    for piece in plan.pieces:
        for row in piece.rows:
            alone = words.row_words(piece, row, "US")
            assert alone.startswith(f"Row {row.number} (")
            assert not re.search(r"rows? \d", alone)
            assert re.search(r"\. \d+ cl \(", alone)


# -------------------------------------------------------------------------------------------------- US and UK


def test_us_and_uk_names_are_the_published_pairs() -> None:
    """Three published conversion tables, which agree (addresses not kept): sc = UK dc, dc = UK tr, sl st = ss, skip =
    miss."""
    pairs = {"sc": "sc dc", "dc": "dc tr", "ch": "ch ch", "sl_st": "sl st ss", "skip": "skip miss"}
    for key, pair in pairs.items():
        assert f"{LANGUAGES['US'].tokens[key].short} {LANGUAGES['UK'].tokens[key].short}" == pair


def converted(text: str, to: str, names: list[str] | None = None) -> str:
    """``text``, a finished pattern in one kind of English, in the terms ``to``, in one pass over its words. ``names``
    are left as they stand, even where a word of the craft is among them."""
    wanted, given = (US, UK) if to == "US" else (UK, US)
    pairs: dict[str, str] = {}
    for key, token in given.tokens.items():
        for old, new in ((token.short, wanted.tokens[key].short), (token.full, wanted.tokens[key].full)):
            if old != new:
                pairs |= {old: new, old[0].upper() + old[1:]: new[0].upper() + new[1:]}
    kept = sorted({name for name in names or () if name}, key=len, reverse=True)
    words = [*kept, *sorted(pairs, key=len, reverse=True)]
    found = re.compile(r"(?<!\w)(?:" + "|".join(re.escape(word) for word in words) + r")(?!\w)")
    return found.sub(lambda match: match[0] if match[0] in kept else pairs[match[0]], text)


def test_terms_do_not_chain() -> None:
    """Replacing from left to right would turn sc into dc and that into tr."""
    assert converted("Sc in next sc, dc in 2nd dc, sl st, skip 1 ch", "UK") == (
        "Dc in next dc, tr in 2nd tr, ss, miss 1 ch"
    )
    assert converted("single crochet, double crochet", "UK") == "double crochet, treble crochet"
    assert converted(converted("sc, dc, double crochet, yo, color", "UK"), "US") == "sc, dc, double crochet, yo, color"


def names_of(plan: Plan) -> list[str]:
    pattern = plan.pattern
    return [pattern.title, *(yarn.name for yarn in pattern.yarns), *(piece.name for piece in pattern.pieces)]


def identities(plan: Plan) -> None:
    names = names_of(plan)
    uk = words.pattern_text(plan, "UK")
    assert converted(converted(uk, "US", names), "UK", names) == uk
    for piece in plan.pieces:
        in_us, in_uk = words.piece_text(piece, "US"), words.piece_text(piece, "UK")
        assert converted(in_us, "UK", names) == in_uk
        assert converted(in_uk, "US", names) == in_us


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_uk_to_us_and_back_is_the_same_text(path: Path) -> None:
    identities(case(path))


@pytest.mark.quick(0)
@tried(40)
@given(st.one_of(patterns(most_rows=16, most_clusters=9), divided()))
def test_uk_to_us_and_back_is_the_same_text_of_any_pattern(pattern: Pattern) -> None:
    identities(plan_pattern_or_none(pattern))


def test_a_yarn_named_like_a_stitch_keeps_its_name() -> None:
    yarns = (Yarn("Miss dc", "#b9b36a"), Yarn("skip-stone", "#e8dcc4"))
    swatch = Swatch(Fraction(10), Fraction(20), Fraction(20), Fraction(20))
    piece = Piece("tr-shape", width=Fraction(10), length=Fraction(5))
    stripes = Stripes(("Miss dc", "skip-stone"))
    plan = plan_pattern(Pattern("A dc thing", (swatch,), (piece,), yarns=yarns, stripes=stripes))
    assert "Miss dc" in words.pattern_text(plan, "US")
    identities(plan)


def test_markdown_signs_in_a_name_do_no_harm() -> None:
    yarns = (Yarn("*Sun* [2]", "#b9b36a"), Yarn("a_b", "#e8dcc4"))
    swatch = Swatch(Fraction(10), Fraction(20), Fraction(20), Fraction(20))
    piece = Piece("bag", width=Fraction(10), length=Fraction(5))
    plan = plan_pattern(Pattern("#1", (swatch,), (piece,), yarns=yarns, stripes=Stripes(("*Sun* [2]", "a_b"))))
    text = words.pattern_text(plan)
    assert text.startswith("# \\#1\n")
    assert r"with \*Sun\* \[2\], ch" in text
    assert words.row_words(plan.pieces[0], plan.pieces[0].rows[0], "US").startswith("Row 1 (RS, *Sun* [2]): ")


# -------------------------------------------------------------------------------------------------- languages


def slots(template: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(template) if name}


@pytest.mark.parametrize("code", LANGUAGES)
def test_a_language_lacks_nothing(code: str) -> None:
    language, model = LANGUAGES[code], LANGUAGES["US"]
    # "in.last_dc/st-f" is "in.last_dc" for other stitches
    plain, wanted_keys = ({key.partition("/")[0] for key in one.phrases} for one in (language, model))
    assert plain == wanted_keys
    assert plain <= set(language.phrases)
    assert set(language.tokens) == set(model.tokens)
    for key, template in language.phrases.items():
        wanted = slots(model.phrases[key.partition("/")[0]]) - set(model.tokens)
        assert slots(template) - set(language.tokens) == wanted, key


def test_a_language_not_yet_reviewed_says_so() -> None:
    for code, language in LANGUAGES.items():
        text = words.pattern_text(case(CASES[0]), code)
        assert (language.phrases["review"] in text) is (not language.reviewed)
    assert not LANGUAGES["de"].reviewed
    assert not LANGUAGES["fr"].reviewed


def numbers(text: str) -> list[int]:
    return sorted(int(number) for number in re.findall(r"\d+", text))


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_numbers_are_the_same_in_every_language(path: Path) -> None:
    """German writes "1 Stb" where English has "dc", so ones and the nth are left out."""
    for piece in case(path).pieces:
        english = words.piece_text(piece, "US").split("\n\n")
        german = words.piece_text(piece, "de").split("\n\n")
        for one_of, other in zip(english, german, strict=True):
            assert [n for n in numbers(one_of) if n != 1] == [n for n in numbers(other) if n != 1]


# ------------------------------------------------------------------------------------------ by hand, from the rules


def by_hand(pattern: Pattern, language: str = "US") -> list[str]:
    return words.piece_text(plan_pattern(pattern).pieces[0], language).strip().split("\n\n")


SWATCH = Swatch(Fraction(10), Fraction(20), Fraction(20), Fraction(20))


def test_a_kerchief_by_hand() -> None:
    """Worked by hand: 11 chains, row r has r clusters, all increases natural."""
    outline = ((Fraction(0), Fraction(2)), (Fraction(3), Fraction(8)))
    told = by_hand(Pattern("K", (SWATCH,), (Piece("kerchief", outline=outline, count=2),)))
    assert told == [
        "## kerchief",
        "3 rows, worked upwards. Make 2 alike.",
        "Foundation: ch 11 (a multiple of 4 plus 7: 1 × 4 + 7). The last 4 ch are the tch of row 1.",
        "Row 1 (RS): Dc in 7th ch from hook, dc in each of next 2 ch, ch 1, skip 1 ch, "
        "dc in last ch. 1 cl (4 dc, 1 ch, 1 tch).",
        "Row 2 (WS): Ch 4, turn, cl in first sp, ch 1, cl in next sp, ch 1, dc in 3rd ch of tch. "
        "2 cl (7 dc, 2 ch, 1 tch). At start: half a cl more; at end: half a cl more.",
        "Row 3 (RS): Ch 4, turn, cl in first sp, [ch 1, cl in next sp] 2 times, ch 1, dc in 3rd ch of tch. "
        "3 cl (10 dc, 3 ch, 1 tch). At start: half a cl more; at end: half a cl more. Fasten off.",
    ]


def test_a_closed_square_by_hand_in_uk_terms() -> None:
    """32 x 4 + 6 for the open fabric is 32 x 3 + 6 for the closed: 2 + 3J + 1 and the turning chain's 3."""
    yarns = (Yarn("Peat", "#5b4a3f"), Yarn("Shell", "#f0e3d5"))
    piece = Piece("square", width=Fraction(8), length=Fraction(4))
    pattern = Pattern("S", (SWATCH,), (piece,), Fabric(3, 0), yarns, Stripes(("Peat", "Shell"), (1, 2)))
    assert by_hand(pattern, "UK") == [
        "## square",
        "4 rows, worked upwards.",
        "Foundation: with Peat, ch 18 (a multiple of 3 plus 6: 4 × 3 + 6). The last 3 ch are the tch of row 1.",
        "Row 1 (RS, Peat): Tr in 5th ch from hook, [tr in each of next 3 ch] 4 times, "
        "tr in last ch, change to Shell in last yrh. 4 cl (14 tr, 1 tch). Sp for next row, counted from its start: the "
        "first between 4th and 5th st, then one after every 3 st.",
        "Rows 2 to 4 (WS and RS in turn): Ch 3, turn, tr in base of tch, miss first cl, cl in each of next 4 sp, "
        "tr in 3rd ch of tch. Each row: 4 cl (14 tr, 1 tch). Colours: rows 2 and 3 Shell, row 4 Peat; change in last "
        "yrh of the row before. Fasten off.",
    ]


def test_stripes_over_and_over_say_where_each_repeat_begins() -> None:
    text = words.piece_text(case(CASES[-1]).pieces[0], "UK")
    assert case(CASES[-1]).pattern.title == "Mudflat blanket"
    assert "from row 11 over and over to row 168: 3 rows Peat, 1 row Shell" in text
    assert "(begins in rows 11, 21, 31, " in text


# --------------------------------------------------------------------------------------------- the command line


def test_words_on_the_command_line(tmp_path: Path) -> None:
    path = CASES[0]
    shown = CliRunner().invoke(cli, ["words", str(path)])
    assert shown.exit_code == 0
    assert shown.output == words.pattern_text(case(path))
    written = CliRunner().invoke(cli, ["words", str(path), "-o", str(tmp_path / "w.md"), "--language", "uk"])
    assert written.exit_code == 0
    assert (tmp_path / "w.md").read_text("utf-8") == words.pattern_text(case(path), "UK")
    assert set(cli.commands["words"].params[2].type.choices) == set(LANGUAGES)  # type: ignore[attr-defined]
    wrong = CliRunner().invoke(cli, ["words", str(path), "--language", "xx"])
    assert wrong.exit_code == 2
    assert "Example: turnchain words mytop.toml" in CliRunner().invoke(cli, ["words", "--help"]).output


def test_the_chains_of_a_step_out_are_told_of_where_there_is_one() -> None:
    swatch = Swatch(Fraction(4), Fraction(10), Fraction(8), Fraction(10))
    for top, told in ((40, True), (20, False)):
        outline = tuple((Fraction(high), Fraction(wide)) for high, wide in ((0, 20), (10, 20), (10, top), (20, top)))
        plan = plan_pattern(Pattern("Test", (swatch,), (Piece("piece", outline=outline),)))
        assert ("that makes a row wider" in words.pattern_text(plan)) is told


def test_a_turning_chain_is_told_by_the_numbers_of_chains_that_differ() -> None:
    """In the closed fabric no row begins with a gap, whichever kind its edge is of: one number."""
    told = set()
    for plan in all_plans():
        found = re.search(r"Turning chain \(tch\): the ch (\d+)(?: or ch (\d+))? that", words.pattern_text(plan))
        if found:
            told.add((plan.recipe.gap > 0, found[2] is not None))
            assert found[2] is None or int(found[2]) > int(found[1])
    assert (True, True) in told
    assert (False, True) not in told
    assert (False, False) in told


def test_where_a_row_ends_after_its_last_cluster() -> None:
    """The last cluster may share its place with the edge stitch: then the row's end begins after the one before it."""
    space, shared = steps.Work("cl", Space("next")), steps.Work("cl_and_dc", Space("last"))
    edge = steps.Work("dc", Space("last"))
    assert edge_captions._end((edge, space, edge)) == (edge,)
    assert edge_captions._end((space, edge, shared)) == (edge, shared)
    assert edge_captions._end((edge, shared)) == (shared,)


@pytest.mark.parametrize(("language", "one", "two"), [
    ("US", "Size S only:", "Sizes S and M only:"), ("de", "Nur Größe S:", "Nur Größen S und M:"),
])  # fmt: skip
def test_one_size_and_several_are_told_apart(language: str, one: str, two: str) -> None:
    only = only_in(LANGUAGES[language])  # type: ignore[index]
    assert (only(["S"]), only(["S", "M"])) == (one, two)


def test_stitches_along_a_chain_are_worked_one_by_one_where_single_steps_are_shown() -> None:
    found = list(edge_steps._in_full([steps.DcInChains(3), steps.Work("cl", Space("next"))], single=True))
    assert found == [steps.DcInChains(1)] * 3 + [steps.Work("cl", Space("next"))]


@pytest.mark.parametrize(("first", "colours", "start"), [
    (3, "AABB", 0), (2, "ABBA", 1), (2, "AABB", None), (4, "ABBA", 1), (2, "A", None),
])  # fmt: skip
def test_a_repeat_of_two_rows_counts_from_row_1(first: int, colours: str, start: int | None) -> None:
    rows = tuple(SimpleNamespace(number=first + nth, colour=colour) for nth, colour in enumerate(colours))
    assert grouping._start_of_cycle(rows, 2) == start  # type: ignore[arg-type]


@pytest.mark.parametrize(("here", "there"), [("abcd", "abcd"), ("abcd", "xabxcd"), ("abcbdab", "bdcaba"), ("ab", "cd")])
def test_what_goes_together_of_two_texts_is_as_much_as_can_be(here: str, there: str) -> None:
    """As many letters as the longest that can be left of both by striking some out, tried one by one."""

    def left(word: str) -> set[str]:
        return {"".join(some) for number in range(len(word) + 1) for some in combinations(word, number)}

    found = merging._pairs(list(here), list(there), lambda one, other: float(one == other))
    assert all(here[one] == there[other] for one, other in found)
    assert all(one < then and other < there for (one, other), (then, there) in pairwise(found))
    assert len(found) == max(map(len, left(here) & left(there)))


@pytest.mark.parametrize("plus", [-3, -1, 0, 1, 4])
def test_the_sum_of_a_foundation_comes_to_its_chains(plus: int) -> None:
    """Told as so many times a multiple, plus or minus the rest."""
    made = Foundation(chains=24 + plus, base=20, turning=3, multiple=4, clusters=6, colour=None)
    said = piece_phrases._foundation(Speech(LANGUAGES["US"]), SimpleNamespace(foundation=made))  # type: ignore[arg-type]
    told = re.search(r"ch (\d+) .*: (\d+) × (\d+) ([+−]) (\d+)\)", said)
    assert told is not None
    times, multiple, rest = (int(told[nth]) for nth in (2, 3, 5))
    assert int(told[1]) == times * multiple + (rest if told[4] == "+" else -rest) == 24 + plus
    assert (told[4] == "+") is (plus >= 0)
