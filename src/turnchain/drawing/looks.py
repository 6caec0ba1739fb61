"""How a chart should look, as its reader chooses.

In: choices. Out: a ``Look``, the theme that goes with it, and the mirror image for left-handed makers.
"""

from __future__ import annotations

from pathlib import Path as FilePath
from typing import Literal

from turnchain import style
from turnchain.fabric.plan import Edge, PiecePlan, Row
from turnchain.records import frozen, replace
from turnchain.style import Theme

Hand = Literal["right", "left"]
Inks = Literal["tint", "full", "mono"]
Page = Literal["light", "dark", "clear"]
Proportion = Literal["drawn", "true"]


@frozen
class Look:
    """``hand``: the hand that works; rows of the right side start at it. ``inks``: stripes in tints under one dark ink,
    in full colour under whichever ink can be read there, or "mono", black on white and hatched, for printers without
    colour. ``page``: light, dark, or clear (no background). ``proportion``: "drawn", a row's height over a pitch as the
    gauge has it but held between ``style.LEAST_PROPORTION`` and ``style.MOST_PROPORTION``, where fans can be read, or
    as the gauge has it. ``symbols``: a maker's own folder of symbols, or None."""

    hand: Hand = "right"
    inks: Inks = "tint"
    page: Page = "light"
    proportion: Proportion = "drawn"
    symbols: FilePath | None = None

    @property
    def theme(self) -> Theme:
        """The colours of the page."""
        if self.inks == "mono":
            return style.MONO
        return style.DARK if self.page == "dark" else style.LIGHT

    @property
    def background(self) -> str | None:
        """The colour of the paper ("#rrggbb"), or None for a clear page."""
        return None if self.page == "clear" else self.theme.paper

    def rise(self, piece: PiecePlan, half: float) -> int:
        """The whole px of the height of a row of clusters where half a pitch has ``half`` px; at least 1."""
        return px_of(self.shape(piece), half)

    def shape(self, piece: PiecePlan) -> float:
        """The height of a row of clusters in pitches."""
        shape = float(piece.cluster_row / piece.gauge.pitch)
        if self.proportion == "drawn":
            shape = min(max(shape, style.LEAST_PROPORTION), style.MOST_PROPORTION)
        return shape


def px_of(shape: float, half: float) -> int:
    """The whole px of the height of a row of ``shape`` pitches where half a pitch has ``half`` px; at least 1."""
    return max(1, round(2 * half * shape))


def for_hand(piece: PiecePlan, hand: Hand) -> PiecePlan:
    """``piece`` as a maker of that ``hand`` sees it: for a left-handed one the mirror image, row 1 from the left.

    The mirror line runs through the middle of row 1, so that its left edge is at 0 again.
    """
    if hand == "right":
        return piece
    width = piece.rows[0].right.at
    return replace(
        piece,
        rows=tuple(_mirrored(row, width) for row in piece.rows),
        phase=(piece.phase + width) % 2,
        top=None if piece.top is None else ("left" if piece.top == "right" else "right"),
    )


def _mirrored(row: Row, width: int) -> Row:
    return replace(
        row,
        left=_moved(row.right, width),
        right=_moved(row.left, width),
        starts="left" if row.starts == "right" else "right",
        running=(row.running + width) % 2,
    )


def _moved(edge: Edge, width: int) -> Edge:
    return replace(edge, at=width - edge.at)
