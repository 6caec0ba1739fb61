"""What a piece and its rows are made of, on the design page: kinds of row, foundation, parts, mirror images, garments
to begin with, a fabric of one's own.

What is chosen on the page is read back from the file, or from what is downloaded, and planned by the program.
"""

from __future__ import annotations

import json
import threading
import tomllib
import zipfile
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest

import turnchain
from design_page import CASES, until
from turnchain.design.server import DesignServer
from turnchain.errors import PatternError
from turnchain.fabric import library
from turnchain.live.answering import Live
from turnchain.recipes import recipe

BLANKET = (CASES / "mudflat_blanket.toml").read_text("utf-8")
MINE = 'edges = "stacked"\nunit = "tr ch ch ch tr"\ngap = 0\nedge = "tr"\n'
PLAIN = """title = "Coot top"
[swatch]
clusters = 10
width = 22
rows = 20
height = 22
[[piece]]
name = "back"
width = 50
length = 55
[[piece]]
name = "sleeve"
width = 38
length = 40
count = 2
mirrored = true
"""
STRAIGHT = PLAIN.replace("count = 2\nmirrored = true\n", "")


def opened(page: Any, file: Path, text: str, waits_for: str) -> None:
    file.write_text(text, "utf-8")
    page.get_by_role("heading", name=waits_for).wait_for(timeout=60_000)


# ------------------------------------------------------------------------------------------------- kinds of row


@pytest.mark.slow
def test_rows_and_foundation_are_chosen(page: Any, pattern_file: Path) -> None:
    opened(page, pattern_file, STRAIGHT, "Coot top")
    page.locator("summary", has_text="Rows and foundation").click()
    page.get_by_role("button", name="+ a row in turn").click()
    until(page, pattern_file, lambda found: found.get("fabric") == {"rows": ["cluster", "sc"]})
    page.get_by_role("button", name="+ a row in turn").click()
    page.get_by_label("in turn: row 2").select_option("cluster")
    until(page, pattern_file, lambda found: found["fabric"] == {"rows": ["cluster", "cluster", "sc"]})
    page.get_by_label("Clusters after them").select_option("stacked")
    page.get_by_role("button", name="+ a row at the top").click()
    page.get_by_label("Row 1 is worked into").select_option("hdc")
    page.get_by_label("Its edges").select_option("flush")
    page.locator("#fabric-turning_chain").fill("2")
    page.get_by_label("they count").select_option("false")
    wanted = {
        "rows": ["cluster", "cluster", "sc"], "then": "stacked", "last": ["sc"], "foundation": "hdc", "start": "flush",
        "turning_chain": 2, "turning_chain_counts": False,
    }  # fmt: skip
    until(page, pattern_file, lambda found: found["fabric"] == wanted)
    page.locator("body:not([data-busy])").wait_for()
    plan = turnchain.plan(turnchain.load(pattern_file)).piece("back")
    assert [row.kind for row in plan.rows[:5]] == ["hdc", "cluster", "cluster", "sc", "cluster"]
    page.get_by_role("button", name="+ a row at the foot").click()  # base rows say themselves what is on the chain
    found = until(page, pattern_file, lambda found: found["fabric"].get("base") == ["sc"])
    assert "foundation" not in found["fabric"]
    page.get_by_role("button", name="in turn: remove row 3").click()
    until(page, pattern_file, lambda found: "rows" not in found["fabric"])


def test_what_a_fabric_lets_be_said_of_rows() -> None:
    """As the loader of fabrics has it: what is offered is taken, what is not offered is refused."""
    live = Live()
    for name in library.names():
        text = BLANKET.replace("cluster = 3\ngap = 0", f'kind = "{name}"')
        told = live.answer({"id": 1, "text": text})["rows"]
        for way in ("staggered", "stacked"):
            fabric = f'kind = "{name}"\nrows = ["cluster", "sc"]\nthen = "{way}"'
            try:
                turnchain.loads(BLANKET.replace("cluster = 3\ngap = 0", fabric))
            except PatternError:
                assert way not in told["then"], (name, way)
            else:
                assert told["mixed"], (name, way)
                assert way in told["then"], (name, way)


# ------------------------------------------------------------------------------------------------- parts, mirrors


@pytest.mark.slow
def test_a_piece_gets_its_parts_and_a_mirror_image_follows(page: Any, pattern_file: Path) -> None:
    opened(page, pattern_file, PLAIN, "Coot top")
    page.locator("summary", has_text="Parts of the piece").click()
    page.get_by_role("button", name="+ armhole").click()
    page.get_by_label("goes in by").fill("6")
    armhole = {"depth": 20, "width": 6}
    until(page, pattern_file, lambda found: found["piece"][0].get("armhole") == armhole)
    page.get_by_role("button", name="+ taper").click()
    until(page, pattern_file, lambda found: found["piece"][0].get("taper") == {"width": 40})
    page.get_by_role("button", name="Remove taper").click()
    page.get_by_role("button", name="+ slit").click()
    until(page, pattern_file, lambda found: found["piece"][0].get("slit") == 6 and "taper" not in found["piece"][0])
    page.get_by_role("button", name="left sleeve").click()
    page.locator("summary", has_text="Parts of the piece").click()
    page.get_by_role("button", name="+ sleeve cap").click()
    found = until(page, pattern_file, lambda found: "cap" in found["piece"][1])
    assert found["piece"][1]["cap"] == {"into": ["back"]}
    page.get_by_role("button", name="right sleeve").click()
    page.get_by_text("right sleeve follows left sleeve: it is its mirror image.").wait_for()
    assert page.locator("table.fit").count() == 0
    page.get_by_role("img", name="Chart of right sleeve").wait_for()
    page.get_by_role("button", name="Go to left sleeve").click()
    page.locator("#piece-1-width").fill("36")
    until(page, pattern_file, lambda found: found["piece"][1]["width"] == 36)
    page.get_by_role("button", name="back", exact=True).click()
    page.get_by_label("Name", exact=True).fill("rear")
    found = until(page, pattern_file, lambda found: found["piece"][0]["name"] == "rear")
    assert found["piece"][1]["cap"] == {"into": ["rear"]}
    plan = turnchain.plan(turnchain.load(pattern_file))
    assert [piece.name for piece in plan.pieces] == ["rear", "left sleeve", "right sleeve"]


@pytest.mark.slow
def test_changes_of_pieces_reach_mirror_images_and_caps(page: Any) -> None:
    """The edits themselves: a piece that goes takes its mirror images along, and the caps that go into it alone."""
    edits = page.evaluate(
        """async () => {
            const { mirrorOf, newPiece, removed, renamed, yarnRemoved, yarnRenamed } = await import('/changes.js');
            const piece = [{ name: 'left front', armhole: {} }, { name: 'back', armhole: {} },
                { name: 'right front', mirror: 'left front' },
                { name: 'sleeve', cap: { into: ['left front', 'back'] } },
                { name: 'cuff', cap: { into: ['left front'] } }, { name: 'hem', begin_on: 'left front.first' }];
            const striped = { yarn: [{ name: 'Reed' }, { name: 'Silt' }], stripes: { sc: 'Reed' } };
            return [renamed({ piece }, 0, 'bib'), removed({ piece }, 0), mirrorOf({ piece }, 1, 'other'),
                newPiece({}, 'half_triangle', 'shawl'), [yarnRenamed(striped, 0, 'Rush'), yarnRemoved(striped, 0)]];
        }"""
    )
    renamed, removed, mirror, triangle, kinds = edits
    assert {"path": ["stripes", "sc"], "value": "Rush"} in kinds[0]
    assert {"path": ["stripes", "sc"], "value": None} in kinds[1]
    assert {"path": ["piece", 2, "mirror"], "value": "bib"} in renamed
    assert {"path": ["piece", 3, "cap", "into"], "value": ["bib", "back"]} in renamed
    assert {"path": ["piece", 3, "cap", "into"], "value": ["back"]} in removed
    assert {"path": ["piece", 4, "cap"], "value": None} in removed
    assert {"path": ["piece", 5, "begin_on"], "value": "bib.first"} in renamed
    assert {"path": ["piece", 5, "begin_on"], "value": None} in removed
    assert removed[-2:] == [{"path": ["piece", 2], "value": None}, {"path": ["piece", 0], "value": None}]
    assert mirror == [{"path": ["piece", 6], "value": {"name": "other", "mirror": "back"}}]
    assert triangle == {"name": "shawl", "half_triangle": {"width": 120, "height": 60}}


# -------------------------------------------------------------------------------------------- with no file at all


@pytest.fixture
def alone(browser: Any) -> Iterator[Any]:
    """The page of a program without a pattern file: the browser keeps all."""
    server = DesignServer(None)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    page = browser.new_context(viewport={"width": 1280, "height": 900}, accept_downloads=True).new_page()
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text) if message.type in ("error", "warning") else None)
    page.on("pageerror", lambda error: said.append(str(error)))
    page.goto(server.address)
    yield page
    assert said == []
    page.context.close()
    server.closing = True
    server.shutdown()
    server.server_close()


@pytest.mark.slow
def test_a_garment_is_begun_with(alone: Any) -> None:
    chosen = alone.get_by_label("Start from a garment")
    chosen.locator("option").nth(1).wait_for(state="attached")
    assert chosen.locator("option").count() == 1 + len(recipe.names())
    chosen.select_option("hat")
    alone.get_by_role("button", name="Work it out").click()
    alone.get_by_role("alert").filter(has_text="hat needs head").wait_for()
    alone.get_by_role("textbox", name="round the head cm", exact=True).fill("56")
    alone.get_by_role("button", name="Work it out").click()
    alone.get_by_text("Row 1 (RS").wait_for(timeout=60_000)
    alone.get_by_role("heading", name="Hat").wait_for()
    alone.get_by_role("button", name="My patterns").click()
    chosen.select_option("boxy top")
    alone.locator("#garment-table").select_option("woman")
    alone.locator("#garment-size").select_option("all")
    alone.get_by_role("button", name="Work it out").click()
    alone.get_by_role("heading", name="Boxy top").wait_for(timeout=60_000)
    alone.locator("#size").wait_for(timeout=60_000)
    kept = alone.evaluate("localStorage.getItem('turnchain pattern: Boxy top')")
    patterns = turnchain.loads_sizes(json.loads(kept)["text"])
    assert [pattern.size for pattern in patterns] == ["XS", "S", "M", "L", "1X", "2X", "3X", "4X", "5X"]


def downloaded(page: Any) -> zipfile.ZipFile:
    page.get_by_role("button", name="Download").click()
    with page.expect_download(timeout=150_000) as caught:
        page.get_by_role("button", name="Everything").click()
    return zipfile.ZipFile(BytesIO(Path(caught.value.path()).read_bytes()))


def with_fabric_of_ones_own(page: Any) -> None:
    """Takes a fabric's file on the page, begins another pattern and comes back; the file comes along in the archive."""
    page.get_by_role("button", name="Choose a fabric").click()
    file = {"name": "mine.toml", "mimeType": "application/toml", "buffer": MINE.encode()}
    page.get_by_label("Choose its file").set_input_files(file)
    page.get_by_text("(2 tr").first.or_(page.get_by_text("tr in").first).wait_for(timeout=60_000)
    page.locator("body:not([data-busy])").wait_for()
    assert page.locator(".problem").count() == 0
    page.reload()
    page.get_by_text("Row 1 (RS").wait_for(timeout=180_000)
    assert page.get_by_label("kind of fabric", exact=True).input_value() == "mine.toml"
    archive = downloaded(page)
    assert archive.read("mine.toml").decode() == MINE
    assert tomllib.loads(archive.read("pattern.toml").decode())["fabric"]["kind"] == "mine.toml"
    page.keyboard.press("Escape")


@pytest.mark.slow
def test_a_fabric_of_ones_own_is_kept_with_the_pattern(alone: Any) -> None:
    alone.get_by_role("button", name="Start from nothing").click()
    alone.get_by_text("Row 1 (RS").wait_for(timeout=60_000)
    with_fabric_of_ones_own(alone)
    link = alone.evaluate(
        """async (files) => {
            const { linkOf } = await import('/sharing.js');
            const [one] = Object.keys(localStorage).filter((key) => key.startsWith('turnchain pattern'));
            return linkOf(JSON.parse(localStorage.getItem(one)).text, files);
        }""",
        {"mine.toml": MINE},
    )
    alone.get_by_role("button", name="My patterns").click()
    text = f'{STRAIGHT}[fabric]\nkind = "own.toml"\n'
    files = (("own.toml", MINE), ("scarf.toml", text))
    sent = [{"name": name, "mimeType": "application/toml", "buffer": one.encode()} for name, one in files]
    alone.get_by_label("Open a pattern file").set_input_files(sent)
    alone.get_by_role("heading", name="Coot").wait_for(timeout=60_000)
    alone.locator("body:not([data-busy])").wait_for()
    assert alone.locator(".problem").count() == 0
    alone.goto("about:blank")
    alone.goto(link)
    alone.get_by_text("Row 1 (RS").wait_for(timeout=60_000)
    assert alone.get_by_label("kind of fabric", exact=True).input_value() == "mine.toml"
    assert alone.locator(".problem").count() == 0


def test_texts_beside_a_pattern_are_read() -> None:
    text = BLANKET.replace("cluster = 3\ngap = 0", 'kind = "mine.toml"')
    assert Live().answer({"id": 1, "text": text, "beside": {"mine.toml": MINE}})["problems"] == []
    wrong = Live().answer({"id": 1, "text": text, "beside": {"mine.toml": MINE.replace("0", "9")}})["problems"]
    assert "mine.toml, gap: 9" in wrong[0]["words"]
    missing = Live().answer({"id": 1, "text": text, "beside": {"x": ""}})["problems"]
    assert "there is no such file" in missing[0]["words"]
    assert Live().answer({"id": 1, "text": text})["problems"][0]["path"] == ["fabric", "kind"]
