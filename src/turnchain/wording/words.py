"""The written pattern: the tree of ``instructions`` said in a language.

In: a plan and the code of a language ("US", "UK", "de"; see ``languages``). Out: text, Markdown with headings and
one paragraph for each row or group of rows. Every phrase comes from the language's table, so a finished text can be
read back. The grammar of a piece, in US terms (UK: the same with the tokens of its column):

    piece       = "## " name, about, foundation, {paragraph}, {"### " section, how, {paragraph}}
    about       = "N rows, worked " ("sideways" | "upwards") "." [" Make N alike."] [" Work in " yarn " throughout."]
    foundation  = "Foundation: " ["with " yarn ", "] "ch N" [" (a multiple of N plus N: N × N + N)"] ". The last "
                  "N ch are the tch of row 1."
    how         = "Rows N to N go over the first part of row N only. Leave the rest of row N for now."
                | "Row N goes over the first part of row N only. Leave the rest of row N for now."
                | "Go back to row N, " side " facing. Work in the same direction as row N of the " section "."
    paragraph   = row | alike | again
    row         = "Row N (" side [", " yarn] "): " steps ". " count "." shaping spaces ending
    spaces      = "" | lead "between Nth and Nth st."
                | lead "the first between Nth and Nth st, then one after every N st."
    lead        = " Sp for next row, counted from its start: "
    alike       = rows " (" side " and " side " in turn" [", " yarn] "): " steps ". Each row: " count "." shaping
                  colors ending
    again       = rows " (" side " and " side " in turn" [", " yarn] "): Repeat " rows [", ending with row N"]
                  ". Counts in turn: " count {"; " count} "." colors ending
    rows        = "Rows N and N" | "Rows N to N"        ("rows" after "Repeat")
    side        = "RS" | "WS"
    count       = "N cl (" "N dc" [", N ch"] [", N sl st"] ", 1 tch" ")"
    shaping     = "" | " At " where ": " change ["; at " where ": " change] "."
    where       = "start" | "end"
    change      = ("half a" | "N" | "N½") " cl " ("more" | "less")
    colors      = "" | " Change to " yarn " in last yo of row N."
                | " Colors: " stripe {", " stripe} [", row N " yarn] "; change in last yo of the row before."
    stripe      = "row N " yarn | "rows N and N " yarn | "rows N to N " yarn
                | "from row N over and over to row N: " height {", " height} " (begins in rows N, N and N)"
    height      = "1 row " yarn | "N rows " yarn
    ending      = "" | " Fasten off."

    steps       = step {", " step}                      (the first letter of a sentence is a capital)
    step        = "ch N" | "ch N (last N ch are tch)" | "turn"
                | slip | work | skip | repeat | join | leave | "change to " yarn " in last yo"
    slip        = "skip edge st" | "sl st in next st" | "sl st in each of next N st" | "sl st " space
    work        = ("dc" | "2 dc" | "cl" | "(cl, dc)") " " place
                | "dc in next ch" | "dc in each of next N ch" | "cl in each of next N sp"
    skip        = "skip N ch" | "skip " ("first" | "next" | "last") " cl"
    repeat      = "[" steps "] N times"
    join        = "skip N cl after the " section ", join " yarn " " (space | dc)
                | "join " yarn " " (space | dc) (" after" | " as") " the " section
    leave       = "leave tch unworked" | "leave last N cl unworked" | "leave rest of row unworked"
    place       = space | dc | "in Nth ch from hook" | "in last ch"
                | "in 3rd ch of tch" | "in base of tch" | "in edge st" | "in last dc of last cl"
    space       = "in " ("first" | "next" | "same") " sp"
    dc          = "in Nth dc of " ("next" | "same") " cl"

What the words mean. A row is worked along the row below, from where the work was turned, or from where the yarn is
joined. "first" is the first of its kind met there, "next" the next one after the place last worked or skipped,
"last" the last of the row, "same" the one that the other section ended in. In row 1, and after "ch N, turn" of a
step out, chains are counted from the hook and every dc takes one; "edge st" is where that new chain began. "ch N"
before or after "turn" is the turning chain: of a new chain its last 3, or 3 and the gap where the row starts with
one. A yarn comes in with the last yarn-over of the stitch named just before "change". After "Repeat" the rows go
through those named in turn, from the first. In stripes told together a row named just after the last one says what
comes in there. Yarns and pieces stand as the pattern names them, with backslashes before Markdown's own signs; a
reader takes them from the pattern.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.records import frozen
from turnchain.wording import piece_phrases, row_phrases
from turnchain.wording.instructions.one_piece import of_row
from turnchain.wording.languages.language import Speech
from turnchain.wording.markdown import escaped_name
from turnchain.wording.naming import naming_of
from turnchain.wording.piece_phrases import piece_paragraphs
from turnchain.wording.row_phrases import RowSaid
from turnchain.wording.tables import LANGUAGES


@frozen
class Written:
    """The written pattern in its parts, each Markdown without a line break at its end: the ``head`` with title and
    terms; the chapters that explain the rows (abbreviations, special stitches, how to read); and a chapter for every
    piece in the order of the plan, each with its heading."""

    head: str
    explained: tuple[str, ...]
    pieces: tuple[str, ...]


def written(plan: Plan, language: str | None = None) -> Written:
    """The written pattern, part by part. ``language`` is a code of ``LANGUAGES``; None: the pattern's own language, or
    English in its terms. KeyError for an unknown code."""
    return _written(_speech(plan, language, escaped_name), plan)


def pattern_text(plan: Plan, language: str | None = None) -> str:
    """The whole written pattern as Markdown, ending in a line break; ``language`` as in ``written``."""
    parts = written(plan, language)
    return _joined([parts.head, *parts.explained, *parts.pieces]) + "\n"


def piece_text(piece: PiecePlan, language: str) -> str:
    """The written rows of one piece as Markdown, with its heading, ending in a line break; ``language`` is a code of
    ``LANGUAGES``, else KeyError."""
    return _joined(piece_paragraphs(Speech(LANGUAGES[language], escaped_name, naming_of(piece.recipe)), piece)) + "\n"


def row_words(piece: PiecePlan, row: Row, language: str) -> str:
    """One row alone: "Row 2 (WS, Silt): Ch 3, turn, ...". Names stand as they are, without Markdown's backslashes;
    ``language`` is a code of ``LANGUAGES``, else KeyError."""
    return row_said(piece, row, language).text


def row_said(piece: PiecePlan, row: Row, language: str) -> RowSaid:
    """The words of ``row_words`` part by part."""
    striped = len({row.colour for row in piece.rows}) > 1
    speech = Speech(LANGUAGES[language], naming=naming_of(piece.recipe))
    return row_phrases.row_said(speech, of_row(piece, row), striped)


@frozen
class Used:
    """What a pattern's text uses: the ``abbreviations``, each with what it stands for, ("ch", "chain"), by the
    alphabet; and what a maker must know of the ``special_stitches``, a sentence or more for each."""

    abbreviations: tuple[tuple[str, str], ...]
    special_stitches: tuple[str, ...]


def used(plan: Plan, language: str | None = None) -> Used:
    """What the text of ``plan`` uses; ``language`` as in ``written``."""
    speech = _speech(plan, language)
    _written(speech, plan)  # says everything once
    return Used(speech.abbreviations(), tuple(piece_phrases.specials(speech, plan)))


def abbreviations(plan: Plan, language: str | None = None) -> tuple[tuple[str, str], ...]:
    """The abbreviations of ``used``."""
    return used(plan, language).abbreviations


def special_stitches(plan: Plan, language: str | None = None) -> tuple[str, ...]:
    """The special stitches of ``used``."""
    return used(plan, language).special_stitches


def _speech(plan: Plan, language: str | None, named: Callable[[str], str] = str) -> Speech:
    code = language or plan.pattern.language or plan.pattern.terms
    return Speech(LANGUAGES[code], named, naming_of(plan.recipe))


def _written(speech: Speech, plan: Plan) -> Written:
    """The rows are said first: what is explained depends on what they used."""
    pieces = tuple(_joined(piece_paragraphs(speech, piece)) for piece in plan.pieces)
    specials = _joined([f"## {speech.say('specials')}", *piece_phrases.specials(speech, plan)])
    reading = _joined([f"## {speech.say('reading')}", " ".join(piece_phrases.how_to_read(speech, plan))])
    listed = "\n".join(f"- {short}: {full}" for short, full in speech.abbreviations())
    head = _joined([f"# {escaped_name(plan.pattern.title)}", " ".join(_terms(speech))])
    return Written(head, (_joined([f"## {speech.say('abbreviations')}", listed]), specials, reading), pieces)


def _joined(paragraphs: Iterable[str]) -> str:
    return "\n\n".join(paragraphs)


def _terms(speech: Speech) -> Iterator[str]:
    yield speech.say("written")
    if not speech.language.reviewed:
        yield speech.say("review")
