"""Changes of an item's file as small values: what a page asks for, done to the text."""
