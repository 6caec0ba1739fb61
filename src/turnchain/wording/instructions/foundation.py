"""The foundation, and row 1 along it.

In: a ``PiecePlan``. Out: the chain to make, and the steps of row 1, in which every dc of a cluster takes a chain of its
own. A step out is worked along a chain of its own in the same way.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from turnchain.fabric import stitches
from turnchain.fabric.plan import PiecePlan, Row
from turnchain.pattern import Fabric
from turnchain.wording.instructions.steps import (
    Chain,
    ChainFromHook,
    DcInChains,
    LastChain,
    NextChain,
    SkipChains,
    Step,
    Work,
    repeated,
)


@dataclass(frozen=True, slots=True)
class Foundation:
    """The chain to make: ``chains``, that is ``multiple`` times the clusters of row 1 and ``plus``. ``turning`` of
    them are row 1's turning chain, ``base`` lie under it."""

    chains: int
    base: int
    turning: int
    multiple: int
    plus: int
    colour: str | None


def foundation(piece: PiecePlan) -> Foundation:
    """The chain to make for ``piece``."""
    first, fabric = piece.rows[0], piece.fabric
    turning = stitches.turning_chain(fabric, first.edge(first.starts).kind)
    multiple = fabric.cluster + fabric.gap
    return Foundation(
        chains=piece.foundation_chain,
        base=piece.foundation_chain - turning,
        turning=turning,
        multiple=multiple,
        plus=piece.foundation_chain - multiple * first.clusters,
        colour=first.colour,
    )


def first_row(fabric: Fabric, row: Row) -> Iterator[Step]:
    """Row 1 along the foundation: every dc of a cluster takes a chain of its own."""
    g = fabric.gap
    start, end = row.edge(row.starts).kind, row.edge(row.ends).kind
    yield from along_chain(fabric, row.clusters, start == "spaced")
    if end == "spaced" and g:
        yield Chain(g)
        yield SkipChains(g)
    elif end == "spaced":
        yield Work("dc", NextChain())
    yield Work("dc", LastChain())


def along_chain(fabric: Fabric, clusters: int, spaced: bool) -> Iterator[Step]:
    """``clusters`` on a new chain, from the hook; ``spaced``: the row starts with a gap."""
    k, g = fabric.cluster, fabric.gap
    whole: list[Step] = [DcInChains(k)]
    if spaced and not g:  # the extra dc comes first, all clusters stand whole after it
        yield Work("dc", ChainFromHook(stitches.first_chain(fabric, "flush")))
        yield from repeated(clusters, *whole)
        return
    yield Work("dc", ChainFromHook(stitches.first_chain(fabric, "spaced" if spaced else "flush")))
    yield DcInChains(k - 1)
    between: list[Step] = [Chain(g), SkipChains(g)] if g else []
    yield from repeated(clusters - 1, *between, *whole)
