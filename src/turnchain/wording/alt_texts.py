"""Alt texts of charts.

In: a plan. Out: the alt text of a chart, and the words for one row of it, in the language of the pattern.
"""

from __future__ import annotations

from itertools import groupby

from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.pattern import Pattern
from turnchain.wording import founding
from turnchain.wording.languages.language import Speech
from turnchain.wording.naming import inside
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
    key = "alt.chart.short" if short else "alt.chart"
    begun: dict[str, str | int] = {"chains": piece.foundation_chain}
    if piece.begun_on:
        begun = {"begun": founding.said(speech, "chart.foundation", piece)}
    return speech.say(
        f"{key}.on" if piece.begun_on else key,
        piece=piece.name,
        title=plan.pattern.title,
        rows=speech.count("counted.row", piece.row_count),
        clusters=clusters_words(speech, piece),
        inside=inside(speech, piece.recipe),
        worked=speech.say(f"worked.{piece.worked}"),
        **begun,
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
