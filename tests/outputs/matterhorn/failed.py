"""Whether a PDF file fails conditions of the Matterhorn Protocol 1.1, as far as these checks go.

Source : PDF Association, Matterhorn Protocol 1.1 (2021), which numbers 136 conditions under which a file fails PDF/UA-1
         (ISO 14289-1:2014), in 31 checkpoints. 47 of them need a reader's judgement, 2 no test of their own, and 87
         can be decided by a program: ``CONDITIONS`` has 61 of these. What is not looked for concerns what our files
         never have: fonts that are not composite, CMaps of one's own, character sets listed, media clips, files
         attached to pages, marks for printers, forms of another kind, encryption without permissions.
"""

from __future__ import annotations

from pathlib import Path

import pikepdf
from outputs.matterhorn import annotations, content, fonts, structure
from outputs.matterhorn.table import CONDITIONS
from outputs.pdf_opened import Opened

__all__ = ["CONDITIONS", "failed"]

assert annotations and content and fonts and structure  # each has noted its conditions in the table


def failed(path: Path) -> list[str]:
    """What fails, each as "14-003: from level 1 to 3", by number."""
    with pikepdf.open(path) as pdf:
        file = Opened(pdf)
        return [f"{number}: {found}" for number, find in sorted(CONDITIONS.items()) for found in find(file)]
