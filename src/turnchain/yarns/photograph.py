"""The colours of yarns in a photograph of the stash.

In: a picture file. Out: the colours that cover most of it, the largest share first, as "#rrggbb". A ball of yarn is
lit on one side and dark on the other. In OKLab a shadow takes lightness and chroma down by one factor, so px are
gathered by chroma over lightness, and less by lightness; the colour told is that of the lighter part. A camera's
colours are approximate, and what prints them must say so.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

from turnchain import oklch
from turnchain.errors import FileError
from turnchain.records import frozen

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Points: TypeAlias = NDArray[np.float64]

SIDE = 200  # px: the longer side of the picture that is looked at
MOST_PX = 200_000_000  # of a photograph: a larger file is a mistake, or made to fill the memory
LIGHTNESS = 0.5  # how much a difference in lightness counts against one in chroma over lightness
LEAST_LIGHTNESS = 0.12  # below it a chroma over a lightness is the camera's noise
ALIKE = 0.036  # groups nearer than this, in the values that px are gathered by, are one yarn
SHADOW = 0.03  # a darker group that differs by less in chroma over lightness is the shadow of a larger one ...
SHADOW_DEPTH, SHADOW_SHARE = 0.72, 0.65  # ... if its lightness is above, and its size below, so much of the other's
LEAST_SHARE = 0.012  # of the picture; less is a reflection or a label
BEGIN_WITH = 16  # groups, before those alike are joined
ROUNDS = 12  # of gathering px
LIT = 62  # per cent: the lightness told is that which so much of the group stays below
BORDER = 0.06  # of each side: what lies there in the main is the table


@frozen
class PhotographedColour:
    """A colour of the photograph, its ``share`` of the picture (0 to 1), and whether it is likely the ``table`` that
    the yarns lie on."""

    colour: str
    share: float
    table: bool


def colours_in(photograph: Path, most: int | None = None) -> list[PhotographedColour]:
    """The colours of ``photograph``, at ``most`` so many yarns (None: as many as differ) and the table; the largest
    share first and the table last.

    Raises FileError where the file cannot be read, is no picture or has more than ``MOST_PX`` px.
    """
    levels = _levels(photograph)
    lab = _oklab(levels.reshape(-1, 3))
    points = _without_shadows(lab)
    edge = _border(levels.shape[0], levels.shape[1])
    begun = _grouped(points)
    found: list[PhotographedColour] = []
    for groups in (None,) if most is None else (most + 1, most):  # with the table, and without one
        found = list(_found(lab, _lit(points, _joined(points, begun, groups), edge), edge))
        if most is None or sum(not one.table for one in found) <= most:
            break
    return sorted(found, key=lambda one: (one.table, -one.share))


def _found(lab: Points, groups: NDArray[np.intp], edge: NDArray[np.bool_]) -> Iterator[PhotographedColour]:
    import numpy as np  # takes a tenth of a second: only where a photograph is looked at

    for number in np.unique(groups):
        inside = groups == number
        share = float(inside.mean())
        if share >= LEAST_SHARE:
            yield PhotographedColour(_told(lab[inside]), share, _lies_at(inside, edge))


def lines(found: Iterable[PhotographedColour], patches: bool = False) -> Iterator[str]:
    """The colours as lines of a pattern file, a [[yarn]] for each, with its share as a comment; with ``patches`` also
    the codes by which a terminal shows it. The table, and that there is no yarn, are told as comments."""
    yield "# A camera's colours are approximate: hold each beside its yarn in daylight before you keep it."
    number = 0
    for one in found:
        share = f"{round(100 * one.share)} % of the picture"
        patch = _patch(one.colour) if patches else ""
        if one.table:
            yield f'# "{one.colour}", {share}, is probably what the yarns lie on  {patch}'.rstrip()
            continue
        number += 1
        yield from ("", "[[yarn]]", f'name = "Yarn {number}"', f'colour = "{one.colour}"  # {share}  {patch}'.rstrip())
    if not number:
        yield "# No yarn stands out from the ground; try a photograph nearer to the yarns, or another ground."


def _patch(colour: str) -> str:
    """A patch of colour for a terminal (ISO 8613-6 direct colour)."""
    red, green, blue = (int(colour[at : at + 2], 16) for at in (1, 3, 5))
    return f"\x1b[48;2;{red};{green};{blue}m      \x1b[0m"


def _levels(photograph: Path) -> Points:
    """The picture, small, its levels from 0 to 255: rows of px of red, green and blue."""
    import numpy as np  # as above
    from PIL import Image, UnidentifiedImageError  # only where a photograph is looked at

    try:
        with Image.open(photograph) as picture:
            if picture.width * picture.height > MOST_PX:
                raise FileError(f"{photograph}: more than {MOST_PX // 1_000_000} million px; scale the picture down")
            picture.draft("RGB", (2 * SIDE, 2 * SIDE))
            small = picture.convert("RGB")
            small.thumbnail((SIDE, SIDE), Image.Resampling.BOX)
    except UnidentifiedImageError as error:
        raise FileError(f"{photograph}: this is not a picture that can be read; JPEG, PNG and WebP can") from error
    except (OSError, Image.DecompressionBombError, SyntaxError, ValueError) as error:
        raise FileError(f"{photograph}: the picture could not be read ({error})") from error
    return np.asarray(small, dtype=np.float64)


def _oklab(levels: Points) -> Points:
    """OKLab of levels: (lightness, a, b) by px."""
    import numpy as np  # as above

    share = levels / 255
    light = np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)
    return np.asarray(np.cbrt(light @ np.array(oklch.TO_LMS).T) @ np.array(oklch.TO_LAB).T)


def _without_shadows(lab: Points) -> Points:
    """What px are gathered by: lightness, counted less, and chroma over lightness."""
    import numpy as np  # as above

    lightness = lab[:, 0]
    return np.column_stack([LIGHTNESS * lightness, lab[:, 1:] / np.maximum(lightness, LEAST_LIGHTNESS)[:, None]])


def _grouped(points: Points) -> NDArray[np.intp]:
    """The number of each point's group: k-means, begun from points far from one another."""
    import numpy as np  # as above

    centres = [points.mean(axis=0)]
    distance = np.full(len(points), np.inf)
    for _ in range(BEGIN_WITH):
        distance = np.minimum(distance, ((points - centres[-1]) ** 2).sum(axis=1))
        centres.append(points[int(distance.argmax())])
    middle = np.array(centres[1:])
    for _ in range(ROUNDS):
        groups = _nearest(points, middle)
        middle = np.array(
            [
                points[groups == number].mean(axis=0) if (groups == number).any() else middle[number]
                for number in range(len(middle))
            ]
        )
    return _nearest(points, middle)


def _nearest(points: Points, middle: Points) -> NDArray[np.intp]:
    import numpy as np  # as above

    found: NDArray[np.intp] = np.argmin(((points[:, None, :] - middle[None, :, :]) ** 2).sum(axis=2), axis=1)
    return found


def _joined(points: Points, groups: NDArray[np.intp], most: int | None) -> NDArray[np.intp]:
    """Groups alike made one, and those nearest to one another until at ``most`` so many are left."""
    import numpy as np  # as above

    groups = groups.copy()
    while True:
        numbers, counts = np.unique(groups, return_counts=True)
        if len(numbers) < 2:
            return groups
        middle = np.array([points[groups == number].mean(axis=0) for number in numbers])
        apart = np.sqrt(((middle[:, None, :] - middle[None, :, :]) ** 2).sum(axis=2))
        np.fill_diagonal(apart, np.inf)
        one, other = np.unravel_index(int(apart.argmin()), apart.shape)
        large = int((counts >= LEAST_SHARE * len(points)).sum())
        if apart[one, other] > ALIKE and (most is None or large <= most):
            return groups
        groups[groups == numbers[other]] = numbers[one]


def _lit(points: Points, groups: NDArray[np.intp], edge: NDArray[np.bool_]) -> NDArray[np.intp]:
    """Shadows joined to the yarns they lie on."""
    import numpy as np  # as above

    numbers, counts = np.unique(groups, return_counts=True)
    middle = {int(number): points[groups == number].mean(axis=0) for number in numbers}
    sizes = dict(zip(middle, counts.tolist(), strict=True))
    tables = {number for number in middle if _lies_at(groups == number, edge)}
    found = groups.copy()
    for dark in sorted(middle.keys() - tables, key=lambda number: sizes[number]):
        for light in sorted(middle.keys() - tables - {dark}, key=lambda number: -sizes[number]):
            one, other = middle[dark], middle[light]
            near = float(np.hypot(*(one - other)[1:])) < SHADOW and SHADOW_DEPTH < one[0] / other[0] < 1
            if near and sizes[dark] < SHADOW_SHARE * sizes[light]:
                found[found == dark] = light
                break
    return found


def _lies_at(inside: NDArray[np.bool_], edge: NDArray[np.bool_]) -> bool:
    """Whether a group makes up most of the picture's edge."""
    return bool(inside[edge].sum() > 0.5 * edge.sum())


def _border(high: int, wide: int) -> NDArray[np.bool_]:
    """Which px lie at the edge of the picture, row after row."""
    import numpy as np  # as above

    rim = max(1, round(BORDER * min(high, wide)))
    edge = np.ones((high, wide), dtype=bool)
    edge[rim:-rim, rim:-rim] = False
    return edge.reshape(-1)


def _told(lab: Points) -> str:
    """The colour of a group: its usual hue and chroma, and the lightness of its lighter part."""
    import numpy as np  # as above

    lit = np.percentile(lab[:, 0], LIT)
    lighter = np.median(lab[lab[:, 0] >= np.percentile(lab[:, 0], 2 * LIT - 100)], axis=0)
    return oklch.colour_of_lab(round(float(lit), 4), *(round(float(lighter[axis]), 4) for axis in (1, 2)))
