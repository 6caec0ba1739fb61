"""A row as the pattern tells it, and a row as it came out.

In: nothing. Out: ``Told``, a row's steps with everything that the pattern says of it, and ``Made``, the row that they
make.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from turnchain.proof.hook.stitches import WorkedRow
from turnchain.proof.maker.steps import Step


@dataclass(frozen=True, slots=True)
class Count:
    """What a row is said to have: clusters, and stitches by kind."""

    clusters: int
    dc: int
    ch: int
    slips: int
    tch: int


@dataclass(frozen=True, slots=True)
class Shaped:
    """An edge said to go in (less than 0) or out by ``halves`` half clusters."""

    where: Literal["start", "end"]
    halves: int


@dataclass(slots=True)
class Told:
    """A row as the pattern has it. ``side``: "RS" or "WS". ``change_to``: the yarn that the next row is in."""

    number: int
    side: str
    yarn: str | None
    steps: tuple[Step, ...]
    count: Count
    shaped: tuple[Shaped, ...] = ()
    change_to: str | None = None
    fasten_off: bool = False


@dataclass(frozen=True, slots=True)
class Made:
    """A row as it came out, and in which yarn."""

    row: WorkedRow
    yarn: str | None
