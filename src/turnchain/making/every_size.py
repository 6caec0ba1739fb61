"""Everything of a pattern in several sizes: a folder for each, and above them one text and one page of all.

In: a pattern file and a folder. Out: in the folder pattern.md and plan.json with all sizes, a drawing of each piece in
all its sizes, beside.html and index.html, whose reader chooses a size; in a folder of its own, called after it, the
plan, the words and the pictures of each size. Either all files of all folders are new afterwards, or none.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from pathlib import Path

from turnchain import file_names, plan_json
from turnchain.drawing import nested
from turnchain.drawing.looks import Look
from turnchain.fabric.plan import Plan
from turnchain.making import lettered, planned_sizes, spared
from turnchain.making.everything import make_plan, of_plan
from turnchain.making.putting import MadeOf, WantedFolder, Watch, put_all
from turnchain.making.record import MadeFolder
from turnchain.pages import blog, sizes_page
from turnchain.pages.beside import page as beside


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
    ``putting.put_all``."""
    plans = planned_sizes(source, language, others_of=None)
    if len(plans) == 1:
        return make_plan(lettered(plans[0]), source, folder, width, look, watch, made_of)
    lettered(*plans)
    each = [
        of_plan(plan, source, folder / file_names.size_folder(plan.pattern.size), width, look, pages=False)
        for plan in plans
    ]
    own = {source.parent / one.file: "a photograph of yours" for one in plans[0].pattern.photos}
    return put_all([_of_all(plans, each, folder, look), *each], spared(source, look) | own, watch, made_of)


def _of_all(plans: Sequence[Plan], each: Sequence[WantedFolder], folder: Path, look: Look) -> WantedFolder:
    """The plans, the text of all sizes, the drawings of every piece in all its sizes, and the pages; ``each``: the
    folders of the sizes."""
    names = dict.fromkeys(piece.name for plan in plans for piece in plan.pieces)
    return WantedFolder(
        folder,
        {
            file_names.PLAN: partial(plan_json.sizes_text, plans),
            file_names.PATTERN: partial(blog.markdown_of_sizes, plans),
            file_names.BESIDE: partial(beside.page_of_sizes, plans, look),
        },
        {file_names.nested(name): partial(nested.nested, plans, name) for name in names},
        index=lambda words: sizes_page.page(plans, words[1:]),
        folders=tuple(one.folder.name for one in each),
    )
