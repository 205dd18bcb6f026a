"""What writers add to a lesson is in its language, and a draft says so in every file that has words."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from pathlib import Path

import pikepdf
import pptx
import pytest
from oracles.webvtt_rules import read_strictly
from outputs.matterhorn.failed import failed
from outputs.pdf_read import pages_read
from storyboard.sample_board import board

from explainers.outputs.clip.assembly import clip_labels
from explainers.outputs.pdf.deck import write_pdf_deck
from explainers.outputs.pdf.handout import write_handout
from explainers.outputs.pptx.deck import write_deck
from explainers.outputs.shared.captions import vtt_text
from explainers.outputs.text.cues import write_cues
from explainers.outputs.text.description import description_text
from explainers.sentences.writers import draft_line
from explainers.storyboard.model import Imprint
from explainers.storyboard.pacing import pace
from explainers.storyboard.timeline import Timeline

DRAFT = "Language de: draft, not yet read by a speaker"


def timeline_in(tag: str) -> Timeline:
    """The sample lesson as one of that language; its first step's words are the teacher's."""
    sample = board()
    first, *others = sample.steps
    steps = (replace(first, teachers_own=True), *others)
    imprint = Imprint(series="Quilts", number=3, licence="CC BY 4.0", draft=draft_line(tag))
    return pace(replace(sample, language=tag, steps=steps, imprint=imprint))


def test_a_draft_says_so_in_every_file_with_words(tmp_path: Path) -> None:
    timeline = timeline_in("de")
    captions = vtt_text(timeline)
    cues, wrong = read_strictly(captions)
    assert (wrong, len(cues)) == ([], len(timeline.cues))
    assert captions.startswith(f"WEBVTT\n\nNOTE {DRAFT}\n\n")
    assert description_text(timeline).endswith(f"\n\n{DRAFT}\n")
    table = write_cues(timeline, tmp_path)[0].read_text(encoding="utf-8-sig")
    assert {row[-1] for row in list(csv.reader(io.StringIO(table, newline="")))[1:]} == {DRAFT, "Lehrkraft"}
    assert clip_labels(timeline).comment == DRAFT
    (deck,) = write_deck(timeline, tmp_path)
    assert pptx.Presentation(str(deck)).core_properties.comments == f"Lizenz: CC BY 4.0\n{DRAFT}"


def test_a_draft_says_so_on_pages_and_in_their_properties(tmp_path: Path) -> None:
    """On the first page of a deck, at the foot of every page of a handout."""
    timeline = timeline_in("de")
    (deck,), (handout,) = write_pdf_deck(timeline, tmp_path), write_handout(timeline, tmp_path)
    assert [DRAFT in page.text for page in pages_read(deck)] == [True] + [False] * (len(pages_read(deck)) - 1)
    assert all(DRAFT in " ".join(page.text.split()) for page in pages_read(handout))
    for path in (deck, handout):
        with pikepdf.open(path) as pdf:
            assert str(pdf.docinfo.get("/Subject", "")) == f"Lizenz: CC BY 4.0. {DRAFT}"
        assert failed(path) == []
    last = pages_read(deck)[0].words[-1][1]
    assert last < 540.0 - 11.0, "on the page"


@pytest.mark.parametrize("tag", ["en-GB", "en-US"])
def test_a_language_that_is_read_says_nothing_of_the_kind(tag: str, tmp_path: Path) -> None:
    timeline = timeline_in(tag)
    texts = [vtt_text(timeline), description_text(timeline), clip_labels(timeline).comment]
    texts += [path.read_text(encoding="utf-8") for path in write_cues(timeline, tmp_path)]
    texts += [page.text for path in write_pdf_deck(timeline, tmp_path) for page in pages_read(path)]
    assert not any("draft" in text for text in texts)


def test_writers_speak_the_language_of_the_lesson(tmp_path: Path) -> None:
    timeline = timeline_in("de")
    rows = list(csv.reader(io.StringIO(write_cues(timeline, tmp_path)[0].read_text(encoding="utf-8-sig"), newline="")))
    assert rows[0] == [
        *("Nummer", "Schritt", "Anfang", "Ende", "Dauer", "Kapitel", "Worte", "Wörter pro Minute"),
        *("was sich im Bild ändert", "wessen Worte"),
    ]
    assert rows[1][-1] == "Lehrkraft"
    assert "NOTE eigene Worte der Lehrkraft\n" in vtt_text(timeline)
    told = description_text(timeline)
    assert "Quilts, Lektion 3\n" in told
    assert "und hat Untertitel." in told
    (deck,) = write_deck(timeline, tmp_path)
    notes = [slide.notes_slide.notes_text_frame.text for slide in pptx.Presentation(str(deck)).slides]
    assert notes[0].startswith("Eigene Worte der Lehrkraft: ")
    assert all("Im Film: 0:" in note for note in notes)
    assert any("Pause: " in note and " Sekunden." in note for note in notes)


def test_american_writers_licence_a_lesson_in_their_spelling() -> None:
    assert "License: CC BY 4.0" in description_text(timeline_in("en-US"))
    assert "Licence: CC BY 4.0" in description_text(timeline_in("en-GB"))
