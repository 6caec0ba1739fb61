"""Working a planned piece by hand, stitch by stitch, and random patterns to try it on.

In: a piece as it stands in plan.json. Out: what a maker who only knows the rules of the fabric would have on the
hook after every row, or ``Unworkable`` where the hook finds no place to go. Nothing of the package is used for
this: a row is a list of stitches and spaces, the next row is worked along it, and edges, kinds and clusters are
read off what came out. Source of the rules: the lattice, DEVELOPERS.md (no published source).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from turnchain.pattern import Fabric, Neck, Pattern, Piece, Stripes, Swatch, Yarn


class Unworkable(Exception):
    """A row that cannot be worked as the plan says."""


@dataclass(frozen=True)
class Spot:
    """One stitch or space of a row, as the next row meets it.

    ``what``: post, extra (the second stitch of a closed spaced edge), dc (of a cluster) or space. ``at``: the
    position in half pitches of posts, spaces and of the whole cluster. ``nth``: the number of the stitch in its
    own row, in working order, from 0 (of a space: its chain; None for a slit, which is no stitch).
    """

    what: str
    at: int
    nth: int | None


@dataclass(frozen=True)
class Stitch:
    """``symbol``: dc, ch, sl or tch. ``into``: foundation, space, stitch, post, own or air, and its number."""

    symbol: str
    into: str
    target: int = 0


@dataclass
class Worked:
    """A row as it came out: ``spots`` from left to right, ``stitches`` in working order."""

    towards: int
    spots: list[Spot] = field(default_factory=list)
    stitches: list[Stitch] = field(default_factory=list)
    centres: list[int] = field(default_factory=list)

    def count(self, symbol: str) -> int:
        """How many stitches of a kind."""
        return sum(stitch.symbol == symbol for stitch in self.stitches)

    @property
    def left(self) -> int:
        """Where the left post stands."""
        return self.spots[0].at

    @property
    def right(self) -> int:
        """Where the right post stands."""
        return self.spots[-1].at

    def kind(self, side: str) -> str:
        """flush or spaced."""
        neighbour = self.spots[1] if side == "left" else self.spots[-2]
        return "flush" if neighbour.what == "dc" else "spaced"


class Row:
    """A row while it is worked: every method puts the next stitch, in the words of the rules."""

    def __init__(self, k: int, g: int, towards: int) -> None:
        self.k, self.g = k, g
        self.made = Worked(towards)
        self.met: list[tuple[str, int | None]] = []  # what the next row will meet, in working order

    def put(self, symbol: str, into: str, target: int = 0) -> int:
        self.made.stitches.append(Stitch(symbol, into, target))
        return len(self.made.stitches) - 1

    def turning_chain(self, into: str, target: int, spaced: bool) -> None:
        nth = self.put("tch", into, target)
        self.met.append(("post", nth))
        if spaced and self.g == 0:
            extra = self.put("dc", into, target + (into in ("foundation", "own")))
            self.met += [("extra", extra), ("space", None)]
        elif spaced:
            self.met.append(("space", nth))  # the gap's chain belongs to the turning chain

    def cluster(self, at: int, places: list[tuple[str, int]]) -> None:
        if self.made.centres:
            self.gap()
            if at - self.made.centres[-1] != 2 * self.made.towards:
                raise Unworkable(f"clusters at {self.made.centres[-1]} and {at} are not neighbours")
        self.made.centres.append(at)
        for into, target in places:
            self.met.append(("dc", self.put("dc", into, target)))

    def gap(self) -> None:
        nth = None
        for _ in range(self.g):
            nth = self.put("ch", "air")
        self.met.append(("space", nth))

    def end(self, into: str, target: int, spaced: bool) -> None:
        if spaced and self.g == 0:
            self.met.append(("space", None))
            self.met.append(("extra", self.put("dc", into, target - (into == "foundation"))))
        elif spaced:
            self.gap()
        self.met.append(("post", self.put("dc", into, target)))

    def finished(self, start: str, end: str) -> Worked:
        """The row with its positions, which follow from where the clusters stand."""
        if not self.made.centres:
            raise Unworkable("no cluster in the row")
        on, centres = self.made.towards, self.made.centres
        first = centres[0] - on * (1 if start == "flush" else 2)
        last = centres[-1] + on * (1 if end == "flush" else 2)
        spots: list[Spot] = []
        seen = 0  # dc met so far
        for what, nth in self.met:
            if what == "post":
                at = last if spots else first
            elif what == "dc":
                at = centres[seen // self.k]
                seen += 1
            elif seen == 0:
                at = first + on
            elif seen == self.k * len(centres):
                at = last - on
            else:
                at = centres[seen // self.k] - on
            spots.append(Spot(what, at, nth))
        self.made.spots = spots if on == 1 else spots[::-1]
        return self.made


def first_row(k: int, g: int, row: dict[str, Any], chains: int) -> Worked:
    """Row 1 along a foundation of ``chains`` chains, counted from the hook."""
    on = 1 if row["starts"] == "left" else -1
    start, end = (row["left_edge"], row["right_edge"]) if on == 1 else (row["right_edge"], row["left_edge"])
    at = row["left"] if on == 1 else row["right"]
    made = Row(k, g, on)
    hook = 3 + (g if start == "spaced" else 0) + 1  # past the turning chain: the post's own chain
    made.turning_chain("foundation", hook, start == "spaced")
    if start == "spaced":
        hook += g or 1
    at += on * (1 if start == "flush" else 2)
    for nth in range(row["clusters"]):
        if nth:
            hook += g
        made.cluster(at + 2 * on * nth, [("foundation", hook + 1 + dc) for dc in range(k)])
        hook += k
    if end == "spaced":
        hook += g or 1
    made.end("foundation", hook + 1, end == "spaced")
    if hook + 1 != chains:
        raise Unworkable(f"row 1 needs {hook + 1} chains, the plan makes {chains}")
    return made.finished(start, end)


def next_row(k: int, g: int, row: dict[str, Any], below: Worked, shared: str | None = None) -> Worked:
    """A row along the row below it, by the moves that the plan names; nothing else of the plan is used.

    ``shared``: the side at which the row's post stands on one cluster with the post of the other shoulder.
    """
    on = 1 if row["starts"] == "left" else -1
    if on == below.towards:
        raise Unworkable("the row does not begin where the row below ended")
    sides = ("left", "right") if on == 1 else ("right", "left")
    walk = below.spots if on == 1 else below.spots[::-1]
    spaces = [spot for spot in walk if spot.what == "space"]
    clusters = [walk[i : i + k] for i in range(len(walk)) if walk[i].what == "dc"][::k]
    made = Row(k, g, on)
    nths = [_carrying(k, side == shared) for side in sides]
    start, begin = _begin(made, walk, spaces, clusters, row[f"{sides[0]}_move"], row[f"{sides[0]}_step"], nths[0])
    end, last = _last_space(walk, spaces, clusters, row[f"{sides[1]}_move"], row[f"{sides[1]}_step"])
    if last < begin - 1:
        raise Unworkable("the edges cross")
    for space in spaces[begin : last + 1]:
        made.cluster(space.at, [("space", space.at)] * k)
    if row[f"{sides[1]}_move"] == "forced_increase":
        made.cluster(walk[-1].at, [("post", _number(walk[-1]))] * k)
    into, target = _end_place(walk, spaces, clusters, row[f"{sides[1]}_move"], row[f"{sides[1]}_step"], nths[1])
    made.end(into, target, end == "spaced")
    return made.finished(start, end)


def _carrying(k: int, shared: bool) -> int:
    """Which dc of its cluster carries a post, from 0 and from the post's outside: the middle one, and of two in the
    middle the outer one. On a ``shared`` cluster it is the inner one: each shoulder's post stays on its own side."""
    return k // 2 if shared else (k - 1) // 2


def _number(spot: Spot) -> int:
    assert spot.nth is not None
    return spot.nth


def _needs(condition: bool, words: str) -> None:
    if not condition:
        raise Unworkable(words)


def _flush(walk: list[Spot]) -> bool:
    """Whether the row below is flush where the walk begins."""
    return walk[1].what == "dc"


def _begin(
    made: Row, walk: list[Spot], spaces: list[Spot], clusters: list[list[Spot]], move: str, step: int, nth: int
) -> tuple[str, int]:
    """Works the start of a row; gives its kind and the number of the space that takes the next cluster."""
    k = made.k
    flush, post = _flush(walk), ("post", _number(walk[0]))
    if move == "straight":
        made.turning_chain(*post, spaced=flush)
        return ("spaced" if flush else "flush"), 0
    if move == "decrease":
        _needs(flush, "a decrease needs a flush edge below")
        made.turning_chain(*post, spaced=False)
        return "flush", 0
    if move == "increase":
        _needs(not flush, "an increase needs a spaced edge below")
        made.turning_chain(*post, spaced=True)
        return "spaced", 0
    if move == "forced_decrease":
        _needs(not flush, "a forced decrease needs a spaced edge below")
        made.put("sl", "space", spaces[0].at)
        made.turning_chain("space", spaces[0].at, spaced=True)
        return "spaced", 1
    if move == "forced_increase":
        _needs(flush, "a forced increase needs a flush edge below")
        made.turning_chain(*post, spaced=False)
        made.cluster(walk[0].at, [post] * k)
        return "flush", 0
    if move == "step_in":
        kind, target, following = _landing(walk, spaces, clusters, step, nth)
        _slip_to(made, walk, target)
        if target.what == "space":
            made.turning_chain("space", target.at, spaced=True)
        else:
            made.turning_chain("stitch", _number(target), spaced=False)
        return kind, following
    _needs(move == "step_out", f"no such move: {move}")
    _needs(step >= 2 and step % 2 == 0, "a step out goes by whole pitches")
    return _step_out(made, walk, step // 2, flush), 0


def _step_out(made: Row, walk: list[Spot], pitches: int, flush: bool) -> str:
    """A chain of its own for ``pitches`` clusters; on it every dc takes a chain, as on a foundation."""
    k, g = made.k, made.g
    post, outwards = walk[0], -made.made.towards
    chains = pitches * (k + g) if flush else pitches * k + (pitches - 1) * g + 1
    for _ in range(chains):
        made.put("ch", "air")
    turning = 3 + (g if flush else 0)
    made.turning_chain("own", turning + 1, spaced=flush)
    hook = turning + 1 + ((g or 1) if flush else 0)
    on_chain = pitches - 1 if flush else pitches
    for nth in range(on_chain):
        if nth:
            hook += g
        # the one nearest to the old post is last; the old post, or the edge gap, takes the next one
        outer = 2 * (pitches - 1 - nth) + (0 if flush else 1)
        made.cluster(post.at + outwards * outer, [("own", hook + 1 + dc) for dc in range(k)])
        hook += k
    _needs(hook <= chains + turning, "more dc than chains on a step out")
    if flush:
        made.cluster(post.at, [("post", _number(post))] * k)
    return "spaced" if flush else "flush"


def _landing(
    walk: list[Spot], spaces: list[Spot], clusters: list[list[Spot]], step: int, carrying: int
) -> tuple[str, Spot, int]:
    """Where a step in of ``step`` half pitches puts the post, what kind that makes, and the space after it.

    On a cluster the post stands on the dc numbered ``carrying``, from 0 and from the outside.
    """
    _needs(step >= 2, "a step in goes at least a pitch")
    flush = _flush(walk)
    edge_gaps = 0 if flush else 1
    distance = 0 if flush else 1  # half pitches to the post, then to every cluster and gap in turn
    for nth, cluster in enumerate(clusters):
        distance += 1
        if distance == step:
            return "flush", cluster[carrying], nth + edge_gaps
        distance += 1
        if distance == step and nth + edge_gaps < len(spaces):
            return "spaced", spaces[nth + edge_gaps], nth + edge_gaps + 1
    raise Unworkable("a step in past the end of the row")


def _slip_to(made: Row, walk: list[Spot], target: Spot) -> None:
    """Slip stitches into every stitch after the post up to the target; slits are passed, not worked."""
    for spot in walk[1:]:
        if spot is target:
            into = ("space", spot.at) if spot.what == "space" else ("stitch", _number(spot))
            made.put("sl", *into)
            return
        if spot.nth is not None:
            made.put("sl", "stitch", spot.nth)
    raise Unworkable("nothing to slip to")


def _last_space(
    walk: list[Spot], spaces: list[Spot], clusters: list[list[Spot]], move: str, step: int
) -> tuple[str, int]:
    """The kind a row ends in, and the number of the last space that takes a cluster."""
    flush, last = _flush(walk[::-1]), len(spaces) - 1
    if move == "straight":
        return ("spaced" if flush else "flush"), last
    if move == "decrease":
        _needs(flush, "a decrease needs a flush edge below")
        return "flush", last
    if move == "increase":
        _needs(not flush, "an increase needs a spaced edge below")
        return "spaced", last
    if move == "forced_decrease":
        _needs(not flush, "a forced decrease needs a spaced edge below")
        return "spaced", last - 1
    if move == "forced_increase":
        _needs(flush, "a forced increase needs a flush edge below")
        return "flush", last
    _needs(move == "step_in", f"a row cannot end with {move}")
    kind, _, following = _landing(walk[::-1], spaces[::-1], _backwards(clusters), step, 0)
    return kind, last - following


def _backwards(clusters: list[list[Spot]]) -> list[list[Spot]]:
    return [cluster[::-1] for cluster in clusters[::-1]]


def _end_place(
    walk: list[Spot], spaces: list[Spot], clusters: list[list[Spot]], move: str, step: int, nth: int
) -> tuple[str, int]:
    """What the last dc of a row is worked into."""
    if move == "decrease":
        return "stitch", _number(walk[-2])  # the outermost dc of the last cluster; the post stays unworked
    if move == "forced_decrease":
        return "space", spaces[-1].at
    if move == "step_in":
        _, target, _ = _landing(walk[::-1], spaces[::-1], _backwards(clusters), step, nth)
        return ("space", target.at) if target.what == "space" else ("stitch", _number(target))
    return "post", _number(walk[-1])


def work(piece: dict[str, Any], k: int, g: int) -> list[Worked]:
    """Every row of a piece of plan.json; ``Unworkable`` names the row that cannot be worked."""
    made: list[Worked] = []
    for row in piece["rows"]:
        try:
            made.append(next_row(k, g, row, made[-1]) if made else first_row(k, g, row, piece["foundation_chain"]))
        except Unworkable as error:
            raise Unworkable(f"{piece['name']}, row {row['row']}: {error}") from None
    return made


def differences(piece: dict[str, Any], made: Iterable[Worked]) -> list[str]:
    """Where the plan's words about a row and the row as worked disagree."""
    found = []
    for number, (row, worked) in enumerate(zip(piece["rows"], made, strict=True), start=1):
        says = {
            "row": (row["row"], number),
            "left": (row["left"], worked.left),
            "right": (row["right"], worked.right),
            "left kind": (row["left_edge"], worked.kind("left")),
            "right kind": (row["right_edge"], worked.kind("right")),
            "clusters": (row["clusters"], len(worked.centres)),
            "dc": (row["stitches"]["dc"], worked.count("dc")),
            "ch": (row["stitches"]["ch"], worked.count("ch")),
            "sl st": (row["stitches"]["sl_st"], worked.count("sl")),
            "tch": (row["stitches"]["tch"], worked.count("tch")),
        }
        found += [f"row {number}, {name}: plan {a}, worked {b}" for name, (a, b) in says.items() if a != b]
    return found


# ------------------------------------------------------------------------------------------- random patterns

YARNS = (Yarn("Reed", "#b9b36a"), Yarn("Silt", "#e8dcc4"), Yarn("Kelp", "#2f6b5e"))


def lengths(least: int, most: int) -> st.SearchStrategy[Fraction]:
    """Lengths in quarters of a cm."""
    return st.integers(least * 4, most * 4).map(lambda quarters: Fraction(quarters, 4))


@st.composite
def swatches(draw: st.DrawFn) -> Swatch:
    """A swatch whose pitch is 0.8 to 3.2 rows wide."""
    rows = draw(st.integers(3, 20))
    height = draw(lengths(3, 20))
    clusters = draw(st.integers(3, 16))
    ratio = Fraction(draw(st.integers(8, 32)), 10)
    return Swatch(Fraction(clusters), clusters * ratio * height / rows, Fraction(rows), height)


def gauge(swatch: Swatch) -> tuple[Fraction, Fraction]:
    """The width of a cluster with its gap, and the height of a row."""
    (width, clusters), (height, rows) = (swatch.width, swatch.clusters), (swatch.height, swatch.rows)
    assert None not in (width, clusters, height, rows)
    return Fraction(width) / Fraction(clusters), Fraction(height) / Fraction(rows)  # type: ignore[arg-type]


@st.composite
def outlines(
    draw: st.DrawFn,
    pitch: Fraction,
    row: Fraction,
    most_rows: int,
    most_clusters: int,
    tidy: bool = False,
    least: int = 1,
) -> tuple[tuple[Fraction, Fraction], ...]:
    """Outlines of 2 to 6 points with steps in and out; ``tidy``: no step at the very start or end.

    ``least`` is the smallest width in eighths of a pitch.
    """

    def wide() -> Fraction:
        return pitch * Fraction(draw(st.integers(least, 8 * most_clusters)), 8)

    rises = draw(st.lists(st.sampled_from([0, 0, 1, 2, 3, 5, 8]), min_size=1, max_size=5).filter(any))
    if tidy:
        rises = rises[next(i for i, rise in enumerate(rises) if rise) :]
        rises = rises[: len(rises) - next(i for i, rise in enumerate(reversed(rises)) if rise)]
    # two points may share a height, three may not
    steep = [rise for i, rise in enumerate(rises) if rise or not i or rises[i - 1]]
    steep = steep if any(steep) else [1]
    whole = row * draw(st.integers(4, 4 * most_rows) if tidy else st.integers(16, 4 * most_rows)) / 4
    points = [(Fraction(0), wide())]
    for i in range(len(steep)):
        points.append((whole * sum(steep[: i + 1]) / sum(steep), wide()))
    if steep[-1] and draw(st.integers(0, 3)) == 0:  # the same from the top as from the bottom
        half = [(height / 2, width) for height, width in points]
        points = half + [(whole - height, width) for height, width in reversed(half)][1:]
    return tuple(points)


@st.composite
def patterns(draw: st.DrawFn, most_rows: int = 7, most_clusters: int = 6) -> Pattern:
    """Whole patterns of one or two pieces: panels, slant necks worked sideways, outlines.

    Outlines are two pitches wide and more: small narrow ones are searched to the end in the tests of fitting.
    """
    swatch = draw(swatches())
    pitch, row = gauge(swatch)
    pieces = []
    for name in ("one", "two")[: 1 + (draw(st.integers(0, 3)) == 3)]:
        row_plan = draw(st.sampled_from(["auto", "alike", "alternate"]))
        if draw(st.integers(0, 2)):
            align = draw(st.sampled_from(["centre", "left", "right"]))
            outline = draw(outlines(pitch, row, most_rows, most_clusters, least=16))
            pieces.append(Piece(name, outline=outline, align=align, row_plan=row_plan))
            continue
        height = row * draw(st.integers(10, 4 * most_rows)) / 4
        across = pitch * draw(st.integers(4, 8 * most_clusters)) / 8
        if draw(st.booleans()):
            pieces.append(Piece(name, width=across, length=height, row_plan=row_plan))
            continue
        neck = None
        if draw(st.integers(0, 3)):
            shoulder = height * draw(st.integers(1, 19)) / 40
            neck = Neck(shoulder, across * draw(st.integers(1, 19)) / 20)
        edge = draw(st.sampled_from(["left", "right"]))
        pieces.append(
            Piece(name, "sideways", width=height, length=across, neck=neck, row_plan=row_plan, neck_edge=edge)
        )
    return Pattern(
        title="Random",
        swatches=(swatch,),
        pieces=tuple(pieces),
        fabric=Fabric(draw(st.integers(2, 5)), draw(st.integers(0, 1))),
        yarns=YARNS,
        stripes=Stripes(("Reed", "Silt", "Kelp"), tuple(draw(st.lists(st.integers(1, 3), min_size=1, max_size=3)))),
    )
