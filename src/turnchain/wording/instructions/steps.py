"""What a maker can be told to do, and where.

In: nothing. Out: the vocabulary of steps ("ch 4", "turn", a cluster) and of places (a space, the last chain), of which
every row is made. What is met in the row below is named as a maker meets it: the first, the next, the last.
"""

from __future__ import annotations

from typing import Literal, TypeAlias

from turnchain.records import frozen

#: In the row below, along the row being worked: the first met, the next after the last stitch, the last met; "same":
#: the one in which the other section ended.
Which: TypeAlias = Literal["first", "next", "last", "same"]

# ---------------------------------------------------------------------------------------------------- places


@frozen
class ChainFromHook:
    """A chain by its number from the hook, from 1; the chains skipped before it hold the turning chain."""

    number: int


@frozen
class NextChain:
    """The next chain of a foundation."""


@frozen
class LastChain:
    """The last chain of the foundation."""


@frozen
class Space:
    """A space of the row below."""

    which: Which


@frozen
class DcOfCluster:
    """The ``nth`` dc, from 1 and as met in this row, of a cluster of the row below."""

    nth: int
    which: Which


@frozen
class LastDcOfLastCluster:
    """The dc next to the post of a flush edge: where a decrease stands."""


@frozen
class TopOfTurningChain:
    """The last chain, by its ``number``, of the stitch that the turning chain below stands for, the gap beside it not
    counted."""

    number: int


@frozen
class BaseOfTurningChain:
    """What this row's own turning chain stands on."""


@frozen
class FirstStitch:
    """The first stitch of the row below, as met: the outermost of a cluster where there is no edge stitch."""


@frozen
class EdgeDc:
    """The edge stitch of the row below: from which a step out was chained or, where turning chains do not count, the
    one at the row's start and at its end."""


@frozen
class PlaceReached:
    """Where the slip stitches, or the yarn, came to."""


@frozen
class UnitBelow:
    """A unit of the row below: its one stitch, the chains inside it, or its middle stitch."""

    which: Which


@frozen
class HalfCluster:
    """Between the edge stitch of the row below and the stitches beside it: the middle of the half cluster there."""


@frozen
class BesidePost:
    """The stitch of the row below next to its edge stitch, at a spaced edge."""


@frozen
class NextStitch:
    """The next stitch of a solid row."""


Place: TypeAlias = (
    ChainFromHook
    | NextStitch
    | NextChain
    | LastChain
    | Space
    | DcOfCluster
    | LastDcOfLastCluster
    | TopOfTurningChain
    | BaseOfTurningChain
    | EdgeDc
    | FirstStitch
    | PlaceReached
    | UnitBelow
    | HalfCluster
    | BesidePost
)

# ----------------------------------------------------------------------------------------------------- steps


@frozen
class Chain:
    """``number`` chains of a gap."""

    number: int


@frozen
class ChainToTurn:
    """``number`` chains before the first stitch: a turning chain; in captions also the foundation. ``cluster``: it is
    a cluster by itself, of one stitch."""

    number: int
    cluster: bool = False


@frozen
class NewChain:
    """``number`` chains to step out on; the last ``turning`` of them are the row's turning chain."""

    number: int
    turning: int


@frozen
class SkipEdge:
    """The edge stitch of the row below passed by: slip stitches, or stitches skipped, that follow do not count it."""


@frozen
class SkipFirst:
    """The outermost stitch of the row below passed by, where it is no edge stitch: slip stitches that follow do not
    count it."""


@frozen
class Turn:
    """Turn the work."""


@frozen
class SlipAlong:
    """A slip stitch in each of the next ``number`` stitches; a chain counts as a stitch."""

    number: int


@frozen
class SlipInto:
    """One slip stitch, in ``place``."""

    place: Place


@frozen
class Work:
    """What is worked in one place: a ``number`` of dc (the fabric's stitch), a cluster, or a cluster and a dc, in this
    order or the other."""

    what: Literal["dc", "cl", "cl_and_dc", "dc_and_cl"]
    place: Place
    number: int = 1


@frozen
class RestOfCluster:
    """The ``number`` of dc that make a cluster with the turning chain before them, in a ``place`` or, on a chain, each
    in the next from there."""

    number: int
    place: Place


@frozen
class Together:
    """One dc over two places, ``first`` and ``second``, joined at the top."""

    first: Place
    second: Place


@frozen
class JoinTurningChain:
    """A dc in ``place`` that makes one stitch with the turning chain of ``chains`` before it."""

    place: Place
    chains: int


@frozen
class DcInChains:
    """A dc in each of the next ``number`` chains."""

    number: int


@frozen
class ClusterInSpaces:
    """A cluster in each of the next ``number`` spaces (closed fabric: nothing stands between them)."""

    number: int


@frozen
class ClusterInUnits:
    """A cluster in each of the next ``number`` clusters."""

    number: int


@frozen
class SolidIn:
    """One ``stitch`` (US name) of a solid row in a ``place``."""

    stitch: str
    place: Place


@frozen
class SolidInStitches:
    """A ``stitch`` in each of the next ``number`` stitches, chains among them."""

    stitch: str
    number: int


@frozen
class SolidInChains:
    """A ``stitch`` of a solid row in each of the next ``number`` chains of the foundation."""

    stitch: str
    number: int


@frozen
class SkipStitches:
    """``number`` stitches of a solid row left out."""

    number: int


@frozen
class SkipChains:
    """``number`` chains left out."""

    number: int


@frozen
class SkipCluster:
    """A cluster of the row below passed by."""

    which: Which


@frozen
class Repeat:
    """``steps`` worked ``times`` times, at least twice."""

    steps: tuple[Step, ...]
    times: int


@frozen
class Join:
    """The yarn ``colour`` (None where the pattern names none) joined anew at ``place``, counted from where ``section``
    ends in this row, ``skipped`` whole clusters on."""

    section: str
    skipped: int
    place: Space | DcOfCluster | UnitBelow
    colour: str | None


@frozen
class Leave:
    """What stays unworked at the row's end: the turning chain or edge stitch alone, the last ``clusters`` (0 for the
    others), or the rest."""

    what: Literal["tch", "edge", "clusters", "rest"]
    clusters: int = 0


Step: TypeAlias = (
    Chain
    | ChainToTurn
    | NewChain
    | SkipEdge
    | SkipFirst
    | Turn
    | SlipAlong
    | SlipInto
    | Work
    | RestOfCluster
    | Together
    | JoinTurningChain
    | DcInChains
    | ClusterInSpaces
    | ClusterInUnits
    | SolidIn
    | SolidInStitches
    | SolidInChains
    | SkipStitches
    | SkipChains
    | SkipCluster
    | Repeat
    | Join
    | Leave
)


def repeated(times: int, *steps: Step) -> list[Step]:
    """``steps`` over and over as a row has them: in a ``Repeat`` for two ``times`` or more, bare for one, none for
    0."""
    return [Repeat(steps, times)] if times > 1 else list(steps) * times
