"""Random garments, as makers could write them: bodies worked upwards or sideways with parts by their names, whole or
in two halves, sleeves with or without caps, edgings, seams of their own with wishes for their stripes, fabrics of every
kind that can be shaped, stripes of any kind, pieces begun.

In: a seed. Out: a ``File`` as ``random_files`` has it, whose single pieces have none of these.
"""

from __future__ import annotations

from fractions import Fraction
from random import Random
from typing import Any

from random_files import EIGHTH, Cm, File, Table, _eighths, _Gauge, _some, _stripes, _swatches, _wearer, _yarns

#: Fabrics whose edges can be shaped; "" is one of clusters.
KINDS = ("", "", "", "closed", "moss", "v", "shell", "mesh", "solid-dc", "double-v")
NECKS = ("round", "vee", "square", "slant")


def garment_at(seed: int) -> File:
    """The garment of a seed, its pieces some twenty rows high."""
    return _garment(seed, sideways=False)


def sideways_garment_at(seed: int) -> File:
    """The same with bodies and sleeves worked sideways, some thirty rows from side to side."""
    return _garment(seed, sideways=True)


def _garment(seed: int, sideways: bool) -> File:
    rng = Random(seed)
    swatches, gauge = _swatches(rng)
    yarns = _yarns(rng)
    kind = rng.choice(KINDS)
    tables: Table = {"title": "Sanderling top", "terms": rng.choice(("US", "UK")), "swatch": swatches}
    clusters = {"cluster": rng.choice([2, 3, 3, 4]), "gap": rng.randint(0, 1), **_some(rng, stitch="hdc")}
    tables["fabric"] = {"kind": kind} if kind else clusters
    if yarns:
        tables["yarn"] = yarns
        tables["stripes"] = _stripes(rng, yarns, any("weight" in one for one in swatches))
    if rng.random() < 0.2:
        tables["wearer"] = _wearer(rng)
    made = _sideways_pieces if sideways else _pieces
    tables["piece"] = made(rng, gauge, bool(yarns), bool(kind))
    if seams := _seams(rng, tables["piece"], bool(yarns)):
        tables["seam"] = seams
    if rng.random() < 0.5:
        tables["edging"] = _edgings(rng, yarns, bool(seams))
    if rng.random() < 0.2:
        piece, rows = rng.choice(tables["piece"]), rng.randint(1, 6)
        off = Fraction(rng.randint(85, 115), 100)
        tables["progress"] = [{"piece": piece["name"], "rows": rows, "height": _eighths(rows * gauge.row * off)}]
    return File(seed, tables, rng.choice(("cm", "in")))


def _pieces(rng: Random, gauge: _Gauge, striped: bool, alike: bool) -> list[Table]:
    wide, high = gauge.pitch * Fraction(rng.randint(48, 80), 8), gauge.row * Fraction(rng.randint(120, 192), 8)
    body: Table = {"width": _eighths(wide), "length": _eighths(high), **_parts(rng, wide, high)}
    if not alike and rng.random() < 0.3:
        body["row_plan"] = rng.choice(("alike", "alternate"))
    front = {"name": "front", **body, "neck": _neck(rng, wide, high, Fraction(1, 3))}
    back = {"name": "back", **body, **({"neck": _neck(rng, wide, high, Fraction(1, 8))} if rng.random() < 0.5 else {})}
    made = [back, front]
    if rng.random() < 0.35:  # in two halves
        made = [back, *_halves(rng, front, gauge.pitch)]
    if rng.random() < 0.5:
        made.append(_sleeve(rng, gauge, body, made))
    for piece in made:
        if striped and rng.random() < 0.2 and "mirror" not in piece:
            piece["stripes_begin"] = rng.randint(1, 6)
    return made


def _halves(rng: Random, front: Table, overlap: Fraction) -> list[Table]:
    """The two halves of a front that opens, which lie over one another by ``overlap`` cm or as far as is usual."""
    half = {key: value for key, value in front.items() if key != "row_plan"}
    half |= {"name": "left front", "front": {"side": "left", **_some(rng, overlap=_eighths(overlap))}}
    return [half, {"name": "right front", "mirror": "left front"}]


def _sideways_pieces(rng: Random, gauge: _Gauge, striped: bool, alike: bool) -> list[Table]:
    wide, high = gauge.row * Fraction(rng.randint(200, 320), 8), gauge.pitch * Fraction(rng.randint(56, 96), 8)
    body: Table = {"worked": "sideways", "width": _eighths(wide), "length": _eighths(high), **_parts(rng, wide, high)}
    body.pop("taper", None)
    if not alike and rng.random() < 0.3:
        body["row_plan"] = rng.choice(("alike", "alternate"))
    edge: Table = {"neck_edge": rng.choice(("left", "right"))} if rng.random() < 0.3 else {}
    front = {"name": "front", **body, **edge, "neck": _neck(rng, wide, high, Fraction(1, 3))}
    back = {"name": "back", **body, **({"neck": _neck(rng, wide, high, Fraction(1, 8))} if rng.random() < 0.6 else {})}
    if "neck" in back and rng.random() < 0.3:
        for piece in (front, back):
            piece["shoulder_slope"] = _eighths(gauge.pitch * Fraction(rng.randint(4, 12), 8))
    made = [back, front]
    if rng.random() < 0.4:  # in two halves
        made = [back, *_halves(rng, front, gauge.row)]
    elif rng.random() < 0.4:
        back["faces"] = "front"
    if rng.random() < 0.5:
        made.append(_sideways_sleeve(rng, gauge, body, made))
    return made


def _sideways_sleeve(rng: Random, gauge: _Gauge, body: Table, others: list[Table]) -> Table:
    made: Table = {"name": "sleeve", "count": 2, "length": _eighths(gauge.pitch * Fraction(rng.randint(24, 56), 8))}
    if "armhole" not in body or rng.random() < 0.3:
        wide = _eighths(gauge.row * rng.randint(12, 24))
        return made | {"worked": rng.choice(("sideways", "upwards")), "width": wide}
    names = [piece["name"] for piece in others if "mirror" not in piece]
    made |= {"width": Cm(body["armhole"]["depth"].cm * Fraction(rng.randint(14, 19), 10)), "cap": {"into": names}}
    return made | {"worked": rng.choice(("sideways", "sideways", "upwards"))}


def _parts(rng: Random, wide: Fraction, high: Fraction) -> Table:
    made: Table = {}
    if rng.random() < 0.7:
        made["armhole"] = {
            "depth": _eighths(high * Fraction(rng.randint(30, 45), 100)),
            "width": _eighths(wide * Fraction(rng.randint(4, 14), 100)),
            "shape": rng.choice(("square", "curved")),
        }
    if rng.random() < 0.3:
        end = _eighths(high * Fraction(rng.randint(25, 45), 100))
        made["taper"] = {"width": _eighths(wide * Fraction(rng.randint(85, 112), 100)), "end": end}
    if rng.random() < 0.25:
        made["slit"] = _eighths(high * Fraction(rng.randint(5, 20), 100))
    return made


def _neck(rng: Random, wide: Fraction, high: Fraction, deep: Fraction) -> Table:
    shoulder = _eighths(wide * Fraction(rng.randint(22, 34), 100))
    return {"shoulder": shoulder, "depth": _eighths(high * deep * Fraction(rng.randint(5, 10), 10)),
            "shape": rng.choice(NECKS)}  # fmt: skip


def _sleeve(rng: Random, gauge: _Gauge, body: Table, others: list[Table]) -> Table:
    made: Table = {"name": "sleeve", "count": 2}
    if "armhole" in body:
        names = [piece["name"] for piece in others if "mirror" not in piece]
        made |= {"width": Cm(body["armhole"]["depth"].cm * 2), "length": _eighths(gauge.row * rng.randint(6, 14))}
        return made | ({"cap": {"into": names}} if rng.random() < 0.7 else {})
    return made | {"width": _eighths(gauge.pitch * Fraction(rng.randint(24, 48), 8)),
                   "length": _eighths(gauge.row * rng.randint(5, 12))}  # fmt: skip


def _seams(rng: Random, pieces: list[Table], striped: bool) -> list[Table]:
    """Seams of whole edges, with and without a wish; none: those that are assumed."""
    names = [piece["name"] for piece in pieces]
    if rng.random() < 0.6 or "front" not in names:
        return []
    if pieces[0].get("worked") == "sideways":
        return _sideways_seams(rng, names, pieces, striped)
    made: list[dict[str, Any]] = [{"join": ["front.left", "back.right"]}, {"join": ["front.right", "back.left"]}]
    if rng.random() < 0.3:
        made = [{"join": ["front.left", "back.left"]}]
    if "neck" in pieces[0] and rng.random() < 0.6:
        made.append({"join": ["front.shoulder", "back.shoulder"]})
    if "sleeve" in names and "cap" not in pieces[-1] and rng.random() < 0.5:
        made.append({"join": ["sleeve.left", "sleeve.right"]})
    for seam in made:
        if striped and "shoulder" not in seam["join"][0] and rng.random() < 0.7:
            seam["stripes"] = rng.choice(("meet", "differ"))
    return made


def _sideways_seams(rng: Random, names: list[Any], pieces: list[Table], striped: bool) -> list[Table]:
    made: list[dict[str, Any]] = [{"join": ["front.first", "back.last"]}, {"join": ["front.last", "back.first"]}]
    if "neck" in pieces[0]:
        made.append({"join": ["front.shoulder", "back.shoulder"]})
        if striped and rng.random() < 0.4:
            made[-1]["stripes"] = rng.choice(("meet", "differ"))
    if "sleeve" in names and pieces[-1]["worked"] == "sideways" and rng.random() < 0.5:
        made.append({"join": ["sleeve.first", "sleeve.last"]})
    return made


def _edgings(rng: Random, yarns: list[Table], own: bool) -> list[Table]:
    edges: list[Any] = ["all", "all", "neck", ["neck", "armhole"], "lower edge", ["front.left"] if own else "cuff"]
    made: Table = {"edges": rng.choice(edges), "rows": rng.randint(1, 4), "stitch": rng.choice(("sc", "hdc", "dc"))}
    if yarns and rng.random() < 0.5:
        made["yarn"] = rng.choice(yarns)["name"]
    if made["rows"] > 2 and rng.random() < 0.4:
        made |= {"buttonholes": rng.randint(1, 4), "buttonhole": rng.randint(1, 3)}
    if rng.random() < 0.15:
        made[rng.choice(("tie", "strap"))] = Cm(EIGHTH * rng.randint(40, 120))
    return [made]


# ------------------------------------------------------------------------------------------------------- any form

#: By their roles, since a name may be of any language.
FORMS = ("skirt", "skirt", "cushion", "bag", "bag", "hat", "cowl", "shawl")


def form_at(seed: int) -> File:
    """What is no top: a skirt in panels, a cushion, a bag with gusset and straps, a hat, a cowl or a shawl, with
    edgings, in any fabric that can be shaped, of the seed."""
    rng = Random(seed)
    swatches, gauge = _swatches(rng)
    yarns = _yarns(rng)
    kind = rng.choice(KINDS)
    tables: Table = {"title": "Turnstone", "terms": rng.choice(("US", "UK")), "swatch": swatches}
    tables["fabric"] = {"kind": kind} if kind else {"cluster": rng.choice([2, 3, 3, 4]), "gap": rng.randint(0, 1)}
    if yarns:
        tables["yarn"] = yarns
        tables["stripes"] = _stripes(rng, yarns, any("weight" in one for one in swatches))
    if rng.random() < 0.2:
        tables["wearer"] = _wearer(rng)
    tables["piece"] = _form(rng, gauge)
    if rng.random() < 0.6:
        tables["edging"] = _edgings(rng, yarns, own=False)
        tables["edging"][0]["edges"] = rng.choice(("all", "all", "lower edge", [f"{tables['piece'][0]['name']}.first"]))
    return File(seed, tables, rng.choice(("cm", "in")))


def _form(rng: Random, gauge: _Gauge) -> list[Table]:
    form = rng.choice(FORMS)
    wide, high = (unit * Fraction(rng.randint(*most), 8) for unit, most in
                  ((gauge.pitch, (24, 72)), (gauge.row, (64, 168))))  # fmt: skip
    size: Table = {"width": _eighths(wide), "length": _eighths(high)}
    sideways: Table = {"worked": "sideways"} if rng.random() < 0.3 else {}
    first: Table = {"name": f"{form} one", "role": form, **size, **sideways}
    if form in ("hat", "cowl"):
        return [first]
    if form == "shawl":
        grown = {"width": _eighths(wide), "height": _eighths(high)}
        return [{"name": "shawl", **rng.choice([{"triangle": grown}, {"half_triangle": grown}, size])}]
    if form == "skirt":
        first["count"] = rng.randint(1, 6)
        if not sideways and rng.random() < 0.5:
            first["taper"] = {"width": _eighths(wide * Fraction(rng.randint(60, 95), 100)),
                              **_some(rng, start=_eighths(high * Fraction(1, 5)))}  # fmt: skip
        if not sideways and rng.random() < 0.4:
            first["slit"] = _eighths(high * Fraction(rng.randint(5, 30), 100))
        return [first]
    return _two_sided(rng, form, first, wide, high)


def _two_sided(rng: Random, form: str, first: Table, wide: Fraction, high: Fraction) -> list[Table]:
    """Both sides of a cushion or a bag, as two of one piece or as two pieces, or one that is folded."""
    made = [first]
    if rng.random() < 0.6:
        first["count"] = 2
    elif rng.random() < 0.6:
        made.append({"name": f"{form} two", "role": form, "width": first["width"], "length": first["length"],
                     **({"worked": "sideways"} if rng.random() < 0.3 else {})})  # fmt: skip
    if (first.get("count") or len(made) > 1) and rng.random() < 0.5:
        around, deep = _eighths(2 * high + wide * (2 if form == "cushion" else 1)), _eighths(wide / 4)
        size = {"width": around, "length": deep} if rng.random() < 0.3 else {"width": deep, "length": around}
        made.append({"name": "gusset", **size})
    if form == "bag" and rng.random() < 0.6:
        strap = {"width": _eighths(wide / 6), "length": _eighths(high), "count": rng.randint(1, 2)}
        made.append({"name": "strap", **strap})
    return made
