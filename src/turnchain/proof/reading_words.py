"""Reading finished pattern text back: the words as a maker has them in hand.

In: the whole text of a pattern, its language, and the names of its yarns and pieces (names are the pattern's own and
need not be words of any language). Out: ``Written``: for every piece what it says of itself, its foundation and its
rows as steps, with grouped rows unfolded. The grammar is the one set out in
``turnchain.wording.words``; the tables here are this reader's own. ``Unreadable`` names the piece, the paragraph and
the words that do not fit.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from functools import cache, lru_cache
from typing import NoReturn, TypeAlias, cast

from turnchain.proof import following as f
from turnchain.proof.working import Craft


class Unreadable(Exception):
    """Words outside the grammar, or words that contradict one another; says where."""


@dataclass(slots=True)
class Section:
    """The body (``after`` is None), or a section on row ``after``; ``joined``: its yarn is joined anew there."""

    name: str
    after: int | None
    joined: bool
    rows: list[f.Told] = field(default_factory=list)
    said_rows: tuple[int, int] | None = None


@dataclass(slots=True)
class WrittenPiece:
    """One piece: ``row_count`` rows, ``count`` times; a foundation of ``chains``, ``turning`` of them row 1's turning
    chain, in ``yarn``."""

    name: str
    row_count: int
    worked: str
    count: int
    chains: int
    turning: int
    times: int
    multiple: int
    yarn: str | None
    sections: list[Section]


@dataclass(slots=True)
class Written:
    """The whole text."""

    craft: Craft
    pieces: list[WrittenPiece]


# ------------------------------------------------------------------------------------------------- the tables
#
# {token} stands for a word of the column, <n> for a number, <nth> for a number in order, <yarn> and <section> for
# names. What is said in a sentence of its own begins with a capital, which the reader undoes.

Table: TypeAlias = dict[str, str]

_US: Table = {
    "ch": "ch", "slip": "sl st", "dc": "dc", "cl": "cl", "sp": "sp", "st": "st", "tch": "tch", "skip": "skip",
    "yo": "yo", "colors": "Colors", "terms": "US terms", "RS": "RS", "WS": "WS",
}  # fmt: skip
_UK: Table = _US | {
    "slip": "ss", "dc": "tr", "skip": "miss", "yo": "yrh", "colors": "Colours", "terms": "UK terms",
}  # fmt: skip
_DE: Table = {
    "ch": "Lm", "slip": "Km", "dc": "Stb", "cl": "Gr", "sp": "Zwr", "st": "M", "tch": "WLm", "skip": "auslassen",
    "yo": "U", "colors": "Farben", "terms": "deutschen Fachwörtern", "RS": "Hinr", "WS": "Rückr",
}  # fmt: skip

_ENGLISH: Table = {
    "written": "Written in {terms}.",
    "heads": "Abbreviations|Special stitches|How to read the rows",
    "cluster": "Cluster ({cl}): <n> {dc} in the place named, ",
    "open": "Space ({sp}): the {ch} between 2 {cl} ",
    "closed": "Space ({sp}): the slit between 2 {cl} ",
    "about": "<rows> rows, worked <way>.",
    "sideways": "sideways",
    "upwards": "upwards",
    "alike": " Make <n> alike.",
    "one_yarn": " Work in <yarn> throughout.",
    "foundation": "Foundation: {ch} <n>",
    "foundation_in": "Foundation: with <yarn>, {ch} <n>",
    "sum": " (a multiple of <m> plus <p>: <t> × <m2> + <p2>). ",
    "turning": "The last <n> {ch} are the {tch} of row 1.",
    "first": "first shoulder",
    "second": "second shoulder",
    "goes_on": "Rows <a> to <b> go over the first part of row <r> only. Leave the rest of row <r2> for now.",
    "goes_on_one": "Row <a> goes over the first part of row <r> only. Leave the rest of row <r2> for now.",
    "back": "Go back to row <r>, <side> facing. Work in the same direction as row <a> of the <section>.",
    "row": "Row <n> (<side>)",
    "row_in": "Row <n> (<side>, <yarn>)",
    "rows": "<range> (<side> and <other> in turn)",
    "rows_in": "<range> (<side> and <other> in turn, <yarn>)",
    "range_two": "Rows <a> and <b>",
    "range_many": "Rows <a> to <b>",
    "again": "Repeat <range>. ",
    "again_ending": "Repeat <range>, ending with row <end>. ",
    "count": "<n> {cl} (<parts>)",
    "each": "Each row: ",
    "turns": "Counts in turn: ",
    "part_dc": "<n> {dc}",
    "part_ch": "<n> {ch}",
    "part_slips": "<n> {slip}",
    "part_tch": "<n> {tch}",
    "half": "half a",
    "start_less": "at start: <amount> {cl} less",
    "start_more": "at start: <amount> {cl} more",
    "end_less": "at end: <amount> {cl} less",
    "end_more": "at end: <amount> {cl} more",
    "change": "change to <yarn> in last {yo}",
    "change_row": " Change to <yarn> in last {yo} of row <n>.",
    "colors": " {colors}: ",
    "colors_end": "; change in last {yo} of the row before.",
    "stripe_one": "row <a> <yarn>",
    "stripe_two": "rows <a> and <b> <yarn>",
    "stripe_many": "rows <a> to <b> <yarn>",
    "cycle": "from row <a> over and over to row <b>: ",
    "begins": " (begins in rows <list>)",
    "and": " and ",
    "height_one": "<n> row <yarn>",
    "height_many": "<n> rows <yarn>",
    "off": " Fasten off.",
    "chain": "{ch} <n>",
    "turn": "turn",
    "slip_one": "{slip} in next {st}",
    "slip_many": "{slip} in each of next <n> {st}",
    "slip_into": "{slip} <place>",
    "dc_in": "{dc} <place>",
    "two_dc_in": "2 {dc} <place>",
    "cluster_in": "{cl} <place>",
    "cluster_dc_in": "({cl}, {dc}) <place>",
    "chains_one": "{dc} in next {ch}",
    "chains_many": "{dc} in each of next <n> {ch}",
    "spaces_one": "{cl} in next {sp}",
    "spaces_many": "{cl} in each of next <n> {sp}",
    "skip_chains": "{skip} <n> {ch}",
    "skip_first": "{skip} first {cl}",
    "skip_next": "{skip} next {cl}",
    "skip_last": "{skip} last {cl}",
    "times": "] <n> times",
    "join": "join <yarn> <place> after the <section>",
    "join_skipped": "{skip} <n> {cl} after the <section>, join <yarn> <place>",
    "join_same": "join <yarn> <place> as the <section>",
    "some_yarn": "yarn",
    "leave_tch": "leave {tch} unworked",
    "leave_clusters": "leave last <n> {cl} unworked",
    "leave_rest": "leave rest of row unworked",
    "at_hook": "in <nth> {ch} from hook (skipped {ch} count as {tch})",
    "at_last": "in last {ch}",
    "at_first_space": "in first {sp}",
    "at_next_space": "in next {sp}",
    "at_same_space": "in same {sp}",
    "at_dc_next": "in <nth> {dc} of next {cl}",
    "at_dc_same": "in <nth> {dc} of same {cl}",
    "at_last_dc": "in last {dc} of last {cl}",
    "at_top": "in <nth> {ch} of {tch}",
    "at_base": "in base of {tch}",
    "at_edge": "in edge {dc}",
    "nth": r"\d+(?:st|nd|rd|th)",
}

_GERMAN: Table = {
    "written": "Geschrieben mit {terms}.",
    "heads": "Abkürzungen|Besondere Maschen|So werden die Reihen gelesen",
    "cluster": "Gruppe ({cl}): <n> {dc} in die genannte Stelle, ",
    "open": "Zwischenraum ({sp}): die {ch} zwischen 2 {cl} ",
    "closed": "Zwischenraum ({sp}): der Schlitz zwischen 2 {cl} ",
    "about": "<rows> Reihen, <way> gehäkelt.",
    "sideways": "quer",
    "upwards": "aufwärts",
    "alike": " <n>-mal gleich häkeln.",
    "one_yarn": " Durchgehend in <yarn> häkeln.",
    "foundation": "Anschlag: <n> {ch}",
    "foundation_in": "Anschlag: <n> {ch} in <yarn>",
    "sum": " (ein Vielfaches von <m> plus <p>: <t> × <m2> + <p2>). ",
    "turning": "Die letzten <n> {ch} sind die {tch} der Reihe 1.",
    "first": "erste Schulter",
    "second": "zweite Schulter",
    "goes_on": (
        "Reihen <a> bis <b> nur über den ersten Teil der Reihe <r> häkeln. "
        "Der Rest der Reihe <r2> bleibt vorerst liegen."
    ),
    "goes_on_one": (
        "Reihe <a> nur über den ersten Teil der Reihe <r> häkeln. Der Rest der Reihe <r2> bleibt vorerst liegen."
    ),
    "back": "Zurück zur Reihe <r> (<side>). In derselben Richtung häkeln wie Reihe <a> (<section>).",
    "row": "Reihe <n> (<side>)",
    "row_in": "Reihe <n> (<side>, <yarn>)",
    "rows": "<range> (<side> und <other> im Wechsel)",
    "rows_in": "<range> (<side> und <other> im Wechsel, <yarn>)",
    "range_two": "Reihen <a> und <b>",
    "range_many": "Reihen <a> bis <b>",
    "again": "<range> wiederholen. ",
    "again_ending": "<range> wiederholen, mit Reihe <end> enden. ",
    "count": "<n> {cl} (<parts>)",
    "each": "Jede Reihe: ",
    "turns": "Zahlen im Wechsel: ",
    "part_dc": "<n> {dc}",
    "part_ch": "<n> {ch}",
    "part_slips": "<n> {slip}",
    "part_tch": "<n> {tch}",
    "half": "eine halbe",
    "start_less": "am Anfang: <amount> {cl} weniger",
    "start_more": "am Anfang: <amount> {cl} mehr",
    "end_less": "am Ende: <amount> {cl} weniger",
    "end_more": "am Ende: <amount> {cl} mehr",
    "change": "mit dem letzten {yo} zu <yarn> wechseln",
    "change_row": " Mit dem letzten {yo} der Reihe <n> zu <yarn> wechseln.",
    "colors": " {colors}: ",
    "colors_end": "; jeweils mit dem letzten {yo} der Reihe davor wechseln.",
    "stripe_one": "Reihe <a> <yarn>",
    "stripe_two": "Reihen <a> und <b> <yarn>",
    "stripe_many": "Reihen <a> bis <b> <yarn>",
    "cycle": "ab Reihe <a> immer wieder bis Reihe <b>: ",
    "begins": " (Beginn in den Reihen <list>)",
    "and": " und ",
    "height_one": "<n> Reihe <yarn>",
    "height_many": "<n> Reihen <yarn>",
    "off": " Faden abschneiden und durchziehen.",
    "chain": "<n> {ch}",
    "turn": "wenden",
    "slip_one": "1 {slip} in die nächste {st}",
    "slip_many": "je 1 {slip} in die nächsten <n> {st}",
    "slip_into": "1 {slip} <place>",
    "dc_in": "1 {dc} <place>",
    "two_dc_in": "2 {dc} <place>",
    "cluster_in": "1 {cl} <place>",
    "cluster_dc_in": "(1 {cl}, 1 {dc}) <place>",
    "chains_one": "1 {dc} in die nächste {ch}",
    "chains_many": "je 1 {dc} in die nächsten <n> {ch}",
    "spaces_one": "1 {cl} in den nächsten {sp}",
    "spaces_many": "je 1 {cl} in die nächsten <n> {sp}",
    "skip_chains": "<n> {ch} {skip}",
    "skip_first": "1. {cl} {skip}",
    "skip_next": "nächste {cl} {skip}",
    "skip_last": "letzte {cl} {skip}",
    "times": "] <n>-mal",
    "join": "nach dem Abschnitt <section> <yarn> anketten <place>",
    "join_skipped": "nach dem Abschnitt <section> <n> {cl} {skip}, <yarn> anketten <place>",
    "join_same": "<yarn> anketten <place> wie der Abschnitt <section>",
    "some_yarn": "Garn",
    "leave_tch": "{tch} frei lassen",
    "leave_clusters": "letzte <n> {cl} frei lassen",
    "leave_rest": "Rest der Reihe frei lassen",
    "at_hook": "in die <nth> {ch} ab Nadel (ausgelassene {ch} zählen als {tch})",
    "at_last": "in die letzte {ch}",
    "at_first_space": "in den 1. {sp}",
    "at_next_space": "in den nächsten {sp}",
    "at_same_space": "in denselben {sp}",
    "at_dc_next": "in das <nth> {dc} der nächsten {cl}",
    "at_dc_same": "in das <nth> {dc} derselben {cl}",
    "at_last_dc": "in das letzte {dc} der letzten {cl}",
    "at_top": "in die <nth> {ch} der {tch}",
    "at_base": "in den Fuß der {tch}",
    "at_edge": "in das Rand-{dc}",
    "nth": r"\d+\.",
}

TABLES: dict[str, tuple[Table, Table]] = {"US": (_US, _ENGLISH), "UK": (_UK, _ENGLISH), "de": (_DE, _GERMAN)}

_PLACES = tuple(key for key in _ENGLISH if key.startswith("at_"))
_STEPS = (
    "chains_one", "chains_many", "spaces_one", "spaces_many", "slip_one", "slip_many", "slip_into", "dc_in",
    "two_dc_in", "cluster_in", "cluster_dc_in", "skip_chains", "skip_first", "skip_next", "skip_last",
    "join_skipped", "join", "join_same", "leave_tch", "leave_clusters", "leave_rest", "change", "chain", "turn",
)  # fmt: skip


class Tongue:
    """One language's phrases as expressions, with the names of one pattern among them."""

    def __init__(self, language: str, yarns: tuple[str, ...]) -> None:
        self.tokens, self.phrases = TABLES[language]
        self.yarns = {_marked(name): name for name in yarns}
        self._made: dict[str, re.Pattern[str]] = {}
        self.told: dict[str, tuple[tuple[f.Step, ...], int]] = {}

    def pattern(self, key: str, ending: str = "") -> re.Pattern[str]:
        """The phrase ``key`` as an expression; ``ending`` must come right after it and is not taken."""
        made = self._made.get(key + ending)
        if made is None:
            made = self._made[key + ending] = re.compile(self._source(key) + ending)
        return made

    def _source(self, key: str) -> str:
        phrase = self.phrases[key].format_map(self.tokens)
        return "".join(self._slot(part) for part in re.split(r"(<\w+>)", phrase))

    def _slot(self, part: str) -> str:
        if not re.fullmatch(r"<\w+>", part):
            return re.escape(part)
        name = part[1:-1]
        return f"(?P<{name}>{self._inside(name)})"

    def _inside(self, name: str) -> str:
        if name == "nth":
            return self.phrases["nth"]
        if name == "yarn":
            words = sorted([*self.yarns, self.phrases["some_yarn"]], key=len, reverse=True)
            return "|".join(map(re.escape, words))
        if name == "section":
            return "|".join(re.escape(self.phrases[key]) for key in ("first", "second"))
        if name in ("side", "other"):
            return "|".join(re.escape(self.tokens[key]) for key in ("RS", "WS"))
        if name == "way":
            return "|".join(re.escape(self.phrases[key]) for key in ("sideways", "upwards"))
        if name == "place":
            return "|".join(re.sub(r"\(\?P<\w+>", "(?:", self._source(key)) for key in _PLACES)
        if name == "amount":
            return re.escape(self.phrases["half"]) + r"|[0-9]{1,9}½?"
        return _FREE.get(name, r"[0-9]{1,9}")

    def say(self, key: str) -> str:
        """The phrase ``key`` with its tokens, without slots."""
        return self.phrases[key].format_map(self.tokens)

    def yarn(self, found: str) -> str | None:
        """The yarn so named in the text; none where the text says only "yarn"."""
        return self.yarns.get(found)

    def side(self, found: str) -> str:
        """RS or WS."""
        return "RS" if found == self.tokens["RS"] else "WS"


_MOST_ROWS = 100_000  # told together: far more than a piece has
_FREE = {"range": r".+?", "parts": r"[^()]*", "list": r"[^()]*?"}


@cache
def tongue(language: str, yarns: tuple[str, ...]) -> Tongue:
    """The language ``language`` with these names; made once."""
    return Tongue(language, yarns)


def _marked(name: str) -> str:
    """A name as Markdown has it: a backslash before its own signs."""
    return re.sub(r"[\\`*_\[\]<>#|~]|&(?=#?\w+;)", lambda sign: "\\" + sign[0], name)


# ------------------------------------------------------------------------------------------------- the whole text


def read(text: str, language: str, yarns: Iterable[str], pieces: Iterable[str]) -> Written:
    """The whole finished ``text``. Raises Unreadable."""
    words = tongue(language, tuple(yarns))
    paragraphs = text.rstrip("\n").split("\n\n")
    starts = _headings(words, paragraphs, list(pieces))
    k, gap_words = _special(words, paragraphs[: starts[0]])
    ends = [*starts[1:], len(paragraphs)]
    made = [_Reader(words, paragraphs[start:end]).piece() for start, end in zip(starts, ends, strict=True)]
    gaps = {piece.multiple - k for piece in made}
    if len(gaps) != 1 or (gap_words is not None and gap_words != (min(gaps) > 0)):
        raise Unreadable(f"clusters of {k} dc and gaps as told do not make the multiples of the foundations")
    return Written(Craft(k, gaps.pop()), made)


def _headings(words: Tongue, paragraphs: list[str], pieces: list[str]) -> list[int]:
    """Where each piece begins: the headings after the three that explain, in the pattern's order."""
    found = [nth for nth, paragraph in enumerate(paragraphs) if paragraph.startswith("## ")]
    heads = [f"## {head}" for head in words.phrases["heads"].split("|")]
    told = [paragraphs[nth] for nth in found]
    if told != [*heads, *(f"## {_marked(name)}" for name in pieces)]:
        raise Unreadable(f"the headings are {told}")
    return found[3:]


def _special(words: Tongue, paragraphs: list[str]) -> tuple[int, int | None]:
    """How many dc a cluster has and, where spaces are explained, whether chains make them."""
    if not any(paragraph.startswith(words.say("written")) for paragraph in paragraphs):
        raise Unreadable(f'nothing says "{words.say("written")}"')
    cluster = _first(words.pattern("cluster"), paragraphs)
    if cluster is None:
        raise Unreadable("nothing says what a cluster is")
    gap = 1 if _first(words.pattern("open"), paragraphs) else 0 if _first(words.pattern("closed"), paragraphs) else None
    return int(cluster["n"]), gap


def _first(pattern: re.Pattern[str], paragraphs: list[str]) -> re.Match[str] | None:
    return next((match for paragraph in paragraphs if (match := pattern.match(paragraph))), None)


class _Reader:
    """Reads the paragraphs of one piece, from its heading on."""

    def __init__(self, words: Tongue, paragraphs: list[str]) -> None:
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
                self._block(made.sections[-1], nth)
        for section in made.sections:
            self._check_section(section)
        return made

    def _about(self) -> WrittenPiece:
        text = self.paragraphs[1]
        found = self.words.pattern("about").match(text)
        if found is None:
            self.refuse(1, text)
        at = found.end()
        alike = self.words.pattern("alike").match(text, at)
        at = alike.end() if alike else at
        yarn = self.words.pattern("one_yarn").match(text, at)
        at = yarn.end() if yarn else at
        if at != len(text):
            self.refuse(1, text[at:])
        self.single = self.words.yarn(yarn["yarn"]) if yarn else None
        way = "sideways" if found["way"] == self.words.phrases["sideways"] else "upwards"
        count = int(alike["n"]) if alike else 1
        body = Section("body", None, False)
        return WrittenPiece(self.name, int(found["rows"]), way, count, 0, 0, 0, 0, self.single, [body])

    def _foundation(self, made: WrittenPiece) -> None:
        text = self.paragraphs[2]
        found = self.words.pattern("foundation_in").match(text) or self.words.pattern("foundation").match(text)
        total = self.words.pattern("sum").match(text, found.end()) if found else None
        turning = self.words.pattern("turning").fullmatch(text, total.end()) if total else None
        if found is None or total is None or turning is None:
            self.refuse(2, text)
        made.chains, made.turning, made.times = int(found["n"]), int(turning["n"]), int(total["t"])
        made.multiple, plus = int(total["m"]), int(total["p"])
        if (total["m2"], total["p2"]) != (total["m"], total["p"]):
            self.refuse(2, total[0])
        if made.times * made.multiple + plus != made.chains:
            raise Unreadable(
                f'"{self.name}": {made.chains} chains are not {made.times} × {made.multiple} + {plus}: '
                f"a multiple of {made.multiple} plus {plus} leaves {(made.chains - plus) % made.multiple} over"
            )
        if "yarn" in found.groupdict():
            made.yarn = self.words.yarn(found["yarn"])

    # ---------------------------------------------------------------------------------------------- sections

    def _section(self, made: WrittenPiece, nth: int) -> None:
        name = self.paragraphs[nth][4:]
        names = {_capital(self.words.phrases[key]): key for key in ("first", "second")}
        if name not in names:
            self.refuse(nth, name)
        if [section.name for section in made.sections][1:] != ["first"][: len(made.sections) - 1]:
            self.refuse(nth, name)
        made.sections.append(Section(names[name], -1, names[name] == "second"))

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

    def _check_section(self, section: Section) -> None:
        if not section.rows:
            raise Unreadable(f'"{self.name}": a part without rows')
        said = section.said_rows
        if said is not None and said != (section.rows[0].number, section.rows[-1].number):
            raise Unreadable(f'"{self.name}": rows {said[0]} to {said[1]} are said to go over the first part')
        if section.after is not None and section.after != section.rows[0].number - 1:
            raise Unreadable(f'"{self.name}": a part on row {section.after} begins with row {section.rows[0].number}')

    # -------------------------------------------------------------------------------------------------- rows

    def _block(self, section: Section, nth: int) -> None:
        text = self.paragraphs[nth]
        for key in ("row_in", "row", "rows_in", "rows"):
            found = self.words.pattern(key, ": ").match(text)
            if found is not None:
                yarn = self.words.yarn(found["yarn"]) if "yarn" in found.groupdict() else self.single
                rest = text[found.end() :]
                single = key in ("row", "row_in")
                rows = self._single(found, rest, yarn) if single else self._many(section, found, rest, yarn)
                if rows:
                    section.rows += rows
                    return
        self.refuse(nth, text)

    def _single(self, head: re.Match[str], text: str, yarn: str | None) -> list[f.Told]:
        steps, at = self._steps(text)
        tail = _Tail(self.words, text, at)
        counts = tail.counts()
        shaped = tail.shaped()
        off = tail.off()
        if not steps or len(counts) != 1 or not tail.done:
            return []
        return [f.Told(int(head["n"]), self.words.side(head["side"]), yarn, steps, counts[0], shaped, None, off)]

    def _many(self, section: Section, head: re.Match[str], text: str, yarn: str | None) -> list[f.Told]:
        numbers = self._range(head["range"])
        sides = (self.words.side(head["side"]), self.words.side(head["other"]))
        if len(numbers) < 1 or sides[0] == sides[1] or (len(numbers) == 1) != (head["other"] == ""):
            return []
        models, at = self._again(section, numbers, text)
        tail = _Tail(self.words, text, at)
        if models:
            counts = tail.counts("turns")
            shaped = [model.shaped for model in models]
            steps = [model.steps for model in models]
            if len(counts) != len(models):
                return []
        else:
            told, tail.at = self._steps(text)
            counts = tail.counts("each")
            steps, shaped = [told], [tail.shaped()]
            if len(counts) != 1 or not told:
                return []
        period = len(steps)
        rows = [
            f.Told(number, sides[nth % 2], yarn, steps[nth % period], counts[nth % period], shaped[nth % period])
            for nth, number in enumerate(numbers)
        ]
        if not tail.colours(rows):
            return []
        rows[-1].fasten_off = tail.off()
        return rows if tail.done else []

    def _range(self, text: str) -> range:
        """Rows 5 to 9 as numbers; none where the words do not fit."""
        two, many = self.words.pattern("range_two"), self.words.pattern("range_many")
        for pattern in (two, many):
            found = pattern.fullmatch(text) or pattern.fullmatch(_capital(text))
            if found is not None:
                first, last = int(found["a"]), int(found["b"])
                fits = last == first + 1 if pattern is two else first + 1 < last < first + _MOST_ROWS
                return range(first, last + 1) if fits else range(0)
        return range(0)

    def _again(self, section: Section, numbers: range, text: str) -> tuple[list[f.Told], int]:
        """The rows that are to be repeated, and where the words go on; none where the row tells its own steps."""
        for key in ("again_ending", "again"):
            found = self.words.pattern(key).match(text)
            if found is None:
                continue
            wanted = self._range(found["range"])
            before = {row.number: row for row in section.rows}
            if not wanted or any(number not in before for number in wanted):
                return [], 0
            over = len(numbers) % len(wanted)
            ending = wanted[over - 1] if over else None
            said = int(found["end"]) if key == "again_ending" else None
            if said != ending:
                return [], 0
            return [_plain(before[number]) for number in wanted], found.end()
        return [], 0

    def _steps(self, text: str) -> tuple[tuple[f.Step, ...], int]:
        """The steps at the beginning of ``text``, and where the next sentence begins; none where they do not fit."""
        found = _sentence(self.words, text)
        return found if found is not None else ((), 0)


def _plain(told: f.Told) -> f.Told:
    """A row's steps without the change of yarn, which the rows that repeat it tell by themselves."""
    return replace(told, steps=tuple(step for step in told.steps if not isinstance(step, f.Change)))


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


# ------------------------------------------------------------------------------------------ what closes a row


class _Tail:
    """Reads what comes after the steps: counts, edges, yarns, the end; ``at`` is where it has come to."""

    def __init__(self, words: Tongue, text: str, at: int) -> None:
        self.words, self.text, self.at = words, text, at

    @property
    def done(self) -> bool:
        """Whether everything was read."""
        return self.at == len(self.text)

    def take(self, key: str, ending: str = "") -> re.Match[str] | None:
        """Passes the phrase ``key``, if it comes next."""
        found = self.words.pattern(key, ending).match(self.text, self.at)
        if found is not None:
            self.at = found.end()
        return found

    def literal(self, words: str) -> bool:
        """Passes ``words``, if they come next."""
        fits = self.text.startswith(words, self.at)
        self.at += len(words) * fits
        return fits

    def counts(self, lead: str | None = None) -> list[f.Count]:
        """ "22 cl (67 dc, 21 ch, 1 tch); ...". """
        if lead is not None and self.take(lead) is None:
            return []
        made: list[f.Count] = []
        while (found := self.take("count")) is not None:
            count = self._count(int(found["n"]), found["parts"])
            if count is None:
                return []
            made.append(count)
            if not self.literal("; "):
                break
        return made if self.literal(".") else []

    def _count(self, clusters: int, parts: str) -> f.Count | None:
        numbers = {"dc": 0, "ch": 0, "slips": 0, "tch": 0}
        order = []
        for part in parts.split(", "):
            for key in numbers:
                found = self.words.pattern(f"part_{key}").fullmatch(part)
                if found is not None:
                    numbers[key] = int(found["n"])
                    order.append(key)
                    break
            else:
                return None
        in_order = order == [key for key in numbers if key in order]
        return f.Count(clusters, **numbers) if in_order and all(numbers[key] for key in order) else None

    def shaped(self) -> tuple[f.Shaped, ...]:
        """ " At start: half a cl less; at end: 1½ cl more."."""
        begun, text = self.at, self.text
        made: list[f.Shaped] = []
        if not self.literal(" "):
            return ()
        self.text = text[: self.at] + text[self.at : self.at + 1].lower() + text[self.at + 1 :]
        for where in ("start", "end"):
            if made and not self.literal("; "):
                break
            less, more = self.take(f"{where}_less"), self.take(f"{where}_more")
            found = less or more
            if found is not None:
                made.append(f.Shaped("start" if where == "start" else "end", self._halves(found["amount"], bool(more))))
        self.text = text
        if not made or not self.literal("."):
            self.at = begun
            return ()
        return tuple(made)

    def _halves(self, amount: str, more: bool) -> int:
        halves = 1 if amount == self.words.phrases["half"] else 2 * int(amount.rstrip("½")) + amount.endswith("½")
        return halves if more else -halves

    def off(self) -> bool:
        """ " Fasten off."."""
        return self.literal(self.words.say("off"))

    # The yarns of rows told together.

    def colours(self, rows: list[f.Told]) -> bool:
        """Takes the yarns of ``rows`` and the change after them; whether they fit."""
        found = self.take("change_row")
        if found is not None:
            rows[-1].change_to = self.words.yarn(found["yarn"])
            return int(found["n"]) == rows[-1].number and rows[-1].change_to is not None
        if not self.literal(self.words.say("colors")):
            return True
        yarns = self._stripes()
        numbers = {row.number for row in rows}
        if yarns is None or not numbers <= set(yarns) <= numbers | {rows[-1].number + 1}:
            return False
        for row in rows:
            row.yarn = yarns[row.number]
            following = yarns.get(row.number + 1, row.yarn)
            row.change_to = following if following != row.yarn else None
        return True

    def _stripes(self) -> dict[int, str] | None:
        yarns: dict[int, str] = {}
        while True:
            stripe = self._stripe()
            if stripe is None or (yarns and min(stripe) != max(yarns) + 1):
                return None
            yarns |= stripe
            if self.literal(self.words.say("colors_end")):
                return yarns
            if not self.literal(", "):
                return None

    _ENDS = r"(?=, |; )"

    def _stripe(self) -> dict[int, str] | None:
        for key in ("stripe_two", "stripe_many", "stripe_one"):
            found = self.take(key, self._ENDS)
            if found is not None:
                first = int(found["a"])
                last = int(found["b"]) if key != "stripe_one" else first
                long = {"stripe_one": last == first, "stripe_two": last == first + 1}.get(key, first + 1 < last)
                yarn = self.words.yarn(found["yarn"])
                fits = long and last < first + _MOST_ROWS
                return dict.fromkeys(range(first, last + 1), yarn) if fits and yarn else None
        return self._cycle()

    def _cycle(self) -> dict[int, str] | None:
        found = self.take("cycle")
        order: list[str] = []
        while found is not None:
            height = self.take("height_many", r"(?=, | \()") or self.take("height_one", r"(?=, | \()")
            yarn = self.words.yarn(height["yarn"]) if height else None
            if height is None or yarn is None:
                return None
            if int(height["n"]) > _MOST_ROWS:
                return None
            order += [yarn] * int(height["n"])
            if not self.literal(", "):
                break
        begins = self.take("begins")
        if found is None or begins is None or not order:
            return None
        first, last = int(found["a"]), int(found["b"])
        said = re.split(r", |" + re.escape(self.words.phrases["and"]), begins["list"])
        if last >= first + _MOST_ROWS or said != [str(row) for row in range(first, last + 1, len(order))]:
            return None
        return {row: order[(row - first) % len(order)] for row in range(first, last + 1)}


# ------------------------------------------------------------------------------------------------- the steps

_STOP = r"(?=, |\. |\]|\.?$)"


def _sentence(words: Tongue, text: str) -> tuple[tuple[f.Step, ...], int] | None:
    """The steps of the sentence that ``text`` begins with, and where the next one begins."""
    for start in (text, text[:1].lower() + text[1:]):
        found = words.told.get(start)
        if found is None:
            steps, at = _list(words, start, 0)
            if not steps or not start.startswith(". ", at):
                continue
            found = words.told[start] = (steps, at + 2)
        return found
    return None


def _list(words: Tongue, text: str, at: int) -> tuple[tuple[f.Step, ...], int]:
    """Steps parted by commas from ``at`` on, and where they end; none where one does not fit."""
    steps: list[f.Step] = []
    while True:
        step, at = _repeat(words, text, at) if text.startswith("[", at) else _one(words, text, at)
        if step is None:
            return (), at
        steps.append(step)
        if not text.startswith(", ", at):
            return tuple(steps), at
        at += 2


def _repeat(words: Tongue, text: str, at: int) -> tuple[f.Step | None, int]:
    steps, at = _list(words, text, at + 1)
    found = words.pattern("times", _STOP).match(text, at)
    if found is None or not steps or int(found["n"]) < 2 or int(found["n"]) > 100_000:
        return None, at
    return f.Repeat(steps, int(found["n"])), found.end()


def _one(words: Tongue, text: str, at: int) -> tuple[f.Step | None, int]:
    for key in _STEPS:
        found = words.pattern(key, _STOP).match(text, at)
        if found is not None:
            step = _step(words, key, found)
            if step is not None:
                return step, found.end()
    return None, at


def _step(words: Tongue, key: str, found: re.Match[str]) -> f.Step | None:
    slots = found.groupdict()
    number = int(slots["n"]) if "n" in slots else 1
    if key == "turn":
        return f.Turn()
    if key.startswith("skip_") and key != "skip_chains":
        return f.SkipCluster(cast(f.Which, key.removeprefix("skip_")))
    if key.startswith("leave_"):
        return _leave(key, number)
    if "place" in slots:
        place = _place(words, slots["place"])
        return None if place is None else _placed(words, key, place, slots)
    if key == "change":
        yarn = words.yarn(slots["yarn"])
        return None if yarn is None else f.Change(yarn)
    return _NUMBERED[key](number)


_NUMBERED: dict[str, type[f.Chain | f.Slip | f.DcInChains | f.ClusterInSpaces | f.SkipChains]] = {
    "chain": f.Chain,
    "slip_one": f.Slip,
    "slip_many": f.Slip,
    "chains_one": f.DcInChains,
    "chains_many": f.DcInChains,
    "spaces_one": f.ClusterInSpaces,
    "spaces_many": f.ClusterInSpaces,
    "skip_chains": f.SkipChains,
}


def _leave(key: str, number: int) -> f.Leave:
    if key == "leave_clusters":
        return f.Leave("clusters", number)
    return f.Leave("tch" if key == "leave_tch" else "rest")


def _placed(words: Tongue, key: str, place: f.Named, slots: dict[str, str]) -> f.Step | None:
    if key == "slip_into":
        return f.Slip(into=place.which) if isinstance(place, f.Space) else None
    if key in ("dc_in", "two_dc_in"):
        return f.Dc(2 if key == "two_dc_in" else 1, place)
    if key in ("cluster_in", "cluster_dc_in"):
        return f.Cluster(place, and_dc=key == "cluster_dc_in")
    if not isinstance(place, f.Space | f.DcOf) or slots["section"] != words.phrases["first"]:
        return None
    same = place.which == "same"
    if same != (key == "join_same"):
        return None
    return f.Join(words.yarn(slots["yarn"]), int(slots.get("n") or 0), place)


@lru_cache(maxsize=4096)
def _place(words: Tongue, text: str) -> f.Named | None:
    for key in _PLACES:
        found = words.pattern(key).fullmatch(text)
        if found is not None:
            nth = int(re.sub(r"\D", "", found["nth"])) if "nth" in found.groupdict() else 0
            return _named(key, nth)
    return None


def _named(key: str, nth: int) -> f.Named:
    spaces: dict[str, f.Which] = {"at_first_space": "first", "at_next_space": "next", "at_same_space": "same"}
    if key in spaces:
        return f.Space(spaces[key])
    if key in ("at_dc_next", "at_dc_same"):
        return f.DcOf(nth, "next" if key == "at_dc_next" else "same")
    if key == "at_hook":
        return f.FromHook(nth)
    if key == "at_top":
        return f.TurningChain(nth)
    plain: dict[str, f.Named] = {
        "at_last": f.LastChain(), "at_last_dc": f.LastDc(), "at_base": f.Base(), "at_edge": f.EdgeDc()
    }  # fmt: skip
    return plain[key]


# --------------------------------------------------------------------------------------------------- working it


def worked(written: Written) -> dict[str, list[f.Made]]:
    """Every piece worked as written, by its name. Raises Unworkable or Unreadable."""
    return {piece.name: work_piece(written.craft, piece) for piece in written.pieces}


def work_piece(craft: Craft, piece: WrittenPiece) -> list[f.Made]:
    """One piece worked as written."""
    maker = f.Maker(craft, piece.chains, piece.turning, piece.yarn)
    for section in piece.sections:
        if section.after is not None:
            maker.go_back() if section.joined else maker.divide()
        for row in section.rows:
            maker.row(row)
    rows = maker.finish()
    first = rows[0].course
    if piece.times != first.clusters:
        raise Unreadable(f'"{piece.name}": a foundation for {piece.times} clusters; row 1 has {first.clusters}')
    highest = max(made.course.number for made in rows)
    if piece.row_count != highest:
        raise Unreadable(f'"{piece.name}": {piece.row_count} rows are said; {highest} are told')
    return rows
