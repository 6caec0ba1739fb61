"""A row's stitches as numpy arrays, which tests compare and count more shortly than the program's own."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from turnchain.fabric.grid import RowStitches


@dataclass(frozen=True)
class RowArrays:
    """As ``RowStitches``, sharing its memory."""

    symbol: NDArray[Any]
    head: NDArray[Any]
    foot: NDArray[Any]
    into: NDArray[Any]
    target: NDArray[Any]

    def __len__(self) -> int:
        return len(self.symbol)


def row_arrays(made: RowStitches) -> RowArrays:
    """``made`` as numpy sees it."""
    return RowArrays(*(np.asarray(part) for part in (made.symbol, made.head, made.foot, made.into, made.target)))
