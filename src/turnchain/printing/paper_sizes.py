"""Sheets and rolls that a chart can be printed on.

In: a name. Out: width and height in mm. ISO 216 for the A sizes; US sizes in inches. A roll has a width and any
length: 24, 36 and 42 inches are sold as 61, 91 and 107 cm.
"""

from __future__ import annotations

from turnchain.errors import MakerError
from turnchain.records import frozen

INCH = 25.4  # mm
LONGEST_ROLL = 5000.0  # mm: what printers and readers of PDF take


@frozen
class PaperSize:
    """A sheet ``width`` x ``height`` mm, upright unless ``turned``; ``height`` is None for a roll."""

    name: str
    width: float
    height: float | None

    def turned(self) -> PaperSize:
        """The same sheet on its side; a roll stays as it is."""
        return self if self.height is None else PaperSize(self.name, self.height, self.width)


def _inches(name: str, width: float, height: float | None) -> PaperSize:
    return PaperSize(name, width * INCH, None if height is None else height * INCH)


SHEETS: dict[str, PaperSize] = {
    sheet.name.lower(): sheet
    for sheet in (
        PaperSize("A0", 841, 1189),
        PaperSize("A1", 594, 841),
        PaperSize("A2", 420, 594),
        PaperSize("A3", 297, 420),
        PaperSize("A4", 210, 297),
        PaperSize("A5", 148, 210),
        _inches("Letter", 8.5, 11),
        _inches("Legal", 8.5, 14),
        _inches("Tabloid", 11, 17),
        _inches("Arch-A", 9, 12),
        _inches("Arch-B", 12, 18),
        _inches("Arch-C", 18, 24),
        _inches("Arch-D", 24, 36),
        _inches("Arch-E", 36, 48),
        PaperSize("Roll-61cm", 610, None),
        PaperSize("Roll-91cm", 914, None),
        PaperSize("Roll-107cm", 1067, None),
        _inches("Roll-24", 24, None),
        _inches("Roll-36", 36, None),
        _inches("Roll-42", 42, None),
        _inches("Roll-44", 44, None),
    )
}


def sheet(name: str) -> PaperSize:
    """The sheet called ``name``, in small or large letters, with a blank or a hyphen ("roll 24"). MakerError, with the
    names there are, for any other."""
    found = SHEETS.get(name.lower().replace(" ", "-"))
    if found is None:
        names = ", ".join(one.name for one in SHEETS.values())
        raise MakerError(f'"{name}" is no paper known here; there are {names}')
    return found
