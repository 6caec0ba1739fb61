"""What a maker can be told to do, and where.

In: nothing. Out: steps ("turn", "cluster in the next space") with the places they name. "First" and "next" are meant
as seen from where the hook is. The steps that the instructions are written from are others, and stay so: what proves
them may not be made of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

Which: TypeAlias = Literal["first", "next", "last", "same"]

# ---------------------------------------------------------------------------------------------------- the places


@dataclass(frozen=True, slots=True)
class FromHook:
    """A chain by its number from the hook; the chains before it are skipped."""

    number: int


@dataclass(frozen=True, slots=True)
class LastChain:
    """The last chain of the foundation."""


@dataclass(frozen=True, slots=True)
class Space:
    """A space of the row below."""

    which: Which


@dataclass(frozen=True, slots=True)
class DcOf:
    """The ``nth`` dc, as met, of a cluster of the row below."""

    nth: int
    which: Which


@dataclass(frozen=True, slots=True)
class LastDc:
    """The last dc of the last cluster of the row below."""


@dataclass(frozen=True, slots=True)
class TurningChain:
    """The ``nth`` chain of the turning chain below."""

    nth: int


@dataclass(frozen=True, slots=True)
class Base:
    """What this row's own turning chain stands on."""


@dataclass(frozen=True, slots=True)
class EdgeDc:
    """The last dc of the row below, where a new chain began."""


Named: TypeAlias = FromHook | LastChain | Space | DcOf | LastDc | TurningChain | Base | EdgeDc

# ----------------------------------------------------------------------------------------------------- the steps


@dataclass(frozen=True, slots=True)
class Chain:
    """``number`` chains."""

    number: int


@dataclass(frozen=True, slots=True)
class Turn:
    """Turn the work."""


@dataclass(frozen=True, slots=True)
class Slip:
    """A slip stitch in each of the next ``number`` stitches, or one ``into`` a space."""

    number: int = 1
    into: Which | None = None


@dataclass(frozen=True, slots=True)
class Dc:
    """``number`` dc in one place."""

    number: int
    place: Named


@dataclass(frozen=True, slots=True)
class Cluster:
    """A cluster in a place, ``and_dc``: with one more dc there."""

    place: Named
    and_dc: bool = False


@dataclass(frozen=True, slots=True)
class DcInChains:
    """A dc in each of the next ``number`` chains."""

    number: int


@dataclass(frozen=True, slots=True)
class ClusterInSpaces:
    """A cluster in each of the next ``number`` spaces."""

    number: int


@dataclass(frozen=True, slots=True)
class SkipChains:
    """``number`` chains left out."""

    number: int


@dataclass(frozen=True, slots=True)
class SkipCluster:
    """A cluster of the row below passed by."""

    which: Which


@dataclass(frozen=True, slots=True)
class Repeat:
    """``steps``, ``times`` times."""

    steps: tuple[Step, ...]
    times: int


@dataclass(frozen=True, slots=True)
class Join:
    """The yarn joined in a place, counted from where the first section ends, ``skipped`` whole clusters on."""

    yarn: str | None
    skipped: int
    place: Space | DcOf


@dataclass(frozen=True, slots=True)
class Leave:
    """What stays unworked at the end: the turning chain, the last ``clusters``, or the rest."""

    what: Literal["tch", "clusters", "rest"]
    clusters: int = 0


@dataclass(frozen=True, slots=True)
class Change:
    """The new yarn comes in with the last yarn-over of the stitch just made."""

    yarn: str


Step: TypeAlias = (
    Chain
    | Turn
    | Slip
    | Dc
    | Cluster
    | DcInChains
    | ClusterInSpaces
    | SkipChains
    | SkipCluster
    | Repeat
    | Join
    | Leave
    | Change
)
