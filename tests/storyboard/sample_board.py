"""A small storyboard made by hand, for tests of timing and writers: no item, no solver, no planner."""

from __future__ import annotations

import math
from dataclasses import replace

from explainers.figure.model import Area, Arrow, Circle, Dots, Entry, Figure, Label, Lines, Role, moved_entry
from explainers.figure.motion import Glide, Motion
from explainers.figure.subject import Subject
from explainers.geometry.rigid_motion import Point, Ring, Similarity
from explainers.storyboard.model import Step, Still, Storyboard

__all__ = ["CLOTH_RING", "asked", "board", "countdown", "one_step", "sheet", "slid", "words_board"]

INK = "#1F2A37"
PAPER = "#FAF6EC"
# A ring of cloth: a block with a square hole.
CLOTH_RING: tuple[Ring, ...] = (
    ((1.5, 2.5), (7.5, 2.5), (7.5, 6.5), (1.5, 6.5)),
    ((3.5, 3.5), (3.5, 5.5), (5.5, 5.5), (5.5, 3.5)),
)


def arc(centre: Point, radius: float, from_deg: float, to_deg: float) -> tuple[Point, ...]:
    """Points along an arc."""
    angles = [math.radians(from_deg + (to_deg - from_deg) * k / 24) for k in range(25)]
    return tuple((centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in angles)


def flag() -> tuple[Entry, ...]:
    """A triangle to join: cloth, dots, a marked side, its letter, its word."""
    corners = ((11.0, 3.0), (14.0, 3.0), (11.0, 6.0))
    dots = tuple((11.25 + 0.4 * i, 3.25 + 0.4 * j) for i in range(7) for j in range(7 - i) if i + j < 6)
    return (
        Area(id="flag.cloth", group="flag", role="join", alt="The flag, a triangle to join, dotted",
             rings=(corners,), fill="#DCEBDD", stroke=INK, width=0.04),
        Dots(id="flag.dots", group="flag", role="join", centres=dots, radius=0.05, fill="#2F6F5E"),
        Lines(id="flag.tick", group="flag", role=Role.MARK, segments=(((12.5, 2.9), (12.5, 3.1)),), stroke=INK,
              width=0.05),
        Label(id="flag.letter", group="flag", role=Role.MARK, text="K", at=(12.5, 3.45), size=0.36, colour=INK,
              bold=True),
        Label(id="flag.word", group="flag", role=Role.WORD, text="join", at=(11.6, 4.1), size=0.3, colour=INK),
    )  # fmt: skip


def base() -> tuple[Entry, ...]:
    """A ring of cloth, and a strip to cut away with lines and a dashed outline."""
    strip = ((1.5, 6.5), (7.5, 6.5), (7.5, 7.2), (1.5, 7.2))
    hatch = tuple(((1.6 + 0.3 * k, 6.55), (2.1 + 0.3 * k, 7.15)) for k in range(18))
    return (
        Area(id="table", group="panels", role=Role.PANEL, rings=(((0.4, 1.5), (9.8, 1.5), (9.8, 7.7), (0.4, 7.7)),),
             fill="#FFFFFF", stroke="#B8AE98", width=0.02, rounded=0.25),
        Area(id="base.cloth", group="base", role="base", alt="The base, a square ring with a hole",
             rings=CLOTH_RING, fill="#C9DDE8", stroke=INK, width=0.05),
        Area(id="strip.cloth", group="strip", role="cut", alt="The strip, an oblong to cut away, lined",
             rings=(strip,), fill="#F3DDD3", stroke="#8A3B2E", width=0.05, dash=(0.15, 0.1)),
        Lines(id="strip.lines", group="strip", role="cut", segments=hatch, stroke="#8A3B2E", width=0.03),
        Label(id="base.letter", group="base", role=Role.MARK, text="K", at=(7.9, 4.5), size=0.36, colour=INK,
              bold=True),
    )  # fmt: skip


def sheet(heading: str = "The block", *, more: tuple[Entry, ...] = (), alt: str = "A ring, a strip, a flag") -> Figure:
    """The sheet with everything in it."""
    title = Label(id="heading", group="heading", role=Role.HEADING, text=heading, at=(8.0, 8.3), size=0.5, colour=INK,
                  bold=True)  # fmt: skip
    return Figure(background=PAPER, entries=(title, *base(), *flag(), *more), alt=alt)


def slid(figure: Figure) -> Motion:
    """The flag turns 135 degrees and shifts; the motion ends in its own figure."""
    glide = Glide(group="flag", about=(12.0, 4.0), turn_deg=135.0, by=(-1.0, 1.0))
    lands = glide.at(1.0)
    end = replace(figure, entries=tuple(moved_entry(e, lands) if e.group == "flag" else e for e in figure.entries))
    return Motion(start=figure, end=end, moves=(glide,), seconds=2.25)


def pointed(figure: Figure) -> Figure:
    """With an arc arrow, its degrees, a ring round a corner, a half clear disc and a cross."""
    more = (
        Arrow(id="turn.arrow", group="turn", role=Role.TURN, alt="An arrow turns 135 degrees anticlockwise",
              path=arc((12.0, 4.4), 1.2, 20, 155), stroke="#6B3FA0", width=0.06, head=0.3),
        Label(id="turn.degrees", group="turn", role=Role.TURN, text="135°", at=(12.0, 5.9), size=0.36,
              colour="#6B3FA0"),
        Circle(id="ring", group="ring", role=Role.WRONG, alt="A ring round the upper right corner", centre=(7.5, 6.5),
               radius=0.4, stroke="#B3261E", width=0.06),
        Circle(id="spot", group="spot", role=Role.POINTER, centre=(2.2, 3.2), radius=0.5, fill="#6B3FA0", opacity=0.25),
    )  # fmt: skip
    return replace(figure, entries=figure.entries + more)


def countdown(figure: Figure, stills: int = 6, seconds: float = 30.0) -> tuple[Still, ...]:
    """Stills of equal length in which a clock of stitches empties."""
    return tuple(
        Still(
            figure=replace(
                figure,
                entries=(
                    *figure.entries,
                    Lines(id="clock", group="clock", role=Role.CLOCK, stroke=INK, width=0.06,
                          segments=tuple(((10.5 + 0.4 * k, 1.8), (10.7 + 0.4 * k, 1.8)) for k in range(stills - n))),
                ),
            ),
            hold_s=seconds / stills,
        )
        for n in range(stills)
    )  # fmt: skip


def asked(figure: Figure) -> tuple[Still, ...]:
    """A question that is read out, then a pause."""
    return (Still(figure=figure), *countdown(figure))


def board() -> Storyboard:
    """Two chapters: a worked turn, then a pause."""
    first = sheet("A block with a hole")
    motion = slid(first)
    return Storyboard(
        name="sample-block",
        title="Joining & cutting <blocks>",
        language="en-GB",
        steps=(
            Step(item="sample-block", stage="task", chapter="The block", heading="A block with a hole",
                 beats=(Still(figure=first),),
                 narration=("This is the base, a square ring.", "Join the flag to it & cut the strip away."),
                 note="Point at the letters K."),
            Step(item="sample-block", subject=Subject(thing="piece", name="flag"), stage="turn",
                 chapter="The block", heading="Turn the flag",
                 beats=(Still(figure=first), motion, Still(figure=motion.end), Still(figure=pointed(motion.end))),
                 narration=("The flag turns 135 degrees anticlockwise.",)),
            Step(item="sample-block", stage="quiet", chapter="The block", heading="Look again",
                 beats=(Still(figure=motion.end),), narration=()),
            Step(item="sample-block", stage="pause", chapter="Your turn", heading="Which option is it?",
                 beats=asked(sheet("Which option is it?")),
                 narration=("Which option shows the outline?", "Try it before you go on."), teachers_own=True),
            Step(item="sample-block", stage="end", chapter="Your turn", heading="It is done",
                 beats=(Still(figure=pointed(first)),),
                 narration=("The long side lies on the left of the notch, so the marked sides meet and the two pieces "
                            "of cloth lie on opposite sides of them, which is what a join is.",)),
        ),
    )  # fmt: skip


def one_step(*sentences: str, beats: tuple[object, ...] | None = None) -> Storyboard:
    """A storyboard of one step that says those sentences."""
    shown = (Still(figure=sheet()),) if beats is None else beats
    step = Step(stage="one", chapter="One", heading="One", beats=shown, narration=sentences)  # type: ignore[arg-type]
    return Storyboard(name="one", title="One", language="en", steps=(step,))


def words_board(steps: list[tuple[str, list[str]]]) -> Storyboard:
    """A storyboard of steps that each hold one picture: (chapter, sentences)."""
    figure = sheet()
    return Storyboard(
        name="words",
        title="Words",
        language="en",
        steps=tuple(
            Step(stage=f"step-{n}", chapter=chapter, heading="H", beats=(Still(figure=figure),), narration=tuple(said))
            for n, (chapter, said) in enumerate(steps)
        ),
    )


def shifted(figure: Figure, by: Point) -> Figure:
    """The whole picture moved."""
    motion = Similarity(shift=by)
    return replace(figure, entries=tuple(moved_entry(entry, motion) for entry in figure.entries))
