"""The colours of an indexed picture, chosen from what the scene lays on what.

In: the fills and inks of a scene with where they lie. Out: at most 256 colours, and tables that say which of
them a colour becomes under so much of an ink; or nothing, where so few colours cannot do.

Every ground gets even steps towards each ink that may lie on it. For the ink with most to draw on a ground
there are all ``levels`` steps, one number after the other, so that laying a mask down is an addition; towards
any other ink the steps are as far apart in colour as black and white would have them. Where there is no room
for steps from ink to ink as well, which meet in few px, or for those of inks that lie on a ground in next to no px, the
nearest colour there is replaces the true one.
"""

from __future__ import annotations

import math
from array import array
from collections.abc import Iterable
from functools import lru_cache
from itertools import chain
from typing import TypeAlias

from turnchain.raster import loops
from turnchain.raster.bounds import Bounds
from turnchain.records import field, frozen, mutable

#: How many numbers fit one byte.
MOST = 256
#: Steps from black to white: the finest that fits is taken.
LEVELS = (51, 42, 36, 32, 28, 24, 21, 18, 16)
#: Numbers that would be needed: with more, no palette is looked for.
TOO_MANY = 2 * MOST
#: Share of the px of all inks that may go without steps of their own.
RARE = 0.03
CLEAR = "clear"  # the ground of a picture without background

#: Red, green, blue and opacity, 0 to 255; colours are multiplied with their opacity.
Shade: TypeAlias = tuple[float, float, float, float]


@frozen
class PaintedArea:
    """Something painted in ``colour`` ("#rrggbb") within ``bounds`` (px): as an area that others may lie on
    (``ground``), with edges or strokes that blend with what is below (``ink``), or both. ``faint``: a see-through
    area."""

    colour: str
    bounds: Bounds
    ground: bool
    ink: bool
    faint: bool = False


class Blends:
    """What every number becomes under each level of ``ink``, from 0 to ``levels``: a row of ``table`` for each of 256
    numbers, as far as it is ``known``; ``lines`` flags those whose steps follow them. Few grounds meet few inks, and to
    find the nearest colour takes time, so that ``loops.lay_indexed`` fills in rows when they are needed."""

    def __init__(self, levels: int, ink: Shade, lines: Iterable[int]) -> None:
        self.ink, self.table, self.known = ink, bytearray(MOST * (levels + 1)), bytearray(MOST)
        flags = bytearray(MOST)
        for number in lines:
            flags[number] = 1
        self.lines = bytes(flags)


@mutable
class Palette:
    """At most 256 colours, and how they blend: ``shades`` by number, ``background`` the number of the background. Masks
    run from 0 to ``levels``; the steps of a ground towards an ink that are one number after the other are ``_in_line``:
    level n is the ground's number + n."""

    levels: int
    shades: list[Shade]
    background: int
    _numbers: dict[str, int]
    _in_line: set[tuple[int, str]]
    _blends: dict[str, Blends] = field(default_factory=dict)
    _packed: bytes = b""

    def number(self, colour: str) -> int:
        """The number of the ground ``colour``. KeyError for one that is no ground here."""
        return self._numbers[colour]

    def blends(self, ink: str) -> Blends:
        """What numbers become under ``ink``, as far as it is known."""
        if ink not in self._blends:
            lines = (number for number, other in self._in_line if other == ink)
            self._blends[ink] = Blends(self.levels, _shade(ink), lines)
        return self._blends[ink]

    def packed(self) -> bytes:
        """The shades, four float64 each, one behind the other."""
        if not self._packed:
            self._packed = array("d", chain.from_iterable(self.shades)).tobytes()
        return self._packed

    def channels(self) -> list[bytes]:
        """Red, green and blue of each number, 0 to 255, as tables for ``bytes.translate``, and opacity where not all
        are opaque. Colours are no longer multiplied with their opacity."""
        straight = [_straight(shade) for shade in self.shades]
        tables = [bytes(channel).ljust(MOST, b"\0") for channel in zip(*straight, strict=True)]
        return tables[:3] if all(opacity == 255 for *_, opacity in straight) else tables

    def chunks(self) -> tuple[bytes, bytes]:
        """The colours as PNG's PLTE and tRNS chunks hold them; the latter empty where all are opaque."""
        red, green, blue, *opacity = (channel[: len(self.shades)] for channel in self.channels())
        return bytes(chain.from_iterable(zip(red, green, blue, strict=True))), b"".join(opacity)


def _straight(shade: Shade) -> list[int]:
    opacity = shade[3]
    many = 255 / max(opacity, 1e-9)
    return [min(max(round(value), 0), 255) for value in (*(channel * many for channel in shade[:3]), opacity)]


def chosen(background: str | None, marks: Iterable[PaintedArea]) -> Palette | None:
    """A palette for ``marks``, in the order of painting, on ``background`` (None: transparent); None where 256
    colours cannot give every ink its steps, or where something is seen through an area."""
    marks = list(marks)
    if any(mark.faint for mark in marks):
        return None
    # with steps from ink to ink as well if there is room
    for every in (True, False):
        pairs = _pairs(background or CLEAR, marks, every)
        pairs = pairs if every else _without_rare(pairs)
        for levels in LEVELS if pairs else ():
            if (made := _laid_out(background or CLEAR, pairs, levels)) is not None:
                return made
    return None


#: How much (px of bounds) may be laid on each ground in each ink.
_Pairs: TypeAlias = dict[str, dict[str, float]]


def _pairs(background: str, marks: list[PaintedArea], every: bool) -> _Pairs:
    """What lies on what: on areas, or on ``every`` thing; nothing as soon as it would be too much."""
    order = list(enumerate(marks))
    inks = _by_colour((place, mark) for place, mark in order if mark.ink)
    grounds = _by_colour((place, mark) for place, mark in order if mark.ground or every)
    pairs: _Pairs = {}
    room = MOST if every else TOO_MANY
    for ground in dict.fromkeys([background, *grounds]):
        below = grounds.get(ground, _Rectangles([]))
        laid = {ink: below.shared(above) for ink, above in inks.items() if ink != ground}
        if ground == background:
            # most of it will have a ground of its own
            laid = {ink: share + inks[ink].area() / 2 for ink, share in laid.items()}
        pairs[ground] = {ink: share for ink, share in laid.items() if share}
        room -= 1 + sum(_steps(ground, ink, LEVELS[-1]) for ink in pairs[ground])
        if room < 0:
            return {}
    return pairs


def _without_rare(pairs: _Pairs) -> _Pairs:
    """``pairs`` without those of the fewest px for which there is no room; nothing where these would be too many."""
    by_px = sorted((px, ground, ink) for ground, laid in pairs.items() for ink, px in laid.items())
    first = {(ground, max(laid, key=lambda ink: laid[ink])) for ground, laid in pairs.items() if laid}

    def needed(ground: str, ink: str) -> int:
        return LEVELS[-1] if (ground, ink) in first else _steps(ground, ink, LEVELS[-1])

    room = MOST - len(pairs) - sum(needed(ground, ink) for _, ground, ink in by_px)
    rare = RARE * math.fsum(px for px, _, _ in by_px)
    left_out: set[tuple[str, str]] = set()
    for px, ground, ink in by_px:
        if room >= 0:
            break
        rare -= px
        room += needed(ground, ink)
        left_out.add((ground, ink))
    if room < 0 or rare < 0:
        return {}
    return {
        ground: {ink: px for ink, px in laid.items() if (ground, ink) not in left_out} for ground, laid in pairs.items()
    }


class _Rectangles:
    """Bounds of marks and their places in the order of painting, from the top down."""

    def __init__(self, placed: list[tuple[int, PaintedArea]]) -> None:
        self._area = math.fsum(mark.bounds.area() for _, mark in placed)
        down = sorted(placed, key=lambda each: each[1].bounds.top)
        self._sides = array("d", chain.from_iterable((*mark.bounds, place) for place, mark in down)).tobytes()

    def area(self) -> float:
        """How many px they hold."""
        return self._area

    def shared(self, above: _Rectangles) -> float:
        """How many px ``above`` shares with those that were painted before or with it, each to a 256th."""
        return loops.overlap(self._sides, above._sides) / 256


def _by_colour(placed: Iterable[tuple[int, PaintedArea]]) -> dict[str, _Rectangles]:
    found: dict[str, list[tuple[int, PaintedArea]]] = {}
    for place, mark in placed:
        found.setdefault(mark.colour, []).append((place, mark))
    return {colour: _Rectangles(marks) for colour, marks in found.items()}


def _laid_out(background: str, pairs: _Pairs, levels: int) -> Palette | None:
    """The palette with ``levels`` steps, if it has room."""
    inks = {ground: sorted(laid, key=lambda ink: -laid[ink]) for ground, laid in pairs.items()}
    steps = {
        (ground, ink): _steps(ground, ink, levels) if nth else levels
        for ground, order in inks.items()
        for nth, ink in enumerate(order)
    }
    if len(inks) + sum(steps.values()) > MOST:
        return None
    shades: list[Shade] = []
    numbers: dict[str, int] = {}
    in_line: set[tuple[int, str]] = set()
    for ground, order in inks.items():
        numbers[ground] = len(shades)
        in_line |= {(numbers[ground], ink) for ink in order[:1]}
        shades.append(_shade(ground))
        for ink in order:
            count = steps[ground, ink]
            shades += [_between(_shade(ground), _shade(ink), step / count) for step in range(1, count + 1)]
    return Palette(levels, shades, numbers[background], numbers, in_line)


def _between(ground: Shade, ink: Shade, share: float) -> Shade:
    red, green, blue, opacity = (a * (1 - share) + b * share for a, b in zip(ground, ink, strict=True))
    return red, green, blue, opacity


def _steps(ground: str, ink: str, levels: int) -> int:
    """How many steps from ``ground`` to ``ink`` are as fine as ``levels`` from black to white."""
    return max(1, math.ceil(levels * _apart(ground, ink) / 255))


@lru_cache(1 << 12)
def _apart(one: str, other: str) -> float:
    """How far the channels of two colours are apart at most."""
    return max(abs(a - b) for a, b in zip(_shade(one), _shade(other), strict=True))


def told(colour: str) -> tuple[int, int, int, int]:
    """Red, green, blue and opacity of the opaque ``colour`` "#rrggbb"."""
    red, green, blue = bytes.fromhex(colour.removeprefix("#"))
    return red, green, blue, 255


@lru_cache(1 << 10)
def _shade(colour: str) -> Shade:
    """The channels of ``colour``."""
    return (0, 0, 0, 0) if colour == CLEAR else told(colour)
