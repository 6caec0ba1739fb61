"""All sizes of a piece in one drawing: their edges over one lattice, as magazines nest the sizes of a schematic.

In: the plans of all sizes. Out: a scene 1600 px wide. Row 1 is at the bottom, right side facing; clusters of all sizes
stand on the same dots, so a size may lie half a cluster off the middle. Each size has a colour and a dash of its own,
its letter at the end of its edge and its width below; figures that differ stand in brackets, as in the words.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import cached_property

from turnchain import oklch, scene, style
from turnchain.drawing import drafting, heading, key
from turnchain.drawing.drafting import INK, PAPER, SOFT, Px
from turnchain.fabric import lattice
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import edges
from turnchain.lettering.measuring import measure, wrapped
from turnchain.numbers import rounded
from turnchain.records import frozen, replace
from turnchain.scene import Group, Item, Path, Scene, Use, ellipse, polyline
from turnchain.wording.all_sizes import side_by_side
from turnchain.wording.merging import DASH, in_brackets
from turnchain.wording.tables import language_of, speech_of

WIDTH = style.REFERENCE_WIDTH
MARGIN = 48.0  # px at all sides
SIDE, RIGHT = 330.0, 170.0  # px beside the drawing: for what is said of rows, and for the letters of sizes
TALLEST = 1500.0  # px of the drawing
LARGEST = 40.0  # px to a pitch
DOT = 0.13  # radius of a dot, over the height of a row
DOT_COLOUR = style.mixed(style.LIGHT.soft, style.LIGHT.paper, 0.5)
LINE, WORDS = 3.0, 23.0  # px of an edge, and of the em of words
LEADING = 1.5  # from size to size below the drawing, over the em
#: Dashes in px, one for each size in turn; sizes beyond them begin again, in other colours.
DASHES: tuple[tuple[float, ...], ...] = ((), (16.0, 6.0), (4.0, 5.0), (16.0, 5.0, 4.0, 5.0), (9.0, 9.0))
LIGHTNESS, CHROMA = 0.5, 0.13  # of the colours of sizes: dark enough for words on white


@frozen(slots=False)
class _Nested:
    """One size of the piece: its ``plan``, the ``piece``, its number from 0 of ``many``, and how far to the right it is
    ``moved`` in half pitches."""

    plan: Plan
    piece: PiecePlan
    number: int
    many: int
    moved: int

    @property
    def size(self) -> str:
        return self.plan.pattern.size

    @property
    def colour(self) -> str:
        return oklch.colour_of(LIGHTNESS, CHROMA, math.radians(265 + 360 * self.number / self.many))

    @property
    def dash(self) -> tuple[float, ...]:
        return DASHES[self.number % len(DASHES)]

    @cached_property
    def corners(self) -> list[tuple[float, float]]:
        """The corners of its outline: half pitches from the left, and rows up."""
        gauge = self.piece.gauge
        points = [point for run in edges.around(self.piece) for point in run.points]
        return [(float(x / gauge.half) + self.moved, float(y / gauge.row)) for x, y in points]

    @property
    def width(self) -> Fraction:
        """Of row 1, in cm."""
        first = self.piece.rows[0]
        return (first.right.at - first.left.at) * self.piece.gauge.half


def nested(plans: Sequence[Plan], name: str) -> Scene:
    """The piece called ``name`` in all its sizes; ``plans`` are of the sizes of one pattern, in their order. KeyError
    where no size has such a piece."""
    sizes = _sizes(plans, name)
    pattern = sizes[0].plan.pattern
    speech = speech_of(pattern)
    top = heading.PictureHeading(pattern.common_title, f"{name}, {speech.say('nested')}", speech.say("nested.facts"))
    items, y = heading.of_page(top, WIDTH, style.LIGHT, MARGIN)
    page = _Page(sizes, y + 1.5 * WORDS)
    items += page.items()
    foot = page.bottom
    credit: list[Item] = []
    for line in wrapped(key.credit(replace(pattern, title=pattern.common_title)), WIDTH - 2 * MARGIN, WORDS - 2):
        foot += 1.3 * WORDS
        credit.append(drafting.words((MARGIN, foot), line, WORDS - 2, SOFT))
    items.append(Group(tuple(credit), "credit"))
    return Scene(
        width=WIDTH,
        height=round(foot + MARGIN / 2),
        title=speech.say("nested.title", title=pattern.common_title, piece=name),
        words=told(plans, name),
        language=language_of(pattern).tag,
        definitions={"dot": (page.dot,)},
        items=tuple(items),
        background=PAPER,
    )


def told(plans: Sequence[Plan], name: str) -> str:
    """The alt text of the same scene. KeyError as ``nested``."""
    sizes = _sizes(plans, name)
    pattern = sizes[0].plan.pattern
    speech = speech_of(pattern)
    said = [
        speech.say(
            "nested.alt.size", size=one.size, rows=one.piece.row_count, chains=one.piece.foundation_chain,
            clusters=one.piece.rows[0].clusters, width=speech.taped(one.width, pattern.units),
        )
        for one in sizes
    ]  # fmt: skip
    names = speech.language.listed([one.size for one in sizes])
    return speech.say("nested.alt", piece=name, title=pattern.common_title, sizes=names, told="; ".join(said))


# ------------------------------------------------------------------------------------------------------ one lattice


def _sizes(plans: Sequence[Plan], name: str) -> list[_Nested]:
    """Every size that has the piece, moved so that its clusters stand over those of the first."""
    pieces = [(plan, piece) for plan in plans for piece in plan.pieces if piece.name == name]
    if not pieces:
        raise KeyError(name)
    return [
        _Nested(plan, piece, number, len(pieces), _moved(piece, pieces[0][1]))
        for number, (plan, piece) in enumerate(pieces)
    ]


def _moved(piece: PiecePlan, first: PiecePlan) -> int:
    """How many half pitches a size is moved to the right: its straight edge onto that of the first where one edge is
    shaped, else its middle; half a pitch off where its clusters would else stand between those of the first."""
    own, others = _straight(piece), _straight(first)
    if own == others == "left":
        wanted = Fraction(first.rows[0].left.at - piece.rows[0].left.at)
    elif own == others == "right":
        wanted = Fraction(first.rows[0].right.at - piece.rows[0].right.at)
    else:
        wanted = Fraction(_span(first) - _span(piece), 2)
    parity = (piece.phase + first.phase) % 2
    return min((round(wanted) + more for more in (0, 1, -1)), key=lambda at: ((at - parity) % 2, abs(at - wanted), at))


def _span(piece: PiecePlan) -> int:
    return piece.leftmost + piece.rightmost


def _straight(piece: PiecePlan) -> str:
    """The only straight edge of a piece, by its side; "" where both are, or none."""
    straight = [side for side in lattice.SIDES if len({row.edge(side).at for row in piece.rows}) == 1]
    return straight[0] if len(straight) == 1 else ""


# --------------------------------------------------------------------------------------------------------- the page


class _Page:
    """The drawing below the y ``top``, in px."""

    def __init__(self, sizes: Sequence[_Nested], top: float) -> None:
        self.sizes = sizes
        corners = [corner for one in sizes for corner in one.corners]
        self.left, right = min(x for x, _ in corners), max(x for x, _ in corners)
        rows, gauge = max(y for _, y in corners), sizes[0].piece.gauge
        rise = float(gauge.row / gauge.half)
        room = WIDTH - 2 * MARGIN - SIDE - RIGHT
        self.half = min(room / (right - self.left), TALLEST / (rows * rise), LARGEST / 2)
        self.rise = self.half * rise
        self.start = MARGIN + SIDE + (room - (right - self.left) * self.half) / 2
        self.ground = top + rows * self.rise
        self.bottom = self.ground

    @property
    def dot(self) -> Path:
        return Path(ellipse(0.0, 0.0, rounded(DOT * self.rise), rounded(DOT * self.rise)), fill=scene.INK)

    def px(self, at: float, row: float) -> Px:
        """Where a place lies: half pitches from the left, and rows up."""
        return rounded(self.start + (at - self.left) * self.half), rounded(self.ground - row * self.rise)

    def items(self) -> list[Item]:
        """Dots, edges, letters, and what is said beside and below."""
        return [
            Group(tuple(self._dots()), "lattice"),
            *(self._edge(one) for one in self.sizes),
            Group(tuple(self._letters()), "letters"),
            Group(tuple(self._rows()), "rows"),
            Group(tuple(self._widths()), "widths"),
        ]

    def _dots(self) -> Iterator[Item]:
        """A dot for each cluster of any size."""
        there = {
            (centre + one.moved, float(one.piece.level(row.number) - row.height / 2))
            for one in self.sizes
            for row in one.piece.rows
            for centre in (() if row.solid else row.centres)
        }
        for at, row in sorted(there, key=lambda place: (place[1], place[0])):
            yield Use("dot", *self.px(at, row), DOT_COLOUR)

    def _edge(self, one: _Nested) -> Group:
        line = polyline([self.px(*corner) for corner in one.corners], closed=True)
        return Group((Path(line, stroke=one.colour, width=LINE, dash=one.dash),), f"size-{one.number + 1}", one.size)

    def _letters(self) -> Iterator[Item]:
        """The name of each size beside the drawing, at the height of its upper right end, which a thin line leads to;
        names that would meet stand side by side."""
        right = self.px(max(at for one in self.sizes for at, _ in one.corners), 0)[0] + 16.0
        taken: list[tuple[float, float]] = []  # the y and the right end of each
        for one in self.sizes:
            top = max(row for _, row in one.corners)
            x, y = self.px(max(at for at, row in one.corners if row == top), top)
            begin = max([right, *(end + 12.0 for other, end in taken if abs(y - other) < 1.1 * WORDS)])
            taken.append((y, begin + measure(one.size, WORDS, "semibold")))
            if begin - x > 20.0:
                yield drafting.hair((x + 4.0, y), (begin - 6.0, y))
            yield drafting.words((begin, y + 0.36 * WORDS), one.size, WORDS, one.colour, "semibold")

    def _rows(self) -> Iterator[Item]:
        """Rows counted up the left side, and what is to be said of them at their height in the largest size."""
        highest = max(one.piece.row_count for one in self.sizes)
        for number in [1, *range(10, highest + 1, 10)]:
            piece = next(one.piece for one in self.sizes if one.piece.row_count == highest)
            x, y = self.px(self.left, float(piece.level(number) - piece.row_levels[number - 1].height / 2))
            yield drafting.words((x - 14.0, y + 0.34 * WORDS), str(number), WORDS - 3, SOFT, "regular", "end")
        for row, words in self._events():
            x, y = self.px(self.left, row)
            yield drafting.hair((MARGIN, y), (x - 50.0, y))
            for nth, line in enumerate(wrapped(words, SIDE - 60.0, WORDS)):
                yield drafting.words((MARGIN, y + (nth + 1) * 1.25 * WORDS), line, WORDS)

    def _events(self) -> Iterator[tuple[float, str]]:
        speech = speech_of(self.sizes[0].plan.pattern)
        counts = [one.piece.row_count for one in self.sizes]
        yield max(counts), speech.say("nested.rows", rows=in_brackets([str(count) for count in counts]))
        begins = [_neck_row(one.piece) for one in self.sizes]
        if any(begins):
            told = in_brackets([str(row) if row else "–" for row in begins])
            yield max(begins) - 1.0, speech.say("nested.neck", rows=told)

    def _widths(self) -> Iterator[Item]:
        """Below the foundation the width of every size, then the chains of all."""
        pattern = self.sizes[0].plan.pattern
        speech = speech_of(pattern)
        y = self.ground + 0.7 * WORDS
        for one in self.sizes:
            first = one.piece.rows[0]
            y += LEADING * WORDS
            ends = [(self.px(at + one.moved, 0)[0], rounded(y)) for at in (first.left.at, first.right.at)]
            yield Path(polyline(ends), stroke=one.colour, width=LINE, dash=one.dash)
            for x, _ in ends:
                yield Path(polyline([(x, rounded(y - 6)), (x, rounded(y + 6))]), stroke=one.colour, width=1.5)
            words = speech.say(
                "nested.size", size=one.size, clusters=first.clusters, width=speech.taped(one.width, pattern.units)
            )
            yield drafting.words((MARGIN, y + 0.34 * WORDS), words, WORDS, one.colour, "semibold")
        y += (LEADING + 0.4) * WORDS
        chains, clusters = (
            in_brackets([str(count) for count in counts])
            for counts in (
                [one.piece.foundation_chain for one in self.sizes], [one.piece.rows[0].clusters for one in self.sizes]
            )
        )  # fmt: skip
        yield drafting.words((MARGIN, y), speech.say("nested.foundation", chains=chains, clusters=clusters), WORDS, INK)
        for line in wrapped(self._measures(), WIDTH - 2 * MARGIN, WORDS):
            y += LEADING * WORDS
            yield drafting.words((MARGIN, y), line, WORDS, INK)
        self.bottom = y + 0.6 * WORDS

    def _measures(self) -> str:
        """Every measure of the piece, those of all sizes in brackets."""
        pattern = self.sizes[0].plan.pattern
        speech, unit = speech_of(pattern), pattern.units
        said = []
        for name, fits in side_by_side([one.piece.fit for one in self.sizes], speech.measure):
            figures = [speech.taped(fit.worked, unit).removesuffix(f" {unit}") if fit else DASH for fit in fits]
            said.append(f"{name} {in_brackets(figures)} {unit}")
        return "; ".join(said)


def _neck_row(piece: PiecePlan) -> int:
    """The row in which a neck that divides the piece begins; 0 where none does."""
    return next((row.number for row in piece.rows if piece.begins_section(row)), 0)
