"""Joining and cutting drawn by hand."""
