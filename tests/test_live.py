"""A pattern that answers while it is designed: replies, edits that keep a text, plans kept, places within reach."""

from __future__ import annotations

import json
import re
import tomllib
from base64 import b64decode, b64encode
from pathlib import Path
from typing import Any

import pytest

import turnchain
from turnchain.errors import MakerError
from turnchain.fabric import library
from turnchain.fabric.gauge import gauge_of
from turnchain.garment import seams
from turnchain.live import parts
from turnchain.live.answering import PARTS, Live
from turnchain.live.drawn import scene_json
from turnchain.live.editing import Edit, edited
from turnchain.live.reach import reach
from turnchain.planning import kept
from turnchain.planning.budget import MOST_PLACES, BudgetSpent, SearchBudget
from turnchain.planning.kept import KeptPieces
from turnchain.planning.pieces import choice_of
from turnchain.records import replace

CASES = Path(__file__).parent / "cases"
HERON = (CASES / "heron_top.toml").read_text("utf-8")
MUDFLAT = (CASES / "mudflat_blanket.toml").read_text("utf-8")


def answer(text: str = HERON, live: Live | None = None, **message: Any) -> dict[str, Any]:
    reply = (live or Live()).answer({"id": 7, "text": text, **message})
    return json.loads(json.dumps(reply))  # type: ignore[no-any-return]  # whatever is answered can be sent


def test_a_reply_has_all_facts() -> None:
    reply = answer()
    assert reply["id"] == 7
    assert reply["problems"] == []
    assert [piece["name"] for piece in reply["pieces"]] == ["front", "back", "sleeve"]
    front = reply["pieces"][0]
    plan = turnchain.plan(turnchain.loads(HERON)).piece("front")
    assert [fit["worked"] for fit in front["fit"]] == pytest.approx([float(fit.worked) for fit in plan.fit])
    assert [row["number"] for row in front["rows"]] == [row.number for row in plan.rows]
    assert [yarn["name"] for yarn in reply["yarn"]] == ["Heron", "Reed", "Silt"]


def test_the_seams_that_are_to_be_written_are_those_that_were_assumed() -> None:
    """A cardigan's too, whose fronts open; of a piece made twice and sewn to itself one name means both: none."""
    parts = 'width = 30\nlength = 40\nneck = { shoulder = 8, depth = 4 }\narmhole = { depth = 12, width = 4 }\n'
    half = parts + 'front = { side = "left", overlap = 2 }\n'
    head = HERON.partition("[[piece]]")[0]
    open_front = f'[[piece]]\nname = "left front"\n{half}[[piece]]\nname = "right front"\nmirror = "left front"\n'
    cardigan = f'{head}{open_front}[[piece]]\nname = "back"\n{parts}'
    for text in (HERON, cardigan):
        told = answer(text)
        assert told["problems"] == []
        found = told["seams"]
        edits = [{"path": ["seam", nth], "value": {"join": join}} for nth, join in enumerate(found["write"])]
        wish = next(join for one in found["sewn"] for join in one["joins"])
        edits.append({"path": ["seam", found["write"].index(wish), "stripes"], "value": "meet"})
        written = answer(text, edits=edits)
        assert written["problems"] == []
        assert [one["stripes"] for one in written["seams"]["sewn"] if wish in one["joins"]] == ["meet"]
        assert written["seams"]["write"] == []
        before, after = (seams.of(turnchain.plan(turnchain.loads(one["text"]))) for one in (told, written))
        assert {frozenset((one.one, one.other)) for one in before} == {frozenset((one.one, one.other)) for one in after}
    twice = f'{head}[[piece]]\nname = "body"\ncount = 2\n{parts}'
    assert answer(twice)["seams"]["write"] == []
    assert answer(MUDFLAT)["seams"] is None


def test_the_fabrics_made_of_clusters_are_told_from_the_others() -> None:
    """A cluster that a pattern may change is one that the reader takes with every fabric that has any."""
    fabrics = answer()["fabrics"]
    assert fabrics.pop("") == fabrics["open"] == {"cluster": 3, "gap": 1}
    assert sorted(fabrics) == sorted(library.names())
    for kind, found in fabrics.items():
        text = MUDFLAT.replace("cluster = 3\ngap = 0", f'kind = "{kind}"\ncluster = 4\ngap = 2')
        places = {problem["place"] for problem in answer(text)["problems"]}
        assert ("fabric, cluster" in places) == (found is None), kind


@pytest.mark.quick(2)
@pytest.mark.parametrize("part", sorted(set(PARTS) - {"files", "undrawn"}))
def test_every_part_can_be_asked_for(part: str) -> None:
    reply = answer(want=[part], piece="front", row=12, at="right", measure="shoulder")
    assert reply["problems"] == []
    assert reply[part]


def test_letters_without_a_font_are_told() -> None:
    text = HERON.replace("Heron Creek top", "しましまのセーター")
    assert any(said.startswith("Japanese: no font with these letters found") for said in answer(text)["doubts"])
    assert not any("font" in said for said in answer()["doubts"])


def test_problems_lead_to_their_fields() -> None:
    reply = answer(HERON.replace('colour = "#6f8aa3"', 'colour = "blue"').replace("width = 26.0", "width = 0"))
    paths = [problem["path"] for problem in reply["problems"]]
    assert ["yarn", 0, "colour"] in paths
    assert ["swatch", 0, "width"] in paths
    assert all(problem["line"] for problem in reply["problems"])


@pytest.mark.parametrize("text", ["", "title =", "[[piece]]\nname = 3", "\x00", "= = ="])
def test_a_text_in_error_is_answered(text: str) -> None:
    assert answer(text, want=["chart"])["problems"]


@pytest.mark.quick(0)
def test_pictures_that_are_not_drawn_here_are_drawn_by_the_page(monkeypatch: pytest.MonkeyPatch) -> None:
    """As in a browser's Python: the scenes go out, the PNG come back with the next message."""
    worn = HERON + '\n[wearer]\ntable = "woman"\nsize = "M"\n'
    assert answer(worn, want=["undrawn"])["undrawn"] == []
    monkeypatch.setattr(parts, "_draws", lambda: False)
    undrawn = answer(worn, want=["undrawn"])["undrawn"]
    shown = ["on-figure", "stripes", "schematic", "as-sewn", "front", "back", "sleeve"]
    assert [one["name"] for one in undrawn] == shown
    plan = turnchain.plan(turnchain.loads(worn))
    assert undrawn[4]["scene"] == scene_json(turnchain.chart(plan, "front"))
    assert {f"{name}.png" for name in shown} >= set(re.findall(r"\]\((.+?\.png)\)", turnchain.markdown(plan)))
    files = answer(worn, want=["files"], pictures={"front": b64encode(b"drawn").decode()})["files"]
    assert [b64decode(one["data"]) for one in files if one["name"].endswith(".png")] == [b"drawn"]


def test_the_garment_is_shown_on_a_figure_where_its_pieces_are_known() -> None:
    plan = turnchain.plan(turnchain.loads(HERON))
    shown = answer(want=["figure"])["figure"]
    assert shown["items"] == scene_json(turnchain.on_figure(plan))["items"]
    assert answer(HERON.replace('name = "front"', 'name = "front"\nrole = "other"'), want=["figure"])["figure"] is None


def test_a_colour_plans_nothing_and_changes_what_is_shown() -> None:
    live = Live()
    first = answer(live=live, want=["chart"])
    colour = [{"path": ["yarn", 0, "colour"], "value": "#123456"}]
    second = answer(live=live, want=["chart"], edits=colour)
    assert live.planned == 1
    assert second["yarn"][0]["colour"] == "#123456"
    assert first["chart"] != second["chart"]


@pytest.mark.quick(3)
@pytest.mark.parametrize(
    ("path", "value"),
    [
        (["title"], "Other"), (["yarn", 0, "colour"], "#123456"), (["yarn", 1, "ball"], 25), (["by"], "Nobody"),
        (["yarn", 0, "metres_per_100g"], 300), (["wearer", "bust"], 90), (["piece", 0, "neck", "depth"], 6),
        (["stripes", "rows"], 1), (["units"], "in"), (["yarn", 0, "stock"], 20), (["allowance", "margin"], 30),
    ],
    ids=str,
)  # fmt: skip
def test_a_plan_kept_is_the_plan_made_anew(path: list[Any], value: Any) -> None:
    live = Live()
    live.plan(turnchain.loads(HERON, "pattern"))
    text = edited(HERON, [Edit(tuple(path), value)])
    pattern = turnchain.loads(text, "pattern")
    assert live.plan(pattern) == turnchain.plan(pattern, "pattern")


def test_an_edit_keeps_remarks_and_order() -> None:
    text = edited(HERON, [Edit(("piece", 0, "width"), 56), Edit(("swatch", "rows"), 19)])
    before, after = HERON.splitlines(), text.splitlines()
    assert len(before) == len(after)
    changed = [(old, new) for old, new in zip(before, after, strict=True) if old != new]
    assert [new for _, new in changed] == ["rows = 19", changed[1][1]]
    assert changed[1][1].startswith("width = 56")
    assert changed[1][1].endswith("# across the body as worn")


def test_edits_add_and_take_away() -> None:
    yarn = {"name": "Sedge", "colour": "#889966"}
    text = edited(HERON, [Edit(("yarn", 3), yarn), Edit(("yarn", 0, "stock"), None), Edit(("wearer", "bust"), 92)])
    data = tomllib.loads(text)
    assert data["yarn"][3] == yarn
    assert "stock" not in data["yarn"][0]
    assert data["wearer"] == {"bust": 92}
    data = tomllib.loads(edited(text, [Edit(("yarn", 3), None), Edit(("piece", 1, "neck"), None)]))
    assert [one["name"] for one in data["yarn"]] == ["Heron", "Reed", "Silt"]
    assert "neck" not in data["piece"][1]


@pytest.mark.parametrize("path", [("yarn", 9, "colour"), ("piece", 0, "name", "first"), ("swatch", 2)])
def test_an_edit_that_leads_nowhere_is_told(path: tuple[str | int, ...]) -> None:
    with pytest.raises(MakerError):
        edited(HERON, [Edit(path, 1)])


@pytest.mark.quick(0)
@pytest.mark.parametrize("measure", ["width", "length", "shoulder", "neck depth"])
def test_every_place_within_reach_is_what_its_wish_plans_to(measure: str) -> None:
    pattern = turnchain.loads(HERON)
    found = reach(pattern, 0, measure)
    worked = [place["worked"] for place in found["places"]]
    assert worked == sorted(set(worked))
    assert all(len(f"{place['wish']:g}") <= 5 for place in found["places"]), "short to write"
    assert 3 <= len(worked) <= 9
    plan = turnchain.plan(pattern).piece("front")
    now = next(float(fit.worked) for fit in plan.fit if fit.measure == measure)
    assert found["places"][found["now"]]["worked"] == pytest.approx(now)
    key = {"width": ("width",), "length": ("length",), "shoulder": ("neck", "shoulder")}.get(measure, ("neck", "depth"))
    for place in found["places"]:
        text = edited(HERON, [Edit(("piece", 0, *key), place["wish"])])
        again = turnchain.plan(turnchain.loads(text)).piece("front")
        assert next(float(fit.worked) for fit in again.fit if fit.measure == measure) == pytest.approx(place["worked"])


def test_what_cannot_be_pulled_is_told() -> None:
    assert answer(MUDFLAT, want=["reach"], measure="shoulder")["problems"]


def test_an_alternative_is_chosen_by_its_edits() -> None:
    other = answer(want=["also"])["also"][0]
    chosen = answer(edits=other["edits"])
    assert chosen["problems"] == []
    rows = max(row["number"] for row in chosen["pieces"][0]["rows"])
    assert rows == other["rows"]


def test_alternatives_are_searched_where_they_are_wanted() -> None:
    """They take longer than all else; the plan is the same without them."""
    live = Live()
    brief = live.plan(turnchain.loads(HERON), alternatives=False)
    whole = live.plan(turnchain.loads(HERON))
    assert whole == turnchain.plan(turnchain.loads(HERON))
    assert [replace(piece, alternatives=()) for piece in whole.pieces] == list(brief.pieces)
    assert any(piece.alternatives for piece in whole.pieces)
    report = live.answer({"text": HERON, "want": ["chart", "report"]})["report"]
    assert report == turnchain.report(whole)


def test_a_scene_in_json_has_every_item() -> None:
    scene = turnchain.chart(turnchain.plan(turnchain.loads(HERON)), "front")
    made = scene_json(scene)
    svg = turnchain.svg(scene).decode()

    def count(items: list[Any], kind: str) -> int:
        inner = sum(count(item["items"], kind) for item in items if isinstance(item, dict) and "items" in item)
        if kind == "use":
            return inner + sum(isinstance(item, list) for item in items)
        return inner + sum(isinstance(item, dict) and kind in item for item in items)

    everything = [*made["items"], *(item for items in made["definitions"].values() for item in items)]
    words = count(everything, "t")
    assert words
    assert svg.count("<path") >= count(everything, "d")
    assert count(everything, "use") <= svg.count("<use")


@pytest.mark.quick(0)
def test_files_are_those_of_the_program() -> None:
    from base64 import b64decode

    reply = answer(MUDFLAT, want=["files"])
    files = {file["name"]: b64decode(file["data"]) for file in reply["files"]}
    plan = turnchain.plan(turnchain.loads(MUDFLAT))
    assert files["plan.json"] == turnchain.plan_data(plan).encode()
    assert files["blanket.svg"] == turnchain.svg(turnchain.chart(plan, "blanket"))
    assert files["blanket.png"].startswith(b"\x89PNG")
    assert files["booklet.pdf"].startswith(b"%PDF")


def test_a_change_of_one_piece_plans_that_piece_alone() -> None:
    searched: list[str] = []
    live = Live()
    live.plan(turnchain.loads(HERON, "pattern"))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(kept, "choice_of", lambda piece, *rest: searched.append(piece.name) or choice_of(piece, *rest))
        text = edited(HERON, [Edit(("piece", 2, "count"), 1)])
        live.plan(turnchain.loads(text, "pattern"))
        assert searched == ["sleeve"]
        live.plan(turnchain.loads(edited(text, [Edit(("yarn", 0, "stock"), 70)]), "pattern"))
        assert searched == ["sleeve"]


def test_a_piece_known_counts_against_the_budget_as_its_search_did() -> None:
    pattern, known, spent = turnchain.loads(HERON), KeptPieces(), []
    gauge = gauge_of(pattern.swatches)
    for _ in range(2):
        budget = SearchBudget()
        choices = [known.choice(piece, pattern, gauge, budget) for piece in pattern.pieces]
        assert all(choice.job.budget is budget for choice in choices)
        plans = [known.planned(choice) for choice in choices]
        spent.append(budget.places)
    assert spent[0] == spent[1] > 0
    short = SearchBudget(MOST_PLACES - 1)
    with pytest.raises(BudgetSpent):
        known.choice(pattern.pieces[0], pattern, gauge, short)
    assert [plan.name for plan in plans] == ["front", "back", "sleeve"]


def test_a_neck_that_is_too_small_for_the_head_is_told_at_each_place() -> None:
    """The rounds are those of the report, the head is the one asked for."""
    text = edited(HERON, [Edit(("wearer",), {"head": 62})])
    places = reach(turnchain.loads(text), 0, "shoulder")["places"]
    assert [place["opening"]["passes"] for place in places] == sorted(
        (place["opening"]["passes"] for place in places), reverse=True
    ), "the longer the shoulder, the smaller the neck"
    assert {place["opening"]["passes"] for place in places} == {True, False}
    for place in places[::4]:
        one = edited(text, [Edit(("piece", 0, "neck", "shoulder"), place["wish"])])
        report = turnchain.report(turnchain.plan(turnchain.loads(one)))
        assert f"the opening is {place['opening']['around']} round" in report
        assert ("too small for a head of 62 cm" in report) is bool(place["opening"]["short"])


def test_alternatives_are_pictured_as_they_will_be() -> None:
    others = answer(want=["also"], piece="front")["also"]
    assert others
    for other in others:
        chosen = answer(edits=other["edits"], piece="front")["pieces"][0]
        assert chosen["outline"] == other["outline"]
        assert [(row["band"], row["yarn"]) for row in chosen["rows"]] == [
            (band["band"], band["yarn"]) for band in other["bands"]
        ]


@pytest.mark.quick(0)
def test_orders_are_chosen_by_their_edits() -> None:
    orders = answer(want=["orders"], seed=5)["orders"]
    assert [order["seed"] for order in orders if order["kind"] == "random"] == [5, 6, 7, 8]
    assert {"list", "mirrored", "numbers", "gradual", "between", "random", "stash"} == {one["kind"] for one in orders}
    for order in orders:
        chosen = answer(edits=order["edits"])
        assert chosen["problems"] == []
        for piece in chosen["pieces"]:
            assert [row["yarn"] for row in piece["rows"]] == order["yarns"][piece["name"]]
        ends = sum(piece["ends"] * piece["count"] for piece in chosen["pieces"])
        assert ends == order["ends"]


def test_what_is_not_there_is_taken_away_without_a_trace() -> None:
    assert edited(MUDFLAT, [Edit(("wearer", "bust"), None)]) == MUDFLAT
