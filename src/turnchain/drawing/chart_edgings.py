"""What a chart shows of edgings, for patterns that have any; the others do not load all about edgings.

In: a setting. Out: as in ``edging_band``.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from turnchain.drawing.folds import Folds
from turnchain.drawing.setting import Setting
from turnchain.drawing.sheet import Frame, Where
from turnchain.scene import Item

ASLANT: Final = 1.5  # so many times as far across is a band along a slope


def rooms(setting: Setting, frame: Frame, folds: Folds, words: float, rise: float) -> dict[Where, float]:
    """``edging_band.rooms``."""
    if not setting.pattern.edgings:
        return {}
    from turnchain.drawing import edging_band  # see above

    return edging_band.rooms(setting, frame, folds, words, rise)


def drawn(setting: Setting, beside: Mapping[Where, float], foot: float) -> list[Item]:
    """``edging_band.drawn``."""
    if not setting.pattern.edgings:
        return []
    from turnchain.drawing import edging_band  # see above

    return edging_band.drawn(setting, beside, foot)


def lines(setting: Setting) -> list[str]:
    """``edging_band.lines``."""
    if not setting.pattern.edgings:
        return []
    from turnchain.drawing import edging_band  # see above

    return edging_band.lines(setting)
