"""One writer a format, blind to each other."""
