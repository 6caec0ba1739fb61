"""Lines about edgings read back as figures, whatever language they are in.

In: a line, and a key of ``tables.PHRASES``. Out: what stands in its slots; ``SaidPlaces`` of one sort along an edge,
with how stitches are spread over them; the steps of later rows.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from turnchain.proof.printed.edging.tables import CLUSTERS, EDGES, PHRASES
from turnchain.proof.printed.lengths import LENGTH
from turnchain.proof.words.tables import TABLES

_STITCHES = ("sc", "hdc", "dc", "tr")
_WORDS = ("name", "full", "rest", "sides", "how", "edge", "of", "where", "gaps", "kind", "yarn")
_PLACES = ("kind", "upright", "slant", "chain", "step", "straight", "stitch")
_CHANGES = {"more": 1, "fewer": -1, "skip": -1}
_NTH = r"\d+(?:st|nd|rd|th|\.|re|ère|er|e)"


@dataclass(frozen=True, slots=True)
class SaidPhrase:
    """A phrase by its ``key``, and the words in its slots; a slot that is not filled is no key of ``slots``."""

    key: str
    slots: dict[str, str]

    def number(self, slot: str, otherwise: int = 0) -> int:
        """The number in a slot: the figure that it begins with."""
        found = re.match(r"\d+", self.slots.get(slot, ""))
        return int(found[0]) if found else otherwise

    @property
    def figures(self) -> int:
        """How many numbers are told."""
        return sum(len(re.findall(r"\d+", words)) for words in self.slots.values())


@dataclass(frozen=True, slots=True)
class SaidPlaces:
    """``each`` stitches in each of ``places`` of one sort (``what``, a key of the phrases; ``kind``: of its rows);
    ``change`` more in those that ``at`` numbers, from 1. None where more are told than there are places."""

    what: str
    places: int
    each: int
    change: int
    at: frozenset[int] | None
    kind: str = ""

    @property
    def stitches(self) -> int | None:
        """All that are worked; None where the places do not suffice."""
        if self.at is None:
            return None
        return sum(self.each + self.change * (place in self.at) for place in range(1, self.places + 1))


class EdgingReader:
    """Reads lines in ``language`` ("US", "UK", "de", "fr")."""

    def __init__(self, language: str) -> None:
        self.language = language
        self.tokens = TABLES[language][0]
        self.phrases = PHRASES[language]
        self._made: dict[str, re.Pattern[str]] = {}

    @cached_property
    def stitches(self) -> dict[str, str]:
        """The stitches (US) by what they are called."""
        return {self.tokens[one]: one for one in _STITCHES}

    def is_one(self, line: str) -> bool:
        """Whether a line tells of an edging."""
        return re.match(self.phrases["any"], line) is not None

    def is_round(self, line: str) -> bool:
        """Whether a line tells of a round, not of a row."""
        return re.match(self.phrases["round"], line) is not None

    def tells_yarn(self, line: str) -> bool:
        """Whether a line tells what yarn the edgings take."""
        return line.startswith(self.phrases["yarn"])

    def read(self, line: str, *keys: str) -> SaidPhrase | None:
        """``line`` as the first of the phrases ``keys`` that it is; None where it is none."""
        for key in keys:
            if found := self._pattern(key).fullmatch(line):
                return SaidPhrase(key, {slot: words for slot, words in found.groupdict().items() if words is not None})
        return None

    def parts(self, line: str, *keys: str) -> Iterator[SaidPhrase | str]:
        """``line`` phrase by phrase, parted by commas; what is none of ``keys`` as it stands, to its end."""
        while line:
            found = [one for key in keys if (one := re.match(rf"{self._pattern(key).pattern}(?:, |$)", line))]
            if not found:
                yield line
                return
            words = max((one[0] for one in found), key=len)
            told = self.read(words.removesuffix(", "), *keys)
            line = line[len(words) :]
            yield told or words

    def places(self, words: str) -> SaidPlaces | None:
        """SaidPlaces of one sort and how stitches go into them; None where it cannot be worked."""
        changed = self.read(words, *_CHANGES)
        told = self.read(changed.slots["of"] if changed else words, *_PLACES)
        if told is None:
            return None
        count = told.number("places", 1)
        kind = self._kind(told.slots["kind"]) if told.key == "kind" else ""
        what = "straight" if told.key in ("upright", "kind") else told.key
        at = self.changed(changed.slots["where"], count) if changed else frozenset[int]()
        return SaidPlaces(what, count, told.number("n"), _CHANGES[changed.key] if changed else 0, at, kind)

    def edge(self, called: str) -> str:
        """The English name of an edge, before which its piece may stand."""
        names = EDGES[self.language]
        piece, comma, edge = called.rpartition(", ")
        return f"{piece}{comma}{names.get(edge, edge)}"

    def each(self, key: str, words: str) -> Iterator[SaidPhrase]:
        """Every one of the phrases ``key`` in a list."""
        for found in self._pattern(key).finditer(words):
            yield SaidPhrase(key, {slot: said for slot, said in found.groupdict().items() if said is not None})

    def changed(self, where: str, places: int) -> frozenset[int] | None:
        """Which of so many places, from 1, "every 7th 4 times" tells; None where they do not suffice."""
        if self.read(where, "middle"):
            return frozenset({(places + 1) // 2})
        at, passed = set(), 0
        for told in self.each("every", where):
            for _ in range(told.number("n", 1)):
                passed += told.number("nth")
                at.add(passed)
        return frozenset(at) if 0 < passed <= places else None

    def _kind(self, words: str) -> str:
        return "cluster" if words in CLUSTERS[self.language] else self.stitches.get(words, words)

    def _pattern(self, key: str) -> re.Pattern[str]:
        if key not in self._made:
            seen: set[str] = set()
            source = re.sub(r"\{(\w+)\}", lambda token: re.escape(self.tokens[token[1]]), self.phrases[key])
            self._made[key] = re.compile(re.sub(r"<(\w+)>", lambda slot: self._slot(slot[1], seen), source))
        return self._made[key]

    def _slot(self, name: str, seen: set[str]) -> str:
        inside = self._inside(name)
        if name in seen:
            return f"(?P={name})"
        seen.add(name)
        return f"(?P<{name}>{inside})"

    def _inside(self, name: str) -> str:
        if name in ("st", "own"):
            return "|".join(sorted(map(re.escape, self.stitches), key=len, reverse=True))
        if name == "length":
            return LENGTH.replace(r"\.", "[.,]")
        if name == "counts":
            return r"\d+(?:, \d+)*"
        if name == "nth":
            return _NTH
        return r".+?" if name in _WORDS else r"\d+"


def parted(words: str) -> Sequence[str]:
    """``words`` at every semicolon that is not within brackets."""
    return [part.strip() for part in re.findall(r"(?:[^;()]|\([^()]*\))+", words)]
