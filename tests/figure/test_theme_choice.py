"""A theme from its file: every entry can be written, every fault is told at its line."""

from __future__ import annotations

from dataclasses import fields, replace
from pathlib import Path

import pytest

from explainers.errors import Fault, ThemeError
from explainers.figure.theme import DEFAULT_THEME, Fabric, Theme
from explainers.figure.theme_choice import chosen_theme, theme_called, theme_of_file
from explainers.figure.theme_text import theme_yaml
from explainers.figure.themes import THEMES
from explainers.style import ENTRIES, FABRICS, PLACES, THEME_NAMES, Verb


def write(folder: Path, text: str) -> Path:
    path = folder / "club.yaml"
    path.write_text(text, encoding="utf-8")
    return path


def refused(path: Path) -> tuple[Fault, ...]:
    with pytest.raises(ThemeError) as caught:
        theme_of_file(path)
    return caught.value.faults


def test_every_entry_of_a_theme_can_be_written_in_a_file() -> None:
    in_files = {name for group, keys in ENTRIES.items() if group != "words" for name, _ in keys.values()}
    of_fabrics = {name for name in in_files if "." in name}
    assert in_files | {"name", "typeface", "words"} == set(PLACES)
    assert (in_files - of_fabrics) | {"name", "typeface", "fabrics", "file"} == {entry.name for entry in fields(Theme)}
    told = {"fill", "pattern", "pattern_name"}
    assert of_fabrics == {f"{name}.{part}" for name in FABRICS for part in told}
    assert set(FABRICS) == set(DEFAULT_THEME.fabrics)
    assert told | {"word", "done", "dashed"} == {entry.name for entry in fields(Fabric)}


@pytest.mark.parametrize("name", THEME_NAMES)
def test_a_printed_theme_is_read_as_the_same(name: str, tmp_path: Path) -> None:
    changed = {
        "join.word": "sew on",
        "cut.word": Verb(plain="yes", done="no"),
        "cut.pattern_name": "crosses",
        "hatch_deg": -30.0,
    }
    for theme in (THEMES[name], THEMES[name].having(changed)):
        read = theme_of_file(write(tmp_path, theme_yaml(theme, name="our-club")))
        assert read == replace(theme, name="our-club")


def test_what_is_left_out_is_as_in_the_theme_it_is_like(tmp_path: Path) -> None:
    text = 'theme: our-club\nlike: dark\ncolours:\n  attention: "#ffd866"\nwords: {join: sew}\n'
    theme = theme_of_file(write(tmp_path, text))
    expected = THEMES["dark"].having({"name": "our-club", "attention": "#FFD866", "join.word": "sew"})
    assert theme == expected
    assert theme_of_file(write(tmp_path, "theme: plain\n")) == replace(DEFAULT_THEME, name="plain")


def test_choices() -> None:
    assert chosen_theme(None) is DEFAULT_THEME
    assert all(chosen_theme(name) is theme_called(name) is THEMES[name] for name in THEME_NAMES)
    for word, fix in (("drak", "write dark"), ("nowhere.yaml", "or the name of a theme file")):
        with pytest.raises(ThemeError, match=fix):
            theme_called(word)


def test_a_file_is_a_choice(tmp_path: Path) -> None:
    path = write(tmp_path, "theme: our-club\nlike: print\n")
    assert chosen_theme(path) == theme_called(str(path)) == replace(THEMES["print"], name="our-club")


@pytest.mark.parametrize(
    ("lines", "line", "field", "message", "fix"),
    [
        ("colours:\n  ink: #1F2A37", 3, "colours.ink", "begins a comment", "in quotation marks"),
        ("colours:\n  ink: '#12'", 3, "colours.ink", '"#12" is not a colour', "six hexadecimal digits"),
        ("colours:\n  ink: 123456", 3, "colours.ink", "is not a colour", 'write "#123456"'),
        ("colours:\n  ink: '#a2b'", 3, "colours.ink", "is not a colour", 'write "#AA22BB"'),
        ("colours:\n  ink: [1, 2, 3]", 3, "colours.ink", "a list stands here", "in quotation marks"),
        ("colours: dark", 2, "colours", "keys with values are due", 'paper: "#FAF6EC"'),
        ("colours:\n  inc: '#000000'", 3, "colours.inc", "no key called", "write ink"),
        ("collars: {}", 2, "collars", "a theme has no key called", "write colours"),
        ("like: drak", 2, "like", "light, dark or print is due", "write dark"),
        ("patterns: {join: stripes}", 2, "patterns.join", "dots, lines, crosses, checks or plain", "write"),
        ("patterns: {difference: plain}", 2, "patterns.difference", "tint, dots", "write"),
        ("patterns: {direction: steep}", 2, "patterns.direction", "is not a number", "write a plain number"),
        ("weights: {side: 0}", 2, "weights.side", "out of range", "write a number from 0.001 to 2"),
        ("weights: {side: 0,04}", 2, "weights", "", ""),
        ("lengths: {cut-dash: 0.1}", 2, "lengths.cut-dash", "a list of lengths is due", "[0.17, 0.11]"),
        ("lengths: {cut-dash: [0.1, x]}", 2, "lengths.cut-dash[1]", "is not a number", "write a plain number"),
        ("sizes:\n  word: 0.2", 3, "sizes.word", "smaller than 32 px", "0.267 or more"),
        ("words: {join: embroider-with-care}", 2, "words.join", "at most 16", "shorten"),
        ("words: {join: weld}", 2, "words.join", 'another form of "weld"', "{verb: weld, done: ...}"),
        ("words: {join: {verb: weld}}", 2, "words.join.done", "", "such as done: glued on"),
        ("words: {join: {did: welded}}", 2, "words.join.did", "no key called", ""),
        ("words: {join: [glue, glued]}", 2, "words.join", "", "one short verb"),
        ("words: {join: cut}", 2, "words", "not the same one", "write two words"),
        ("typeface: Handwriting", 2, "typeface", "does not come with this package", "write Atkinson Hyperlegible"),
        ("patterns: {cut: dots}", 2, "patterns.cut", "both wear dots", "lines, crosses, checks or plain"),
        ("patterns: {join: lines}", 2, "patterns.join", "both wear lines", "dots, crosses, checks or plain"),
        ("colours:\n  quiet: '#999999'", 3, "colours.quiet", "paper (2.6", 'such as "#'),
        ("colours:\n  paper: '#888888'", 3, "colours.paper", "ink (4.1", "write a lighter colour"),
    ],
)
def test_a_fault_is_told_at_its_line(lines: str, line: int, field: str, message: str, fix: str, tmp_path: Path) -> None:
    path = write(tmp_path, f"theme: our-club\n{lines}\n")
    faults = refused(path)
    hit = [fault for fault in faults if fault.line == line and fault.field.startswith(field)]
    assert hit and {fault.file for fault in faults} == {str(path)}
    assert any(message in fault.message and fix in fault.fix for fault in hit), faults


def test_all_faults_come_in_one_run(tmp_path: Path) -> None:
    text = "theme: dark\nlike: nothing\ncolours: {ink: blue}\nweights: {outline: 0.03}\nwords: {join: cut}\n"
    assert [fault.line for fault in refused(write(tmp_path, text))] == [1, 2, 3, 4, 5]


def test_contrast_with_a_colour_that_could_not_be_read_is_not_told(tmp_path: Path) -> None:
    text = "theme: night\ncolours:\n  paper: #000000\n  ink: '#FFFFFF'\n  quiet: '#EEEEEE'\n"
    assert [fault.field for fault in refused(write(tmp_path, text))] == ["colours.paper"]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("item: corner-block\ntitle: x\n", "this is an item, not a theme"),
        ("lesson: a\ntheme: dark\nparts: []\n", "has no key called"),
        ("series: a\n", "this is a series, not a theme"),
        ("", "the file is empty"),
        ("- theme\n", "the file holds a list"),
        ("colours: {}\n", "the key theme is missing"),
        ("theme: [\n", "cannot be read"),
    ],
)
def test_what_is_no_theme_says_so(text: str, message: str, tmp_path: Path) -> None:
    assert any(message in fault.message for fault in refused(write(tmp_path, text)))
