"""How long stripes from the stash take: ``python tests/benchmarks/stash.py``.

In: nothing. Out: for blankets of more and more yarns and rows, up to the largest that is searched, seconds of the
processor (whole process, user and system), its memory, the largest rest and the bound that none is under; the aim is
under 5 s and 100 MB each.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from fractions import Fraction
from pathlib import Path

SIZES = ((3, 300, 1), (4, 300, 1), (6, 300, 2), (6, 500, 3), (10, 300, 3), (20, 200, 3), (40, 250, 3))


def blanket(yarns: int, rows: int, apart: int) -> str:
    """A pattern file: a tenth more in hand than is needed, more of each yarn than of the one before."""
    grams = 100 * rows * Fraction(9, 100) * Fraction(115, 100) * Fraction(11, 10)
    shares = [10 + index for index in range(yarns)]
    head = (
        'title = "Slate Weir blanket"\n[swatch]\nclusters = 4\nrows = 10\nwidth = 10\nheight = 10\nweight = 9\n'
        f'[stripes]\nkind = "stash"\napart = {apart}\n[[piece]]\nname = "blanket"\nwidth = 100\nlength = {rows}\n'
    )
    return head + "".join(
        f'[[yarn]]\nname = "yarn {i}"\ncolour = "#7777{i + 10}"\nstock = {float(grams * share / sum(shares)):.1f}\n'
        for i, share in enumerate(shares)
    )


def main() -> None:
    """Checks each in a process of its own and prints a line."""
    with tempfile.TemporaryDirectory() as folder:
        for yarns, rows, apart in SIZES:
            file = Path(folder) / "blanket.toml"
            file.write_text(blanket(yarns, rows, apart))
            process = subprocess.Popen(
                [sys.executable, "-m", "turnchain.cli", "check", str(file)], stdout=subprocess.PIPE, text=True
            )
            assert process.stdout is not None
            text = process.stdout.read()
            _, status, used = os.wait4(process.pid, 0)
            assert status == 0, text
            said = next(line for line in text.splitlines() if line.startswith("yarn: "))
            seconds, megabytes = used.ru_utime + used.ru_stime, used.ru_maxrss / 1024
            print(f"{yarns} yarns, {rows} rows, {apart} apart: {seconds:.2f} s, {megabytes:.0f} MB; {said}")


if __name__ == "__main__":
    main()
