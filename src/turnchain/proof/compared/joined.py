"""The first stitches of sleeves that are begun along armholes, as told, held against the cloth.

In: the worked pieces, the lines of a text, and the seams of the report. Out: how many figures were looked at, and
reasons, in words: stitches that are not those of the sleeve's first row, places that the armholes do not have, shares
that are not by length, or a way of spreading that comes to others.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from math import ceil

from turnchain.proof.cloth.edges import Stretch, WorkedCloth
from turnchain.proof.compared import borders, sewn
from turnchain.proof.compared.captions import base
from turnchain.proof.printed.edging.reader import EdgingReader, SaidPhrase, SaidPlaces, parted
from turnchain.proof.printed.report import SeamSaid

_ENDS = ("straight", "slant")
_TIE = 1e-3
_Sort = tuple[SaidPlaces, float, float]  # places of one sort, their cm, how many stitches these may be off


def held(
    pieces: Mapping[str, WorkedCloth], told: Sequence[str], seams: Sequence[SeamSaid], language: str
) -> tuple[int, list[str]]:
    """How many figures of the lines about sleeves' first stitches, in a ``language`` of edgings, were looked at, and
    what is wrong with them."""
    made = _Armholes(dict(pieces), seams, EdgingReader(language))
    for line in told:
        said = made.reader.read(line.strip(), "armhole", "armhole.one")
        if said:
            made.line(line.strip(), said)
    for piece in pieces.values():
        if piece.sc_below and made.sleeves[piece.name] != piece.count:
            made.wrong.append(f"{piece.name}: the stitches of {made.sleeves[piece.name]} of {piece.count} are told")
    return made.figures, made.wrong


@dataclass
class _Armholes:
    """The lines read so far: ``sleeves`` told of, by their names."""

    pieces: dict[str, WorkedCloth]
    seams: Sequence[SeamSaid]
    reader: EdgingReader
    sleeves: Counter[str] = field(default_factory=Counter)
    figures: int = 0
    wrong: list[str] = field(default_factory=list)

    def line(self, line: str, said: SaidPhrase) -> None:
        """One line: the stitches along every armhole, or along one."""
        named = {name.casefold(): piece for name, piece in self.pieces.items()}
        sleeve = named.get(said.slots["name"].casefold())
        self.figures += said.figures
        if sleeve is None:
            self.wrong.append(f"{line}: there is no such piece")
            return
        times = sleeve.count if said.key == "armhole" else 1
        self.sleeves[sleeve.name] += times
        self.wrong += [f"{line}: {reason}" for reason in self._line(sleeve, said)]

    def _line(self, sleeve: WorkedCloth, said: SaidPhrase) -> Iterator[str]:
        stitches = said.number("n")
        if stitches != base(sleeve):
            yield f"row 1 stands on {base(sleeve)} stitches"
        sides = [(words, self.reader.read(words, "side")) for words in parted(said.slots["sides"])]
        if not all(side for _, side in sides):
            yield "its edges cannot be read"
            return
        if sum(side.number("n") for _, side in sides if side) != stitches:
            yield f"its edges do not come to {stitches}"
        there = sum(len(seam.sides[0].edges) * seam.times for seam in self._tops(sleeve))
        if len(sides) * sleeve.count != there:
            yield f"{len(sides)} edges are told; {there} are joined to {sleeve.count} sleeves"
        ways = [list(self._ways(sleeve, side)) for _, side in sides if side]
        if not all(ways):
            yield "not the places of those edges"
            return
        found = [way[0] for way in ways]
        whole = sum(cm for way in found for _, cm, _ in way)
        for told, cm, near in (sort for way in found for sort in way):
            if abs((told.stitches or 0) - stitches * cm / whole) > 1 + near:
                yield f"{told.stitches} along {cm:.2f} cm of {whole:.2f} are not their share"

    def _tops(self, sleeve: WorkedCloth) -> list[SeamSaid]:
        return [
            seam for seam in self.seams
            if seam.kind == "sleeve top" and any(one.startswith(f"{sleeve.name}.") for one in seam.sides[1].edges)
        ]  # fmt: skip

    def _ways(self, sleeve: WorkedCloth, side: SaidPhrase) -> Iterator[list[_Sort]]:
        """The ways in which one edge has the places told of it: each of them with its cm, and how many stitches more or
        fewer its length may take."""
        cloth, called = borders.placed(self.pieces, "", self.reader.edge(side.slots["edge"]))
        met = [one for how in parted(side.slots["how"]) if (one := self.reader.places(how))]
        stitches = [one.stitches for one in met]
        if cloth is None or None in stitches or sum(one or 0 for one in stitches) != side.number("n"):
            return
        if not all(map(_is_even, met)):
            return
        for seam in self._tops(sleeve):
            for edge in sewn.candidates(cloth, called):
                joined = f"{cloth.name}.{edge}" in seam.sides[0].edges
                there = sewn.stretch_told(cloth, edge, seam.sides[0], seam.kind) if joined else ""
                if isinstance(there, Stretch) and (found := _places(cloth, there, met)):
                    yield found


def _is_even(told: SaidPlaces) -> bool:
    """Whether places with one more or one fewer lie as evenly as can be; a single one in the middle."""
    at = sorted(told.at or ())
    if len(at) < 2:
        return not at or at[0] == (told.places + 1) // 2
    gaps = [other - one for one, other in pairwise([0, *at])]
    return max(gaps) - min(gaps) <= 1 and at[-1] <= told.places and 2 * len(at) <= told.places


def _places(cloth: WorkedCloth, there: Stretch, told: Sequence[SaidPlaces]) -> list[_Sort]:
    """The sorts of places that a stretch has, as they are told; empty where it has others."""
    ends = [part for part in there.parts if not part.level]
    kinds = Counter((part.kind, not part.upright) for part in ends)
    level = there.across + sum(abs(part.head - part.foot) for part in there.parts if part.level)
    several = len({part.kind for part in ends}) > 1
    found: list[_Sort] = []
    for one in told:
        if one.what in _ENDS:
            mine = [
                part for part in ends
                if (not several or part.kind == one.kind) and (one.kind or part.upright == (one.what == "straight"))
            ]  # fmt: skip
            if len(mine) != one.places:
                return []
            found.append((one, sum(part.long(cloth.tape) for part in mine), _TIE))
            continue
        half, near = borders.to_a_half(cloth), ceil(2 * borders.to_a_half(cloth))
        if abs(one.places - level * half) > near + 1:
            return []
        found.append((one, level * float(cloth.tape.half), 1.0))
    across = sum(one.what not in _ENDS for one in told)
    return found if len(told) - across == len(kinds) and across == bool(level) else []
