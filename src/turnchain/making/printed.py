"""What goes on paper: sheets, posters and life size as PDF, a sheet as PNG, the whole pattern as a booklet.

In: a pattern file, and what is wanted of it. Out: a file.
"""

from __future__ import annotations

from functools import partial
from pathlib import Path

from turnchain.drawing.looks import Look
from turnchain.making import check_piece, lettered, planned, planned_sizes, spared
from turnchain.printing.sheets import Printed, pages, picture
from turnchain.records import replace
from turnchain.wording.tables import language_of
from turnchain.writers import formats
from turnchain.writers.files import replaced


def print_pages(
    source: Path, output: Path, wanted: Printed, language: str | None = None, size: str | None = None
) -> int:
    """The pages of ``wanted`` (no names: all pieces) as a PDF, told in ``language`` (None: the pattern's own terms), in
    a ``size`` where the file has sizes; how many there are. Raises PatternError where the pattern cannot be made,
    MakerError for an unknown piece or paper and for symbols too small to read, FileError where a file cannot be read or
    written."""
    from turnchain.writers import pdf  # for this kind of print alone

    plan = lettered(planned(source, language, size))
    for name in wanted.names:
        check_piece(plan, source, name)
    names = wanted.names or tuple(piece.name for piece in plan.pieces)
    made = pages(plan, replace(wanted, names=names))
    with replaced(output, spared(source, wanted.look)) as stream:
        pdf.write(made, stream, title=plan.pattern.title, language=language_of(plan.pattern).tag)
    return len(made)


def print_picture(
    source: Path,
    output: Path,
    name: str,
    paper: str,
    dpi: int,
    look: Look,
    language: str | None = None,
    size: str | None = None,
) -> None:
    """One sheet of ``paper`` with the chart of the piece ``name`` as a picture in the format of the ending of
    ``output``, as large as the sheet at ``dpi`` px to an inch. Raises MakerError as ``print_pages`` does, and for a
    ``dpi`` that cannot be drawn."""
    plan = lettered(planned(source, language, size))
    check_piece(plan, source, name)
    scene = picture(plan, name, paper, dpi, look, partial(formats.of(output).check, more=False))
    with replaced(output, spared(source, look)) as stream:
        formats.of(output).write(scene, stream, dpi)


def print_booklet(
    source: Path, output: Path, paper: str, look: Look, language: str | None, size: str | None = None
) -> int:
    """The whole pattern with its photographs as a PDF on "A4" or "Letter", in one ``size`` or (None) in all that the
    file has; how many pages it has. Raises MakerError as ``print_pages`` does, FileError also for a photograph that
    cannot be used."""
    from turnchain.printing.booklet import booklet  # for this kind of print alone
    from turnchain.printing.photographs import prepared
    from turnchain.printing.sizes_booklet import booklet_of_sizes
    from turnchain.writers import pdf

    plans = planned_sizes(source, language) if size is None else (planned(source, language, size),)
    pattern = lettered(plans[0]).pattern
    photographs = [prepared(source.parent, photo) for photo in pattern.photos]
    if len(plans) == 1:
        made = booklet(plans[0], paper, look, photographs=photographs)
    else:
        made = booklet_of_sizes(plans, paper, look, photographs=photographs)
    title = pattern.title if len(plans) == 1 else pattern.common_title
    with replaced(output, spared(source, look)) as stream:
        pdf.write(made, stream, title=title, language=language_of(pattern).tag)
    return len(made)
