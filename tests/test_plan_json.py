"""plan.json: valid by its schema, every key right, the same bytes every time.

No published source, but for the schema language: JSON Schema draft 2020-12 (json-schema.org).
"""

from __future__ import annotations

import copy
import json
import os
import subprocess
import sys
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import HealthCheck, assume, given, settings

from turnchain.errors import PatternError
from turnchain.pattern import Fabric, Pattern, Piece, Stripes, Swatch, Yarn
from turnchain.plan_json import is_one, plan_data, plan_text, schema, sizes_text
from turnchain.planning.planner import plan_pattern, plan_sizes
from turnchain.reading.pattern_file import read_file, read_sizes
from workable import patterns

CASES = Path(__file__).parent / "cases"
NAMES = ["heron_top", "kite_kerchief", "mudflat_blanket"]

Json = dict[str, Any]


@pytest.fixture(scope="module")
def validator() -> jsonschema.Draft202012Validator:
    jsonschema.Draft202012Validator.check_schema(schema())
    return jsonschema.Draft202012Validator(schema())


@pytest.fixture(scope="module")
def kite() -> Json:
    loaded: Json = json.loads(plan_text(plan_pattern(read_file(CASES / "kite_kerchief.toml"))))
    return loaded


@pytest.mark.parametrize("name", NAMES)
def test_cases_are_valid(name: str, validator: jsonschema.Draft202012Validator) -> None:
    plan = plan_pattern(read_file(CASES / f"{name}.toml"))
    text = plan_text(plan)
    loaded = json.loads(text)
    validator.validate(loaded)
    assert loaded == plan_data(plan)
    assert text.endswith("}\n")


@settings(max_examples=30, suppress_health_check=list(HealthCheck))
@given(patterns())
def test_random_plans_are_valid(pattern: Pattern) -> None:
    try:
        plan = plan_pattern(pattern)
    except PatternError:
        assume(False)
    loaded = json.loads(plan_text(plan))
    jsonschema.Draft202012Validator(schema()).validate(loaded)
    for piece in loaded["pieces"]:
        for fit in piece["fit"]:
            assert fit["off_cm"] == pytest.approx(fit["worked_cm"] - fit["wanted_cm"], abs=2e-6)


def spoilt(*path: str | int, value: object = None, drop: bool = False) -> Callable[[Json], None]:
    def change(data: Json) -> None:
        place: Any = data
        for step in path[:-1]:
            place = place[step]
        if drop:
            del place[path[-1]]
        else:
            place[path[-1]] = value

    return change


PIECE, ROW, FIT = ("pieces", 0), ("pieces", 0, "rows", 2), ("pieces", 0, "fit", 0)


@pytest.mark.quick(29)
@pytest.mark.parametrize(
    "change",
    [
        spoilt("schema", value=4),
        *(spoilt(key, drop=True) for key in ("schema", "title", "gauge", "pieces")),
        *(spoilt("gauge", key, drop=True) for key in ("pitch_cm", "row_cm")),
        *(
            spoilt(*PIECE, key, drop=True)
            for key in ("name", "count", "worked", "foundation_chain", "rows", "fit", "warnings")
        ),
        *(spoilt(*FIT, key, drop=True) for key in ("measure", "wanted_cm", "worked_cm", "off_cm")),
        *(
            spoilt(*ROW, key, drop=True)
            for key in (
                *("section", "row", "left", "right", "clusters", "left_edge", "right_edge", "left_move"),
                *("right_move", "left_step", "right_step", "starts", "colour", "stitches"),
            )
        ),
        *(spoilt(*ROW, "stitches", key, drop=True) for key in ("dc", "ch", "sl_st", "tch")),
        spoilt("gauge", "row_cm", value=0),
        spoilt(*PIECE, "worked", value="downwards"),
        spoilt(*PIECE, "foundation_chain", value=11.5),
        spoilt(*ROW, "left_edge", value="open"),
        spoilt(*ROW, "right_move", value="widen"),
        spoilt(*ROW, "clusters", value=0),
        spoilt(*ROW, "starts", value="top"),
        spoilt(*ROW, "stitches", "dc", value=-1),
    ],
)
def test_the_schema_refuses_what_is_not_a_plan(
    change: Callable[[Json], None], kite: Json, validator: jsonschema.Draft202012Validator
) -> None:
    data = copy.deepcopy(kite)
    validator.validate(data)
    change(data)
    with pytest.raises(jsonschema.ValidationError):
        validator.validate(data)


def test_every_key_of_the_kerchief(kite: Json) -> None:
    # worked by hand: a pitch of 2 cm and rows of 1 cm, row r with r clusters, both edges spaced, ch 1 gaps
    assert kite["schema"] == 3
    assert kite["title"] == "Kite kerchief"
    assert kite["gauge"] == {"pitch_cm": 2.0, "row_cm": 1.0}
    piece = kite["pieces"][0]
    assert {key: piece[key] for key in ("name", "count", "worked", "foundation_chain", "warnings")} == {
        "name": "kerchief",
        "count": 1,
        "worked": "upwards",
        "foundation_chain": 11,
        "warnings": [],
    }
    assert kite["pieces"][1]["count"] == 2
    assert piece["fit"][0] == {"measure": "height", "wanted_cm": 30.0, "worked_cm": 30.0, "off_cm": 0.0}
    # row 3: its edges one half pitch outside row 2's at each side; ch 4, 3 clusters with 2 gaps, ch 1, dc
    row = piece["rows"][2]
    assert row.pop("turning_chain") == 4
    assert row == {
        "section": "body",
        "row": 3,
        "left": -2,
        "right": 6,
        "clusters": 3,
        "left_edge": "spaced",
        "right_edge": "spaced",
        "left_move": "increase",
        "right_move": "increase",
        "left_step": 0,
        "right_step": 0,
        "starts": "right",
        "under": 1,
        "joined": False,
        "colour": "Kelp",
        "stitches": {"dc": 10, "ch": 3, "sl_st": 0, "tch": 1},
    }
    assert piece["rows"][3]["starts"] == "left"
    assert piece["rows"][3]["colour"] == "Foam"
    first = piece["rows"][0]
    assert (first["left"], first["left_move"], first["right_move"]) == (0, "straight", "straight")


def test_a_step_says_how_far_it_goes() -> None:
    # worked by hand: 4 clusters in 10 cm; from 40 cm (16 clusters) to 30 cm at one edge: 8 half pitches in
    swatch = Swatch(Fraction(4), Fraction(10), Fraction(8), Fraction(10))
    widths = ((0, 40), (5, 40), (5, 30), (10, 30))
    outline = tuple((Fraction(height), Fraction(width)) for height, width in widths)
    piece = Piece("step", outline=outline, align="left")
    yarns, stripes = (Yarn("Reed", "#b9b36a"),), Stripes(("Reed",))
    data = plan_data(plan_pattern(Pattern("Step", (swatch,), (piece,), Fabric(), yarns, stripes)))
    rows = data["pieces"][0]["rows"]
    assert [row["right_step"] for row in rows] == [0, 0, 0, 0, 8, 0, 0, 0]
    assert rows[4]["right_move"] == "step_in"
    assert {row["left_step"] for row in rows} == {0}
    # row 5 starts at the right, on the 4th cluster from the edge or in the 4th gap: by the rule for steps, m = 4
    below = rows[3]["right_edge"]
    slips = {"flush": 4 * 3 + 3 + 1, "spaced": 1 + 3 * 4 + 2}
    assert rows[4]["stitches"]["sl_st"] == slips[below]


def test_without_yarn_rows_have_no_colour(validator: jsonschema.Draft202012Validator) -> None:
    swatch = Swatch(Fraction(4), Fraction(10), Fraction(8), Fraction(10))
    plain = Piece("panel", width=Fraction(20), length=Fraction(10))
    data = plan_data(plan_pattern(Pattern("Plain", (swatch,), (plain,))))
    validator.validate(data)
    assert {row["colour"] for row in data["pieces"][0]["rows"]} == {None}


def test_a_row_to_a_line() -> None:
    # so that two plans can be compared line by line
    plan = plan_pattern(read_file(CASES / "kite_kerchief.toml"))
    lines = plan_text(plan).splitlines()
    assert sum('"left_move"' in line for line in lines) == sum(len(piece.rows) for piece in plan.pieces)


@pytest.mark.quick(1)
@pytest.mark.parametrize("seed", ["0", "1"])
def test_same_input_same_bytes(seed: str) -> None:
    path = CASES / "kite_kerchief.toml"
    words = (
        "import sys; from turnchain.reading.pattern_file import read_file; "
        "from turnchain.planning.planner import plan_pattern; "
        "from turnchain.plan_json import plan_text; "
        "sys.stdout.buffer.write(plan_text(plan_pattern(read_file(sys.argv[1]))).encode())"
    )
    anew = subprocess.run(
        [sys.executable, "-c", words, str(path)],
        env={**os.environ, "PYTHONHASHSEED": seed},
        capture_output=True,
        check=True,
    ).stdout
    assert anew == plan_text(plan_pattern(read_file(path))).encode()


SIZED = '''
title = "Mat"
sizes = ["S", "L"]
[swatch]
clusters = 4
width = 10
rows = 8
height = 10
[[piece]]
name = "mat"
width = "40 (60)"
length = 20
'''


def test_the_plans_of_all_sizes_are_one_file(validator: jsonschema.Draft202012Validator) -> None:
    """Each within it is what a reader of one plan knows."""
    plans = plan_sizes(read_sizes(SIZED, "x"))
    held = json.loads(sizes_text(plans))
    validator.validate(held)
    assert (held["title"], [one["size"] for one in held["sizes"]]) == ("Mat", ["S", "L"])
    assert held["sizes"] == [plan_data(plan) for plan in plans]
    assert sizes_text(plans[:1]) == plan_text(plans[0])
    for wrong in ({**held, "sizes": held["sizes"][:1]}, {**held, "sizes": [held, held]}, {"schema": 4, "title": "Mat"}):
        assert not validator.is_valid(wrong)


def test_the_plans_of_all_sizes_mark_a_folder_as_ours(tmp_path: Path) -> None:
    (tmp_path / "plan.json").write_text(sizes_text(plan_sizes(read_sizes(SIZED, "x"))))
    assert is_one(tmp_path / "plan.json")
