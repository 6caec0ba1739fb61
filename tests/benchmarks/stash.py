"""How long the stash plan of a blanket of 300 rows by 200 clusters takes: ``python tests/benchmarks/stash.py``.

In: nothing. Out: seconds for several numbers of yarns, the rest and its bound; the aim is under 2 s each.
"""

from __future__ import annotations

import time
from fractions import Fraction

from turnchain.pattern import Pattern, Piece, Stripes, Swatch, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.yarns.colouring import coloured
from turnchain.yarns.stash.from_plan import answer_of
from turnchain.yarns.stash.solving import forget

GRAMS = 400 * 300 * Fraction(9, 100) * Fraction(115, 100)  # of the blanket, margin included


def blanket(yarns: int, apart: int) -> Pattern:
    """A tenth more in hand than is needed, more of each yarn than of the one before."""
    shares = [10 + index for index in range(yarns)]
    stock = [GRAMS * Fraction(11, 10) * share / sum(shares) for share in shares]
    return Pattern(
        "Blanket",
        (Swatch(Fraction(10), Fraction(20), Fraction(10), Fraction(10), Fraction(18)),),
        (Piece("blanket", width=Fraction(400), length=Fraction(300)),),
        yarns=tuple(Yarn(f"yarn {i}", "#777777", grams, Fraction(250)) for i, grams in enumerate(stock)),
        stripes=Stripes(kind="stash", apart=apart),
    )


def main() -> None:
    """Times each and prints a line."""
    for yarns, apart in ((3, 1), (4, 1), (6, 2), (10, 3)):
        plan = plan_pattern(blanket(yarns, apart))
        forget()
        start, cpu = time.perf_counter(), time.process_time()
        answer = answer_of(coloured(plan))
        taken, used = time.perf_counter() - start, time.process_time() - cpu
        assert answer is not None
        rest, bound = float(max(answer.rests)), float(answer.least_rest)
        print(
            f"{yarns} yarns, {apart} apart: {taken:.2f} s ({used:.2f} of a core); "
            f"rest {rest:.1f} g, bound {bound:.1f} g"
        )


if __name__ == "__main__":
    main()
