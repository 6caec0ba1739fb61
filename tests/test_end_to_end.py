"""Random pattern files end to end: from their text to everything that is made of them.

What must hold is in ``end_to_end``, the files are those of ``random_files``; here hundreds of them are made, every
property is shown to fail where it should, and what was found so is named. ``python -m tests.nightly`` sends many more.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

import end_to_end
import random_files
from end_to_end import DRAWN, PROPERTIES, QUICK, Property, Sample
from random_files import File, file_at
from turnchain import plan_json
from turnchain.drawing import schematic
from turnchain.errors import PatternError
from turnchain.fabric.plan import Plan
from turnchain.making import everything
from turnchain.pages import blog
from turnchain.pages import overview as page
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_text
from turnchain.records import replace
from turnchain.writers import png

FILES, SLIPS = 216, 400


@pytest.mark.quick(0)
@pytest.mark.parametrize("seed", range(FILES))
def test_a_file_goes_end_to_end(seed: int) -> None:
    """Of each file two properties, and of every fourth one of those that need drawings."""
    found = end_to_end.disagreements(seed, end_to_end.share(seed, 2, seed % 4 == 0), file_at(seed, 14, 6))
    assert not found


@pytest.mark.slow
def test_most_files_can_be_made() -> None:
    made = [end_to_end.planned(file_at(seed, 14, 6)) for seed in range(0, FILES, 4)]
    assert len([plan for plan in made if plan is not None]) > len(made) * 0.7


def test_every_property_has_its_turn() -> None:
    seen = {holds for seed in range(FILES) for holds in end_to_end.share(seed, 2, seed % 4 == 0)}
    assert seen == set(PROPERTIES)
    assert len(PROPERTIES) == len(QUICK) + len(DRAWN) == 18


@pytest.mark.quick(1)
@pytest.mark.parametrize("block", range(4))
def test_slips_are_refused_in_words_or_taken(block: int) -> None:
    """A value that is another, a key left out or misspelt: a plan, or every problem in its place."""
    refused = 0
    for seed in range(block, SLIPS, 4):
        told, reasons = end_to_end.slip(seed)
        assert reasons == []
        refused += told
    assert refused > SLIPS // 4 * 0.6


def test_the_random_files_hold_what_can_be_difficult() -> None:
    files = [file_at(seed).tables for seed in range(FILES)]
    stripes = [file["stripes"] for file in files if "stripes" in file]
    kinds = {"list", "mirrored", "numbers", "gradual", "random", "between", "stash"}
    assert {one["kind"] for one in stripes} == kinds
    pieces = [piece for file in files for piece in file["piece"]]
    assert {piece["neck"]["shape"] for piece in pieces if "neck" in piece} == set(random_files.SHAPES)
    keys = ("outline", "left_outline", "faces", "stripes", "stripes_begin", "count", "row_plan", "align", "neck_edge")
    for key in keys:
        assert sum(key in piece for piece in pieces) > 20, key
    for key in ("wearer", "seam", "progress", "allowance", "stripes"):
        assert sum(key in file for file in files) > 20, key
    assert {(file["fabric"]["cluster"], file["fabric"]["gap"]) for file in files} == {
        (k, g) for k in (2, 3, 4, 5) for g in (0, 1)
    }
    assert {file_at(seed).units for seed in range(9)} == {"cm", "in"}


# ------------------------------------------------------------------------------------- every property can fail


def good(key: str) -> File:
    """A file that every property holds for: a top that faces itself, or a centred outline in alternate rows."""
    half = row = 4 * random_files.EIGHTH
    cm = random_files.Cm
    neck = {"shoulder": cm(4 * row), "depth": cm(3 * half), "shape": "slant"}
    front = {"name": "front", "width": cm(13 * row), "length": cm(12 * half), "worked": "sideways", "neck": neck}
    taper = [[cm(Fraction(0)), cm(12 * half)], [cm(10 * row), cm(6 * half)]]
    strip = {"name": "strip", "outline": taper, "row_plan": "alternate"}
    pieces = {"top": [front, {**front, "name": "back", "faces": "front"}], "strip": [strip]}[key]
    return File(7, {
        "title": "A [good] *file*",
        "terms": "US",
        "swatch": [{"clusters": 4, "width": cm(8 * half), "rows": 8, "height": cm(8 * row), "weight": Fraction(20)}],
        "fabric": {"cluster": 3, "gap": 1},
        "yarn": [{"name": name, "colour": colour, "ball": Fraction(50)} for name, colour in random_files.YARNS[:2]],
        "stripes": {"kind": "list", "order": ["Reed", "Silt"], "rows": 2},
        "piece": pieces,
    })  # fmt: skip


@pytest.mark.slow
@pytest.mark.parametrize("key", ["top", "strip"])
def test_the_good_files_are_good(key: str) -> None:
    assert end_to_end.disagreements(7, PROPERTIES, good(key)) == []


def _other_fabric(file: File, *_: object, **__: object) -> File:
    return replace(file, tables={**file.tables, "fabric": {"cluster": 4, "gap": 0}})


def _wider(file: File) -> File:
    pieces = [{**piece, "width": random_files.Cm(piece["width"].cm * 2)} for piece in file.tables["piece"]]
    return replace(file, tables={**file.tables, "piece": pieces})


def _shifted(plan: Plan) -> Plan:
    """The last row half a cluster to the right; the row in the middle in another yarn."""
    pieces = []
    for piece in plan.pieces:
        *rows, last = piece.rows
        left, right = (replace(edge, at=edge.at + 1) for edge in (last.left, last.right))
        last = replace(last, left=left, right=right)
        rows[3] = replace(rows[3], colour="Reed" if rows[3].colour == "Silt" else "Silt")
        pieces.append(replace(piece, rows=(*rows, last)))
        if piece.name == "front":
            pieces[-1] = piece
    return replace(plan, pieces=tuple(pieces))


def _row_longer(sample: Sample) -> None:
    """One row of plan.json half a cluster longer."""
    sample.json["pieces"][0]["rows"][1]["right"] += 1


def _plan_shifted(sample: Sample) -> None:
    sample.__dict__["made"] = _shifted(sample.plan)


def _ever_other(before: Callable[..., str]) -> Callable[..., str]:
    told: list[None] = []

    def text(*words: Any) -> str:
        told.append(None)
        return before(*words) + " " * len(told)

    return text


def _right_hand_always(plan: Plan, name: str, *_: object, **looks: Any) -> object:
    return everything.chart(plan, name, look=replace(looks["look"], hand="right"))


def _wordless(*asked: Any) -> Any:
    return ((name, replace(scene, words="")) for name, scene in _scenes(*asked))


def _wider_by_a_px(before: Callable[..., Any]) -> Callable[..., Any]:
    def made(*asked: Any, **more: Any) -> Any:
        scene = before(*asked, **more)
        return replace(scene, width=scene.width + 1)

    return made


def _smaller_png(scene: Any, stream: Any) -> None:
    _write_png(replace(scene, width=scene.width - 1), stream)


_scenes, _write_png, _overview = everything.scenes, png.write, page.overview

#: How each property is spoilt: a file, what is put in the place of what, or what is done to the sample.
SPOILT: list[tuple[Property, str, object, str, object]] = [
    (end_to_end.inches_are_centimetres, "top", File, "in_units", _other_fabric),
    (end_to_end.larger_is_the_same_stitches, "top", File, "larger", lambda file, _: _wider(file)),
    (end_to_end.terms_change_no_stitch, "top", File, "with_", _other_fabric),
    (end_to_end.left_and_right_change_about, "top", File, "mirrored", _wider),
    (end_to_end.wished_mirrors_are_given, "top", None, "", _plan_shifted),
    (end_to_end.wished_mirrors_are_given, "strip", None, "", _plan_shifted),
    (end_to_end.plan_json_is_what_the_words_say, "top", None, "", _row_longer),
    (end_to_end.yarn_adds_up, "strip", None, "", _row_longer),
    (end_to_end.stripes_of_faced_pieces_meet, "top", None, "", _plan_shifted),
    (end_to_end.markdown_says_what_it_shows, "top", blog, "escaped", lambda text: text),
    (end_to_end.everything_is_proved, "top", None, "", _plan_shifted),
    (end_to_end.the_same_bytes_twice, "top", plan_json, "plan_text", _ever_other(plan_json.plan_text)),
    (end_to_end.a_left_hand_sees_the_mirror_image, "top", end_to_end, "chart", _right_hand_always),
    (end_to_end.pictures_can_be_made, "top", everything, "scenes", _wordless),
    (end_to_end.a_png_has_its_size, "top", png, "write", _smaller_png),
    (end_to_end.posts_fit_their_sizes, "top", end_to_end, "post", _wider_by_a_px(end_to_end.post)),
    (end_to_end.close_ups_of_both_hands, "top", end_to_end, "detail",
     lambda *asked: replace(_DETAIL(*asked), definitions={})),
    (end_to_end.paper_can_be_printed, "top", end_to_end.pdf, "write", lambda *_, **__: None),
    (end_to_end.pages_are_sound, "top", page, "overview", lambda plan, named: _overview(plan, named[1:])),
]  # fmt: skip
_DETAIL = end_to_end.detail


@pytest.mark.slow
@pytest.mark.parametrize(
    ("holds", "key", "where", "name", "other"), SPOILT, ids=[f"{one.__name__}-{key}" for one, key, *_ in SPOILT]
)
def test_a_property_is_told_where_it_does_not_hold(
    holds: Property, key: str, where: object, name: str, other: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    sample = Sample(good(key))
    assert list(holds(sample)) == []
    if where is None:
        other(sample)
    else:
        monkeypatch.setattr(where, name, other)
    try:
        told = list(holds(sample))
    except Exception as error:  # the writer of SVG refuses uses of what is not there
        told = [str(error)]
    assert told


def test_every_property_was_spoilt() -> None:
    assert {holds for holds, *_ in SPOILT} == set(PROPERTIES)


# ------------------------------------------------------------------------------------ what was found so


SLIT = """
title = "Slit"
units = "in"
swatch = [{ clusters = 12, width = 10.625, rows = 22, height = 13.875 }]
fabric = { gap = 0 }
[[piece]]
name = "back"
width = 1.5
length = 2.5
neck = { shoulder = 0.375, depth = 1.375, shape = "round" }
row_plan = "alternate"
"""


def test_a_neck_that_is_a_slit_has_its_measure_drawn() -> None:
    """Its width is 0: an arrow of no length had no direction."""
    plan = plan_pattern(read_text(SLIT, "slit.toml"))
    widths = {fit.measure: fit.worked for fit in plan.piece("back").fit}
    assert widths["neck width"] == 0
    # each shoulder is half of four half pitches: as wide as one cluster, which only every other row has room for
    assert [row.number for row in plan.piece("back").rows if row.section != "body"] == [4, 4]
    assert any("0.63 in, not 1.38 in, more than half a row off: every row needs room" in said
               for said in plan.piece("back").warnings)  # fmt: skip
    assert any("neck width: 0 in" in words for words in _said(schematic.scenes(plan)["schematic"].items))


def _said(items: Any) -> list[str]:
    return [words for item in items for words in (getattr(item, "words", "") or "", *_said(getattr(item, "items", ())))]


def test_a_picture_belongs_to_the_piece_it_is_named_after() -> None:
    """A piece "front-row-house" is no picture of "front": index.html showed it twice."""
    file = good("strip")
    (strip,) = file.tables["piece"]
    names = ("front", "front-row-house", "front-shorts")
    plan = end_to_end.planned(file.with_(piece=[{**strip, "name": name} for name in names]))
    assert plan is not None
    text = page.overview(plan, [(name, "words") for name in names])
    assert [text.count(f'src="{name}.png"') for name in names] == [1, 1, 1]


@pytest.mark.parametrize(
    ("row_plan", "hint"), [("alike", "widen it"), ("alternate", 'widen it, or try row_plan = "alike"')]
)
def test_no_hint_to_try_what_was_tried(row_plan: str, hint: str) -> None:
    """A piece with rows alike that is too narrow was told to try rows alike."""
    neck = '{ shoulder = 1, depth = 2, shape = "square" }'
    text = f"""
title = "Narrow"
swatch = [{{ clusters = 4, width = 10, rows = 8, height = 10 }}]
piece = [{{ name = "strap", width = 2.5, length = 5, row_plan = "{row_plan}", neck = {neck} }}]
"""
    with pytest.raises(PatternError) as caught:
        plan_pattern(read_text(text, "narrow.toml"))
    assert [problem.hint for problem in caught.value.problems] == [hint]
