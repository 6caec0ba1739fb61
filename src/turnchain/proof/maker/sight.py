"""What lies ahead of the hook in the row below: whole clusters, the next cluster, the next space.

In: a row in the making and the spot where the hook is. Out: spots of the row below by their numbers; ``Unworkable``
where there is none.
"""

from __future__ import annotations

from collections import Counter

from turnchain.proof.hook.row import Work
from turnchain.proof.hook.stitches import Unworkable


def whole_clusters(work: Work, first: int, last: int) -> int:
    """How many clusters stand whole among the spots ``first`` to before ``last``."""
    tops = Counter(spot.cluster for spot in work.walk[first:last] if spot.what == "dc")
    return sum(number == work.craft.cluster for number in tops.values())


def next_cluster(work: Work, at: int) -> list[int]:
    """The spots of the next whole cluster after ``at``."""
    walk = work.walk
    for nth in range(at + 1, len(walk)):
        if walk[nth].what == "dc" and walk[nth - 1].cluster != walk[nth].cluster:
            return list(range(nth, nth + work.craft.cluster))
    raise Unworkable("there is no cluster left in the row below")


def next_space(work: Work, at: int) -> int:
    """The next space after ``at``."""
    for nth in range(at + 1, len(work.walk)):
        if work.walk[nth].what == "space":
            return nth
    raise Unworkable("there is no space left in the row below")
