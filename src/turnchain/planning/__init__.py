"""From a pattern to its plan: wanted shapes, exact fitting, measures and warnings.

In: a ``Pattern``. Out: a ``Plan``. The way through the modules:

    planner                       the whole way; begin reading here
    job                           one piece to be planned: what may be searched for it
    targets, curves               what is wanted of a piece, as curves
    candidates, shaped, counts    what is worth weighing; with a shaped edge; how many rows and clusters
    candidate                     one of them, and in which order they are weighed
    budget, workload              how much may be searched
    fitting, pairs, moves         the best path of an edge; of two that hinder each other; what moves cost
    bounds                        where the path of an edge can run that cannot follow its curve
    sideways_necks, splits        a neck cut into an edge; a neck that divides a piece
    pieces, row_plans, agreeing   what a piece might be; rows alike or alternate; pieces that meet
    shoulders, mirrors            fronts that open as wide as their back; pieces that mirror others
    every_size                    sizes of one form, so that one text can tell them
    progress                      rows that are worked already
    armholes, armed               their measures, and edges fitted to them
    rows, measuring, necks        the rows of the plan, and what they come to
    warnings, plausibility        what a maker is warned of

``targets`` turns a piece into two wanted curves. ``candidates`` lists what is worth weighing (row counts that enclose
the wanted height, widths, phases, centre lines); for each, ``fitting`` finds the best path of each edge by dynamic
programming over (row, position, last direction), exactly, in a band of its own for each row. Two more places a row
stand for everything outside, at the least it could cost: where the best path goes through one, the band is widened
there; where that goes on, ``bounds`` says at once where to search. Costs are whole numbers, so that equal plans
compare equal on every machine. The order of preference is ``Candidate.rank``: mirrors wanted, a round neck that keeps
to its ellipse, named measures out of tolerance, nearness, width, changes of direction, errors of shoulder, depth and
neck width, rows, foundation, phase. What moves may be and cost stands once, in ``moves``.

A neck's measures come first (``sideways_necks``, ``splits``): where it begins and ends and how deep it is are chosen,
the nearest first; the curve then runs through these measures, and a search fits the edge to it. All that is printed of
a neck comes from ``WorkedNeck``, counted on the rows. Steps are corners, so they mirror at the foot of a row: a square
or round neck worked sideways may have an even number of rows, where its leans, if any, are forced decreases.

Where the best plan misses the depth or the width of an armhole by more than half a row or half a pitch, ``armed``
does the same: the row of its step and how far the edge goes in, by any number of half pitches, are fixed first.

Around that: ``row_plans`` decides between rows alike and alternate where the maker leaves it open,
``agreeing`` gives pieces that meet the same rows, and a ``Choice`` (``pieces``) is what a piece might be until
both have decided. ``exact_rows`` and ``exact_clusters`` narrow the search (``Job.may_have_rows``, ``Job.room``).

Worth knowing, since the model leaves it open:
- A step outwards is made where a row starts. In the row before, an edge of an outline may stand where it stood or
  where it will: neither costs anything (``Job.late_steps``), so that a step at both edges is two rows and no stair.
- Rows alike are counted by clusters ("32 clusters is 80 cm") and have half a pitch over; ``targets`` allows for that,
  so it is no error of a shaped edge. The report still shows it.
- A target that reads alike from both ends is fitted folded: half the rows are searched, each standing for two.
- A sudden step outwards cannot be mirrored in one row (it is worked where a row starts), so such targets need not
  mirror.
- The extra dc of a closed spaced edge, and the chain of an open one, lie halfway between the post and the first
  cluster's head in the drawing.
- Of plans that come out equal, that with fewer rows is taken, then that with the shorter chain, then phase 0: never
  the order of a dictionary.
"""
