"""The written pattern: the tree of ``instructions`` said in a language.

In: a plan and the code of a language ("US", "UK", "de"; see ``languages``). Out: text, Markdown with headings and
one paragraph for each row or group of rows. Every phrase comes from the language's table, so a finished text can be
read back. The grammar of a piece, in US terms (UK: the same with the tokens of its column):

    piece       = "## " name, about, foundation, {paragraph}, {"### " section, how, {paragraph}}
    about       = "N rows, worked " ("sideways" | "upwards") "." [" Make N alike."] [" Work in " yarn " throughout."]
    foundation  = "Foundation: " ["with " yarn ", "] "ch N (a multiple of N plus N: N × N + N). The last N ch are the "
                  "tch of row 1."
    how         = "Rows N to N go over the first part of row N only. Leave the rest of row N for now."
                | "Row N goes over the first part of row N only. Leave the rest of row N for now."
                | "Go back to row N, " side " facing. Work in the same direction as row N of the " section "."
    paragraph   = row | alike | again
    row         = "Row N (" side [", " yarn] "): " steps ". " count "." shaping ending
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
    step        = "ch N" | "turn" | slip | work | skip | repeat | join | leave | "change to " yarn " in last yo"
    slip        = "sl st in next st" | "sl st in each of next N st" | "sl st " space
    work        = ("dc" | "2 dc" | "cl" | "(cl, dc)") " " place
                | "dc in next ch" | "dc in each of next N ch" | "cl in each of next N sp"
    skip        = "skip N ch" | "skip " ("first" | "next" | "last") " cl"
    repeat      = "[" steps "] N times"
    join        = "skip N cl after the " section ", join " yarn " " (space | dc)
                | "join " yarn " " (space | dc) (" after" | " as") " the " section
    leave       = "leave tch unworked" | "leave last N cl unworked" | "leave rest of row unworked"
    place       = space | dc | "in Nth ch from hook (skipped ch count as tch)" | "in last ch"
                | "in 3rd ch of tch" | "in base of tch" | "in edge dc" | "in last dc of last cl"
    space       = "in " ("first" | "next" | "same") " sp"
    dc          = "in Nth dc of " ("next" | "same") " cl"

What the words mean. A row is worked along the row below, from where the work was turned, or from where the yarn is
joined. "first" is the first of its kind met there, "next" the next one after the place last worked or skipped,
"last" the last of the row, "same" the one that the other section ended in. In row 1, and after "ch N, turn" of a
step out, chains are counted from the hook and every dc takes one; "edge dc" is where that new chain began. "ch N"
before or after "turn" is the turning chain: of a new chain its last 3, or 3 and the gap where the row starts with
one. A yarn comes in with the last yarn-over of the stitch named just before "change". After "Repeat" the rows go
through those named in turn, from the first. In stripes told together a row named just after the last one says what
comes in there. Yarns and pieces stand as the pattern names them, with backslashes before Markdown's own signs; a
reader takes them from the pattern.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.wording import instructions
from turnchain.wording.instructions import Block, PieceInstructions, RowInstructions, SectionInstructions, Stripe
from turnchain.wording.languages import LANGUAGES
from turnchain.wording.languages.language import Language


def pattern_text(plan: Plan, language: str | None = None) -> str:
    """The whole written pattern, ending in a line break; in the pattern's own terms unless a language is named."""
    speech = _speech(plan, language, _escaped)
    pieces = ["\n\n".join(_piece(speech, piece)) for piece in plan.pieces]
    explained = "\n\n".join(_explained(speech, plan))
    listed = "\n".join(f"- {short}: {full}" for short, full in speech.abbreviations())
    top = [f"# {_escaped(plan.pattern.title)}", " ".join(_written(speech))]
    return "\n\n".join([*top, f"## {speech.say('abbreviations')}", listed, explained, *pieces]) + "\n"


def piece_text(piece: PiecePlan, language: str) -> str:
    """The written rows of one piece, with its heading."""
    return "\n\n".join(_piece(Speech(LANGUAGES[language], _escaped), piece)) + "\n"


def row_words(piece: PiecePlan, row: Row, language: str) -> str:
    """One row alone: "Row 2 (WS, Silt): Ch 3, turn, ...". Names stand as they are, without Markdown's backslashes."""
    speech = Speech(LANGUAGES[language])
    return _single(speech, instructions.of_row(piece, row), _striped(piece))


def abbreviations(plan: Plan, language: str | None = None) -> tuple[tuple[str, str], ...]:
    """The abbreviations that the pattern's text uses, each with what it stands for."""
    speech = _speech(plan, language)
    _said_of(speech, plan)
    return speech.abbreviations()


def special_stitches(plan: Plan, language: str | None = None) -> tuple[str, ...]:
    """What a maker must be told of the stitches of the pattern: a sentence or two for each."""
    speech = _speech(plan, language)
    _said_of(speech, plan)
    return tuple(_specials(speech, plan))


class Speech:
    """Says phrases of a language and remembers which were said, so that only what is used gets explained.

    ``named`` is how names of yarns and pieces are put into the text.
    """

    def __init__(self, language: Language, named: Callable[[str], str] = str) -> None:
        self.language = language
        self.named = named
        self.said: set[str] = set()
        self.used: set[str] = set()

    def __getitem__(self, key: str) -> str:
        """The short form of a token, asked for by a phrase."""
        self.used.add(key)
        return self.language.tokens[key].short

    def say(self, key: str, **slots: str | int) -> str:
        """The phrase ``key`` with its slots filled."""
        self.said.add(key)
        return self.language.phrases[key].format_map(_Slots(self, slots))

    def count(self, key: str, number: int, **slots: str | int) -> str:
        """The phrase ``key`` in the form that ``number`` asks for; the number is its slot n."""
        return self.say(f"{key}.{self.language.form(number)}", n=number, **slots)

    def nth(self, number: int) -> str:
        """ "3rd"."""
        return self.language.ordinal(number)

    def abbreviations(self) -> tuple[tuple[str, str], ...]:
        """The tokens used so far that need explaining, by the alphabet."""
        tokens = [self.language.tokens[key] for key in self.used]
        return tuple(sorted(((one.short, one.full) for one in tokens if one.full), key=lambda pair: pair[0].lower()))


class _Slots:
    """What a template may name: its own slots first, then the tokens of the language."""

    def __init__(self, speech: Speech, slots: dict[str, str | int]) -> None:
        self.speech, self.slots = speech, slots

    def __getitem__(self, key: str) -> str | int:
        return self.slots[key] if key in self.slots else self.speech[key]


def _speech(plan: Plan, language: str | None, named: Callable[[str], str] = str) -> Speech:
    return Speech(LANGUAGES[language or plan.pattern.terms], named)


def _escaped(name: str) -> str:
    """A name with backslashes before what Markdown would read as its own; & is but where it names a letter."""
    return re.sub(r"([\\`*_\[\]<>#|~]|&(?=#?\w+;))", r"\\\1", name)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


# ------------------------------------------------------------------------------------------- what goes before


def _said_of(speech: Speech, plan: Plan) -> None:
    """Says everything once, for what it uses."""
    for piece in plan.pieces:
        for _ in _piece(speech, piece):
            pass
    for _ in _explained(speech, plan):
        pass


def _written(speech: Speech) -> Iterator[str]:
    yield speech.say("written")
    if not speech.language.reviewed:
        yield speech.say("review")


def _explained(speech: Speech, plan: Plan) -> Iterator[str]:
    yield f"## {speech.say('specials')}"
    yield from _specials(speech, plan)
    yield f"## {speech.say('reading')}"
    yield " ".join(_reading(speech, plan))


def _specials(speech: Speech, plan: Plan) -> Iterator[str]:
    """What is used and not everybody's knowledge; the rows must have been said before."""
    fabric = plan.pattern.fabric
    starts = {row.edge(row.starts).kind for piece in plan.pieces for row in piece.rows}
    k = fabric.cluster
    yield f"{speech.say('special.cl', k=k)} {speech.say('special.cl.chain', k=k)}"
    open_start = fabric.gap > 0 and "spaced" in starts
    if "sp" in speech.used or open_start:
        yield speech.say("special.sp.open" if fabric.gap else "special.sp.closed")
    yield speech.say("special.tch.4", nth=speech.nth(4)) if open_start else speech.say("special.tch.3")
    if "in.base" in speech.said:
        yield speech.say("special.base")
    if "in.edge_dc" in speech.said:
        yield speech.say("special.edge_dc")


def _reading(speech: Speech, plan: Plan) -> Iterator[str]:
    yield speech.say("reading.sides")
    yield speech.say("reading.chain")
    yield speech.say("reading.count")
    if any(row.edge(row.starts).move == "step_out" for piece in plan.pieces for row in piece.rows):
        yield speech.say("reading.new_chain")
    if "repeat" in speech.said:
        yield speech.say("reading.repeat")
    if "work.cl_and_dc" in speech.said:
        yield speech.say("reading.together")
    if speech.said & {"change", "change.row", "stripes"}:
        yield speech.say("reading.change")


# ------------------------------------------------------------------------------------------------- the piece


def _striped(piece: PiecePlan) -> bool:
    return len({row.colour for row in piece.rows}) > 1


def _piece(speech: Speech, plan: PiecePlan) -> Iterator[str]:
    piece = instructions.of_piece(plan)
    striped = len(piece.colours) > 1
    yield f"## {speech.named(piece.name)}"
    yield " ".join(_about(speech, piece))
    yield _foundation(speech, piece)
    for section in piece.sections:
        if section.after is not None:
            yield from _section_head(speech, piece, section)
        for block in section.blocks:
            yield _block(speech, block, striped)


def _about(speech: Speech, piece: PieceInstructions) -> Iterator[str]:
    yield speech.say("piece", rows=piece.row_count, worked=speech.say(f"worked.{piece.worked}"))
    if piece.count > 1:
        yield speech.say("make", n=piece.count)
    if len(piece.colours) == 1:
        yield speech.say("one_color", name=speech.named(piece.colours[0]))


def _foundation(speech: Speech, piece: PieceInstructions) -> str:
    made = piece.foundation
    clusters = next(piece.rows()).clusters
    slots: dict[str, str | int] = {
        "n": made.chains, "times": clusters, "multiple": made.multiple, "plus": made.plus
    }
    chain = (
        speech.say("foundation", **slots)
        if made.colour is None
        else speech.say("foundation.color", name=speech.named(made.colour), **slots)
    )
    return f"{chain} {speech.say('foundation.told', turning=made.turning)}"


def _section_head(speech: Speech, piece: PieceInstructions, section: SectionInstructions) -> Iterator[str]:
    yield f"### {_capital(_section_name(speech, section.name))}"
    assert section.after is not None, "only a section that divides has a heading"
    if not section.joined:
        first, last = section.first.number, section.blocks[-1].rows[-1].number
        ending = ".one" if first == last else ""
        yield speech.say(f"section.goes_on{ending}", after=section.after, first=first, last=last)
        return
    other = next(one for one in piece.sections if one.after == section.after and not one.joined)
    yield speech.say(
        "section.joined",
        after=section.after,
        side=speech[section.first.side],
        first=section.first.number,
        other=_section_name(speech, other.name),
    )


def _section_name(speech: Speech, name: str) -> str:
    key = f"section.{name}"
    return speech.say(key) if key in speech.language.phrases else name


# -------------------------------------------------------------------------------------------------- the rows


def _block(speech: Speech, block: Block, striped: bool) -> str:
    if len(block.rows) == 1 and not block.models:
        return _single(speech, block.rows[0], striped)
    told = _repeating(speech, block) if block.models else _alike(speech, block)
    colours = _colours(speech, block) if striped else []
    ending = [speech.say("fasten_off")] if block.rows[-1].fasten_off else []
    return _header(speech, block, striped) + " ".join([*told, *colours, *ending])


def _single(speech: Speech, row: RowInstructions, striped: bool) -> str:
    side = speech[row.side]
    if striped and row.colour is not None:
        header = speech.say("row.color", n=row.number, side=side, name=speech.named(row.colour))
    else:
        header = speech.say("row", n=row.number, side=side)
    told = [f"{_steps(speech, row, change=True)}.", speech.say("count.one_row", count=_count(speech, row))]
    ending = [speech.say("fasten_off")] if row.fasten_off else []
    return header + " ".join([*told, *_shaping(speech, row), *ending])


def _steps(speech: Speech, row: RowInstructions, change: bool = False) -> str:
    """All steps, with the ``change`` of yarn right after the last stitch."""
    told = [_step(speech, step) for step in row.steps]
    if change and row.change_to is not None:
        after = len(told) - isinstance(row.steps[-1], instructions.Leave)
        told.insert(after, speech.say("change", name=speech.named(row.change_to)))
    return _capital(", ".join(told))


def _shaping(speech: Speech, row: RowInstructions) -> list[str]:
    """What the edges do: "At end: half a cl less."."""
    told = []
    for one in row.shaping:
        size = abs(one.halves)
        amount = speech.say("half") if size == 1 else f"{size // 2}{'½' if size % 2 else ''}"
        told.append(speech.say(f"shaped.{one.where}.{'more' if one.halves > 0 else 'less'}", amount=amount))
    return [f"{_capital('; '.join(told))}."] if told else []


def _header(speech: Speech, block: Block, striped: bool) -> str:
    """ "Rows 3 to 11 (RS and WS in turn): "."""
    side, other = (speech[row.side] for row in block.rows[:2]) if len(block.rows) > 1 else ("", "")
    rows = _range(speech, "rows", block.rows)
    colours = {row.colour for row in block.rows}
    colour = block.rows[0].colour
    if striped and len(colours) == 1 and colour is not None:
        return speech.say("rows.color", rows=rows, side=side, other=other, name=speech.named(colour))
    return speech.say("rows", rows=rows, side=side, other=other)


def _range(speech: Speech, key: str, rows: tuple[RowInstructions, ...]) -> str:
    ending = "two" if len(rows) == 2 else "range"
    return speech.say(f"{key}.{ending}", first=rows[0].number, last=rows[-1].number)


def _alike(speech: Speech, block: Block) -> list[str]:
    row = block.rows[0]
    counted = speech.say("count.each", count=_count(speech, row))
    return [f"{_steps(speech, row)}.", counted, *_shaping(speech, row)]


def _repeating(speech: Speech, block: Block) -> list[str]:
    rows = _range(speech, "again", block.models)
    over = len(block.rows) % len(block.models)
    again = (
        speech.say("again.ending", rows=rows, row=block.models[over - 1].number)
        if over
        else speech.say("again", rows=rows)
    )
    counts = "; ".join(_count(speech, row) for row in block.models)
    return [f"{_capital(again)}.", speech.say("count.turn", counts=counts)]


def _count(speech: Speech, row: RowInstructions) -> str:
    numbers = {"dc": row.counts.dc, "ch": row.counts.ch, "sl_st": row.counts.sl_st, "tch": row.counts.tch}
    parts = [speech.say(f"part.{key}", n=number) for key, number in numbers.items() if number]
    return speech.say("count", clusters=row.clusters, parts=", ".join(parts))


def _colours(speech: Speech, block: Block) -> list[str]:
    """The yarns of rows told together, and the change after them."""
    order = instructions.stripe_order(block.rows)
    if len(order.lead) == 1 and not order.cycle:
        if order.after is None:
            return []
        return [speech.say("change.row", name=speech.named(order.after), row=order.last)]
    told = [_stripe(speech, stripe) for stripe in order.lead]
    if order.cycle:
        heights = [
            speech.count("stripe.height", stripe.height, name=speech.named(stripe.colour)) for stripe in order.cycle
        ]
        begins = speech.language.listed([str(row) for row in order.begins])
        told.append(
            speech.say(
                "stripes.cycle", first=order.begins[0], last=order.last, list=", ".join(heights), begins=begins
            )
        )
    if order.after is not None:
        told.append(speech.say("stripe.after", first=order.last + 1, name=speech.named(order.after)))
    return [_capital(speech.say("stripes", list=", ".join(told)))]


def _stripe(speech: Speech, stripe: Stripe) -> str:
    ending = {1: "one", 2: "two"}.get(stripe.height, "range")
    return speech.say(f"stripe.{ending}", first=stripe.first, last=stripe.last, name=speech.named(stripe.colour))


# ------------------------------------------------------------------------------------------------- the steps


def _step(speech: Speech, step: instructions.Step) -> str:
    match step:
        case instructions.Chain(number):
            return speech.say("chain", n=number)
        case instructions.Turn():
            return speech.say("turn")
        case instructions.Work(what, place):
            return speech.say(f"work.{what}", place=_place(speech, place))
        case instructions.Repeat(steps, times):
            inside = ", ".join(_step(speech, one) for one in steps)
            return speech.say("repeat", steps=inside, n=times)
        case instructions.DcInChains(number):
            return speech.count("dc_in_chains", number)
        case instructions.ClusterInSpaces(number):
            return speech.count("cl_in_spaces", number)
        case instructions.Join():
            return _join(speech, step)
        case _:
            return _passing(speech, step)


def _passing(speech: Speech, step: instructions.Step) -> str:
    """What is slipped over, passed by or left."""
    match step:
        case instructions.SlipAlong(number):
            return speech.count("slip_along", number)
        case instructions.SlipInto(place):
            return speech.say("slip_into", place=_place(speech, place))
        case instructions.SkipChains(number):
            return speech.say("skip_chains", n=number)
        case instructions.SkipCluster(which):
            return speech.say(f"skip_cluster.{which}")
        case instructions.Leave(what, clusters):
            return speech.say(f"leave.{what}", n=clusters)
        case _:
            raise TypeError(f"no words for {step}")


def _join(speech: Speech, join: instructions.Join) -> str:
    name = speech.say("join.yarn") if join.colour is None else speech.named(join.colour)
    section, place = _section_name(speech, join.section), _place(speech, join.place)
    if join.skipped:
        return speech.say("join.skipped", n=join.skipped, section=section, name=name, place=place)
    return speech.say("join.same" if join.place.which == "same" else "join", section=section, name=name, place=place)


def _place(speech: Speech, place: instructions.Place) -> str:
    match place:
        case instructions.Space(which):
            return speech.say(f"in.space.{which}")
        case instructions.DcOfCluster(nth, which):
            return speech.say(f"in.dc_of_cluster.{which}", nth=speech.nth(nth))
        case instructions.ChainFromHook(number):
            return speech.say("in.chain_from_hook", nth=speech.nth(number))
        case instructions.TopOfTurningChain():
            return speech.say("in.top", nth=speech.nth(3))
        case _:
            return speech.say(_PLAIN_PLACES[type(place)])


_PLAIN_PLACES: dict[type[instructions.Place], str] = {
    instructions.NextChain: "in.next_chain",
    instructions.LastChain: "in.last_chain",
    instructions.LastDcOfLastCluster: "in.last_dc",
    instructions.BaseOfTurningChain: "in.base",
    instructions.EdgeDc: "in.edge_dc",
}
