"""Edgings in words: what is worked along every edge, row by row, and the yarn they take.

In: planned edgings. Out: sentences in the language of a speech, in the order worked.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from turnchain.fabric.order import CLUSTERS
from turnchain.fabric.plan import Plan
from turnchain.garment.edging import buttonholes, planned, ties
from turnchain.garment.edging.bends import Bend
from turnchain.garment.edging.places import Places
from turnchain.garment.edging.planned import IN_A_CORNER, EdgingPart, PlannedEdging
from turnchain.wording.languages.language import Speech

#: Chains at the beginning of a row: woollykits.com.
_TURNING = {"sc": 1, "hdc": 2, "dc": 3}


def lines(speech: Speech, plan: Plan) -> Iterator[str]:
    """All that is said of the edgings of a plan but their yarn; nothing where it has none."""
    found = planned.of(plan)
    for one in found:
        yield introduced(speech, plan, one)
        yield from rows(speech, plan, one)
        yield from _holes(speech, plan, one)
        yield from _ties(speech, plan, one)
    if any(bend and bend.after is not None for one in found for bend in one.bends):
        yield speech.say("edging.counted")
    for stitch in dict.fromkeys(one.asked.stitch for one in found if one.gauge.assumed):
        yield speech.say("edging.assumed", st=speech.stitch(stitch))


def rows(speech: Speech, plan: Plan, one: PlannedEdging) -> Iterator[str]:
    """Row by row: the first along its edges, then the others, those that are worked alike together."""
    yield _first(speech, plan, one)
    told = [(row, _later(speech, one, row)) for row in range(2, one.asked.rows + 1)]
    for how, group in groupby(told, key=lambda pair: pair[1]):
        numbers = [row for row, _ in group]
        counts = ", ".join(str(one.counts[row - 1]) for row in numbers)
        st = speech.stitch(one.asked.stitch)
        yield speech.say("edging.later", row=_row(speech, one, numbers[0], numbers[-1]), how=how, n=counts, st=st)


def row_by_row(speech: Speech, plan: Plan, one: PlannedEdging) -> Iterator[str]:
    """Every row by itself, with the buttonholes in it; then the ties: what is ticked off one after the other."""
    holes = buttonholes.of(plan, one)
    for row in range(1, one.asked.rows + 1):
        told = _first(speech, plan, one) if row == 1 else _one_row(speech, one, row)
        with_holes = holes is not None and holes.row == row
        yield ". ".join([told, *(_holes(speech, plan, one) if with_holes else ())])
    yield from _ties(speech, plan, one)


def _one_row(speech: Speech, one: PlannedEdging, row: int) -> str:
    how, st = _later(speech, one, row), speech.stitch(one.asked.stitch)
    return speech.say("edging.later", row=_row(speech, one, row, row), how=how, n=one.counts[row - 1], st=st)


def _holes(speech: Speech, plan: Plan, one: PlannedEdging) -> Iterator[str]:
    """Its buttonholes, where it has any."""
    holes = buttonholes.of(plan, one)
    if holes is None:
        return
    st = speech.stitch(one.asked.stitch)
    gaps = [speech.count("edging.holes.gap", times, gap=stitches, st=st) for stitches, times in holes.gaps]
    listed = speech.language.listed(gaps) if gaps else ""
    told = speech.count("edging.holes", holes.count, over=holes.over, gaps=listed, st=st)
    key, edge = f"edging.holes.{'round' if one.closed else 'row'}", _called(speech, one, holes.part)
    yield speech.say(key, number=one.number, row=holes.row, edge=edge, first=holes.first, st=st, holes=told)


def _ties(speech: Speech, plan: Plan, one: PlannedEdging) -> Iterator[str]:
    """Its ties or its strap, where it has any."""
    tied = ties.of(plan, one)
    if tied is None:
        return
    length, sc = speech.taped(tied.length, plan.pattern.units), speech.stitch("sc")
    if tied.what == "tie":
        key, chains, to = "edging.ties", tied.stitches + 1, 2
    else:
        key, chains, to = f"edging.strap.{'round' if one.closed else 'row'}", tied.stitches, tied.to
    st, nth = speech.stitch(one.asked.stitch), speech.nth(to)
    n = tied.stitches
    yield speech.say(key, number=one.number, chains=chains, nth=nth, sc=sc, st=st, n=n, length=length)


def name_of(speech: Speech, one: PlannedEdging) -> str:
    """What an edging is called: its opening where it goes all round it, else the edges it lies along."""
    kind = speech.named_by("kind", one.kind)
    if one.closed:
        only = {piece.name for piece in one.pieces}
        return speech.say("run.of", piece=only.pop(), edge=kind) if len(only) == 1 else kind
    edges = dict.fromkeys(_edge(speech, part) for part in one.parts)
    return speech.language.listed(list(edges))


def told(speech: Speech, plan: Plan, one: PlannedEdging) -> str:
    """An edging in a sentence, for a picture: where it is, of how many rows, in which yarn."""
    yarn, kind = planned.yarn_of(plan, one.asked), "round" if one.closed else "row"
    return speech.say(
        "edging.told",
        number=one.number,
        name=name_of(speech, one),
        count=speech.count(f"edging.count.{kind}", one.asked.rows),
        st=speech.stitch(one.asked.stitch),
        yarn=speech.say("edging.yarn_of", yarn=speech.named(yarn.name)) if yarn else "",
    )


def introduced(speech: Speech, plan: Plan, one: PlannedEdging) -> str:
    """An edging by its name, with its rows, its stitch, its yarn, and how rows begin and end."""
    key = "edging.name.times" if one.count > 1 else "edging.name"
    name = speech.say(key, number=one.number, name=name_of(speech, one), times=one.count)
    yarn, stitch = planned.yarn_of(plan, one.asked), one.asked.stitch
    return speech.say(
        "edging.rounds" if one.closed else "edging.rows",
        name=name,
        count=speech.count(f"edging.count.{'round' if one.closed else 'row'}", one.asked.rows),
        st=speech.stitch(stitch),
        st_full=speech.stitch_named(stitch),
        yarn=speech.say("edging.yarn_of", yarn=speech.named(yarn.name)) if yarn else "",
        turning=_TURNING[stitch],
        sl_st_full=speech.full("sl_st"),
    )


def _row(speech: Speech, one: PlannedEdging, first: int, last: int) -> str:
    key = f"edging.{'round' if one.closed else 'row'}{'.to' if last > first else ''}"
    return speech.say(key, number=one.number, first=first, last=last)


# -------------------------------------------------------------------------------------------------- the first row


def _first(speech: Speech, plan: Plan, one: PlannedEdging) -> str:
    sides = "; ".join(_alike(speech, [words for part in one.parts for words in _side(speech, one, part)]))
    length = speech.taped(one.length, plan.pattern.units)
    st = speech.stitch(one.asked.stitch)
    return speech.say("edging.first", row=_row(speech, one, 1, 1), sides=sides, n=one.first, st=st, length=length)


def _alike(speech: Speech, sides: Sequence[str]) -> Iterator[str]:
    """Sides with those that are the same one after the other, as at the panels of a skirt, told once."""
    for words, group in groupby(sides):
        times = len(list(group))
        yield words if times == 1 else speech.say("edging.side.times", side=words, times=times)


def _side(speech: Speech, one: PlannedEdging, part: EdgingPart) -> Iterator[str]:
    """A part of an edging and the corner that follows it."""
    edge, st = _called(speech, one, part), speech.stitch(one.asked.stitch)
    if part.places:
        key = "edging.side.part" if part.rows else "edging.side"
        yield speech.say(key, edge=edge, n=part.stitches, st=st, how=how_spread(speech, part.places))
    if part.turn == "outer":
        yield speech.say("edging.corner.outer", n=IN_A_CORNER[one.asked.stitch])
    elif part.turn == "inner":
        yield speech.say("edging.corner.inner", tog=_together(speech, one, 2))


def how_spread(speech: Speech, places: Sequence[Places]) -> str:
    """How the stitches go into the places along one edge: "1 in each of 8 row ends; 3 in each of 4 chains"."""
    slanting = any(met.slant for met in places)
    return "; ".join(_spread(speech, met, slanting) for met in places)


def _called(speech: Speech, one: PlannedEdging, part: EdgingPart) -> str:
    """A part of an edging, without its piece where a round goes along a single one, which its name has told."""
    several = len({piece.name for piece in one.pieces}) > 1 or not one.closed
    return _edge(speech, part) if several else speech.named_by("edge", part.name.key)


def _edge(speech: Speech, part: EdgingPart) -> str:
    """A part of an edging by its piece and edge, with its rows where it takes no more of what is open there."""
    edge = speech.say("run.of", piece=part.piece.name, edge=speech.named_by("edge", part.name.key))
    if part.rows is None:
        return edge
    return speech.say("edging.part", edge=edge, first=min(part.rows), last=max(part.rows))


def _together(speech: Speech, one: PlannedEdging, count: int) -> str:
    return speech.say("edging.tog", st=speech.stitch(one.asked.stitch), n=count)


def _spread(speech: Speech, met: Places, slanting: bool) -> str:
    """How the stitches go into places of one sort: "2 in each of 30 row ends, 1 more in every 7th 4 times";
    ``slanting``: others beside them slant."""
    even = met.even
    how = _each(speech, met, slanting)
    if not even.more:
        return how
    key = "more" if even.more > 0 else "skip" if even.each == 1 else "fewer"
    return speech.say(f"edging.{key}", how=how, where=_places(speech, even.changes, even.gaps))


def _each(speech: Speech, met: Places, slanting: bool) -> str:
    kind = speech.say("edging.clusters") if met.kind == CLUSTERS else met.kind and speech.stitch(met.kind)
    where = "kind" if kind else "slant" if met.slant else "straight" if slanting else "row_end"
    key = where if met.what == "row end" else met.what
    form = "one" if met.even.places == 1 else "many"
    return speech.say(f"edging.in.{key}.{form}", n=met.even.each, places=met.even.places, kind=kind)


def _places(speech: Speech, changes: int, gaps: Sequence[tuple[int, int]]) -> str:
    """Where so many ``changes`` lie, at every how many places how many times; a single one in the middle."""
    if changes == 1:
        return speech.say("edging.middle")
    told = [speech.count("edging.every", times, nth=speech.nth(every)) for every, times in gaps]
    return speech.language.listed(told)


# ------------------------------------------------------------------------------------------------ the other rows


def _later(speech: Speech, one: PlannedEdging, row: int) -> str:
    parts = [speech.say("edging.on", st=speech.stitch(one.asked.stitch))]
    corner = IN_A_CORNER[one.asked.stitch]
    if outer := one.corners("outer"):
        parts.append(speech.count("edging.on.outer", outer, corner=corner))
    if inner := one.corners("inner"):
        parts.append(speech.count("edging.on.inner", inner, tog=_together(speech, one, corner)))
    if (bend := one.bends[row - 1]) is not None:
        parts.append(_bending(speech, one, bend))
    return ", ".join(parts)


def _bending(speech: Speech, one: PlannedEdging, bend: Bend) -> str:
    """The stitches of the row below at which a row takes in or adds what its edge bends."""
    where = _places(speech, abs(bend.more), bend.gaps)
    key = "edging.on.fewer" if bend.more < 0 else "edging.on.more"
    how = speech.say(key, where=where, tog=_together(speech, one, 2))
    if bend.after is None:
        return how
    return speech.say("edging.on.after" if bend.after else "edging.on.before", n=max(1, bend.after), how=how)
