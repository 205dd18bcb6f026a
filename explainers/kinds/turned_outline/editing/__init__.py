"""The turned outline drawn by hand."""
