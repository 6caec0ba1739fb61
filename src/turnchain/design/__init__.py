"""The page on which a pattern is designed: ``turnchain design``.

``server`` serves the page of ``page/`` and the answers of ``turnchain.live`` on this machine alone; ``pattern_file``
keeps the file that is designed in step with the page. The page itself is plain modules, with preact and htm in
``page/vendor`` (their licences beside them).
"""
