"""`explainers check`: is each item sound, why is each wrong option wrong, and does a lesson or series hang together?"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from .door import REFUSED, at_the_door, worst

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers check items/corner-block.yaml  one item
  explainers check items/                   all of a folder, to the end
  explainers check items/ --certificate     every proof; what asks the same
  explainers check items/first-blocks.yaml  the items that a lesson shows
  explainers check items/series.yaml        the items of a series as a whole
  explainers check items/ --json            for a program, a line an item

Exit codes: 0 all sound, 1 some unsound, 2 some refused (each fault on its own line)."""

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def check(
    items: Annotated[list[Path], typer.Argument(metavar="ITEM", help="Items, lessons, series, or folders of them.")],
    certificate: Annotated[
        bool, typer.Option("--certificate", help="The whole proof of each item, gaps in millimetres, what is unfair.")
    ] = False,
    json: Annotated[bool, typer.Option("--json", help="One JSON object an item, one a line.")] = False,
) -> int:
    """Is it sound and fair: one right option, and why no other is?"""
    from json import dumps

    from ..checking.items import solved_each, with_repeats
    from ..checking.lessons import lessons_opened, lessons_with_words, review_of, seconds_of, timeline_planned
    from ..checking.report import certificate_json, item_json, lesson_json, series_json
    from ..checking.series import items_meant, surveyed
    from ..intake.workspace import Workspace
    from ..item.faults import ReportedFaults
    from .check_report import CODES, row_of, show, show_certificate, show_footnotes, show_repeats, show_series
    from .reports import tell_faults, tell_left_out, tell_length, tell_word_warnings, warning_lines
    from .streams import complain, say

    workspace, plain = Workspace(), not json and not certificate
    opened, lessons = lessons_opened(items, workspace)
    files, all_series = items_meant(opened, workspace)
    named = [*items, *(file for series in all_series for file, _ in series.lessons)]
    with_words = [] if json else lessons_with_words(named, workspace)
    # What is still to be said of each item, in place of its solution: a folder may hold thousands.
    codes, rows, repeats, still_to_tell, outline_given = [], [], [], [], False
    for number, (outcome, repeated) in enumerate(with_repeats(solved_each(files, workspace))):
        if json:
            say(dumps(certificate_json(outcome, repeated) if certificate else item_json(outcome)))
        elif certificate:
            if number:
                say("")
            show_certificate(outcome)
            outline_given |= outcome.solution is not None and outcome.solution.item.outline_given
        else:
            rows.append(row_of(outcome))
        if repeated is not None:
            repeats.append((outcome.path, repeated))
        codes.append(CODES[outcome.state])
        warned: list[str] = []
        if plain and outcome.solution is not None:
            warned = warning_lines(outcome.path, [outcome.solution], workspace.item(outcome.path).source)
        still_to_tell.append((outcome.path, outcome.faults, warned))
    if not json:
        if certificate:
            say("")
            show_footnotes(outline_given=outline_given)
        else:
            show(rows)
        show_repeats(repeats)
    told = ReportedFaults()
    for series in all_series:
        survey = surveyed(series, workspace)
        if json:
            say(dumps(series_json(series, survey)))
        else:
            show_series(series, survey)
        tell_faults(told.rest(series.path, series.faults))
    reviews = {}
    for lesson in lessons:
        if json and lesson.faults:
            say(dumps(lesson_json(lesson)))
        tell_faults(told.rest(lesson.path, lesson.faults))
        if lesson.path in with_words:
            timeline = timeline_planned(lesson, workspace)
            reviews[lesson.path] = review_of(lesson.path, workspace, timeline)
            seconds = timeline.seconds if timeline is not None else 0.0
        else:
            seconds = seconds_of(lesson, workspace) if plain else 0.0
        if plain:
            tell_length(lesson.path, seconds)
        if plain and seconds:
            tell_left_out(lesson.path, *workspace.solved_lesson(lesson.path))
    for path, faults, warned in still_to_tell:
        tell_faults(told.rest(path, faults))
        for line in warned:
            complain(line)
    for path in with_words:
        review = reviews[path] if path in reviews else review_of(path, workspace)
        if review is not None:
            tell_word_warnings(review)
    refused = [*(lesson.faults for lesson in lessons), *(series.faults for series in all_series)]
    return worst([*codes, *(REFUSED for faults in refused if faults)])
