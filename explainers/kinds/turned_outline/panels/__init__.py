"""The panels of the turned outline: what a file gives, what can be read of it."""
