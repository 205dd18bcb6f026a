"""The storyboard: what is shown, said and asked, step by step, as plain values. No seconds of a clip in here.

A step is a row of beats: stills, and motions between them. Every motion stands between the still it starts from and
the still it ends in, so that what is seen when it stops is exactly what is held.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from ..choice.fact import Fact
from ..figure.model import Figure
from ..figure.motion import Motion
from ..figure.subject import Subject, Thing
from ..sentences.sheets import CutOutWords
from ..style import Verb
from .doing import Choice, Handling, Loose

__all__ = ["PAUSE", "TASK", "Beat", "Imprint", "Step", "Still", "Storyboard"]

# Stages that others ask for. A stage is an open name: every kind of question has its own.
TASK = "task"  # what is to be done is told
PAUSE = "pause"  # learners try; the answers to it come after it


_OF_CARD = 2  # beats: the card, and the motion from it


@dataclass(frozen=True, slots=True, kw_only=True)
class Still:
    """A figure that is held."""

    figure: Figure
    hold_s: float | None = None  # exactly this long, as in a countdown; None: as long as the words need
    least_s: float = 0.0  # at least this long before it moves, such as a card that is read


Beat = Still | Motion


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing said over one picture, or over a motion from one picture to the next.

    stage     : which part of the telling it is, such as "task", "turn", "keep" or "opening"
    item      : the name of the item that it tells; "" for what stands round all items of a lesson
    lesson    : of a step without an item: the name of what it opens or closes; "" for any other
    subject   : the piece (by its name) or the option (by its code) that it is about; None where it is about neither
    reveals   : whether it tells of the solution, so that learners may see it only once they have tried
    chapter   : title of the chapter it belongs to; steps of one chapter stand together; neutral before the solution
    heading   : the line at the top of the stage, and the title of its slide; it may give a verdict
    card      : the heading over the card with which the step begins, a still of its own; "" where it begins with none
    heading_before : the line until the last motion of the step, where the heading would give away how it ends
    beats     : starts and ends with a Still; a Motion stands between its start and its end
    narration : the sentences spoken, in order; the captions are made of the same words; () for a silent step
    note      : more for the teacher: what to point at, what to ask
    facts     : what the sentences are made from
    teachers_own : True where the words are the teacher's, not the tool's
    goes_on   : whether it takes up the very picture of the step before, so that both may be moments of one slide
    handling  : the piece of the last picture that a learner may lay by hand, if any
    choice    : the options that a learner may choose from while the step lasts, if any
    loose     : what of the last picture a learner may move about freely, as cut-outs on paper
    """

    stage: str
    item: str = ""
    lesson: str = ""
    subject: Subject | None = None
    reveals: bool = True
    chapter: str
    heading: str
    card: str = ""
    heading_before: str = ""
    beats: tuple[Beat, ...]
    narration: tuple[str, ...]
    note: str = ""
    facts: tuple[Fact, ...] = ()
    teachers_own: bool = False
    goes_on: bool = False
    handling: Handling | None = None
    choice: Choice | None = None
    loose: tuple[Loose, ...] = ()

    def __post_init__(self) -> None:
        if self.item and self.lesson:
            raise ValueError(f"step {self.id!r} is of an item and of none")
        if not self.beats or not isinstance(self.beats[0], Still) or not isinstance(self.beats[-1], Still):
            raise ValueError(f"step {self.id!r} must start and end with a still")
        for before, beat, after in zip(self.beats, self.beats[1:], self.beats[2:], strict=False):
            if isinstance(beat, Motion) and not (
                isinstance(before, Still)
                and isinstance(after, Still)
                and before.figure == beat.start
                and after.figure == beat.end
            ):
                raise ValueError(f"step {self.id!r}: a motion must stand between its own start and end")

    @property
    def id(self) -> str:
        """Made from content, never from position, such as "corner-block.flag.turn"; teachers write it in files."""
        names = (self.item or self.lesson, _called(self.subject), self.stage)
        return ".".join(name for name in names if name)

    @property
    def belongs_to(self) -> tuple[str, ...]:
        """What it is a step of, named as in its id: the item, and the piece or option that it is about."""
        names = (self.item, _called(self.subject))
        return tuple(dict.fromkeys(filter(None, (self.item, ".".join(filter(None, names))))))

    @property
    def neutral_id(self) -> str:
        """The id for names that learners read: all steps about options are called alike, so that it tells nothing."""
        is_of_option = self.subject is not None and self.subject.thing == Thing.OPTION
        return f"{self.item}.{Thing.OPTION}" if is_of_option else self.id

    @property
    def stills(self) -> tuple[Figure, ...]:
        """Every figure that is held, in order."""
        return tuple(beat.figure for beat in self.beats if isinstance(beat, Still))

    @property
    def picture(self) -> Figure:
        """The one figure that stands for the step on a slide: what it ends in."""
        return self.stills[-1]

    @property
    def headings(self) -> tuple[str, ...]:
        """The line at the top over each of its beats; a motion ends under the one of the still that follows."""
        motions = [number for number, beat in enumerate(self.beats) if isinstance(beat, Motion)]
        if self.card:
            return (self.card,) * _OF_CARD + (self.heading,) * (len(self.beats) - _OF_CARD)
        if not self.heading_before or not motions:
            return (self.heading,) * len(self.beats)
        return (self.heading_before,) * (motions[-1] + 1) + (self.heading,) * (len(self.beats) - motions[-1] - 1)

    def with_card(self, card: Figure, heading: str, *, seconds: float, fade_s: float) -> Step:
        """The step begun with a card, which melts into its first picture while the first words are said.

        Its own beats stay as they are, so that it takes no longer where its words do.
        """
        first = self.stills[0]
        fade = Motion(start=card, end=first, seconds=fade_s, after_sentences=0)
        return replace(self, card=heading, beats=(Still(figure=card, least_s=seconds), fade, *self.beats))

    def card_alone(self) -> Step:
        """The card with which the step begins as a step of its own, for slides; it says nothing."""
        (card, *_) = self.beats
        return Step(
            stage=f"{self.stage}-card",
            item=self.item,
            reveals=self.reveals,
            chapter=self.chapter,
            heading=self.card,
            beats=(card,),
            narration=(),
        )

    def without_card(self) -> Step:
        """The step as it is without the card that it begins with."""
        return replace(self, card="", beats=self.beats[_OF_CARD:]) if self.card else self

    @property
    def pause_s(self) -> float:
        """Seconds given to the learner: the stills of fixed length."""
        return sum(beat.hold_s or 0.0 for beat in self.beats if isinstance(beat, Still))


@dataclass(frozen=True, slots=True, kw_only=True)
class Imprint:
    """What is printed with a lesson when it is published; "" for what nobody has written."""

    series: str = ""  # its title
    number: int | None = None  # of the lesson in it
    credit: str = ""
    licence: str = ""
    about: tuple[str, ...] = ()  # sentences that describe the lesson and give nothing away
    draft: str = ""  # what must be said of the language where no speaker of it has read our words


@dataclass(frozen=True, slots=True, kw_only=True)
class Storyboard:
    """A whole lesson, told."""

    name: str  # what its files are called: the lesson's or item's name, after its number in a series
    title: str
    language: str
    steps: tuple[Step, ...]
    variant: tuple[str, ...] = ()  # the words by which its files differ from the lesson's own, as in their names
    left_out: tuple[
        str, ...
    ] = ()  # of the telling, since the lesson may take only so long; a phrase each, for a teacher
    poster: Figure | None = None  # the one picture that stands for it
    imprint: Imprint = field(default_factory=Imprint)
    verbs: Mapping[str, Verb] = field(default_factory=dict, hash=False)  # those of its theme; see `Theme.verbs`
    page_words: tuple[tuple[str, str], ...] = ()  # (key, text) of what a page lets learners do by hand; see `Handling`
    # (thing, role of its cloth or "") -> what one of several such things is called in a list, with {name} for which.
    things: Mapping[tuple[str, str], str] = field(default_factory=dict, hash=False)
    cut_outs: CutOutWords | None = None  # what is said of the sheets to cut out; None where that is not known

    def __post_init__(self) -> None:
        ids = [step.id for step in self.steps]
        if len(set(ids)) != len(ids):
            twice = sorted({step_id for step_id in ids if ids.count(step_id) > 1})
            raise ValueError(f"step ids must be unique, these are not: {', '.join(twice)}")


def _called(subject: Subject | None) -> str:
    """What a subject is called in an id: an option by its kind too, since its code alone says nothing to a reader."""
    if subject is None or not subject.name:
        return ""
    return f"{subject.thing}-{subject.name}" if subject.thing == Thing.OPTION else subject.name
