"""A top designed from nothing to a downloaded archive: by mouse, by keyboard alone, on a phone; and the robot.

The walk is the one whose pictures the README shows (``gallery/walk.py``). What is downloaded is made again by the
program from the pattern file in it.
"""

from __future__ import annotations

import importlib.util
import os
import threading
import zipfile
from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest

import turnchain
from design_robot import worked
from turnchain.design.pattern_file import PatternFile
from turnchain.design.server import DesignServer

pytestmark = pytest.mark.slow


def _module(name: str) -> Any:
    path = Path(__file__).parent.parent / "gallery" / f"{name}.py"
    found = importlib.util.spec_from_file_location(name, path)
    assert found is not None
    assert found.loader is not None
    module = importlib.util.module_from_spec(found)
    found.loader.exec_module(module)
    return module


walk = _module("walk")
WAYS: dict[str, tuple[tuple[int, int], Callable[[Any, Any], None]]] = {
    "mouse": ((1280, 860), walk.by_mouse),
    "keys": ((1280, 860), walk.by_keys),
    "phone": ((390, 844), lambda page, shown: walk.by_mouse(page, shown, narrow=True)),
}


@pytest.mark.parametrize("way", WAYS)
def test_a_top_is_designed_from_nothing_to_an_archive(browser: Any, tmp_path: Path, way: str) -> None:
    (width, height), go = WAYS[way]
    file = tmp_path / "top.toml"
    server = DesignServer(PatternFile(file))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    touch = way == "phone"
    page = browser.new_context(
        viewport={"width": width, "height": height}, has_touch=touch, is_mobile=touch, accept_downloads=True
    ).new_page()
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text) if message.type == "error" else None)
    page.on("pageerror", lambda error: said.append(str(error)))
    shown: list[str] = []
    try:
        page.goto(server.address)
        with page.expect_download(timeout=240_000) as caught:
            go(page, shown.append)
        archive = zipfile.ZipFile(BytesIO(Path(caught.value.path()).read_bytes()))
    finally:
        page.context.close()
        server.closing = True
        server.shutdown()
        server.server_close()
    assert said == []
    assert shown == list(walk.STEPS)
    text = archive.read("pattern.toml").decode()
    assert text == file.read_text("utf-8")
    plan = turnchain.plan(turnchain.loads(text))
    assert plan.pattern.title == walk.TITLE
    assert [(piece.name, piece.count) for piece in plan.pieces] == [("back", 1), ("front", 1), ("sleeve", 2)]
    assert [(yarn.name, yarn.colour) for yarn in plan.pattern.yarns] == [one[:2] for one in walk.YARNS]
    assert plan.pattern.stripes is not None
    assert plan.pattern.stripes.kind == "mirrored"
    assert turnchain.prove(plan)
    for piece in plan.pieces:
        assert archive.read(f"{piece.name}.svg") == turnchain.svg(turnchain.chart(plan, piece.name))


@pytest.mark.parametrize("seed", [11, 12])
def test_a_robot_finds_nothing_wrong(browser: Any, tmp_path: Path, seed: int) -> None:
    """As ``design_robot`` with many seeds and for longer, at night."""
    seconds = float(os.environ.get("TURNCHAIN_ROBOT_SECONDS", "15"))
    assert worked(browser, seed, seconds, tmp_path) == []
