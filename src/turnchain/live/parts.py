"""The parts of a reply, each made when it is asked for.

In: a plan and the message that asks. Out: plain values for JSON: pictures as ``drawn`` has them, texts, and files in
base 64.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Callable, Iterator
from contextlib import suppress
from io import BytesIO
from typing import Any, TypeAlias
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

import turnchain
from turnchain.drawing.colours import touching
from turnchain.drawing.looks import Look
from turnchain.fabric.lattice import Side
from turnchain.fabric.plan import Plan
from turnchain.live import alternatives, orders
from turnchain.live.drawn import scene_json
from turnchain.live.reach import reach
from turnchain.planning.kept import KeptPieces
from turnchain.records import frozen
from turnchain.scene import Scene

Json: TypeAlias = Any
Message: TypeAlias = dict[str, Json]


@frozen
class Question:
    """What a part is made of: the ``plan``, the ``message`` with the name of its ``piece``, and the pieces
    ``searched`` before."""

    plan: Plan
    message: Message
    searched: KeptPieces

    @property
    def look(self) -> Look:
        """How pictures look. Raises MakerError for words that are none."""
        wish = self.message.get("look") or {}
        return turnchain.look(
            wish.get("hand", "right"),
            bool(wish.get("mono")),
            wish.get("page", "light"),
            bool(wish.get("true")),
            full_colour=bool(wish.get("full_colour")),
        )

    @property
    def number(self) -> int:
        """Which piece is looked at, from 0."""
        return [piece.name for piece in self.plan.pieces].index(self.message["piece"])


def _picture(asked: Question, scene: Scene) -> Json:
    """A scene with the colours of the ``yarns`` by name, and which of them are ``touching``: a page that is told of
    another colour can so work out every tint anew."""
    colours = {yarn.name: yarn.colour for yarn in asked.plan.pattern.yarns}
    return {**scene_json(scene), "yarns": colours, "touching": touching(asked.plan.pieces)}


def _chart(asked: Question) -> Json:
    return _picture(asked, turnchain.chart(asked.plan, asked.message["piece"], look=asked.look))


def _short(asked: Question) -> Json:
    return _picture(asked, turnchain.chart(asked.plan, asked.message["piece"], look=asked.look, short=True))


def _preview(asked: Question) -> Json:
    return _picture(asked, turnchain.stripes(asked.plan, look=asked.look))


def _row(asked: Question) -> Json:
    """The words of one row of the piece: {"number", "words"}."""
    from turnchain.wording.words import row_words  # words are asked for when a row is pointed at

    piece = asked.plan.piece(asked.message["piece"])
    number = int(asked.message.get("row") or 1)
    rows = [row for row in piece.rows if row.number == number] or [piece.rows[0]]
    language = asked.plan.pattern.language or asked.plan.pattern.terms
    return {"number": rows[0].number, "words": [row_words(piece, row, language) for row in rows]}


def _close_up(asked: Question) -> Json:
    number = int(asked.message.get("row") or 1)
    at: Side = "left" if asked.message.get("at") == "left" else "right"
    scene = turnchain.close_up(asked.plan, asked.message["piece"], (number, number), at, look=asked.look)
    return _picture(asked, scene)


def _reach(asked: Question) -> Json:
    return reach(asked.plan.pattern, asked.number, str(asked.message.get("measure")), asked.searched)


def _files(asked: Question) -> Json:
    """Files to take along: [{"name", "kind", "data"}] with the data in base 64."""
    return [{"name": name, "kind": kind, "data": _sent(data)} for name, kind, data in _made(asked)]


def _sent(data: bytes) -> str:
    return b64encode(data).decode()


def _archive(asked: Question) -> Json:
    """Everything, with the pattern file, as a zip in base 64; the same bytes for the same pattern."""
    stream = BytesIO()
    with ZipFile(stream, "w", ZIP_DEFLATED) as archive:
        for name, _, data in (("pattern.toml", "", str(asked.message.get("text", "")).encode()), *_made(asked)):
            archive.writestr(ZipInfo(name), data, ZIP_DEFLATED)
    return _sent(stream.getvalue())


def _made(asked: Question) -> Iterator[tuple[str, str, bytes]]:
    yield "plan.json", "application/json", turnchain.plan_data(asked.plan).encode()
    yield "pattern.md", "text/markdown", turnchain.markdown(asked.plan).encode()
    yield "beside.html", "text/html", turnchain.page(asked.plan, look=asked.look).encode()
    yield "booklet.pdf", "application/pdf", turnchain.pdf(asked.plan, turnchain.booklet(asked.plan, look=asked.look))
    scenes = {"stripes": turnchain.stripes(asked.plan, look=asked.look), "schematic": turnchain.schematic(asked.plan)}
    scenes |= {piece.name: turnchain.chart(asked.plan, piece.name, look=asked.look) for piece in asked.plan.pieces}
    for name, scene in scenes.items():
        yield f"{name}.svg", "image/svg+xml", turnchain.svg(scene)
        with suppress(ImportError):  # a browser's Python has no numpy
            yield f"{name}.png", "image/png", turnchain.png(scene)
        yield f"{name}.txt", "text/plain", f"{scene.words}\n".encode()


#: What makes each part of a reply, by its name: pictures as ``drawn`` has them, texts, and files as base 64.
PARTS: dict[str, Callable[[Question], Json]] = {
    "chart": _chart,
    "short": _short,
    "preview": _preview,
    "schematic": lambda asked: scene_json(turnchain.schematic(asked.plan)),
    "report": lambda asked: turnchain.report(asked.plan),
    "words": lambda asked: turnchain.words(asked.plan, asked.message.get("language")),
    "row": _row,
    "close-up": _close_up,
    "reach": _reach,
    "also": lambda asked: alternatives.pictured(asked.plan, asked.number, asked.searched),
    "orders": lambda asked: orders.orders(asked.plan, int(asked.message.get("seed") or 1)),
    "files": _files,
    "archive": _archive,
    "booklet": lambda asked: _sent(turnchain.pdf(asked.plan, turnchain.booklet(asked.plan, look=asked.look))),
    "beside": lambda asked: _sent(turnchain.page(asked.plan, look=asked.look).encode()),
}
