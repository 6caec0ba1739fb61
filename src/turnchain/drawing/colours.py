"""The colours of a chart: each row in a tint of its yarn on which one dark ink can be read.

In: the yarns of a pattern, which of them touch, and how the chart shall look. Out: for every row its tint, its yarn's
own colour, its ink, letter and hatching. The design page has the same rule again (``colours.js``), so that a colour is
seen as it is picked.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache

from turnchain import oklch, style
from turnchain.colour_difference import difference
from turnchain.drawing import hatching
from turnchain.drawing.looks import Inks
from turnchain.drawing.toned import toned
from turnchain.fabric.plan import PiecePlan, Row
from turnchain.pattern import Pattern
from turnchain.scene import Item

#: Contrast of ink and tint. 4.5 would do for the ink; the shaping line reaches 3 only on a tint as light as this.
WANTED_CONTRAST = 6.0
#: CIEDE2000: stripes whose yarns differ by as much or more differ by as much on the chart.
LEAST_DIFFERENCE = 5.0
STEP = 0.008  # of lightness, by which a tint is raised until it differs
FADING = 0.4  # chroma is multiplied by the share of darkness (1 - lightness) left, to this power

#: Hairlines, as shares of ink in the tint of the row above: between rows, between two pale yarns, against the page.
BETWEEN, BETWEEN_PALE = 0.22, 0.40
AGAINST_PAGE = BETWEEN  # one colour for both: pictures of few colours stay small
PALE_CONTRAST, PAGE_CONTRAST = 1.25, 1.5  # contrasts (WCAG 2) below which rows, and a row and the page, count as pale


@lru_cache(maxsize=1024)
def tint(colour: str, wanted: float = WANTED_CONTRAST) -> str:
    """``colour`` ("#rrggbb") itself where the dark ink can be read on it, else as much lighter as that takes: of the
    same hue, its chroma less as it grows lighter. "#rrggbb", with at least the ``wanted`` contrast to the dark ink."""
    if style.contrast(style.INK_DARK, colour) >= wanted:
        return colour
    made, light = colour, oklch.of(colour)[0]
    while style.contrast(style.INK_DARK, made) < wanted:
        light += STEP / 2
        made = _lightened(colour, light)
    return made


def _lightened(colour: str, light: float) -> str:
    """``colour`` raised to the lightness ``light`` (OKLCH, 0 to 1)."""
    own, chroma, hue = oklch.of(colour)
    light = min(light, 1.0)
    return oklch.colour_of(light, chroma * ((1 - light) / (1 - own)) ** FADING if own < 1 else chroma, hue)


def tints(colours: dict[str, str], touching: Iterable[tuple[str, str]]) -> dict[str, str]:
    """For each name in ``colours`` (name to "#rrggbb") its tint. The tints of two names that are ``touching`` differ by
    ``LEAST_DIFFERENCE`` (CIEDE2000) or more where their colours do: the lighter of the two is raised until they do
    or it is white."""
    made = {name: tint(colour) for name, colour in colours.items()}
    apart = [
        (one, other)
        for one, other in touching
        if difference(colours[one], colours[other]) >= LEAST_DIFFERENCE
    ]
    for _ in range(200):  # more than enough to reach white
        near = [pair for pair in apart if difference(made[pair[0]], made[pair[1]]) < LEAST_DIFFERENCE]
        raised = {_to_raise(made, pair) for pair in near}
        for name in raised:
            made[name] = _lightened(made[name], oklch.of(made[name])[0] + STEP)
        if not raised:
            break
    return made


def _to_raise(made: dict[str, str], pair: tuple[str, str]) -> str:
    """Which of two tints is raised: the lighter; of two equally light ones the second."""
    one, other = pair
    return one if style.luminance(made[one]) > style.luminance(made[other]) else other


def touching(pieces: Iterable[PiecePlan]) -> list[tuple[str, str]]:
    """The names of two yarns whose rows stand on one another in ``pieces``, each pair once, in the order of the
    rows."""
    found: dict[frozenset[str], tuple[str, str]] = {}
    for piece in pieces:
        for row in piece.rows:
            under = piece.below(row)
            if under and under.colour and row.colour and under.colour != row.colour:
                found.setdefault(frozenset((under.colour, row.colour)), (under.colour, row.colour))
    return list(found.values())


class Colours:
    """What each yarn looks like on the charts of ``pattern``: "tint" under one ink, "full" in its own colour with
    whichever ink can be read there, or "mono", black on white and hatched. ``pieces`` are those whose yarns must differ
    where they touch. Colours are "#rrggbb"; rows that name no yarn are ``style.PLAIN_STRIPE``, in "mono" white."""

    def __init__(self, pattern: Pattern, inks: Inks = "tint", pieces: Sequence[PiecePlan] = ()) -> None:
        self.inks: Inks = inks
        self.mono = inks == "mono"
        self._index = {yarn.name: index for index, yarn in enumerate(pattern.yarns)}
        plain = {yarn.name: style.MONO.paper if self.mono else yarn.colour for yarn in pattern.yarns}
        self._colour = plain if self.mono else {name: toned(colour, "yarn", name) for name, colour in plain.items()}
        self._tint = self._colour
        if inks == "tint":
            self._tint = {name: toned(made, "tint", name) for name, made in tints(plain, touching(pieces)).items()}

    def of(self, row: Row) -> str:
        """The colour of the row's yarn, "#rrggbb"."""
        return self.of_yarn(row.colour)

    def of_yarn(self, name: str | None) -> str:
        """The colour of the yarn called ``name``, or of no yarn (None)."""
        if name is None:
            return style.MONO.paper if self.mono else style.PLAIN_STRIPE
        return self._colour[name]

    def tint(self, row: Row) -> str:
        """The colour of the row's band on the chart."""
        return self.of(row) if row.colour is None else self._tint[row.colour]

    def ink(self, row: Row) -> str:
        """What stitches are drawn in on the row's band."""
        if self.mono:
            return style.MONO.ink
        return style.INK_DARK if self.inks == "tint" else self.ink_of_letter(row)

    def ink_of_letter(self, row: Row) -> str:
        """What the row's letter is drawn in, on its yarn's own colour."""
        return style.MONO.ink if self.mono else self._made(style.ink_on(self.of(row)), "ink", row)

    def tint_of_yarn(self, name: str | None) -> str:
        """The colour of a band on the chart in the yarn called ``name``, or in no yarn (None)."""
        return self.of_yarn(None) if name is None else self._tint[name]

    def letter(self, row: Row) -> str:
        """The letter of the row's yarn ("A", "B" ... in the order of the pattern), empty where it names none."""
        return "" if row.colour is None else style.letter(self._index[row.colour])

    def hatched(self, row: Row, corners: list[tuple[float, float]], unit: float) -> list[Item]:
        """The hatching of the row's yarn within ``corners``, both as in ``hatching.hatched``; empty where stripes are
        in colour."""
        if not self.mono or row.colour is None:
            return []
        return hatching.hatched(self._index[row.colour], corners, unit)

    def between(self, row: Row, under: Row) -> str:
        """The colour of the hairline between a row and the one it stands on: the tint of ``row``, darkened."""
        one, other = self.tint(row), self.tint(under)
        share = BETWEEN
        if row.colour != under.colour and style.contrast(one, other) < PALE_CONTRAST:
            share = BETWEEN_PALE
        return self._made(style.mixed(self.ink(row), one, share), "between", row, under)

    def against(self, row: Row, paper: str) -> str | None:
        """The colour of the hairline between a pale row and a page of the colour ``paper``; None where it needs
        none."""
        colour = self.tint(row)
        if style.contrast(colour, paper) >= PAGE_CONTRAST:
            return None
        return self._made(style.mixed(self.ink(row), colour, AGAINST_PAGE), "against", row)

    def _made(self, colour: str, how: str, *rows: Row) -> str:
        """``colour`` with how it was made of the tints of rows; as it is where they are no tints, or of no yarn."""
        names = [row.colour for row in rows if row.colour is not None]
        tinted = self.inks == "tint" and len(names) == len(rows)
        return toned(colour, how, *names) if tinted else colour


