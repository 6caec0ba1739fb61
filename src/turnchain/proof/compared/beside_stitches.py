"""What is printed around the stitches of a chart and above the pieces of a schematic, held against the worked cloth.

In: a worked piece, and the words of a picture in the order drawn. Out: how many figures were looked at, and reasons, in
words: how many rows, clusters and pieces alike, what a symbol is called, the stripes in letters.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from itertools import groupby, pairwise

from turnchain.proof.cloth.edges import WorkedCloth
from turnchain.proof.compared.captions import base, chain
from turnchain.proof.hook.stitches import WorkedRow

Looked = tuple[int, list[str]]

_FACT = r"(?:\s+·)?\s+"  # between facts, which may stand on two lines
_SUMMARY = re.compile(
    rf"(\d+) rows?{_FACT}(\d+)(?: (to|and) (\d+))? (?:cluster|repeat)s?( in turn)?{_FACT}worked (upwards|sideways)"
    rf"(?:{_FACT}make (\d+))?(?!\d)"
)
_DRAFTED = re.compile(
    r"(?:make (\d+)(?:,|\s+·)\s+)?(\d+) rows?, worked (upwards|sideways) "
    r"(?:from a chain of (\d+)|on the chains of|from the armhole)"
)
_ORDER = re.compile(r"From row (\d+): ((?:[A-Z]+ \d+(?:, )?)+)(, and so on)?\.")


def summary(cloth: WorkedCloth, sideways: bool, words: str) -> Looked:
    """The line under the name of a piece, among ``words``; ``sideways``: it is to be worked so."""
    counts = [row.clusters for row in cloth.rows if not row.solid]
    least, most = min(counts), max(counts)
    turns = len({*counts}) == 2 and all(one != other for one, other in pairwise(counts))
    made = (cloth.high, least, most, turns, "sideways" if sideways else "upwards", cloth.count)
    found = _SUMMARY.search(words)
    if found is None:
        return 0, [f"{cloth.name}: no rows and clusters are told"]
    rows, low, joint, high, turn, way, alike = found.groups()
    said = (int(rows), int(low), int(high or low), bool(turn) and joint == "and", way, int(alike or 1))
    return 4, [] if said == made else [f'{cloth.name}: "{found[0]}" is printed; {made} worked']


def drafted(cloths: Sequence[tuple[WorkedCloth, bool]], words: str) -> Looked:
    """The lines over the pieces of a schematic, or those of its alt text, in the order of the pieces; each with whether
    it is to be worked sideways."""
    told = list(_DRAFTED.finditer(words))
    wrong = [] if len(told) == len(cloths) else [f"{len(told)} of {len(cloths)} pieces are told of in the schematic"]
    for found, (cloth, sideways) in zip(told, cloths, strict=False):
        alike, rows, way, chains = found.groups()
        made = (cloth.count, cloth.high, "sideways" if sideways else "upwards", chain(cloth) if chains else None)
        if (int(alike or 1), int(rows), way, int(chains) if chains else None) != made:
            wrong.append(f'{cloth.name}: "{found[0]}" stands in the schematic; {made} worked')
    return 3 * len(told), wrong


def begun(cloth: WorkedCloth, words: str) -> Looked:
    """What a piece begins with along an edge, in the key: "Begin on the 20 chains of body; chain 3 to turn."."""
    found = re.search(r"Begin on the (\d+) chains of .*?; chain (\d+) to turn", words)
    made = (base(cloth), cloth.rows[0].turning)
    wrong = found is not None and (int(found[1]), int(found[2])) != made
    return 2 * (found is not None), [f'{cloth.name}: "{found[0]}" in the key; {made} worked'] if found and wrong else []


def symbols(cloth: WorkedCloth, words: str) -> Looked:
    """How many stitches a cluster has and how many chains turn, in the names of the symbols: where rows are of several
    kinds, those that turn rows of clusters."""
    rows = [row for row in cloth.rows if not row.solid]
    turned = rows or cloth.rows
    looked, wrong = 0, []
    for found in re.finditer(r"cluster: (\d+) \w+ in one space", words):
        looked += 1
        wrong += [f"{found[0]} in the key; {wide} worked" for wide in {_wide(row) for row in rows} - {int(found[1])}]
    for found in re.finditer(r"turning chain: ch (\d+), counts as an? \w+(?:, an? (\d+)[a-z]{2} is the gap)?", words):
        looked += 1 + bool(found[2])
        tops = {row.top for row in turned if row.spots[0].turning}
        longest = max(row.turning for row in turned)
        if {int(found[1])} != tops or (found[2] and int(found[2]) != longest):
            wrong.append(f"{found[0]} in the key; {sorted(tops)} and up to {longest} chains worked")
    for found in re.finditer(r"edge stitch, with the ch (\d+) of the turning chain", words):
        looked += 1
        if int(found[1]) not in {row.top for row in cloth.rows if not row.spots[0].turning}:
            wrong.append(f"{found[0]} in the key; no row turns so")
    return looked, [f"{cloth.name}: {reason}" for reason in wrong]


def _wide(row: WorkedRow) -> int:
    return sum(spot.cluster == 0 and spot.what == "dc" for spot in row.spots)


def stripes(cloth: WorkedCloth, words: Sequence[str]) -> Looked:
    """The order of the stripes in letters and heights: each letter the yarn that it stands beside in the key."""
    found = _ORDER.search(" ".join(words).replace("\u00a0", " "))
    if found is None:
        several = len({*cloth.yarns}) > 1 and any(word == "Yarns" for word in words)
        return 0, [f"{cloth.name}: the order of the stripes is not told"] if several else []
    told = [(letter, int(rows)) for letter, rows in re.findall(r"([A-Z]+) (\d+)", found[2])]
    while found[3] and sum(rows for _, rows in told) < cloth.high:
        told += told
    said = [letter for letter, rows in told for _ in range(rows)]
    made = [yarn or "" for yarn in by_level(cloth).values()]
    if found[3]:
        said = said[: len(made)]
    pairs, keyed = set(zip(said, made, strict=False)), _keyed(words)
    letters, yarns = {one for one, _ in pairs}, {yarn for _, yarn in pairs}
    fits = found[1] == "1" and len(said) == len(made) and len(letters) == len(yarns) == len(pairs)
    if not fits or any(keyed.get(letter, yarn) != yarn for letter, yarn in pairs):
        runs = ", ".join(f"{yarn} {len(list(rows))}" for yarn, rows in groupby(made))
        return len(told), [f'{cloth.name}: "{found[0]}" in the key; {runs} worked']
    return len(re.findall(r"\d+", found[2])), []


def by_level(cloth: WorkedCloth) -> Mapping[int, str | None]:
    """The yarn of each row by its number; a number that comes in two parts is one row."""
    return {row.number: yarn for row, yarn in sorted(zip(cloth.rows, cloth.yarns, strict=True), key=_number)}


def _number(one: tuple[WorkedRow, str | None]) -> int:
    return one[0].number


def _keyed(words: Sequence[str]) -> dict[str, str]:
    """The yarns of a key by their letters, "A" and then "Heron, 12 rows"."""
    found = ((one, re.fullmatch(r"(.+), \d+ rows?", other)) for one, other in pairwise(words))
    return {letter: named[1] for letter, named in found if named and re.fullmatch("[A-Z]+", letter)}
