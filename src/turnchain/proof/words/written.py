"""What a written pattern says, before any of it is worked.

In: nothing. Out: the words for it: the whole text as pieces, a piece as its foundation and sections, a section as rows
as told; and ``Unreadable``.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from turnchain.proof.hook.stitches import Craft
from turnchain.proof.maker.told import Told


class Unreadable(Exception):
    """Words outside the grammar, or words that contradict one another; says where."""


@dataclass(slots=True)
class Section:
    """The body (``after`` is None), or a section on row ``after``; ``joined``: its yarn is joined anew there."""

    name: str
    after: int | None
    joined: bool
    rows: list[Told] = field(default_factory=list)
    said_rows: tuple[int, int] | None = None


@dataclass(slots=True)
class WrittenPiece:
    """One piece: ``row_count`` rows, ``count`` times; a foundation of ``chains``, ``turning`` of them row 1's turning
    chain, in ``yarn``."""

    name: str
    row_count: int
    worked: str
    count: int
    chains: int
    turning: int
    times: int
    multiple: int
    yarn: str | None
    sections: list[Section]


@dataclass(slots=True)
class Written:
    """The whole text."""

    craft: Craft
    pieces: list[WrittenPiece]
