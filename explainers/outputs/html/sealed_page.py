"""Pages that need nothing beside themselves and may ask nothing of any network.

Style and script stand in the page and are named to the browser by their hashes; whatever else would run is refused.
So does the typeface, since a layout that leans on the fonts of a machine breaks on the next one.
"""

from __future__ import annotations

import base64
import hashlib
from html import escape

from ...typeface.embedded import face_css

__all__ = ["inline_svg", "sealed_head"]


def sealed_head(
    *,
    language: str,
    title: str,
    shown: str,
    style: str,
    script: str = "",
    images: str = "",
    media: str = "",
    fetches: str = "",
) -> str:
    """The document up to the end of its head; the caller adds the body, with that very script in it.

    title   : as text; it is escaped here
    shown   : all that may come to be seen on the page, as markup or as the script has it, for the letters in it
    style   : names the typeface by ``typeface.embedded.FAMILIES``
    images  : from where pictures may come, as the policy writes it, such as "data:"; from nowhere where it is ""
    media   : the same of clips and sounds
    fetches : the same of what the script may fetch
    """
    style = face_css(shown + style + script) + style
    runs = f"script-src 'sha256-{_digest(script)}'; " if script else ""
    sources = (("img", images), ("media", media), ("connect", fetches))
    allowed = "".join(f"{kind}-src {source}; " for kind, source in sources if source)
    policy = (
        f"default-src 'none'; style-src 'sha256-{_digest(style)}'; font-src data:; {runs}{allowed}"
        "base-uri 'none'; form-action 'none'"
    )
    return "\n".join(
        [
            "<!doctype html>",
            f'<html lang="{escape(language)}">',
            '<head><meta charset="utf-8">',
            f'<meta http-equiv="Content-Security-Policy" content="{escape(policy)}">',
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            f"<title>{escape(title)}</title>",
            f"<style>{style}</style></head>",
        ]
    )


def inline_svg(svg: str) -> str:
    """An SVG document as an element of a page."""
    return "".join(line for line in svg.splitlines() if not line.startswith("<?xml"))


def _digest(text: str) -> str:
    return base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
