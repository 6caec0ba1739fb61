"""Colours that tell which yarn they come from: a page can so show a picture in other yarns before it is drawn anew.

In: a colour "#rrggbb" and how it was made. Out: the same colour, a ``str`` like any other for whoever draws with it.
"""

from __future__ import annotations


class Toned(str):
    """A colour "#rrggbb" and ``how`` it was made of a yarn's colour: a word and the yarn's name, as "tint" and "Reed";
    "between" has the names of the rows above and below, "shade" the shade's name last. The words are those of the
    methods of ``colours.Colours``, and "shade"."""

    how: tuple[str, ...]


def toned(colour: str, *how: str) -> str:
    """``colour`` with how it was made."""
    made = Toned(colour)
    made.how = how
    return made
