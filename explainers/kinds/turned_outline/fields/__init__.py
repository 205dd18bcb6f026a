"""The keys of an item of the turned outline."""
