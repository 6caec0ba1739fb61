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
from collections.abc import Iterable
from functools import lru_cache
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from turnchain.raster.bounds import Bounds
from turnchain.raster.coverage import Alpha
from turnchain.records import field, frozen, mutable

#: How many numbers fit one byte.
MOST = 256
#: Steps from black to white: the finest that fits is taken.
LEVELS = (51, 42, 36, 32, 28, 24, 21, 18, 16)
#: How many rectangles or colours are compared with all others at once: memory for little time.
AT_A_TIME = 64
#: Numbers that would be needed: with more, no palette is looked for.
TOO_MANY = 2 * MOST
#: Share of the px of all inks that may go without steps of their own.
RARE = 0.03
CLEAR = "clear"  # the ground of a picture without background

#: Red, green, blue and opacity, 0 to 255; colours are multiplied with their opacity.
Shades = NDArray[np.float64]


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


@frozen(eq=False)
class _Blends:
    """The number that each number becomes (row) under each level (column) of one ink, as far as ``known``: few
    grounds meet few inks, and to find the nearest colour takes time."""

    table: Alpha
    known: NDArray[np.bool_]

    @classmethod
    def none_yet(cls, count: int, levels: int) -> _Blends:
        """Room for ``count`` numbers under 0 to ``levels`` levels, of which nothing is known."""
        return cls(np.empty((count, levels + 1), np.uint8), np.zeros(count, bool))


@mutable
class Palette:
    """At most 256 colours, and how they blend: ``shades`` by number and channel, ``background`` the number of the
    background. Masks run from 0 to ``levels``."""

    levels: int
    shades: Shades
    background: int
    _numbers: dict[str, int]
    _in_line: set[tuple[int, str]]
    _blends: dict[str, _Blends] = field(default_factory=dict)

    def number(self, colour: str) -> int:
        """The number of the ground ``colour``. KeyError for one that is no ground here."""
        return self._numbers[colour]

    def in_line(self, ground: int, ink: str) -> bool:
        """Whether the numbers after ``ground`` are its steps towards ``ink``, so that level n is ``ground`` + n."""
        return (ground, ink) in self._in_line

    def blended(self, numbers: Alpha, mask: Alpha, ink: str) -> Alpha:
        """What ``numbers`` become, each under its level in ``mask`` (of the same shape) of ``ink``."""
        if ink not in self._blends:
            self._blends[ink] = _Blends.none_yet(len(self.shades), self.levels)
        blends = self._blends[ink]
        if not blends.known.take(numbers).all():
            new = np.bincount(numbers[~blends.known.take(numbers)])
            self._learn(blends, np.flatnonzero(new).astype(np.uint8), ink)
        places = numbers.astype(np.intp) * (self.levels + 1) + mask
        blended: Alpha = blends.table.take(places)
        return blended

    def _learn(self, blends: _Blends, numbers: Alpha, ink: str) -> None:
        """Computes what ``numbers``, which are new to ``blends``, become under ``ink``."""
        shares = (np.arange(self.levels + 1) / self.levels)[:, None]
        squares = (self.shades**2).sum(axis=1)
        for start in range(0, len(numbers), AT_A_TIME):
            part = numbers[start : start + AT_A_TIME]
            wanted = self.shades[part, None] * (1 - shares) + _shade(ink) * shares
            # the nearest: |w - s|^2 = |w|^2 - 2 w s + |s|^2, of which the first does not matter
            blends.table[part] = np.argmin(squares - 2 * (wanted @ self.shades.T), axis=2)
        blends.table[numbers, 0] = numbers
        for ground in numbers.tolist():
            if self.in_line(ground, ink):
                blends.table[ground] = ground + np.arange(self.levels + 1)
        blends.known[numbers] = True

    def colours(self) -> Alpha:
        """By number and channel, 0 to 255: red, green and blue, and opacity where not all are opaque. Colours are no
        longer multiplied with their opacity."""
        straight = self.shades.copy()
        straight[:, :3] *= 255 / np.maximum(self.shades[:, 3:], 1e-9)
        told = np.rint(straight).clip(0, 255).astype(np.uint8)
        return told[:, :3] if (told[:, 3] == 255).all() else told

    def chunks(self) -> tuple[bytes, bytes]:
        """The colours as PNG's PLTE and tRNS chunks hold them; the latter empty where all are opaque."""
        told = self.colours()
        return told[:, :3].tobytes(), told[:, 3].tobytes() if told.shape[1] == 4 else b""


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
        below = grounds.get(ground, _Rectangles.of([]))
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


@frozen(eq=False)
class _Rectangles:
    """Bounds of marks, side by side, from the top down, and their places in the order of painting; ``reach``: how far
    down those up to each reach."""

    left: Shades
    top: Shades
    right: Shades
    bottom: Shades
    order: NDArray[np.int_]
    reach: Shades

    @classmethod
    def of(cls, placed: list[tuple[int, PaintedArea]]) -> _Rectangles:
        """Those of ``placed``, each mark with its place."""
        sides = np.array([mark.bounds for _, mark in placed], float).reshape(-1, 4)
        down = np.argsort(sides[:, 1], kind="stable")
        left, top, right, bottom = np.ascontiguousarray(sides[down].T)
        order = np.array([place for place, _ in placed], int)[down]
        return cls(left, top, right, bottom, order, np.maximum.accumulate(bottom))

    def area(self) -> float:
        """How many px they hold."""
        return float(((self.right - self.left) * (self.bottom - self.top)).sum())

    def shared(self, above: _Rectangles) -> float:
        """How many px ``above`` shares with those that were painted before or with it."""
        total = 0.0
        for start in range(0, len(self.order), AT_A_TIME):
            left, top, right, bottom, order = (
                side[start : start + AT_A_TIME, None]
                for side in (self.left, self.top, self.right, self.bottom, self.order)
            )
            # all others lie higher or lower
            near = slice(above.reach.searchsorted(top[0, 0], "right"), above.top.searchsorted(bottom.max(), "left"))
            across = np.minimum(right, above.right[near]) - np.maximum(left, above.left[near])
            down = np.minimum(bottom, above.bottom[near]) - np.maximum(top, above.top[near])
            met = (across > 0) & (down > 0) & (above.order[near] >= order)
            total += float((across[met] * down[met]).sum())
        return total


def _by_colour(placed: Iterable[tuple[int, PaintedArea]]) -> dict[str, _Rectangles]:
    found: dict[str, list[tuple[int, PaintedArea]]] = {}
    for place, mark in placed:
        found.setdefault(mark.colour, []).append((place, mark))
    return {colour: _Rectangles.of(marks) for colour, marks in found.items()}


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
    shades: list[Shades] = []
    numbers: dict[str, int] = {}
    in_line: set[tuple[int, str]] = set()
    for ground, order in inks.items():
        numbers[ground] = sum(map(len, shades))
        in_line |= {(numbers[ground], ink) for ink in order[:1]}
        shades.append(_shade(ground)[None])
        for ink in order:
            shares = (np.arange(1, steps[ground, ink] + 1) / steps[ground, ink])[:, None]
            shades.append(_shade(ground) * (1 - shares) + _shade(ink) * shares)
    return Palette(levels, np.vstack(shades), numbers[background], numbers, in_line)


def _steps(ground: str, ink: str, levels: int) -> int:
    """How many steps from ``ground`` to ``ink`` are as fine as ``levels`` from black to white."""
    return max(1, math.ceil(levels * _apart(ground, ink) / 255))


@lru_cache(1 << 12)
def _apart(one: str, other: str) -> float:
    """How far the channels of two colours are apart at most."""
    return float(np.abs(_shade(one) - _shade(other)).max())


@lru_cache(1 << 10)
def _shade(colour: str) -> Shades:
    """The channels of ``colour``, not to be changed."""
    if colour == CLEAR:
        return np.zeros(4)
    return np.array([*bytes.fromhex(colour.removeprefix("#")), 255], float)
