"""What is made, put together: a garment on a plain figure, a bag or a cushion by itself, from the front and the back.

In: a plan, and perhaps by how much longer it might be. Out: a scene with the wearer's waist, hip and knee and where
hem, neck and cuffs fall. How cloth hangs is in ``hanging`` and ``hung_forms``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import cache, partial
from itertools import pairwise

from turnchain import style
from turnchain.drawing import figure, heading, key
from turnchain.drawing.cloth import shades
from turnchain.drawing.colours import Colours
from turnchain.drawing.figure import Cm
from turnchain.drawing.hanging import Assembled, Hung
from turnchain.drawing.hung_forms import shown
from turnchain.drawing.looks import Look
from turnchain.drawing.strands import Px, smooth
from turnchain.errors import MakerError
from turnchain.fabric.lattice import SIDES
from turnchain.fabric.plan import Plan, Row
from turnchain.garment import dimensions, edges
from turnchain.garment.body import known
from turnchain.lettering.measuring import wrapped
from turnchain.numbers import rounded
from turnchain.scene import Fits, Group, Item, Path, Scene, Step, Text, Weight, line, polyline
from turnchain.wording.tables import language_of, speech_of

TALL = 1250.0  # px of all that is shown at the reference width
WIDE = 560.0  # px of each view at the most
VIEWS = (0.29, 0.71)  # where the two views stand, of the width
SKIN, LINE, INSIDE = "#f4f1ea", "#837a6f", "#d9d2c7"
PARTS, ACROSS = 6, 24  # straight lines along a part of an outline, and along a row
#: A cluster about the head of its middle: half pitches to the right, rows up.
CLUSTER = (
    (-0.3, -1.12), (-0.62, -0.7), (-0.86, -0.2), (-0.66, 0.02), (-0.22, 0.1),
    (0.22, 0.1), (0.66, 0.02), (0.86, -0.2), (0.62, -0.7), (0.3, -1.12),
)  # fmt: skip
SIZE, SIZE_ALONE = 21.0, 34.0  # px of the em of the words


def worn(
    plan: Plan, width: int = style.REFERENCE_WIDTH, look: Look | None = None, longer: Fraction = Fraction(0),
    fits: Fits | None = None, alone: bool = False,
) -> Scene:
    """What is made on the figure of its wearer or, where none wears it, by itself, ``width`` px wide; ``longer``: by so
    many cm (below 0: shorter) a second lower edge is shown. ``fits`` is asked before anything is drawn. ``alone``: for
    a page that has ``sentences`` in words of its own. Raises MakerError where none of the pieces is known for what they
    are, or nothing would be left."""
    look, garment = look or Look(), shown(plan)
    if garment.length + longer <= 0:
        raise MakerError("so much shorter, nothing is left of the garment")
    unit = width / style.REFERENCE_WIDTH
    speech = speech_of(plan.pattern)
    named = heading.PictureHeading(plan.pattern.title, speech.say(garment.title), speech.say(garment.facts))
    head, top = heading.of_page(named, width, look.theme, 48.0)
    page = _Page(garment, look, unit, top + 20 * unit, longer, alone)
    if fits is not None:
        fits(width, page.foot + 50 * unit)
    items = [*head]
    for share, view in zip(VIEWS, ("front", "back"), strict=True):
        items.append(Group(tuple(page.view(view, share * width)), f"worn-{view}", speech.say(f"worn.{view}")))
    items += page.levels(width)
    items += page.falls(width)
    foot = page.foot + 50 * unit
    credit: list[Item] = []
    for said in (*garment.remarks(), key.credit(plan.pattern)):
        for words in wrapped(said, width - 96 * unit, 18 * unit):
            foot += 24 * unit
            credit.append(Text(rounded(48 * unit), rounded(foot), words, rounded(18 * unit), look.theme.soft))
    items.append(Group(tuple(credit), "credit"))
    title = speech.say(f"{garment.title}.title", title=plan.pattern.title)
    return Scene(
        width, round(foot + 30 * unit), title, told(plan, longer), language_of(plan.pattern).tag, {}, tuple(items),
        look.background,
    )  # fmt: skip


def is_wearer_known(plan: Plan) -> bool:
    """Whether what is made is known for what it is, and enough of its wearer for a figure of their own."""
    try:
        garment = shown(plan)
    except MakerError:
        return False
    return any(known(plan.pattern.wearer, measure) for measure in garment.fitted_to)


def sentences(plan: Plan) -> tuple[str, ...]:
    """What falls where, and what was assumed of the body, a sentence each."""
    garment = shown(plan)
    return (*(f"{words}." for _, words in garment.said(Fraction(0))), *garment.remarks())


def told(plan: Plan, longer: Fraction = Fraction(0)) -> str:
    """The alt text of the same, without drawing it."""
    garment, speech = shown(plan), speech_of(plan.pattern)
    said = [words for _, words in garment.said(longer)]
    return " ".join((speech.say(garment.alt, title=plan.pattern.title), *(f"{words}." for words in said)))


class _Page:
    """Draws what is ``shown`` from ``top`` px down; ``foot``: the y of its lowest place."""

    def __init__(self, garment: Assembled, look: Look, unit: float, top: float, longer: Fraction, alone: bool) -> None:
        self.garment, self.look, self.unit, self.longer, self.alone = garment, look, unit, longer, alone
        self.em = (SIZE_ALONE if alone else SIZE) * unit
        self.colours = Colours(garment.plan.pattern, look.inks, garment.plan.pieces)
        body = garment.body
        self.half = max(garment.half, garment.broad, 0.0 if body is None else figure.breadth(body, garment.cut))
        low = max(garment.low, *(y for _, y in garment.lower(longer)))
        high = min(garment.top, *(y for _, y in garment.lower(longer)))
        self.scale = min(TALL / (low - high), WIDE / (2 * self.half)) * unit
        self.ground = top - high * self.scale
        self.top, self.foot = top, self.ground + low * self.scale

    def px(self, middle: float, place: Cm) -> Px:
        return rounded(middle + place[0] * self.scale), rounded(self.ground + place[1] * self.scale)

    def view(self, view: str, middle: float) -> Iterator[Item]:
        """The figure, and over it the cloth of one side."""
        for hung in self.garment.behind(view):
            inside = _Drawn(hung, lambda place: self.px(middle, place)).edge()
            yield Path(inside, fill=INSIDE, stroke=LINE, width=rounded(1.4 * self.unit))
        yield from self._figure(middle)
        said = speech_of(self.garment.plan.pattern).say(f"worn.{view}")
        yield self._words(middle, self.foot + 1.6 * self.em, said, self.look.theme.soft)
        for hung in self.garment.hung(view):
            yield from self._cloth(hung, middle)

    def _figure(self, middle: float) -> Iterator[Item]:
        """The outline of the body, down to where it is cut off."""
        if self.garment.body is None:
            return
        width = rounded(2.2 * self.unit)
        outline = self.garment.body.outline()
        if self.garment.cut is None:
            steps = smooth([self.px(middle, place) for place in outline])
            yield Path(tuple(steps), fill=SKIN, stroke=LINE, width=width)
            return
        places = [self.px(middle, place) for place in figure.cut_off(outline, self.garment.cut)]
        yield Path(polyline(places, closed=True), fill=SKIN)
        yield Path(polyline(places), stroke=LINE, width=width)

    def _cloth(self, hung: Hung, middle: float) -> Iterator[Item]:
        """Row by row the ground and its clusters, and a line round the piece."""
        drawn = _Drawn(hung, lambda place: self.px(middle, place))
        for row in hung.piece.cloth_rows:
            ground = shades(self.colours.of(row)).ground
            yield Path(drawn.band(row), fill=ground, stroke=ground, width=rounded(0.8 * self.unit))
        for row in hung.piece.rows:
            inks = shades(self.colours.of(row))
            if steps := drawn.clusters(row):
                yield Path(steps, fill=inks.body, stroke=inks.edge, width=rounded(0.7 * self.unit))
        yield Path(drawn.edge(), stroke=LINE, width=rounded(1.4 * self.unit))

    # ------------------------------------------------------------------------------------------------------- levels

    def _words(self, x: float, y: float, said: str, colour: str, weight: Weight = "regular") -> Text:
        return Text(rounded(x), rounded(y), said, rounded(self.em), colour, weight, "middle")

    def levels(self, width: int) -> Iterator[Item]:
        """Waist, hip and knee: a broken line across each figure, and the name between the two."""
        speech = speech_of(self.garment.plan.pattern)
        body = self.garment.body
        reach = 0.0 if body is None else (body.hip + 7) * self.scale
        for name, at in self.garment.levels.items():
            y = self.ground + at * self.scale
            for share in VIEWS:
                steps = line(rounded(share * width - reach), rounded(y), rounded(share * width + reach), rounded(y))
                dash = (rounded(7 * self.unit), rounded(6 * self.unit))
                yield Path(steps, stroke=LINE, width=rounded(1.2 * self.unit), cap="butt", dash=dash)
            said = speech.say(f"worn.level.{name}")
            yield self._words(width / 2, y + 0.34 * self.em, said, self.look.theme.soft)

    def falls(self, width: int) -> Iterator[Item]:
        """Where the lower edge falls, and a second one in the accent, with words between the views; what else falls."""
        theme, unit = self.look.theme, self.unit
        lines = [(Fraction(0), theme.ink), *([(self.longer, theme.accent)] if self.longer else [])]
        for longer, colour in lines:
            places = self.garment.lower(longer)
            for nth, share in enumerate(VIEWS):
                steps = polyline([self.px(share * width, place) for place in places])
                rule = Path(steps, stroke=colour, width=rounded(2 * unit), cap="butt")
                yield Group((rule,), f"hem-{nth}-{colour[1:]}")
        colours = {"hem": theme.ink, "other": theme.accent}
        beside = self.garment.beside
        y = self.top + self.em if beside else self.foot + 3.4 * self.em
        for name, said in () if self.alone else self.garment.said(self.longer):
            for words in wrapped(said, (0.17 if beside else 0.9) * width, self.em, "semibold"):
                weight: Weight = "semibold" if name in colours else "regular"
                yield self._words(width / 2, y, words, colours.get(name, theme.soft), weight)
                y += 1.3 * self.em
            y += 0.4 * self.em
        self.foot = max(self.foot, y - 3 * self.em)


def _product(length: Fraction, number: float) -> float:
    """``length`` x ``number``, rounded once: as a product of fractions, which would take ten times as long."""
    over, under = number.as_integer_ratio()
    return over * length.numerator / (under * length.denominator)


class _Drawn:
    """The cloth of a piece through its hanging."""

    def __init__(self, hung: Hung, px: Callable[[Cm], Px]) -> None:
        self.piece, self.place, self.px, self.turned, self.seen = hung.piece, hung.place, px, hung.turned, hung.seen
        self.ways = edges.ways(self.piece)
        (left, low), (right, high) = dimensions.box(self.piece)
        self.middle, self.top, self.low = float(left + right) / 2, float(high), float(low)
        gauge = self.piece.gauge
        # clusters of a row share their heights, and those of all rows their places across
        self.across, self.up = (cache(partial(_product, of)) for of in (gauge.half, gauge.row))

    def _hangs(self, position: float, height: float) -> tuple[float, float]:
        """A place of the work (half pitches, rows) as cloth hangs: cm from the middle, cm down."""
        along, along_up, off, off_up = self.ways
        across, up = self.across(position), self.up(height)
        x, y = along * across + off * up, along_up * across + off_up * up
        return x - self.middle, y - self.low if self.turned else self.top - y

    def at(self, position: float, height: float) -> Px:
        """Where a place of the work (half pitches, rows) lies on the page."""
        return self.px(self.place(*self._hangs(position, height)))

    def _outline(self, places: list[tuple[float, float]]) -> tuple[Step, ...]:
        return polyline([self.at(*place) for place in places], closed=True)

    def band(self, row: Row) -> tuple[Step, ...]:
        """The ground of a row."""
        under = self.piece.below(row)
        feet = [row.edge(side).at if under is None or row.edge(side).step else under.edge(side).at for side in SIDES]
        low, high = self.piece.level(row.number - 1), self.piece.level(row.number)
        ends = (feet, low), ([row.right.at, row.left.at], high)
        return self._outline([
            (one + (other - one) * nth / ACROSS, float(height)) for (one, other), height in ends
            for nth in range(ACROSS + 1)
        ])  # fmt: skip

    def clusters(self, row: Row) -> tuple[Step, ...]:
        """All clusters of a row: narrow at the foot, round at the head."""
        steps: list[Step] = []
        top, tall = float(self.piece.level(row.number)), float(row.height)
        for centre in () if row.solid else row.centres:
            if self.seen(*self._hangs(centre, top - tall / 2)):
                steps += self._outline([(centre + x, top + max(y * tall, -top)) for x, y in CLUSTER])
        return tuple(steps)

    def edge(self) -> tuple[Step, ...]:
        """The outline of the piece."""
        gauge = self.piece.gauge
        return self._outline([
            (float((x0 + (x1 - x0) * Fraction(nth, PARTS)) / gauge.half),
             float((y0 + (y1 - y0) * Fraction(nth, PARTS)) / gauge.row))
            for run in edges.around(self.piece) for (x0, y0), (x1, y1) in pairwise(run.points) for nth in range(PARTS)
        ])  # fmt: skip
