"""A theme's own verbs stand wherever ours would: in each sentence, sheet, name and alternative text."""

from __future__ import annotations

import html
import re
import subprocess
from pathlib import Path

import pikepdf
import pytest
from outputs.opened_slides import PDFTOTEXT
from pptx import Presentation

from explainers.batch import Job, jobs_of
from explainers.figure.themes import PRINT
from explainers.kinds.join_and_cut.words.own_verbs import with_own_verbs
from explainers.outputs.registry import spec
from explainers.words.catalogue_update import messages_in_source

ITEMS = Path(__file__).resolve().parents[2] / "items"
LESSON = """\
lesson: own-verbs
slips: told
title: Blocks in the club
language: {language}
{theme}
parts:
  - {{show: gate-block.yaml, as: worked-example}}
  - {{show: kite-block.yaml, as: your-turn}}
"""
# Verbs that nobody else says.
VERBS = "words:\n  join: {verb: flimble on, done: flimbled on}\n  cut: {verb: snerk, done: snerken}\n"
OWN = re.compile(r"flimble|snerk", re.I)
OURS = {
    "en": re.compile(r"[^.\n]*(?<!\.)\b(?:join|joins|joined|joining|cut|cuts|cutting)\b[^.\n]*", re.I),
    "de": re.compile(
        r"[^.\n]*(?:(?<!\w)anfüg|(?<!\w)angefügt|füge das|wegschneid|weggeschnitten|schneide das)[^.\n]*", re.I
    ),
}
# Scissors on paper, and what steps are called in a table of them.
NOT_OURS = re.compile(
    r"\bcut(?:s|ting)? out\b|Cut the strip out|who cuts|,[\w-]+\.[\w-]+\.(?:join|cut)\b|^(?:join|cut)$"
)
WITHOUT_PICTURES = ("cues", "transcript", "description", "certificate")
QUICK = (*WITHOUT_PICTURES, "deck", "deck-html", "index")
SLOW = ("script", "handout")  # whose pages are set for many seconds: with --full


def lesson(folder: Path, language: str, *, in_file: bool) -> Path:
    for name in ("gate-block", "kite-block"):
        (folder / f"{name}.yaml").write_text((ITEMS / f"{name}.yaml").read_text(encoding="utf-8"), encoding="utf-8")
    (folder / "club.yaml").write_text(f"theme: club\n{VERBS}", encoding="utf-8")
    path = folder / "lesson.yaml"
    theme = "theme: club.yaml" if in_file else ""
    path.write_text(LESSON.format(language=language, theme=theme), encoding="utf-8")
    return path


def text_of(path: Path) -> str:
    """All that anybody can read in a file, or hear of it."""
    if path.suffix == ".pptx":
        told = []
        for slide in Presentation(str(path)).slides:
            for node in (*slide.element.iter(), *slide.notes_slide.element.iter()):
                told += [node.text or "", node.get("name", ""), node.get("descr", "")]
        return "\n".join(told)
    if path.suffix == ".pdf":
        read = subprocess.run([str(PDFTOTEXT), path, "-"], check=True, capture_output=True, text=True).stdout
        with pikepdf.open(path) as pdf:
            alts = [str(node.Alt) for node in pdf.objects if isinstance(node, pikepdf.Dictionary) and "/Alt" in node]
        return "\n".join([" ".join(read.split()), *alts])  # a sentence may run over a line
    text = path.read_text(encoding="utf-8")
    if path.suffix == ".html":
        attributes = re.findall(r'(?:alt|aria-label|title)="([^"]*)"', text)
        data = re.findall(r'<script[^>]*type="application/json"[^>]*>(.*?)</script>', text, flags=re.S)
        text = re.sub(r"<(style|script).*?</\1>", "", text, flags=re.S)
        text = "\n".join([html.unescape(re.sub(r"<[^>]+>", "\n", text)), *map(html.unescape, attributes), *data])
    return text


def ours_in(text: str, language: str) -> set[str]:
    found = {hit[0].strip() for hit in OURS[language[:2]].finditer(text)}
    return {hit for hit in found if OURS[language[:2]].search(NOT_OURS.sub("", hit))}


@pytest.mark.skipif(PDFTOTEXT is None, reason="needs pdftotext (poppler-utils)")
def test_no_verb_of_ours_is_left_in_anything_that_is_written(
    run, tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    path, out = lesson(tmp_path, "en-GB", in_file=True), tmp_path / "out"
    wanted = (*QUICK, *SLOW) if request.config.getoption("--full") else QUICK
    assert run("build", path, "--to", out, *only(*wanted)).code == 0
    assert run("sheets", path, "--to", out / "own-verbs").code == 0
    files = [file for file in (out / "own-verbs").iterdir() if not file.name.startswith(".")]
    assert len(files) > 15
    for file in files:
        text = text_of(file)
        assert ours_in(text, "en") == set(), file.name
        assert OWN.search(text) or "chapters" in file.name or ".answers." in file.name, f"none of the theme's in {file}"
        assert ".theme-" not in file.name, "the lesson itself asks for the theme"


def test_on_paper_too_the_words_are_those_of_the_lessons_theme(tmp_path: Path) -> None:
    (job,) = jobs_of([lesson(tmp_path, "en-GB", in_file=True)])
    assert isinstance(job, Job)
    look = job.look(spec("handout"))
    assert look.paper == PRINT.paper and look.verbs == job.own_theme.verbs != {}


def test_by_hand_other_words_are_another_variant_of_files_without_pictures_too(run, tmp_path: Path) -> None:
    path, out = lesson(tmp_path, "en-GB", in_file=False), tmp_path / "out"
    assert run("build", path, "--to", out, *only(*WITHOUT_PICTURES)).code == 0
    before = {file: file.read_bytes() for file in (out / "own-verbs").iterdir() if not file.name.startswith(".")}
    by_hand = ("--theme", tmp_path / "club.yaml")
    assert run("build", path, "--to", out, *only(*WITHOUT_PICTURES), *by_hand).code == 0
    assert {file: file.read_bytes() for file in before} == before
    new = [file for file in (out / "own-verbs").iterdir() if file not in before and not file.name.startswith(".")]
    assert len(new) == len(before)
    for file in new:
        assert ".theme-club." in file.name
        assert ours_in(text_of(file), "en") == set(), file.name


def only(*outputs: str) -> list[str]:
    return [part for output in outputs for part in ("--only", output)]


SAID = {
    "en-GB": """\
Pieces are flimbled on or snerken where their marks meet.
Here is a base, with one piece to be snerken.
Snerk the gate where the bells meet.
It lies on top, because it will be snerken.
Snerk the gate.
The gate is snerken.
In option E, the gate is flimbled on, not snerken.
Here is a base, with two pieces to be flimbled on.
Then flimble on the sail where it meets the wing, at the buttons.
There is also one piece to be snerken.
Flimble on the wing.
Now it lies beside its partner, because it will be flimbled on.""",
    "en-US": """\
Here is a base, with one piece to be snerken.
Then flimble on the sail where it meets the wing, at the buttons.""",
    "de": """\
Teile werden flimbled on oder snerken, wo sich ihre Marken treffen.
Hier ist eine Grundform mit einem Teil, das snerken wird.
Das Teil „gate“ snerk, wo sich die Glocken treffen.
Jetzt liegt es obenauf, denn es wird snerken.
Das Teil „gate“ ist snerken.
In Option E wird das Teil „gate“ flimbled on, nicht snerken.
Dazu kommt ein Teil, das snerken wird.
Dann das Teil „sail“ flimble on, wo es das Teil „wing“ trifft und wo die Knöpfchen sind.""",
}


@pytest.mark.parametrize("language", SAID)
def test_sentences_with_a_themes_verbs_are_whole_in_every_language(run, tmp_path: Path, language: str) -> None:
    path = lesson(tmp_path, language, in_file=True)
    assert run("build", path, "--to", tmp_path / "out", *only("transcript", "description")).code == 0
    told = "\n".join(text_of(file) for file in (tmp_path / "out" / "own-verbs").glob("*.txt"))
    assert [sentence for sentence in SAID[language].splitlines() if sentence not in told] == []
    assert ours_in(told, language) == set()


def test_a_look_page_says_what_becomes_of_pieces_as_the_theme_does(
    run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = lesson(tmp_path, "en-GB", in_file=True)
    monkeypatch.chdir(tmp_path)
    assert run("look", path).code == 0
    text = text_of(Path("render_out/kite-block/look.theme-club.html"))
    assert "to flimble on" in text and "to snerk" in text and "Snerk the notch" in text
    assert ours_in(text, "en") == set()


def test_every_sentence_on_joining_and_cutting_has_one_beside_it_for_other_verbs() -> None:
    """Those with a plural, and what labels and verbs are called, are chosen where they are said."""
    chosen = {"join", "cut", "joined", "cut away", "one piece to join", "one piece to cut away"}
    left = []
    for asked in messages_in_source():
        text = asked.id[0] if isinstance(asked.id, tuple | list) else asked.id
        of_kind = any(name.startswith("kinds/join_and_cut/") for name, _ in asked.locations)
        if of_kind and text not in chosen and OURS["en"].search(re.sub(r"\{\w+\}", "", NOT_OURS.sub("", text))):
            left += [text] if with_own_verbs(text, asked.context or "") == text else []
    assert left == []
