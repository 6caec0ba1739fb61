"""One edge of a row stitch by stitch: what is worked, and in which words.

In: a row of a ``PiecePlan`` and a side. Out: ``StitchStep`` s in the order worked, made of the steps of the row, so
that they say of an edge what the row says. Chains and slip stitches are made in one go, every double crochet by itself.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from turnchain.fabric.lattice import Side
from turnchain.fabric.plan import PiecePlan, Row
from turnchain.records import frozen, replace
from turnchain.wording import founding
from turnchain.wording.edge_captions import is_cluster
from turnchain.wording.instructions.row_steps import steps_of
from turnchain.wording.instructions.steps import (
    Chain,
    ChainToTurn,
    ClusterInSpaces,
    ClusterInUnits,
    DcInChains,
    JoinTurningChain,
    NewChain,
    Repeat,
    RestOfCluster,
    SlipAlong,
    SlipInto,
    SolidIn,
    SolidInChains,
    SolidInStitches,
    Space,
    Step,
    Together,
    Turn,
    UnitBelow,
    Work,
)
from turnchain.wording.languages.language import Speech, capital
from turnchain.wording.row_phrases import step_words

CLUSTERS = 2  # shown where a row starts: the first, and the one that shows how it goes on


@frozen
class StitchStep:
    """What is made at once: the stitches numbered from ``first`` (0 is the row's first) up to but not including
    ``stop`` in working order, all of a turning chain counting as one, and so the whole foundation chain.

    ``words`` say how, as a sentence without its stop. ``part`` is the number, from 0, of the row's step that they
    belong to, with repeats written out. ``clusters`` of the row are finished once it is made.
    """

    first: int
    stop: int
    words: str
    part: int
    clusters: int


def of_edge(speech: Speech, piece: PiecePlan, row: Row, side: Side) -> tuple[StitchStep, ...]:
    """The steps of ``row`` at one ``side`` of the chart, in the order worked: where the row starts, up to its second
    cluster; where it ends, from its last cluster on, or from the one before if the last shares its place with the edge
    stitch."""
    steps = of_row(speech, piece, row)
    if row.solid:
        many = CLUSTERS * piece.recipe.unit_width + 2
        return steps[:many] if row.starts == side else steps[-many:]
    if row.starts == side:
        shown = min(CLUSTERS, steps[-1].clusters)
        return steps[: _finished(steps, shown) + 1]
    whole = steps[-1].clusters
    last = steps[_finished(steps, whole)]
    if last.part == steps[-1].part and whole > 1:
        last = steps[_finished(steps, whole - 1)]
    return tuple(step for step in steps if step.part >= last.part)


def _finished(steps: tuple[StitchStep, ...], clusters: int) -> int:
    """Where the last of so many clusters is finished."""
    return next(nth for nth, step in enumerate(steps) if step.clusters == clusters)


def of_row(speech: Speech, piece: PiecePlan, row: Row) -> tuple[StitchStep, ...]:
    """Every stitch of ``row`` in the order worked; row 1 begins with the chain to make. What is skipped is said with
    the stitch that follows, the turn with the chain before it, what is left unworked with the last stitch."""
    made: list[StitchStep] = []
    waiting: list[str] = []
    done = clusters = 0
    for part, step in enumerate(_steps(piece, row)):
        said, count = step_words(speech, step), _stitches(step, piece, row.kind)
        if not count:
            waiting.append(said)
        if made and isinstance(step, Turn | JoinTurningChain):
            made[-1] = _told(made[-1], [made[-1].words, *waiting])
            waiting = []
        if count:
            first, *others = _apart(speech, StitchStep(done, done + count, said, part, clusters), step)
            made += [_told(first, [*waiting, first.words]), *(_told(one, [one.words]) for one in others)]
            waiting = []
            done, clusters = done + count, clusters + is_cluster(step)
            made[-1] = replace(made[-1], clusters=clusters)
    made[-1] = _told(made[-1], [made[-1].words, *waiting])
    return tuple(made)


def _told(step: StitchStep, words: list[str]) -> StitchStep:
    return replace(step, words=capital(", ".join(words)))


def _steps(piece: PiecePlan, row: Row) -> tuple[Step, ...]:
    """The steps of a row, what repeats as often as it is worked, those of row 1 from the chain to make on."""
    steps = tuple(_in_full(steps_of(piece, row), piece.recipe.unit_width == 1))
    return (ChainToTurn(founding.made(piece)), *steps) if piece.below(row) is None else steps


def _in_full(steps: Iterable[Step], single: bool) -> Iterator[Step]:
    for step in steps:
        if isinstance(step, Repeat):
            for _ in range(step.times):
                yield from _in_full(step.steps, single)
        elif isinstance(step, ClusterInSpaces):
            yield from [Work("cl", Space("next"))] * step.number
        elif isinstance(step, ClusterInUnits):
            yield from [Work("cl", UnitBelow("next"))] * step.number
        elif isinstance(step, DcInChains) and single:
            yield from [DcInChains(1)] * step.number
        elif isinstance(step, SolidInStitches | SolidInChains):
            yield from [replace(step, number=1)] * step.number
        else:
            yield step


def _apart(speech: Speech, whole: StitchStep, step: Step) -> Iterator[StitchStep]:
    """Chains and slip stitches are made in one go, double crochets one by one."""
    count = whole.stop - whole.first
    if count == 1 or not isinstance(step, Work | DcInChains | RestOfCluster):
        yield whole
        return
    for nth in range(count):
        said = speech.say("moving.of_several", words=whole.words, n=nth + 1, whole=count)
        yield replace(whole, first=whole.first + nth, stop=whole.first + nth + 1, words=said)


def _stitches(step: Step, piece: PiecePlan, kind: str) -> int:
    """How many stitches of its row, which is of this ``kind``, a step makes; a turning chain, and the foundation's, is
    one where it counts."""
    k, counts = piece.recipe.unit_width, int(piece.recipe.rule(kind).counts)
    match step:
        case ChainToTurn():
            return counts
        case NewChain(number, turning):
            return number - turning + counts
        case Chain(number) | SlipAlong(number) | DcInChains(number) | RestOfCluster(number):
            return number
        case SlipInto() | Together() | SolidIn() | SolidInStitches() | SolidInChains():
            return 1
        case Work(what, _, number):
            return {"dc": number, "cl": k, "cl_and_dc": k + 1, "dc_and_cl": k + 1}[what]
    return 0
