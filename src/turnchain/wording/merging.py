"""The texts of all sizes of a pattern as one text, and one size's text out of it again.

In: the text of each size, in Markdown, and the names of the sizes. Out: one text. Where lines differ in figures alone,
the figure of the first size stands before brackets with those of the others in their order: "ch 66 (78, 90)", within
other brackets "66 [78, 90]"; a figure that is the same in all sizes stands alone. So do words that change as figures
do, such as names of yarns. Where a size lacks a part of a sentence, a dash stands in it for that size: "change to –
(Reed, –)". A sentence, or a whole line, that only some sizes have says so at its beginning, and has figures for those
alone: "Sizes M and L only: ch 78 (90)".

Nothing here knows what the lines mean, so any language and any page can be told so. Choosing a size is the exact
inverse: every line is only merged where each size comes out of it as it went in. What a maker wrote in brackets for all
sizes, "to fit 81 (86, 91) cm", is such a line already and stays so.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from difflib import SequenceMatcher
from typing import Final, Protocol, TypeAlias, TypeVar

from turnchain.records import frozen

#: Says that a line is for some sizes only: "Sizes M and L only:".
Only: TypeAlias = Callable[[Sequence[str]], str]

DASH: Final = "–"
_HOLE: Final = "\0"  # where a figure stands
#: A figure with what belongs to it, such as 44, 5th, 2½, +54.5 and 21 1/4.
_FIGURE: Final = r"(?<![^\s(\[])[+−]\d+(?:[.,]\d+)*|\d+ \d+/\d+|[^\W\d_]*\d(?:[^\s()\[\],;:|*.]|[.,](?=\d))*"
_MARKUP: Final = re.compile(r"(?:#+ |- |\| |> |\d+\. )?")
_PARTED: Final = re.compile(r"(, |; )")
_LINE_END: Final = re.compile(r"\.?\n*$")
_GONE: Final = "\1"  # where a sentence of other sizes stood
_MARKED: Final = re.compile(r"\*\*\[([^*]+)\*\* (.*?)\*\*\]\*\*")
#: Lines that no size shares are compared with one another in stretches of so many pairs at the most.
_MOST_PAIRS: Final = 40_000
#: How many parts of a sentence may be dashes for some sizes: more cannot be read.
_MOST_DASHED: Final = 2
#: How much of two lines must be alike for them to be told as one.
_ALIKE: Final = 0.6


@frozen
class Sizes:
    """The ``names`` of the sizes in their order; what says that a line is for some of them ``only``; words beside
    figures that may differ from size to size, in groups of one kind (``words``): the sides of the work, the yarns; and
    the words that follow an ordinal with a full stop, as in "7. Lm" (``counted``; none where ordinals have none):
    before any other word it ends a sentence."""

    names: Sequence[str]
    only: Only
    words: Sequence[Sequence[str]] = ()
    counted: Sequence[str] = ()

    def sentences(self, line: str) -> list[str]:
        """The sentences of a line, without the full stops between them."""
        other = rf"(?!(?<=\d\. )(?:{_either(self.counted)})\b)" if self.counted else ""
        return re.split(rf"(?<=\S)\. {other}(?=\S)", line)

    def kinds(self) -> list[tuple[str, str]]:
        """A pattern for each kind of what may differ, and one for what must follow."""
        groups = [list(filter(None, group)) for group in self.words]
        named = [(rf"(?<!\w)(?:{_either(group)})(?!\w)", "") for group in groups if group]
        ordinals = [(r"\d+\.", rf"(?= (?:{_either(self.counted)})\b)")] if self.counted else []
        return [*named, *ordinals, (_FIGURE, "")]


def _either(words: Sequence[str]) -> str:
    """A pattern of any of these words, the longest first, so that none hides another."""
    return "|".join(map(re.escape, sorted(words, key=len, reverse=True)))


def merged(texts: Sequence[str], sizes: Sizes) -> str:
    """One text of the ``texts`` of all sizes, in their order, each ending in a line break. ValueError where a text has
    words that would be read as figures of several sizes, so that it cannot be told so."""
    merger = _Merger(sizes)
    texts = [chosen(text, sizes, nth) for nth, text in enumerate(texts)]  # a maker's own words may hold brackets
    entries: list[_Entry] = []
    for nth, text in enumerate(texts):
        entries = merger.joined(entries, [merger.entry(line, nth) for line in _lines(text)])
    made = "".join(merger.line(entry) for entry in entries)
    for nth, text in enumerate(texts):
        if chosen(made, sizes, nth) != text:
            raise ValueError(f"the text of size {sizes.names[nth]} would not be read as it was written")
    return made


def chosen(text: str, sizes: Sizes, nth: int) -> str:
    """The text of the size number ``nth`` (from 0) out of a merged one: the very text that went into it."""
    chooser = _Chooser(sizes)
    return "".join(chooser.line(line, nth) for line in _lines(text))


def _lines(text: str) -> list[str]:
    """Each line of a text with its end, and with the empty lines that follow it."""
    return re.findall(r"[^\n]*\n+|[^\n]+$", text)


def _ended(line: str) -> tuple[str, str]:
    """The words of a line, and what closes it: a full stop and line ends."""
    end = _LINE_END.search(line)
    assert end is not None, "it may be empty"
    return line[: end.start()], end[0]


def _markup(line: str) -> int:
    """Where the words of a line begin, after Markdown's signs."""
    found = _MARKUP.match(line)
    return found.end() if found else 0


# --------------------------------------------------------------------------------------------------------- merging


@frozen
class _Part:
    """A part of a sentence with the mark before it: its ``skeleton``, where ``_HOLE`` stands for each figure, and the
    ``figures`` by the number of a size (from 0)."""

    skeleton: str
    figures: dict[int, tuple[str, ...]]

    def with_(self, other: _Part) -> _Part:
        return _Part(self.skeleton, self.figures | other.figures)


@frozen
class _Sentence:
    """A sentence in the sizes that have it, by their numbers."""

    parts: tuple[_Part, ...]
    sizes: frozenset[int]

    @property
    def skeleton(self) -> tuple[str, ...]:
        return tuple(part.skeleton for part in self.parts)


@frozen
class _Entry:
    """One line in the sizes that have it: its sentences, what closes it (``end``), and the line of each size."""

    sentences: tuple[_Sentence, ...]
    end: str
    texts: dict[int, str]

    @property
    def skeleton(self) -> tuple[Hashable, ...]:
        return (self.end, *(sentence.skeleton for sentence in self.sentences))


class _HasSkeleton(Protocol):
    @property
    def skeleton(self) -> Hashable: ...


Told = TypeVar("Told", bound=_HasSkeleton)


class _Merger:
    def __init__(self, sizes: Sizes) -> None:
        self.sizes = sizes
        self.figure = re.compile("|".join(kind + after for kind, after in sizes.kinds()))
        self.chooser = _Chooser(sizes)

    def entry(self, line: str, nth: int) -> _Entry:
        words, end = _ended(line)
        sentences = tuple(
            _Sentence(tuple(self._parts(sentence, nth)), frozenset({nth})) for sentence in self.sizes.sentences(words)
        )
        return _Entry(sentences, end, {nth: line})

    def _parts(self, sentence: str, nth: int) -> Iterator[_Part]:
        first, *others = _PARTED.split(sentence)
        for words in (first, *(mark + part for mark, part in zip(others[::2], others[1::2], strict=True))):
            yield _Part(self.figure.sub(_HOLE, words), {nth: tuple(self.figure.findall(words))})

    def joined(self, entries: list[_Entry], lines: list[_Entry]) -> list[_Entry]:
        """The ``entries`` of the sizes so far with the ``lines`` of one more."""
        return _joined(entries, lines, self._both, _alike_lines)

    def _both(self, one: _Entry, other: _Entry) -> list[_Entry]:
        """Two lines as one; as they are where a size could not be read out of it again."""
        if one.end != other.end:
            return [one, other]
        sentences = _joined(list(one.sentences), list(other.sentences), _both_sentences, _alike)
        both = _Entry(tuple(sentences), one.end, one.texts | other.texts)
        line = self.line(both)
        read = all(self.chooser.line(line, nth) == text for nth, text in both.texts.items())
        whole = read and sentences[0].sizes == both.texts.keys()
        return [both] if whole else [one, other]

    def line(self, entry: _Entry) -> str:
        """The line as it is told."""
        line = ". ".join(self._told(sentence, entry) for sentence in entry.sentences) + entry.end
        if len(entry.texts) == len(self.sizes.names):
            return line
        at = _markup(line)
        return f"{line[:at]}**{self._only(entry.texts)}** {line[at:]}"

    def _only(self, sizes: Iterable[int]) -> str:
        return self.sizes.only([self.sizes.names[nth] for nth in sorted(sizes)])

    def _told(self, sentence: _Sentence, entry: _Entry) -> str:
        told = "".join(self._words(sentence))
        return told if sentence.sizes == entry.texts.keys() else f"**[{self._only(sentence.sizes)}** {told}**]**"

    def _words(self, sentence: _Sentence) -> Iterator[str]:
        depth = 0
        for part in sentence.parts:
            nothing = (DASH,) * part.skeleton.count(_HOLE)
            told = [part.figures.get(nth, nothing) for nth in sorted(sentence.sizes)]
            for place, words in enumerate(part.skeleton.split(_HOLE)):
                if place:
                    figures = [one[place - 1] for one in told]
                    yield _group(figures, depth > 0) if len(set(figures)) > 1 else figures[0]
                yield words
                depth += words.count("(") - words.count(")")


def in_brackets(figures: Sequence[str]) -> str:
    """The figures of all sizes in their order, as merged texts have them: "66 (78, 90)", or one where all are alike."""
    return figures[0] if len(set(figures)) == 1 else _group(figures, within=False)


def _group(figures: Sequence[str], within: bool) -> str:
    """The figures of all sizes, those of the others in brackets; ``within`` brackets in square ones."""
    opening, closing = "[]" if within else "()"
    mark = "; " if any("," in figure for figure in figures) else ", "
    return f"{figures[0]} {opening}{mark.join(figures[1:])}{closing}"


def _joined(
    here: list[Told], there: list[Told], both: Callable[[Told, Told], list[Told]], alike: Callable[[Told, Told], float]
) -> list[Told]:
    """Two lists as one, in their order: what has one skeleton goes together, then what is nearly ``alike``, each two as
    ``both`` makes them."""
    found: list[Told] = []
    skeletons = [one.skeleton for one in here], [one.skeleton for one in there]
    for tag, i0, i1, j0, j1 in SequenceMatcher(None, *skeletons, autojunk=False).get_opcodes():
        mine, yours = here[i0:i1], there[j0:j1]
        pairs = [(nth, nth) for nth in range(len(mine))] if tag == "equal" else _pairs(mine, yours, alike)
        found += _in_pairs(mine, yours, pairs, both)
    return found


def _in_pairs(
    mine: list[Told], yours: list[Told], pairs: list[tuple[int, int]], both: Callable[[Told, Told], list[Told]]
) -> list[Told]:
    """Two stretches as one, what is in ``pairs`` (places in both) as ``both`` makes it."""
    found: list[Told] = []
    i, j = 0, 0
    for at, other in pairs:
        found += [*mine[i:at], *yours[j:other], *both(mine[at], yours[other])]
        i, j = at + 1, other + 1
    return [*found, *mine[i:], *yours[j:]]


def _both_sentences(one: _Sentence, other: _Sentence) -> list[_Sentence]:
    """Two sentences as one. A part that one of them lacks must have one figure, where a dash can say so; as they are
    where one has not, or where more than ``_MOST_DASHED`` parts would be dashes."""
    found: list[_Part] = []
    sizes = one.sizes | other.sizes
    for tag, i0, i1, j0, j1 in SequenceMatcher(None, one.skeleton, other.skeleton, autojunk=False).get_opcodes():
        mine, yours = one.parts[i0:i1], other.parts[j0:j1]
        if tag == "equal":
            found += [part.with_(its) for part, its in zip(mine, yours, strict=True)]
        elif i0 and all(part.skeleton.count(_HOLE) == 1 for part in (*mine, *yours)):
            found += [*mine, *yours]
        else:
            return [one, other]
    dashed = sum(part.figures.keys() != sizes for part in found)
    return [_Sentence(tuple(found), sizes)] if dashed <= _MOST_DASHED else [one, other]


def _pairs(here: list[Told], there: list[Told], alike: Callable[[Told, Told], float]) -> list[tuple[int, int]]:
    """What of two stretches goes together, as places in both, rising: so that as much as can be is alike."""
    if not here or not there or len(here) * len(there) > _MOST_PAIRS:
        return []
    worth = [[alike(one, other) for other in there] for one in here]
    best = [[0.0] * (len(there) + 1) for _ in range(len(here) + 1)]  # of the stretches that begin here
    for i in range(len(here) - 1, -1, -1):
        for j in range(len(there) - 1, -1, -1):
            both = worth[i][j] + best[i + 1][j + 1] if worth[i][j] else 0.0
            best[i][j] = max(both, best[i + 1][j], best[i][j + 1])
    found: list[tuple[int, int]] = []
    i = j = 0
    while i < len(here) and j < len(there):
        if worth[i][j] and best[i][j] == worth[i][j] + best[i + 1][j + 1]:
            found.append((i, j))
            i, j = i + 1, j + 1
        elif best[i][j] == best[i + 1][j]:
            i += 1
        else:
            j += 1
    return found


def _alike_lines(one: _Entry, other: _Entry) -> float:
    """How much of two lines is alike: as much as of their first sentences."""
    return _alike(one.sentences[0], other.sentences[0]) if one.end == other.end else 0.0


def _alike(one: _Sentence, other: _Sentence) -> float:
    """How much of two sentences is alike, from 0 to 1; 0 where they begin otherwise or too little is."""
    if one.parts[0].skeleton != other.parts[0].skeleton:
        return 0.0
    common = Counter(one.skeleton) & Counter(other.skeleton)
    share = 2 * common.total() / (len(one.parts) + len(other.parts))
    return share if share >= _ALIKE else 0.0


# -------------------------------------------------------------------------------------------------------- choosing


class _Chooser:
    def __init__(self, sizes: Sizes) -> None:
        self.sizes = sizes
        self.groups: dict[int, re.Pattern[str]] = {}
        longest = sorted(sizes.names, key=len, reverse=True)
        self.named = re.compile(rf"(?<!\w)(?:{'|'.join(map(re.escape, longest))})(?!\w)")

    def line(self, line: str, nth: int) -> str:
        """The line of one size; empty where it has none."""
        at = _markup(line)
        said = re.match(r"\*\*(.+?)\*\* ", line[at:])
        whose = self._whose(said[1]) if said else None
        if whose is None or said is None:
            whose = list(range(len(self.sizes.names)))
        elif nth not in whose:
            return ""
        else:
            line = line[:at] + line[at + said.end() :]
        words, end = _ended(line)
        told = _MARKED.sub(lambda found: self._if_its(found, nth), words)
        told = told.replace(f"{_GONE}. ", "").replace(f". {_GONE}", "")
        told = self._figures(told, whose, nth)
        return ". ".join(_without_holes(sentence) for sentence in self.sizes.sentences(told)) + end

    def _if_its(self, found: re.Match[str], nth: int) -> str:
        """What a marked sentence says to the size."""
        whose = self._whose(found[1])
        if whose is None:
            return found[0]
        return self._figures(found[2], whose, nth) if nth in whose else _GONE

    def _figures(self, words: str, whose: Sequence[int], nth: int) -> str:
        """Words for the sizes ``whose`` with the figures of one of them."""
        if len(whose) == 1:
            return words
        if len(whose) not in self.groups:
            kinds = (_groups_of(kind, len(whose)) + after for kind, after in self.sizes.kinds())
            self.groups[len(whose)] = re.compile("|".join(kinds))
        place = list(whose).index(nth)
        return self.groups[len(whose)].sub(lambda found: _nth(found[0], place), words)

    def _whose(self, said: str) -> list[int] | None:
        """The numbers of the sizes that a line is for by what is ``said`` at its beginning; None where that is
        something else."""
        found = set(self.named.findall(said))
        whose = [nth for nth, name in enumerate(self.sizes.names) if name in found]
        only = self.sizes.only([self.sizes.names[nth] for nth in whose]) if whose else ""
        return whose if only == said else None


def _without_holes(sentence: str) -> str:
    first, *others = _PARTED.split(sentence)
    parts = [mark + part for mark, part in zip(others[::2], others[1::2], strict=True)]
    return "".join([first, *(part for part in parts if _HOLE not in part)])


def _groups_of(kind: str, sizes: int) -> str:
    """A pattern for figures of one ``kind`` of so many sizes: one before brackets, the others within."""
    figure = rf"(?:{kind}|{DASH})"
    more = "|".join(
        rf"{opening}{figure}(?:{mark}{figure}){{{sizes - 2}}}{closing}"
        for opening, closing in ((r"\(", r"\)"), (r"\[", r"\]"))
        for mark in (", ", "; ")
    )
    return rf"{figure} (?:{more})"


def _nth(group: str, nth: int) -> str:
    """The figure of one size out of those of all; ``_HOLE`` for a dash."""
    first, inside = re.fullmatch(r"(.*?) [(\[](.*)[)\]]", group, re.DOTALL).groups()  # type: ignore[union-attr]  # by its pattern
    figures = [first, *inside.split("; " if "; " in inside else ", ")]
    return _HOLE if figures[nth] == DASH else figures[nth]
