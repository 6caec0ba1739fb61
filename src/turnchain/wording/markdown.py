"""Text that Markdown is to leave alone.

In: what a maker wrote. Out: the same with backslashes before what Markdown would take for signs of its own.
"""

from __future__ import annotations

import re


def escaped_name(name: str) -> str:
    """``name`` as it stands within a line of Markdown: a backslash before each sign that Markdown would take for its
    own; before "&" only where it would begin a character reference, as in "&amp;" or "&#38;"."""
    return re.sub(r"([\\`*_\[\]<>#|~]|&(?=#?\w+;))", r"\\\1", name)


def plain_text(text: str) -> str:
    """What a reader sees of a line of Markdown as it is written here: without backslashes and the stars of bold."""
    return re.sub(r"\\([\\`*_\[\]<>#|~&.)+=-])", r"\1", re.sub(r"(?<!\\)\*\*", "", text))


def escaped(text: str) -> str:
    """``text`` as a line of Markdown of its own: as ``escaped_name``, and a backslash before what would begin a list, a
    rule or the underline of a heading at its start ("1.", "-", "+", "=")."""
    marked = escaped_name(text)
    return re.sub(r"^(\d{1,9})([.)])(?=\s|$)", r"\1\\\2", re.sub(r"^([-+=])(?=[-+=\s]|$)", r"\\\1", marked))
