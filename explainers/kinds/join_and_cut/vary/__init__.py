"""New questions of the same build as one that is there, with other outlines."""
