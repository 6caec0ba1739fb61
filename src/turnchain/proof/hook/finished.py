"""A finished row: where its clusters and its edges stand, and whether an edge that leans so can be worked.

In: a row in the making that has its last stitch. Out: its ``WorkedRow`` with every position, which follows from what
the clusters are worked into; or ``Unworkable``, where an edge leans as none is worked.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from turnchain.proof.hook.row import RowInWork
from turnchain.proof.hook.solid import settle
from turnchain.proof.hook.stitches import (
    Below,
    Craft,
    EdgeKind,
    EdgeMade,
    OnChain,
    Spot,
    WorkedInto,
    WorkedRow,
    refuse,
)


def finished(work: RowInWork, number: int) -> WorkedRow:
    """The finished row ``number`` (from 1), with its positions in half pitches: row 1 with its left edge at 0. Raises
    Unworkable where the row is not complete, or an edge leans as none is worked. The edge stitches that stand on a
    cluster of the row below are noted there (``carrying``), for ``check_carried``."""
    refuse(work.begun is None, "a turning chain is missing")
    refuse(not work.whole, "the dc at the end of the row is missing")
    if work.craft.slit and work.below is not None and work.below.number == 1:
        show_edges(work, work.below)
    if work.craft.alternating:
        turn_to_clusters(work)
    centres = _centres(work)
    start_kind, end_kind = _slit_kinds(work, centres) if work.craft.slit else _kinds(work)
    start_at = centres[0] - work.towards * (2 if start_kind == "spaced" else 1)
    end_at = centres[-1] + work.towards * (2 if end_kind == "spaced" else 1)
    start = _edge(work, start_at, start_kind, first=True)
    end = _edge(work, end_at, end_kind, first=False)
    if work.below is not None:
        _check_edge(work, start, work.begun, first=True)
        _check_edge(work, end, work.ended or work.places[-1], first=False)
    at = _positions(work, centres, start_at, end_at)
    made = WorkedRow(number, work.towards, tuple(work.spots), at, tuple(work.stitches), tuple(centres), start, end)
    made.turning, made.top = work.turning, work.craft.turning
    if work.below is None:
        return _shifted(made)
    if work.below.at_foot:
        made = _shifted(made)
        settle(work.below, made)
    return made


def _kind(neighbour: Spot, solid: bool = False) -> EdgeKind:
    """Of which kind an edge is, by what lies beside it: in a ``solid`` fabric the first stitch is a whole one away."""
    return "flush" if neighbour.what == "dc" and not solid else "spaced"


def _kinds(work: RowInWork) -> tuple[EdgeKind, EdgeKind]:
    """Of which kinds the edges are at the start and at the end."""
    if work.craft.bare:
        return _bare_kind(*work.spots[:2]), _bare_kind(*work.spots[:-3:-1])
    return _kind(work.spots[1], work.craft.solid), _kind(work.spots[-2], work.craft.solid)


def _bare_kind(outermost: Spot, *beside: Spot) -> EdgeKind:
    """The kind of an edge in a fabric where a cluster can be one: an edge stitch stands only beside a space."""
    if outermost.what == "dc":
        return "bare"
    refuse(_kind(beside[0]) == "flush", "an edge stitch beside a cluster, which is the edge by itself here")
    return "spaced"


def _slit_kinds(work: RowInWork, centres: list[int]) -> tuple[EdgeKind, EdgeKind]:
    """The same where nothing stands beside edge stitches: by how far the outermost clusters stand from those below,
    which all edge stitches stand on. In row 1 the next row shows it; until then both are flush."""
    if work.below is None:
        return "flush", "flush"
    refuse((work.begun, work.ended) != (Below(0), Below(len(work.walk) - 1)), "an edge stitch that stands on none")
    ways = (centres[0] - work.walk_at[0]) * work.towards, (work.walk_at[-1] - centres[-1]) * work.towards
    refuse(not {*ways} <= {1, 2}, "a cluster too far from an edge, or past it")
    kinds: dict[int, EdgeKind] = {1: "flush", 2: "spaced"}
    return kinds[ways[0]], kinds[ways[1]]


def show_edges(work: RowInWork, first: WorkedRow) -> None:
    """What row 2 shows of row 1, the ``first``, where nothing stands beside edge stitches: an edge is spaced where a
    cluster goes into the slit there."""
    stood = {place.index for place in work.places if isinstance(place, Below)}
    start, end = (len(work.walk) - 2 in stood), (1 in stood)  # the next row meets them the other way round
    at, towards = list(first.at), first.towards
    at[0] = first.centres[0] - towards * (2 if start else 1)
    at[-1] = first.centres[-1] + towards * (2 if end else 1)
    at[1], at[-2] = at[0] + towards, at[-1] - towards
    first.at = tuple(at)
    first.start = EdgeMade(at[0], "spaced" if start else "flush", 0)
    first.end = EdgeMade(at[-1], "spaced" if end else "flush", 0)
    _shifted(first)
    work.walk_at = first.at[::-1]


def turn_to_clusters(work: RowInWork) -> None:
    """Where clusters are single stitches and can be the edge: the row below has an edge stitch where this row goes into
    the space beside it, which leaves that unworked, and a cluster where this row stands on it. Row 1 shows neither by
    itself; rows above it are what the row below them was not."""
    below = work.below
    if below is None:
        return
    start_on, end_on = (isinstance(one, Below) and work.walk[one.index].what != "space" for one in (
        work.begun, work.ended or work.places[-1]
    ))  # fmt: skip
    found: tuple[EdgeKind, EdgeKind] = ("bare" if end_on else "spaced", "bare" if start_on else "spaced")
    if below.number == 1:
        _show_kinds(work, below, found)
    refuse((below.start.kind, below.end.kind) != found, "a row that is not straight, where its edges cannot show it")


def _show_kinds(work: RowInWork, first: WorkedRow, kinds: tuple[EdgeKind, EdgeKind]) -> None:
    """Row 1 as the next row shows it: of ``kinds`` at its start and its end."""
    spots = [spot for spot in first.spots if spot.what != "space"]
    own = spots[1 if kinds[0] == "spaced" else 0 : -1 if kinds[1] == "spaced" else None]
    lead = 2 * (kinds[0] == "spaced")
    made = [
        Spot("space", chains=spot.chains) if spot.what == "space"
        else replace(spot, what="dc", cluster=(nth - lead) // 2)
        for nth, spot in enumerate(first.spots)
    ]  # fmt: skip
    if kinds[0] == "spaced":
        made[0] = replace(first.spots[0], what="edge", cluster=-1)
    if kinds[1] == "spaced":
        made[-1] = replace(first.spots[-1], what="edge", cluster=-1)
    first.spots = tuple(made)
    first.centres = tuple(first.towards * (2 * nth + 1) for nth in range(len(own)))
    starts = first.centres[0] - first.towards * (2 if kinds[0] == "spaced" else 1)
    ends = first.centres[-1] + first.towards * (2 if kinds[1] == "spaced" else 1)
    last = len(made) - 1
    first.at = tuple(
        starts if nth == 0 and kinds[0] == "spaced" else ends if nth == last and kinds[1] == "spaced"
        else first.centres[0] + first.towards * (nth - lead)
        for nth in range(len(made))
    )  # fmt: skip
    first.start, first.end = EdgeMade(starts, kinds[0], 0), EdgeMade(ends, kinds[1], 0)
    _shifted(first)
    work.walk, work.walk_at = first.spots[::-1], first.at[::-1]


def _edge(work: RowInWork, at: int, kind: EdgeKind, first: bool) -> EdgeMade:
    inwards = _inwards(work, at, first)
    return EdgeMade(at, kind, inwards, abs(inwards) > (2 if work.craft.single else 1))


def _inwards(work: RowInWork, at: int, first: bool) -> int:
    if work.below is None or work.below.at_foot:
        return 0
    old = _old_edges(work)
    return (at - old[0]) * work.towards if first else (old[1] - at) * work.towards


def _old_edges(work: RowInWork) -> tuple[int, int]:
    """Where the edges of the row below stand that this one begins and ends at."""
    assert work.below is not None, "row 1 has no edges below it"
    return work.below.end.at, work.below.start.at


def _centres(work: RowInWork) -> list[int]:
    """Where each cluster stands: over its space, those on a chain side by side before them."""
    if work.below is not None and work.below.at_foot:  # each as far from the last as row and hook make it
        return [2 * work.towards * nth for nth in range(len(work.places))]
    known = [_over(work, one.index) if isinstance(one, Below) else None for one in work.places]
    anchor = next((nth for nth, at in enumerate(known) if at is not None), None)
    if anchor is None:
        last = _last_centre(work) if work.below is not None else 0
        return [last - 2 * work.towards * nth for nth in reversed(range(len(known)))]
    first = known[anchor]
    assert first is not None, "the anchor is known"
    centres = [first + 2 * work.towards * (nth - anchor) for nth in range(len(known))]
    for wanted, at in zip(centres, known, strict=True):
        refuse(at is not None and at != wanted, "clusters that are not neighbours stand side by side")
    return centres


def _over(work: RowInWork, index: int) -> int:
    """Where a cluster stands that is worked into the spot ``index`` of the row below: on an outermost stitch half a
    pitch farther out than the cluster of that, over the old edge."""
    if work.craft.bare and work.walk[index].what == "dc":
        return _old_edges(work)[0 if index == 0 else 1]
    return work.walk_at[index]


def _last_centre(work: RowInWork) -> int:
    """Where the last cluster stands in a row whose clusters all stand on a new chain, seen from its last dc."""
    assert isinstance(work.ended, Below), "only row 1 ends on its chain"
    if work.craft.bare:
        return _over(work, work.ended.index) - 2 * work.towards
    spaced = _kind(work.spots[-2]) == "spaced"
    at = work.walk_at[work.ended.index]
    if spaced and work.walk[work.ended.index].what == "edge" and _kind(work.walk[-2]) == "spaced":
        at += work.towards
    return at - work.towards * (2 if spaced else 1)


def _positions(work: RowInWork, centres: list[int], start: int, end: int) -> tuple[int, ...]:
    """The position of every spot; all dc of a cluster have that of its middle."""
    found: list[int] = []
    seen = -1
    for spot in work.spots:
        if spot.what in ("dc", "inner"):
            seen = spot.cluster
            found.append(centres[seen])
        elif spot.what == "half" and work.craft.slit:
            found.append(end - work.towards if seen >= 0 else start + work.towards)
        elif spot.what in ("edge", "half"):
            found.append(end if seen >= 0 else start)
        elif seen == -1:
            found.append(start + work.towards)
        elif seen == len(centres) - 1:
            found.append(end - work.towards)
        else:
            found.append(centres[seen] + work.towards)
    return tuple(found)


def _shifted(row: WorkedRow) -> WorkedRow:
    """Row 1 with its left edge at 0."""
    by = row.left.at
    row.at = tuple(at - by for at in row.at)
    row.centres = tuple(at - by for at in row.centres)
    row.start = EdgeMade(row.start.at - by, row.start.kind, 0)
    row.end = EdgeMade(row.end.at - by, row.end.kind, 0)
    return row


# --------------------------------------------------------------------------------------- how an edge may lean


def _check_edge(work: RowInWork, edge: EdgeMade, place: WorkedInto | None, first: bool) -> None:
    """Whether an edge that stands there, on that place, is one that can be worked."""
    where = "start" if first else "end"
    if isinstance(place, OnChain):
        _check_step_out(work, edge)
        return
    assert place is not None, "the row has its edges"
    if edge.kind == "bare":
        return  # a cluster in a space, or on the outermost stitch
    spot, at = work.walk[place.index], work.walk_at[place.index]
    if spot.what == "solid":
        _check_on_solid(work, edge, place.index, first)
    elif work.craft.stacked and spot.what in ("dc", "inner"):
        _check_on_unit(work, edge, place.index, first)
    elif spot.what == "extra":
        _check_on_extra(work, edge, place.index, first)
    elif spot.what == "edge":
        _check_on_edge(work, edge, place.index, first)
    elif spot.what == "space":
        refuse(edge.at != at, f"the edge stitch at the {where} stands in a space it leans away from")
    else:
        _check_on_dc(work, edge, place.index, first)


def _check_on_edge(work: RowInWork, edge: EdgeMade, index: int, first: bool) -> None:
    where = "start" if first else "end"
    refuse(index != (0 if first else len(work.walk) - 1), f"the {where} stands on the wrong edge of the row below")
    assert work.below is not None, "row 1 stands on its chain"
    below = work.edge_below(first) if work.below.solid else _kind(work.walk[1 if first else -2], work.craft.solid)
    # A cluster on the edge stitch itself makes the increase of an edge without a gap. A row begins on the edge stitch
    # where it leans in to a cluster beside it; of the stacked ones, where it leans in over the extra dc.
    stacked = work.over_clusters if work.below.solid else work.craft.stacked
    leans_in = below == ("spaced" if stacked else "flush")
    allowed = {0, -1, 1} if leans_in and first else {0, -1}
    if work.craft.single:
        over = work.begun_over if first else work.ended_over
        allowed = {0, -2} if over is None else {2}
    refuse(edge.inwards not in allowed, f"the edge stitch at the {where} leans {edge.inwards} half clusters in")


def _check_on_solid(work: RowInWork, edge: EdgeMade, index: int, first: bool) -> None:
    """An edge stitch on a solid row, not on its edge stitch: where clusters stand over clusters in the middle of the
    outermost one, or of what lies beside the edge stitch; else in the stitch beside that."""
    where = "start" if first else "end"
    here = index if first else len(work.walk) - 1 - index
    below, stacked = work.edge_below(first), work.over_clusters
    refuse(edge.inwards != 1, f"the edge stitch at the {where} stands on no edge stitch")
    refuse(first and not (stacked and below == "flush"), "a decrease at the start leans from the edge stitch below")
    if stacked and below == "flush":
        refuse(index != work.middle_over(index), f"the edge stitch at the {where} does not stand over a middle")
        return
    if stacked:
        wanted = (work.edge_filled(first) + 1) // 2
    else:
        refuse(below != "flush", "a decrease at the end after a row with a gap at its edge")
        wanted = 1
    refuse(here != wanted, f"the edge stitch at the {where} in stitch {here} from the edge, not {wanted}")


def _check_on_unit(work: RowInWork, edge: EdgeMade, index: int, first: bool) -> None:
    """Where clusters are worked into clusters: an edge stitch in the middle of one."""
    where, cluster = "start" if first else "end", work.walk[index].cluster
    refuse(index != work.middle_below(cluster), f"the edge stitch at the {where} stands beside the middle of a cluster")
    refuse(edge.at != work.walk_at[index], f"the edge stitch at the {where} leans away from its cluster")


def _check_on_extra(work: RowInWork, edge: EdgeMade, index: int, first: bool) -> None:
    refuse(first, "a decrease at the start leans from the edge stitch below")
    refuse(any(spot.what == "extra" for spot in work.walk[index + 1 :]), "a decrease stands on an inner extra dc")
    refuse(edge.inwards != 1, "a decrease on the extra dc leans in by half a cluster")


def _check_on_dc(work: RowInWork, edge: EdgeMade, index: int, first: bool) -> None:
    where = "start" if first else "end"
    spot = work.walk[index]
    if work.craft.bare:
        refuse(index != (0 if first else len(work.walk) - 1), f"the edge stitch at the {where} stands on a cluster")
        refuse(edge.inwards, f"the edge stitch at the {where} leans away from the old edge")
        return
    members = [nth for nth, one in enumerate(work.walk) if one.what == "dc" and one.cluster == spot.cluster]
    from_outside = 1 + (index - members[0] if first else members[-1] - index)
    if edge.inwards == 1:
        refuse(first, "a decrease at the start leans from the edge stitch below")
        refuse(_kind(work.walk[-2]) != "flush", "a decrease at the end after a row with a gap at its edge")
        refuse(from_outside != 1, "a decrease at the end stands in the outermost dc")
        return
    allowed = {work.craft.middle, work.craft.middle_of_two}  # which of the two is seen when all rows are made
    refuse(
        edge.inwards < 1 or from_outside not in allowed,
        f"the edge stitch at the {where} stands on the wrong dc of a cluster",
    )
    refuse(edge.at != work.walk_at[index], f"the edge stitch at the {where} leans away from its cluster")
    assert work.below is not None, "row 1 stands on its chain"
    work.below.carrying.setdefault(spot.cluster, []).append(from_outside)


def check_carried(rows: Iterable[WorkedRow], craft: Craft) -> None:
    """Raises Unworkable unless the edge stitches of a finished piece stand on the right dc of their clusters: one by
    itself on the middle dc, or the outer of two; where both sections begin on one cluster, each on its own side of it.
    ``rows`` are all rows of the piece."""
    for row in rows:
        for found in row.carrying.values():
            alone = len(found) == 1
            wanted = [craft.middle] if alone else [craft.middle_of_two] * 2
            refuse(
                found != wanted,
                f"row {row.number + 1}: the edge stitch stands on the wrong dc of a cluster"
                if alone
                else f"row {row.number + 1}: two edge stitches on one cluster do not stand on their own sides of it",
            )


def _check_step_out(work: RowInWork, edge: EdgeMade) -> None:
    refuse(edge.inwards >= 0 or edge.inwards % 2, "a new chain that does not reach out by whole clusters")
    k, g, clusters = work.craft.wide, work.craft.gap, -edge.inwards // 2
    flush = _kind(work.walk[1], work.craft.solid) == "flush" or work.walk[0].what == "dc"
    post = int(edge.kind != "bare")
    inside = (g + 1) // 2 if work.walk[0].what == "dc" else 0  # the outermost stitch below lies so far inside its edge
    base = clusters * (k + g) + inside if flush != work.craft.stacked else clusters * k + (clusters - 1) * g + post
    turning = work.craft.turning
    if work.craft.counts:
        turning += sum(spot.chains for spot in work.spots[1:2] if edge.kind != "bare")
    made = work.chain - turning
    refuse(made != base, f"a new chain of {made} and the turning chain, where {clusters} clusters take {base}")
