"""What the files that are made of a pattern are called: the one place that says so.

In: names of pieces. Out: names of files; those of pictures without their endings, since each is made in more than one
format (see ``writers.formats``). Names of pieces are taken as they are; ``reading.checks`` sees that no two files get
one name.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Final, Literal, TypeAlias

PLAN: Final = "plan.json"
INDEX: Final = "index.html"
PATTERN: Final = "pattern.md"
BESIDE: Final = "beside.html"

#: Pictures of all pieces at once: the garment on a figure, the cloth as worn, the pieces with their measures, and
#: as sewn together.
ON_FIGURE: Final = "on-figure"
STRIPES: Final = "stripes"
SCHEMATIC: Final = "schematic"
AS_SEWN: Final = "as-sewn"
OF_ALL: Final = (ON_FIGURE, STRIPES, SCHEMATIC, AS_SEWN)

#: The ending of the file that stands beside a picture and says in words what it shows.
ALT_TEXT: Final = ".txt"

OfPiece: TypeAlias = Literal["chart", "short chart", "close-up"]
_AFTER_PIECE: Final = "(?P<short>-short)|(?P<close>-row-[0-9]+-(left|right))"


def size_folder(size: str) -> str:
    """The folder of a ``size`` of a pattern in several: its name, which may have a slash."""
    return size.replace("/", "-")


def nested(piece: str) -> str:
    """The name of the drawing of ``piece`` in all its sizes, in the folder above those of the sizes."""
    return f"{piece}-sizes"


def chart(piece: str) -> str:
    """The name of the whole chart of ``piece``."""
    return piece


def short_chart(piece: str) -> str:
    """The name of the chart of ``piece`` that shows once what repeats."""
    return f"{piece}-short"


def close_up(piece: str, row: int, at: str) -> str:
    """The name of the close-up of ``row`` (from 1) of ``piece`` at its edge ``at``, "left" or "right"."""
    return f"{piece}-row-{row}-{at}"


def photo(number: int) -> str:
    """The maker's photograph of this number in the file, from 1, with its ending."""
    return f"photo-{number}.jpg"


def kind(name: str, piece: str) -> OfPiece | None:
    """What the picture ``name`` (without its ending) shows of ``piece``; None where it is no picture of that piece."""
    if name == piece:
        return "chart"
    after = re.fullmatch(_AFTER_PIECE, name.removeprefix(piece)) if name.startswith(piece) else None
    if after is None:
        return None
    return "short chart" if after["short"] else "close-up"


def taken(name: str, pieces: Iterable[str]) -> str | None:
    """The first of ``pieces`` of which a picture besides its chart is called ``name``; None where ``name`` is free."""
    return next((piece for piece in pieces if kind(name, piece) in ("short chart", "close-up")), None)
