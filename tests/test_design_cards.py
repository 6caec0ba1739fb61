"""The cards of the design page, by hand: pieces, yarns, stripes, other orders, alternatives, a pulled pin, languages.

What is chosen on the page is read back from the file and planned by the program. Targets of 44 px are those of WCAG 2.1
(success criterion 2.5.5), rules that a machine can check those of axe-core.
"""

from __future__ import annotations

import os
import re
import shutil
from pathlib import Path
from typing import Any

import pytest

import turnchain
from design_page import CASES, saved, tables, until
from turnchain.design.server import page_files
from turnchain.fabric import library
from turnchain.fabric.plan import Plan
from turnchain.garment import seam_words, seams
from turnchain.garment.edging import planned


def names(found: dict[str, Any]) -> list[str]:
    return [piece["name"] for piece in found["piece"]]


# --------------------------------------------------------------------------------------------------------- fabric


def test_a_fabric_that_is_not_of_clusters_is_chosen_by_its_name(page: Any, pattern_file: Path) -> None:
    blanket = (CASES / "mudflat_blanket.toml").read_text("utf-8")
    pattern_file.write_text(blanket.replace("cluster = 3\ngap = 0", 'kind = "v"'), "utf-8")
    kind = page.get_by_label("kind of fabric", exact=True)
    kind.wait_for(timeout=60_000)
    assert kind.input_value() == "v"
    assert kind.locator("option").all_text_contents() == list(library.names())
    assert page.get_by_label("stitches in a cluster").count() == 0
    kind.select_option("solid-sc")
    until(page, pattern_file, lambda found: found["fabric"] == {"kind": "solid-sc"})
    kind.select_option("moss")
    until(page, pattern_file, lambda found: found["fabric"] == {"kind": "moss"})
    cluster, gap = page.get_by_label("stitches in a cluster"), page.get_by_label("chains between")
    assert (cluster.input_value(), gap.input_value()) == ("1", "1")
    assert gap.locator("option").all_text_contents() == ["1", "2", "3"], "one stitch needs a chain beside it"
    cluster.select_option("2")
    until(page, pattern_file, lambda found: found["fabric"] == {"kind": "moss", "cluster": 2})


def test_a_fabric_is_chosen_by_its_picture(page: Any, pattern_file: Path) -> None:
    """Every fabric of the package has one, and no two look alike; they stand by where their stitches go."""
    page.get_by_role("button", name="Choose a fabric").click()
    sheet = page.get_by_role("dialog", name="Choose a fabric")
    sheet.locator(".sheet button").first.wait_for(timeout=60_000)
    assert sorted(sheet.locator("strong").all_text_contents()) == sorted(library.names())
    stacked = [name for name in library.names() if library.named(name)["edges"] == "stacked"]
    assert sheet.locator(".sheet").nth(1).locator("strong").all_text_contents() == stacked
    page.wait_for_timeout(300)
    pictures = page.evaluate("[...document.querySelectorAll('.sample')].map((one) => one.toDataURL())")
    alike = {"closed", "open"}  # with gaps or without; never the same picture
    assert len(set(pictures)) == len(library.names()) > len(alike)
    sheet.get_by_role("button", name=re.compile("^moss ")).click()
    until(page, pattern_file, lambda found: found["fabric"] == {"kind": "moss"})
    assert page.get_by_role("dialog").count() == 0
    page.get_by_role("button", name=re.compile("Undo: kind of fabric moss")).wait_for()


# --------------------------------------------------------------------------------------------------------- edgings


def test_an_edging_is_added_changed_and_removed(page: Any, pattern_file: Path) -> None:
    """The page tells the stitches of every row as the program plans them."""
    card = page.locator(".edgings")
    card.get_by_role("button", name="Add an edging").click()
    until(page, pattern_file, lambda found: found.get("edging") == [{"rows": 3}])
    card.get_by_label("along").select_option("neck")
    card.locator("input#edging-0-rows").fill("4")
    card.get_by_label("stitch", exact=True).select_option("hdc")
    wanted = {"rows": 4, "edges": "neck", "stitch": "hdc"}
    until(page, pattern_file, lambda found: found["edging"] == [wanted])
    plan = turnchain.plan(turnchain.load(pattern_file))
    counts = planned.every(plan)[0].counts
    card.get_by_text(f"{', '.join(map(str, counts))} stitches", exact=False).first.wait_for()
    card.locator("input#edging-0-buttonholes").fill("90")
    card.locator(".problem").first.wait_for()
    card.locator("input#edging-0-buttonholes").fill("")
    until(page, pattern_file, lambda found: found["edging"] == [wanted])
    card.get_by_role("button", name="Remove Edging 1").click()
    until(page, pattern_file, lambda found: not found.get("edging"))


def test_edgings_follow_pieces_and_yarns(page: Any) -> None:
    edits = page.evaluate(
        """async () => {
            const { removed, renamed, yarnRemoved } = await import('/changes.js');
            const data = { piece: [{ name: 'front' }, { name: 'back' }], yarn: [{ name: 'Reed' }, { name: 'Silt' }],
                edging: [{ edges: ['front.neck'] }, { edges: ['front.lower', 'back.lower'], yarn: 'Silt' }] };
            const told = (edits) => edits.filter(({ path }) => path[0] === 'edging')
                .map(({ path, value }) => [path.join('.'), value]);
            return [told(renamed(data, 0, 'bib')), told(removed(data, 0)), told(yarnRemoved(data, 1))];
        }"""
    )
    assert edits == [
        [["edging.1.edges", ["bib.lower", "back.lower"]], ["edging.0.edges", ["bib.neck"]]],
        [["edging.1.edges", ["back.lower"]], ["edging.0", None]],
        [["edging.1.yarn", None]],
    ]


# ----------------------------------------------------------------------------------------------------------- seams


def test_the_seams_are_those_of_the_report_and_a_wish_is_written(page: Any, pattern_file: Path) -> None:
    """Assumed seams are written with the first wish, by the keyboard here, and sew the same cloth as before."""
    card = page.get_by_role("region", name="Seams")
    before = turnchain.plan(turnchain.load(pattern_file))
    told = [line.removeprefix("seam ") for line in seam_words.lines(before) if line.startswith("seam ")]
    assert len(told) > 3
    shown = [
        f"{item.locator('strong').inner_text()}, {line}"
        for item in card.locator("ol > li").all()
        for line in item.locator("p").all_inner_texts()
    ]
    assert shown == told
    left = card.get_by_role("list", name="Open edges").get_by_role("listitem").all_inner_texts()
    assert [one.split(",")[0] for one in left] == ["neck", "lower edge", "sleeve: cuff"]
    assert left[-1].endswith("× 2"), "a cuff at either sleeve"
    wish = card.get_by_label("stripes at seam A")
    assert wish.locator("option").all_text_contents() == ["as they come", "meet", "differ"]
    assert card.get_by_label("stripes at seam B").count() == 0, "a sleeve's top is no row end"
    wish.focus()
    page.keyboard.press("ArrowDown")
    shoulder = {"join": ["front.shoulder", "back.shoulder"], "stripes": "meet"}
    found = until(page, pattern_file, lambda found: shoulder in found.get("seam", []))
    assert [one for one in found["seam"] if "stripes" in one] == [shoulder]
    after = turnchain.plan(turnchain.load(pattern_file))
    assert sewn_cloth(after) == sewn_cloth(before)
    wish.select_option("differ")
    until(page, pattern_file, lambda found: found["seam"][0]["stripes"] == "differ")
    wish.select_option("")
    until(page, pattern_file, lambda found: not any("stripes" in one for one in found["seam"]))


def sewn_cloth(plan: Plan) -> set[object]:
    sides = [[(side.piece.name, side.copy, side.points) for side in (one.one, one.other)] for one in seams.of(plan)]
    return {frozenset(both) for both in sides}


def test_one_piece_without_seams_has_no_card_of_them(page: Any, pattern_file: Path) -> None:
    page.get_by_role("region", name="Seams").wait_for()
    shutil.copy(CASES / "mudflat_blanket.toml", pattern_file)
    page.get_by_role("region", name="Seams").wait_for(state="detached")
    assert page.get_by_role("region", name="Edgings").count() == 1


# ---------------------------------------------------------------------------------------------------------- fields


def test_what_is_no_number_stays_as_it_was_typed(page: Any) -> None:
    typed = ["Infinity", "-Infinity", "1e999", "NaN", "2,5", "24 in"]
    found = page.evaluate(
        "async (all) => { const { meant } = await import('/parts/fields.js'); return all.map((one) => meant(one)); }",
        typed,
    )
    assert found == ["Infinity", "-Infinity", "1e999", "NaN", 2.5, "24 in"]


def title_field(page: Any) -> Any:
    page.get_by_role("button", name="My patterns").click()
    return page.get_by_label("Title")


def test_what_is_selected_stays_so_when_a_reply_changes_the_field(page: Any, pattern_file: Path) -> None:
    """What is typed next then takes the place of all that was selected, as it would have without the reply."""
    field = title_field(page)
    field.select_text()
    pattern_file.write_text(pattern_file.read_text("utf-8").replace("Heron", "Sandpiper"), "utf-8")
    from playwright.sync_api import expect

    expect(field).to_have_value(re.compile("^Sandpiper"))
    page.keyboard.insert_text("Dunlin Flats top")
    assert field.input_value() == "Dunlin Flats top"
    until(page, pattern_file, lambda found: found["title"] == "Dunlin Flats top")


def test_a_field_in_which_somebody_types_is_not_written_anew(page: Any, pattern_file: Path) -> None:
    """The reply has 3 where 3.0 was typed, and no space at the end of words: what is typed next still follows it."""
    width = page.locator("#piece-0-width")
    width.fill("53.0")
    until(page, pattern_file, lambda found: found["piece"][0]["width"] == 53)
    page.wait_for_timeout(300)
    assert width.input_value() == "53.0"
    width.press_sequentially("5")
    until(page, pattern_file, lambda found: found["piece"][0]["width"] == 53.05)
    from playwright.sync_api import expect

    width.fill("54.0")
    width.blur()
    expect(width).to_have_value("54")
    title = title_field(page)
    title.fill("Dunlin ")
    until(page, pattern_file, lambda found: found["title"] == "Dunlin")
    page.wait_for_timeout(300)
    title.press_sequentially("Flats")
    until(page, pattern_file, lambda found: found["title"] == "Dunlin Flats")


def test_a_reply_to_an_edit_before_moves_nothing_back(page: Any, pattern_file: Path) -> None:
    """A field and a list show what was given last, while the replies to what was given before come in."""
    page.evaluate("""() => {
        const own = window.fetch;
        window.fetch = async (path, sent) => {
            const late = path === '/live' && sent.body.includes('"edits":[{');
            if (late) await new Promise((done) => { setTimeout(done, 700); });
            return own(path, sent);
        };
        window.seen = [];
        const both = () => [...document.querySelectorAll('#piece-0-width, #stripes-kind')];
        setInterval(() => window.seen.push(both().map((one) => one.value)), 20);
    }""")
    page.locator("#stripes-kind").select_option("random")
    page.locator("#piece-0-width").fill("50")
    page.wait_for_timeout(450)  # it is sent
    page.locator("#piece-0-width").fill("51")
    page.wait_for_timeout(450)
    page.locator("#stripes-kind").select_option("gradual")
    until(page, pattern_file, lambda found: found["stripes"].get("kind") == "gradual")
    assert tables(pattern_file)["piece"][0]["width"] == 51
    page.locator("body:not([data-busy])").wait_for()
    seen = page.evaluate("window.seen")
    for nth, goal in enumerate(("51", "gradual")):
        one = [shown[nth] for shown in seen]
        assert set(one[one.index(goal) :]) == {goal}


def test_a_pin_that_cannot_be_pulled_says_why(page: Any) -> None:
    page.evaluate("() => { window.own = window.fetch; window.fetch = () => Promise.reject(new TypeError('none')); }")
    pin = page.get_by_role("slider", name="Shoulder")
    pin.press("ArrowRight")
    told = page.get_by_role("alert").filter(has_text="The program does not answer.")
    told.wait_for()
    page.evaluate("() => { window.fetch = window.own; }")
    pin.press("ArrowRight")
    page.get_by_role("dialog", name="Choices for: Shoulder").wait_for(timeout=60_000)
    assert told.count() == 0


# --------------------------------------------------------------------------------------------------------- pieces


def test_pieces_are_added_copied_renamed_and_removed(page: Any, pattern_file: Path) -> None:
    page.get_by_role("button", name="Add a piece").click()
    page.get_by_role("button", name="A rectangle").click()
    until(page, pattern_file, lambda found: names(found)[-1] == "panel")
    page.get_by_role("button", name="Add a piece").click()
    page.get_by_role("button", name="A copy of panel").click()
    found = until(page, pattern_file, lambda found: names(found)[-1] == "panel 2")
    assert {**found["piece"][-1], "name": "panel"} == found["piece"][-2]
    page.get_by_label("Name", exact=True).fill("pocket")
    until(page, pattern_file, lambda found: names(found)[-1] == "pocket")
    page.get_by_role("button", name="Remove pocket").click()
    until(page, pattern_file, lambda found: names(found)[-1] == "panel")
    page.get_by_role("button", name=re.compile("Undo: pocket removed")).click()
    until(page, pattern_file, lambda found: names(found)[-1] == "pocket")
    assert turnchain.plan(turnchain.load(pattern_file)).piece("pocket")


def test_what_names_a_piece_follows_its_name_and_goes_with_it(page: Any, pattern_file: Path) -> None:
    text = pattern_file.read_text("utf-8")
    seams = '\n[[seam]]\njoin = ["front.shoulder", "back.shoulder"]\n[[seam]]\njoin = ["front.lower", "back.lower"]\n'
    pattern_file.write_text(f'{text}{seams}[progress]\npiece = "front"\nrows = 4\nheight = 5\n', "utf-8")
    page.get_by_role("button", name="Undo: the text").wait_for()
    assert tables(pattern_file)["piece"][1]["faces"] == "front"
    page.get_by_role("button", name="back", exact=True).click()
    page.locator("select#piece-1-faces").wait_for()
    page.get_by_role("button", name="front", exact=True).click()
    page.get_by_label("Name", exact=True).fill("bib")
    found = until(page, pattern_file, lambda found: names(found)[0] == "bib")
    assert found["piece"][1]["faces"] == "bib"
    assert found["progress"] == {"piece": "bib", "rows": 4, "height": 5}
    assert [seam["join"] for seam in found["seam"]] == [["bib.shoulder", "back.shoulder"], ["bib.lower", "back.lower"]]
    page.get_by_role("button", name="Remove bib").click()
    found = until(page, pattern_file, lambda found: "bib" not in names(found))
    assert "faces" not in found["piece"][0]
    assert not found.get("seam")
    assert "progress" not in found


def test_a_yarn_that_is_removed_is_named_nowhere(page: Any, pattern_file: Path) -> None:
    """Every edit of it: the yarn that stands between the others is never one of them."""
    edits = page.evaluate(
        """async () => {
            const { yarnRemoved } = await import('/changes.js');
            const yarn = ['Reed', 'Silt', 'Foam'].map((name) => ({ name }));
            const without = (stripes) => Object.fromEntries(yarnRemoved({ yarn, stripes }, 0)
                .map(({ path, value }) => [path.join('.'), value]));
            return [
                without({ kind: 'stash', order: ['Silt', 'Foam'], use_up: ['Reed', 'Silt'] }),
                without({ kind: 'stash', use_up: ['Reed'] }),
                without({ kind: 'between', order: ['Silt', 'Foam'], between: 'Reed' }),
                without({ kind: 'between', order: ['Reed', 'Silt'], between: 'Foam' }),
            ];
        }"""
    )
    gone = {"yarn.0": None}
    assert edits == [
        {"stripes.use_up": ["Silt"], **gone},
        {"stripes.use_up": None, **gone},
        {"stripes.order": ["Foam"], "stripes.between": "Silt", **gone},
        {"stripes.order": ["Silt"], **gone},
    ]


def test_two_quick_clicks_add_two_yarns(page: Any, pattern_file: Path) -> None:
    page.evaluate("""() => {
        const add = [...document.querySelectorAll('button')].find((one) => one.textContent === 'Add a yarn');
        add.click(); add.click();
    }""")
    found = until(page, pattern_file, lambda found: len(found["yarn"]) == 5)
    assert found["stripes"]["order"][-2:] == ["Yarn 4", "Yarn 5"]


def test_a_yarn_that_is_renamed_or_removed_is_so_in_the_stripes(page: Any, pattern_file: Path) -> None:
    page.get_by_label("Name of yarn C").fill("Foam")
    found = until(page, pattern_file, lambda found: found["yarn"][2]["name"] == "Foam")
    assert found["stripes"]["order"] == ["Heron", "Foam", "Reed", "Foam"]
    page.get_by_role("button", name="Remove Foam").click()
    found = until(page, pattern_file, lambda found: len(found["yarn"]) == 2)
    assert found["stripes"]["order"] == ["Heron", "Reed"]


def test_points_of_an_outline_are_changed(page: Any, pattern_file: Path) -> None:
    page.get_by_role("button", name="sleeve", exact=False).first.click()
    page.get_by_text("Outline", exact=True).click()
    before = tables(pattern_file)["piece"][2]["outline"]
    page.get_by_role("button", name="Add a point").click()
    found = until(page, pattern_file, lambda found: len(found["piece"][2]["outline"]) == len(before) + 1)
    points = found["piece"][2]["outline"]
    assert points[-2] == [(one + other) / 2 for one, other in zip(before[-2], before[-1], strict=True)]
    page.get_by_label("width cm").nth(1).fill("33")
    until(page, pattern_file, lambda found: found["piece"][2]["outline"][1][1] == 33)


# -------------------------------------------------------------------------------------------------------- stripes


@pytest.mark.parametrize("kind", ["mirrored", "between", "numbers", "gradual", "random", "stash", "list"])
def test_every_kind_of_stripes_can_be_taken_and_left(page: Any, pattern_file: Path, kind: str) -> None:
    """Nothing of the kind before it is left that the new one does not have."""
    chosen = page.get_by_label("How the stripes follow each other")
    chosen.select_option("numbers" if kind != "numbers" else "between")
    until(page, pattern_file, lambda found: found["stripes"].get("kind") in ("numbers", "between"))
    chosen.select_option(kind)
    until(page, pattern_file, lambda found: found["stripes"].get("kind", "list") == kind)
    page.wait_for_timeout(300)
    assert page.locator(".doubts .problem").count() == 0
    turnchain.plan(turnchain.load(pattern_file))


def test_sliders_tell_the_rule(page: Any, pattern_file: Path) -> None:
    page.get_by_label("How the stripes follow each other").select_option("gradual")
    block = page.get_by_role("slider", name="rows from one yarn to the next")
    block.focus()
    for _ in range(3):
        page.keyboard.press("ArrowRight")
    until(page, pattern_file, lambda found: found["stripes"].get("block") == 11)
    page.get_by_label("even rows only").check()
    until(page, pattern_file, lambda found: found["stripes"].get("even") is True)
    page.get_by_label("How the stripes follow each other").select_option("random")
    page.get_by_role("button", name="Draw again").click()
    until(page, pattern_file, lambda found: found["stripes"].get("seed") == 2)
    page.get_by_role("slider", name="rows at least").fill("3")
    found = until(page, pattern_file, lambda found: found["stripes"].get("least") == 3)
    assert "block" not in found["stripes"]


def test_another_order_is_taken_with_one_click(page: Any, pattern_file: Path) -> None:
    page.get_by_role("button", name="Other orders").click()
    page.get_by_role("button", name=re.compile("^mirrored")).click()
    found = until(page, pattern_file, lambda found: found["stripes"].get("kind") == "mirrored")
    assert found["stripes"]["begin"] == "middle"
    assert page.get_by_role("dialog").count() == 0
    page.get_by_role("button", name="Undo: mirrored").click()
    until(page, pattern_file, lambda found: "kind" not in found["stripes"])


def test_an_alternative_is_taken_by_its_picture(page: Any, pattern_file: Path) -> None:
    other = turnchain.plan(turnchain.load(pattern_file)).piece("front").alternatives[0]
    shown = page.locator(".also").first
    shown.locator("svg polygon").first.wait_for(state="attached")
    shown.click()
    until(page, pattern_file, lambda found: found["piece"][0].get("exact_rows") == other.rows)
    assert turnchain.plan(turnchain.load(pattern_file)).piece("front").row_count == other.rows


def test_a_photograph_gives_a_new_yarn_its_colour(page: Any, pattern_file: Path, tmp_path: Path) -> None:
    from PIL import Image

    Image.new("RGB", (60, 60), "#7a3d5c").save(tmp_path / "stash.png")
    page.get_by_role("button", name="From a photo").click()
    page.get_by_label("Choose a photograph").set_input_files(str(tmp_path / "stash.png"))
    page.get_by_role("button", name="+ a new yarn").click()
    page.get_by_role("img", name="The photograph").focus()
    for _ in range(12):
        page.keyboard.press("ArrowLeft")  # to its very edge, where the px around are partly outside
    page.keyboard.press("Enter")
    found = until(page, pattern_file, lambda found: len(found["yarn"]) == 4)
    assert found["yarn"][3]["colour"] == "#7a3d5c"


# ---------------------------------------------------------------------------------------------------- the pulled pin


def test_the_slip_tells_whether_the_head_passes(page: Any, pattern_file: Path) -> None:
    page.get_by_label("Round the head").fill("64")
    saved(page, pattern_file, "head = 64")
    page.get_by_role("slider", name="Shoulder").focus()
    page.keyboard.press("ArrowRight")
    slip = page.get_by_role("dialog", name="Choices for: Shoulder")
    slip.get_by_text("head passes").wait_for()
    page.keyboard.press("End")
    slip.get_by_text("too small for the head").wait_for()
    assert "too small" in page.get_by_role("slider", name="Shoulder").get_attribute("aria-valuetext")
    page.keyboard.press("Escape")
    slip.wait_for(state="detached")
    assert tables(pattern_file)["piece"][0]["neck"]["shoulder"] == 13


def test_a_pin_is_dragged_from_place_to_place(page: Any, pattern_file: Path) -> None:
    pin = page.get_by_role("slider", name="Shoulder")
    box = pin.locator(".head").bounding_box()
    page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    page.mouse.down()
    page.get_by_role("dialog", name="Choices for: Shoulder").wait_for()
    page.mouse.move(box["x"] + box["width"] / 2 + 30, box["y"] + box["height"] / 2, steps=6)
    page.mouse.up()
    until(page, pattern_file, lambda found: found["piece"][0]["neck"]["shoulder"] > 14)


def test_a_place_is_taken_from_the_slip(page: Any, pattern_file: Path) -> None:
    page.get_by_role("slider", name="Length").click()
    slip = page.get_by_role("dialog", name="Choices for: Length")
    slip.get_by_role("button", name="60.27 cm").click()
    until(page, pattern_file, lambda found: found["piece"][0]["length"] > 58)
    page.get_by_role("button", name=re.compile("^Undo: length")).click()
    until(page, pattern_file, lambda found: found["piece"][0]["length"] == 52)


# ---------------------------------------------------------------------------------------------- languages and access


def phrases(name: str) -> dict[str, str]:
    text = page_files()[f"languages/{name}.js"][1].decode()
    return {key: words for key, _, words in re.findall(r"^  '([^']+)': (['\"])(.*)\2,$", text, re.M)}


def test_every_language_of_the_page_has_every_phrase() -> None:
    english = phrases("english")
    assert len(english) > 200
    for name in ("german", "french"):
        other = phrases(name)
        assert other.keys() == english.keys()
        for key, words in other.items():
            assert sorted(re.findall(r"\{\w+\}", words)) == sorted(re.findall(r"\{\w+\}", english[key])), key


def test_every_phrase_is_said_and_every_phrase_said_is_there() -> None:
    sources = {name: data.decode() for name, (kind, data) in page_files().items() if name.endswith(".js")}
    code = "\n".join(words for name, words in sources.items() if not name.startswith(("vendor/", "languages/")))
    keys = set(phrases("english"))
    said = set(re.findall(r"'([a-z][\w.]*(?: and back)?)'", code))
    stems = set(re.findall(r"`([a-z]+\.)\$\{", code)) | set(re.findall(r"\}(\.\w+)`", code))
    for key in keys:
        assert key in said or any(key.startswith(stem) or key.endswith(stem) for stem in stems), key
    asked = set(re.findall(r"\bsay\('([^']+)'", code))
    assert asked <= keys, asked - keys


@pytest.mark.parametrize(("code", "words"), [("de", "Maschenprobe"), ("fr", "Échantillon")])
def test_the_page_speaks_other_languages(page: Any, code: str, words: str) -> None:
    page.get_by_role("button", name="My patterns").click()
    page.get_by_label("Language of this page").select_option(code)
    page.get_by_role("heading", name=words).wait_for()
    assert page.evaluate("document.documentElement.lang") == code
    page.keyboard.press("Escape")
    page.reload()
    page.get_by_role("heading", name=words).wait_for()


def test_the_words_of_the_pattern_change_their_language(page: Any, pattern_file: Path) -> None:
    page.get_by_role("button", name="My patterns").click()
    page.get_by_label("Its words").select_option("de")
    saved(page, pattern_file, 'language = "de"')
    page.get_by_label("Its words").select_option("UK")
    saved(page, pattern_file, 'terms = "UK"')
    assert "language" not in tables(pattern_file)
    page.keyboard.press("Escape")
    page.get_by_text("tr in 5th ch").wait_for()


STATES = (
    "plain", "slip", "orders", "photo", "add", "begin", "garment", "take", "fabric", "rows", "parts", "edging",
    "seams", "ladder", "text", "report",
)  # fmt: skip


CARD_OF = {"orders": "Stripes", "photo": "Yarn", "add": "Wearer and sizes", "fabric": "Swatch", "rows": "Swatch"}
CARD_OF |= {"parts": "Wearer and sizes", "edging": "Edgings", "seams": "Seams"}


def bring(page: Any, state: str) -> None:
    """Opens what a ``state`` is called after."""
    buttons = {"orders": "Other orders", "photo": "From a photo", "add": "Add a piece", "begin": "My patterns"}
    buttons |= {"take": "Download", "fabric": "Choose a fabric"}
    tabs = {"ladder": "Row by row", "text": "Pattern file", "report": "Report"}
    if state == "slip":
        page.get_by_role("slider", name="Shoulder").click()
        page.locator(".slip").wait_for()
    elif state == "rows":
        page.locator("summary", has_text="Rows and foundation").click()
        page.get_by_role("button", name="+ a row at the foot").click()
    elif state == "edging":
        page.get_by_role("button", name="Add an edging").click()
        page.get_by_role("group", name="Edging 1").wait_for()
    elif state == "seams":
        page.get_by_label("stripes at seam A").select_option("differ")
    elif state == "parts":
        page.get_by_role("button", name="Add a piece").click()
        page.get_by_role("button", name="With armholes and a neck").click()
        page.get_by_role("group", name="armhole").wait_for()
    elif state == "garment":
        page.get_by_role("button", name="My patterns").click()
        page.get_by_label("Start from a garment").select_option("dress")
    elif state in tabs:
        page.get_by_role("tab", name=tabs[state]).click()
    elif state in buttons:
        page.get_by_role("button", name=buttons[state]).click()
        page.get_by_role("dialog").wait_for()
    page.wait_for_timeout(400)


@pytest.mark.slow
@pytest.mark.parametrize("phone", [False, True], ids=["desk", "phone"])
def test_every_state_passes_axe_in_both_schemes(page: Any, pattern_file: Path, phone: bool) -> None:
    text = pattern_file.read_text("utf-8")
    axe = os.environ.get("TURNCHAIN_AXE")
    if not axe:
        pytest.skip("TURNCHAIN_AXE names no axe.min.js")
    if phone:
        page.set_viewport_size({"width": 390, "height": 844})
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
        for state in STATES:
            pattern_file.write_text(text, "utf-8")  # as it was before another state
            page.reload()
            page.get_by_role("tab", name="As worn" if phone else "Chart").first.wait_for()
            page.wait_for_timeout(300)
            if phone:
                page.get_by_role("tab", name="As worn").click()
                page.locator(".stations button", has_text=CARD_OF.get(state, "Warnings")).click()
            bring(page, state)
            page.evaluate(Path(axe).read_text("utf-8"))
            found = page.evaluate("axe.run()")["violations"]
            assert [(one["id"], [node["html"] for node in one["nodes"]]) for one in found] == [], (scheme, state)


def test_all_that_can_be_touched_on_a_phone_is_large_enough(page: Any) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    page.get_by_role("tab", name="As worn").click()
    small = """[...document.querySelectorAll('button, select, input, summary, .pin .hit')].filter((one) => {
        const box = one.getBoundingClientRect();
        return box.width && box.height && (box.height < 43.5 || box.width < 43.5) && !one.closest('td')
            && !(one.type === 'checkbox') && !one.matches('.chip') && getComputedStyle(one).visibility !== 'hidden';
    }).map((one) => one.outerHTML.slice(0, 120))"""
    for card in ("Swatch", "Wearer and sizes", "Yarn", "Stripes", "Edgings", "Seams", "Warnings"):
        page.locator(".stations button", has_text=card).click()
        page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
        page.wait_for_timeout(100)
        assert page.evaluate(small) == [], card
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
    page.get_by_role("slider", name="Shoulder").click()
    page.locator(".slip tr").nth(2).wait_for()
    rows = "[...document.querySelectorAll('.slip tbody tr')].map((one) => one.clientHeight)"
    assert min(page.evaluate(rows)) >= 43
    assert page.evaluate(small) == []
