"""The report of ``check`` read back: what it says of every piece, of seams and of yarn.

In: the report's text and the names of pieces and yarns. Out: ``Report``. Lines that are no figure are left alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from turnchain.proof.printed.lengths import LENGTH, Length, length, lengths


@dataclass(frozen=True, slots=True)
class PrintedMeasure:
    """A line of a piece's table: how its ``name`` is ``wanted``, ``worked`` and ``off`` (None: exact); ``text`` is the
    line."""

    name: str
    wanted: Length
    worked: Length
    off: Length | None
    text: str


@dataclass(slots=True)
class PieceSaid:
    """What the report says of a piece: how many alike, ``rows``, fewest and most ``clusters`` of a row, chains of the
    foundation (``chain``), its table, and the ``lines`` below that; how many rows of each stitch are ``solid``, by its
    name in the report."""

    name: str
    count: int
    rows: int
    clusters: tuple[int, int]
    chain: int
    measures: list[PrintedMeasure] = field(default_factory=list)
    lines: list[str] = field(default_factory=list)
    solid: dict[str, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class SideSaid:
    """One side of a seam: its ``edges`` as "piece.edge", with the ``rows`` it runs along (first and last, as told), and
    a ``step`` of so many clusters among them; or, where ``rows`` is None, so many ``clusters``, ``inset`` from the end
    of the edge by so many."""

    edges: tuple[str, ...]
    rows: tuple[int, int] | None
    clusters: float | None
    step: float = 0.0
    inset: float = 0.0


@dataclass(frozen=True, slots=True)
class EvenSaid:
    """What is said of sewing evenly: ``each`` of ``many`` to one of ``few`` (as printed: "row", "half cluster"), at
    every ``every``-th ``other``, ``times`` times in all."""

    many: str
    few: str
    each: int
    other: int = 0
    every: int = 0
    times: int = 0


@dataclass(frozen=True, slots=True)
class SeamSaid:
    """A line about a seam: ``letter`` and ``kind``, both sides, how long each is (``lengths`` empty: not said), and
    whether they are said to ``agree``: "", "agree" or "row for row"; else ``more`` is by how much one side is longer
    (None: not said). ``text`` is the line, which tells how many ``times`` each edge named is sewn so, and ``even`` how
    it is sewn evenly (None: not said). ``taped``: how long each side is told to be for customers, as a tape is read
    (empty: not said)."""

    letter: str
    kind: str
    sides: tuple[SideSaid, SideSaid]
    lengths: tuple[Length, ...]
    agree: str
    more: Length | None
    text: str
    times: int = 1
    even: EvenSaid | None = None
    taped: tuple[Length, ...] = ()

    @property
    def each(self) -> tuple[SideSaid, ...]:
        """Both sides, each as often as it is sewn: one edge that meets two, as a back's last row both fronts, twice."""
        most = max(len(side.edges) for side in self.sides)
        return tuple(side for side in self.sides for _ in range(self.times * most // len(side.edges)))


@dataclass(slots=True)
class Report:
    """The figures of a report. ``pieces`` and ``yarns`` (the line of each), ``ends`` (the line of each piece) by their
    names; ``under``: all lines under each heading."""

    pieces: dict[str, PieceSaid]
    seams: list[SeamSaid]
    yarns: dict[str, str]
    ends: dict[str, str]
    under: dict[str, list[str]]


_HEAD = re.compile(
    r"(?P<name>.+?)(?:, make (?P<count>\d+))?: (?P<rows>\d+) rows? of (?P<least>\d+)(?: to (?P<most>\d+))? "
    r"(?:cluster|repeat)s?(?: \((?P<solid>[^()]*) among them\))?, worked .*; "
    r"(?:chain (?P<chain>\d+)|begun on (?P<base>\d+) (?:sc|chains) (?:along the armhole|of .+), "
    r"chain (?P<turning>\d+) to turn)"
)
_ROW = re.compile(rf"  (?P<name>\S.*?)  +(?P<wanted>{LENGTH})  +(?P<worked>{LENGTH})  +(?P<off>exact|[+−]{LENGTH})\b.*")
_SEAM = re.compile(r"(?:seam )?(?P<letter>\w+), (?P<kind>[^:]+?)(?:, (?P<times>\d+) times)?: (?P<rest>.*)")


def read_report(text: str, pieces: Sequence[str], yarns: Sequence[str]) -> Report:
    """The figures of the report ``text`` on these ``pieces`` and ``yarns``; what is not said is missing or empty."""
    lines = text.splitlines()
    parts = _under(lines)
    return Report(
        pieces={one.name: one for one in _pieces(lines, pieces)},
        seams=[said for line in parts.get("seams", ()) if line.startswith("seam ") and (said := read_seam(line))],
        yarns=_of(parts.get("yarn", ()), yarns),
        ends=_ends(parts.get("carry or cut", ()), pieces),
        under=parts,
    )


def _under(lines: Sequence[str]) -> dict[str, list[str]]:
    """The lines under each heading that is a word or some, without figures."""
    found: dict[str, list[str]] = {}
    heading = ""
    for line in lines:
        if line and not line.startswith((" ", "warning:")):
            heading = line
            found.setdefault(heading, [])
        elif line and heading:
            found[heading].append(line.strip())
    return found


def _pieces(lines: Sequence[str], names: Sequence[str]) -> Iterator[PieceSaid]:
    piece: PieceSaid | None = None
    for line in lines:
        head = _HEAD.fullmatch(line)
        if head is not None and head["name"] in names:
            least = int(head["least"])
            clusters = (least, int(head["most"] or least))
            piece = PieceSaid(head["name"], int(head["count"] or 1), int(head["rows"]), clusters, _chain(head))
            for number, name in re.findall(r"(\d+) rows? of (\w+)", head["solid"] or ""):
                piece.solid[name] = int(number)
            yield piece
        elif not line.strip():
            piece = None
        elif piece is not None and (row := _ROW.fullmatch(line)):
            off = None if row["off"] == "exact" else length(row["off"].lstrip("+"))
            piece.measures.append(PrintedMeasure(row["name"], length(row["wanted"]), length(row["worked"]), off, line))
        elif piece is not None and piece.measures:
            piece.lines.append(line.strip())


def _chain(head: re.Match[str]) -> int:
    """The chain of a piece; of one begun on another the stitches there and the chains to turn."""
    return int(head["chain"]) if head["chain"] else int(head["base"]) + int(head["turning"])


def read_seam(line: str) -> SeamSaid | None:
    """A line about a seam, in the report or in the finishing; None where it is none."""
    found = _SEAM.fullmatch(line)
    if found is None:
        return None
    # "one, rows 1 to 12, to other, rows 1 to 12[, 14 cm to 14 cm][: they agree ...]"
    rest, *said = re.split(": |; ", found["rest"], maxsplit=1)
    told = said[0] if said else ""
    long = re.search(rf", ({LENGTH}) to ({LENGTH})$", rest)
    meeting, taped = (rest[: long.start()], ()) if long else _without_lengths(rest)
    cut = _to(meeting)
    if cut is None:
        return None
    more = lengths(told)
    agree = ("row for row" if "row for row" in told else "agree") if told.startswith("they agree") else ""
    return SeamSaid(
        found["letter"], found["kind"], cut, tuple(map(length, long.groups())) if long else (), agree,
        more[0] if more and not agree else None, line, int(found["times"] or 1),
        _even(told), taped,
    )  # fmt: skip


_LONG = re.compile(rf", ({LENGTH})(?=, to |, [\d.]+ (?:cluster|repeat)s? from the end|$)")


def _without_lengths(meeting: str) -> tuple[str, tuple[Length, ...]]:
    """Both sides without the length of each, and these; none where they are not two."""
    found = tuple(map(length, _LONG.findall(meeting)))
    return (_LONG.sub("", meeting), found) if len(found) == 2 else (meeting, ())


_EVEN = re.compile(
    r"sew (?P<each>\d+) (?P<many>(?:half )?(?:row|cluster|repeat))s? to 1 (?P<few>(?:half )?(?:row|cluster|repeat))"
    r"(?:, at every (?P<every>\d+)\w\w (?P<unit>(?:half )?(?:row|cluster|repeat)) (?P<other>\d+), "
    r"(?P<times>\d+) times in all"
    r"|, and once, about the middle, (?P<once>\d+))?$"
)


def _even(told: str) -> EvenSaid | None:
    """The words at the end about sewing evenly."""
    found = _EVEN.search(told)
    if found is None or found["unit"] not in (None, found["few"]):
        return None
    once = int(found["once"] or 0)
    return EvenSaid(
        found["many"], found["few"], int(found["each"]), once or int(found["other"] or 0), int(found["every"] or 0),
        int(found["times"] or bool(once)),
    )  # fmt: skip


_STEP = r"(?: and a step of (?P<step>[\d.]+) (?:cluster|repeat)s?)?"
_INSET = r"(?:, (?P<inset>[\d.]+) (?:cluster|repeat)s? from the end)?"
_COUNT = rf"(?:rows? (?P<low>\d+)(?: to (?P<high>\d+))?{_STEP}|(?P<clusters>[\d.]+) (?:cluster|repeat)s?{_INSET})"
_SIDE = re.compile(rf"(?P<edges>.+?), {_COUNT}")


def _to(meeting: str) -> tuple[SideSaid, SideSaid] | None:
    """Both sides of "one, rows 1 to 12, to other, rows 1 to 12"."""
    first = _SIDE.match(meeting)
    if first is None or not meeting[first.end() :].startswith(", to "):
        return None
    second = _SIDE.fullmatch(meeting[first.end() + len(", to ") :])
    return None if second is None else (_side(first), _side(second))


def _side(found: re.Match[str]) -> SideSaid:
    edges = tuple(re.split(r", | and ", found["edges"]))
    rows = None if found["low"] is None else (int(found["low"]), int(found["high"] or found["low"]))
    clusters = None if found["clusters"] is None else float(found["clusters"])
    return SideSaid(edges, rows, clusters, float(found["step"] or 0), float(found["inset"] or 0))


def _of(lines: Sequence[str], names: Sequence[str]) -> dict[str, str]:
    """What is said after each name, once."""
    found: dict[str, str] = {}
    for line in lines:
        for name in names:
            if line.startswith(f"{name}: ") and " of fabric" in line:
                found.setdefault(name, line.removeprefix(f"{name}: "))
    return found


def _ends(lines: Sequence[str], pieces: Sequence[str]) -> dict[str, str]:
    found: dict[str, str] = {}
    for line in lines:
        for name in pieces:
            if line.startswith(f"{name}: ") and "ends to weave in" in line:
                found.setdefault(name, line.removeprefix(f"{name}: "))
    return found
