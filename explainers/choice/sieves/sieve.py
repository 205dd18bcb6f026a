"""What every sieve has: the options that it rules out together, what is marked, and its voices."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Self

from ...geometry.outline import Outline
from ...geometry.rigid_motion import Point, Ring, Side
from ...geometry.tolerance import RELATIVE
from ...words.messages import message, say
from ...words.names import list_in_words, number_in_words, sentence_case
from .. import fingerprint
from ..fact import Fact, Stated

__all__ = ["SieveFact", "SieveMarks", "Sifted", "fitting", "out", "together"]


@dataclass(frozen=True, slots=True)
class Sifted:
    """An option that a sieve rules out, laid on the outline: in its coordinates, without needless corners."""

    label: str
    outline: Outline
    figure: float  # what the feature comes to, such as how many there are


@dataclass(frozen=True, slots=True, kw_only=True)
class SieveMarks:
    """What is counted or compared, in the coordinates of the outline."""

    corners: tuple[Point, ...] = ()
    sides: tuple[Side, ...] = ()
    rings: tuple[Ring, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class SieveFact(Fact, ABC):
    """One feature, by which several options are ruled out at once."""

    outline: Outline  # without needless corners
    there: float  # what the feature comes to for the outline
    options: tuple[Sifted, ...]  # those that are ruled out, in the order of the file

    @property
    def labels(self) -> tuple[str, ...]:
        """Of the options that are ruled out."""
        return tuple(option.label for option in self.options)

    def only(self, labels: Iterable[str]) -> Self:
        """The same sieve, told of these options alone."""
        wanted = frozenset(labels)
        return replace(self, options=tuple(option for option in self.options if option.label in wanted))

    def holds(self) -> bool:
        """Found anew, the feature comes to what is said, and for every option to something that is seen to differ."""
        there = self.anew(self.outline.simplified(self.tolerance))
        if not self.options or not _is(there, self.there):
            return False
        found = [self.anew(option.outline.simplified(self.tolerance)) for option in self.options]
        return all(_is(figure, option.figure) for figure, option in zip(found, self.options, strict=True)) and all(
            self.is_seen_to_differ(self.there, option.figure) for option in self.options
        )

    def stated(self) -> Stated:
        """All the outlines."""
        outlines = (self.outline, *(option.outline for option in self.options))
        return Stated(outlines=outlines, label=self.labels[0] if len(self.options) == 1 else "")

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """What is compared, of whom, and what it comes to for each."""
        each = tuple((option.label, fingerprint.length(option.figure)) for option in self.options)
        return ("sieve", *self.compared, fingerprint.length(self.there), each)

    @property
    @abstractmethod
    def stage(self) -> str:
        """Which sieve it is, as the ids of steps name it."""

    @property
    @abstractmethod
    def compared(self) -> tuple[str, ...]:
        """What is compared, in words that never change."""

    @property
    @abstractmethod
    def effort(self) -> float:
        """How hard it is to see, beside the others: judgement, no source."""

    @abstractmethod
    def anew(self, outline: Outline) -> float | None:
        """What the feature comes to, by a way of its own; None where it is not clear at a glance."""

    @abstractmethod
    def is_seen_to_differ(self, one: float, other: float) -> bool:
        """Whether two such figures differ by so much that it is seen."""

    @abstractmethod
    def marks_on(self, outline: Outline) -> SieveMarks:
        """What is marked on the outline, or on one of the options."""

    @abstractmethod
    def looks_for(self) -> str:
        """The line over the picture while it is looked for: it tells of no option."""

    @abstractmethod
    def heading(self) -> str:
        """The line over the picture once options are ruled out."""

    @abstractmethod
    def invitation(self, *, is_first: bool) -> tuple[str, ...]:
        """What to look at, and for the first why it comes first."""

    @abstractmethod
    def of_outline(self) -> str:
        """What it comes to for the outline."""

    def of_outline_in_full(self) -> str:
        """The same where it has not been said what is looked at."""
        return self.of_outline()

    @abstractmethod
    def of_options(self) -> tuple[str, ...]:
        """What it comes to for the options."""

    @abstractmethod
    def of_choice(self, *, outline_given: bool) -> tuple[str, ...]:
        """To a learner who has chosen one: ``only`` that option.

        outline_given : as `Question.outline_given`
        """

    def in_marking(self) -> str:
        """On sheets, beside the letter of an option: ``only`` that option, with no picture."""
        return " ".join((*self.invitation(is_first=False), self.of_outline_in_full(), say("Here it is not so.")))

    def as_line(self) -> str:
        """What is compared, and what it comes to for whom."""
        figures = ", ".join(f"{option.label} {option.figure:.4g}" for option in self.options)
        return f"{' '.join(self.compared)}: the outline {self.there:.4g}, option {figures}"


def _is(found: float | None, said: float) -> bool:
    return found is not None and abs(found - said) <= RELATIVE * max(1.0, abs(said))


_HEADING_LENGTH = 34  # as ``sentences.lesson.HEADING_LENGTH``, which this room cannot ask

_OUT_ONE = (
    message("So {label} is out."),
    message("That rules out {label}."),
    message("{label} cannot be right."),
)
# Of those that the sentence before has named; of two, then of more.
_OUT_BOTH = (
    message("So both are out."),
    message("That rules out both."),
    message("Neither can be right."),
)
_OUT_ALL = (
    message("So all {number} are out."),
    message("That rules out all {number}."),
    message("None of them can be right."),
)


def out(labels: Sequence[str], number: int) -> str:
    """That options are ruled out, in another way each time.

    number : how many times something has been ruled out before
    """
    if len(labels) == 1:
        return say(_OUT_ONE[number % len(_OUT_ONE)], label=labels[0])
    if len(labels) == 2:
        return say(_OUT_BOTH[number % len(_OUT_BOTH)])
    return say(_OUT_ALL[number % len(_OUT_ALL)], number=number_in_words(len(labels)))


def fitting(longer: str, plain: str) -> str:
    """The longer of two headings where there is room for it."""
    return longer if len(longer) <= _HEADING_LENGTH else plain


def together(clauses: Sequence[str]) -> str:
    """Clauses as one sentence."""
    return sentence_case(f"{list_in_words(clauses)}.")
