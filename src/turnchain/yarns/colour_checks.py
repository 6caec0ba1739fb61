"""Whether stripes can be told apart, and read.

In: a ``Plan`` in its colours. Out: for every two yarns that lie side by side how much their colours differ to most
readers, to colour-blind ones and in a grey photocopy, and the ink that can be read on each.

Difference: CIEDE2000 (Sharma, Wu, Dalal 2005) between the colours in CIE Lab under D65. Colour-blind readers:
Machado, Oliveira, Fernandes 2009, on linear RGB, at full severity. Grey: the difference in lightness L*. The
colours are those of a screen; wool in daylight is another matter, and the words say so.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import TYPE_CHECKING

from turnchain import colour_difference, style
from turnchain.fabric.plan import Plan
from turnchain.records import frozen
from turnchain.wording.languages.language import Speech

if TYPE_CHECKING:
    from coloraide import Color

# No published bound tells stripes apart at arm's length; these were chosen by eye on screen, and are ours. A
# difference of 1 to 2 is the least that trained eyes see on large patches side by side.
LEAST_DIFFERENCE = 10.0  # CIEDE2000
LEAST_GREY = 10.0  # of L*, 0 to 100
NEARLY_ONE = 2.0  # CIEDE2000: what differs by less is most likely one colour given twice

#: The three kinds of colour blindness, by the filter's name, in makers' words.
VISIONS = {"protan": "red-blind", "deutan": "green-blind", "tritan": "blue-blind"}


@frozen
class Pair:
    """Two yarns that lie side by side: ``difference`` to most eyes, ``blind`` to each of ``VISIONS`` in turn (all
    CIEDE2000), ``grey`` in L* (0 to 100); ``rows`` are the numbers of the rows, one above the other, in which they
    first meet, in ``piece``."""

    first: str
    second: str
    difference: float
    blind: tuple[float, float, float]
    grey: float
    piece: str
    rows: tuple[int, int]

    @property
    def alike(self) -> bool:
        """Whether most readers would take the two for one: they differ by less than ``LEAST_DIFFERENCE``."""
        return self.difference < LEAST_DIFFERENCE

    @property
    def alike_to(self) -> tuple[str, ...]:
        """The colour-blind readers, in makers' words ("red-blind"), who would take the two for one; empty where none
        would."""
        found = zip(VISIONS.values(), self.blind, strict=True)
        return tuple(words for words, difference in found if difference < LEAST_DIFFERENCE)

    @property
    def alike_in_grey(self) -> bool:
        """Whether a grey photocopy shows the two as one: their L* differs by less than ``LEAST_GREY``."""
        return self.grey < LEAST_GREY


@frozen
class Ink:
    """The ``ink`` for symbols on a yarn's ``colour``, both "#rrggbb", and its WCAG ``contrast``, 1 to 21."""

    yarn: str
    colour: str
    ink: str
    contrast: float

    @property
    def legible(self) -> bool:
        """Whether the contrast is that of legible text, 4.5 to 1 (WCAG 2)."""
        return self.contrast >= style.LEAST_CONTRAST


@cache
def _colour(text: str) -> Color:
    from coloraide import Color  # a quarter of a second: only where colours are compared

    return Color(text)


def difference(one: str, other: str) -> float:
    """CIEDE2000 between two colours "#rrggbb": 0 where they are one. ValueError for what is no colour."""
    return float(_colour(one).delta_e(_colour(other), method="2000"))


@cache
def as_seen(colour: str, vision: str) -> str:
    """``colour`` ("#rrggbb") as a reader with ``vision`` (a key of ``VISIONS``) sees it, again as "#rrggbb". ValueError
    for any other vision, and for what is no colour. Source: Machado and others, as above."""
    seen = _colour(colour).filter(vision, 1, method="machado", space="srgb-linear", out_space="srgb")
    return str(seen.clip().to_string(hex=True))


@cache
def lightness(colour: str) -> float:
    """L* of ``colour`` ("#rrggbb"), 0 to 100: what a grey photocopy keeps of it. ValueError for what is no colour."""
    return float(_colour(colour).convert("lab-d65")["lightness"])


def pairs(plan: Plan) -> tuple[Pair, ...]:
    """Every two yarns that lie side by side somewhere in a piece, one row above the other, in the order they first do;
    each two once. Rows that meet only at a seam do not count."""
    colours = {yarn.name: yarn.colour for yarn in plan.pattern.yarns}
    found: dict[frozenset[str], Pair] = {}
    for piece, rows, names in _neighbours(plan):
        key = frozenset(names)
        if key not in found:
            found[key] = _pair(colours, names, piece, rows)
    return tuple(found.values())


def _neighbours(plan: Plan) -> Iterator[tuple[str, tuple[int, int], tuple[str, str]]]:
    """Every change of yarn from a row to the row above it."""
    for piece in plan.pieces:
        for row in piece.rows:
            below = piece.below(row)
            if below and below.colour and row.colour and below.colour != row.colour:
                yield piece.name, (below.number, row.number), (below.colour, row.colour)


def _pair(colours: dict[str, str], names: tuple[str, str], piece: str, rows: tuple[int, int]) -> Pair:
    one, other = colours[names[0]], colours[names[1]]
    protan, deutan, tritan = (difference(as_seen(one, v), as_seen(other, v)) for v in VISIONS)
    grey = abs(lightness(one) - lightness(other))
    return Pair(*names, difference(one, other), (protan, deutan, tritan), grey, piece, rows)


def doubts(plan: Plan) -> Iterator[str]:
    """A warning for every two yarns of (nearly) one colour that lie side by side, where they first do: most likely one
    of them has its colour by mistake. None where all yarns are of one colour, which is warned of as a whole."""
    colours = {yarn.name: yarn.colour for yarn in plan.pattern.yarns}
    if len(set(colours.values())) < 2:
        return
    seen: set[frozenset[str]] = set()
    for piece, rows, (one, other) in _neighbours(plan):
        pair = frozenset((one, other))
        if pair not in seen and colour_difference.difference(colours[one], colours[other]) < NEARLY_ONE:
            same = colours[one] == colours[other]
            how = f"both have the colour {colours[one]}" if same else "are nearly of one colour"
            shown = "do not show" if same else "hardly show"
            yield (
                f"{one} and {other} {how} and meet in {piece}, rows {rows[0]} and {rows[1]}: the pictures {shown} that "
                f"stripe; give each yarn the colour of its ball"
            )
        seen.add(pair)


def inks(plan: Plan) -> tuple[Ink, ...]:
    """The ink on every yarn of the pattern, in its order."""
    return tuple(
        Ink(yarn.name, yarn.colour, ink, style.contrast(ink, yarn.colour))
        for yarn in plan.pattern.yarns
        for ink in (style.ink_on(yarn.colour),)
    )


def told(plan: Plan, speech: Speech) -> list[str]:
    """What ``lines`` says of the colours, for who chooses among orders: in the language of ``speech``, without
    figures."""
    said = [words for pair in pairs(plan) for words in _pair_told(pair, speech)]
    return said + [speech.say("orders.illegible", yarn=ink.yarn) for ink in inks(plan) if not ink.legible]


def _pair_told(pair: Pair, speech: Speech) -> Iterator[str]:
    def say(key: str, **more: str) -> str:
        names = {"one": pair.first, "other": pair.second, "piece": pair.piece}
        return speech.say(key, first=pair.rows[0], second=pair.rows[1], **names, **more)

    if pair.alike:
        yield say("orders.alike")
        return
    if pair.alike_to:
        visions = [speech.say(f"vision.{vision}") for vision, words in VISIONS.items() if words in pair.alike_to]
        yield say("orders.alike_to", readers=speech.language.listed(visions))
    if pair.alike_in_grey:
        yield say("orders.alike_in_grey")


def lines(plan: Plan) -> list[str]:
    """Which yarns are too alike and on which symbols are hard to read, in English, a line to each; nothing where all
    stripes can be told apart and read."""
    told = [words for pair in pairs(plan) for words in _pair_lines(pair)]
    for ink in inks(plan):
        if not ink.legible:
            told.append(f"symbols on {ink.yarn} are hard to read: {ink.contrast:.1f} to 1, where 4.5 is needed")
    if told:
        told.append("colours as a screen shows them: lay the yarns side by side in daylight before you decide")
    return told


def _pair_lines(pair: Pair) -> Iterator[str]:
    names = f"{pair.first} and {pair.second} ({pair.piece}, rows {pair.rows[0]} and {pair.rows[1]})"
    if pair.alike:
        yield f"{names} are too alike to show a stripe: they differ by {pair.difference:.1f}, where 10 is clear"
        return
    if pair.alike_to:
        yield f"{names} look alike to {_and(pair.alike_to)} readers; the letters tell them apart"
    if pair.alike_in_grey:
        yield f"{names} come out as one grey in a photocopy; the letters tell them apart"


def _and(words: tuple[str, ...]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
