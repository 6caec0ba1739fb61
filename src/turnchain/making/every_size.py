"""Everything of a pattern in several sizes: a folder for each, and above them one text and one page of all.

In: a pattern file and a folder. Out: in the folder pattern.md and plan.json with all sizes, a drawing of each piece in
all its sizes, beside.html and index.html, whose reader chooses a size; in a folder of its own, called after it, the
plan, the words and the pictures of each size. Either all files of all folders are new afterwards, or none.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import BinaryIO, TypeAlias

from turnchain import file_names, plan_json
from turnchain.drawing import nested
from turnchain.drawing.looks import Look
from turnchain.fabric.plan import Plan
from turnchain.making import lettered, planned_sizes, record, spared
from turnchain.making.everything import MadeOf, WantedFolder, make_plan, of_plan, put_all
from turnchain.making.record import MadeFolder
from turnchain.pages import blog, sizes_page
from turnchain.pages.beside import page as beside
from turnchain.raster.glyph_cache import BoundedCache
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
    lettered(*plans)
    glyphs = BoundedCache()
    each = [
        of_plan(plan, source, folder / file_names.size_folder(plan.pattern.size), width, look, glyphs, pages=False)
        for plan in plans
    ]
    own = {source.parent / one.file: "a photograph of yours" for one in plans[0].pattern.photos}
    return put_all([_of_all(plans, each, folder, look, glyphs), *each], spared(source, look) | own, watch, made_of)


def _of_all(
    plans: Sequence[Plan], each: Sequence[WantedFolder], folder: Path, look: Look, glyphs: BoundedCache
) -> WantedFolder:
    """The plans, the text of all sizes, the drawings of every piece in all its sizes, and the pages; ``each``: the
    folders of the sizes."""
    names = dict.fromkeys(piece.name for plan in plans for piece in plan.pieces)
    drawn = {file_names.nested(name): nested.nested(plans, name) for name in names}
    files: dict[str, Write] = {
        file_names.PLAN: lambda stream: _write(plan_json.sizes_text(plans), stream),
        file_names.PATTERN: lambda stream: _write(blog.markdown_of_sizes(plans), stream),
        file_names.BESIDE: lambda stream: _write(beside.page_of_sizes(plans, look), stream),
    }
    shown: dict[str, str] = {}
    for name, scene in drawn.items():
        pictures = {f"{name}{form.ending}": partial(form.write, scene, glyphs=glyphs) for form in formats.MADE}
        shown |= dict.fromkeys(pictures, record.scene_digest(scene))
        files |= {**pictures, f"{name}{file_names.ALT_TEXT}": partial(_write, f"{scene.words}\n")}
    files[file_names.INDEX] = lambda stream: _write(sizes_page.page(plans, [one.pictures for one in each]), stream)
    return WantedFolder(folder, files, shown, folders=tuple(one.folder.name for one in each))


def _write(text: str, stream: BinaryIO) -> None:
    stream.write(text.encode())
