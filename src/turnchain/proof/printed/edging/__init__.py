"""Lines about edgings read back, in every language: ``tables`` has how they are said, ``reader`` reads them."""
