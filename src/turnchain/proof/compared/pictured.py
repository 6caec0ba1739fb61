"""The words of pictures without stitches to count: stripes as worn, as sewn, close-ups, brackets of a short chart, the
garment on a figure.

In: the words of such a picture and its alt text, worked pieces, and what else was printed. Out: how many figures were
looked at, and reasons, in words.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from turnchain.proof.cloth.edges import WorkedCloth
from turnchain.proof.compared.captions import Caption
from turnchain.proof.printed.lengths import LENGTH, length, lengths
from turnchain.proof.printed.picture import ReadPicture

Looked = tuple[int, list[str]]


def stripes(cloths: Mapping[str, WorkedCloth], picture: ReadPicture) -> Looked:
    """Which yarns the alt text of the stripes names of each piece, in the order worked, and the names on its card."""
    wrong = []
    for name, cloth in cloths.items():
        order = [yarn for yarn in dict.fromkeys(cloth.yarns) if yarn]
        yarns = ", ".join(order) or "one yarn"
        if not re.search(rf"(?<!\w){re.escape(name)} with (?:vertical|horizontal) stripes of {re.escape(yarns)}[;.]",
                         picture.told):  # fmt: skip
            wrong.append(f"{name}: the stripes are not told as {yarns}")
        drawn = " ".join(picture.words)
        wrong += [f"{yarn} is not on the card of the stripes" for yarn in order if yarn not in drawn]
        if picture.words.count(name) < cloth.count:
            wrong.append(f"{name}: {picture.words.count(name)} of {cloth.count} have their name below them")
    return len(cloths), wrong


def sewn(picture: ReadPicture, seams: Sequence[str]) -> Looked:
    """The seams that a picture of what is sewn names, by letter and kind: those of ``seams``, lines of pattern.md."""
    told = set(re.findall(r"Seam ([A-Z]+) ([^:]+):", picture.told))
    made = {(letter, kind) for letter, kind in told if any(line.startswith(f"- {letter}, {kind}") for line in seams)}
    letters = {letter for letter, _ in told}
    wrong = [f'seam {" ".join(one)} is told of the pieces as sewn and nowhere else' for one in sorted(told - made)]
    wrong += [f"seam {one} lies nowhere as sewn" for one in sorted(letters - set(picture.words))]
    return len(told), wrong


def close_up(picture: ReadPicture, captions: Mapping[str, Sequence[Caption]]) -> Looked:
    """A close-up: its alt text a caption that was looked at, its words those of it, its numbers those of rows near."""
    found = [
        (piece, one) for piece, some in captions.items() for one in some
        if picture.told == f"{one.head}. {one.words}" and piece in " ".join(picture.words).partition(":")[0]
    ]  # fmt: skip
    head = re.match(r"Row (\d+), (start|end) of the row: (.*?)\. (.*)", picture.told)
    if not found or head is None:
        return 0, [f'"{picture.told[:80]}" is no caption']
    caption, row = found[0][1], int(head[1])
    facing = "right side facing" if row % 2 else "wrong side facing"
    above = [f"Row {row}: {head[3]}", f"where the row {head[2]}s, at the {caption.side}, {facing}"]
    wrong = [f'"{said}" stands nowhere in its close-up' for said in above if said not in " ".join(picture.words)]
    drawn = _by_words(" ".join(one for one in picture.words if not one.isdigit()))
    if drawn[-len(_by_words(head[4])) :] != _by_words(head[4]):
        wrong.append(f'"{" ".join(drawn[-12:])}" is drawn where "{head[4]}" is told')
    near = {*range(row - 4, row + 5), *range(1, 10)}  # rows near it, and counts
    numbers = [int(one) for one in picture.words if one.isdigit()]
    wrong += [f"{one} stands in its close-up" for one in numbers if one not in near]
    return 3, [f"row {row}: {reason}" for reason in wrong]


def _by_words(said: str) -> list[str]:
    return re.findall(r"\w+", said.casefold())


def brackets(picture: ReadPicture, reading: Sequence[str]) -> Looked:
    """What repeats in a short chart: each bracket beside it is told in its key by the same figures, and these agree
    among themselves."""
    drawn, key = " ".join(picture.words), " ".join(reading)
    rows = {tuple(map(int, one)) for one in re.findall(r"rows (\d+)-(\d+), (\d+) times: to row (\d+)", drawn)}
    told = {tuple(map(int, one)) for one in re.findall(r"Rows (\d+)-(\d+) are worked (\d+) times, to row (\d+)\.", key)}
    wrong = [f"rows {one[0]}-{one[1]}: a bracket and the key differ" for one in sorted(rows ^ told)]
    wrong += [
        f"rows {first}-{second} are told {times} times, to row {last}" for first, second, times, last in sorted(rows)
        if first + times * (second - first + 1) - 1 != last
    ]  # fmt: skip
    left_out = r"leaves out (\d+) (?:cluster|repeat)s of each row that runs across"
    across = re.findall(rf"{left_out}: the boxed repeat is worked (\d+) times", key)
    boxed = re.findall(r"(\d+) times in every row", drawn)
    if [times for _, times in across] != boxed or any(int(out) + 1 != int(times) for out, times in across):
        wrong.append(f"the boxed repeat: {boxed} is drawn, {across} told")
    return 4 * len(rows) + len(boxed), wrong


#: Of what the report a line on a figure is told, by how the line begins.
_FROM = {
    "Hem": "where it falls|length", "Second length": "", "Neck": "neck depth", "Cuffs": "sleeve|^  height|^  length",
    "Round the body": "width|ease", "At the hips": "ease|hip",
}  # fmt: skip


_BEYOND = re.compile(r"the side edge lies (.*?) beyond the shoulder")


def on_figure(picture: ReadPicture, report: str) -> Looked:
    """What is told of a garment on a figure: each length that of a line of the report, as a tape is read."""
    wrong, looked = [], 0
    if not {"where it falls", "ease at the bust"} <= {line.strip().partition(":")[0] for line in report.splitlines()}:
        return 0, []  # of halves of a front, and of what is no top, the report has no such lines
    for said in re.split(r"(?<=\.) ", picture.told)[1:]:
        if said.startswith("Cuffs") and ".cap" in report:
            continue  # where a cap begins beside the shoulder is in no line of the report
        about = next((lines for head, lines in _FROM.items() if said.startswith(head)), "")
        near = [cm for line in report.splitlines() if re.search(about, line) for cm in _cms(line)]
        if said.startswith("Cuffs"):  # a sleeve begins where the body ends, beside the shoulder of its wearer
            near += [cm + beyond for cm in near for beyond in _cms(" ".join(_BEYOND.findall(report)))]
        for one in lengths(said):
            looked += 1
            known = any(one.tapes(cm, one.rounding) for cm in near)
            wrong += [] if known else [f'{one} in "{said}" is nowhere in the report']
    drawn = " ".join(picture.words)
    wrong += [f"{one} is drawn and not told" for one in re.findall(LENGTH, drawn) if one not in picture.told]
    return looked, wrong


def levels(picture: ReadPicture, report: str) -> Looked:
    """How far below the nape a level of the wearer is drawn: as the report has it, where it says so."""
    falls = [cm for line in report.splitlines() if "where it falls" in line for cm in _cms(line)]
    told = [one for word in picture.words for one in lengths(word) if word.endswith("below the nape")]
    wrong = [f"{one} below the nape is drawn and not reported" for one in told
             if falls and not any(one.tapes(cm, one.rounding) for cm in falls)]  # fmt: skip
    return len(told), wrong


def _cms(line: str) -> list[float]:
    """The lengths in a line, in cm; and the middle of each range, since a size of the table is one."""
    found = re.findall(rf"({LENGTH}) to \+?({LENGTH})", line)
    middles = [float(length(one).cm + length(other).cm) / 2 for one, other in found]
    return [abs(cm) for cm in (*(float(one.cm) for one in lengths(line)), *middles)]


def unread(picture: ReadPicture) -> Iterator[str]:
    """A picture that none of these is."""
    yield f'a picture that nothing looks at: "{picture.told[:80]}"'
