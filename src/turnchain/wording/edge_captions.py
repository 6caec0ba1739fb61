"""Captions of close-ups.

In: a piece and an edge of one of its rows. Out: a caption for it, in the language of the pattern. A caption is made of
the steps of its row, so that it says of an edge what the row says.
"""

from __future__ import annotations

from collections.abc import Iterator

from turnchain.fabric.lattice import Side
from turnchain.fabric.plan import PiecePlan, Row
from turnchain.pattern import Pattern
from turnchain.wording.instructions.row_steps import steps_of
from turnchain.wording.instructions.steps import (
    ChainToTurn,
    ClusterInSpaces,
    ClusterInUnits,
    DcInChains,
    Leave,
    Repeat,
    RestOfCluster,
    SolidIn,
    Space,
    Step,
    UnitBelow,
    Work,
)
from turnchain.wording.languages.language import Speech, capital
from turnchain.wording.row_phrases import step_words
from turnchain.wording.tables import speech_of


def of_edge(pattern: Pattern, piece: PiecePlan, row: Row, side: Side) -> tuple[str, str]:
    """A caption for one edge of one row, in two parts: a head with the row's number and its move, and a sentence that
    says how it is worked there, in the words of the row. At the row's start that is all up to the first cluster, on the
    foundation with the chain to make; at its end all after the last, or after the one before if the last shares its
    place with the edge stitch. Of a solid row it is all but the last stitch, and that."""
    speech, starts = speech_of(pattern), row.starts == side
    first_row = piece.below(row) is None
    move = speech.say("caption.foundation" if first_row else f"move.{row.edge(side).move}")
    head = speech.say("caption.start" if starts else "caption.end", n=row.number, move=move)
    steps = tuple(_one_by_one(steps_of(piece, row)))
    if starts:
        made = (ChainToTurn(piece.foundation_chain), *_start(steps)) if first_row else _start(steps)
        words = _listed(speech, made)
    elif _is_solid(steps):
        words = _listed(speech, steps[-1:])
    else:
        words = speech.say("caption.last" if _is_edge(steps) else "caption.after", steps=_listed(speech, _end(steps)))
    return head, f"{capital(words)}."


def edge_in_parts(pattern: Pattern, piece: PiecePlan, row: Row, side: Side) -> tuple[str, ...]:
    """The sentence of ``of_edge`` in parts that each have a place of their own in a drawing: at a row's start two, what
    is done at the edge and the first cluster; one, with all of it, at a row's end and on the foundation, or where the
    row begins with the cluster."""
    _, whole = of_edge(pattern, piece, row, side)
    if row.starts != side or piece.below(row) is None:
        return (whole,)
    first = step_words(speech_of(pattern), _start(tuple(_one_by_one(steps_of(piece, row))))[-1])
    begun = whole.removesuffix(f", {first}.")
    return (f"{begun}.", f"{capital(first)}.") if begun != whole else (whole,)


def _listed(speech: Speech, steps: tuple[Step, ...]) -> str:
    return ", ".join(step_words(speech, step) for step in steps)


def _one_by_one(steps: tuple[Step, ...]) -> Iterator[Step]:
    """The steps with what repeats once, and clusters side by side one at a time."""
    for step in steps:
        if isinstance(step, Repeat):
            yield from _one_by_one(step.steps)
        elif isinstance(step, ClusterInSpaces):
            yield Work("cl", Space("next"))
        elif isinstance(step, ClusterInUnits):
            yield Work("cl", UnitBelow("next"))
        else:
            yield step


def _start(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps up to the first cluster; of a solid row all but its end."""
    if _is_solid(steps):
        return steps[:-1] if isinstance(steps[-1], SolidIn) else steps
    first = next(nth for nth, step in enumerate(steps) if is_cluster(step))
    return steps[: first + 1]


def _end(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps after the last cluster, or after the one before if the last shares its place with the edge stitch."""
    clusters = [nth for nth, step in enumerate(steps) if is_cluster(step)]
    last = steps[clusters[-1]]
    if (isinstance(last, Work) and last.what == "cl_and_dc") or _is_edge(steps):
        return steps[clusters[-2] + 1 :] if len(clusters) > 1 else steps[clusters[-1] :]
    return steps[clusters[-1] + 1 :]


def _is_solid(steps: tuple[Step, ...]) -> bool:
    return any(isinstance(step, SolidIn) for step in steps)


def _is_edge(steps: tuple[Step, ...]) -> bool:
    """Whether the last cluster of a row is its edge: no stitch comes after it, in its place neither."""
    last = next(step for step in reversed(steps) if not isinstance(step, Leave))
    return is_cluster(last) and not (isinstance(last, Work) and last.what == "cl_and_dc")


def is_cluster(step: Step) -> bool:
    """Whether ``step`` finishes a cluster: a whole one, or its last dc along a chain. A ``Repeat`` or
    ``ClusterInSpaces`` is to be written out before: it is False for both."""
    if isinstance(step, ChainToTurn):
        return step.cluster
    worked = isinstance(step, Work) and step.what in ("cl", "cl_and_dc", "dc_and_cl")
    return worked or isinstance(step, DcInChains | RestOfCluster)
