"""Steps, rows and blocks of rows in words.

In: ``RowInstructions``, or a ``RowBlock`` of them. Out: a paragraph: heading, steps, count, what the edges do, yarns,
as the grammar in ``words`` has them.
"""

from __future__ import annotations

from turnchain.fabric.order import CLUSTERS
from turnchain.records import frozen
from turnchain.wording.instructions import steps
from turnchain.wording.instructions.grouping import RowStripe, StripeOrder, stripe_order
from turnchain.wording.instructions.rows import RowBlock, RowInstructions
from turnchain.wording.instructions.steps import Leave
from turnchain.wording.languages.language import Speech, capital


def step_words(speech: Speech, step: steps.Step) -> str:
    """One step in the language of ``speech``: no comma after it, no capital but where a name has one. TypeError for
    what is no step."""
    match step:
        case steps.Chain(number) | steps.ChainToTurn(number):
            return speech.say("chain", n=number)
        case steps.RestOfCluster(number, place):
            return step_words(speech, steps.Work("dc", place, number))
        case steps.NewChain(number, turning):
            return speech.say("chain.new" if turning > 1 else "chain.new.one", n=number, turning=turning)
        case steps.Turn():
            return speech.say("turn")
        case steps.Work("dc", place, number) if number > 1:
            return speech.say("work.dcs", n=number, place=_place(speech, place))
        case steps.Work(what, place):
            return speech.say(f"work.{what}", place=_place(speech, place))
        case steps.Together(first, second):
            return speech.say("work.together", first=_place(speech, first), second=_place(speech, second))
        case steps.JoinTurningChain(place, chains):
            return speech.say("work.with_chain", place=_place(speech, place), n=chains)
        case steps.Repeat(repeated, times):
            inside = ", ".join(step_words(speech, one) for one in repeated)
            return speech.say("repeat", steps=inside, n=times)
        case steps.DcInChains(number):
            return speech.count("dc_in_chains", number)
        case steps.ClusterInSpaces(number):
            return speech.count("cl_in_spaces", number)
        case steps.ClusterInUnits(number):
            return speech.count("cl_in_units", number)
        case steps.SolidIn(stitch, place):
            return speech.say("solid.in", stitch=speech.stitch(stitch), place=_place(speech, place))
        case steps.SolidInStitches(stitch, number):
            return speech.count("solid.stitches", number, stitch=speech.stitch(stitch))
        case steps.SolidInChains(stitch, number):
            return speech.count("solid.chains", number, stitch=speech.stitch(stitch))
        case steps.Join():
            return _join(speech, step)
        case _:
            return _passing(speech, step)


def _passing(speech: Speech, step: steps.Step) -> str:
    """What is slipped over, passed by or left."""
    match step:
        case steps.SlipAlong(number):
            return speech.count("slip_along", number)
        case steps.SlipInto(place):
            return speech.say("slip_into", place=_place(speech, place))
        case steps.SkipChains(number):
            return speech.say("skip_chains", n=number)
        case steps.SkipStitches(number):
            return speech.say("skip_stitches", n=number)
        case steps.SkipEdge():
            return speech.say("skip_edge")
        case steps.SkipFirst():
            return speech.say("skip_first")
        case steps.SkipCluster(which):
            return speech.say(f"skip_cluster.{which}")
        case steps.Leave(what, clusters):
            return speech.say(f"leave.{what}", n=clusters)
        case _:
            raise TypeError(f"no words for {step}")


def _join(speech: Speech, join: steps.Join) -> str:
    name = speech.say("join.yarn") if join.colour is None else speech.named(join.colour)
    section, place = speech.section(join.section), _place(speech, join.place)
    if join.skipped:
        return speech.say("join.skipped", n=join.skipped, section=section, name=name, place=place)
    return speech.say("join.same" if join.place.which == "same" else "join", section=section, name=name, place=place)


def _place(speech: Speech, place: steps.Place) -> str:
    match place:
        case steps.Space(which):
            return speech.say(f"in.space.{which}")
        case steps.DcOfCluster(nth, which):
            return speech.say(f"in.dc_of_cluster.{which}", nth=speech.nth(nth))
        case steps.ChainFromHook(number):
            return speech.say("in.chain_from_hook", nth=speech.nth(number))
        case steps.UnitBelow(which):
            return speech.say(f"in.unit.{which}")
        case steps.TopOfTurningChain(number):
            return speech.say("in.top", nth=speech.nth(number))
        case _:
            return speech.say(_PLAIN_PLACES[type(place)])


_PLAIN_PLACES: dict[type[steps.Place], str] = {
    steps.NextChain: "in.next_chain",
    steps.NextStitch: "in.next_stitch",
    steps.LastChain: "in.last_chain",
    steps.LastDcOfLastCluster: "in.last_dc",
    steps.BaseOfTurningChain: "in.base",
    steps.EdgeDc: "in.edge",
    steps.FirstStitch: "in.first",
    steps.HalfCluster: "in.half",
    steps.BesidePost: "in.beside",
    steps.PlaceReached: "in.same_place",
}


@frozen
class RowSaid:
    """A row in words, part by part: ``heading`` ("Row 2 (WS): ", with its blank), ``steps`` and ``count`` as sentences,
    and the sentences that come ``after`` them ("" where there are none): shaping, spaces, fastening off. ``stitches``
    are what the count has in brackets: "36 dc, 11 ch, 1 tch"."""

    heading: str
    steps: str
    count: str
    stitches: str
    after: str

    @property
    def text(self) -> str:
        """The whole row: heading, steps, count and what comes after, on one line."""
        return self.heading + " ".join(part for part in (self.steps, self.count, self.after) if part)


def block_paragraph(speech: Speech, block: RowBlock, striped: bool) -> str:
    """Rows told together as one paragraph without line breaks; in a ``striped`` piece with their yarns."""
    if len(block.rows) == 1 and not block.models:
        return row_said(speech, block.rows[0], striped).text
    told = _repeating(speech, block) if block.models else _alike(speech, block)
    colours = _colours(speech, block) if striped else []
    ending = [speech.say("fasten_off")] if block.rows[-1].fasten_off else []
    return _header(speech, block, striped) + " ".join([*told, *colours, *ending])


def row_said(speech: Speech, row: RowInstructions, striped: bool) -> RowSaid:
    """One row by itself; in a ``striped`` piece its heading names its yarn. A change of yarn is said in either case."""
    side = speech[row.side]
    if striped and row.colour is not None:
        heading = speech.say("row.color", n=row.number, side=side, name=speech.named(row.colour))
    else:
        heading = speech.say("row", n=row.number, side=side)
    count = speech.say("count.one_row", count=_count(speech, row))
    ending = [speech.say("fasten_off")] if row.fasten_off else []
    after = " ".join([*_shaping(speech, row), *_spaces(speech, row), *ending])
    return RowSaid(heading, f"{_steps(speech, row, change=True)}.", count, _stitches(speech, row), after)


def _steps(speech: Speech, row: RowInstructions, change: bool = False) -> str:
    """All steps as a sentence without its stop, with the ``change`` of yarn right after the last stitch."""
    told = [step_words(speech, step) for step in row.steps]
    if change and row.change_to is not None:
        after = len(told) - isinstance(row.steps[-1], Leave)
        told.insert(after, speech.say("change", name=speech.named(row.change_to)))
    return capital(", ".join(told))


def _shaping(speech: Speech, row: RowInstructions) -> list[str]:
    """What the edges do: "At end: half a cl less."."""
    told = []
    for one in row.shaping:
        size = abs(one.halves)
        amount = speech.say("half") if size == 1 else f"{size // 2}{'½' if size % 2 else ''}"
        told.append(speech.say(f"shaped.{one.where}.{'more' if one.halves > 0 else 'less'}", amount=amount))
    return [f"{capital('; '.join(told))}."] if told else []


def _spaces(speech: Speech, row: RowInstructions) -> list[str]:
    """Between which stitches the next row finds the spaces of this one, where the row does not show it."""
    spaces = row.spaces
    if spaces is None:
        return []
    slots: dict[str, str | int] = {
        "nth": speech.nth(spaces.first),
        "next": speech.nth(spaces.first + 1),
        "every": spaces.every,
    }
    return [capital(speech.say("spaces.many" if spaces.every else "spaces.one", **slots))]


def _header(speech: Speech, block: RowBlock, striped: bool) -> str:
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


def _alike(speech: Speech, block: RowBlock) -> list[str]:
    row = block.rows[0]
    counted = speech.say("count.each", count=_count(speech, row))
    return [f"{_steps(speech, row)}.", counted, *_shaping(speech, row)]


def _repeating(speech: Speech, block: RowBlock) -> list[str]:
    rows = _range(speech, "again", block.models)
    over = len(block.rows) % len(block.models)
    again = (
        speech.say("again.ending", rows=rows, row=block.models[over - 1].number)
        if over
        else speech.say("again", rows=rows)
    )
    counts = "; ".join(_count(speech, row) for row in block.models)
    return [f"{capital(again)}.", speech.say("count.turn", counts=counts)]


def _count(speech: Speech, row: RowInstructions) -> str:
    if row.kind != CLUSTERS:
        return _stitches(speech, row)
    return speech.say("count", clusters=row.clusters, parts=_stitches(speech, row))


def _stitches(speech: Speech, row: RowInstructions) -> str:
    """ "36 dc, 11 ch, 1 tch"."""
    if row.kind != CLUSTERS:
        solid = speech.say("part.solid", n=row.counts.dc, stitch=speech.stitch(row.kind))
        return ", ".join([solid, *([speech.say("part.tch", n=1)] if row.counts.tch else [])])
    numbers = {"dc": row.counts.dc, "ch": row.counts.ch, "sl_st": row.counts.sl_st, "tch": row.counts.tch}
    return ", ".join(speech.say(f"part.{key}", n=number) for key, number in numbers.items() if number)


def _colours(speech: Speech, block: RowBlock) -> list[str]:
    """The yarns of rows told together, and the change after them."""
    order = stripe_order(block.rows)
    if len(order.lead) == 1 and not order.cycle:
        if order.after is None:
            return []
        return [speech.say("change.row", name=speech.named(order.after), row=order.last)]
    told = [_stripe(speech, stripe) for stripe in order.lead]
    if order.cycle:
        told.append(_cycle(speech, order))
    if order.after is not None:
        told.append(speech.say("stripe.after", first=order.last + 1, name=speech.named(order.after)))
    return [capital(speech.say("stripes", list=", ".join(told)))]


def _cycle(speech: Speech, order: StripeOrder) -> str:
    """ "from row 9 over and over to row 61: 2 rows Silt, 1 row Reed (begins in rows 9, 12 and 15)"."""
    heights = [speech.count("stripe.height", one.height, name=speech.named(one.colour)) for one in order.cycle]
    begins = speech.language.listed([str(row) for row in order.begins])
    first = order.begins[0]
    return speech.say("stripes.cycle", first=first, last=order.last, list=", ".join(heights), begins=begins)


def _stripe(speech: Speech, stripe: RowStripe) -> str:
    ending = {1: "one", 2: "two"}.get(stripe.height, "range")
    return speech.say(f"stripe.{ending}", first=stripe.first, last=stripe.last, name=speech.named(stripe.colour))
