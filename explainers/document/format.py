"""A format as a table of fields: reader, schema, the order of ``fmt`` and the writer follow from one row a key.

A row says what stands after a key, what it means, what stands for it where it is left out, and what to do where it
must not be. What must hold between several keys stands beside the rows: fields that say one thing together, such as
the ways to give an outline, and rules.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import KW_ONLY, dataclass, field, replace
from typing import Any, TypeVar

from .fields import Faults, Table, table_of
from .key_order import KeyOrder
from .nodes import Node
from .schema_values import Schema, keys_with, told
from .values import Value
from .yaml_text import Written

__all__ = ["Field", "Format", "Record", "Row", "Rule", "Together"]

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Field:
    """One key of a format."""

    key: str
    value: Value[Any]
    doc: str  # what it means, for an editor and for the remarks of a new file
    _: KW_ONLY
    attribute: str = ""  # what its value is called in the program; the key itself where nothing is said
    default: Any = None  # the value where the key is left out
    due: str = ""  # what to do where the key is missing; "" for one that may be. {stem}: the file's, without .yaml
    write: Callable[[Any], Written | None] | None = None  # of the thing written; None for what may be left out

    @property
    def name(self) -> str:
        return self.attribute or self.key

    @property
    def fields(self) -> tuple[Field, ...]:
        return (self,)

    @property
    def schema(self) -> Schema:
        """Of the mapping: nothing beyond the key."""
        return {}

    def read_in(self, table: Table) -> Any:
        """Its value, the default, or None with a fault."""
        faults = table.faults
        if self.due:
            node = table.due(self.key, table.owner, self.due.replace("{stem}", faults.file.stem))
        else:
            node = table.get(self.key)
        return self.default if node is None else self.value.read(node, table.at(self.key), faults)

    def written(self, thing: object) -> Written | None:
        """Its value as it stands in a file; None where it is left out."""
        if self.write is not None:
            return self.write(thing)
        value = getattr(thing, self.name)
        return None if value is None or value == self.default else self.value.write(value)


@dataclass(frozen=True, slots=True)
class Together:
    """Fields that say one thing between them, and are read as one; which of them are due is for its schema."""

    name: str
    fields: tuple[Field, ...]
    _: KW_ONLY
    read_in: Callable[[Table], Any]
    schema: Schema = field(default_factory=dict)  # which of them go together


Row = Field | Together


@dataclass(frozen=True, slots=True)
class Rule:
    """What must hold between values that have been read."""

    says: str
    _: KW_ONLY
    check: Callable[[Record], None]
    schema: Schema = field(default_factory=dict)  # as much of it as a schema can say


@dataclass(slots=True)
class Record:
    """A mapping as far as it could be read: by name, the value, its default, or None where it is wrong."""

    table: Table
    values: dict[str, Any]
    fine: bool = True  # whether fields and rules are without a fault; a key that there is not does no harm to them

    def __getitem__(self, name: str) -> Any:
        return self.values[name]


@dataclass(frozen=True, slots=True, kw_only=True)
class Format:
    """The fields of a mapping, in the order of the contract, and what must hold between them."""

    owner: str  # whose keys they are, as faults say it
    fix: str  # where something else stands than keys with values
    rows: tuple[Row, ...]
    rules: tuple[Rule, ...] = ()
    missing_from: str = ""  # what a key is missing from; the owner where nothing is said
    named_by: str = ""  # the name of the field by whose value later faults call the owner
    set_in: tuple[str, ...] = ()  # the keys as fmt sets them, where that is another order; others come last
    definitions: Mapping[str, Schema] = field(default_factory=dict)  # what the schema says once, by name

    @property
    def fields(self) -> tuple[Field, ...]:
        return tuple(each for row in self.rows for each in row.fields)

    @property
    def keys(self) -> tuple[str, ...]:
        return tuple(each.key for each in self.fields)

    @property
    def order(self) -> KeyOrder:
        """The order of keys in a file."""
        first = [key for key in self.set_in if key in self.keys]
        keys = (*first, *(key for key in self.keys if key not in first))
        return KeyOrder(keys, {each.key: each.value.order for each in self.fields})

    @property
    def schema(self) -> Schema:
        """The format as JSON Schema."""
        rules: Schema = {}
        for held in (*self.rows, *self.rules):
            for word, said in held.schema.items():
                rules[word] = {**rules[word], **said} if isinstance(said, dict) and word in rules else said
        if self.definitions:
            rules["$defs"] = dict(self.definitions)
        return keys_with(
            {each.key: told(each.value.schema, each.doc) for each in self.fields},
            due=[row.key for row in self.rows if isinstance(row, Field) and row.due],
            **rules,
        )

    def read(self, node: Node, path: str, faults: Faults) -> Record | None:
        """What a mapping says, with every fault noted; None where something else stands there."""
        table = table_of(node, path, faults, keys=self.keys, owner=self.owner, fix=self.fix)
        if table is None:
            return None
        table, before = replace(table, owner=self.missing_from or self.owner), len(faults.found)
        values: dict[str, Any] = {}
        for row in self.rows:
            values[row.name] = row.read_in(table)
            if row.name == self.named_by and values[row.name]:
                table = replace(table, owner=values[row.name])
        record = Record(table, values)
        for rule in self.rules:
            rule.check(record)
        record.fine = len(faults.found) == before
        return record

    def written(self, thing: object) -> dict[str, Written]:
        """Keys with the values of a thing as they stand in a file, in its order; what may be left out is."""
        fields = {each.key: each for each in self.fields}
        found = {key: fields[key].written(thing) for key in self.order.keys}
        return {key: value for key, value in found.items() if value is not None}

    def value(self, build: Callable[[Record], T]) -> Value[T]:
        """The mapping as what stands after a key, built from what is read of it."""

        def read(node: Node, at: str, faults: Faults) -> T | None:
            record = self.read(node, at, faults)
            return None if record is None else build(record)

        return Value(read=read, schema=self.schema, order=self.order, write=self.written)
