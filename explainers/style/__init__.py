"""The words by which themes and paces are written down: names, keys, patterns, limits. No values, no drawing."""
