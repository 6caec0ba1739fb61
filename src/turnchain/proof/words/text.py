"""The whole text of a pattern: read, and worked piece by piece.

In: the finished text, its language, and the names of its yarns and pieces. Out: ``WrittenPattern``: what the fabric is
made of, and for every piece what it says of itself, its foundation and its rows as steps; and the rows of each piece
as they come out when worked. The grammar is the one set out in ``turnchain.wording.words``. ``Unreadable`` names the
piece, the paragraph and the words that do not fit; ``Unworkable`` the row that cannot be worked.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from itertools import product
from typing import NamedTuple, NoReturn

from turnchain.proof.hook.stitches import TURNING, Craft
from turnchain.proof.maker.piece import Maker
from turnchain.proof.maker.steps import Made, Told
from turnchain.proof.words.phrasebook import Cursor, Phrasebook, marked, phrasebook
from turnchain.proof.words.rows import capital, rows_of
from turnchain.proof.words.tables import STITCHES


class Unreadable(Exception):
    """Words outside the grammar, or words that contradict one another; says where."""


@dataclass(slots=True)
class WrittenSection:
    """The body (``after`` is None), or a section on row ``after``; ``joined``: its yarn is joined anew there.
    ``said_rows``: its first and last row as told before them (None: not told)."""

    name: str
    after: int | None
    joined: bool
    rows: list[Told] = field(default_factory=list)
    said_rows: tuple[int, int] | None = None


@dataclass(slots=True)
class WrittenPiece:
    """One piece: ``row_count`` rows, ``worked`` "sideways" or "upwards", ``count`` times; a foundation of ``chains``,
    told as ``times`` a ``multiple`` and some more (None and 1: as no sum), ``turning`` of them row 1's turning chain,
    in ``yarn`` (None: none is named). ``begun_on``: the piece on whose chains, as it is written, or "armhole"."""

    name: str
    row_count: int
    worked: str
    count: int
    chains: int
    turning: int
    times: int | None
    multiple: int
    yarn: str | None
    sections: list[WrittenSection]
    begun_on: str = ""


@dataclass(slots=True)
class WrittenPattern:
    """The whole text: what its fabric is made of, of which ``stitch`` (US name), and its pieces in the order told."""

    craft: Craft
    pieces: list[WrittenPiece]
    stitch: str = "dc"


def piece_of(words: Phrasebook, paragraphs: list[str]) -> WrittenPiece:
    """The piece that the ``paragraphs``, from its heading on, tell. Raises Unreadable."""
    return _Reader(words, paragraphs).piece()


class _Reader:
    """Reads the paragraphs of one piece, from its heading on."""

    def __init__(self, words: Phrasebook, paragraphs: list[str]) -> None:
        self.words, self.paragraphs = words, paragraphs
        self.name = paragraphs[0][3:]
        self.single: str | None = None  # the one yarn of the piece

    def refuse(self, nth: int, words: str) -> NoReturn:
        """Says that ``words`` do not fit, and where they stand."""
        raise Unreadable(f'"{self.name}", paragraph {nth + 1}: {words[:160]!r} is not what the rows are written in')

    def piece(self) -> WrittenPiece:
        """The piece."""
        if len(self.paragraphs) < 4:
            self.refuse(len(self.paragraphs) - 1, "the end of the piece")
        made = self._about()
        self._foundation(made)
        for nth, paragraph in enumerate(self.paragraphs[3:], start=3):
            if paragraph.startswith("### "):
                self._section(made, nth)
            elif made.sections[-1].after is None or made.sections[-1].rows or not self._how(made, paragraph):
                self._rows(made.sections[-1], nth)
        for section in made.sections:
            self._check_section(section)
        return made

    def _about(self) -> WrittenPiece:
        cursor = Cursor(self.words, self.paragraphs[1])
        found = cursor.take("about")
        if found is None:
            self.refuse(1, cursor.text)
        alike, yarn = cursor.take("alike"), cursor.take("one_yarn")
        if not cursor.done:
            self.refuse(1, cursor.text[cursor.at :])
        self.single = self.words.yarn(yarn["yarn"]) if yarn else None
        way = "sideways" if found["way"] == self.words.phrases["sideways"] else "upwards"
        count = int(alike["n"]) if alike else 1
        body = WrittenSection("body", None, False)
        return WrittenPiece(self.name, int(found["rows"]), way, count, 0, 0, None, 1, self.single, [body])

    def _begun_on(self, made: WrittenPiece) -> bool:
        """A piece that is begun on another, or along an armhole: its stitches there count as chains."""
        for kind in ("on", "armhole"):
            cursor = Cursor(self.words, self.paragraphs[2])
            found = cursor.take(f"{kind}_in") or cursor.take(kind)
            if found is None or not cursor.literal(" "):
                continue
            turning = cursor.take(f"{kind}_turning")
            if turning is None or not cursor.done:
                self.refuse(2, self.paragraphs[2])
            groups = found.groupdict()
            if "yarn" in groups:
                made.yarn = self.words.yarn(found["yarn"])
            if groups.get("piece") != groups.get("piece2"):
                self.refuse(2, found[0])
            made.turning = int(turning["t"])
            made.chains = int(found["n"]) + made.turning
            made.begun_on = groups.get("piece") or "armhole"
            return True
        return False

    def _foundation(self, made: WrittenPiece) -> None:
        text = self.paragraphs[2]
        if self._begun_on(made):
            return
        found = self.words.pattern("foundation_in").match(text) or self.words.pattern("foundation").match(text)
        sums = [self.words.pattern(key).match(text, found.end()) for key in ("sum", "sum_less") if found]
        total = next((one for one in sums if one), None)
        end = total or found
        after = end.end() + len(". ") if end and text.startswith(". ", end.end()) else len(text)
        told = [self.words.pattern(key).fullmatch(text, after) for key in ("turning", "turning_one")]
        if found is None or told == [None, None]:
            self.refuse(2, text)
        made.chains = int(found["n"])
        made.turning = int(told[0]["n"]) if told[0] else 1
        if "yarn" in found.groupdict():
            made.yarn = self.words.yarn(found["yarn"])
        if total is not None:
            self._sum(made, total)

    def _sum(self, made: WrittenPiece, total: re.Match[str]) -> None:
        made.times, made.multiple, plus = int(total["t"]), int(total["m"]), int(total["p"])
        if total.re is self.words.pattern("sum_less"):
            plus = -plus
        if (total["m2"], total["p2"]) != (total["m"], total["p"]):
            self.refuse(2, total[0])
        if made.times * made.multiple + plus != made.chains:
            raise Unreadable(
                f'"{self.name}": {made.chains} chains are not {made.times} × {made.multiple} + {plus}: '
                f"a multiple of {made.multiple} plus {plus} leaves {(made.chains - plus) % made.multiple} over"
            )

    # ---------------------------------------------------------------------------------------------- sections

    def _section(self, made: WrittenPiece, nth: int) -> None:
        name = self.paragraphs[nth][4:]
        names = {capital(self.words.phrases[key]): key for key in ("first", "second")}
        if name not in names:
            self.refuse(nth, name)
        if [section.name for section in made.sections][1:] != ["first"][: len(made.sections) - 1]:
            self.refuse(nth, name)
        made.sections.append(WrittenSection(names[name], -1, names[name] == "second"))

    def _how(self, made: WrittenPiece, text: str) -> bool:
        """The sentence under a section's heading."""
        section, words = made.sections[-1], self.words
        if section.joined:
            found = words.pattern("back").fullmatch(text)
            if found is None or not made.sections[1].rows:
                return False
            first = made.sections[1].rows[0]
            section.after = int(found["r"])
            same = (first.number, first.side) == (int(found["a"]), words.side(found["side"]))
            return same and found["section"] == words.phrases["first"]
        found = words.pattern("goes_on").fullmatch(text) or words.pattern("goes_on_one").fullmatch(text)
        if found is None:
            return False
        groups = found.groupdict()
        section.said_rows = (int(found["a"]), int(groups.get("b") or found["a"]))
        section.after = int(found["r"])
        return found["r"] == found["r2"]

    def _check_section(self, section: WrittenSection) -> None:
        if not section.rows:
            raise Unreadable(f'"{self.name}": a part without rows')
        said = section.said_rows
        if said is not None and said != (section.rows[0].number, section.rows[-1].number):
            raise Unreadable(f'"{self.name}": rows {said[0]} to {said[1]} are said to go over the first part')
        if section.after is not None and section.after != section.rows[0].number - 1:
            raise Unreadable(f'"{self.name}": a part on row {section.after} begins with row {section.rows[0].number}')

    def _rows(self, section: WrittenSection, nth: int) -> None:
        rows = rows_of(self.words, self.paragraphs[nth], section.rows, self.single)
        if not rows:
            self.refuse(nth, self.paragraphs[nth])
        section.rows += rows


def read_words(text: str, language: str, yarns: Iterable[str], pieces: Iterable[str]) -> WrittenPattern:
    """The whole finished ``text`` in ``language`` (a key of ``TABLES``), on these ``yarns`` and ``pieces``, which must
    come in this order. Raises Unreadable."""
    plain = phrasebook(language, tuple(yarns))
    paragraphs = text.rstrip("\n").split("\n\n")
    starts = _headings(plain, paragraphs, list(pieces))
    words, unit = _made_of(plain, language, paragraphs[: starts[0]])
    gap_words, turning, counts = _special(words, paragraphs[: starts[0]])
    ends = [*starts[1:], len(paragraphs)]
    made = [piece_of(words, paragraphs[start:end]) for start, end in zip(starts, ends, strict=True)]
    _check_solids(words, paragraphs[: starts[0]], made)
    k = unit.cluster + unit.inner
    gaps = {piece.multiple - k for piece in made if not piece.begun_on}
    if len(gaps) != 1 or min(gaps) < 0 or (gap_words is not None and gap_words != (min(gaps) > 0)):
        raise Unreadable(f"clusters of {k} dc and gaps as told do not make the multiples of the foundations")
    explained = paragraphs[: starts[0]]
    slit, own = _first(words.pattern("slit"), explained) is not None, not _among(words.pattern("no_own"), explained)
    bare = _first(words.pattern("bare"), explained) is not None
    craft = Craft(unit.cluster, gaps.pop(), turning, counts, unit.inner, unit.stacked, slit, own, bare)
    return WrittenPattern(craft, made, words.stitch)


def _headings(words: Phrasebook, paragraphs: list[str], pieces: list[str]) -> list[int]:
    """Where each piece begins: the headings after the three that explain, in the pattern's order."""
    found = [nth for nth, paragraph in enumerate(paragraphs) if paragraph.startswith("## ")]
    heads = [f"## {head}" for head in words.phrases["heads"].split("|")]
    told = [paragraphs[nth] for nth in found]
    if told != [*heads, *(f"## {marked(name)}" for name in pieces)]:
        raise Unreadable(f"the headings are {told}")
    return found[3:]


class _Unit(NamedTuple):
    """What is worked in one place: ``cluster`` stitches with ``inner`` chains in their middle; ``stacked``: in the one
    below."""

    cluster: int
    inner: int = 0
    stacked: bool = False


def _made_of(plain: Phrasebook, language: str, paragraphs: list[str]) -> tuple[Phrasebook, _Unit]:
    """The phrases with the stitch that the fabric is made of, and what of it is worked in one place."""
    if not any(paragraph.startswith(plain.say("written")) for paragraph in paragraphs):
        raise Unreadable(f'nothing says "{plain.say("written")}"')
    yarns = tuple(plain.yarns.values())
    found: list[tuple[Phrasebook, _Unit]] = []
    for stitch, (name, key) in product(STITCHES, _UNITS):
        words = phrasebook(language, yarns, stitch, name)
        told = _first(words.pattern(key), paragraphs)
        unit = None if told is None else _unit_of(words, key, told)
        if unit is not None:
            found.append((words, unit))
    if len(found) != 1:
        raise Unreadable("nothing says what a cluster is" if not found else "a cluster is two things")
    return found[0]


_UNITS = (
    ("cl", "cluster"), ("single", "single"), ("single", "each_single"), ("v", "v_stitch"), ("shell", "shell_stitch")
)  # fmt: skip


def _unit_of(words: Phrasebook, key: str, told: re.Match[str]) -> _Unit | None:
    """What is worked in one place by the phrase that tells it; None where that is no such thing of this stitch."""
    if key in ("cluster", "shell_stitch"):
        return _Unit(int(told["n"]), stacked=key == "shell_stitch")
    if key != "v_stitch":
        return _Unit(1, stacked=key == "each_single")
    parts = told["parts"].split(", ")
    kinds = zip(("part_dc", "chain", "part_dc"), parts, strict=False)
    matched = [words.pattern(kind).fullmatch(part) for kind, part in kinds]
    numbers = [int(one["n"]) for one in matched if one is not None]
    return _Unit(2 * numbers[0], numbers[1], True) if len(parts) == len(numbers) == 3 else None


def _special(words: Phrasebook, paragraphs: list[str]) -> tuple[int | None, int, bool]:
    """Where spaces are explained, whether chains make them; the chains of a turning chain, and whether it counts."""
    gap = 1 if _first(words.pattern("open"), paragraphs) else 0 if _first(words.pattern("closed"), paragraphs) else None
    keys = ("tch_apart", "tch_beside", "tch_counts")
    apart, beside, counts = (_first(words.pattern(key), paragraphs) for key in keys)
    turning = apart or beside or counts
    if _first(words.pattern("tch_first"), paragraphs) is not None:  # one chain of it is the stitch
        return gap, 1, True
    if turning is None:
        raise Unreadable("nothing says what a turning chain is")
    return gap, int(turning["n"]), apart is None


def _check_solids(words: Phrasebook, paragraphs: list[str], pieces: list[WrittenPiece]) -> None:
    """Whether each kind of solid row is explained, with its turning chain as it is worked."""
    used = {row.kind for piece in pieces for section in piece.sections for row in section.rows} - {"cluster"}
    told: dict[str, tuple[int, bool]] = {}
    for paragraph in paragraphs:
        for key in ("solid_apart", "solid_counts"):
            found = words.pattern(key).fullmatch(paragraph)
            if found is not None:
                names = {words.stitch_of(name) for slot, name in found.groupdict().items() if slot != "n"}
                told |= dict.fromkeys(names, (int(found["n"]), key == "solid_counts"))
    wrong = [stitch for stitch in used | told.keys() if stitch not in used or told.get(stitch) != TURNING[stitch]]
    if wrong:
        raise Unreadable(f"rows of {', '.join(sorted(wrong))} are not explained as they are worked")


def _first(pattern: re.Pattern[str], paragraphs: list[str]) -> re.Match[str] | None:
    return next((match for paragraph in paragraphs if (match := pattern.match(paragraph))), None)


def _among(pattern: re.Pattern[str], paragraphs: list[str]) -> bool:
    """Whether a sentence in any paragraph begins so."""
    return any(pattern.match(sentence) for paragraph in paragraphs for sentence in re.split(r"(?<=\.) ", paragraph))


def work_piece(craft: Craft, piece: WrittenPiece) -> list[Made]:
    """One piece worked as written, its rows in the order worked. Raises Unworkable for a row that cannot be worked,
    Unreadable where foundation or number of rows are told otherwise than they come out."""
    maker = Maker(craft, piece.chains, piece.turning, piece.yarn)
    for section in piece.sections:
        if section.after is not None:
            maker.go_back() if section.joined else maker.divide()
        for row in section.rows:
            maker.row(row)
    rows = maker.finish()
    clusters = next((made.row.clusters for made in rows if not made.row.solid), 0)
    if piece.times is not None and piece.times != clusters:
        raise Unreadable(f'"{piece.name}": a foundation for {piece.times} clusters; the first row has {clusters}')
    highest = max(made.row.number for made in rows)
    if piece.row_count != highest:
        raise Unreadable(f'"{piece.name}": {piece.row_count} rows are said; {highest} are told')
    return rows
