"""The head of the report, held against the lines below it, which are held against the cloth.

In: the text of a report, and its pieces as read. Out: how many figures were looked at, and reasons, in words.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from turnchain.proof.printed.lengths import LENGTH, length
from turnchain.proof.printed.report import PieceSaid


def head(text: str, pieces: Mapping[str, PieceSaid], yarns: Mapping[str, str]) -> tuple[int, list[str]]:
    """The lines on fit, yarn and doubts; ``yarns``: the line of each yarn by its name."""
    lines = text.partition("\n\n")[2].partition("\n\n")[0].splitlines()
    wrong = [reason for line in lines for reason in (*_farthest(line, pieces), *_least(line, yarns))]
    warnings = sum(line.startswith("warning: ") for line in lines)
    told = next((line for line in lines if line.startswith("doubts:")), "doubts:  none")
    count = re.search(r"(\d+) warnings?", told)
    if (int(count[1]) if count else 0) != warnings:
        wrong.append(f'"{told}" is printed, {warnings} warnings stand below')
    return len(lines) - warnings, wrong


def _farthest(line: str, pieces: Mapping[str, PieceSaid]) -> Iterator[str]:
    """Whether the measure that is farthest off is the one that is named."""
    offs = {
        (name, one.name): abs(float(one.off.cm)) if one.off else 0.0 for name, piece in pieces.items()
        for one in piece.measures
    }  # fmt: skip
    told = re.search(rf"every measure within ({LENGTH}) of what was wanted \((.+), ([^,]+)\)$", line)
    most = max(offs.values(), default=0.0)
    if "every measure is exact" in line and most:
        yield f'"{line}" is printed, and one is {most:g} cm off'
    if told and (abs(float(length(told[1]).cm) - most) > 1e-6 or abs(offs.get((told[2], told[3]), -1) - most) > 1e-6):
        yield f'"{line}" is printed; most off by the tables are {most:g} cm'


def _least(line: str, yarns: Mapping[str, str]) -> Iterator[str]:
    """Whether the yarn of which least is left is the one that is named."""
    told = re.search(r"least is left of (.+), (\d+) g$", line)
    stock = re.compile(r"; (\d+) g of the stock")
    left = {name: int(found[1]) for name, said in yarns.items() if (found := stock.search(said))}
    if told and (left.get(told[1]) != int(told[2]) or int(told[2]) != min(left.values())):
        yield f'"{line}" is printed; left are {left}'
