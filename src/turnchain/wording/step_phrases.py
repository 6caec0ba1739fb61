"""Steps and places in words.

In: a step of ``instructions.steps``. Out: "sl st in next st", "skip last cl" and so on, as the grammar in ``words`` has
them.
"""

from __future__ import annotations

from turnchain.wording.instructions import steps
from turnchain.wording.speech import Speech


def step_words(speech: Speech, step: steps.Step) -> str:
    """One step, without a comma after it."""
    match step:
        case steps.Chain(number):
            return speech.say("chain", n=number)
        case steps.Turn():
            return speech.say("turn")
        case steps.Work(what, place):
            return speech.say(f"work.{what}", place=_place(speech, place))
        case steps.Repeat(repeated, times):
            inside = ", ".join(step_words(speech, one) for one in repeated)
            return speech.say("repeat", steps=inside, n=times)
        case steps.DcInChains(number):
            return speech.count("dc_in_chains", number)
        case steps.ClusterInSpaces(number):
            return speech.count("cl_in_spaces", number)
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
        case steps.TopOfTurningChain():
            return speech.say("in.top", nth=speech.nth(3))
        case _:
            return speech.say(_PLAIN_PLACES[type(place)])


_PLAIN_PLACES: dict[type[steps.Place], str] = {
    steps.NextChain: "in.next_chain",
    steps.LastChain: "in.last_chain",
    steps.LastDcOfLastCluster: "in.last_dc",
    steps.BaseOfTurningChain: "in.base",
    steps.EdgeDc: "in.edge_dc",
}
