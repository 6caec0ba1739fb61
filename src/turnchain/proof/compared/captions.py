"""The words beside pictures, held against the rows that were worked.

In: a worked piece and the alt text of its chart, the words of its key, or the caption of one edge of a row. Out:
reasons, in words. A caption says how an edge is worked in the words of the written row, so it is held against that row
as well.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import get_args

from turnchain.proof.cloth import yarn as taken
from turnchain.proof.cloth.edges import Side, WorkedCloth
from turnchain.proof.hook.stitches import EdgeMade, OnChain, WorkedRow
from turnchain.proof.printed.lengths import LENGTH, length
from turnchain.proof.printed.picture import CarriedLoop

#: The stitches along an edge, and how many cm of a tie or strap hang at an end of it.
Tied = tuple[int, float]

_SIDES: tuple[Side, ...] = get_args(Side)
_MOVE = r"(?:straight|(?:half )?a cluster (?:less|more)(?:, irregular)?|a step (?:in|out)wards)"
_HEAD = re.compile(r"(\d+) rows? of (\d+)(?: to (\d+))? (?:cluster|repeat)s? of (\d+) .*?"
                   r"(?:from a chain of (\d+)|on (\d+) (?:chains of|sc along the armhole))")


@dataclass(frozen=True, slots=True)
class Caption:
    """What a close-up says of the end of row ``row`` at ``side``: a ``head``, and ``words`` how it is worked."""

    row: int
    side: Side
    head: str
    words: str


def chain(cloth: WorkedCloth) -> int:
    """The chains to make: one under every stitch of row 1, and its turning chain. Common practice."""
    first = cloth.rows[0]
    lowest = min(stitch.into.number for stitch in first.stitches if isinstance(stitch.into, OnChain))
    return first.wide + lowest - 1


def base(cloth: WorkedCloth) -> int:
    """The stitches under row 1: one to each of its own, to a turning chain that counts as one, and to its gap."""
    first = cloth.rows[0]
    gaps = first.clusters - 1 + (first.end.kind == "spaced")
    gap = first.count("ch") // gaps if gaps else 0
    beside = gap if first.start.kind == "spaced" else 0
    return int(first.spots[0].turning) + first.count("dc") + first.count("ch") + beside


def move(below: EdgeMade, edge: EdgeMade, inwards: int) -> str:
    """What an edge does from one row to the next, ``inwards`` half pitches, in the words that makers are told. Half a
    cluster less is regular after an edge without a gap, half a cluster more after an edge with one; where the edge
    then is of the same kind as before and it is not, it is said to be irregular. One without an edge stitch goes either
    way."""
    if edge.step:
        return f"a step {'in' if inwards > 0 else 'out'}wards"
    if not inwards:
        return "straight"
    natural = ("bare", "flush" if inwards > 0 else "spaced")
    forced = abs(inwards) == 1 and below.kind == edge.kind and edge.kind not in natural
    irregular = ", irregular" if forced else ""
    return f"{'half a cluster' if abs(inwards) == 1 else 'a cluster'} {'less' if inwards > 0 else 'more'}{irregular}"


def moves(rows: Sequence[WorkedRow], side: Side) -> list[str]:
    """The moves of a side in the words of ``move``, row by row; the first of ``rows`` is "straight"."""
    edges = [row.left if side == "left" else row.right for row in rows]
    sign = 1 if side == "left" else -1
    return ["straight", *(move(below, edge, sign * (edge.at - below.at)) for below, edge in pairwise(edges))]


# ------------------------------------------------------------------------------------------------------- alt texts


def chart(cloth: WorkedCloth, words: str) -> Iterator[str]:
    """What is wrong in the alt text ``words`` of a whole chart: its counts, and both edges row by row."""
    head = _HEAD.search(words)
    if head is None:
        yield f'{cloth.name}: no counts are told in "{words[:80]}"'
        return
    clusters = [row.clusters for row in cloth.rows if not row.solid]
    said = [int(head[1]), int(head[2]), int(head[3] or head[2]), int(head[5] or head[6])]
    made = [cloth.high, min(clusters), max(clusters), chain(cloth) if head[5] else base(cloth)]
    if said != made:
        yield f"{cloth.name}: rows, clusters and chains: {said} told, {made} worked"
    wide = {sum(spot.cluster == 0 and spot.what == "dc" for spot in row.spots) for row in cloth.rows if not row.solid}
    if "cluster" in head[0] and int(head[4]) not in wide:
        yield f"{cloth.name}: clusters of {head[4]} are told, of {wide} worked"
    order = [yarn for yarn in dict.fromkeys(cloth.yarns) if yarn]
    if len(order) > 1 and f" Striped in {', '.join(order)}. " not in words:
        yield f"{cloth.name}: it is not told as striped in {', '.join(order)}"
    yield from _edges(cloth, words)


def _edges(cloth: WorkedCloth, words: str) -> Iterator[str]:
    for side in _SIDES:
        told = re.search(rf"The {side} edge, row by row: ([^.]*)\.", _by_clusters(words))
        made = moves(cloth.parts[0], side)
        runs = re.findall(rf"(\d+) ({_MOVE})", told[1]) if told else []
        said = [name for count, name in runs for _ in range(int(count))] or ["straight"] * len(made)
        if said != made:
            yield f"{cloth.name}: the {side} edge is told as {told[1] if told else 'straight'}; it was worked otherwise"


# --------------------------------------------------------------------------------------------------------- the key


def edgings(
    words: Sequence[str], along: set[int], tied: Sequence[Tied] = (), anywhere: Sequence[Tied] = ()
) -> tuple[int, list[str]]:
    """How many counts of edgings, ties and straps stand along a chart among its ``words``, and which are none of those
    worked ``along`` the edges of its piece, or ``tied`` to them; where an edge is drawn, what is tied to it is. The key
    names ties ``anywhere`` on an edging."""
    told = [int(found[1]) for said in words if (found := re.fullmatch(r"(\d+) (?:sc|hdc|dc|htr|tr)", said))]
    wrong = [f"{one} stitches of an edging stand beside its chart" for one in told if one not in along]
    hanging = [length(found[2]) for one in words if (found := re.fullmatch(rf"(tie|strap), ({LENGTH})", one))]
    wrong += [f"a tie of {one} stands beside its chart" for one in hanging if not any(one.tapes(cm) for _, cm in tied)]
    least = sum(stitches in told for stitches, _ in tied)
    if not least <= len(hanging) <= len(tied):
        wrong.append(f"{len(hanging)} ties stand beside its chart; {len(tied)} were worked")
    keyed = [length(one) for one in re.findall(rf"(?:Ties at its ends|Strap), ({LENGTH}) long", " ".join(words))]
    wrong += [f"ties of {one} stand in its key" for one in keyed if not any(one.tapes(cm) for _, cm in anywhere)]
    if hanging and not keyed:
        wrong.append("its key does not name its ties")
    return len(told) + len(hanging) + len(keyed), wrong


def key(cloth: WorkedCloth, words: str) -> Iterator[str]:
    """What is wrong in the key of a chart, all its ``words`` in a line: the moves and at which edge, rows of each yarn,
    chains to make."""
    said = {
        (name, side) for name, where in re.findall(rf"({_MOVE}), at the ([a-z ]*?) ?edge\b", _by_clusters(words))
        for side in _SIDES if side in where
    }  # fmt: skip
    made = {(name, side) for side in _SIDES for name in _used(cloth, side) if name != "straight"}
    for name, side in sorted(said ^ made):
        lacking = "in the key only" if (name, side) in said else "not in the key"
        yield f"{cloth.name}: {name}, at the {side} edge: {lacking}"
    numbered = {(yarn, row.number) for row, yarn in zip(cloth.rows, cloth.yarns, strict=True)}
    for yarn, rows in Counter(yarn for yarn, _ in numbered).items():  # a number that comes in two parts is one row
        found = re.search(rf"(?<!\w){re.escape(yarn)}, (\d+) rows?\b", words) if yarn else None
        if found and int(found[1]) != rows:
            yield f'{cloth.name}: "{found[0]}" in the key; {rows} worked'
    yield from _chains(cloth, words)


def loops(
    cloth: WorkedCloth, carry: int, colours: Mapping[str, str], drawn: Sequence[CarriedLoop]
) -> Iterator[str]:
    """What is wrong of the yarns ``drawn`` beside a chart as carried: those left out, and those that are not;
    ``colours`` by the names of yarns. How high they are is left alone where rows are of several heights."""
    level = len({cloth.tape.high(row.kind) for row in cloth.rows}) == 1
    carried = taken.carried(cloth, carry)
    made = Counter((colours.get(yarn or "", ""), side, over * level) for yarn, side, over in carried)
    told = Counter((one.colour, one.side, (round(one.rows) - 1) * level) for one in drawn)
    for colour, side, over in made - told:
        yield f"{cloth.name}: {colour} is carried over {over} rows at the {side} edge, and not drawn so"
    for colour, side, over in told - made:
        yield f"{cloth.name}: {colour} is drawn as carried over {over} rows at the {side} edge, and is not"


def _chains(cloth: WorkedCloth, words: str) -> Iterator[str]:
    """What is wrong of the chains to make and of the one that row 1 begins in, in the key and at its mark."""
    said = re.search(r"Chain (\d+); (first|row 1) [a-z ]*? the (\d+)[a-z]{2} chain", words)
    mark = re.search(r"(?<!\w)(\d+)[a-z]{2} ch(?!\w| of)", words)
    if said and int(said[1]) != chain(cloth):
        yield f"{cloth.name}: {said[0]} in the key; {chain(cloth)} worked"
    if not said:
        yield from _along_armhole(cloth, words)
        return
    into = _chains_taken(cloth.rows[0], of_clusters=said[2] == "first")
    if int(said[3]) != into:
        yield f"{cloth.name}: {said[0]} in the key; it was worked into chain {into}"
    if mark and int(mark[1]) != into:
        yield f"{cloth.name}: {mark[0]} beside the foundation; chain {into} was worked into"


def _along_armhole(cloth: WorkedCloth, words: str) -> Iterator[str]:
    """The same of the stitches along an armhole, which are counted by themselves."""
    first = cloth.rows[0]
    said = re.search(r"Begin with (\d+) sc along the armhole; chain (\d+) to turn", words)
    if said and (int(said[1]), int(said[2])) != (base(cloth), first.turning):
        yield f"{cloth.name}: {said[0]} in the key; {base(cloth)} and {first.turning} worked"
    mark = re.search(r"(?<!\w)(\d+)[a-z]{2} sc(?!\w)", words)
    into = _chains_taken(first, of_clusters=False) - first.turning
    if said and (mark is None or int(mark[1]) != into):
        yield f"{cloth.name}: {mark and mark[0]} beside the stitches along the armhole; {into} was worked into"


def _chains_taken(first: WorkedRow, of_clusters: bool) -> int:
    """The chain, from the hook, that the first stitch of row 1 is worked into, or that of its first cluster."""
    chains = [one.into.number for one in first.stitches if isinstance(one.into, OnChain) and one.kind != "tch"]
    cluster = next((nth for nth, spot in enumerate(first.spots) if spot.what == "dc"), 0)
    return chains[sum(spot.what == "extra" for spot in first.spots[:cluster]) if of_clusters else 0]


def _used(cloth: WorkedCloth, side: Side) -> set[str]:
    """The moves of a side in body and parts, but for the rows with which parts begin."""
    body, *parts = cloth.parts
    used = set(moves(body, side))
    return used.union(*(moves(part, side) for part in parts))


# -------------------------------------------------------------------------------------------------------- captions


def edge(cloth: WorkedCloth, caption: Caption, rows: Mapping[int, str]) -> Iterator[str]:
    """What is wrong in the caption of an edge in the body; ``rows`` are the written rows told by themselves, by their
    numbers."""
    where = f"{cloth.name}, row {caption.row}, {caption.side}"
    row = cloth.rows[caption.row - 1]
    starts = (row.towards == 1) == (caption.side == "left")
    made = moves(cloth.parts[0], caption.side)[caption.row - 1]
    told = "on the foundation chain" if caption.row == 1 else made
    if _by_clusters(caption.head) != f"Row {caption.row}, {'start' if starts else 'end'} of the row: {told}":
        yield f'{where}: "{caption.head}" is told; {told} worked'
    written = rows.get(caption.row)
    if written is not None and not (_begins if starts else _finishes)(caption.words, written):
        yield f'{where}: "{caption.words}" is told; the row is "{written}"'


def _by_clusters(words: str) -> str:
    """The moves as of fabrics of clusters: half of what comes again is half a cluster there."""
    return words.replace("half a repeat", "half a cluster").replace("a repeat less", "a cluster less").replace(
        "a repeat more", "a cluster more"
    )


def _begins(words: str, written: str) -> bool:
    """Whether a row begins so; a foundation is told before its row 1."""
    said = _plain(words)
    return _plain(written).startswith((said, re.sub(r"^ch \d+, ", "", said)))


def _finishes(words: str, written: str) -> bool:
    """Whether a row ends so, apart from a change of yarn."""
    said = _plain(re.sub(r"^(After the|Last) [^:]*: ", "", words))
    return f", {_plain(written)}".endswith(f", {said}")


def _plain(words: str) -> str:
    """A sentence of steps, without its capital and its full stop, without changes of yarn; what is done over and over,
    or in each of some spaces, is done once."""
    own = words.startswith("V ")  # a V stitch keeps its capital
    told = words[:1 - own].casefold() + words[1 - own :].replace("\u00a0", " ").rstrip(". ")
    once = re.sub(r", change to .*? in last \w+", "", told)
    flat = re.sub(r"\[|\] \d+ times", "", once)
    return re.sub(r"in each of next \d+ (sp|V|sh|h?[a-z]c|[hd]?tr)\b", r"in next \1", flat)
