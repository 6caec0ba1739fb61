"""One message answered: a pattern's text and edits in, problems or everything a page shows out.

A message is a dictionary of plain values: ``id`` (given back), ``text`` (the pattern file), ``edits`` (a list of
{"path", "value", "sizes"}, see ``editing.Edit``), ``steps`` (how many of them make up each step that can be taken back;
without it all are one), ``piece`` (whose chart is looked at), ``look`` ({"hand", "mono", "page", "true",
"full_colour"}) and ``want``, the names in ``PARTS`` of the parts wanted. "row" and "close-up" read ``row`` (from 1),
the latter ``at`` ("left", "right"), "reach" reads ``measure``, "orders" ``seed``, "words" and "samples" ``language``,
"files" and "archive" ``pictures`` (PNG that the page drew, see "undrawn"). ``beside`` has texts of files that lie
beside the pattern by their names, where the page keeps them: a fabric's own. A message with ``begin`` is of no pattern
yet: its reply is that of ``beginning``. Of a pattern in several sizes the reply is
of the one named ``size``, or of the first; edits of a value in brackets then change its figure alone. ``sizes`` and
``size`` stand in the reply, and ``sized``, the paths of ``data`` whose values stand in brackets. The reply has ``id``,
``problems`` (empty where all is well), the ``text`` after the edits and its tables as ``data`` (neither where an edit
cannot be made), ``texts``, as it was after each step but the last, and, where the pattern can be made, the facts of
``facts`` and ``sewn``, the ``piece`` and each part wanted. What a maker can mend is never raised: it is a problem.
"""

from __future__ import annotations

import json
import tomllib
from collections import OrderedDict
from collections.abc import Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any, TypeAlias

import turnchain
from turnchain import sizes
from turnchain.errors import MakerError, PatternError, Problem
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.live import beginning, editing, facts, sewn
from turnchain.live.parts import PARTS, Question
from turnchain.pages.report import doubts
from turnchain.pattern import Pattern
from turnchain.planning.kept import KeptPieces
from turnchain.planning.planner import plan_pattern, plan_sizes
from turnchain.reading.brackets import figures, may_differ
from turnchain.reading.orders import KINDS_OF
from turnchain.reading.pattern_file import size_names
from turnchain.reading.toml_text import Beside
from turnchain.records import replace

Json: TypeAlias = Any
Message: TypeAlias = dict[str, Json]

KEPT = 12  # plans; those used longest ago are dropped first
SOURCE = "pattern"
TELL_ALTERNATIVES = {"also", "report", "files", "archive", "booklet", "beside"}  # the others are quicker without


class Live:
    """Answers messages; keeps the last ``KEPT`` plans, so that after a change that moves no stitch nothing is planned
    again. ``folder`` is where the pattern file lies, with a fabric's own file beside it (None: nowhere). One message at
    a time: it is not safe for several threads."""

    def __init__(self, folder: Path | None = None) -> None:
        self.folder = folder
        self._plans: OrderedDict[tuple[Pattern, bool], Plan] = OrderedDict()  # with or without alternatives
        self.searched = KeptPieces()  # pieces planned before, for plans and for the places within reach
        self._pieces: dict[PiecePlan, PiecePlan] = {}
        self._together: list[tuple[Pattern, bool]] = []  # the sizes whose plans are kept
        self.planned = 0  # how often something was planned, for tests

    def answer(self, message: Message) -> Message:
        """The reply to ``message``, plain values for JSON; both as this module's first words have them. A message of
        another shape raises ValueError, KeyError, TypeError or AttributeError."""
        reply: Message = {"id": message.get("id"), "problems": []}
        beside = message.get("beside") or self.folder
        try:
            if "begin" in message:
                return reply | beginning.answer(message["begin"])
            text = _edited(message, reply)
            names, nth = size_names(text, SOURCE), _size_number(text, message)
            reply |= {"sizes": list(names), "size": names[nth] if names else "", "sized": _sized(names, reply["data"])}
            whole = not TELL_ALTERNATIVES.isdisjoint(message.get("want") or ())
            plan = self.plan_in_sizes(text, nth, whole, beside) if names else self.plan(_read(text, beside), whole)
            reply |= _facts(plan)
            reply |= dict(self._parts(plan, {**message, "text": text}, beside))
        except PatternError as error:
            reply["problems"] = [_problem(problem) for problem in error.problems]
        except MakerError as error:
            reply["problems"] = [_problem(Problem("", str(error), ""))]
        except ImportError:  # in a browser's Python some packages are not there
            found = "this needs the program on a computer; Python in a browser has not all of it"
            reply["problems"] = [_problem(Problem("", found, ""))]
        return reply

    def stopped(self, message: Message) -> Message:
        """The reply to a ``message`` whose search was stopped: its text after the edits, and that as a problem."""
        reply: Message = {"id": message.get("id"), "problems": []}
        found, allowed = "the search for them was stopped", "change the stripes, or search again by any change"
        with suppress(MakerError):
            _edited(message, reply)
        reply["problems"] = [_problem(Problem("stripes", found, allowed, path=("stripes",)))]
        return reply

    def plan(self, pattern: Pattern, alternatives: bool = True) -> Plan:
        """The plan of ``pattern``; the one kept from before where only colours, the yarns' labels, the wearer and words
        about the pattern have changed. Its pieces may lack their ``alternatives`` where they are not wanted. Raises
        PatternError."""
        key = (_what_decides(pattern), alternatives)
        if key not in self._plans:
            kept = self.searched if alternatives else self.searched.without_alternatives()
            self._plans[key] = self._same_pieces(plan_pattern(pattern, SOURCE, kept=kept))
            self.planned += 1
            if len(self._plans) > KEPT:
                self._plans.popitem(last=False)
        self._plans.move_to_end(key)
        return replace(self._plans[key], pattern=pattern)

    def plan_in_sizes(
        self, text: str, nth: int, alternatives: bool = True, beside: Beside | None = None
    ) -> Plan:
        """The plan of the size number ``nth`` (from 0) of a text with sizes, planned with the others; kept as in
        ``plan``. ``beside`` is what lies beside it. Raises PatternError."""
        patterns = turnchain.loads_sizes(text, SOURCE, beside)
        keys = [(_what_decides(pattern), alternatives) for pattern in patterns]
        if any(key not in self._plans for key in keys) or self._together != keys:
            plans = plan_sizes(patterns, SOURCE, kept=self.searched, others_of=None if alternatives else ())
            self._plans = OrderedDict(zip(keys, map(self._same_pieces, plans), strict=True))
            self._together = keys
            self.planned += 1
        return replace(self._plans[keys[nth]], pattern=patterns[nth])

    def _same_pieces(self, plan: Plan) -> Plan:
        """``plan`` with the very pieces of plans before it where they are equal: caches then find them at once."""
        pieces = tuple(self._pieces.setdefault(piece, piece) for piece in plan.pieces)
        while len(self._pieces) > KEPT * max(12, len(pieces)):
            del self._pieces[next(iter(self._pieces))]
        return replace(plan, pieces=pieces)

    def _parts(self, plan: Plan, message: Message, beside: Beside | None) -> Iterator[tuple[str, Json]]:
        names = [piece.name for piece in plan.pieces]
        wanted = message.get("piece")
        of_pair = [name for name in names if name.endswith(f" {wanted}")]  # the first of a pair that is made mirrored
        piece = wanted if wanted in names else (of_pair or names)[0]
        asked = Question(plan, {**message, "piece": piece}, self.searched, beside)
        yield "piece", piece
        for part in message.get("want") or ():
            if part in PARTS:
                yield part, PARTS[part](asked)


def _read(text: str, beside: Beside | None) -> Pattern:
    return turnchain.loads(text, SOURCE, folder=beside)


def _edited(message: Message, reply: Message) -> str:
    """The text of ``message`` after its edits, which the ``reply`` gets with its tables. Raises MakerError."""
    text = str(message.get("text", ""))
    texts = [text]
    for step in _steps(message):
        texts.append(editing.edited(texts[-1], step, _size_number(texts[-1], message)))
    reply["texts"], reply["text"] = texts[1:-1], texts[-1]
    reply["data"] = _data(texts[-1])
    return texts[-1]


def _steps(message: Message) -> Iterator[list[editing.Edit]]:
    """The edits of ``message``, step by step."""
    edits = [
        editing.Edit(tuple(edit["path"]), edit.get("value"), edit.get("sizes", "as written"))
        for edit in message.get("edits") or ()
    ]
    done = 0
    for count in message.get("steps") or ([len(edits)] if edits else []):
        yield edits[done : done + count]
        done += count


def _sized(names: Sequence[str], data: Json, path: tuple[str | int, ...] = ()) -> list[list[str | int]]:
    """The paths in ``data`` below ``path`` at which each of the sizes ``names`` has its figure in brackets."""
    if isinstance(data, str):
        return [list(path)] if names and may_differ(path) and len(figures(data) or ()) == len(names) else []
    parts = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    return [found for key, value in parts for found in _sized(names, value, (*path, key))]


def _size_number(text: str, message: Message) -> int:
    """The number from 0 of the size that a message is about; 0 where the text has none, or cannot be read."""
    try:
        names = size_names(text, SOURCE)
    except PatternError:
        return 0
    return names.index(message.get("size")) if message.get("size") in names else 0


def _what_decides(pattern: Pattern) -> Pattern:
    """``pattern`` without what decides no stitch: two that are equal so have the same plan."""
    yarns = tuple(replace(yarn, colour="#000000", ball=None, metres_per_100g=None) for yarn in pattern.yarns)
    told = dict.fromkeys(("title", "by", "link", "licence", "date", "note"), "")
    return replace(pattern, yarns=yarns, wearer=None, **told)  # type: ignore[arg-type]


def _data(text: str) -> Json:
    """The tables of the text as they are written, right or wrong; empty where it is no TOML."""
    try:
        return json.loads(json.dumps(tomllib.loads(text), default=str))
    except (tomllib.TOMLDecodeError, RecursionError):
        return {}


def _problem(problem: Problem) -> Message:
    return {
        "place": problem.place,
        "found": problem.found,
        "allowed": problem.allowed,
        "hint": problem.hint,
        "path": list(problem.path),
        "line": problem.line,
        "column": problem.column,
        "words": str(problem),
    }


def _facts(plan: Plan) -> Message:
    pattern = plan.pattern
    return {
        "title": pattern.title,
        "units": pattern.units,
        "terms": pattern.terms,
        "gauge": facts.gauge(plan),
        "fabrics": facts.fabrics(),
        "rows": facts.rows_of(plan),
        "pieces": facts.pieces(plan),
        "yarn": facts.yarns(plan),
        "edgings": facts.edgings(plan),
        "seams": sewn.seams(plan),
        "doubts": [*doubts(plan), *turnchain.letters(plan)],
        "kindsOf": {key: list(kinds) for key, kinds in KINDS_OF.items()},  # of stripes: which kinds have a key
        "tables": {name: list(table) for name, table in sizes.tables().items()},
    }
