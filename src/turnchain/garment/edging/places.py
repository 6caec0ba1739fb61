"""What the hook meets along a part of an open edge, and how many stitches of an edging go into each place.

In: a stretch of a planned piece. Out: ``Places``: chains of a foundation, stitches and chains along a row or step, and
row ends, those of each kind of row by themselves, straight and slanting ones apart. Where no border swatch was counted
the stitches are assumed: 1 to every stitch and chain and 2 sc to the height of a row of dc (knittinghelp forum, thread
55500), 3 dc to two such rows (sharky-knows), 1 hdc to a row of sc (crochetspot.com, "Crochet Evenly Around").
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import Final, Literal, TypeAlias

from turnchain.fabric.plan import PiecePlan
from turnchain.garment import edges
from turnchain.garment.edging.spreading import Even, spread
from turnchain.garment.stretches import EdgeStretch
from turnchain.pattern import Swatch
from turnchain.records import frozen

What: TypeAlias = Literal["chain", "stitch", "step", "row end"]

#: What the hook meets where it meets no row ends.
ALONG: Final[dict[str, What]] = {"foundation": "chain", "row tops": "stitch"}
#: Stitches to the height of a row of dc, by the stitch of the edging: the published ones above; a row of sc is
#: 54 hundredths of one of dc, as ``fabric`` has it.
TO_A_ROW: Final = {"sc": Fraction(2), "hdc": Fraction(100, 54), "dc": Fraction(3, 2)}
#: [memory] How high a row of them is, in rows of dc.
HEIGHT: Final = {"sc": Fraction(1, 2), "hdc": Fraction(3, 4), "dc": Fraction(1)}


@frozen
class EdgingGauge:
    """A ``stitch`` of an edging and a ``row`` of it, in cm; ``assumed``: the stitch by the fabric's rows, where none
    were counted in a swatch."""

    stitch: Fraction
    row: Fraction
    assumed: bool = True


@frozen
class Places:
    """Places of one sort: ``what`` they are; of row ends the ``kind`` of their rows ("" where all are alike) and
    whether they ``slant``; how the stitches are spread over them (``even``)."""

    what: What
    even: Even
    kind: str = ""
    slant: bool = False


def gauge_of(swatches: Sequence[Swatch], piece: PiecePlan, stitch: str) -> EdgingGauge:
    """The gauge of an edging along ``piece``: the mean over the swatches of its ``stitch``, and what was not counted in
    any by the height of the rows of ``piece``, as those of dc would be high in it."""
    row = piece.dc_row
    own = [one for swatch in swatches for one in swatch.kinds if one.stitch == stitch]
    widths = [one.width / one.stitches for one in own if one.width and one.stitches]
    heights = [one.height / one.rows for one in own]
    return EdgingGauge(
        _mean(widths) if widths else row / TO_A_ROW[stitch],
        _mean(heights) if heights else row * HEIGHT[stitch],
        assumed=not widths,
    )


def _mean(lengths: Sequence[Fraction]) -> Fraction:
    return sum(lengths, Fraction(0)) / len(lengths)


def places(stretch: EdgeStretch, gauge: EdgingGauge, corners: int) -> tuple[Places, ...]:
    """The places along a stretch, in the order told; ``corners`` is how many corners outwards lie at its ends, each of
    which is worked into an end stitch, that counts with it."""
    run = stretch.as_run()
    if run.meets != "row ends" or stretch.rows is None:
        free = max(0, run.stitches - corners)
        what = ALONG.get(run.meets, "step")
        wanted = free if gauge.assumed else max(0, round(stretch.length / gauge.stitch) - corners)
        return (Places(what, spread(wanted, free)),) if free else ()
    ends = list(_row_ends(stretch.piece, run, gauge))
    wanted = run.stitches if gauge.assumed else round(_level(run) / gauge.stitch)
    return (*ends, *((Places("step", spread(wanted, run.stitches)),) if run.stitches else ()))


def shared_out(stretches: Sequence[EdgeStretch], stitches: int) -> tuple[tuple[Places, ...], ...]:
    """The places along every stretch for so many ``stitches`` along all, shared out by length."""
    found = [tuple(_sorts(stretch)) for stretch in stretches]
    whole = sum((one.length for sorts in found for one in sorts), Fraction(0))
    shares = iter(_shared([one.length * stitches / whole for sorts in found for one in sorts]))
    return tuple(
        tuple(Places(one.what, spread(next(shares), one.places), one.kind, one.slant) for one in sorts)
        for sorts in found
    )


@frozen
class _Sort:
    """So many ``places`` of one sort, as in ``Places``, along ``length`` cm."""

    what: What
    places: int
    length: Fraction
    kind: str = ""
    slant: bool = False


def _sorts(stretch: EdgeStretch) -> Iterator[_Sort]:
    run = stretch.as_run()
    if run.meets != "row ends" or stretch.rows is None:
        if run.stitches:
            yield _Sort(ALONG.get(run.meets, "step"), run.stitches, stretch.length)
        return
    lengths = _lengths(stretch.piece, run)
    several = len({kind for kind, _ in lengths}) > 1
    for (kind, slant), found in lengths.items():
        yield _Sort("row end", len(found), sum(found, Fraction(0)), kind if several else "", slant)
    if run.stitches:
        yield _Sort("step", run.stitches, _level(run))


def _level(run: edges.Run) -> Fraction:
    """How long its steps are, in cm."""
    return sum((edges.length_of(pair) for pair in pairwise(run.points) if pair[0][1] == pair[1][1]), Fraction(0))


def _lengths(piece: PiecePlan, run: edges.Run) -> dict[tuple[str, bool], list[Fraction]]:
    """The lengths in cm of the row ends along a run, by the kind of their rows and whether they slant."""
    found: dict[tuple[str, bool], list[Fraction]] = {}
    for one, other in pairwise(run.points):
        if one[1] != other[1]:
            found.setdefault((_kind(piece, one, other), one[0] != other[0]), []).append(edges.length_of((one, other)))
    return found


def _row_ends(piece: PiecePlan, run: edges.Run, gauge: EdgingGauge) -> Iterator[Places]:
    lengths = _lengths(piece, run)
    exact = [sum(found, Fraction(0)) / gauge.stitch for found in lengths.values()]
    several = len({kind for kind, _ in lengths}) > 1
    for (kind, slant), found, stitches in zip(lengths, lengths.values(), _shared(exact), strict=True):
        yield Places("row end", spread(stitches, len(found)), kind if several else "", slant)


def _kind(piece: PiecePlan, one: edges.Point, other: edges.Point) -> str:
    return piece.row_levels[max(1, piece.row_at(max(one[1], other[1]))) - 1].kind


def _shared(exact: list[Fraction]) -> list[int]:
    """Whole numbers near those that are ``exact``, their sum the sum rounded: the greatest remainders go up."""
    whole = [int(one) for one in exact]
    missing = round(sum(exact, Fraction(0))) - sum(whole)
    for nth in sorted(range(len(exact)), key=lambda nth: (whole[nth] - exact[nth], nth))[:missing]:
        whole[nth] += 1
    return whole
