"""Random pattern files, as makers could write them: every key there is, every kind of stripes, pieces of every form.

In: a seed. Out: a ``File``: the tables of a pattern and, from ``written``, its TOML text. The same file can be written
down in other ways: in inches, larger by a factor, the other way round, in other terms. Lengths are whole eighths of an
inch, which inches and centimetres both hold exactly.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from fractions import Fraction
from random import Random
from typing import Any, Literal, TypeAlias

from turnchain import sizes
from turnchain.records import replace

EIGHTH = Fraction("2.54") / 8
Table: TypeAlias = dict[str, Any]

SHAPES = ("slant", "round", "vee", "square")
TITLES = (
    "Curlew Ness wrap", "Alder & Sons <tank>", 'A "quoted" shawl', "Back`tick_and*star", "Grün, ночь, 漢字 🧶",
    "5 % more [link](x)", "#1", "]]>", "\\ backslash \\", "e\u0301 and a very long title that goes on and on " * 3,
)  # fmt: skip
NAMES = (
    "front", "front-short", "front-row-1-left", "stripes", "schematic", "body", "pattern", "beside", "Ärmel 2", "a",
    "row 3", "2", "first shoulder", "x" * 40, "cl", "k-_ -",
)  # fmt: skip
YARNS = (
    ("Reed", "#b9b36a"), ("Silt", "#e8dcc4"), ("Kelp, wet (2)", "#2f6b5e"), ("dc", "#6f8aa3"), ("<b>&", "#000000"),
    ("rows 1-3", "#ffffff"), ("weiß: hell", "#fefefe"), ("in Sand", "#7a2f2f"),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Cm:
    """A length of the file; one ``of_body`` stays as it is when the pattern is made larger."""

    cm: Fraction
    of_body: bool = False


@dataclass(frozen=True, slots=True)
class File:
    """The tables of a pattern file, lengths as ``Cm``; ``seed`` also decides how the lengths are spelt."""

    seed: int
    tables: Table
    units: Literal["cm", "in"] = "cm"
    factor: Fraction = Fraction(1)

    @property
    def text(self) -> str:
        """The TOML text."""
        return _toml(self)

    def in_units(self, units: Literal["cm", "in"]) -> File:
        """The same lengths in other units."""
        return replace(self, units=units)

    def larger(self, factor: Fraction) -> File:
        """Swatch and measures larger by ``factor``, a swatch heavier by its area: the same stitches."""
        swatches = self.tables["swatch"]
        some = [_heavier(one, factor) for one in (swatches if isinstance(swatches, list) else [swatches])]
        tables = {**self.tables, "swatch": some if isinstance(swatches, list) else some[0]}
        return replace(self, tables=tables, factor=factor)

    def mirrored(self) -> File:
        """Left and right changed about."""
        tables = {**self.tables, "piece": [_mirrored(piece) for piece in self.tables["piece"]]}
        if "seam" in tables:
            tables["seam"] = [{"join": [_other_edge(edge) for edge in seam["join"]]} for seam in tables["seam"]]
        return replace(self, tables=tables)

    def with_(self, **tables: Any) -> File:
        """The file with other values at its top."""
        return replace(self, tables={**self.tables, **tables})


def _heavier(swatch: Table, factor: Fraction) -> Table:
    return {**swatch, "weight": swatch["weight"] * factor**2} if "weight" in swatch else swatch


_OTHER = {"left": "right", "right": "left"}


def _other_edge(edge: str) -> str:
    piece, _, name = edge.rpartition(".")
    return f"{piece}.{_OTHER.get(name, name)}"


def _mirrored(piece: Table) -> Table:
    made = {key: _OTHER.get(value, value) if isinstance(value, str) else value for key, value in piece.items()}
    made["name"] = piece["name"]
    if "left_outline" in piece:
        made |= {"left_outline": piece["right_outline"], "right_outline": piece["left_outline"]}
    if piece.get("worked") == "sideways" and "neck_edge" not in piece and "faces" not in piece:
        made["neck_edge"] = "left"
    return made


# ------------------------------------------------------------------------------------------------ the TOML text


def _toml(file: File) -> str:
    rng = Random(file.seed)
    plain = {key: value for key, value in file.tables.items() if not _heading(value)}
    lines = [f'units = "{file.units}"', *_keys(file, plain, rng)]
    for key, value in file.tables.items():
        for table in value if isinstance(value, list) and _heading(value) else [value] if _heading(value) else []:
            lines += ["", f"[[{key}]]" if isinstance(value, list) else f"[{key}]", *_keys(file, table, rng)]
    return "\n".join(lines) + "\n"


def _heading(value: object) -> bool:
    tables = value if isinstance(value, list) and value else [value]
    return all(isinstance(one, dict) for one in tables)


def _keys(file: File, table: Table, rng: Random) -> list[str]:
    return [f"{key} = {_value(file, value, rng)}" for key, value in table.items()]


def _value(file: File, value: object, rng: Random) -> str:
    match value:
        case bool():
            return str(value).lower()
        case Cm():
            return _spelt(value.cm * (1 if value.of_body else file.factor), file.units, rng)
        case Fraction():
            return _decimal(value)
        case str():
            return json.dumps(value, ensure_ascii=False)
        case list():
            return f"[{', '.join(_value(file, one, rng) for one in value)}]"
        case dict():
            return f"{{ {', '.join(_keys(file, value, rng))} }}"
    return str(value)


def _spelt(cm: Fraction, units: str, rng: Random) -> str:
    """A length bare, or in quotes with a unit of its own."""
    inches = cm / Fraction("2.54")
    kind = rng.randrange(8)
    if kind == 0 and cm >= 0:
        return f'"{_decimal(10 * cm)} mm"'
    if kind == 1 and cm >= 0 and (inches * 8).denominator == 1:
        whole, over = divmod(int(inches * 8), 8)
        return f'"{f"{whole} " if whole else ""}{f"{over}/8" if over or not whole else ""} in"'.replace("  ", " ")
    if kind == 2:
        return f'"{_decimal(cm)}cm"'
    return _decimal(cm if units == "cm" else inches)


def _decimal(number: Fraction) -> str:
    """A number that ends, written out."""
    shifted, places = number, 0
    while shifted.denominator != 1:
        shifted, places = shifted * 10, places + 1
        assert places < 20, f"{number} has no end"
    digits = f"{abs(int(shifted)):0{places + 1}d}"
    head, tail = (digits[:-places], digits[-places:]) if places else (digits, "")
    return f"{'-' if number < 0 else ''}{head}{f'.{tail}' if tail else ''}"


# ------------------------------------------------------------------------------------------------ random tables


@dataclass(frozen=True, slots=True)
class _Gauge:
    """The gauge that lengths are chosen by, so that pieces come out small: cm of a pitch and of a row."""

    pitch: Fraction
    row: Fraction


def file_at(seed: int, rows: int = 18, clusters: int = 8) -> File:
    """The pattern file of a seed, its pieces about as large as that."""
    rng = Random(seed)
    swatches, gauge = _swatches(rng)
    yarns = _yarns(rng)
    tables: Table = {"title": rng.choice(TITLES), **_said(rng), "terms": rng.choice(("US", "UK"))}
    tables["swatch"] = swatches
    tables["fabric"] = {"cluster": rng.choice([2, 3, 3, 4, 5]), "gap": rng.randint(0, 1)}
    if yarns:
        tables["yarn"] = yarns
    weighed = any("weight" in one for one in swatches)
    if yarns and rng.random() < 0.85:
        tables["stripes"] = _stripes(rng, yarns, weighed)
    if rng.random() < 0.3:
        tables["allowance"] = _some(rng, margin=Fraction(rng.randint(0, 40)), tail=Cm(EIGHTH * rng.randint(0, 60)))
    if rng.random() < 0.4:
        tables["wearer"] = _wearer(rng)
    tables["piece"] = _pieces(rng, gauge, rows, clusters, yarns)
    if seams := _seams(rng, tables["piece"]):
        tables["seam"] = seams
    if rng.random() < 0.2:
        tables["progress"] = [_progress(rng, gauge, rng.choice(tables["piece"]))]
    return File(seed, tables, rng.choice(("cm", "in")))


def _some(rng: Random, **keys: Any) -> Table:
    """Some of the keys."""
    return {key: value for key, value in keys.items() if rng.random() < 0.6}


def _eighths(cm: Fraction) -> Cm:
    return Cm(EIGHTH * max(1, round(cm / EIGHTH)))


def _said(rng: Random) -> Table:
    return _some(
        rng, by=rng.choice(["Saltmarsh Studio", "<i>A & B</i>", ""]), link="https://example.org/?a=1&b=<2>",
        licence="CC BY 4.0", date="2024-05-31", note=rng.choice(["A *first* try", "_", "x " * 200]),
    )  # fmt: skip


def _swatches(rng: Random) -> tuple[list[Table], _Gauge]:
    """One to three readings; a pitch of 1 to 3 cm, 1.2 to 3 rows wide."""
    clusters, rows = rng.randint(4, 14), rng.randint(8, 24)
    wide = EIGHTH * round(clusters * Fraction(rng.randint(8, 24), 8) / EIGHTH)
    gauge_row = wide / clusters / Fraction(rng.randint(12, 30), 10)
    high = EIGHTH * max(1, round(rows * gauge_row / EIGHTH))
    found = []
    for nth in range(rng.choice([1, 1, 1, 2, 3])):
        off = nth * rng.randint(-1, 1)
        one: Table = {"clusters": clusters, "width": Cm(wide + EIGHTH * off), "rows": rows, "height": Cm(high)}
        if rng.random() < 0.6:
            one["weight"] = Fraction(rng.randint(40, 500), 10)
            if rng.random() < 0.5:
                one["weighed"] = [Cm(wide + EIGHTH * rng.randint(1, 20)), Cm(high + EIGHTH * rng.randint(1, 20))]
        if rng.random() < 0.5:
            one["hook"] = Fraction(rng.randint(4, 20), 2)
        found.append(one)
    return found, _Gauge(wide / clusters, high / rows)


def _yarns(rng: Random) -> list[Table]:
    chosen = rng.sample(YARNS, rng.choice([0, 1, 2, 3, 3, 4, 5, 8]))
    weighty = rng.random() < 0.5  # stocks for all or for some
    made = []
    for name, colour in chosen:
        yarn: Table = {"name": name, "colour": colour}
        if weighty or rng.random() < 0.3:
            yarn["stock"] = Fraction(rng.choice([0, 10, 50, 100, 400, 2000]))
        yarn |= _some(rng, metres_per_100g=Fraction(rng.randint(80, 500)), ball=Fraction(rng.choice([25, 50, 100])))
        if rng.random() < 0.2:
            yarn["keep"] = Fraction(rng.randint(0, 40))
        made.append(yarn)
    return made


def _stripes(rng: Random, yarns: list[Table], weighed: bool, own: bool = False) -> Table:
    names = [yarn["name"] for yarn in yarns]
    order = [rng.choice(names) for _ in range(rng.randint(1, 6))]
    kinds = ["list", "list", "mirrored", "numbers"]
    if len(names) > 1:
        kinds += ["gradual", "random", "between", "numbers crossing"]
        if weighed and not own and any(yarn.get("stock") for yarn in yarns):
            kinds += ["stash", "stash"]
    kind = rng.choice(kinds)
    made: Table = {"kind": kind.split()[0]}
    heights = rng.choice([1, 2, 3, [rng.randint(1, 4) for _ in range(rng.randint(1, 5))]])
    spread = rng.sample(names, rng.randint(2, len(names))) if len(names) > 1 else order
    match kind:
        case "list":
            made |= {"order": order, "rows": heights}
        case "mirrored":
            made |= {"order": order, "rows": heights, "begin": rng.choice(["edge", "middle"])}
        case "numbers" | "numbers crossing":
            crossing = kind != "numbers"
            run = "crossing" if crossing else rng.choice(["rising", "falling", "there and back"])
            made |= {"order": spread if crossing else order, "run": run}
            made |= rng.choice([{}, {"most": rng.randint(1, 13)}, {"numbers": [1, 1, 2, 3, 5]}, {"numbers": [2]}])
        case "gradual":
            made |= {"order": spread, **_some(rng, block=rng.randint(2, 10), even=rng.random() < 0.5)}
        case "random":
            made |= {"order": spread, "seed": rng.randint(0, 99), **_between_heights(rng)}
        case "between":
            made |= {"order": [one for one in spread if one != spread[0]] * 2, "between": spread[0]}
            made |= _some(rng, between_rows=rng.randint(1, 3), every=rng.randint(1, 3), rows=heights)
        case "stash":
            made |= _stash_order(rng, yarns) | _between_heights(rng)
    if rng.random() < 0.4:
        made["carry"] = rng.randint(0, 8)
    return made


def _between_heights(rng: Random) -> Table:
    least = rng.randint(1, 3)
    return _some(rng, least=least, most=least + rng.randint(1, 4), even=rng.random() < 0.5)


def _stash_order(rng: Random, yarns: list[Table]) -> Table:
    stocked = [yarn["name"] for yarn in yarns if "stock" in yarn]
    if len(stocked) < 2 or rng.random() < 0.3:
        return {}
    made: Table = {"order": stocked}
    return made | ({"use_up": [rng.choice(stocked)]} if rng.random() < 0.4 else {})


def _wearer(rng: Random) -> Table:
    own = {
        name: Cm(EIGHTH * round(rng.randint(least, most) / EIGHTH + Fraction(1, 2)), of_body=True)
        for name, (least, most) in sizes.POSSIBLE.items()
        if rng.random() < 0.25 and not name.endswith("_length")
    }
    if own and rng.random() < 0.5:
        return own
    table = rng.choice(("woman", "child"))
    rows: dict[str, Any] = next(rows for name, rows in sizes.tables().items() if name == table)
    return {"table": table, "size": rng.choice(list(rows)), **own}


# --------------------------------------------------------------------------------------------------- the pieces


def _pieces(rng: Random, gauge: _Gauge, rows: int, clusters: int, yarns: list[Table]) -> list[Table]:
    top = rng.random() < 0.35
    made = list(_top(rng, gauge, rows, clusters)) if top else [_piece(rng, gauge, rows, clusters)]
    while rng.random() < 0.35 and len(made) < 4:
        made.append(_piece(rng, gauge, rows, clusters))
    names = rng.sample(NAMES, len(made)) if rng.random() < 0.3 else ["front", "back", "sleeve", "strip", "edging"]
    for piece, name in zip(made, names, strict=False):
        piece["name"] = name
        if yarns and rng.random() < 0.15:
            piece["stripes"] = _stripes(rng, yarns, weighed=False, own=True)
        if rng.random() < 0.15:
            piece["stripes_begin"] = rng.randint(1, 9)
    if top:
        made[1]["faces"] = made[0]["name"]
    return made


def _top(rng: Random, gauge: _Gauge, rows: int, clusters: int) -> list[Table]:
    """A front and a back worked sideways, as wide and long as each other."""
    front = _panel(rng, gauge, rows, clusters, "sideways", neck=True)
    back = {**front, "neck": {**front["neck"], "depth": _eighths(front["neck"]["depth"].cm / 3)}}
    back.pop("neck_edge", None)
    return [front, back]


def _piece(rng: Random, gauge: _Gauge, rows: int, clusters: int) -> Table:
    form = rng.random()
    if form < 0.45:
        worked = rng.choice(("sideways", "upwards"))
        return _panel(rng, gauge, rows, clusters, worked, neck=rng.random() < 0.6)
    if form < 0.8:
        return _outline(rng, gauge, rows, clusters)
    return _apart(rng, gauge, rows, clusters)


def _panel(rng: Random, gauge: _Gauge, rows: int, clusters: int, worked: str, neck: bool) -> Table:
    high, across = gauge.row * _part(rng, rows), gauge.pitch * _part(rng, clusters)
    width, length = (high, across) if worked == "sideways" else (across, high)
    made: Table = {"name": "", "width": _eighths(width), "length": _eighths(length), "worked": worked}
    if neck:
        shoulder = _eighths(width * Fraction(rng.randint(4, 17), 40))
        depth = _eighths(length * Fraction(rng.randint(1, 28), 40))
        made["neck"] = {"shoulder": shoulder, "depth": depth, "shape": rng.choice(SHAPES)}
    if worked == "sideways" and rng.random() < 0.5:
        made["neck_edge"] = rng.choice(("left", "right"))
    return made | _more(rng)


def _part(rng: Random, most: int) -> Fraction:
    return Fraction(rng.randint(12, 8 * most), 8)


def _more(rng: Random) -> Table:
    made: Table = {"count": rng.randint(2, 3)} if rng.random() < 0.3 else {}
    if rng.random() < 0.1:  # another plan than the nearest, often far from it
        made |= _some(rng, exact_rows=rng.randint(2, 20), exact_clusters=rng.randint(1, 8))
    return made | ({"row_plan": rng.choice(("alike", "alternate"))} if rng.random() < 0.4 else {})


def _outline(rng: Random, gauge: _Gauge, rows: int, clusters: int) -> Table:
    high = gauge.row * _part(rng, rows)
    points = _curve(rng, high, gauge.pitch, clusters)
    made: Table = {"name": "", "outline": points, **_more(rng)}
    if rng.random() < 0.5:
        made["align"] = rng.choice(("centre", "left", "right"))
    if rng.random() < 0.15:
        top = points[-1][1].cm
        shoulder, depth = _eighths(top * Fraction(rng.randint(6, 17), 40)), _eighths(high * Fraction(1, 3))
        made["neck"] = {"shoulder": shoulder, "depth": depth, "shape": rng.choice(SHAPES)}
    return made


def _apart(rng: Random, gauge: _Gauge, rows: int, clusters: int) -> Table:
    high = gauge.row * _part(rng, rows)
    left, right = (_curve(rng, high, gauge.pitch, max(2, clusters // 2)) for _ in range(2))
    return {"name": "", "left_outline": left, "right_outline": right, **_more(rng)}


def _curve(rng: Random, high: Fraction, unit: Fraction, widest: int) -> list[list[Cm]]:
    """Points from height 0 up; two may share a height: a step."""
    end = max(1, round(high / EIGHTH))
    inside = sorted(rng.randint(1, max(1, end - 1)) for _ in range(rng.randint(0, 3)))
    heights = [0, *(one for nth, one in enumerate(inside) if inside[:nth].count(one) < 2 and 0 < one < end), end]
    return [[Cm(EIGHTH * height), _eighths(unit * _part(rng, widest))] for height in heights]


def _seams(rng: Random, pieces: list[Table]) -> list[Table]:
    if rng.random() < 0.75:
        return []
    ends = [f"{piece['name']}.{edge}" for piece in pieces for edge in _edges(piece)]
    pairs = [(rng.choice(ends), rng.choice(ends)) for _ in range(rng.randint(1, 4))]
    # no seam twice, no edge to itself, no shoulders to a neck
    seams = {
        frozenset(pair): list(pair) for pair in pairs
        if pair[0] != pair[1] and {one.rpartition(".")[2] for one in pair} != {"shoulder", "neck"}
    }  # fmt: skip
    return [{"join": join} for join in seams.values()]


def _edges(piece: Table) -> tuple[str, ...]:
    neck = ("shoulder", "neck") if "neck" in piece else ()
    sides = ("lower", "upper") if piece.get("worked") == "sideways" else ("left", "right")
    return ("first", "last", *sides, *neck)


def _progress(rng: Random, gauge: _Gauge, piece: Table) -> Table:
    worked = rng.randint(1, 9)
    off = Fraction(rng.randint(85, 115), 100)
    return {"piece": piece["name"], "rows": worked, "height": _eighths(worked * gauge.row * off)}


# --------------------------------------------------------------------------------------------------- slips of makers

_SLIPS: tuple[Any, ...] = (
    -1, 0, 10**9, 10**30, Fraction(1, 10**8), "", "front", "12 parsecs", [], [[]], {}, True, "24 in", "1/0 in",
    "#ffffff", "nan", [1, 2], ["Reed"], {"a": 1}, "\u202e", "x" * 3000,
)  # fmt: skip


def slipped_at(seed: int) -> File:
    """The file of a seed with one slip: a value that is another, or a key left out or misspelt."""
    file, rng = file_at(seed), Random(-seed)
    tables = json_like(file.tables)
    table, key = rng.choice(list(_places(tables)))
    kind = rng.random()
    if kind < 0.6:
        table[key] = rng.choice(_SLIPS)
    elif kind < 0.8 or not isinstance(key, str):
        del table[key]
    else:
        table[f"{key}s"] = table.pop(key)
    return replace(file, tables=tables)


def json_like(value: Any) -> Any:
    """A copy with lists and tables of its own."""
    if isinstance(value, dict):
        return {key: json_like(one) for key, one in value.items()}
    return [json_like(one) for one in value] if isinstance(value, list) else value


def _places(value: Any) -> Any:
    """Every place in the tables: the table or list, and the key or index."""
    for key, one in list(value.items() if isinstance(value, dict) else enumerate(value)):
        yield value, key
        if isinstance(one, dict | list):
            yield from _places(one)
