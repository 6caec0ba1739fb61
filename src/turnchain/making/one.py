"""One picture or page of a pattern.

In: a pattern file, and what is wanted of it. Out: a chart, a close-up, a post, the stripes, other orders of them or the
page beside the work, with the words of a picture beside it.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO

from turnchain import file_names
from turnchain.drawing.looks import Look
from turnchain.drawing.sheet import WHOLE
from turnchain.errors import FileError, MakerError
from turnchain.fabric.lattice import Side
from turnchain.fabric.plan import Plan
from turnchain.making import DETAIL_SIZE, alt_text, check_piece, lettered, planned, planned_sizes, spared
from turnchain.records import frozen
from turnchain.scene import Fits, MovingPicture, Scene, flattened
from turnchain.units import INCH
from turnchain.writers import formats
from turnchain.writers.files import replaced, together

if TYPE_CHECKING:
    from turnchain.drawing.detail import Asked


@frozen
class Wanted:
    """One chart as asked for: of ``piece``, ``width`` px wide (None: as wide as it needs), ``short`` (None: where the
    piece is wide), in a ``size`` for posting (a key of ``drawing.posting.SIZES``), or a close-up of the rows of
    ``detail`` (first and last, from 1) at the edge ``at``, stitch by stitch where it is ``moving`` or a ``strip``;
    ``flat`` writes every symbol into an SVG; told in ``language`` (None: the pattern's own terms); of the size
    ``for_size`` where the file has sizes."""

    piece: str
    look: Look
    width: int | None = None
    short: bool | None = None
    size: str | None = None
    detail: tuple[int, int] | None = None
    at: Side | None = None
    moving: bool = False
    strip: bool = False
    flat: bool = False
    language: str | None = None
    for_size: str | None = None


def make_chart(source: Path, output: Path, wanted: Wanted) -> list[Path]:
    """One chart and, beside it, its alt text; the files written. Where a size for posting takes a series, each picture
    has its number in its name: front-1.png, front-2.png. Raises PatternError where the pattern cannot be made,
    MakerError for an unknown piece and for what cannot be drawn so, FileError where a file cannot be read or written,
    or where a text of the maker's would be replaced."""
    plan = lettered(planned(source, wanted.language, wanted.for_size))
    check_piece(plan, source, wanted.piece)
    if wanted.moving:
        return _write_moving(output, _moving(plan, wanted), spared(source, wanted.look))
    scenes = _wanted_scenes(plan, wanted, formats.of(output).check)
    flat = wanted.flat and not formats.of(output).pixels
    drawn = [flattened(scene) if flat else scene for scene in scenes]
    outputs = [output] if len(drawn) == 1 else [_numbered(output, nth) for nth in range(1, len(drawn) + 1)]
    return _write(list(zip(outputs, drawn, strict=True)), spared(source, wanted.look))


def _moving(plan: Plan, wanted: Wanted) -> MovingPicture:
    from turnchain.drawing.stitch_by_stitch import moving  # for this picture alone

    return moving(plan, wanted.piece, _asked(wanted), _detail_size(wanted), wanted.look)


def _asked(wanted: Wanted) -> Asked:
    from turnchain.drawing.detail import Asked  # for close-ups alone

    assert wanted.detail is not None
    assert wanted.at is not None, "the command line asks for both"
    return Asked(*wanted.detail, wanted.at)


def _detail_size(wanted: Wanted) -> tuple[int, int]:
    from turnchain.drawing.posting import SIZES  # for close-ups alone

    size = SIZES[wanted.size] if wanted.size else DETAIL_SIZE
    return size[0], size[1] or size[0]


def _numbered(output: Path, nth: int) -> Path:
    return output.with_name(f"{output.stem}-{nth}{output.suffix}")


def make_stripes(
    source: Path,
    piece: str | None,
    output: Path,
    width: int | None,
    look: Look,
    language: str | None = None,
    size: str | None = None,
) -> list[Path]:
    """The fabric as it will look, of ``piece`` or (None) of all as worn, ``width`` px wide (None: 1600), in a ``size``
    where the file has sizes, and its alt text; the files written. Raises MakerError as ``make_chart`` does."""
    from turnchain.drawing.preview import preview  # for this picture alone

    plan = lettered(planned(source, language, size))
    if piece is not None:
        check_piece(plan, source, piece)
    drawn = preview(plan, piece, width or WHOLE.reference, look, formats.of(output).check)
    return _write([(output, drawn)], spared(source, look))


def make_worn(
    source: Path,
    output: Path,
    width: int | None,
    look: Look,
    longer: float = 0.0,
    language: str | None = None,
    size: str | None = None,
) -> list[Path]:
    """The garment on a figure, ``width`` px wide (None: 1600), with a second hem ``longer`` by so many of the file's
    units (below 0: shorter), and its alt text; the files written. Raises MakerError as ``make_chart`` does, and where
    there is no front or no back."""
    from turnchain.drawing.worn import worn  # for this picture alone

    plan = lettered(planned(source, language, size))
    by = Fraction(str(longer)) * (INCH if plan.pattern.units == "in" else 1)
    drawn = worn(plan, width or WHOLE.reference, look, by, formats.of(output).check)
    return _write([(output, drawn)], spared(source, look))


def make_page(source: Path, output: Path, look: Look, size: str | None = None) -> None:
    """Writes the page beside the work, HTML in UTF-8, to ``output``; where the file has sizes in the ``size`` of that
    name or (None) in all, of which its reader chooses one. Raises MakerError as ``make_chart`` does."""
    from turnchain.pages.beside import page as beside  # for this picture alone

    plans = planned_sizes(source) if size is None else (planned(source, None, size),)
    text = beside.page_of_sizes(plans, look)
    with replaced(output, spared(source, look)) as stream:
        stream.write(text.encode())


def make_orders(
    source: Path,
    output: Path,
    width: int | None,
    look: Look,
    language: str | None = None,
    size: str | None = None,
) -> list[Path]:
    """The same yarns in other orders side by side, ``width`` px wide (None: 1600), in a ``size`` where the file has
    sizes, and the alt text; the files written. Raises MakerError as ``make_chart`` does, and for fewer than two
    yarns."""
    from turnchain.drawing.contact import contact_sheet  # for this picture alone

    plan = lettered(planned(source, language, size))
    try:
        sheet = contact_sheet(plan, width or WHOLE.reference, look, formats.of(output).check)
    except MakerError as error:
        raise MakerError(f"{source}: {error}") from error
    return _write([(output, sheet)], spared(source, look))


def _wanted_scenes(plan: Plan, wanted: Wanted, fits: Fits) -> list[Scene]:
    if wanted.strip:
        from turnchain.drawing.stitch_by_stitch import strip  # for this picture alone

        return [strip(plan, wanted.piece, _asked(wanted), wanted.look)]
    if wanted.detail is not None:
        from turnchain.drawing.detail import detail  # for this picture alone

        return [detail(plan, wanted.piece, _asked(wanted), _detail_size(wanted), wanted.look)]
    if wanted.size is not None:
        from turnchain.drawing.posting import series  # for this picture alone

        return series(plan, wanted.piece, wanted.size, wanted.look)
    from turnchain.drawing.chart import chart  # for this picture alone

    return [chart(plan, wanted.piece, wanted.width, wanted.look, wanted.short, fits=fits)]


def _write(pictures: list[tuple[Path, Scene]], spared: dict[Path, str]) -> list[Path]:
    """Pictures, each with its words beside it."""
    return _written([(output, scene.words, partial(formats.of(output).write, scene)) for output, scene in pictures],
                    spared)  # fmt: skip


def _write_moving(output: Path, moving: MovingPicture, spared: dict[Path, str]) -> list[Path]:
    """A moving picture with its words beside it."""
    return _written([(output, moving.words, partial(formats.write_moving, output, moving))], spared)


def _written(pictures: list[tuple[Path, str, Callable[[BinaryIO], None]]], spared: dict[Path, str]) -> list[Path]:
    """Pictures by what writes them, each with its words beside it."""
    for output, told, _ in pictures:
        words = output.with_suffix(file_names.ALT_TEXT)
        if not _replaceable(words, output, told):
            raise FileError(
                f"{words}: there is already such a text, of no picture beside it; it stays as it is, and nothing was "
                "written (give the picture another name, or move that text first)"
            )
    with together(spared) as put:
        for output, told, write in pictures:
            put(output, write)
            put(output.with_suffix(file_names.ALT_TEXT), partial(_write_words, told))
    return [path for output, _, _ in pictures for path in (output, output.with_suffix(file_names.ALT_TEXT))]


def _write_words(told: str, stream: BinaryIO) -> None:
    stream.write(alt_text(told))


def _replaceable(words: Path, output: Path, told: str) -> bool:
    """Whether the text ``words`` is ours: it stands beside a picture, or it is a line of the same kind as this
    picture's, and only the picture was deleted."""
    pictures = (output.suffix, *formats.PICTURES, *formats.MOVING)
    if not words.exists() or any(output.with_suffix(ending).exists() for ending in pictures):
        return True
    try:
        with words.open(encoding="utf-8", newline="") as file:
            said = file.read(2 * len(told) + 1000)
    except (OSError, UnicodeDecodeError):
        return False
    # "Stitch chart of": with the first word alone a note of the maker's may begin too
    begun, ours = (text.split(" ", 3)[:3] for text in (said, told))
    return said.endswith("\n") and said.count("\n") == 1 and begun == ours
