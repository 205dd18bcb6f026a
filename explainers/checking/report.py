"""What is true of checked files as plain values, for a program: what `explainers check --json` prints."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ..errors import Fault
from .items import Outcome, Repeated
from .lessons import LessonOutcome
from .series import SeriesOutcome, series_notes

if TYPE_CHECKING:
    from ..choice.certificate import Certificate, OptionProof
    from ..choice.model import Warning_
    from ..choice.series_survey import Survey

__all__ = ["certificate_json", "item_json", "lesson_json", "refusal_json", "series_json"]


def refusal_json(outcome: Outcome) -> dict[str, Any]:
    """A refused item: its name, its faults."""
    return {"item": outcome.name, "errors": _faults_json(outcome.faults, outcome.path)}


def item_json(outcome: Outcome) -> dict[str, Any]:
    """One item: whether it is sound, its key, and a reason for each option; or its faults."""
    if outcome.solution is None:
        return refusal_json(outcome)
    from ..choice.words.certificate import PAUSE_SOURCE
    from ..choice.words.report import because_lines, reason_in_brief

    return {
        "item": outcome.solution.item.name,
        "sound": outcome.solution.sound,
        "key": outcome.solution.key,
        "because": list(because_lines(outcome.solution)),
        "options": [
            {
                "label": verdict.label,
                "same": verdict.same,
                "mirrored": verdict.mirrored,
                "reason": reason_in_brief(verdict),
            }
            for verdict in outcome.solution.verdicts
        ],
        "closing": [
            {"field": closing.path, "side": closing.side, "length": closing.length, "asked": closing.asked}
            for closing in outcome.solution.item.closing
        ],
        "warnings": [_warning_json(warning) for warning in outcome.solution.warnings],
        "pause": {"seconds": outcome.solution.suggested_pause_s, "estimate": True, "source": PAUSE_SOURCE},
    }


def certificate_json(outcome: Outcome, repeated: Repeated | None) -> dict[str, Any]:
    """One item's certificate as plain values; or its faults."""
    if outcome.solution is None:
        return refusal_json(outcome)
    from ..choice.certificate import certificate
    from ..choice.printed import OPTION_MM
    from ..choice.words.certificate import PAUSE_SOURCE
    from ..choice.words.report import because_lines

    made = certificate(outcome.solution)
    solution = made.solution
    return {
        "item": solution.item.name,
        "sound": solution.sound,
        "key": solution.key,
        "because": list(because_lines(solution)),
        "holds": made.holds,
        "outline_mm": OPTION_MM,
        "options": [_option(proof) for proof in made.proofs],
        "symmetry_order": solution.symmetry_order,
        "warnings": [_warning_json(warning) for warning in solution.warnings],
        "accepted": _accepted(made),
        "features": made.features.figures(),
        "pause": {
            "seconds": made.pause_s,
            "estimate": True,
            "source": PAUSE_SOURCE,
            "parts": {part.work: round(part.seconds, 3) for part in made.features.pause_parts()},
        },
        "same_question_as": None if repeated is None else _same(repeated),
    }


def _option(proof: OptionProof) -> dict[str, Any]:
    from ..choice.words.certificate import difference_in_brief

    shown: dict[str, Any] = {"label": proof.verdict.label, "same": proof.verdict.same}
    if proof.alignment is not None:
        shown["alignment"] = asdict(proof.alignment)
    if proof.difference is not None:
        slip = proof.difference.slip
        shown["difference"] = {
            "reason": difference_in_brief(proof.verdict, proof.difference),
            "gap_mm": proof.difference.gap_mm,
            "slips": [] if slip is None else [{"slip": case.slip, "piece": case.subject} for case in slip.cases],
        }
    return shown


def _accepted(made: Certificate) -> list[dict[str, Any]]:
    return [
        {
            "kind": accepted.entry.kind,
            "reason": accepted.entry.reason,
            "warnings": [_warning_json(warning) for warning in accepted.warnings],
        }
        for accepted in made.accepted
    ]


def _same(earlier: Repeated) -> dict[str, Any]:
    return {"item": earlier.name, "file": str(earlier.path), "flipped": earlier.flipped}


def lesson_json(outcome: LessonOutcome) -> dict[str, Any]:
    """A lesson that is refused."""
    return {"lesson": outcome.path.stem, "errors": _faults_json(outcome.faults, outcome.path)}


def series_json(outcome: SeriesOutcome, survey: Survey) -> Mapping[str, Any]:
    """A series for a program; or its faults."""
    if outcome.series is None:
        return {"series": outcome.path.stem, "errors": _faults_json(outcome.faults, outcome.path)}
    return {
        "series": outcome.series.name,
        "file": str(outcome.path),
        "lessons": [
            {
                "lesson": lesson.name,
                "number": outcome.series.number_of(file),
                "file": str(file),
                "items": [{"file": str(part.show), "as": part.manner.value} for part in lesson.parts],
            }
            for file, lesson in outcome.lessons
        ],
        "asked_twice": [
            {
                "item": twice.shown.solution.item.name,
                "lesson": twice.shown.lesson,
                "earlier_item": twice.earlier.solution.item.name,
                "earlier_lesson": twice.earlier.lesson,
                "flipped": twice.flipped,
            }
            for twice in survey.asked_twice
        ],
        "turns_never": [kind.value for kind in survey.turns_never],
        "slips_never": list(survey.slips_never),
        "difficulty": {
            "in_order": not survey.easier,
            "estimate": True,
            "items": [
                {"item": shown.solution.item.name, "lesson": shown.lesson, "seconds": round(seconds, 3)}
                for shown, seconds in survey.work_s
            ],
            "falls_at": [
                {"item": fall.shown.solution.item.name, "lesson": fall.shown.lesson} for fall in survey.easier
            ],
        },
        "notes": list(series_notes(outcome, survey)),
        "errors": _faults_json(outcome.faults, outcome.path),
    }


def _faults_json(faults: Iterable[Fault], path: Path) -> list[dict[str, Any]]:
    """Faults as plain values.

    path : the file that those speak of which name none
    """
    return [
        {
            "file": fault.file or str(path),
            "line": fault.line,
            "field": fault.field,
            "message": fault.message,
            "fix": fault.fix,
        }
        for fault in faults
    ]


def _warning_json(warning: Warning_) -> dict[str, str]:
    """One warning, with how to mend it where one thing is nearly always right."""
    told = {"kind": warning.kind, "field": warning.field, "message": warning.message}
    return {**told, "fix": warning.fix} if warning.fix else told
