"""Stitch charts for cluster-stripe crochet, computed from a swatch, measurements and colours.

For programs: what ``turnchain.programs`` lists stands here under its own name, and is imported when it is first used.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from turnchain.programs import FileError as FileError
    from turnchain.programs import MakerError as MakerError
    from turnchain.programs import PatternError as PatternError
    from turnchain.programs import Problem as Problem
    from turnchain.programs import as_sewn as as_sewn
    from turnchain.programs import booklet as booklet
    from turnchain.programs import chart as chart
    from turnchain.programs import close_up as close_up
    from turnchain.programs import letters as letters
    from turnchain.programs import load as load
    from turnchain.programs import loads as loads
    from turnchain.programs import loads_sizes as loads_sizes
    from turnchain.programs import look as look
    from turnchain.programs import markdown as markdown
    from turnchain.programs import nested as nested
    from turnchain.programs import on_figure as on_figure
    from turnchain.programs import on_paper as on_paper
    from turnchain.programs import orders as orders
    from turnchain.programs import page as page
    from turnchain.programs import pdf as pdf
    from turnchain.programs import plan as plan
    from turnchain.programs import plan_data as plan_data
    from turnchain.programs import plan_sizes as plan_sizes
    from turnchain.programs import png as png
    from turnchain.programs import post as post
    from turnchain.programs import prove as prove
    from turnchain.programs import report as report
    from turnchain.programs import save as save
    from turnchain.programs import schematic as schematic
    from turnchain.programs import stripes as stripes
    from turnchain.programs import svg as svg
    from turnchain.programs import use_fonts as use_fonts
    from turnchain.programs import words as words
    from turnchain.programs import words_of_sizes as words_of_sizes

__all__ = (
    "FileError",
    "MakerError",
    "PatternError",
    "Problem",
    "as_sewn",
    "booklet",
    "chart",
    "close_up",
    "letters",
    "load",
    "loads",
    "loads_sizes",
    "look",
    "markdown",
    "nested",
    "on_figure",
    "on_paper",
    "orders",
    "page",
    "pdf",
    "plan",
    "plan_data",
    "plan_sizes",
    "png",
    "post",
    "prove",
    "report",
    "save",
    "schematic",
    "stripes",
    "svg",
    "use_fonts",
    "words",
    "words_of_sizes",
)


def __getattr__(name: str) -> object:
    """What ``programs`` offers under ``name``; rooms are no names of it."""
    if name not in __all__:
        raise AttributeError(f"turnchain has no {name}; it offers {', '.join(__all__)}")
    return getattr(import_module("turnchain.programs"), name)
