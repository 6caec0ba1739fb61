"""The paragraphs of one piece: what it says of itself, its foundation, its sections.

In: the paragraphs from the heading on. Out: the piece as written, with grouped rows unfolded; ``Unreadable`` with the
piece, the paragraph and the words that do not fit.
"""

from __future__ import annotations

from typing import NoReturn

from turnchain.proof.words.finger import Finger
from turnchain.proof.words.ranges import capital
from turnchain.proof.words.rows import rows_of
from turnchain.proof.words.tongue import Tongue
from turnchain.proof.words.written import Section, Unreadable, WrittenPiece


def piece_of(words: Tongue, paragraphs: list[str]) -> WrittenPiece:
    """The piece that the ``paragraphs`` tell. Raises Unreadable."""
    return _Reader(words, paragraphs).piece()


class _Reader:
    """Reads the paragraphs of one piece, from its heading on."""

    def __init__(self, words: Tongue, paragraphs: list[str]) -> None:
        self.words, self.paragraphs = words, paragraphs
        self.name = paragraphs[0][3:]
        self.single: str | None = None  # the one yarn of the piece

    def refuse(self, nth: int, words: str) -> NoReturn:
        """Says that ``words`` do not fit, and where they stand."""
        raise Unreadable(f'"{self.name}", paragraph {nth + 1}: {words[:160]!r} is not what the rows are written in')

    def piece(self) -> WrittenPiece:
        """The piece."""
        if len(self.paragraphs) < 4:
            self.refuse(len(self.paragraphs) - 1, "the end of the piece")
        made = self._about()
        self._foundation(made)
        for nth, paragraph in enumerate(self.paragraphs[3:], start=3):
            if paragraph.startswith("### "):
                self._section(made, nth)
            elif made.sections[-1].after is None or made.sections[-1].rows or not self._how(made, paragraph):
                self._rows(made.sections[-1], nth)
        for section in made.sections:
            self._check_section(section)
        return made

    def _about(self) -> WrittenPiece:
        finger = Finger(self.words, self.paragraphs[1])
        found = finger.take("about")
        if found is None:
            self.refuse(1, finger.text)
        alike, yarn = finger.take("alike"), finger.take("one_yarn")
        if not finger.done:
            self.refuse(1, finger.text[finger.at :])
        self.single = self.words.yarn(yarn["yarn"]) if yarn else None
        way = "sideways" if found["way"] == self.words.phrases["sideways"] else "upwards"
        count = int(alike["n"]) if alike else 1
        body = Section("body", None, False)
        return WrittenPiece(self.name, int(found["rows"]), way, count, 0, 0, 0, 0, self.single, [body])

    def _foundation(self, made: WrittenPiece) -> None:
        text = self.paragraphs[2]
        found = self.words.pattern("foundation_in").match(text) or self.words.pattern("foundation").match(text)
        total = self.words.pattern("sum").match(text, found.end()) if found else None
        turning = self.words.pattern("turning").fullmatch(text, total.end()) if total else None
        if found is None or total is None or turning is None:
            self.refuse(2, text)
        made.chains, made.turning, made.times = int(found["n"]), int(turning["n"]), int(total["t"])
        made.multiple, plus = int(total["m"]), int(total["p"])
        if (total["m2"], total["p2"]) != (total["m"], total["p"]):
            self.refuse(2, total[0])
        if made.times * made.multiple + plus != made.chains:
            raise Unreadable(
                f'"{self.name}": {made.chains} chains are not {made.times} × {made.multiple} + {plus}: '
                f"a multiple of {made.multiple} plus {plus} leaves {(made.chains - plus) % made.multiple} over"
            )
        if "yarn" in found.groupdict():
            made.yarn = self.words.yarn(found["yarn"])

    # ---------------------------------------------------------------------------------------------- sections

    def _section(self, made: WrittenPiece, nth: int) -> None:
        name = self.paragraphs[nth][4:]
        names = {capital(self.words.phrases[key]): key for key in ("first", "second")}
        if name not in names:
            self.refuse(nth, name)
        if [section.name for section in made.sections][1:] != ["first"][: len(made.sections) - 1]:
            self.refuse(nth, name)
        made.sections.append(Section(names[name], -1, names[name] == "second"))

    def _how(self, made: WrittenPiece, text: str) -> bool:
        """The sentence under a section's heading."""
        section, words = made.sections[-1], self.words
        if section.joined:
            found = words.pattern("back").fullmatch(text)
            if found is None or not made.sections[1].rows:
                return False
            first = made.sections[1].rows[0]
            section.after = int(found["r"])
            same = (first.number, first.side) == (int(found["a"]), words.side(found["side"]))
            return same and found["section"] == words.phrases["first"]
        found = words.pattern("goes_on").fullmatch(text) or words.pattern("goes_on_one").fullmatch(text)
        if found is None:
            return False
        groups = found.groupdict()
        section.said_rows = (int(found["a"]), int(groups.get("b") or found["a"]))
        section.after = int(found["r"])
        return found["r"] == found["r2"]

    def _check_section(self, section: Section) -> None:
        if not section.rows:
            raise Unreadable(f'"{self.name}": a part without rows')
        said = section.said_rows
        if said is not None and said != (section.rows[0].number, section.rows[-1].number):
            raise Unreadable(f'"{self.name}": rows {said[0]} to {said[1]} are said to go over the first part')
        if section.after is not None and section.after != section.rows[0].number - 1:
            raise Unreadable(f'"{self.name}": a part on row {section.after} begins with row {section.rows[0].number}')

    def _rows(self, section: Section, nth: int) -> None:
        rows = rows_of(self.words, self.paragraphs[nth], section.rows, self.single)
        if not rows:
            self.refuse(nth, self.paragraphs[nth])
        section.rows += rows
