"""The keys of an item of joining and cutting, read from its file."""
