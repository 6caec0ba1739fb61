"""Proof that what is published can be worked as written.

In: a plan. Out: a ``Proof``: the finished words and charts, read back and worked stitch by stitch by a maker who knows
nothing of the planner. Only ``proving`` and ``measures`` know the plan. The way through the rooms:

    hook        the fabric in the hand: what can be worked into what
    maker       a maker who follows written steps
    words       the words read back, and worked
    chart       a chart read back, and worked
    measures    what a worked piece measures
    proving     what came out, compared with the plan; begin reading here
"""
