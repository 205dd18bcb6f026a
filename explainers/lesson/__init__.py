"""Lessons and sheets, planned."""
