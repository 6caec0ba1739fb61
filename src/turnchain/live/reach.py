"""The places a measure can be pulled to: what the stitches can give near what is wanted.

In: a pattern, the number of a piece and one of its measures. Out: the workable values around it, each with a wanted
value that plans to it, the measures that come of it, the outline of the piece, and whether a head passes the neck. They
are found by planning the pattern for wanted values half a cluster or a row further on (whichever is less); so each is a
plan that the program would make.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any, Final, TypeAlias

from turnchain.errors import MakerError, PatternError
from turnchain.fabric.gauge import gauge_of
from turnchain.fabric.plan import Plan
from turnchain.garment import roles
from turnchain.garment.body import is_child, known
from turnchain.garment.necklines import opening
from turnchain.live import facts
from turnchain.pattern import Pattern, Piece
from turnchain.planning.kept import KeptPieces
from turnchain.planning.planner import plan_pattern
from turnchain.records import replace
from turnchain.units import INCH, Unit, shown

Json: TypeAlias = Any

UNIT_CM: Final[dict[Unit, Fraction]] = {"cm": Fraction(1), "in": INCH}
PLACES = 4  # at most, on either side of the one worked now
TRIES = 16  # wanted values that are planned, on either side


def reach(pattern: Pattern, number: int, measure: str, searched: KeptPieces | None = None) -> dict[str, Json]:
    """The places of ``measure`` ("width", "length", "shoulder", "neck depth") of piece ``number`` (from 0), from the
    smallest, and the number of the one that is worked "now". Each place has "worked" (cm), "rows", "fit" (as
    ``facts.fit_json``), "outline" (cm), "doubts" (warnings), "opening" (see ``_opening``) and "wish": the value to ask
    for, in the unit of the pattern file. MakerError where the piece asks for no such measure or cannot be planned."""
    piece = pattern.pieces[number]
    now = _wanted(piece, measure)
    if now is None:
        raise MakerError(f'"{piece.name}" has no {measure} of its own to pull at')
    search = _Search(pattern, number, measure, KeptPieces() if searched is None else searched)
    found = search.place(now)
    if found is None:
        raise MakerError(f'"{piece.name}" cannot be planned as it is')
    lower, higher = (list(search.towards(way, found)) for way in (-1, 1))
    here = {**found, "wish": float(now / UNIT_CM[pattern.units])}
    return {"measure": measure, "places": [*reversed(lower), here, *higher], "now": len(lower)}


def _exact(cm: float) -> Fraction:
    return Fraction(cm).limit_denominator(10_000)


class _Search:
    """Plans the pattern with other wishes for one measure of one piece; stripes and yarns decide no place."""

    def __init__(self, pattern: Pattern, number: int, measure: str, searched: KeptPieces) -> None:
        pieces = tuple(replace(piece, stripes=None, stripes_begin=None) for piece in pattern.pieces)
        seams = tuple(replace(seam, stripes=None) for seam in pattern.seams)
        self.pattern = replace(pattern, pieces=pieces, seams=seams, stripes=None, yarns=())
        self.number, self.measure, self.searched = number, measure, searched.without_alternatives()

    def towards(self, way: int, found: dict[str, Json]) -> Iterator[dict[str, Json]]:
        """The places on one side of what is worked now, the nearest first, each with a wish that leads there."""
        gauge = gauge_of(self.pattern.swatches)
        step = min(gauge.half, gauge.row)
        unit, last, places = UNIT_CM[self.pattern.units], found["worked"], 0
        goal = way * _exact(last)
        for _ in range(TRIES):
            goal = max(goal, way * _exact(last)) + step
            wish = self._plain(way * goal, step)
            one = self.place(wish) if wish > 0 else None
            if one is None or way * (one["worked"] - last) < 1e-9:
                continue
            last = one["worked"]
            yield {**one, "wish": round(float(wish / unit), 4)}
            places += 1
            if places == PLACES:
                return

    def _plain(self, wish: Fraction, step: Fraction) -> Fraction:
        """About ``wish`` cm, as short as it can be written in the unit of the file, in cm."""
        unit = UNIT_CM[self.pattern.units]
        part = next((part for part in (2, 10) if step >= unit / part), 100)
        return Fraction(round(wish / unit * part), part) * unit

    def place(self, wish: Fraction) -> dict[str, Json] | None:
        """What comes of asking for ``wish`` cm; None where it cannot be planned."""
        pieces = list(self.pattern.pieces)
        pieces[self.number] = _wished(pieces[self.number], self.measure, wish)
        try:
            plan = plan_pattern(replace(self.pattern, pieces=tuple(pieces)), kept=self.searched)
        except PatternError:
            return None
        piece = plan.pieces[self.number]
        fits = {fit.measure: fit for fit in piece.fit}
        if self.measure not in fits:
            return None
        return {
            "worked": float(fits[self.measure].worked),
            "rows": piece.row_count,
            "fit": [facts.fit_json(fit, plan.pattern.units, facts.in_file(plan, self.number)) for fit in piece.fit],
            "outline": facts.outline(piece),
            "doubts": list(piece.warnings),
            "opening": _opening(plan, self.number),
        }


def _opening(plan: Plan, number: int) -> dict[str, Json] | None:
    """The neck opening that piece ``number`` has a part in: the way "around" it in words, "passes" (None where the head
    is not known), by how much it is "short" of the head in words, and the "head" in words. None without such a neck."""
    pair = roles.front_and_back(plan)
    if pair is None or plan.pieces[number].name not in {piece.name for piece in pair}:
        return None
    found = opening(*pair)
    if found is None:
        return None
    unit: Unit = plan.pattern.units
    head = known(plan.pattern.wearer, "head")
    if head is None:
        return {"around": shown(found.around, unit), "passes": None, "short": "", "head": ""}
    short = head.most - found.around
    return {
        "around": shown(found.around, unit),
        "passes": found.passes(head.most, is_child(plan.pattern.wearer)),
        "short": shown(short, unit) if short > 0 else "",
        "head": shown(head.most, unit),
    }


def _wanted(piece: Piece, measure: str) -> Fraction | None:
    match measure:
        case "width":
            return piece.width
        case "length":
            return piece.length
        case "shoulder":
            return None if piece.neck is None else piece.neck.shoulder
        case "neck depth":
            return None if piece.neck is None else piece.neck.depth
    return None


def _wished(piece: Piece, measure: str, wish: Fraction) -> Piece:
    if measure in ("width", "length"):
        return replace(piece, **{measure: wish})  # type: ignore[arg-type]
    assert piece.neck is not None, "the wish was found there"
    part = "shoulder" if measure == "shoulder" else "depth"
    return replace(piece, neck=replace(piece.neck, **{part: wish}))  # type: ignore[arg-type]
