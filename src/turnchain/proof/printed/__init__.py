"""Readers of what was printed: figures out of the report, the written pattern, pictures and pages.

In: text, or the bytes of an SVG file. Out: figures as they stand there, with the words they belong to. No plan is used
here, and nothing of what printed them. In the order in which to read: ``lengths``, ``report``, ``pattern``,
``picture``, ``booklet``.
"""
