"""Proof that what is published can be worked as written, and measures what is printed of it.

In: a plan. Out: a ``Proof``: the finished words and charts, read back and worked stitch by stitch without any code of
the planner; then every printed figure, held against the cloth that came out. Only the modules beside this one read the
plan. The way through the rooms:

    hook        stitches as a hook makes them: what can be worked into what
    maker       a maker who follows written steps
    words       the words read back, and worked
    chart       a chart read back, and worked
    proving     what came out, compared with the plan; begin reading here
    cloth       what the worked rows measure: edges, measures, yarn
    printed     figures read out of the report, the written pattern, pictures
    compared    what is printed, held against the cloth
    figures     all of it for a plan: what is printed, held (``held``) against its cloth (``worked_cloths``)
"""
