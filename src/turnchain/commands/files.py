"""What commands say of the files that they write: how a name must end, and where letters came from.

In: names of files. Out: a wrong ending refused, notes printed.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import click

from turnchain import console
from turnchain.writers import formats


def check_ending(output: Path, endings: Iterable[str] = formats.PICTURES) -> None:
    """Refuses the name ``output`` where it has none of the ``endings``."""
    if output.suffix.lower() not in endings:
        listed = " or ".join(endings)
        raise click.BadParameter(f"{console.shown(output)}: the name must end in {listed}", param_hint="-o")


def show_fonts() -> None:
    """Tells of letters that came from fonts of this computer, or from none."""
    from turnchain.lettering import measuring  # loaded when something was drawn

    for line in measuring.told():
        console.show(f"note: {line}", err=True)
