"""Recipes read from data files, and refused where they cannot be worked.

In: the data files of the package (``data``), or one beside a pattern; what a pattern says of its fabric. Out: recipes,
or ``UnsoundRecipe`` with the place and the reason. A file is read when a fabric of it is first asked for.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction
from functools import cache
from typing import Any, cast

from turnchain import packaged
from turnchain.fabric.lattice import Kind, Move
from turnchain.fabric.order import RowOrder
from turnchain.fabric.recipe import CHAIN, EdgeTable, KindRule, MoveRule, Recipe, StitchRule
from turnchain.pattern import Fabric, StitchName
from turnchain.records import replace

_NAME = re.compile(r"[a-z][a-z0-9-]*")
MOST_STITCHES, MOST_GAP = 9, 3  # of a unit, between two
STITCH_NAMES = ("sc", "hdc", "dc", "tr")
_STITCHES_ALLOWED = f"stitches are, in US terms, {', '.join(STITCH_NAMES)} and {CHAIN}"
_MOST_LETTERS = 60  # of a value in a message
_KINDS = ("flush", "spaced", "bare")
_PLACE = r"(post|edge|extra|half|tip|(gap|unit) [1-9])"
_PLACES = re.compile(rf"{_PLACE}( \+ {_PLACE})?")
_PLACES_ALLOWED = 'places are post, edge, extra, half, tip, gap 1, unit 1 and so on, or two of them with " + " between'
Shares = tuple[tuple[str, Fraction], ...]
_KEYS = {"edges", "unit", "gap", "edge"}
_FREE_KEYS = {"own", "counts"}


class UnsoundRecipe(Exception):
    """A recipe that cannot be worked: the ``place`` in its file, what was ``found`` there, what is ``allowed``."""

    def __init__(self, place: str, found: str, allowed: str) -> None:
        self.place, self.found, self.allowed = place, found, allowed
        super().__init__(f"{place}: {found}; {allowed}")


@cache
def recipe_of(fabric: Fabric) -> Recipe:
    """The recipe of what a pattern says of its fabric: the one it names, or clusters with their stitch and gap; with
    the kinds of its rows. Raises UnsoundRecipe."""
    return _with_rows(_units_of(fabric), fabric)


def _units_of(fabric: Fabric) -> Recipe:
    if fabric.kind:
        return recipe_from(fabric.kind, dict(fabric.own) or named(fabric.kind))
    name, gap = "open" if fabric.gap else "closed", fabric.gap
    edge = " ".join([CHAIN] * gap) or fabric.stitch
    unit = " ".join([fabric.stitch] * fabric.cluster)
    return recipe_from(name, {**named(name), "unit": unit, "gap": gap, "edge": edge})


def _with_rows(made: Recipe, fabric: Fabric) -> Recipe:
    """The recipe with what a pattern says of its rows, its foundation and its turning chain. Raises UnsoundRecipe where
    units cannot follow solid rows."""
    order = RowOrder(fabric.base, fabric.rows, fabric.last)
    solids = tuple(map(stitch_of, order.solid))
    if not order.plain:
        usual = [(one.name, one.height / made.stitch.height) for one in solids]
        order = replace(order, staggered=_staggered(made, fabric), **_measured(order, dict(usual), fabric))
    stitch = made.stitch
    if fabric.turning_chain is not None:
        stitch = replace(stitch, turning=fabric.turning_chain)
    if fabric.turning_chain_counts is not None:
        stitch = replace(stitch, counts=fabric.turning_chain_counts)
    with_gap = made.gap if made.alternating else 0
    if stitch.counts and stitch.turning + with_gap < 2:
        allowed = "a turning chain that counts as a stitch takes 2 chains at the least"
        raise UnsoundRecipe("turning_chain_counts", f"{stitch.turning} that counts", allowed)
    if made.bare:
        _check_bare(made, stitch, fabric)
    _check_start(made, fabric.start)
    over = None if order.plain else edge_table("staggered" if order.staggered else "stacked").unforced()
    grouped, start = fabric.grouped, fabric.start
    return replace(made, stitch=stitch, solids=solids, order=order, together=grouped, start=start, over=over)


def _check_start(made: Recipe, start: str) -> None:
    """Raises UnsoundRecipe where rows cannot start with such an edge."""
    kinds = [rule.kind for rule in made.table.kinds]
    if start and start not in kinds:
        raise UnsoundRecipe("start", _told(start), f"in this fabric an edge is {' or '.join(map(_told, kinds))}")


def _check_bare(made: Recipe, stitch: StitchRule, fabric: Fabric) -> None:
    """Raises UnsoundRecipe for what clusters without edge stitches cannot have."""
    if not stitch.counts:
        allowed = "without edge stitches the turning chain is the first stitch of a row, so it counts"
        raise UnsoundRecipe("turning_chain_counts", f"{stitch.turning} that do not count", allowed)
    if not RowOrder(fabric.base, fabric.rows, fabric.last).plain:
        raise UnsoundRecipe("rows", made.name, "rows of other stitches go with clusters that have edge stitches")
    if fabric.grouped:
        raise UnsoundRecipe("foundation", '"grouped"', "without edge stitches every stitch has a chain of its own")


def _measured(order: RowOrder, usual: dict[str, Fraction], fabric: Fabric) -> dict[str, Any]:
    """The heights of solid rows, that of a cluster row being 1, and how heavy rows are: as ``usual`` or by swatches of
    their own. What these leave of the whole swatch is shared out among its other rows. Raises UnsoundRecipe where they
    leave nothing."""
    heights, weights = dict(fabric.heights), dict(fabric.weights)
    others = [usual.get(kind, Fraction(1)) for kind in order.rows if kind not in heights]
    known = [heights[kind] for kind in order.rows if kind in heights]
    cluster = (len(order.rows) - sum(known, Fraction(0))) / sum(others, Fraction(0))
    if cluster <= 0:
        raise UnsoundRecipe("rows", "rows as high as their own swatches", "leave no height for the rows of clusters")
    high = {kind: heights.get(kind, usual.get(kind, Fraction(1)) * cluster) for kind in ("cluster", *usual)}
    shares = tuple((kind, high[kind] / cluster) for kind in usual)
    return {"shares": shares, "weights": _weights(order, high, dict(weights))}


def _weights(order: RowOrder, high: Mapping[str, Fraction], own: dict[str, Fraction]) -> Shares:
    """How heavy rows are for their area by their kind, where any has a weight of its ``own``; ``high``: their heights.
    Raises UnsoundRecipe where these leave no weight for the others."""
    if not own:
        return ()
    left = len(order.rows) - sum((high[kind] * own[kind] for kind in order.rows if kind in own), Fraction(0))
    other = left / sum((high[kind] for kind in order.rows if kind not in own), Fraction(0))
    if other <= 0:
        raise UnsoundRecipe("rows", "rows as heavy as their own swatches", "leave no weight for the rows of clusters")
    return tuple((kind, own.get(kind, other)) for kind in high)


def _staggered(made: Recipe, fabric: Fabric) -> bool:
    """Whether units after solid rows stand over gaps. Raises UnsoundRecipe where no stitch lies over the middle of what
    they should stand over."""
    if made.stacked or made.slit:
        allowed = "rows of other stitches go with clusters that are worked into gaps, at their edges too"
        raise UnsoundRecipe("rows", made.name, allowed)
    over = {"staggered": made.gap % 2 == 1, "stacked": made.unit_width % 2 == 1}
    then = fabric.then or ("staggered" if over["staggered"] else "stacked")
    if not over[then]:
        needs = "an odd gap" if then == "staggered" else "an odd number of stitches in a cluster"
        raise UnsoundRecipe("then", _told(then), f"{then} needs {needs}, so that a stitch lies over its middle")
    return then == "staggered"


def named(name: str) -> Mapping[str, Any]:
    """The tables of the package's fabric called ``name``. Raises UnsoundRecipe where there is none."""
    try:
        data = _data(f"fabrics/{name}.toml") if _NAME.fullmatch(name) else {}
    except FileNotFoundError:
        data = {}
    if not data:
        raise UnsoundRecipe("kind", _told(name), f"fabrics are {', '.join(names())}")
    return data


def names() -> tuple[str, ...]:
    """The names of all fabrics of the package, by the alphabet."""
    return _names("fabrics")


def clusters_of(name: str) -> Fabric | None:
    """What a fabric of the package says of its clusters, as a pattern does; None where it is made otherwise. Raises
    UnsoundRecipe where there is none of this ``name``."""
    made = recipe_from(name, named(name))
    if made.stacked:
        return None
    plain = Fabric(made.unit_width, made.gap, cast("StitchName", made.stitch.name))
    return plain if _same(made, recipe_of(plain)) else None


def _same(one: Recipe, other: Recipe) -> bool:
    return replace(one, name="") == replace(other, name="")


def recipe_from(name: str, data: Mapping[str, Any]) -> Recipe:
    """The recipe in the tables of one file, called ``name``. Raises UnsoundRecipe."""
    _check_keys(data)
    unit, filling = _stitches("unit", data["unit"]), _stitches("edge", data["edge"])
    gap = data["gap"]
    if not isinstance(gap, int) or isinstance(gap, bool) or not 0 <= gap <= MOST_GAP:
        raise UnsoundRecipe("gap", _told(gap), f"must be a whole number from 0 to {MOST_GAP}")
    if not unit or CHAIN in (unit[0], unit[-1]):
        raise UnsoundRecipe("unit", _told(data["unit"]), "must begin and end with a stitch")
    table = _table(data["edges"])
    _check_sense(table, unit, gap)
    _check_forms(table, unit, gap, filling)
    stitch, own = stitch_of(unit[0]), data.get("own", True)
    counts = data.get("counts", stitch.counts)
    if not isinstance(counts, bool):
        raise UnsoundRecipe("counts", _told(counts), "must be true or false: whether the turning chain is a stitch")
    stitch = replace(stitch, counts=counts)
    if not isinstance(own, bool) or not (own or stitch.counts):
        allowed = "must be true or false, and false only where the turning chain counts as a stitch, as of dc and tr"
        raise UnsoundRecipe("own", _told(own), allowed)
    return Recipe(name, table, unit, gap, filling, stitch, own=own)


def _table(name: object) -> EdgeTable:
    if not isinstance(name, str):
        raise UnsoundRecipe("edges", _told(name), f"must be one of {', '.join(map(_told, _names('edges')))}")
    return edge_table(name)


def _told(value: object) -> str:
    """A value of a file as a message shows it, on one line and cut after 60 letters."""
    match value:
        case bool():
            return str(value).lower()
        case list():
            return "a list"
        case dict():
            return "a table"
        case str():
            return f'"{_printable(value)}"'
        case int() if abs(value) > 10**_MOST_LETTERS:
            return "a number of very many digits"
        case _:
            return _printable(str(value))


def _printable(text: str) -> str:
    short = text[:_MOST_LETTERS] + "…" * (len(text) > _MOST_LETTERS)
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in short)


def _check_keys(data: Mapping[str, Any]) -> None:
    for key in sorted(_KEYS - set(data)):
        raise UnsoundRecipe(key, "is missing", "a fabric needs edges, unit, gap and edge")
    allowed = _KEYS | _FREE_KEYS
    for key in sorted(set(data) - allowed):
        raise UnsoundRecipe(_printable(key), "is no key of a fabric", f"allowed are {', '.join(sorted(allowed))}")


def _stitches(key: str, words: object) -> tuple[str, ...]:
    found = tuple(words.split()) if isinstance(words, str) else ("",)
    for name in found:
        if name not in (*STITCH_NAMES, CHAIN):
            raise UnsoundRecipe(key, _told(name or words), _STITCHES_ALLOWED)
    if len(found) > MOST_STITCHES:
        raise UnsoundRecipe(key, f"{len(found)} stitches", f"must be {MOST_STITCHES} at most")
    return found


def _check_sense(table: EdgeTable, unit: tuple[str, ...], gap: int) -> None:
    """What the lattice cannot have: units into gaps where there is neither a chain nor room between stitches."""
    if table.into == "gap" and len(unit) == 1 and not gap:
        raise UnsoundRecipe("unit", f"one {unit[0]} without a gap", "worked into a gap it needs a chain beside it")
    if len({name for name in unit if name != CHAIN}) > 1:
        raise UnsoundRecipe("unit", " ".join(unit), "must be of one stitch and chains")


def _check_forms(table: EdgeTable, unit: tuple[str, ...], gap: int, filling: tuple[str, ...]) -> None:
    """What words and charts have forms for."""
    half = unit[: unit.index(CHAIN)] if CHAIN in unit else ()
    inner = unit.count(CHAIN)
    if inner and (table.into != "unit" or unit != (*half, *[CHAIN] * inner, *half)):
        allowed = "chains inside a unit lie in its middle, and such units are worked into one another (stacked)"
        raise UnsoundRecipe("unit", " ".join(unit), allowed)
    if (inner or len(unit) > 1) and table.into == "unit" and gap:
        raise UnsoundRecipe("gap", str(gap), "units of several stitches worked into one another stand side by side (0)")
    if table.into == "unit" and len(unit) > 1 and not inner and len(unit) % 2 == 0:
        raise UnsoundRecipe("unit", " ".join(unit), "needs a middle: an odd number of stitches, or chains between")
    if (len(table.kinds) == 1) != (len(unit) == 1 and table.into == "unit"):
        raise UnsoundRecipe("edges", table.name, "whole is for single stitches, stacked for units of several")
    wanted = (CHAIN,) * gap or (() if len(table.kinds) == 1 else None)
    slit = table.into == "gap" and gap and not filling
    if not slit and filling != wanted and (wanted is not None or set(filling) != {unit[0]}):
        allowed = f"must be of {unit[0]}" if wanted is None else f"must be {_told(' '.join(wanted))}"
        raise UnsoundRecipe("edge", _told(" ".join(filling)), allowed)
    if table.bare and not filling:
        raise UnsoundRecipe("edge", '""', "without edge stitches a space needs chains or a stitch beside its own")
    if table.bare and not gap and len(unit) == len(filling) + 1:
        allowed = "so many stitches without a chain look like an edge stitch with its filling: 3 at the least"
        raise UnsoundRecipe("unit", " ".join(unit), allowed)
    if table.into == "gap" and not gap and len(filling) != 1:
        raise UnsoundRecipe("edge", _told(" ".join(filling)), f"must be one {unit[0]}")


@cache
def stitch_of(name: str) -> StitchRule:
    """The stitch called ``name``. Raises UnsoundRecipe for an unknown one."""
    found = _data("stitches.toml").get(name)
    if found is None:
        raise UnsoundRecipe("stitch", _told(name), _STITCHES_ALLOWED)
    return StitchRule(name, found["turning"], found["counts"], Fraction(found["height"]))


def row_of_sc(fabric: Fabric) -> Fraction:
    """How high a row of single crochet along an edge is, in rows of the gauge: by a swatch of its own, else by its
    stitch. Raises UnsoundRecipe."""
    made = recipe_of(fabric)
    return dict(fabric.heights).get("sc", stitch_of("sc").height / made.stitch.height / made.order.mean)


@cache
def edge_table(name: str) -> EdgeTable:
    """The edge table called ``name``. Raises UnsoundRecipe where there is none, or it cannot be worked."""
    try:
        data = _data(f"edges/{name}.toml") if _NAME.fullmatch(name) else {}
    except FileNotFoundError:
        data = {}
    if not data:
        raise UnsoundRecipe("edges", _told(name), f"edge tables are {', '.join(_names('edges'))}")
    return edge_table_from(name, data)


def edge_table_from(name: str, data: Mapping[str, Any]) -> EdgeTable:
    """The edge table in the tables of one file, called ``name``. Raises UnsoundRecipe."""
    if data["into"] not in ("gap", "unit") or data["shift"] not in (0, 1):
        raise UnsoundRecipe(name, f"into {data['into']}, shift {data['shift']}", "into gap or unit, shift 0 or 1")
    kinds = tuple(KindRule(cast(Kind, kind), one["first"], kind != "bare") for kind, one in data["kind"].items())
    firsts = {rule.kind: rule.first for rule in kinds}
    if not firsts.keys() <= set(_KINDS) or sorted(firsts.values()) not in ([1, 2], [2]):
        raise UnsoundRecipe(f"{name}, kind", str(firsts), f"kinds are {', '.join(_KINDS)}, each 1 or 2 from its edge")
    _check_kinds(name, data["move"], firsts)
    moves = tuple(_move(name, one) for one in data["move"])
    _check_moves(name, moves, firsts, data["shift"])
    return EdgeTable(name, data["into"], data["shift"], kinds, moves)


def _move(table: str, one: Mapping[str, Any]) -> MoveRule:
    name, below = str(one["name"]), one["from"]
    place = f"{table}, {name} from {below}"
    if not isinstance(one["by"], int) or not isinstance(one["cost"], int) or one["cost"] < 0:
        raise UnsoundRecipe(place, f"by {one['by']}, cost {one['cost']}", "whole numbers, the cost not below 0")
    move = cast(Move, name.replace(" ", "_"))
    found = {key: one.get(key, "") for key in ("unit", "start", "end")}
    none = () if one["to"] != "bare" else ("start", "end")
    for key, value in found.items():
        if key in none and value:
            raise UnsoundRecipe(place, f"{key} {_told(value)}", "a bare edge has no edge stitch to be worked")
        if key not in none and (not isinstance(value, str) or not _PLACES.fullmatch(value)):
            raise UnsoundRecipe(place, f"{key} {_told(value)}", _PLACES_ALLOWED)
    return MoveRule(move, below, one["to"], one["by"], one["cost"], found["unit"], found["start"], found["end"])


def _check_kinds(name: str, moves: Iterable[Mapping[str, Any]], firsts: Mapping[Kind, int]) -> None:
    for one in moves:
        if not {one["from"], one["to"]} <= firsts.keys():
            place = f"{name}, {one['name']} from {one['from']}"
            raise UnsoundRecipe(place, f"{one['from']} to {one['to']}", f"its kinds are {', '.join(firsts)}")


def _check_moves(name: str, moves: tuple[MoveRule, ...], firsts: Mapping[Kind, int], shift: int) -> None:
    seen: set[tuple[Kind, int]] = set()
    for rule in moves:
        place = f"{name}, {rule.name.replace('_', ' ')} from {rule.below}"
        if (rule.below, rule.by) in seen:
            raise UnsoundRecipe(place, f"by {rule.by} again", "one move from a kind by one way")
        if (firsts[rule.below] + rule.by + shift - firsts[rule.to]) % 2:
            raise UnsoundRecipe(place, f"by {rule.by} to {rule.to}", "no unit stands where that kind has its first")
        seen.add((rule.below, rule.by))


@cache
def _data(name: str) -> Mapping[str, Any]:
    """The tables of a data file of the package."""
    import tomllib  # loaded when a fabric is first asked for

    return tomllib.loads(packaged.file("fabric", "data", name).read_text("utf-8"))


@cache
def _names(folder: str) -> tuple[str, ...]:
    files = packaged.file("fabric", "data", folder).iterdir()
    return tuple(sorted(file.name.removesuffix(".toml") for file in files if file.name.endswith(".toml")))
