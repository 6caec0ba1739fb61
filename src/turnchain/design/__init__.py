"""The page on which a pattern is designed: ``turnchain design``.

``server`` serves the page of ``page/`` and the replies of ``turnchain.live`` on this machine alone, ``searching`` runs
what takes long beside it; ``pattern_file`` reads and saves the file that is designed. The page itself is plain modules,
with preact and htm in ``page/vendor`` (their licences beside them): ``pattern.js`` keeps the pattern, ``bench.js`` has
the cards of ``parts/`` in their order (a new card is named there), ``changes.js`` makes what changes a pattern, as
edits, and what the page says stands by one key in all of ``languages/``.
"""
