"""New outlines of a like build."""
