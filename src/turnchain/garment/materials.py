"""What is needed for the work: yarns, hook, notions, gauge.

In: a plan. Out: lines of words in the pattern's language. The mm of a hook count; US labels vary between sellers.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from turnchain import sizes, style
from turnchain.fabric.plan import Plan
from turnchain.pattern import Pattern, Yarn
from turnchain.units import SWATCH_WORDS, Unit, per_swatch, plain
from turnchain.wording.languages.language import Speech
from turnchain.wording.tables import speech_of
from turnchain.yarns import figures as yarn
from turnchain.yarns.figure_words import USUAL_BALL
from turnchain.yarns.figures import YARD, Figures, Need


def lines(plan: Plan) -> list[str]:
    """Yarns with their amounts, hook, notions and gauge, one to a line."""
    return [*to_buy(plan), gauge(plan)]


def to_buy(plan: Plan) -> list[str]:
    """Yarns with their amounts, hook and notions, one to a line; where no swatch was weighed, the balls to buy after
    the yarns, as an estimate."""
    speech = speech_of(plan.pattern)
    return [*_yarns(speech, plan), _hook(speech, plan.pattern), notions(plan)]


def _yarns(speech: Speech, plan: Plan) -> list[str]:
    """Each yarn with its letter and how much of it; estimates, and told so, where no swatch was weighed."""
    pattern = plan.pattern
    if not pattern.yarns:
        return [speech.say("materials.any_yarn")]
    found = yarn.figures(plan)
    needs = {need.yarn: need for need in found.needs}
    told = []
    for index, one in enumerate(pattern.yarns):
        slots = {"letter": style.letter(index), "name": one.name}
        if one.name not in needs:
            told.append(speech.say("materials.yarn", **slots))
            continue
        key = "materials.yarn.estimate" if found.density.rough else "materials.yarn.amount"
        told.append(speech.say(key, amount=_amount(speech, pattern, found, needs[one.name]), **slots))
    return [*told, *_shopping(speech, pattern, found)] if found.density.rough else told


def _amount(speech: Speech, pattern: Pattern, found: Figures, need: Need) -> str:
    """What is needed of a yarn, in grams, metres or yards, and balls."""
    used, unit = yarn.yarn_named(pattern, need.yarn), pattern.units
    if not found.density.rough:
        parts = [f"{ceil(need.needed)} g"]
        parts += [long(need.metres, unit)] if need.metres is not None else []
        parts += [speech.count("materials.balls", need.balls)] if need.balls is not None else []
        return ", ".join(parts)
    low, high = _least(need), need.needed
    parts = [f"{_span(speech, low, high)} g"]
    if used and used.metres_per_100g:
        metres = used.metres_per_100g / 100
        length, short = (Fraction(100) / YARD, "yd") if unit == "in" else (Fraction(1), "m")
        parts.append(f"{_span(speech, low * metres * length, high * metres * length)} {short}")
    if used and used.ball:
        parts.append(_balls(speech, low, high, used.ball))
    return ", ".join(parts)


def _least(need: Need) -> Fraction:
    """The grams that are needed at least; 0 where no lower figure is known."""
    return need.least if need.low else Fraction(0)


def _shopping(speech: Speech, pattern: Pattern, found: Figures) -> list[str]:
    """The balls to buy of every yarn where no swatch was weighed."""
    told = []
    for need in found.needs:
        ball = _ball(yarn.yarn_named(pattern, need.yarn))
        balls = _balls(speech, _least(need), need.needed, ball)
        weight = f"{speech.figure(plain(ball))} g"
        told.append(speech.say("materials.shopping.yarn", yarn=need.yarn, balls=balls, weight=weight))
    return [speech.say("materials.shopping", balls="; ".join(told))] if told else []


def _ball(used: Yarn | None) -> Fraction:
    return (used and used.ball) or USUAL_BALL


def _balls(speech: Speech, low: Fraction, high: Fraction, ball: Fraction) -> str:
    form = speech.language.form(ceil(high / ball))
    return speech.say(f"materials.balls.{form}", n=_span(speech, low / ball, high / ball))


def _span(speech: Speech, low: Fraction, high: Fraction) -> str:
    """ "3 to 5", "5" where both come to the same, or "at most 5" where the lower is unknown, which is 0."""
    least, most = ceil(low), ceil(high)
    if not low:
        return speech.say("span.at_most", most=most)
    return f"{most}" if least == most else speech.say("span.range", least=least, most=most)


def long(metres: Fraction, unit: Unit) -> str:
    """A length of yarn as text, rounded up: "120 m" or, in a pattern in inches, "132 yd"."""
    return f"{ceil(metres * 100 / YARD)} yd" if unit == "in" else f"{ceil(metres)} m"


def _hook(speech: Speech, pattern: Pattern) -> str:
    hooks = sorted({swatch.hook for swatch in pattern.swatches if swatch.hook})
    if not hooks:
        return speech.say("materials.any_hook")
    return speech.say("materials.hook", hooks=speech.language.listed([hook_words(speech, size) for size in hooks]))


def hook_words(speech: Speech, mm: Fraction) -> str:
    """A hook's mm with its US label where it has one: "5 mm (US H-8)". Labels: ``sizes.HOOKS``."""
    label, size = sizes.HOOKS.get(mm), speech.figure(plain(mm))
    return speech.say("materials.hook.us", mm=size, label=label) if label else f"{size} mm"


def gauge(plan: Plan) -> str:
    """Clusters and rows in 10 cm or, in a pattern in inches, 4 in, each to a tenth: a line in the pattern's
    language."""
    speech, unit = speech_of(plan.pattern), plan.pattern.units
    clusters, rows = (speech.figure(per_swatch(cm, unit)) for cm in (plan.gauge.pitch, plan.gauge.row))
    told = speech.say("gauge", clusters=clusters, rows=rows, over=SWATCH_WORDS[unit])
    return speech.say("materials.gauge", gauge=told)


def notions(plan: Plan) -> str:
    """Needle, scissors, tape and pins; stitch markers too where a neck divides a piece or a piece is made more than
    once."""
    marked = any(len(piece.sections) > 1 or piece.count > 1 for piece in plan.pieces)
    return speech_of(plan.pattern).say("materials.notions.markers" if marked else "materials.notions")
