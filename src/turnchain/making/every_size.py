"""Everything of a pattern in several sizes: a folder for each, and above them one text and one page of all.

In: a pattern file and a folder. Out: in the folder pattern.md with all sizes and index.html with their measures; in a
folder of its own, called after it, all that ``everything`` makes of each size.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import BinaryIO

from turnchain import file_names
from turnchain.drawing.looks import Look
from turnchain.fabric.plan import Plan
from turnchain.making import lettered, planned_sizes, spared
from turnchain.making.everything import MadeFolder, make_plan, put_all
from turnchain.pages import blog, sizes_page
from turnchain.writers.files import Write


def make_every_size(
    source: Path,
    folder: Path,
    width: int | None,
    look: Look,
    language: str | None = None,
    watch: Callable[[str, int, int], None] = lambda *_: None,
) -> MadeFolder:
    """Makes everything of ``source`` in ``folder``: where the file has sizes, of each in a folder within it, else as
    ``everything.make_all``, which says what all this is and what it raises."""
    plans = planned_sizes(source, language)
    if len(plans) == 1:
        return make_plan(lettered(plans[0]), source, folder, width, look, watch)
    texts: dict[str, Write] = {
        file_names.PATTERN: partial(_write, blog.markdown_of_sizes(plans)),
        file_names.INDEX: partial(_write, sizes_page.page(plans)),
    }
    made = [put_all(folder, texts, {}, spared(source, look), watch)]
    for plan in plans:
        own = folder / file_names.size_folder(plan.pattern.size)
        made.append(make_plan(lettered(plan), source, own, width, look, partial(_within, plan, watch)))
    return _all_of(made)


def _within(plan: Plan, watch: Callable[[str, int, int], None], name: str, done: int, there: int) -> None:
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
