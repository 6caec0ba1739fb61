"""A task weighed in floats, for numpy.

In: a ``Task``. Out: its grams as arrays, and what ways to share them out are compared by.
"""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from turnchain.yarns.stash.task import Task

Floats: TypeAlias = NDArray[np.float64]
Whole: TypeAlias = NDArray[np.int64]


class Weighed:
    """The ``room`` and the ``tail`` grams of every yarn; ``sums``: what the rows before each weigh together."""

    def __init__(self, task: Task) -> None:
        self.room = np.array([float(grams) for grams in task.room])
        self.tail = np.array([float(grams) for grams in task.tail])
        self.sums = np.concatenate([[0.0], np.cumsum([float(grams) for grams in task.row_grams])])
        self._use_up = list(task.wishes.use_up)

    def figures(self, fabric: Floats, tails: Floats) -> tuple[Floats, Floats, Floats]:
        """As the first three of an answer's score, for one way or for many, with the yarns along the last axis."""
        short = np.maximum(0.0, fabric + tails - self.room).sum(axis=-1)
        rests = np.maximum(0.0, self.room - fabric)
        return short, rests[..., self._use_up].sum(axis=-1), rests.max(axis=-1)
