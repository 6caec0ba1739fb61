"""Files that come with the program: data, symbols, fonts, pages.

In: a name. Out: where it lies. They are looked for beside the code, as the standard library's importlib.resources does
where code is files; to load that takes a command longer than to read what it finds.
"""

from __future__ import annotations

from pathlib import Path
from typing import Final

TOP: Final = Path(__file__).parent


def file(*names: str) -> Path:
    """The file or folder of those ``names``, one in another, in the package."""
    return TOP.joinpath(*names)


def symbols() -> Path:
    """The folder of the program's own symbols: in the package once installed, beside src/ in a plain checkout."""
    own = file("symbols")
    return own if own.is_dir() else TOP.parents[1] / "symbols"
