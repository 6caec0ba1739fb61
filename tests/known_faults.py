"""Faults in figures that are known and not mended yet: random tests pass over them, and over nothing else.

In: the reasons of a proof. Out: those that are none of these. What is mended is taken out here, till nothing is left.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

KNOWN = (
    # two shoulders sewn to one whole edge are told with the neck that lies between them
    r"shoulder: rows \d+ to \d+ do not end in it",
)
_ANY = re.compile("|".join(KNOWN))


def unmended(reasons: Iterable[str]) -> list[str]:
    """The reasons that no known fault explains."""
    return [reason for reason in reasons if not _ANY.search(reason)]
