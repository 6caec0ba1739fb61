"""What was worked out from the body, reckoned again from what the report prints.

In: the lines under "worked out from the body", and the pieces of the report. Out: how many figures were looked at, and
reasons, in words. A formula has + - * /, brackets, min and max, which are read here anew.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence

from turnchain.proof.printed.lengths import LENGTH, length
from turnchain.proof.printed.report import PieceSaid

_BODY = re.compile(rf"(?P<name>\w+): (?P<cm>{LENGTH}) \(.+\)")
_MEASURE = re.compile(rf"(?P<piece>.+?), (?P<measure>.+?) = (?P<formula>.+) = (?P<cm>{LENGTH})(?: \(.+\))?")
_TOKEN = re.compile(r"\s*(\d+\.?\d*|\w+|.)")
_HALF_A_HUNDREDTH = 0.005
_CALLS: dict[str, Callable[..., float]] = {"min": min, "max": max}


def lines(said: Sequence[str], pieces: Mapping[str, PieceSaid]) -> tuple[int, list[str]]:
    """The lines on what was worked out; their figures are in one unit."""
    bodies = {one["name"]: float(length(one["cm"]).value) for line in said if (one := _BODY.fullmatch(line))}
    measured = [one for line in said if (one := _MEASURE.fullmatch(line))]
    told = {(one["piece"], one["measure"]): float(length(one["cm"]).value) for one in measured}
    told |= {(name, one.name): float(one.wanted.value) for name, piece in pieces.items() for one in piece.measures}
    wrong = [f'"{line}" is none of what is printed there' for line in said
             if not _BODY.fullmatch(line) and not _MEASURE.fullmatch(line)]  # fmt: skip
    for one in measured:
        own = {key: told[one["piece"], key] for key in ("width", "length") if (one["piece"], key) in told}
        wrong += _off(one, {**bodies, **own}, told)
    return len(measured) + len(bodies), wrong


def _off(one: re.Match[str], known: Mapping[str, float], told: Mapping[tuple[str, str], float]) -> Iterator[str]:
    names = set(re.findall(r"[a-z_]+", one["formula"])) - _CALLS.keys()
    if names - known.keys():
        yield f'"{one[0]}": {", ".join(sorted(names - known.keys()))} is not printed'
        return
    here = float(length(one["cm"]).value)
    found, near = _Reckoning(one["formula"], known).value, _HALF_A_HUNDREDTH * (1 + len(names)) + 1e-6
    if abs(found - here) > near:
        yield f'"{one[0]}" is printed, {found:g} comes of it'
    wanted = told.get((one["piece"], one["measure"]), here)
    if abs(wanted - here) > 1e-6:
        yield f'"{one[0]}" is printed, {wanted:g} is wanted in the table'


class _Reckoning:
    """A formula reckoned from the left, products before sums."""

    def __init__(self, formula: str, known: Mapping[str, float]) -> None:
        self.tokens: list[str] = [*_TOKEN.findall(formula), ""]
        self.known = known
        self.value = self._sum()

    def _next(self) -> str:
        return self.tokens.pop(0)

    def _sum(self) -> float:
        found = self._product()
        while self.tokens[0] in ("+", "-"):
            found += self._product() if self._next() == "+" else -self._product()
        return found

    def _product(self) -> float:
        found = self._one()
        while self.tokens[0] in ("*", "/"):
            found *= self._one() if self._next() == "*" else 1 / self._one()
        return found

    def _one(self) -> float:
        token = self._next()
        if token == "-":
            return -self._one()
        if token == "(":
            return self._listed()[0]
        if token in _CALLS:
            self._next()
            return _CALLS[token](self._listed())
        return self.known[token] if token in self.known else float(token)

    def _listed(self) -> list[float]:
        """What stands up to the closing bracket, which is passed."""
        found = [self._sum()]
        while self._next() == ",":
            found.append(self._sum())
        return found
