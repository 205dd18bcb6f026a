"""Which face the words of a page are really drawn with, and pages whose face is another, for tests of every page."""

from __future__ import annotations

import base64
import hashlib
import io
import re
from collections.abc import Callable
from html import escape
from pathlib import Path
from typing import Any

from fontTools.ttLib import TTFont
from playwright.sync_api import Page

from explainers.typeface.embedded import SIGN_FAMILY
from explainers.typeface.faces import FAMILY

__all__ = ["FACES", "OURS", "bare", "drawn_letters", "families_named", "in_face", "strangers", "widened"]

OURS = {FAMILY, SIGN_FAMILY}
_RULE = re.compile(r"@font-face \{.*?\}\n")

# Every family that is named for words, in a style sheet, an attribute or what an element comes to have.
_FAMILIES = """() => {
  const named = [];
  const walk = (rules) => [...rules].forEach((rule) => {
    if (!(rule instanceof CSSFontFaceRule) && rule.style?.fontFamily) named.push(rule.style.fontFamily);
    if (rule.cssRules) walk(rule.cssRules);
  });
  [...document.styleSheets].forEach((sheet) => walk(sheet.cssRules));
  for (const element of document.body.querySelectorAll("*:not(input, progress, script, video)"))
    named.push(getComputedStyle(element).fontFamily);
  return [...new Set(named)];
}"""

_BROUGHT = """() => [...document.styleSheets].flatMap((sheet) => [...sheet.cssRules])
  .filter((rule) => rule instanceof CSSFontFaceRule)
  .map((rule) => [rule.style.fontFamily, rule.style.getPropertyValue("src")])"""


def widened(text: str) -> str:
    """The page with its letters 20 % wider and higher than they are drawn, as another machine's fallback may be."""
    return _restyled(text, lambda rule: rule.replace("font-display", "size-adjust: 120%; font-display"))


def bare(text: str) -> str:
    """The page without its face: it falls back to whatever the machine has."""
    return _restyled(text, lambda rule: "")


def in_face(path: Path, face: str, folder: Path) -> Path:
    """The page in one of the faces, in that folder."""
    decorated = folder / path.name
    decorated.write_text(FACES[face](path.read_text(encoding="utf-8")), encoding="utf-8")
    return decorated


# What must be in view is so in each of them.
FACES: dict[str, Callable[[str], str]] = {"the carried face": str, "a face 20 % wider": widened}


def strangers(page: Page) -> list[tuple[str, str]]:
    """Each text that is seen and not wholly drawn with what the page carries, and each letter that is not carried.

    A letter that no font of the machine has either is drawn as an empty box, which counts as the page's own.
    """
    seen = [(text, faces) for text, faces in _platform_fonts(page) if faces]
    others = [
        (text, drawn["familyName"])
        for text, faces in seen
        for drawn in faces
        if not drawn["isCustomFont"] or drawn["familyName"] not in OURS
    ]
    carried = _carried(page)
    letters = {letter for text, _ in seen for letter in text if not letter.isspace()}
    return others + [(letter, "no face of the page") for letter in sorted(letters - carried)]


def drawn_letters(page: Page) -> int:
    """How many letters are seen in all, so that a page that shows nothing is not taken for a good one."""
    return sum(int(drawn["glyphCount"]) for _, faces in _platform_fonts(page) for drawn in faces)


def families_named(page: Page) -> set[str]:
    """The families that words are given in the page's style, as names without quotes."""
    lists: list[str] = page.evaluate(_FAMILIES)
    return {name.strip().strip("\"'") for named in lists if named != "inherit" for name in named.split(",")}


def _carried(page: Page) -> set[str]:
    """The letters that are in every face of one of the families that the page brings."""
    families: dict[str, list[set[str]]] = {}
    for family, address in page.evaluate(_BROUGHT):
        font = TTFont(io.BytesIO(base64.b64decode(re.findall(r"base64,([^\")]*)", address)[0])))
        families.setdefault(family, []).append({chr(number) for number in font.getBestCmap()})
    return {letter for weights in families.values() for letter in set.intersection(*weights)}


def _platform_fonts(page: Page) -> list[tuple[str, list[dict[str, Any]]]]:
    page.evaluate("document.fonts.ready.then(() => null)")
    session = page.context.new_cdp_session(page)
    try:
        session.send("DOM.enable")
        session.send("CSS.enable")
        root = session.send("DOM.getDocument", {"depth": -1})["root"]
        return [
            (text, session.send("CSS.getPlatformFontsForNode", {"nodeId": number})["fonts"])
            for number, text in _texts(root)
        ]
    finally:
        session.detach()


def _texts(node: dict[str, Any]) -> list[tuple[int, str]]:
    """Each element with text of its own, by its number: the text itself may be another before it is asked for."""
    if node["nodeName"] in ("HEAD", "SCRIPT", "STYLE", "NOSCRIPT"):
        return []
    children = node.get("children", [])
    own = " ".join(child["nodeValue"].strip() for child in children if child["nodeName"] == "#text").strip()
    return [*([(node["nodeId"], own)] if own else []), *(found for child in children for found in _texts(child))]


def _restyled(text: str, change: Callable[[str], str]) -> str:
    """The page with each rule of its face changed, and its policy told of it."""
    (style,) = re.findall(r"<style>(.*?)</style>", text, re.DOTALL)
    changed, count = _RULE.subn(lambda rule: change(rule[0]), style)
    assert count >= 2, "regular and bold"
    before, after = (escape(base64.b64encode(hashlib.sha256(s.encode()).digest()).decode()) for s in (style, changed))
    assert before in text
    return text.replace(style, changed).replace(before, after)
