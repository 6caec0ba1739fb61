"""The page on which a pattern is designed: ``turnchain design``.

``server`` serves the page of ``page/`` and the replies of ``turnchain.live`` on this machine alone; ``pattern_file``
reads and saves the file that is designed. The page itself is plain modules, with preact and htm in
``page/vendor`` (their licences beside them).
"""
