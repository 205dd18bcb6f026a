"""Each line of the guide's page on files from others is held by tests, and each of those is there.

The page is written for teachers, who need no names of tests; which hold what is said here.
"""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

PAGE = Path(__file__).parents[2] / "explainers" / "guide" / "files-from-others.md"
TESTS = Path(__file__).parents[1]

HELD_BY = {
    "a file that is no text, or a text without end": [
        "cli/test_long_texts.py::test_every_file_gets_one_short_error_at_its_line",
        "cli/test_long_texts.py::test_a_lesson_is_refused_in_the_same_way",
        "preview/test_seen.py::test_a_thousand_broken_files_leave_no_crash_and_no_stale_fault",
    ],
    "brackets in brackets, references and tags of YAML": [
        "item/test_hostile_text.py::test_a_bracket_before_everything_is_told_with_its_line",
        "cli/test_threats.py::test_references_within_references_are_bounded",
        "cli/test_threats.py::test_a_tag_runs_nothing",
    ],
    "digits and letters meant to keep the program busy": [
        "test_patterns_linear.py::test_the_patterns_of_a_file_are_linear",
        "test_patterns_linear.py::test_a_pattern_of_a_schema_is_linear",
        "cli/test_long_texts.py::test_a_drawing_gets_one_short_error_at_its_line",
    ],
    "names that are paths": ["cli/test_threats.py::test_a_name_that_is_a_path_is_refused"],
    "a lesson that shows files of another folder": [
        "item/test_lesson_reader.py::test_an_item_of_another_folder_is_refused_with_the_line_that_allows_it",
        "item/test_lesson_reader.py::test_folders_are_named_by_the_lesson_or_its_series_and_lie_below_them",
    ],
    "words that are markup, formulas or commands": [
        "outputs/test_html_deck_used.py::test_words_that_try_to_be_markup_stay_words",
        "outputs/test_captions.py::test_what_a_player_of_srt_would_obey_stays_text_to_it",
        "outputs/test_cues.py::test_no_cell_starts_a_formula",
        "outputs/test_index_page.py::test_every_word_is_escaped_and_every_name_encoded",
        "cli/test_streams.py::test_no_key_and_no_name_of_a_file_commands_a_terminal",
    ],
    "a drawing with entities, scripts or links": [
        "tracing/test_hostile_sources.py::test_each_gives_one_clear_fault",
        "table/test_dropped_drawings.py::test_hostile_files_are_refused_or_harmless",
        "item/test_svg_outlines.py::test_a_document_type_of_a_drawing_program_is_no_fault",
    ],
    "a picture or a slide that unpacks to far more": [
        "tracing/test_hostile_sources.py::test_the_hungriest_stay_within_their_memory",
        "outputs/test_deck_template.py::test_a_template_that_is_small_only_while_packed_is_refused_unread",
    ],
    "a template that fetches pictures or pages": [
        "outputs/test_deck_template.py::test_what_a_template_fetches_from_elsewhere_reaches_the_deck_only_when_asked_for",
    ],
    "a template with the names of those who made it": [
        "outputs/test_deck_template.py::test_nothing_is_left_of_its_slides_and_of_who_made_it",
    ],
    "a recording or a log that is none": [
        "test_plain_file.py::test_a_recording_of_a_sample_a_second_takes_no_memory",
        "voice/test_prompter_log.py::test_it_is_told_as_no_log",
        "voice/test_division.py::test_a_file_that_is_no_log_is_refused",
    ],
    "a pipe or a device in the place of a file": [
        "test_plain_file.py::test_a_pipe_and_a_device_are_refused_at_once",
    ],
    "a folder with notes or kept drawings of somebody else": [
        "test_made_record.py::test_any_bytes_are_a_note_or_none",
        "test_made_record.py::test_a_file_with_two_names_loses_only_ours",
        "cache/test_store.py::test_a_damaged_entry_is_dropped",
        "table/test_undo_over_a_restart.py::test_what_is_no_step_is_none",
    ],
    "links in a folder that lead elsewhere": [
        "test_batch.py::test_a_note_from_elsewhere_cannot_have_a_file_outside_removed",
    ],
    "another machine": ["preview/test_server.py::test_it_is_bound_to_the_loopback_address_alone"],
    "another program or person on this machine": [
        "preview/test_server.py::test_who_does_not_know_the_secret_gets_nothing",
        "preview/test_server.py::test_each_server_draws_a_secret_of_its_own",
    ],
    "a page of the web that is open in your browser": [
        "preview/test_server.py::test_a_foreign_host_is_refused",
        "preview/test_server.py::test_a_foreign_origin_is_refused",
        "preview/test_in_browser.py::test_another_page_of_the_web_can_neither_read_nor_frame_it",
    ],
    "words of a file on such a page": [
        "preview/test_view.py::test_no_word_of_an_item_becomes_markup",
        "table/test_table_page.py::test_words_of_a_file_are_never_markup",
        "preview/test_server.py::test_every_answer_keeps_the_browser_to_these_pages",
    ],
    "requests that are no requests, too large or too many": [
        "table/test_hostile_requests.py::test_none_is_done_and_none_is_told_anything",
        "web/test_guard.py::test_a_body_that_says_no_length_is_counted",
        "preview/test_server.py::test_too_many_at_once_are_turned_away_and_the_others_go_on",
    ],
    "an address or a name that is a path": ["preview/test_server.py::test_no_part_of_an_address_names_a_file"],
    "what is dropped on the page": [
        "table/test_dropped_drawings.py::test_hostile_files_are_refused_or_harmless",
        "tracing/test_hostile_sources.py::test_of_noise_nothing_is_sure",
    ],
    "the answer, to a learner who looks closely": [
        "outputs/test_nothing_given_away.py::test_no_output_gives_anything_away",
        "outputs/test_nothing_given_away.py::test_a_planted_leak_is_caught",
    ],
    "who opens a page": [
        "outputs/test_html_deck.py::test_it_may_ask_nothing_of_any_network_and_runs_its_own_script_alone",
        "drawing/test_svg.py::test_no_font_and_nothing_from_outside_is_asked_for",
    ],
}


def test_each_line_of_the_page_is_held_and_no_other() -> None:
    told = re.findall(r"^\| \*([^*]{1,200})\* \|", PAGE.read_text(encoding="utf-8"), flags=re.MULTILINE)
    assert told == list(HELD_BY)


@pytest.mark.parametrize("test", sorted({each for tests in HELD_BY.values() for each in tests}))
def test_what_holds_it_is_there(test: str) -> None:
    file, _, name = test.partition("::")
    tree = ast.parse((TESTS / file).read_text(encoding="utf-8"))
    assert name in {each.name for each in tree.body if isinstance(each, ast.FunctionDef)}


ITEM = """\
item: {name}
base:
  corners: [[0, 0], [4, 0], [4, 2], [2, 2], [2, 4], [0, 4]]
pieces:
  - piece: flag
    does: join
    corners: [[0, 0], [2, 0], [0, 2]]
    turned: 135
    side: [[0, 0], [2, 0]]
    meets: [[4, 0], [4, 2]]
options: {{make: 4, seed: 7}}
"""


@pytest.mark.parametrize("name", ["../away", "/tmp/away", "a/b", "..", "c:away", "a\\\\b", '"a\\0b"'])
def test_a_name_that_is_a_path_is_refused(run, tmp_path: Path, name: str) -> None:  # type: ignore[no-untyped-def]
    path = tmp_path / "in" / "torn-block.yaml"
    path.parent.mkdir()
    path.write_text(ITEM.format(name=name), encoding="utf-8")
    result = run("build", str(path), "--only", "description", "--to", str(tmp_path / "out"))
    assert result.code == 2 and "torn-block.yaml:1: item" in result.err
    assert {each.name for each in tmp_path.rglob("*")} <= {"in", "torn-block.yaml", "out"}


def test_a_tag_runs_nothing(run, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    path, mark = tmp_path / "torn-block.yaml", tmp_path / "ran"
    path.write_text(ITEM.format(name=f'!!python/object/apply:os.system ["touch {mark}"]'), encoding="utf-8")
    result = run("check", str(path))
    assert result.code == 2 and "torn-block.yaml:1: item" in result.err and not mark.exists()


def test_references_within_references_are_bounded(run, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    lines = ["a0: &a0 [1, 1, 1, 1, 1, 1, 1, 1, 1, 1]"]
    lines += [
        f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 10)}]" for n in range(1, 10)
    ]  # 10,000,000,000 values if written out
    path = tmp_path / "torn-block.yaml"
    path.write_text(ITEM.format(name="torn-block") + "\n".join(lines) + "\n", encoding="utf-8")
    result = run("check", str(path))
    assert result.code == 2 and "torn-block.yaml" in result.err
