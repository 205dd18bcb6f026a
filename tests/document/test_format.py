"""A made-up format: reader, schema, the order of fmt and the writer follow from its table, and from one more row."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from types import SimpleNamespace

import pytest
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML

from explainers.document.composing import compose_text
from explainers.document.fields import Faults, Table
from explainers.document.format import Field, Format, Record, Rule, Together
from explainers.document.house_form import house_form
from explainers.document.values import angle, choice, list_value, name, number, plain_text, point, whole
from explainers.document.yaml_text import in_brackets, lines_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Kite:
    """What the made-up format describes."""

    name: str
    tails: int = 1


KITE = Format(
    owner="a kite",
    missing_from="the file",
    named_by="name",
    fix="begin with kite:",
    rows=(
        Field("kite", name("red-kite"), "what it is called", attribute="name", due="name it, such as kite: {stem}"),
        Field("tails", whole(0, 9), "how many tails it has", default=1, write=lambda kite: str(kite.tails)),
    ),
)


def read(table: Format, text: str) -> tuple[Record | None, list[tuple[str, int, str, str]]]:
    composed = compose_text(text, "sky.yaml")
    assert composed.root is not None and not composed.faults
    faults = Faults(Path("sky.yaml"))
    record = table.read(composed.root, "", faults)
    return record, [(each.field, each.line, each.message, each.fix) for each in composed.with_further(faults.found)]


def seen_by_an_editor(table: Format, text: str) -> bool:
    return Draft202012Validator(table.schema).is_valid(YAML(typ="safe", pure=True).load(text))


def test_what_is_written_is_read() -> None:
    record, faults = read(KITE, "tails: 3\nkite: blue\n")
    assert record is not None and record.fine and faults == []
    assert Kite(**record.values) == Kite(name="blue", tails=3)
    record, _ = read(KITE, "kite: blue\n")
    assert record is not None and Kite(**record.values) == Kite(name="blue", tails=1)


def test_every_fault_is_told_with_its_place() -> None:
    record, faults = read(KITE, "tail: 2\ncolour: red\ntails: 10\n")
    assert record is not None and not record.fine and record["tails"] is None
    assert faults == [
        ("tail", 1, 'a kite has no key called "tail"', "take it out; tails is there already"),
        ("kite", 1, "the key kite is missing from the file", "name it, such as kite: sky"),
        ("colour", 2, 'a kite has no key called "colour"', "take it out; the keys are kite and tails"),
        ("tails", 3, '"10" is out of range', "write a number from 0 to 9"),
    ]


def test_a_key_that_there_is_not_does_no_harm_to_the_others() -> None:
    record, faults = read(KITE, "kite: blue\ncolour: red\n")
    assert record is not None and record.fine and len(faults) == 1


def test_an_editor_sees_the_same() -> None:
    Draft202012Validator.check_schema(KITE.schema)
    assert KITE.schema["properties"]["tails"]["description"] == "how many tails it has"
    assert seen_by_an_editor(KITE, "kite: blue\n")
    for text in ("tails: 3\n", "kite: blue\ntails: 10\n", "kite: blue\ncolour: red\n"):
        assert not seen_by_an_editor(KITE, text), text


def test_fmt_and_the_writer_set_keys_in_its_order() -> None:
    text = "\n".join(lines_of(KITE.written(Kite(name="blue", tails=3)))) + "\n"
    assert text == "kite: blue\ntails: 3\n"
    assert house_form("tails: 3\nkite: blue\n", KITE.order) == text
    other = replace(KITE, set_in=("tails",))
    assert (
        house_form(text, other.order) == "tails: 3\nkite: blue\n" == "\n".join(lines_of(other.written(kite()))) + "\n"
    )


def kite() -> Kite:
    return Kite(name="blue", tails=3)


ROWS = {
    "colour: red": Field("colour", choice(("red", "blue")), "its cloth"),
    "turned: -12.5": Field("turned", angle(), "how it flies", default=0.0),
    "long: 2": Field("long", number(0.5, 4), "its line"),
    'note: "a: b"': Field("note", plain_text(20, fix="leave it out"), "what is known of it"),
}


@pytest.mark.parametrize("line", ROWS)
def test_a_key_is_one_row(line: str) -> None:
    """Reader, schema, order and writer know a new key once its row is there, and none of them before."""
    row = ROWS[line]
    table = replace(KITE, rows=(KITE.rows[0], row, KITE.rows[1]))
    text = f"kite: blue\n{line}\ntails: 3\n"
    record, faults = read(table, text)
    assert record is not None and faults == []
    assert seen_by_an_editor(table, text) and not seen_by_an_editor(KITE, text)
    assert house_form(f"tails: 3\n{line}\nkite: blue\n", table.order) == text
    assert "\n".join(lines_of(table.written(SimpleNamespace(**record.values)))) + "\n" == text
    assert read(KITE, text)[1][0][0] == row.key


WIND = Format(
    owner="the wind",
    fix="write keys below wind:",
    rows=(Field("from", point(), "where it comes from", write=lambda wind: None), Field("force", whole(0, 12), "how")),
)


def _calm_or_wind(table: Table) -> str | None:
    given = [key for key in ("calm", "wind") if key in table]
    if len(given) != 1:
        table.faults.add(table.path, f"{table.owner} needs one of calm and wind", "keep one of the two")
    return given[0] if given else None


def _long_enough(record: Record) -> None:
    if record["long"] and record["stops"] and len(record["stops"]) > record["long"]:
        record.table.faults.add(record.table.at("long"), "it is too short", "write a larger number")


FLIGHT = Format(
    owner="the flight",
    fix="write keys",
    rows=(
        Together(
            "weather",
            (
                Field("calm", choice(("yes",)), "no wind"),
                Field("wind", WIND.value(lambda record: record.values), "the wind"),
            ),
            read_in=_calm_or_wind,
            schema={"oneOf": [{"required": ["calm"]}, {"required": ["wind"]}]},
        ),
        Field("stops", list_value(WIND.value(lambda record: record["force"]), 1, 3, noun="stops", fix="list"), "stops"),
        Field("long", whole(1, 9), "hours"),
    ),
    rules=(
        Rule("it is long enough", check=_long_enough, schema={"dependentRequired": {"long": ["stops"]}}),
        Rule("a calm flight is short", check=lambda record: None, schema={"dependentRequired": {"calm": ["long"]}}),
    ),
)


def test_fields_that_go_together_are_read_as_one() -> None:
    record, faults = read(FLIGHT, "calm: yes\nwind: {force: 2}\n")
    assert record is not None and not record.fine
    assert [fault[2] for fault in faults] == ["the flight needs one of calm and wind"]
    record, faults = read(FLIGHT, "wind: {force: 2}\n")
    assert record is not None and record["weather"] == "wind" and faults == []
    assert not seen_by_an_editor(FLIGHT, "calm: 'yes'\nwind: {force: 2}\nlong: 1\nstops: [{force: 1}]\n")


def test_a_rule_is_held_by_reader_and_schema() -> None:
    _, faults = read(FLIGHT, "wind: {}\nstops: [{force: 1}, {force: 2}]\nlong: 1\n")
    assert faults == [("long", 3, "it is too short", "write a larger number")]
    assert FLIGHT.schema["dependentRequired"] == {"long": ["stops"], "calm": ["long"]}


def test_what_stands_within_keeps_its_number_its_order_and_its_owner() -> None:
    record, faults = read(FLIGHT, "wind: {}\nstops:\n  - {force: 20}\n  - {force: 2, form: [1, 2]}\n")
    assert record is not None and record["stops"] == (None, 2)
    assert [fault[:3] for fault in faults] == [
        ("stops[0].force", 3, '"20" is out of range'),
        ("stops[1].form", 4, 'the wind has no key called "form"'),
    ]
    text = "stops:\n  - {force: 2, from: [1, 2]}\nwind: {force: 1, from: [1, 2]}\n"
    assert house_form(text, FLIGHT.order) == ("wind: {from: [1, 2], force: 1}\nstops:\n  - {from: [1, 2], force: 2}\n")


def test_a_part_is_called_by_its_name_once_that_is_read() -> None:
    table = replace(KITE, missing_from="", rows=(*KITE.rows, Field("line", number(), "its line", due="add line: 2")))
    assert [fault[2] for fault in read(table, "kite: blue\n")[1]] == ["the key line is missing from blue"]
    assert [fault[2] for fault in read(table, "kite: B b\ntails: 2\n")[1]][-1] == "the key line is missing from a kite"


def test_lists_and_keys_are_written_on_lines_of_their_own_or_in_brackets() -> None:
    keys = {"wind": {"force": "2"}, "stops": ["[1, 2]", {"force": "1", "long": "2"}]}
    assert list(lines_of(keys)) == ["wind:", "  force: 2", "stops:", "  - [1, 2]", "  - force: 1", "    long: 2"]  # type: ignore[arg-type]
    assert in_brackets(keys) == "{wind: {force: 2}, stops: [[1, 2], {force: 1, long: 2}]}"  # type: ignore[arg-type]
