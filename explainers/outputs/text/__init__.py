"""Cue sheets, descriptions, certificates: plain text."""
