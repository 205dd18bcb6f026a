"""The options of an item: outlines drawn by hand, outlines made from the result, or a request to make them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ..choice.question import MadeOptions, Option, Question
from ..document import schema_values as schema
from ..document.fields import Faults, Table, duplicates, list_of
from ..document.format import Field, Format, Record, Together
from ..document.nodes import ListNode, MapNode, Node
from ..document.notation import listed, nearest
from ..document.schema_values import Schema
from ..document.values import Value, angle, choice, name, number, whole
from ..document.yaml_text import Written, in_brackets
from ..geometry.rigid_motion import Ring
from .outline_reader import OUTLINE, outline_of
from .ring_reader import NO_START, ONE_WAY, RING_EXAMPLE, WAYS

__all__ = ["DEFAULT_MADE", "MADE", "OptionsDraft", "check_options", "option_format", "options_field"]

LEAST_OPTIONS, MOST_OPTIONS = 3, 6
LEAST_SCALE, MOST_SCALE = 0.01, 100.0
MAX_SEED = 2**31 - 1
DEFAULT_MADE = MadeOptions(make=4, seed=1)


@dataclass(frozen=True, slots=True)
class OptionsDraft:
    """The options as far as they could be read."""

    records: tuple[Record | None, ...] = ()  # None for one that is no option at all
    made: MadeOptions | None = None


_OPTIONS_FIX = "list 3 to 6 options, such as - {outline: result, turned: 90}, or ask for them with {make: 4, seed: 7}"


def check_options(draft: OptionsDraft, subjects: Sequence[str | None], keys: Sequence[Field]) -> tuple[Option, ...]:
    """The options once their slips happen to something that there is, and no two have the same name.

    The result stands in for one that is wrong, so that the others keep their numbers.

    subjects : what a slip may happen to, such as the names of pieces; None for one that could not be read, which may
               then be any
    keys     : as for ``option_format``
    """
    names = [name for name in subjects if name] if None not in subjects else []
    options: list[Option | None] = []
    for record in draft.records:
        fine = record is not None and _happens_to_one_of(names, record, keys) and record.fine
        options.append(_option(record) if record is not None and fine else None)
    for first, again in duplicates([option.name if option else None for option in options]):
        record = draft.records[again]
        assert record is not None
        record.table.faults.add(
            record.table.at("name"),
            f"options number {first + 1} and number {again + 1} have the same name",
            "give each option a name of its own, or leave the names out",
        )
    return tuple(option or Option() for option in options)


def _happens_to_one_of(names: Sequence[str], record: Record, keys: Sequence[Field]) -> bool:
    subject = record["shape"] and record["shape"][-1]
    if not subject or not names or subject in names or "slip" not in record.table:
        return True
    near, key = nearest(subject, names), keys[-1].key
    fix = f"write {near}" if near else f"write {listed(names)}"
    record.table.faults.add(record.table.at(key), f"there is no {key} called {subject}", fix)
    return False


def _option(record: Record) -> Option:
    corners, holes, slip, subject = record["shape"] or (None, (), None, None)  # where its key is only misspelt
    return Option(
        corners=corners,
        holes=holes,
        slip=slip,
        slip_subject=subject,
        turned=record["turned"],
        scale=record["scale"],
        name=record["name"],
    )


_Shape = tuple[Ring | None, tuple[Ring, ...], str | None, str | None]


def _shape(table: Table, made: Sequence[Field]) -> _Shape | None:
    """Corners and holes of an option drawn by hand, or the slip of one made from the result and what it happens to.

    made : the keys of an option made from the result
    """
    way = next((key for key in WAYS if key in table), None)
    if way or ("holes" in table and "outline" not in table):
        _keep_apart(table, [field.key for field in made], way or "holes", "an option drawn by hand")
        drawn = outline_of(table)
        return drawn and (*drawn, None, None)
    if "outline" in table or "slip" in table:
        _keep_apart(table, ("holes", "from"), "outline", "an option made from the result")
        _, slip, *subjects = (field.read_in(table) for field in made)
        for field in made[2:]:
            if field.key in table and "slip" not in table:
                fix = f"add slip: with its name, or take {field.key} out"
                table.faults.add(table.at(field.key), f"a {field.key} is named, but no slip that happens to it", fix)
        return None, (), slip, subjects[0] if subjects else None
    if table.misspelt.intersection(("outline", "slip", *WAYS)):
        return None
    fix = f"add outline: result, or corners: {RING_EXAMPLE}, or walk: or ready:"
    table.faults.add(table.path, "the option has neither outline nor corners", fix)
    return None


def _keep_apart(table: Table, unwanted: Sequence[str], wanted: str, kind: str) -> None:
    for key in unwanted:
        if key in table:
            table.faults.add(table.at(key), f"{kind} cannot have {key} beside {wanted}", f"take out {key} or {wanted}")


def _outline_key(result: str) -> Field:
    return Field(
        "outline",
        choice(("result",)),
        f"result: {result}, changed by slip where there is one",
        due="add outline: result",
        write=lambda option: "result" if option.corners is None else None,
    )


def _any_of(keys: Iterable[str]) -> Schema:
    return {"anyOf": [{"required": [key]} for key in keys]}


def option_format(slip_keys: tuple[Field, ...], result: str) -> Format:
    """One option: drawn by hand, or made from the result.

    slip_keys : what says the slip that changes the result, and what it happens to where a slip needs one
    result    : what the result is called, such as "the finished outline"
    """
    made = (_outline_key(result), *slip_keys)
    needs = {"dependentRequired": {field.key: ["slip"] for field in slip_keys[1:]}} if slip_keys[1:] else {}
    return Format(
        owner="the option",
        fix=_OPTIONS_FIX,
        rows=(
            Together(
                "shape",
                (*made, *OUTLINE.fields),
                read_in=lambda table: _shape(table, made),
                schema={
                    "anyOf": [
                        {"required": ["outline"], "not": _any_of((*WAYS, "from", "holes"))},
                        {"oneOf": ONE_WAY, "not": _any_of(field.key for field in made)},
                    ],
                    **needs,
                    "dependentSchemas": NO_START,
                },
            ),
            Field("turned", angle(), "how it is shown turned: degrees, anticlockwise (default 0)", default=0.0),
            Field("scale", number(LEAST_SCALE, MOST_SCALE), "how large it is shown (default 1)", default=1.0),
            Field("name", name("short-flag"), "a name for step ids; learners never see it"),
        ),
    )


MADE = Format(
    owner="a request for options",
    fix=_OPTIONS_FIX,
    rows=(
        Field(
            "make",
            whole(LEAST_OPTIONS - 1, MOST_OPTIONS - 1),
            "how many wrong options to make (default 4)",
            default=DEFAULT_MADE.make,
            write=lambda made: str(made.make),
        ),
        Field(
            "seed",
            whole(0, MAX_SEED),
            "another number, other options (default 1)",
            default=DEFAULT_MADE.seed,
            write=lambda made: str(made.seed),
        ),
    ),
)


def options_field(slip_keys: tuple[Field, ...], result: str) -> Field:
    """The options of an item, or the request to make them.

    slip_keys, result : as for ``option_format``
    """
    option = option_format(slip_keys, result)

    def read(node: Node, path: str, faults: Faults) -> OptionsDraft:
        if isinstance(node, MapNode):
            record = MADE.read(node, path, faults)
            return OptionsDraft(made=MadeOptions(**record.values) if record is not None and record.fine else None)
        fix = "give 3 to 6 options" if isinstance(node, ListNode) else _OPTIONS_FIX
        items = list_of(node, path, faults, least=LEAST_OPTIONS, most=MOST_OPTIONS, noun="options", fix=fix)
        if items is None:  # too few or too many: what is wrong in them is still worth saying
            items = node.items[:MOST_OPTIONS] if isinstance(node, ListNode) else ()
        return OptionsDraft(tuple(option.read(item, f"{path}[{index}]", faults) for index, item in enumerate(items)))

    def written(question: Question) -> Written | None:
        """Listed where there are any, else asked for."""
        if question.options:
            return [in_brackets(option.written(each)) for each in question.options]
        return None if question.made is None else in_brackets(MADE.written(question.made))

    return Field(
        "options",
        Value(
            read=read,
            schema=schema.either(schema.list_of(option.schema, LEAST_OPTIONS, MOST_OPTIONS), MADE.schema),
            order=MADE.order.then(option.order),
        ),
        f"{LEAST_OPTIONS} to {MOST_OPTIONS} options, labelled A, B, C ... in order; or make: to have them made",
        due=_OPTIONS_FIX,
        write=written,
    )
