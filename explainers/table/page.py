"""The page as long as there is no other: what the state says, as a list."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from ..preview.markup import Markup, element

__all__ = ["bare_page"]


def bare_page(state: dict[str, Any]) -> str:
    """The state of a file in words; nothing on it changes."""
    body = element("main", element("h1", state["title"] or state["name"]), element("ul", *_lines(state)))
    head = element("head", element("meta", charset="utf-8"), element("title", state["name"]))
    return f"<!doctype html>\n{element('html', head, element('body', body), lang='en-GB')}\n"


def _lines(state: dict[str, Any]) -> Iterator[Markup]:
    verdict = state["verdict"]
    saved = "saved" if state["file"]["saved"] else "not in the file yet"
    yield element("li", f"{state['file']['name']}, {saved}, revision {state['revision']}")
    yield element("li", f"{verdict['state']}, key {verdict['key'] or 'none'}")
    for each in state["outlines"]:
        yield element("li", f"{each['id']}: {len(each['corners'])} corners")
    for each in state["options"]:
        yield element("li", f"option {each['label']}: {each.get('reason', '')}")
    for each in (*state["faults"], *state["warnings"]):
        yield element("li", f"line {each['line']}, {each['field']}: {each['message']}. To mend it: {each['fix']}.")
