"""Alt texts and captions of charts.

In: a plan. Out: the alt text of a chart, the words for one row, and a caption for one edge of a row, in the language of
the pattern. A caption is made of the steps of its row, so that it says of an edge what the row says.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.pattern import Pattern
from turnchain.wording.instructions.row_steps import steps_of
from turnchain.wording.instructions.steps import (
    ChainToTurn,
    ClusterInSpaces,
    ClusterInUnits,
    DcInChains,
    Repeat,
    SolidIn,
    Space,
    Step,
    UnitBelow,
    Work,
)
from turnchain.wording.languages.language import Speech, capital
from turnchain.wording.naming import inside
from turnchain.wording.row_phrases import step_words
from turnchain.wording.tables import speech_of


def of_row(pattern: Pattern, row: Row) -> str:
    """One row in the language of ``pattern``: number, yarn if it has one, clusters, and the side of the chart where it
    starts."""
    speech = speech_of(pattern)
    clusters = counted(speech, row)
    side = speech.say(f"at.{row.starts}")
    if row.colour:
        return speech.say("alt.row.yarn", n=row.number, yarn=row.colour, clusters=clusters, side=side)
    return speech.say("alt.row", n=row.number, clusters=clusters, side=side)


def of_chart(plan: Plan, piece: PiecePlan, short: bool = False) -> str:
    """The alt text of a piece's chart in the pattern's language, as sentences on one line: rows and clusters, what the
    edges do, yarns, measures, how it is read. ``short``: of the chart in which what repeats is shown once."""
    pattern = plan.pattern
    speech = speech_of(pattern)
    odd, even = (speech.say(f"at.{side}") for side in _starts(piece))
    sentences = [
        _what(speech, plan, piece, short),
        *_shaping(speech, piece),
        *_stripes(speech, piece),
        speech.say("alt.finished", measures=measures_of(pattern, piece)),
        speech.say("alt.reading", odd=odd, even=even),
        *([speech.say("alt.repeats")] if short else []),
    ]
    return " ".join(sentences)


def measures_of(pattern: Pattern, piece: PiecePlan) -> str:
    """Every worked measure of ``piece`` in the pattern's unit, as exactly as a tape is read (half a cm, an eighth of an
    inch): "width 55 cm, length 53 cm"."""
    speech = speech_of(pattern)
    return ", ".join(f"{speech.measure(fit.measure)} {speech.taped(fit.worked, pattern.units)}" for fit in piece.fit)


def counted(speech: Speech, row: Row) -> str:
    """What a row counts, in words: its clusters, or the stitches of a solid row."""
    if not row.solid:
        return speech.count("counted.cluster", row.clusters)
    return speech.say("part.solid", n=row.counts.dc + row.counts.tch, stitch=speech.stitch(row.kind))


def clusters_words(speech: Speech, piece: PiecePlan) -> str:
    """How many clusters are in a row of ``piece``: one number, or from least to most, as a phrase of the language."""
    counts = [row.clusters for row in piece.rows if not row.solid]
    least, most = min(counts), max(counts)
    if least == most:
        return speech.count("counted.cluster", most)
    return speech.say("clusters.range", least=least, most=most)


def _what(speech: Speech, plan: Plan, piece: PiecePlan, short: bool) -> str:
    return speech.say(
        "alt.chart.short" if short else "alt.chart",
        piece=piece.name,
        title=plan.pattern.title,
        rows=speech.count("counted.row", piece.row_count),
        clusters=clusters_words(speech, piece),
        inside=inside(speech, piece.recipe),
        worked=speech.say(f"worked.{piece.worked}"),
        chains=piece.foundation_chain,
    )


def _starts(piece: PiecePlan) -> tuple[Side, Side]:
    """Where odd and where even rows start."""
    return ("right", "left") if piece.rows[0].starts == "right" else ("left", "right")


def _shaping(speech: Speech, piece: PiecePlan) -> list[str]:
    told = []
    for section in piece.sections:
        for side in SIDES:
            moves = [row.edge(side).move for row in piece.section(section) if not piece.begins_section(row)]
            if all(move == "straight" for move in moves):
                continue
            runs = ", ".join(f"{len(list(run))} {speech.say(f'move.{move}')}" for move, run in groupby(moves))
            if section == "body":
                told.append(speech.say(f"alt.edge.{side}", moves=runs))
            else:
                told.append(speech.say(f"alt.section.{side}", section=speech.section(section), moves=runs))
    if len(piece.sections) > 1:
        told.append(speech.say("alt.divided", row=len(piece.section("body"))))
    return told or [speech.say("alt.straight")]


def _stripes(speech: Speech, piece: PiecePlan) -> list[str]:
    names = list(dict.fromkeys(row.colour for row in piece.rows if row.colour))
    if not names:
        return []
    if len(names) == 1:
        return [speech.say("alt.one_yarn", yarn=names[0])]
    return [speech.say("alt.striped", yarns=", ".join(names))]


# ------------------------------------------------------------------------------------------------------ captions


def of_edge(pattern: Pattern, piece: PiecePlan, row: Row, side: Side) -> tuple[str, str]:
    """A caption for one edge of one row, in two parts: a head with the row's number and its move, and a sentence that
    says how it is worked there, in the words of the row. At the row's start that is all up to the first cluster, on the
    foundation with the chain to make; at its end all after the last, or after the one before if the last shares its
    place with the edge stitch."""
    speech, starts = speech_of(pattern), row.starts == side
    first_row = piece.below(row) is None
    move = speech.say("caption.foundation" if first_row else f"move.{row.edge(side).move}")
    head = speech.say("caption.start" if starts else "caption.end", n=row.number, move=move)
    steps = tuple(_one_by_one(steps_of(piece, row)))
    if starts:
        made = (ChainToTurn(piece.foundation_chain), *_start(steps)) if first_row else _start(steps)
        words = _listed(speech, made)
    else:
        words = speech.say("caption.after", steps=_listed(speech, _end(steps)))
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
    if any(isinstance(step, SolidIn) for step in steps):
        return steps[:-1] if isinstance(steps[-1], SolidIn) else steps
    first = next(nth for nth, step in enumerate(steps) if is_cluster(step))
    return steps[: first + 1]


def _end(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps after the last cluster, or after the one before if the last shares its place with the edge stitch; of
    a solid row its last step."""
    if any(isinstance(step, SolidIn) for step in steps):
        return steps[-1:]
    clusters = [nth for nth, step in enumerate(steps) if is_cluster(step)]
    last = steps[clusters[-1]]
    if isinstance(last, Work) and last.what == "cl_and_dc":
        return steps[clusters[-2] + 1 :] if len(clusters) > 1 else steps[clusters[-1] :]
    return steps[clusters[-1] + 1 :]


def is_cluster(step: Step) -> bool:
    """Whether ``step`` finishes a cluster: a whole one, or its last dc along a chain. A ``Repeat`` or
    ``ClusterInSpaces`` is to be written out before: it is False for both."""
    return isinstance(step, DcInChains) or (isinstance(step, Work) and step.what in ("cl", "cl_and_dc", "dc_and_cl"))
