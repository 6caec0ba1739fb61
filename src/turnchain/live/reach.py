"""The places a measure can be pulled to: what the stitches can give near what is wanted.

In: a pattern, the number of a piece and one of its measures. Out: the workable values around it, each with a wanted
value that plans to it, the measures that come of it and the outline of the piece. They are found by planning the piece
for many wanted values, a quarter of a half pitch or of a row apart (whichever is less); so each is a plan that the
program would make.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any, TypeAlias

from turnchain.errors import MakerError, PatternError
from turnchain.fabric.gauge import gauge_of
from turnchain.live import facts
from turnchain.pattern import Pattern, Piece
from turnchain.planning.planner import plan_pattern
from turnchain.records import replace

Json: TypeAlias = Any

PLACES = 4  # at most, on either side of the one worked now
TRIES = 48  # wanted values that are planned, on either side


def reach(pattern: Pattern, number: int, measure: str) -> dict[str, Json]:
    """The places of ``measure`` ("width", "length", "shoulder", "neck depth") of piece ``number`` (from 0), from the
    smallest, and the number of the one that is worked "now". Each place has "worked" (cm), "rows", "fit" (as
    ``facts.fit_json``), "outline" (cm), "doubts" (warnings) and "wish": the value to ask for, in the unit of the
    pattern file. MakerError where the piece asks for no such measure or cannot be planned."""
    piece = pattern.pieces[number]
    now = _wanted(piece, measure)
    if now is None:
        raise MakerError(f'"{piece.name}" has no {measure} of its own to pull at')
    found = _place(pattern, number, measure, now)
    if found is None:
        raise MakerError(f'"{piece.name}" cannot be planned as it is')
    lower = _towards(pattern, number, measure, now, -1, found)
    higher = _towards(pattern, number, measure, now, 1, found)
    unit = Fraction(254, 100) if pattern.units == "in" else Fraction(1)
    here = {**found, "wish": float(now / unit)}
    return {"measure": measure, "places": [*reversed(lower), here, *higher], "now": len(lower)}


def _towards(
    pattern: Pattern, number: int, measure: str, now: Fraction, way: int, found: dict[str, Json]
) -> list[dict[str, Json]]:
    """The places on one side of what is worked now, the nearest first."""
    gauge = gauge_of(pattern.swatches)
    step = min(gauge.half, gauge.row) / 4
    places: list[dict[str, Json]] = []
    wishes: list[list[Fraction]] = []
    last = found["worked"]
    for nth in range(1, TRIES + 1):
        wish = now + way * nth * step
        one = _place(pattern, number, measure, wish) if wish > 0 else None
        if one is None:
            continue
        if way * (one["worked"] - last) > 1e-9:
            if len(places) == PLACES:
                break
            places.append(one)
            wishes.append([])
            last = one["worked"]
        if places and one["worked"] == last:
            wishes[-1].append(wish)
    unit = Fraction(254, 100) if pattern.units == "in" else Fraction(1)
    plain = [_plain(min(tried) / unit, max(tried) / unit) for tried in wishes]
    return [{**place, "wish": wish} for place, wish in zip(places, plain, strict=True)]


def _plain(low: Fraction, high: Fraction) -> float:
    """A number from ``low`` to ``high``, near the middle and as short as there is one."""
    middle = (low + high) / 2
    for part in (1, 2, 10, 100):
        near = Fraction(round(middle * part), part)
        if low <= near <= high:
            return float(near)
    return round(float(middle), 3)


def _place(pattern: Pattern, number: int, measure: str, wish: Fraction) -> dict[str, Json] | None:
    """What comes of asking for ``wish`` cm; None where it cannot be planned."""
    alone = _alone(pattern, number, measure, wish)
    try:
        plan = plan_pattern(alone)
    except PatternError:
        return None
    piece = plan.piece(pattern.pieces[number].name)
    fits = {fit.measure: fit for fit in piece.fit}
    if measure not in fits:
        return None
    return {
        "worked": float(fits[measure].worked),
        "rows": piece.row_count,
        "fit": [facts.fit_json(fit, pattern.units, number) for fit in piece.fit],
        "outline": facts.outline(piece),
        "doubts": list(piece.warnings),
    }


def _alone(pattern: Pattern, number: int, measure: str, wish: Fraction) -> Pattern:
    """``pattern`` with ``wish`` cm asked for, and no pieces but the one and those it faces."""
    piece = _wished(pattern.pieces[number], measure, wish)
    kept = list(_with_faced(pattern, piece))
    return replace(pattern, pieces=tuple(kept), seams=(), stripes=None, yarns=(), progress=())


def _with_faced(pattern: Pattern, piece: Piece) -> Iterator[Piece]:
    yield replace(piece, stripes=None)
    named = {one.name: one for one in pattern.pieces}
    seen = {piece.name}
    while piece.faces is not None and piece.faces not in seen:
        piece = named[piece.faces]
        seen.add(piece.name)
        yield replace(piece, stripes=None)


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
