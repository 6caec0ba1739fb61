"""A pattern while it is designed: one message in, one reply out, nothing written.

``answering`` is the way through; ``editing`` changes a pattern's text and keeps its remarks and order, ``facts``
gathers what a page shows beside the pictures, ``reach`` the places that a measure can be pulled to, ``drawn`` puts
scenes into JSON. A page that designs a pattern calls ``answering`` alone, wherever it is served from.
"""
