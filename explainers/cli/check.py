"""`explainers check`: is each item sound, why is each wrong option wrong, and does a lesson or series hang together?"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from .door import at_the_door
from .exit_codes import worst

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
    """Prove that one option is right, say why each other is wrong."""
    from json import dumps

    from ..item.told_once import ToldOnce
    from .certificate_report import certificate_json, show_certificate, show_footnotes, show_repeats, with_repeats
    from .check_report import as_json, show
    from .lesson_outcomes import lesson_json, lessons_opened, seconds_of
    from .outcomes import solved_each
    from .series_outcomes import items_meant, series_json, show_series, surveyed
    from .streams import say
    from .telling import tell_faults, tell_length, tell_warnings, tell_words_in

    found = []
    opened, lessons = lessons_opened(items)
    files, all_series = items_meant(opened)
    for outcome, repeated in with_repeats(solved_each(files)):
        found.append((outcome, repeated))
        if json:
            say(dumps(certificate_json(outcome, repeated) if certificate else as_json(outcome)))
        elif certificate:
            if len(found) > 1:
                say("")
            show_certificate(outcome)
    outcomes = [outcome for outcome, _ in found]
    if not json:
        if certificate:
            say("")
            show_footnotes()
        else:
            show(outcomes)
        show_repeats(found)
    told = ToldOnce()
    for series in all_series:
        survey = surveyed(series, outcomes)
        if json:
            say(dumps(series_json(series, survey)))
        else:
            show_series(series, survey)
        tell_faults(told.rest(series.path, series.faults))
    for lesson in lessons:
        if json and lesson.faults:
            say(dumps(lesson_json(lesson)))
        tell_faults(told.rest(lesson.path, lesson.faults))
        if not json and not certificate:
            tell_length(lesson.path, seconds_of(lesson))
    for outcome in outcomes:
        tell_faults(told.rest(outcome.path, outcome.faults))
        if not json and not certificate and outcome.solution is not None:
            tell_warnings(outcome.path, [outcome.solution])
    if not json:
        tell_words_in([*items, *(file for series in all_series for file, _ in series.lessons)])
    codes = [outcome.code for outcome in outcomes]
    return worst([*codes, *(lesson.code for lesson in lessons), *(series.code for series in all_series)])
