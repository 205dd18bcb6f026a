"""Shared by the tests of the drawing table: a browser."""

from __future__ import annotations

from outputs.html_pages import browser  # noqa: F401  the fixture, for every module here
