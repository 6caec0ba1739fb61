"""Everything of a pattern in several sizes: a folder for each, and above them one text and one page of all.

In: a pattern file and a folder. Out: in the folder pattern.md with all sizes, a drawing of each piece in all its sizes,
and index.html that shows them with their measures; in a folder of its own, called after it, all that ``everything``
makes of each size.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import BinaryIO, TypeAlias

from turnchain import file_names
from turnchain.drawing import nested
from turnchain.drawing.looks import Look
from turnchain.fabric.plan import Plan
from turnchain.making import lettered, planned_sizes, record, spared
from turnchain.making.everything import MadeOf, make_plan, put_all
from turnchain.making.record import MadeFolder
from turnchain.pages import blog, sizes_page
from turnchain.writers import formats
from turnchain.writers.files import Write

Watch: TypeAlias = Callable[[str, int, int], None]


def make_every_size(
    source: Path,
    folder: Path,
    width: int | None,
    look: Look,
    language: str | None = None,
    watch: Watch = lambda *_: None,
    made_of: MadeOf = str,
) -> MadeFolder:
    """Makes everything of ``source`` in ``folder``: where the file has sizes, of each in a folder within it, else as
    ``everything.make_all``, which says what all this is and what it raises; ``made_of`` as in
    ``everything.put_all``."""
    plans = planned_sizes(source, language, others_of=None)
    if len(plans) == 1:
        return make_plan(lettered(plans[0]), source, folder, width, look, watch, made_of)
    made = [_of_all(plans, source, folder, look, watch, made_of)]
    for plan in plans:
        own = folder / file_names.size_folder(plan.pattern.size)
        made.append(make_plan(lettered(plan), source, own, width, look, partial(_within, plan, watch), made_of))
    return _all_of(made)


def _of_all(
    plans: Sequence[Plan], source: Path, folder: Path, look: Look, watch: Watch, made_of: MadeOf
) -> MadeFolder:
    """The text of all sizes, the drawings of every piece in all its sizes, and the page that shows them."""
    names = dict.fromkeys(piece.name for plan in plans for piece in plan.pieces)
    drawn = {file_names.nested(name): nested.nested(plans, name) for name in names}
    files: dict[str, Write] = {file_names.PATTERN: partial(_write, blog.markdown_of_sizes(plans))}
    shown: dict[str, str] = {}
    for name, scene in drawn.items():
        pictures = {f"{name}{form.ending}": partial(form.write, scene) for form in formats.MADE}
        shown |= dict.fromkeys(pictures, record.scene_digest(scene))
        files |= {**pictures, f"{name}{file_names.ALT_TEXT}": partial(_write, f"{scene.words}\n")}
    files[file_names.INDEX] = partial(_write, sizes_page.page(plans))
    folders = tuple(file_names.size_folder(plan.pattern.size) for plan in plans)
    return put_all(folder, files, shown, spared(source, look), watch, made_of, folders)


def _within(plan: Plan, watch: Watch, name: str, done: int, there: int) -> None:
    watch(f"{file_names.size_folder(plan.pattern.size)}/{name}", done, there)


def _all_of(made: Sequence[MadeFolder]) -> MadeFolder:
    return MadeFolder(
        [path for one in made for path in one.written],
        [path for one in made for path in one.removed],
        [path for one in made for path in one.left],
        tuple(dict.fromkeys(line for one in made for line in one.told)),
    )


def _write(text: str, stream: BinaryIO) -> None:
    stream.write(text.encode())
