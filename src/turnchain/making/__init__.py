"""From a pattern file to files: the one place where all other rooms come together.

``everything`` makes all there is of a pattern in one folder, ``one`` a single picture or page, ``printed`` what goes
on paper. Here is what they share. Each imports only what it needs, so that one chart is quick.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from pathlib import Path

from turnchain.drawing.looks import Look
from turnchain.errors import MakerError
from turnchain.fabric.plan import Plan
from turnchain.pattern import Pattern
from turnchain.planning.planner import plan_sizes
from turnchain.reading.pattern_file import read_file, read_sizes
from turnchain.reading.toml_text import text_of
from turnchain.terminal import waiting_line
from turnchain.wording.tables import told_in

DETAIL_SIZE = (1080, 1080)  # px of a close-up


def planned(source: Path, language: str | None = None, size: str | None = None, others: bool = False) -> Plan:
    """The plan of the pattern file ``source``, told in ``language`` (None: the pattern's own terms), in the ``size`` of
    that name where the file has sizes (None: it has none); on a terminal a line shows what is found meanwhile.
    ``others``: whether other plans that come close are looked for, which only a report and plan.json tell of. Raises
    FileError where the file cannot be read, PatternError with everything that is wrong in it, or where the size is not
    one of its sizes."""
    pattern = read_file(source, size)
    if pattern.sizes:  # planned with the others, so that its rows are told in the same words
        nth = pattern.sizes.index(pattern.size)
        return planned_sizes(source, language, (nth,) if others else ())[nth]
    return _planned(source, (pattern,), language, None if others else ())[0]


def planned_sizes(
    source: Path, language: str | None = None, others_of: Collection[int] | None = ()
) -> tuple[Plan, ...]:
    """The plans of all sizes of the pattern file ``source``, in their order; one where it has no sizes. ``others_of``:
    as in ``plan_sizes``. Raises as ``planned`` does."""
    return _planned(source, _patterns(source), language, others_of)


def planned_to_report(source: Path) -> tuple[Plan, ...]:
    """As ``planned_sizes``, for a report: other plans that come close are looked for where the file has one size, as
    the report of several does not tell of them."""
    patterns = _patterns(source)
    return _planned(source, patterns, None, () if len(patterns) > 1 else None)


def _patterns(source: Path) -> tuple[Pattern, ...]:
    return read_sizes(*text_of(source), Path(source).parent)


def _planned(
    source: Path, patterns: Sequence[Pattern], language: str | None, others_of: Collection[int] | None
) -> tuple[Plan, ...]:
    with waiting_line() as tell:
        return tuple(told_in(plan, language) for plan in plan_sizes(patterns, str(source), tell, None, others_of))


def lettered(plan: Plan, *others: Plan) -> Plan:
    """``plan``; what is drawn from now on takes the letters of the maker's words in it, and in ``others`` (of other
    sizes), from fonts that have them."""
    from turnchain.lettering import measuring  # words alone need no letters

    measuring.written(word for one in (plan, *others) for word in one.pattern.own_words())
    return plan


def spared(source: Path, look: Look) -> dict[Path, str]:
    """The maker's own files, which nothing that is made may replace, with words for each."""
    from turnchain.drawing import glyphs  # XML, which words alone do without

    own = {} if look.symbols is None else {look.symbols / f"{name}.svg": "a symbol of yours" for name in glyphs.names()}
    return {source: "the pattern file itself", **own}


def check_piece(plan: Plan, source: Path, piece: str) -> None:
    """Raises MakerError where ``plan``, which was made of ``source``, has no such piece."""
    names = [one.name for one in plan.pieces]
    if piece not in names:
        listed = ", ".join(f'"{name}"' for name in names)
        raise MakerError(f'{source}: there is no piece "{piece}"; its pieces are {listed}')


def alt_text(words: str) -> bytes:
    """The alt text ``words`` of a picture as a text file: one line in UTF-8."""
    return f"{words}\n".encode()
