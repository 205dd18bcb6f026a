"""How well one recording without a log is split: demo lessons spoken by machines, with faults planted in them.

    .venv/bin/python tests/bench/split_recordings.py              # about 10 minutes
    .venv/bin/python tests/bench/split_recordings.py --seeds 100-105 --voices 2 --kinds retakes,added

Prices were set on first-blocks and cutting-out in the first two voices with seeds below 10; seeds from 100 on,
looking-closely and the third voice are kept for measuring. *Good* steps are those that are found where they are and
have no fault planted in them; a planted fault is *told* where the step is found where it is, or it or a neighbour is
listed, or speech near it is reported as nobody's.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Callable
from importlib import import_module
from pathlib import Path
from time import perf_counter

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "voice"), str(ROOT / "tests")]

from spoken_lessons import KINDS, counted, lesson_timeline, planted, recorded

from explainers.storyboard.spoken import phrases_to_say
from explainers.voice.matching import DividedRecording, Spoken
from explainers.voice.speech import stretches

LESSONS = ("first-blocks", "cutting-out", "looking-closely")


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--seeds", default="100-101")
    parser.add_argument("--voices", default="0,1,2")
    parser.add_argument("--lessons", default=",".join(LESSONS))
    parser.add_argument("--kinds", default=",".join(KINDS).replace("all, -50 dB", "all"))
    parser.add_argument("--matching", default="explainers.voice.matching", help="module whose match is measured")
    given = parser.parse_args()
    match: Callable[..., DividedRecording] = import_module(given.matching).match
    first, _, last = given.seeds.partition("-")
    for kind, (manner, faults) in KINDS.items():
        if kind.partition(", ")[0] not in given.kinds.split(","):
            continue
        count: Counter[str] = Counter()
        start = perf_counter()
        for lesson in given.lessons.split(","):
            steps = lesson_timeline(lesson).storyboard.steps
            expected = [Spoken(step_id=s.id, phrases=phrases_to_say(s.narration)) for s in steps if s.narration]
            for voice in map(int, given.voices.split(",")):
                for seed in range(int(first), int(last or first) + 1):
                    where = planted(steps, seed, faults)
                    made = recorded(steps, voice, seed * 7 + voice, **manner, **where)
                    divided = match(expected, stretches(made.sound))
                    counted(divided, made, {step_id for ids in where.values() for step_id in ids}, count)
        print(
            f"{kind:<13} boundaries {count['close'] / count['boundaries']:7.2%}   "
            f"good listed {count['good listed'] / count['good']:6.2%} of {count['good']}   "
            f"wrong {count['wrong']}, unlisted {count['wrong'] - count['wrong listed']}   "
            f"planted {count['planted']}, told {count['told']}   {perf_counter() - start:.0f} s",
            flush=True,
        )


if __name__ == "__main__":
    main()
