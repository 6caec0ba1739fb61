"""The written pattern read back for its figures: the table of measures, blocking, seams, borders and ends.

In: Markdown text, and the names of the pieces. Out: the figures as they stand there. A booklet's page has the same
lines without the marks of Markdown, so its lines are read by the same functions.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from turnchain.proof.printed.lengths import LENGTH, Length, length
from turnchain.proof.printed.report import SeamSaid, read_seam

Said = tuple[str, str, tuple[Length, ...]]  # piece, measure, as printed in each unit

_ESCAPE = re.compile(r"\\([!-/:-@\[-`{-~])")
# "width in row 1 3/4 in" is a width of 3/4 in
_NAMED = re.compile(rf"(?P<name>[^,;:]+? in row \d+|[^,;:]+?) (?P<one>{LENGTH})(?: / (?P<other>{LENGTH}))?")


def plain(line: str) -> str:
    """A line without Markdown's escapes, without its mark of a list and the end of its sentence."""
    return _ESCAPE.sub(r"\1", line).removeprefix("- ").removesuffix(".").strip()


def table(lines: Sequence[str], pieces: Sequence[str]) -> Iterator[Said]:
    """The table of measures: for every line of one of ``pieces`` its measure, in each unit that it has."""
    units: tuple[str, ...] = ()
    for line in lines:
        cells = [plain(cell.strip()) for cell in re.split(r"(?<!\\)\|", line)[1:-1]]
        if cells[:2] == ["piece", "measure"]:
            units = tuple(cells[2:])
        elif not cells:
            units = ()
        elif units and cells[0] in pieces:
            said = tuple(length(f"{cell} {unit}") for cell, unit in zip(cells[2:], units, strict=True))
            yield cells[0], cells[1], said


#: The names of measures in other languages, by what the plan calls them, and the heads of their table.
_MEASURES = {
    "de": {
        "Teil": "piece", "Maß": "measure", "Breite in Reihe 1": "width in row 1", "Breite bei": "width at",
        "Armausschnitttiefe am linken Rand": "left edge armhole depth",
        "Armausschnittbreite am linken Rand": "left edge armhole width",
        "Armausschnitttiefe am rechten Rand": "right edge armhole depth",
        "Armausschnittbreite am rechten Rand": "right edge armhole width",
        "Kante der Armkugel": "cap edge", "Armausschnitttiefe": "armhole depth", "Armausschnittbreite": "armhole width",
        "Ausschnitttiefe": "neck depth", "Ausschnittbreite": "neck width", "Breite": "width", "Länge": "length",
        "Höhe": "height",
        "erste Schulter": "first shoulder", "zweite Schulter": "second shoulder", "Schulter": "shoulder",
    },
    "fr": {
        "partie": "piece", "mesure": "measure", "largeur au rang 1": "width in row 1", "largeur à": "width at",
        "profondeur d'emmanchure au bord gauche": "left edge armhole depth",
        "largeur d'emmanchure au bord gauche": "left edge armhole width",
        "profondeur d'emmanchure au bord droit": "right edge armhole depth",
        "largeur d'emmanchure au bord droit": "right edge armhole width",
        "bord de la tête de manche": "cap edge",
        "profondeur d'emmanchure": "armhole depth", "largeur d'emmanchure": "armhole width",
        "profondeur d'encolure": "neck depth", "largeur d'encolure": "neck width", "largeur": "width",
        "longueur": "length", "hauteur": "height", "première épaule": "first shoulder",
        "deuxième épaule": "second shoulder", "épaule": "shoulder",
    },
}  # fmt: skip
LANGUAGES = tuple(_MEASURES)


def measures_in(language: str, text: str, pieces: Sequence[str]) -> list[Said]:
    """Every measure that the Markdown ``text`` in another ``language`` (of ``LANGUAGES``) tells, by its English name:
    those of its table and of blocking."""
    names = _MEASURES[language]
    one = re.compile(rf"(?<!\w)(?:{'|'.join(map(re.escape, names))})(?!\w)")
    lines = [re.sub(r"(?<=\d),(?=\d)", ".", line) for line in text.splitlines()]
    told = [one.sub(lambda found: names[found[0]], line) for line in lines]
    return [*table(told, pieces), *blocking(told, pieces)]


def measures(words: str, piece: str) -> Iterator[Said]:
    """The measures of ``piece`` in a line such as "width 54.83 cm, length 53.18 cm / 20.94 in"; what is no measure is
    passed over."""
    for part in words.split(", "):
        found = _NAMED.fullmatch(part.strip())
        if found is not None:
            both = [found["one"], *([found["other"]] if found["other"] else [])]
            yield piece, found["name"], tuple(map(length, both))


def finished(words: str, piece: str) -> Iterator[Said]:
    """The measures of ``piece`` that an alt text tells: "Finished: width 54.83 cm, length 53.18 cm." None of them where
    that is missing."""
    found = re.search(r"Finished: (.*?)\.(?: |$)", words)
    return measures(found[1], piece) if found else iter(())


def drafted(words: str, piece: str) -> Iterator[Said]:
    """The same of the alt text of a schematic: "front: width 54.83 cm, length 53.18 cm; 47 rows, ..."."""
    found = re.search(rf"(?:^|[.] ){re.escape(piece)}: ([^;]*);", words)
    return measures(found[1], piece) if found else iter(())


def further(words: str, piece: str) -> Iterator[Said]:
    """The widths that a schematic tells in a line for want of room: "front, further widths: width at 4 cm 8.5 cm"."""
    one = rf"width at {LENGTH} {LENGTH}"
    found = re.search(rf"(?<!\w){re.escape(piece)}, further widths: ({one}(?:, {one})*)", words)
    return measures(found[1], piece) if found else iter(())


def blocking(lines: Sequence[str], pieces: Sequence[str]) -> Iterator[Said]:
    """Lines that give a piece's measures after its name, which may begin with a capital."""
    for line in map(plain, lines):
        for name in pieces:
            head = f"{name}: "
            if line[:1].casefold() + line[1:] == head[:1].casefold() + head[1:] + line[len(head) :]:
                yield from measures(line[len(head) :], name)


def seams(lines: Sequence[str], pieces: Sequence[str]) -> Iterator[SeamSaid]:
    """Lines about seams: "A, shoulder: front, left shoulder, rows 1 to 11, to back, left shoulder, rows 1 to 11"."""
    for line in map(plain, lines):
        if re.match(r"[A-Z]+, ", line) and (found := read_seam(_joined(line, pieces))):
            yield found


def single_rows(lines: Sequence[str], piece: str) -> dict[int, str]:
    """The steps of the rows of a piece that are told by themselves, by their numbers: "Row 3 (RS, Reed): Ch 3, ...". Of
    a number that comes twice, in two parts, neither."""
    found: dict[int, list[str]] = {}
    here = ""
    for line in lines:
        if line.startswith("## "):
            here = plain(line.removeprefix("## "))
        elif here == piece and (row := re.match(r"Row (\d+) \([^)]*\): ([^.]*)\.", line)):
            found.setdefault(int(row[1]), []).append(row[2])
    return {number: rows[0] for number, rows in found.items() if len(rows) == 1}


def _joined(line: str, pieces: Sequence[str]) -> str:
    """The line with every edge as "piece.edge": people say "front, left shoulder"."""
    names = "|".join(re.escape(name) for name in sorted(pieces, key=len, reverse=True))
    counted = r"(?!rows? \d|[\d.]+ (?:cluster|repeat|time))"
    return re.sub(rf"(?P<before>: |, |\bto |\band )(?P<name>{names}), {counted}", _dotted, line)


def _dotted(found: re.Match[str]) -> str:
    return f"{found['before']}{found['name']}."


def crowns(lines: Sequence[str]) -> Iterator[tuple[str, int, int | None]]:
    """Of every crown that is gathered its piece, how many stitches are taken up, and of which row; None where it is
    the edge stitches of so many rows."""
    for line in map(plain, lines):
        taken = r"the tops of all (?P<n>\d+) stitches of row (?P<row>\d+)|the edge stitches of all (?P<rows>\d+) rows"
        head = rf"(?P<piece>.+), crown: cut the yarn with a tail of {LENGTH}; .* through"
        if found := re.match(f"{head} (?:{taken}),", line):
            yield found["piece"], int(found["n"] or found["rows"]), int(found["row"]) if found["row"] else None


def ends(lines: Sequence[str]) -> tuple[int | None, int | None]:
    """How many ends of all pieces are told where every stripe is cut, and where each yarn is carried; None where it is
    not said."""
    cut = carried = None
    for line in map(plain, lines):
        if found := re.match(r"(\d+) ends to weave in where every stripe is cut", line):
            cut = int(found[1])
        if found := re.match(r"(\d+) ends where each yarn is carried", line):
            carried = int(found[1])
    return cut, carried
