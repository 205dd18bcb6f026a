"""The panels of the turned outline: what a file gives, what comes of it, what can be read of it."""
