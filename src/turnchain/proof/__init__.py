"""Proof that what is published can be worked as written.

In: a plan. Out: a ``Proof``: the finished words and charts, read back and worked stitch by stitch by a maker who knows
nothing of the planner. ``working`` holds the fabric and says what can be worked, ``following`` follows instructions
step by step, ``reading_words`` and ``reading_chart`` read what was published, ``proving`` compares what came out with
the plan. Only ``proving`` knows the plan.
"""
