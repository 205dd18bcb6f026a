"""The panels of joining and cutting: what a file gives, what comes of it, what can be read of it."""
