"""The page on which a pattern is designed: who may ask, the file kept in step, and a maker at work in a browser."""

from __future__ import annotations

import http.client
import json
import os
import threading
import zipfile
from base64 import b64decode
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest

import turnchain
from design_page import HERON, saved
from turnchain.design.pattern_file import ChangedElsewhereError, PatternFile, digest
from turnchain.design.server import POLICY, DesignServer, page_files
from turnchain.live.answering import Live

YARNS = (("Sand", "#d8c49a"), ("Rock", "#5a6068"))


def request(server: DesignServer, method: str, path: str, body: Any = None, **headers: str) -> http.client.HTTPResponse:
    connection = http.client.HTTPConnection("127.0.0.1", server.server_address[1], timeout=30)
    data = None if body is None else json.dumps(body)
    connection.request(method, path, data, headers={name.replace("_", "-"): words for name, words in headers.items()})
    return connection.getresponse()


def known(server: DesignServer) -> dict[str, str]:
    return {"Cookie": f"turnchain={server.cookie}", "Origin": f"http://{server.host}"}


# ---------------------------------------------------------------------------------------------------- who may ask


def test_the_token_opens_the_page_once(server: DesignServer) -> None:
    path = server.address.removeprefix(f"http://{server.host}")
    first = request(server, "GET", path)
    assert first.status == 303
    assert "HttpOnly" in first.headers["Set-Cookie"]
    assert "SameSite=Strict" in first.headers["Set-Cookie"]
    assert request(server, "GET", path).status == 403


@pytest.mark.parametrize("path", ["/", "/file", "/main.js", "/news", "/starter"])
def test_a_stranger_gets_nothing(server: DesignServer, path: str) -> None:
    assert request(server, "GET", path).status == 403
    assert request(server, "GET", path, Cookie="turnchain=guess").status == 403


def test_another_host_name_that_points_here_gets_nothing(server: DesignServer) -> None:
    """A page elsewhere can let its own name point to this machine."""
    port = server.server_address[1]
    for host in (f"localhost:{port}", f"pattern.example:{port}", "127.0.0.1"):
        assert request(server, "GET", "/", Host=host, **known(server)).status == 403


@pytest.mark.parametrize("origin", ["http://pattern.example", "null", ""])
def test_a_page_elsewhere_cannot_send_messages(server: DesignServer, origin: str) -> None:
    headers = {**known(server), "Origin": origin}
    assert request(server, "POST", "/live", {"text": ""}, **headers).status == 403
    assert request(server, "POST", "/save", {"text": "x", "digest": ""}, **headers).status == 403


def test_only_this_machine_can_reach_it(server: DesignServer) -> None:
    assert server.server_address[0] == "127.0.0.1"


def test_every_answer_has_the_policy(server: DesignServer) -> None:
    for path in ("/", "/main.js", "/nothing"):
        assert request(server, "GET", path, **known(server)).headers["Content-Security-Policy"] == POLICY
    assert "unsafe" not in POLICY


@pytest.mark.parametrize("path", ["/../server.py", "/..%2fserver.py", "/parts/../../a.py", "//etc/passwd", "/vendor"])
def test_nothing_but_the_pages_own_files_is_served(server: DesignServer, path: str) -> None:
    assert request(server, "GET", path, **known(server)).status == 404


def test_the_page_asks_nobody_else() -> None:
    for name, (kind, data) in page_files().items():
        if "vendor" not in name and not kind.startswith("font") and name not in ("starter", "icon.svg"):
            assert b"http" not in data, name


def test_a_message_too_long_or_none_is_told(server: DesignServer) -> None:
    assert request(server, "POST", "/live", **known(server), Content_Length="5000000").status == 413
    assert request(server, "POST", "/live", [1], **known(server)).status == 400
    assert request(server, "POST", "/save", {}, **known(server)).status == 400


def test_a_message_is_answered_as_by_live(server: DesignServer) -> None:
    text = HERON.read_text("utf-8")
    answer = request(server, "POST", "/live", {"id": 3, "text": text, "want": ["report"]}, **known(server))
    reply = json.loads(answer.read())
    assert reply["id"] == 3
    assert reply["report"] == turnchain.report(turnchain.plan(turnchain.loads(text)))


def stash_text() -> str:
    """Stripes from the stash over many rows: a search of some seconds."""
    yarns = "".join(f'[[yarn]]\nname = "Y{nth}"\ncolour = "#{nth:02x}8040"\nstock = {90 + nth}\n' for nth in range(12))
    swatch = "[swatch]\nclusters = 10\nwidth = 20\nrows = 10\nheight = 10\nweight = 20\n"
    piece = '[[piece]]\nname = "wrap"\nwidth = 40\nlength = 500\n'
    return f'title = "Tern wrap"\n{swatch}{yarns}[stripes]\nkind = "stash"\n{piece}'


def test_a_long_search_is_stopped_and_hinders_nobody(server: DesignServer) -> None:
    message = {"id": 1, "text": stash_text(), "edits": [{"path": ["title"], "value": "Other"}]}
    found: list[Any] = []
    asked = threading.Thread(
        target=lambda: found.append(json.loads(request(server, "POST", "/live", message, **known(server)).read()))
    )
    asked.start()
    quick = request(server, "POST", "/live", {"id": 2, "text": HERON.read_text("utf-8")}, **known(server))
    assert json.loads(quick.read())["problems"] == []
    for _ in range(600):  # the process of the search may not have begun yet
        if not asked.is_alive():
            break
        request(server, "POST", "/stop", {}, **known(server))
        asked.join(0.1)
    (reply,) = found
    assert "stopped" in reply["problems"][0]["words"]
    assert reply["data"]["title"] == "Other", "the edit is not lost"


def test_a_search_beside_is_answered_as_by_live(server: DesignServer) -> None:
    text = HERON.read_text("utf-8").replace('kind = "list"', "")
    edits = [{"path": ["stripes", "kind"], "value": "stash"}, {"path": ["stripes", "rows"], "value": None}]
    message = {"id": 3, "text": text, "edits": edits, "want": ["chart"]}
    answer = request(server, "POST", "/live", message, **known(server))
    assert json.loads(answer.read()) == json.loads(json.dumps(Live().answer(message)))
    assert request(server, "POST", "/live", {"want": ["orders"], "edits": 3}, **known(server)).status == 400


@pytest.mark.parametrize("stripes", ["", '[stripes]\nkind = "stash"\n'])
@pytest.mark.parametrize("sizes", ["", 'sizes = ["S", "M"]\n'])
def test_a_fabric_of_the_makers_own_lies_beside_the_file(
    server: DesignServer, pattern_file: Path, stripes: str, sizes: str
) -> None:
    """Beside the file that is designed, for what is searched too."""
    own = 'edges = "whole"\nunit = "tr"\ngap = 0\nedge = ""\n'
    (pattern_file.parent / "own_fabric.toml").write_text(own, "utf-8")
    yarns = "".join(f'[[yarn]]\nname = "{name}"\ncolour = "{colour}"\nstock = 400\n' for name, colour in YARNS)
    text = (
        f'title = "Sandpiper scarf"\n{sizes}[swatch]\nclusters = 20\nwidth = 12\nrows = 9\nheight = 12\nweight = 20\n'
        f'{yarns}{stripes}[fabric]\nkind = "own_fabric.toml"\n[[piece]]\nname = "scarf"\nwidth = 18\nlength = 20\n'
    )
    reply = json.loads(request(server, "POST", "/live", {"id": 1, "text": text}, **known(server)).read())
    assert reply["problems"] == []
    pattern_file.write_text(text, "utf-8")
    plan = turnchain.plan(turnchain.load(pattern_file, "S" if sizes else None))
    assert len(reply["pieces"][0]["rows"]) == plan.pieces[0].row_count


# ------------------------------------------------------------------------------------------------- the file in step


def test_what_is_saved_stands_in_the_file(server: DesignServer, pattern_file: Path) -> None:
    text = pattern_file.read_text("utf-8")
    new = text.replace("width = 54 ", "width = 50 ")
    answer = request(server, "POST", "/save", {"text": new, "digest": digest(text)}, **known(server))
    assert answer.status == 200
    assert pattern_file.read_text("utf-8") == new


def test_what_somebody_else_wrote_is_never_written_over(server: DesignServer, pattern_file: Path) -> None:
    text = pattern_file.read_text("utf-8")
    pattern_file.write_text("theirs", "utf-8")
    answer = request(server, "POST", "/save", {"text": "mine", "digest": digest(text)}, **known(server))
    assert answer.status == 409
    assert json.loads(answer.read())["text"] == "theirs"
    assert pattern_file.read_text("utf-8") == "theirs"


def test_a_new_file_is_begun(tmp_path: Path) -> None:
    one = PatternFile(tmp_path / "new.toml")
    assert one.read().text == ""
    one.save("title = 'x'", "")
    assert one.read().text == "title = 'x'"
    with pytest.raises(ChangedElsewhereError):
        one.save("other", "")


# ------------------------------------------------------------------------------------------------ a maker at work

@pytest.mark.quick(1)
def test_a_measure_typed_is_planned_drawn_and_saved(page: Any, pattern_file: Path) -> None:
    before = pattern_file.read_text("utf-8").splitlines()
    page.get_by_label("Length wanted").fill("50")
    text = saved(page, pattern_file, "length = 50")
    changed = [new for old, new in zip(before, text.splitlines(), strict=True) if old != new]
    assert len(changed) == 1
    assert changed[0].endswith("# down the body as worn")
    page.get_by_role("button", name="Undo: length wanted 50").click()
    saved(page, pattern_file, "length = 52")
    page.get_by_role("button", name="Redo").click()
    saved(page, pattern_file, "length = 50")


def test_a_pin_is_pulled_by_keys(page: Any, pattern_file: Path) -> None:
    pin = page.get_by_role("slider", name="Shoulder")
    pin.focus()
    page.keyboard.press("ArrowRight")
    page.get_by_role("dialog", name="Choices for: Shoulder").wait_for(timeout=60_000)
    page.keyboard.press("Enter")
    for _ in range(200):
        plan = turnchain.plan(turnchain.load(pattern_file)).piece("front")
        worked = next(float(fit.worked) for fit in plan.fit if fit.measure == "shoulder")
        if worked > 13.5:
            break
        page.wait_for_timeout(100)
    first = turnchain.plan(turnchain.load(HERON)).piece("front")
    assert worked > next(float(fit.worked) for fit in first.fit if fit.measure == "shoulder")


@pytest.mark.quick(1)
def test_a_problem_stands_at_its_field_and_the_picture_stays(page: Any, pattern_file: Path) -> None:
    page.get_by_label("Length wanted").fill("-3")
    field = page.get_by_label("Length wanted")
    page.locator("[aria-invalid=true]").wait_for(timeout=60_000)
    assert field.get_attribute("aria-describedby")
    page.get_by_text("What you see is the last version that could be made").wait_for()
    field.fill("52")
    page.get_by_text("What you see is the last version that could be made").wait_for(state="detached", timeout=60_000)


@pytest.mark.quick(1)
def test_an_editor_elsewhere_and_the_page_stay_in_step(page: Any, pattern_file: Path) -> None:
    pattern_file.write_text(pattern_file.read_text("utf-8").replace("Heron Creek top", "Sedge Bank top"), "utf-8")
    page.get_by_role("heading", name="Sedge Bank top").wait_for(timeout=60_000)


def slowed(page: Any) -> None:
    """Edits are answered a second later from now on, and sent at once."""
    page.evaluate("""() => {
        const own = window.fetch;
        window.fetch = (path, sent) => own(path, sent).then(async (found) => {
            if (path === '/live' && JSON.parse(sent.body).edits?.length) {
                document.body.dataset.asked = 'true';
                await new Promise((done) => { setTimeout(done, 1000); });
            }
            return found;
        });
    }""")


def test_an_edit_that_could_not_be_sent_goes_with_the_next(page: Any, pattern_file: Path) -> None:
    page.evaluate("() => { window.own = window.fetch; window.fetch = () => Promise.reject(new TypeError('none')); }")
    page.get_by_label("Length wanted").fill("50")
    page.get_by_text("The program does not answer.").wait_for()
    page.evaluate("() => { window.fetch = window.own; }")
    page.get_by_label("Width wanted").fill("50")
    assert "length = 50" in saved(page, pattern_file, "width = 50")
    page.get_by_text("The program does not answer.").wait_for(state="detached")


def test_an_edit_under_way_is_taken_back_alone(page: Any, pattern_file: Path) -> None:
    page.get_by_label("Length wanted").fill("50")
    saved(page, pattern_file, "length = 50")
    slowed(page)
    page.get_by_label("Width wanted").fill("50")
    page.locator("body[data-asked]").wait_for()
    page.get_by_role("button", name="Undo: width wanted 50").click()
    page.get_by_role("button", name="Undo: length wanted 50").wait_for()
    page.locator("body:not([data-busy])").wait_for()
    page.wait_for_timeout(500)
    text = pattern_file.read_text("utf-8")
    assert "length = 50" in text
    assert "width = 50" not in text


def test_an_edit_under_way_is_not_lost_where_the_file_is_changed_elsewhere(
    browser: Any, server: DesignServer, pattern_file: Path
) -> None:
    page = browser.new_page()  # its console tells that a save was refused
    page.goto(server.address)
    page.get_by_text("Row 1 (RS").wait_for(timeout=60_000)
    slowed(page)
    page.get_by_label("Length wanted").fill("50")
    page.locator("body[data-asked]").wait_for()
    text = pattern_file.read_text("utf-8").replace("Heron Creek top", "Sedge Bank top")
    pattern_file.write_text(text, "utf-8")
    page.get_by_role("alert").filter(has_text="The file was changed elsewhere").wait_for()
    assert pattern_file.read_text("utf-8") == text
    page.get_by_role("button", name="Keep what is here").click()
    saved(page, pattern_file, "length = 50")
    page.close()


def test_everything_is_taken_along_in_one_archive(page: Any, pattern_file: Path) -> None:
    page.get_by_role("button", name="Download").click()
    with page.expect_download(timeout=240_000) as caught:
        page.get_by_role("button", name="Everything").click()
    archive = zipfile.ZipFile(BytesIO(Path(caught.value.path()).read_bytes()))
    plan = turnchain.plan(turnchain.load(pattern_file))
    assert archive.read("plan.json") == turnchain.plan_data(plan).encode()
    assert archive.read("front.svg") == turnchain.svg(turnchain.chart(plan, "front"))
    assert archive.read("pattern.toml") == pattern_file.read_bytes()


def test_a_fabric_of_the_makers_own_is_taken_along(server: DesignServer, pattern_file: Path) -> None:
    own = '# as on my blanket\nedges = "whole"\nunit = "tr"\ngap = 0\nedge = ""\n'
    (pattern_file.parent / "own_fabric.toml").write_text(own, "utf-8")
    text = 'title = "Sandpiper scarf"\n[swatch]\nclusters = 20\nwidth = 12\nrows = 9\nheight = 12\n'
    text += '[[piece]]\nname = "scarf"\nwidth = 18\nlength = 20\n'
    text += '[fabric]\nkind = "own_fabric.toml"\n'
    reply = json.loads(request(server, "POST", "/live", {"text": text, "want": ["archive"]}, **known(server)).read())
    archive = zipfile.ZipFile(BytesIO(b64decode(reply["archive"])))
    assert archive.read("own_fabric.toml").decode() == own
    assert archive.read("pattern.toml").decode() == text


def test_rows_are_painted_on_the_ladder(page: Any, pattern_file: Path) -> None:
    page.get_by_role("tab", name="Row by row").click()
    page.get_by_role("button", name="1 A", exact=True).click()
    page.locator(".ladder").get_by_role("button", name="C Silt").click()
    saved(page, pattern_file, 'order = ["Silt", "Heron"')


def test_a_colour_is_taken_from_a_photograph(page: Any, pattern_file: Path, tmp_path: Path) -> None:
    from PIL import Image

    Image.new("RGB", (80, 60), "#3d7c4f").save(tmp_path / "stash.png")
    page.get_by_role("button", name="From a photo").click()
    page.get_by_label("Choose a photograph").set_input_files(str(tmp_path / "stash.png"))
    page.get_by_role("button", name="Reed", exact=True).click()
    page.get_by_role("img", name="The photograph").click()
    text = saved(page, pattern_file, 'colour = "#3d7c4f"')
    assert turnchain.loads(text).yarns[1].colour == "#3d7c4f"


def test_a_link_holds_the_pattern(page: Any, server: DesignServer, pattern_file: Path) -> None:
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.get_by_role("button", name="Download").click()
    page.get_by_role("button", name="Copy a link").click()
    page.get_by_text("The link is copied.").wait_for()
    link = page.evaluate("navigator.clipboard.readText()")
    assert link.startswith(f"http://{server.host}/#pattern=")
    pattern_file.write_text("title = 'another'", "utf-8")
    other = page.context.new_page()
    other.goto(link)
    other.get_by_role("heading", name="Heron Creek top").wait_for(timeout=60_000)
    other.close()


@pytest.mark.parametrize("look", ["Short chart", "Fabric", "Schematic", "In words", "Report"])
def test_every_look_shows_something(page: Any, look: str) -> None:
    page.get_by_role("tab", name=look, exact=True).click()
    if look in ("In words", "Report"):
        page.locator("pre.reading").filter(has_text="front").wait_for(timeout=60_000)
    else:
        page.locator(".looks canvas[aria-label*='front']").wait_for(timeout=60_000)


def test_it_can_be_used_by_those_who_cannot_see_or_point(page: Any) -> None:
    axe = os.environ.get("TURNCHAIN_AXE")
    if not axe:
        pytest.skip("TURNCHAIN_AXE names no axe.min.js")
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        page.evaluate(Path(axe).read_text("utf-8"))
        found = page.evaluate("axe.run()")
        assert [(one["id"], [node["html"] for node in one["nodes"]]) for one in found["violations"]] == []


def test_a_phone_shows_it_without_moving_sideways(page: Any) -> None:
    for width in (1280, 1000, 390, 320):
        page.set_viewport_size({"width": width, "height": 844})
        assert page.evaluate("document.documentElement.scrollWidth") <= width
    shown = "[...document.querySelectorAll('button')].filter(one => one.offsetParent)"
    assert page.evaluate(f"Math.min(...{shown}.map(one => one.getBoundingClientRect().height))") >= 43.5


def test_the_canvas_is_what_the_png_shows(page: Any, pattern_file: Path) -> None:
    """The chart as the page draws it beside the chart as PNG, a px for a px: small differences of smoothing alone."""
    import numpy as np
    from PIL import Image

    plan = turnchain.plan(turnchain.load(pattern_file))
    expected = np.asarray(Image.open(BytesIO(turnchain.png(turnchain.chart(plan, "front")))).convert("RGB"), dtype=int)
    drawn = page.evaluate(
        """async () => {
            const { Drawing } = await import('/scene.js');
            const { ask } = await import('/engine.js');
            const { text } = await (await fetch('/file')).json();
            const { chart } = await ask({ id: 1, text, piece: 'front', want: ['chart'] });
            await Promise.all([document.fonts.load('400 20px Lato'), document.fonts.load('600 20px Lato')]);
            const canvas = new OffscreenCanvas(chart.width, chart.height);
            new Drawing(chart).draw(canvas.getContext('2d'));
            const blob = await canvas.convertToBlob();
            const data = new Uint8Array(await blob.arrayBuffer());
            return Array.from(data);
        }"""
    )
    found = np.asarray(Image.open(BytesIO(bytes(drawn))).convert("RGB"), dtype=int)
    assert found.shape == expected.shape
    off = np.abs(found - expected)
    assert off.mean() < 2
    assert (off.max(axis=2) > 90).mean() < 0.004


def test_a_pattern_in_sizes_shows_the_one_that_is_chosen(page: Any, pattern_file: Path) -> None:
    text = pattern_file.read_text().replace("terms =", 'sizes = ["S", "M"]\nterms =', 1)
    pattern_file.write_text(text.replace("width = 54 ", 'width = "54 (60)" ', 1))
    choice = page.get_by_label("Size", exact=True)
    choice.wait_for()
    assert choice.locator("option").all_text_contents() == ["S", "M"]
    page.get_by_role("heading", name="Heron Creek top (S)").wait_for()
    choice.select_option("M")
    page.get_by_role("heading", name="Heron Creek top (M)").wait_for()
    page.get_by_label("Width wanted").fill("62")
    saved(page, pattern_file, 'width = "54 (62)"')


def test_a_part_looked_at_from_nearer_is_the_same_part_of_the_whole(page: Any) -> None:
    """What lies outside the canvas is left out: the part that is seen is as on a canvas that holds all, but for the
    smoothing of lines that meet where a row is cut."""
    off = page.evaluate(
        """async (text) => {
            const { Drawing } = await import('/scene.js');
            const { ask } = await import('/engine.js');
            const { chart } = await ask({ id: 1, text, want: ['chart'] });
            const px = (width, height, zoom, x, y) => {
                const canvas = new OffscreenCanvas(width, height);
                const context = canvas.getContext('2d');
                context.setTransform(zoom, 0, 0, zoom, x, y);
                new Drawing(chart).draw(context);
                return context.getImageData(0, 0, 300, 200).data;
            };
            const [part, whole] = [px(300, 200, 4, -1800, -2000), px(chart.width * 4 - 1800, 2600, 4, -1800, -2000)];
            return [part.reduce((sum, one, at) => sum + Math.abs(one - whole[at]), 0), new Set(part).size];
        }""",
        wide_text(),
    )
    assert off[0] / (300 * 200 * 4) < 0.02
    assert off[1] > 20, "there is something to be seen"


def wide_text() -> str:
    """A wrap of some 20,000 dc: a row has more stitches than are drawn one by one."""
    swatch = "[swatch]\nclusters = 10\nwidth = 10\nrows = 20\nheight = 10\n"
    yarns = "".join(f'[[yarn]]\nname = "{one[0]}"\ncolour = "{one[1:]}"\n' for one in ("a#446688", "b#ddccaa"))
    piece = '[stripes]\norder = ["a", "b"]\nrows = 2\n[[piece]]\nname = "wrap"\nwidth = 120\nlength = 30\n'
    return f'title = "Wide wrap"\n{swatch}{yarns}{piece}'


def test_low_rows_that_are_copied_look_as_if_they_were_drawn(page: Any) -> None:
    """Of a chart so large that a row is a few px high the copies stand on whole px; the colours stay."""
    off = page.evaluate(
        """async (text) => {
            const { Drawing } = await import('/scene.js');
            const { ask } = await import('/engine.js');
            const { chart } = await ask({ id: 1, text, want: ['chart'] });
            const drawn = (copied) => {
                const canvas = new OffscreenCanvas(700, 300);
                const context = canvas.getContext('2d');
                context.setTransform(0.35, 0, 0, 0.35, 0, 0);
                const one = new Drawing(chart);
                if (!copied) one.copy = (to, name, box, x, y, ink) => {
                    const { a: scale } = to.getTransform();
                    one.scale = 1000; // so that it is drawn
                    one.use(to, [name, 0, 0], x, y, ink);
                    one.scale = scale;
                };
                one.draw(context);
                return context.getImageData(0, 0, 700, 300).data;
            };
            const [one, other] = [drawn(true), drawn(false)];
            return [one.reduce((sum, each, at) => sum + Math.abs(each - other[at]), 0) / one.length, new Set(one).size];
        }""",
        wide_text(),
    )
    assert 0 < off[0] < 3
    assert off[1] > 20
