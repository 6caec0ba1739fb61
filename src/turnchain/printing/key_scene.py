"""What belongs to a chart and is not the chart: its heading, its key, how it is read, the credit.

In: a ``Setting`` on a measured page. Out: two scenes of one width, to be placed on paper above and below the chart, or
on a sheet of their own.
"""

from __future__ import annotations

from turnchain.drawing import brackets, heading, key
from turnchain.drawing.chart import ALL, ChartPicture
from turnchain.drawing.columns import SMALL, Column
from turnchain.drawing.folds import NO_FOLDS
from turnchain.drawing.setting import Setting
from turnchain.drawing.sheet import WHOLE
from turnchain.records import replace
from turnchain.scene import Group, Item, Scene

LEAST, MOST = 700, 3600  # px that the key is wide
KEY_UNIT = WHOLE.words  # px of the em of its words


def key_scenes(found: Setting, width: int, credit: bool = True) -> tuple[Scene, Scene]:
    """The heading, and the key with how the chart is read and, where ``credit``, who made it; each ``width`` px wide
    and as high as its content, its words ``KEY_UNIT`` px high."""
    frame = replace(WHOLE, reference=width, margin=0)
    sheet = replace(found.sheet, width=width, unit=1.0, key_beside=False, frame=frame)
    picture = ChartPicture(found.on(sheet), ALL)
    place = heading.HeadingPlace(0.0, 0.0, width, sheet.words, sheet.theme)
    above, foot = heading.drawn(key.heading(found), place)
    columns, low = picture.columns(0.0, 0.0)
    last = Column(0.0, low + 0.6 * sheet.words, width, 1.0, sheet.theme)
    said = [key.reading_words(picture.setting), *(brackets.sentences(found) if sheet.folds != NO_FOLDS else ())]
    last.words(" ".join(said), size=SMALL, colour=sheet.theme.soft)
    last.skip(8)
    if credit:
        last.words(key.credit(found.pattern), size=SMALL, colour=sheet.theme.soft)
    below = [item for column in (*columns, last) for item in column.items]
    return _scene(found, width, above, foot, picture), _scene(found, width, below, last.y, picture)


def _scene(found: Setting, width: int, items: list[Item], foot: float, picture: ChartPicture) -> Scene:
    title = f"{found.pattern.title}: {found.piece.name}"
    made = (Group(tuple(items), "key"),)
    definitions = picture.samples.definitions.made
    return Scene(width, round(foot) + 4, title, title, found.speech.language.tag, definitions, made, None)
