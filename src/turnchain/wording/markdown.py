"""Text that Markdown is to leave alone.

In: what a maker wrote. Out: the same with backslashes before what Markdown would take for signs of its own.
"""

from __future__ import annotations

import re


def escaped_name(name: str) -> str:
    """A name within a line; & is a sign but where it names a letter."""
    return re.sub(r"([\\`*_\[\]<>#|~]|&(?=#?\w+;))", r"\\\1", name)


def escaped(text: str) -> str:
    """A line of its own: at the start also what would begin a list or a rule."""
    marked = escaped_name(text)
    return re.sub(r"^(\d{1,9})([.)])(?=\s|$)", r"\1\\\2", re.sub(r"^([-+=])(?=[-+=\s]|$)", r"\\\1", marked))
