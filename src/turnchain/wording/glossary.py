"""What goes before the rows: the stitches that are not everybody's, and how to read the rows.

In: a plan, and a ``Speech`` that has said its rows. Out: a sentence or two for everything that was used.
"""

from __future__ import annotations

from collections.abc import Iterator

from turnchain.fabric.plan import Plan
from turnchain.wording.speech import Speech


def specials(speech: Speech, plan: Plan) -> Iterator[str]:
    """The stitches that are used and not everybody's knowledge; the rows must have been said before."""
    fabric = plan.pattern.fabric
    starts = {row.edge(row.starts).kind for piece in plan.pieces for row in piece.rows}
    k = fabric.cluster
    yield f"{speech.say('special.cl', k=k)} {speech.say('special.cl.chain', k=k)}"
    open_start = fabric.gap > 0 and "spaced" in starts
    if "sp" in speech.used or open_start:
        yield speech.say("special.sp.open" if fabric.gap else "special.sp.closed")
    yield speech.say("special.tch.4", nth=speech.nth(4)) if open_start else speech.say("special.tch.3")
    if "in.base" in speech.said:
        yield speech.say("special.base")
    if "in.edge_dc" in speech.said:
        yield speech.say("special.edge_dc")


def how_to_read(speech: Speech, plan: Plan) -> Iterator[str]:
    """How the rows are to be read; they must have been said before."""
    yield speech.say("reading.sides")
    yield speech.say("reading.chain")
    yield speech.say("reading.count")
    if any(row.edge(row.starts).move == "step_out" for piece in plan.pieces for row in piece.rows):
        yield speech.say("reading.new_chain")
    if "repeat" in speech.said:
        yield speech.say("reading.repeat")
    if "work.cl_and_dc" in speech.said:
        yield speech.say("reading.together")
    if speech.said & {"change", "change.row", "stripes"}:
        yield speech.say("reading.change")
