"""The parts of a reply, each made when it is asked for.

In: a plan and the message that asks. Out: plain values for JSON: pictures as ``drawn`` has them, texts, and files in
base 64.
"""

from __future__ import annotations

from base64 import b64decode, b64encode
from collections.abc import Callable, Iterator
from importlib.util import find_spec
from io import BytesIO
from typing import Any, TypeAlias
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

import turnchain
from turnchain.drawing import on_figure, schematic
from turnchain.drawing.colours import touching
from turnchain.drawing.looks import Look
from turnchain.fabric.lattice import Side
from turnchain.fabric.plan import Plan
from turnchain.live import alternatives, orders
from turnchain.live.drawn import scene_json
from turnchain.live.reach import reach
from turnchain.live.samples import samples
from turnchain.planning.kept import KeptPieces
from turnchain.reading.toml_text import Beside, text_beside
from turnchain.records import frozen
from turnchain.scene import Scene

Json: TypeAlias = Any
Message: TypeAlias = dict[str, Json]


@frozen
class Question:
    """What a part is made of: the ``plan``, the ``message`` with the name of its ``piece``, the pieces ``searched``
    before, and what lies ``beside`` the pattern file (None: nothing)."""

    plan: Plan
    message: Message
    searched: KeptPieces
    beside: Beside | None = None

    @property
    def language(self) -> str:
        """The language of the words."""
        return str(self.message.get("language") or self.plan.pattern.language or self.plan.pattern.terms)

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


def _figure(asked: Question) -> Json:
    """None where the pieces are not known for what they are."""
    try:
        return _picture(asked, turnchain.on_figure(asked.plan, look=asked.look))
    except turnchain.MakerError:
        return None


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
        for name, _, data in (*_given(asked), *_made(asked)):
            archive.writestr(ZipInfo(name), data, ZIP_DEFLATED)
    return _sent(stream.getvalue())


def _given(asked: Question) -> Iterator[tuple[str, str, bytes]]:
    """What the maker wrote: the pattern, and a fabric of their own beside it."""
    yield "pattern.toml", "application/toml", str(asked.message.get("text", "")).encode()
    fabric = asked.plan.pattern.fabric
    there = text_beside(asked.beside, fabric.kind) if fabric.own else None
    if there is not None:
        yield fabric.kind, "application/toml", there[0].encode()


def _made(asked: Question) -> Iterator[tuple[str, str, bytes]]:
    yield "plan.json", "application/json", turnchain.plan_data(asked.plan).encode()
    yield "pattern.md", "text/markdown", turnchain.markdown(asked.plan).encode()
    yield "beside.html", "text/html", turnchain.page(asked.plan, look=asked.look).encode()
    yield "booklet.pdf", "application/pdf", turnchain.pdf(asked.plan, turnchain.booklet(asked.plan, look=asked.look))
    drawn = asked.message.get("pictures") or {}
    for name, scene in _scenes(asked).items():
        yield f"{name}.svg", "image/svg+xml", turnchain.svg(scene)
        if name in drawn:
            yield f"{name}.png", "image/png", b64decode(drawn[name])
        elif _draws():
            yield f"{name}.png", "image/png", turnchain.png(scene)
        yield f"{name}.txt", "text/plain", f"{scene.words}\n".encode()


def _scenes(asked: Question) -> dict[str, Scene]:
    """The pictures to take along, by name."""
    plan, look = asked.plan, asked.look
    scenes = {**on_figure.scenes(plan, look=look), "stripes": turnchain.stripes(plan, look=look)}
    charts = {piece.name: turnchain.chart(plan, piece.name, look=look) for piece in plan.pieces}
    return scenes | schematic.scenes(plan) | charts


def _draws() -> bool:
    """Whether pictures are drawn px for px here: a browser's Python has neither numpy nor what a compiler made."""
    return find_spec("numpy") is not None


def _undrawn(asked: Question) -> Json:
    """The pictures that the page has to draw as PNG, which a later message brings as ``pictures`` (name to base 64);
    none where the program draws them."""
    return [] if _draws() else [{"name": name, "scene": scene_json(scene)} for name, scene in _scenes(asked).items()]


#: What makes each part of a reply, by its name: pictures as ``drawn`` has them, texts, and files as base 64.
PARTS: dict[str, Callable[[Question], Json]] = {
    "chart": _chart,
    "short": _short,
    "preview": _preview,
    "figure": _figure,
    "schematic": lambda asked: scene_json(turnchain.schematic(asked.plan)),
    "report": lambda asked: turnchain.report(asked.plan),
    "words": lambda asked: turnchain.words(asked.plan, asked.message.get("language")),
    "row": _row,
    "close-up": _close_up,
    "reach": _reach,
    "also": lambda asked: alternatives.pictured(asked.plan, asked.number, asked.searched),
    "samples": lambda asked: samples(asked.language),
    "orders": lambda asked: orders.orders(asked.plan, int(asked.message.get("seed") or 1)),
    "undrawn": _undrawn,
    "files": _files,
    "archive": _archive,
    "booklet": lambda asked: _sent(turnchain.pdf(asked.plan, turnchain.booklet(asked.plan, look=asked.look))),
    "beside": lambda asked: _sent(turnchain.page(asked.plan, look=asked.look).encode()),
}
