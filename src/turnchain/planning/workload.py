"""How much is to be searched for a piece, told before anything is: so that what is far too large is refused at once.

In: a ``Job``. Out: about how many places its search will look at. What decides is how many rows there are, and how far
the wanted edges run from any that can be worked (``bounds.NearestLine``). The factors were counted on the largest
patterns, outlines and necks of every shape, and are rather too low: a search is also stopped by its budget.
"""

from __future__ import annotations

from math import ceil, sqrt
from typing import Final

from turnchain.fabric.lattice import SIDES
from turnchain.planning.bounds import NearestLine
from turnchain.planning.fitting import FIRST_MARGIN, WIDENINGS, too_steep
from turnchain.planning.job import Job
from turnchain.planning.moves import MICRO, EdgeTask
from turnchain.planning.shaped import start_parity

_BAND: Final = 2 * FIRST_MARGIN + 1  # the reaches of a row that every search looks at
_FAR: Final = FIRST_MARGIN * 2**WIDENINGS  # half pitches: an edge that cannot come so near is searched within bounds
_SEARCHES: Final = 10  # of an outline: its row counts, phases and centre lines
_NECK_SEARCHES: Final = {"round": 84, "vee": 7, "slant": 7, "square": 7}  # of one worked sideways: where it may begin
_SPLIT_SEARCHES: Final = 10  # of one that divides a piece
_OF_DEPTH: Final = 1 / 12  # more reaches of a row for every half pitch that a round or a straight neck is deep
_OF_ROWS: Final = 0.45  # and for every root of the rows of an edge that cannot be followed


def places_ahead(job: Job) -> int:
    """About how many places a search for this ``job`` looks at (``SearchBudget``); 0 for small and straight pieces."""
    if not job.long:
        return 0
    rows = ceil(job.wanted_rows)
    target = job.target
    if target.opening is not None and target.neck is not None:
        return _SPLIT_SEARCHES * _BAND * ceil(target.neck.reach / job.gauge.row)
    if target.neck is not None:
        deep = target.neck.reach / job.gauge.half if target.neck.shape in ("round", "vee") else 0
        return round(_NECK_SEARCHES[target.neck.shape] * rows * (_BAND + _OF_DEPTH * float(deep)))
    shaped = [side for side in SIDES if not target.curve(side).straight]
    tasks = [
        EdgeTask(job.marks(target.curve(side), rows), 0, job.recipe.table, start_parity(side)) for side in shaped
    ]
    return sum(round(_SEARCHES / len(tasks) * rows * _reaches(task)) for task in tasks)


def _reaches(task: EdgeTask) -> float:
    """How many reaches of a row are searched for an edge."""
    return _BAND + (_OF_ROWS * sqrt(task.rows) if too_steep(task) or _farthest(task) > _FAR else 0)


def _farthest(task: EdgeTask) -> float:
    """How far the wanted edge runs from the nearest that may stand anywhere, in half pitches."""
    both = zip(NearestLine(task).places, task.wanted, strict=True)
    return max((abs(at - mark / MICRO) for at, mark in both if at is not None), default=0)
