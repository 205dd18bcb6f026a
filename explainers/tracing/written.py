"""A proposal as the file of an item: what was read in remarks, what is open in remarks where it is to be decided."""

from __future__ import annotations

import json

from ..document.notation import typed_pair
from ..document.yaml_text import text_yaml
from ..item.outline_reader import outline_yaml
from .proposal import OpenQuestion, Proposal, ProposedPiece, TracedOutline
from .reading import SURE

__all__ = ["item_text"]

_OPTIONS = "options: {make: 4, seed: 7}"


def item_text(
    proposal: Proposal, *, name: str, source: str, picture: str | None = None, title: str | None = None
) -> str:
    """The text of an item.

    name    : of the item
    title   : of the item; None for one that is made of its name
    source  : what the drawing is called
    picture : the file beside it that shows what was read
    """
    lines = [
        f"Read from {_plain(source)}: a proposal, to be compared with the original before it is used.",
        *([f"{_plain(picture)} shows what was read, each outline with its name."] if picture else []),
        *map(_plain, proposal.remarks),
    ]
    general = [each for each in proposal.open if not each.about]
    if general or proposal.passed:
        lines += ["", "Still to be decided:", *(f"- {_told(each)}" for each in general)]
        lines += [
            f"- {_plain(each.name)} was not taken: {_plain(each.message)} ({each.fix})" for each in proposal.passed
        ]
    text = [f"# {line}".rstrip() for line in lines]
    text += [f"item: {name}", f"title: {text_yaml(title or name.replace('-', ' ').capitalize())}"]
    text += [*_remarks(proposal, proposal.base, ""), "base:", *_corners(proposal.base, "  ")]
    if proposal.pieces:
        text.append("pieces:")
        for piece in proposal.pieces:
            text += _piece(proposal, piece)
    else:
        text.append("# pieces: to be written")
    return "\n".join([*text, _OPTIONS]) + "\n"


def _piece(proposal: Proposal, piece: ProposedPiece) -> list[str]:
    about = f"  # {piece.how}" if piece.how else ""
    keys = [
        f"does: {piece.does}" if piece.does else "# does: join or cut, to be decided",
        *_corners(piece.outline, ""),
        f"side: {typed_pair(piece.side)}{about}" if piece.side else "# side: to be decided",
        f"meets: {typed_pair(piece.meets)}" if piece.meets else "# meets: to be decided",
        *([f"of: {piece.of}"] if piece.of else []),
        *([f"mark: {json.dumps(_plain(piece.mark), ensure_ascii=False)}"] if piece.mark else []),
    ]
    head = _remarks(proposal, piece.outline, "  ")
    return [*head, f"  - piece: {piece.outline.name}", *(f"    {key}" for key in keys)]


def _corners(outline: TracedOutline, indent: str) -> list[str]:
    return outline_yaml(outline.corners, outline.holes, indent=indent)


def _remarks(proposal: Proposal, outline: TracedOutline, indent: str) -> list[str]:
    """What is to be known of one outline, above it."""
    said = [f"from {_plain(outline.source)}, {_sureness(outline)}"]
    if outline.off_grid:
        count = len(outline.off_grid)
        said.append(f"{count} of its corners {'lies' if count == 1 else 'lie'} off the grid, as drawn")
    said += [f"to be decided: {_told(each)}" for each in proposal.open if each.about == outline.name]
    return [f"{indent}# {line}" for line in said]


def _sureness(outline: TracedOutline) -> str:
    moved = f"corners moved by {outline.moved:.2g} at most" if outline.moved > 1e-9 else "no corner moved"
    return f"{'sure' if outline.sure >= SURE else 'not sure'} ({outline.sure:.0%}), {moved}"


def _told(question: OpenQuestion) -> str:
    return f"{_plain(question.message)}; {question.fix}"


def _plain(text: str) -> str:
    """Text from a drawing as it can stand in one remark: no line ends, nothing that is not printed."""
    return "".join(char if char.isprintable() else " " for char in text)[:300]
