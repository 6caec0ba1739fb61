"""Edits from the design page: values in brackets, of which one size is changed, and steps taken back one by one.

How brackets are read on the page is held against the program's own reading; what is edited is read back from the file,
every size of it by the program. The expected figures are worked by hand.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import turnchain
from design_page import tables, until
from turnchain.live.answering import Live
from turnchain.live.editing import Edit, edited
from turnchain.reading import brackets

SIZED = """title = "Bog myrtle slipover"
sizes = ["S", "M", "L"]

[swatch]
clusters = 18
width = 45
rows = 26
height = 32.5

[[yarn]]
name = "Reed"
colour = "#b9b36a"

[[yarn]]
name = "Silt"
colour = "#6f8aa3"

[stripes]
order = ["Reed", "Silt"]
rows = "2 (2, 3)"

[wearer]
table = "woman"

[[piece]]
name = "front"
width = "48 (52, 57) cm"
length = "54 (56, 58)"
neck = { shoulder = "12 (13, 14)", depth = 8, shape = "round" }

[[piece]]
name = "hem band"
outline = [[0, "48 (52, 57)"], ["4 (4, 5)", "46 (50, 55)"]]
"""

# ------------------------------------------------------------------------------------------------------ brackets

BRACKETS = (
    "48 (52, 57)", "48 (52, 57) cm", "48 (52) (57)", " 48.5 ( 52 ,57 ) ", "48,5 (52; 57,5) in", "- (3, –)", "A (B, C)",
    "21 1/4 (22, 23 1/2) in", "48", 48, "48 cm", "(3, 4)", "48 (52, 57", "48 (52, (57))", "48 () 3", "2 (, 3)",
    "", None,
)  # fmt: skip


def test_brackets_are_read_on_the_page_as_the_program_reads_them(page: Any) -> None:
    found = page.evaluate(
        "async (all) => { const { figures } = await import('/brackets.js'); return all.map(figures); }", list(BRACKETS)
    )
    assert found == [brackets.figures(value) for value in BRACKETS]


@pytest.mark.parametrize("figures", [["44", "48", "52"], ["44.5", "45.5"], ["-", "3", "-"], ["44,5", "48"], ["7"]])
def test_brackets_are_written_on_the_page_as_by_the_program(page: Any, figures: list[str]) -> None:
    made = page.evaluate(
        "async (all) => { const { inBrackets } = await import('/brackets.js'); return inBrackets(all); }", figures
    )
    assert made == brackets.in_brackets(figures)
    assert len(figures) == 1 or brackets.figures(made) == figures


@pytest.fixture
def sized(page: Any, pattern_file: Path) -> Any:
    """The page with a pattern in three sizes, the second chosen."""
    pattern_file.write_text(SIZED, "utf-8")
    page.locator("#size").select_option("M", timeout=60_000)
    page.get_by_role("heading", name="(M)").wait_for(timeout=60_000)
    return page


def test_fields_show_the_figure_of_the_size_that_is_chosen(sized: Any, pattern_file: Path) -> None:
    from playwright.sync_api import expect

    width = sized.locator("#piece-0-width")
    expect(width).to_have_value("52 cm")
    expect(sized.locator("#piece-0-neck-shoulder")).to_have_value("13")
    width.fill("53")
    until(sized, pattern_file, lambda found: found["piece"][0]["width"] == "48 (53, 57) cm")
    sized.locator("#size").select_option("L")
    expect(width).to_have_value("57 cm")


def test_a_point_of_an_outline_is_changed_and_added_in_its_sizes(sized: Any, pattern_file: Path) -> None:
    sized.get_by_role("button", name="hem band").click()
    sized.get_by_text("Outline", exact=True).click()
    sized.locator("#piece-1-outline-1-1").fill("49")
    until(sized, pattern_file, lambda found: found["piece"][1]["outline"][1] == ["4 (4, 5)", "46 (49, 55)"])
    sized.get_by_role("button", name="Add a point").click()
    found = until(sized, pattern_file, lambda found: len(found["piece"][1]["outline"]) == 3)
    assert found["piece"][1]["outline"] == [
        [0, "48 (52, 57)"], ["2 (2, 2.5)", "47 (50.5, 56)"], ["4 (4, 5)", "46 (49, 55)"],
    ]  # fmt: skip
    turnchain.loads_sizes(pattern_file.read_text("utf-8"))
    sized.get_by_role("button", name="Remove point 2").click()
    until(sized, pattern_file, lambda found: len(found["piece"][1]["outline"]) == 2)


def test_a_stripe_is_made_higher_in_one_size(sized: Any, pattern_file: Path) -> None:
    sized.get_by_role("button", name="Silt: one row more").click()
    until(sized, pattern_file, lambda found: found["stripes"]["rows"] == ["2 (2, 3)", "2 (3, 3)"])
    sized.get_by_role("button", name="Silt: earlier").click()
    until(sized, pattern_file, lambda found: found["stripes"]["rows"] == ["2 (3, 3)", "2 (2, 3)"])
    assert tables(pattern_file)["stripes"]["order"] == ["Silt", "Reed"]
    sized.get_by_label("How the stripes follow each other").select_option("numbers")
    found = until(sized, pattern_file, lambda found: found["stripes"].get("kind") == "numbers")
    assert "rows" not in found["stripes"], "gone in every size"


def test_a_wearer_of_a_table_is_chosen_for_one_size(sized: Any, pattern_file: Path) -> None:
    sized.locator("#wearer-size").select_option("L")
    until(sized, pattern_file, lambda found: found["wearer"].get("size") == "- (L, -)")
    sized.locator("#wearer-table").select_option("")
    until(sized, pattern_file, lambda found: not found["wearer"])


def test_another_plan_is_chosen_for_one_size(sized: Any, pattern_file: Path) -> None:
    before = turnchain.loads_sizes(SIZED)
    sized.locator(".also svg polygon").first.wait_for(state="attached", timeout=60_000)
    sized.locator(".also").first.click()
    found = until(sized, pattern_file, lambda found: "exact_rows" in found["piece"][0])
    assert re.fullmatch(r"- \(\d+, -\)", found["piece"][0]["exact_rows"])
    after = turnchain.loads_sizes(pattern_file.read_text("utf-8"))
    assert [one == other for one, other in zip(before, after, strict=True)] == [True, False, True]


def test_an_order_of_the_same_rows_keeps_those_of_each_size() -> None:
    live = Live()
    orders = live.answer({"text": SIZED, "size": "M", "want": ["orders"]})["orders"]
    mirrored = next(order for order in orders if order["kind"] == "mirrored")
    found = live.answer({"text": SIZED, "size": "M", "edits": mirrored["edits"]})
    assert found["problems"] == []
    assert 'rows = "2 (2, 3)"' in found["text"]
    spread = next(order for order in orders if order["kind"] == "gradual")
    assert "rows" not in tomllib.loads(live.answer({"text": SIZED, "edits": spread["edits"]})["text"])["stripes"]


@pytest.mark.parametrize(
    ("old", "sizes", "value", "new"),
    [
        ('"48 (52, 57) cm"', "as written", 53, '"48 (53, 57) cm"'), ('"48 (52, 57) cm"', "one", 53, '"48 (53, 57) cm"'),
        ('"48 (52, 57) cm"', "all", 53, "53"), ("50", "as written", 53, "53"), ("50", "one", 53, '"50 (53, 50)"'),
        ("50", "one", None, '"50 (-, 50)"'), ("50", "one", 50, "50"), ("50", "all", None, None),
    ],
)  # fmt: skip
def test_an_edit_is_for_the_sizes_it_says(old: str, sizes: Any, value: Any, new: str | None) -> None:
    text = SIZED.replace('"48 (52, 57) cm"', old)
    made = edited(text, [Edit(("piece", 0, "width"), value, sizes)], 1)
    assert made == text.replace(f"width = {old}\nlength", "length" if new is None else f"width = {new}\nlength")


# --------------------------------------------------------------------------------------------------------- steps


def test_the_text_after_every_step_is_told() -> None:
    edits = [{"path": ["title"], "value": name} for name in ("One", "Two", "Three")]
    reply = Live().answer({"text": 'title = "None"\n', "edits": edits, "steps": [1, 2]})
    assert (reply["texts"], reply["text"]) == (['title = "One"\n'], 'title = "Three"\n')


@pytest.fixture
def slowly(page: Any) -> Callable[[int], None]:
    """Lets every edit take so many ms."""

    def slow(ms: int) -> None:
        page.evaluate(
            """(ms) => {
                const [own, edits] = [window.fetch, '"edits":[{'];
                const later = () => new Promise((done) => { setTimeout(done, ms); });
                window.fetch = async (path, sent) => {
                    if (path === '/live' && sent.body.includes(edits)) await later();
                    return own(path, sent);
                };
            }""",
            ms,
        )

    return slow


def typed(page: Any, *fields: tuple[str, str]) -> None:
    """Types into fields and leaves each at once, so that every one is sent."""
    for field, words in fields:
        page.locator(field).fill(words)
        page.locator(field).blur()


WIDTH, LENGTH, HEAD = "#piece-0-width", "#piece-0-length", "#wearer-head"


def test_of_edits_under_way_each_is_a_step_of_its_own(
    page: Any, pattern_file: Path, slowly: Callable[[int], None]
) -> None:
    """Three are typed before the first is answered; two are taken back one by one, and done again."""
    slowly(600)
    typed(page, (WIDTH, "50"), (LENGTH, "49"), (HEAD, "58"))
    page.get_by_role("button", name="Undo: round the head 58").wait_for()
    found = until(page, pattern_file, lambda found: found.get("wearer", {}).get("head") == 58)
    assert (found["piece"][0]["width"], found["piece"][0]["length"]) == (50, 49)
    undo = page.get_by_role("button", name="Undo")
    undo.click()
    found = until(page, pattern_file, lambda found: found.get("wearer", {}).get("head") != 58)
    assert (found["piece"][0]["width"], found["piece"][0]["length"]) == (50, 49)
    undo.click()
    found = until(page, pattern_file, lambda found: found["piece"][0]["length"] == 52)
    assert found["piece"][0]["width"] == 50
    page.get_by_role("button", name="Redo").click()
    found = until(page, pattern_file, lambda found: found["piece"][0]["length"] == 49)
    assert found.get("wearer", {}).get("head") != 58


@pytest.mark.parametrize("taken_back", [1, 2])
def test_edits_taken_back_under_way_leave_the_others(
    page: Any, pattern_file: Path, slowly: Callable[[int], None], taken_back: int
) -> None:
    """Undo comes before any answer: what stays is written, what is taken back stands nowhere, and can be done again."""
    from playwright.sync_api import expect

    slowly(600)
    typed(page, (WIDTH, "50"), (LENGTH, "49"), (HEAD, "58"))
    for _ in range(taken_back):
        page.get_by_role("button", name=re.compile("^Undo")).click()
    found = until(page, pattern_file, lambda found: found["piece"][0]["width"] == 50)
    page.locator("body:not([data-busy])").wait_for()
    page.wait_for_timeout(300)
    found = tables(pattern_file)
    assert found["piece"][0]["length"] == (49 if taken_back == 1 else 52)
    assert found.get("wearer", {}).get("head") != 58
    expect(page.locator(HEAD)).not_to_have_value("58")
    expect(page.locator(LENGTH)).to_have_value("49" if taken_back == 1 else "52")
    for _ in range(taken_back):
        page.get_by_role("button", name="Redo").click()
    found = until(page, pattern_file, lambda found: found.get("wearer", {}).get("head") == 58)
    assert found["piece"][0]["length"] == 49
