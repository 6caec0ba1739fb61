"""turnchain: stitch charts for cluster-stripe crochet, computed from swatch, measurements and colours."""
