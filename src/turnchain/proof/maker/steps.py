"""What a maker can be told to do, and where; a row as the pattern tells it, and as it came out.

In: nothing. Out: steps ("turn", "cluster in the next space") with the places they name, ``Told``, a row's steps with
everything that the pattern says of it, and ``Made``, the row that they make. "First" and "next" are meant as seen from
where the hook is. The steps that the instructions are written from are others, and stay so: what proves them may not be
made of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from turnchain.proof.hook.stitches import WorkedRow

WhichBelow: TypeAlias = Literal["first", "next", "last", "same"]

# ---------------------------------------------------------------------------------------------------- the places


@dataclass(frozen=True, slots=True)
class FromHook:
    """A chain by its number from the hook, from 1; the chains before it are skipped."""

    number: int


@dataclass(frozen=True, slots=True)
class ChainEnd:
    """The last chain of the foundation."""


@dataclass(frozen=True, slots=True)
class SpaceBelow:
    """A space of the row below."""

    which: WhichBelow


@dataclass(frozen=True, slots=True)
class DcOf:
    """The ``nth`` dc (from 1), as met, of a cluster of the row below."""

    nth: int
    which: WhichBelow


@dataclass(frozen=True, slots=True)
class LastDc:
    """The last dc of the last cluster of the row below."""


@dataclass(frozen=True, slots=True)
class TurningChain:
    """The ``nth`` chain (from 1) of the turning chain of the row below."""

    nth: int


@dataclass(frozen=True, slots=True)
class Base:
    """What this row's own turning chain stands on."""


@dataclass(frozen=True, slots=True)
class EdgeStitch:
    """The edge stitch of the row below, at the end where the hook is or that it comes to."""


@dataclass(frozen=True, slots=True)
class OutermostBelow:
    """The outermost stitch of the row below where the row begins, of a cluster."""


@dataclass(frozen=True, slots=True)
class SamePlace:
    """Where the slip stitches, or the yarn, came to; where the last stitch went."""


@dataclass(frozen=True, slots=True)
class StitchBelow:
    """A stitch of the row below that is a cluster by itself, or the middle of a cluster that takes another."""

    which: WhichBelow


@dataclass(frozen=True, slots=True)
class BesideEdge:
    """The stitch of the row below beside its edge stitch."""


@dataclass(frozen=True, slots=True)
class HalfSpace:
    """Between the edge stitch of the row below and the stitch beside it."""


@dataclass(frozen=True, slots=True)
class NextBelow:
    """The next stitch of a solid row."""


Named: TypeAlias = (
    NextBelow
    | FromHook
    | ChainEnd
    | SpaceBelow
    | DcOf
    | LastDc
    | TurningChain
    | Base
    | EdgeStitch
    | OutermostBelow
    | SamePlace
    | StitchBelow
    | BesideEdge
    | HalfSpace
)

# ----------------------------------------------------------------------------------------------------- the steps


@dataclass(frozen=True, slots=True)
class ChainStitches:
    """``number`` chains; ``turning``: the last so many are told to be the turning chain."""

    number: int
    turning: int = 0


@dataclass(frozen=True, slots=True)
class TurnWork:
    """Turn the work."""


@dataclass(frozen=True, slots=True)
class SlipStitches:
    """A slip stitch in each of the next ``number`` stitches, or one ``into`` a space."""

    number: int = 1
    into: WhichBelow | None = None


@dataclass(frozen=True, slots=True)
class DcInPlace:
    """``number`` dc in one place."""

    number: int
    place: Named


@dataclass(frozen=True, slots=True)
class ClusterInPlace:
    """A cluster in a place, with one more dc there: ``and_dc`` after it, ``after_dc`` before it."""

    place: Named
    and_dc: bool = False
    after_dc: bool = False


@dataclass(frozen=True, slots=True)
class DcTogether:
    """One dc over two places, joined at the top."""

    first: Named
    second: Named


@dataclass(frozen=True, slots=True)
class DcWithChain:
    """A dc in a place, joined with the turning chain of ``chains`` before it."""

    place: Named
    chains: int


@dataclass(frozen=True, slots=True)
class DcAlongChain:
    """A dc in each of the next ``number`` chains."""

    number: int


@dataclass(frozen=True, slots=True)
class ClusterInEach:
    """A cluster in each of the next ``number`` spaces."""

    number: int


@dataclass(frozen=True, slots=True)
class ClusterOnEach:
    """A cluster in each of the next ``number`` clusters."""

    number: int


@dataclass(frozen=True, slots=True)
class ClusterInChain:
    """A cluster in the next chain."""


@dataclass(frozen=True, slots=True)
class SolidInPlace:
    """One ``stitch`` (US name) in a place."""

    stitch: str
    place: Named


@dataclass(frozen=True, slots=True)
class SolidInEach:
    """A ``stitch`` in each of the next ``number`` stitches, or ``chains`` of the foundation."""

    stitch: str
    number: int
    chains: bool


@dataclass(frozen=True, slots=True)
class PassStitches:
    """``number`` stitches of a solid row left out."""

    number: int


@dataclass(frozen=True, slots=True)
class PassChains:
    """``number`` chains left out."""

    number: int


@dataclass(frozen=True, slots=True)
class PassCluster:
    """A cluster of the row below passed by."""

    which: WhichBelow


@dataclass(frozen=True, slots=True)
class PassEdge:
    """The edge stitch of the row below passed by, before slip stitches."""


@dataclass(frozen=True, slots=True)
class PassFirst:
    """The outermost stitch of the row below passed by, of a cluster, before slip stitches."""


@dataclass(frozen=True, slots=True)
class RepeatSteps:
    """``steps``, one after the other, done ``times`` times."""

    steps: tuple[ReadStep, ...]
    times: int


@dataclass(frozen=True, slots=True)
class JoinYarn:
    """The yarn (None: none is named) joined in a place, counted from where the first section ends, ``skipped`` whole
    clusters on."""

    yarn: str | None
    skipped: int
    place: SpaceBelow | DcOf | StitchBelow


@dataclass(frozen=True, slots=True)
class LeaveRest:
    """What stays unworked at the end: the turning chain, the edge stitch, the last ``clusters``, or the rest."""

    what: Literal["tch", "edge", "clusters", "rest"]
    clusters: int = 0


@dataclass(frozen=True, slots=True)
class ChangeYarn:
    """The new yarn comes in with the last yarn-over of the stitch just made."""

    yarn: str


ReadStep: TypeAlias = (
    ChainStitches
    | TurnWork
    | SlipStitches
    | DcInPlace
    | ClusterInPlace
    | DcTogether
    | DcWithChain
    | DcAlongChain
    | ClusterInEach
    | ClusterOnEach
    | ClusterInChain
    | SolidInPlace
    | SolidInEach
    | PassStitches
    | PassChains
    | PassCluster
    | PassEdge
    | PassFirst
    | RepeatSteps
    | JoinYarn
    | LeaveRest
    | ChangeYarn
)


@dataclass(frozen=True, slots=True)
class Count:
    """What a row is said to have: clusters, and stitches by kind (``dc`` with those of its clusters, ``slips``: slip
    stitches, ``tch``: turning chains, each one stitch)."""

    clusters: int
    dc: int
    ch: int
    slips: int
    tch: int


@dataclass(frozen=True, slots=True)
class Shaped:
    """An edge said to go in (less than 0) or out by ``halves`` half clusters."""

    where: Literal["start", "end"]
    halves: int


@dataclass(slots=True)
class Told:
    """A row as the pattern has it. ``side``: "RS" or "WS". ``yarn`` None: none is named. ``change_to``: the yarn that
    the next row is in (None: the same). ``spaces``: after how many stitches the next row is told to find the first
    space, and after how many more each next one (0: there is only one); None where it is not told. ``kind``: "cluster",
    or for a row that counts no clusters the stitch it is told to be made of."""

    number: int
    side: str
    yarn: str | None
    steps: tuple[ReadStep, ...]
    count: Count
    shaped: tuple[Shaped, ...] = ()
    change_to: str | None = None
    fasten_off: bool = False
    spaces: tuple[int, int] | None = None
    kind: str = "cluster"


@dataclass(frozen=True, slots=True)
class Made:
    """A row as it came out, and in which yarn (None: none is named)."""

    row: WorkedRow
    yarn: str | None
