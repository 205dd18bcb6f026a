"""Step ids over random edits: pieces and options come, go and change places, and no other step is called otherwise."""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from dataclasses import replace

from strategies import random_case

from explainers.choice.question import Option
from explainers.choice.sieves.sieve import SieveFact
from explainers.errors import ExplainersError
from explainers.geometry.outline import Outline
from explainers.kinds.join_and_cut.model import Does, Item, Piece
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.lesson.planner import plan_item

BASE = Outline.of(((0.0, 0.0), (9.0, 0.0), (9.0, 6.0), (0.0, 6.0)))


def patch(
    name: str, does: Does, meets: tuple[tuple[float, float], tuple[float, float]], height: float, mark: str
) -> Piece:
    """A right triangle on a stretch of one of the base's sides; no two of these come near each other."""
    length = abs(meets[1][0] - meets[0][0]) + abs(meets[1][1] - meets[0][1])
    side = ((0.0, 0.0), (length, 0.0))
    return Piece(
        name=name, does=does, corners=(*side, (0.0, height)), side=side, meets=meets, mark=mark, turned=20.0
    )  # fmt: skip


PIECES = (
    patch("flag", Does.JOIN, ((1.0, 0.0), (4.0, 0.0)), 2.0, "K"),
    patch("dart", Does.CUT, ((6.0, 0.0), (8.0, 0.0)), 1.0, "R"),
    patch("wing", Does.JOIN, ((9.0, 1.0), (9.0, 5.0)), 3.0, "T"),
    patch("bite", Does.CUT, ((1.0, 6.0), (3.5, 6.0)), 1.5, "X"),
)
RESULT = Option(turned=90.0)
OPTIONS = (
    Option(slip="flipped", turned=30.0),
    *(Option(slip=slip, slip_subject=piece.name) for slip in ("left-out", "piece-flipped") for piece in PIECES),
    Option(corners=((0, 0), (5, 0), (5, 2), (2, 2), (2, 6), (0, 6))),
    Option(corners=((0, 0), (6, 0), (6, 4), (4, 4), (4, 2), (0, 2)), turned=45.0),
    Option(corners=((0, 0), (4, 0), (0, 5)), name="three-corners"),
)
SIEVES = ("corners", "holes", "inward", "angles", "neighbours", "lengths")
OF_OPTIONS = re.compile(r"\.sift\.[a-z]+$|\.rule-out$")  # which options are sifted depends on which others there are
OF_A_PIECE = {Does.JOIN: ("marks", "turn", "meet", "join"), Does.CUT: ("marks", "turn", "meet", "cut")}
ALWAYS = ("opening", "task", "close-up", "ahead", "outline", "options", "answer", "remember")


def variant(rng: random.Random) -> Item:
    """Some of the pieces and of the options that they allow, in any order, under any title."""
    pieces = rng.sample(PIECES, rng.randint(1, len(PIECES)))
    names = {piece.name for piece in pieces}
    possible = [option for option in OPTIONS if option.slip_subject is None or option.slip_subject in names]
    options = [RESULT, *rng.sample(possible, rng.randint(2, min(5, len(possible))))]
    rng.shuffle(options)
    title = rng.choice(("The patch block", "Another title", "Patches"))
    return Item(name="patch-block", title=title, base=BASE, pieces=tuple(pieces), options=tuple(options))


def test_a_step_is_called_after_what_it_shows_in_every_variant(cases: Callable[[int, int], int]) -> None:
    wanted = cases(4, 300)
    codes: dict[Option, str] = {}
    told = 0
    for seed in range(20 * wanted):
        item = variant(random.Random(seed))
        try:
            solution = solve(item)
            steps = plan_item(solution).steps
        except ExplainersError:  # two options alike, or one that differs by too little: a teacher is told
            continue
        for option, verdict in zip(item.options, solution.verdicts, strict=True):
            assert codes.setdefault(option, verdict.code) == verdict.code
        expected = {f"patch-block.{name}" for name in ALWAYS}
        expected |= {f"patch-block.{piece.name}.{step}" for piece in item.pieces for step in OF_A_PIECE[piece.does]}
        sieves = [(step.stage, fact) for step in steps for fact in step.facts if isinstance(fact, SieveFact)]
        sifted = {label: stage for stage, fact in sieves for label in fact.labels}
        assert set(sifted.values()) <= {f"sift.{name}" for name in SIEVES}
        expected |= {f"patch-block.{stage}" for stage in sifted.values()}
        expected |= {
            f"patch-block.option-{codes[option]}.{'keep' if option == RESULT else 'rule-out'}"
            for option, verdict in zip(item.options, solution.verdicts, strict=True)
            if verdict.label not in sifted
        }
        assert sorted(step.id for step in steps) == sorted(expected)
        told += 1
        if told == wanted:
            break
    assert told == wanted
    assert len(set(codes.values())) == len(codes)


def ids_of(item: Item) -> list[str]:
    return [step.id for step in plan_item(solve(item)).steps]


def test_an_edit_of_a_generated_item_changes_no_other_steps_id(cases: Callable[[int, int], int]) -> None:
    edits = 0
    for seed in range(cases(2, 300)):
        rng = random.Random(seed)
        item = random_case(seed).item
        wrong = [option for option in item.options if option.corners is not None or option.slip is not None]
        shuffled = list(item.options)
        rng.shuffle(shuffled)
        gone = rng.choice(wrong)
        fewer = tuple(option for option in item.options if option is not gone)
        last = item.pieces[-1].name
        kept = tuple(option for option in item.options if option.slip_subject != last)
        try:
            before = ids_of(item)
            assert sorted(ids_of(replace(item, options=tuple(shuffled), title="Renamed"))) == sorted(before)
            edits += 1
            if len(fewer) >= 3:
                after = ids_of(replace(item, options=fewer))
                # With one option less others may be sifted together: steps come and go, none is called otherwise.
                assert [name for name in after if not OF_OPTIONS.search(name)] == [
                    name for name in before if not OF_OPTIONS.search(name)
                ]
                codes = {verdict.code for verdict in solve(item).verdicts if not verdict.same}
                assert {name for name in after if name.endswith(".rule-out")} <= {
                    f"{item.name}.option-{code}.rule-out" for code in codes
                }
                edits += 1
            if len(item.pieces) > 1 and len(kept) >= 3:
                # The edit undone is a piece more: it changes what every option made from the result looks like.
                after = ids_of(replace(item, pieces=item.pieces[:-1], options=kept))
                assert {name for name in after if not OF_OPTIONS.search(name)} <= set(before)
                edits += 1
        except ExplainersError:
            continue
    assert edits > 1


def test_the_right_options_code_cannot_be_learned() -> None:
    """It is another one in every item, so that a file's name never tells."""
    item = variant(random.Random(1))
    codes = set()
    for name in ("one-block", "two-block", "three-block"):
        solution = solve(replace(item, name=name))
        codes |= {verdict.code for verdict in solution.verdicts if verdict.same}
    assert len(codes) == 3
