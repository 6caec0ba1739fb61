"""The border of every open edge, counted stitch by stitch, and its yarn.

In: a planned piece, or a plan. Out: ``Border`` s: how many single crochets (US) lie flat along each edge, in the order
worked, and ``OpenBorder`` s: the borders of a whole garment whose pattern asks for no edging. Source of the counts: a
published answer on a piece 74 dc wide (knittinghelp forum, thread 55500: 2 sc to a row end, 1 to every stitch and chain
along top and foundation, 3 in each corner). Slanted row ends take sc by their length, at the same 2 to a row's height;
so do row ends that are not of dc, whose rows are higher or lower.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from typing import Literal

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import edge_names, edges, openings
from turnchain.garment.edges import Point, Run
from turnchain.garment.openings import Kind, Opening
from turnchain.garment.stretches import EdgeStretch, whole
from turnchain.pattern import Yarn
from turnchain.records import frozen, replace
from turnchain.yarns import figures as yarn

# [seen]: read in the source above; [memory]: general knowledge of the trade.
SC_TO_A_ROW_END = 2  # [seen]
SC_IN_A_CORNER = 3  # [seen]
# [memory] A row of sc is about half as high as a row of dc, and takes as much less yarn.
SC_HEIGHT_IN_ROWS = Fraction(1, 2)
# An edge turns a corner where it bends by this much or more on the way round (the cosine of 45 degrees, squared).
_CORNER = Fraction(1, 2)


@frozen
class Spread:
    """How the sc of an edge are spread: along a ``foundation`` chain, over ``row tops``, in straight ``row ends``, or
    by length where row ends ``slant`` or rows are of ``mixed`` heights, or in ``any`` row ends that are not of dc;
    ``steps``: how many of them go into the stitches of its steps."""

    along: Literal["foundation", "row tops", "row ends", "slant", "mixed", "any"]
    steps: int = 0


@frozen
class BorderSide:
    """The border along one edge: ``stitches`` sc over ``length`` cm, the corners at its ends not counted, and ``how``
    they are spread. ``edge`` is the name of a run ("first") or, in an ``OpenBorder``, the kind of an ``EdgeName``;
    ``piece`` is named where the border goes round several, else empty."""

    edge: str
    length: Fraction
    stitches: int
    how: Spread
    piece: str = ""


@frozen
class Border:
    """One round of a border: its sides in the order worked, and for each whether ``turned``: a corner follows it, which
    takes ``SC_IN_A_CORNER``."""

    sides: tuple[BorderSide, ...]
    turned: tuple[bool, ...]

    @property
    def corners(self) -> int:
        """How many corners there are."""
        return sum(self.turned)

    @property
    def stitches(self) -> int:
        """All sc of the round, those of the corners included."""
        return sum(side.stitches for side in self.sides) + SC_IN_A_CORNER * self.corners

    @property
    def length(self) -> Fraction:
        """Its length in cm."""
        return sum((side.length for side in self.sides), Fraction(0))


# -------------------------------------------------------------------------------------------------- the border


def border(piece: PiecePlan) -> Border:
    """One round of sc all round a piece, edge by edge from the foundation, as if no seam took any of it."""
    return _worked([whole(piece, run) for run in edges.around(piece)], closed=True)


def _worked(stretches: list[EdgeStretch], closed: bool) -> Border:
    """The border along stretches that follow each other; ``closed``: the first follows the last.

    A corner is worked into the end stitch of a chain or of a row's top, which then counts with the corner.
    """
    following = [*stretches[1:], stretches[0]]
    corners = [_turns(one, other) for one, other in zip(stretches, following, strict=True)]
    corners[-1] = corners[-1] and closed
    sides = []
    for index, stretch in enumerate(stretches):
        run = stretch.as_run()
        taken = corners[index - 1] + corners[index] if run.meets != "row ends" else 0
        sides.append(_side(stretch.piece, run, taken))
    return Border(tuple(sides), tuple(corners))


def _side(piece: PiecePlan, run: Run, corners: int = 0) -> BorderSide:
    return BorderSide(run.name, run.length, max(0, along(piece, run) - corners), how(piece, run))


def along(piece: PiecePlan, run: Run) -> int:
    """The sc along a run so that it lies flat: 1 to every stitch and chain, 2 to the height of a row of dc, by length
    where row ends slant; steps by the stitches that lie in them. None are taken off for corners."""
    if run.meets != "row ends":
        return run.stitches
    sides = [edges.length_of(pair) for pair in pairwise(run.points) if pair[0][1] != pair[1][1]]
    return round(sum(sides, Fraction(0)) * SC_TO_A_ROW_END / piece.dc_row) + run.stitches


def _turns(one: EdgeStretch, following: EdgeStretch) -> bool:
    """Whether the outline turns a corner outwards from a stretch to the next: only there are stitches added. Between
    two pieces lies a seam, and no corner."""
    if one.points[-1] != following.points[0]:
        return False
    into, out = _way(one.points[-2:]), _way(following.points[:2])
    cross = into[0] * out[1] - into[1] * out[0]
    dot = into[0] * out[0] + into[1] * out[1]
    sizes = (into[0] ** 2 + into[1] ** 2) * (out[0] ** 2 + out[1] ** 2)
    return cross > 0 and (dot <= 0 or dot**2 <= _CORNER * sizes)


def _way(points: tuple[Point, ...]) -> Point:
    (x0, y0), (x1, y1) = points
    return x1 - x0, y1 - y0


def how(piece: PiecePlan, run: Run) -> Spread:
    """How the sc of a run are spread; its ``steps`` are the stitches that steps leave or pass."""
    if run.meets != "row ends":
        return Spread(run.meets)
    if piece.recipe.stitch.height != 1:
        return Spread("any", run.stitches)
    slanted = any(one[0] != other[0] for one, other in pairwise(run.points) if one[1] != other[1])
    return Spread("slant" if slanted else "mixed" if piece.mixed else "row ends", run.stitches)


# --------------------------------------------------------------------------------------------- edges left open


@frozen
class OpenBorder:
    """A border along an opening of a garment: of what ``kind``, on which ``piece`` where it lies on one copy of one
    piece alone (else empty), and at how many alike openings it is worked (``count``)."""

    kind: Kind
    piece: str
    border: Border
    count: int = 1


def edgings(plan: Plan) -> tuple[OpenBorder, ...]:
    """What gets a border: every edge that no seam takes and nobody gathers, of a garment its neck, armholes, lower edge
    and cuffs; of a piece that is sewn to nothing all round. In the order of ``openings``; alike ones are one
    entry, counted."""
    found: dict[object, OpenBorder] = {}
    for opening in openings.bordered(plan):
        worked = round_of(plan, opening)
        copies = {(one.piece.name, one.copy) for one in opening.stretches}
        piece = "" if len(copies) > 1 else opening.stretches[0].piece.name
        # Alike are openings of one name and one count all round, whichever end of a piece they lie at.
        alike = (opening.kind, piece, *sorted((side.length, side.stitches) for side in worked.sides), worked.corners)
        had = found.get(alike)
        if had is not None:
            worked = _of_both(had.border, worked)
        found[alike] = OpenBorder(opening.kind, piece, worked, had.count + 1 if had else 1)
    return tuple(found.values())


def _of_both(one: Border, other: Border) -> Border:
    """``one`` in words that hold for ``other`` too: what lies along a chain in one and along the tops of a row in the
    other is stitches and chains in both."""
    met = {(side.piece, side.edge, side.how) for side in other.sides}
    sides = (
        side if side.how.along != "foundation" or (side.piece, side.edge, side.how) in met
        else replace(side, how=replace(side.how, along="row tops"))
        for side in one.sides
    )  # fmt: skip
    return replace(one, sides=tuple(sides))


def round_of(plan: Plan, opening: Opening) -> Border:
    """The border round an opening, a side to each of its stretches, named by its piece where there are several."""
    placed = [(one.piece.name, one.copy) for one in opening.stretches]
    several = len(set(placed)) > 1
    stretches = [one.stretch for one in opening.stretches]
    worked = _worked(stretches, closed=not several and opening.kind == "all round")
    named = zip(worked.sides, opening.stretches, strict=True)
    sides = (
        replace(side, edge=edge_names.of_open(plan, one).kind, piece=one.piece.name if several else "")
        for side, one in named
    )
    return replace(worked, sides=tuple(sides))


# -------------------------------------------------------------------------------------------------- its yarn


def area(worked: Border, piece: PiecePlan) -> Fraction:
    """The fabric of one round of a border, in square cm: its length by half the height of a row of dc
    (``SC_HEIGHT_IN_ROWS``) in the gauge of ``piece``."""
    return worked.length * SC_HEIGHT_IN_ROWS * piece.dc_row


def border_yarn(plan: Plan) -> Yarn | None:
    """The yarn that a border is counted in: the first of which something is kept back, else the first; None where the
    pattern names no yarn."""
    yarns = plan.pattern.yarns
    return next((one for one in yarns if one.keep), yarns[0] if yarns else None)


def border_grams(plan: Plan) -> Fraction | None:
    """Grams for one round of every edging, not rounded: its area at the weight of the swatch, with the margin of the
    yarn figures; None where no swatch was weighed."""
    per_area = yarn.density(plan.pattern).likely
    if per_area is None:
        return None
    piece = plan.pieces[0]
    whole = sum((area(one.border, piece) * one.count for one in edgings(plan)), Fraction(0))
    return whole * per_area * (1 + yarn.margin_of(plan.pattern) / 100)
