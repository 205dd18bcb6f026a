"""A YAML file composed into values that know their lines.

Composed from the parser's events, never through a loader: no tag is ever acted upon, nothing is built that was not
written, and the caps on size, depth and number of values hold while reading, before anything can grow. Scalars stay
as typed, so that ``1:30`` or ``yes`` means what the teacher sees and not what YAML 1.1 makes of it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import yaml

from ..errors import Fault
from .file_text import TextOf, Unreadable, text_of_file
from .nodes import ListNode, MapEntry, MapNode, Node, ScalarNode
from .source_map import SourceMap, in_line_order
from .yaml_events import MAX_DEPTH, MAX_KEY, MAX_TEXT, events_of, line_of, nested_too_deeply

__all__ = ["MAX_VALUES", "Composed", "compose_file", "compose_text", "top_level_keys"]

MAX_VALUES = 50_000  # after anchors are expanded

_WHOLE = 3  # keys after which an entry of a list may be complete


@dataclass(frozen=True, slots=True)
class Composed:
    """A file as composed: its top-level mapping, or None, with what is wrong so far."""

    root: MapNode | None
    source: SourceMap
    faults: tuple[Fault, ...]  # placed

    def with_further(self, found: Iterable[Fault]) -> tuple[Fault, ...]:
        """Faults of YAML and of the contract; where a field has one of the first kind, that one explains it."""
        explained = {fault.field for fault in self.faults if fault.field}
        further = [fault for fault in found if fault.file or fault.field not in explained]
        return in_line_order((*self.faults, *self.source.placed(further)))


def compose_file(path: Path, opened: TextOf = text_of_file) -> Composed:
    """Read and compose one file; never raises for what the file holds.

    opened  : what opens a file
    """
    source = SourceMap(str(path))
    try:
        text = opened(path)
    except Unreadable as stop:
        return Composed(None, source, source.placed([stop.fault]))
    return compose_text(text, str(path))


def compose_text(text: str, file: str) -> Composed:
    """Compose a text as if it stood in a file of that name."""
    source = SourceMap(file)
    composer = _Composer(text)
    try:
        composer.run()
    except Unreadable as stop:
        return Composed(None, source, source.placed([stop.fault]))
    faults = list(composer.faults)
    root = composer.root
    if isinstance(root, MapNode):
        source = SourceMap(file, dict(_lines(root, "", root.line)))
        return Composed(root, source, source.placed(faults))
    if root is None or (isinstance(root, ScalarNode) and root.is_null):
        faults.append(Fault(field="", message="the file is empty", fix="write an item into it, beginning with item:"))
    else:
        kind = "a list" if isinstance(root, ListNode) else "a single text"
        faults.append(
            Fault(
                field="",
                line=root.line,
                message=f"the file holds {kind} where keys with values are due",
                fix="begin the file with a key at the left margin, such as item: corner-block",
            )
        )
    return Composed(None, source, source.placed(faults))


def top_level_keys(path: Path, opened: TextOf = text_of_file) -> Iterator[str]:
    """The keys at the left margin of a file in turn, reading no further than asked.

    Raises: ValueError where the file cannot be read that far.
    """
    try:
        depth = 0
        awaits_key = False
        for event in events_of(opened(path)):
            if isinstance(event, yaml.CollectionStartEvent):
                depth += 1
                if depth == 1:
                    if not isinstance(event, yaml.MappingStartEvent):
                        return
                    awaits_key = True
                    continue
            elif isinstance(event, yaml.CollectionEndEvent):
                depth -= 1
            elif isinstance(event, yaml.ScalarEvent) and depth == 1 and awaits_key:
                yield event.value
            if depth == 1 and isinstance(event, yaml.NodeEvent | yaml.CollectionEndEvent):
                awaits_key = not awaits_key
            if depth > MAX_DEPTH:
                raise ValueError("nested too deeply")
    except Unreadable as stop:
        raise ValueError(stop.fault.message) from stop


@dataclass(slots=True)
class _Frame:
    """A list or mapping that is still open."""

    path: str
    line: int
    anchor: str | None
    is_map: bool
    items: list[Node] = field(default_factory=list)
    entries: dict[str, MapEntry] = field(default_factory=dict)
    key: ScalarNode | None = None
    awaits_key: bool = True
    skips: bool = False  # the key before was refused: its value is read past
    size: int = 1
    height: int = 1

    def child_path(self) -> str:
        if not self.is_map:
            return f"{self.path}[{len(self.items)}]"
        key = self.key.text if self.key else ""
        return f"{self.path}.{key}" if self.path else key


class _Composer:
    """Builds the nodes of the first document of a text."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.faults: list[Fault] = []
        self.root: Node | None = None
        self.frames: list[_Frame] = []
        self.anchors: dict[str, tuple[Node, int, int]] = {}  # node, values in it, levels in it
        self.documents = 0
        self.count = 0

    def run(self) -> None:
        """Read all events; raises Unreadable where reading cannot go on."""
        for event in events_of(self.text):
            if isinstance(event, yaml.DocumentStartEvent):
                self.documents += 1
                if self.documents > 1:
                    self._fault(
                        "",
                        "a second document begins here (a line of ---)",
                        "keep one item in a file and put the next into a file of its own",
                        line_of(event),
                    )
                    return
            elif isinstance(event, yaml.AliasEvent):
                self._alias(event)
            elif isinstance(event, yaml.ScalarEvent):
                self._scalar(event)
            elif isinstance(event, yaml.CollectionStartEvent):
                self._open(event)
            elif isinstance(event, yaml.CollectionEndEvent):
                self._close()

    def _fault(self, path: str, message: str, fix: str, line: int) -> None:
        self.faults.append(Fault(field=path, message=message, fix=fix, line=line))

    def _path(self) -> str:
        return self.frames[-1].child_path() if self.frames else ""

    def _awaits_key(self) -> bool:
        return bool(self.frames) and self.frames[-1].is_map and self.frames[-1].awaits_key

    def _scalar(self, event: yaml.ScalarEvent) -> None:
        line = line_of(event)
        self._check_tag(event.tag, line)
        node = ScalarNode(event.value, bool(event.style), line)
        if len(event.value) > MAX_TEXT and not self._awaits_key():
            self._fault(
                self._path(),
                f"the text here has {len(event.value):,} characters; no value has more than {MAX_TEXT:,}",
                "shorten it",
                line,
            )
            node = ScalarNode("", False, line)
        if event.anchor:
            self.anchors[event.anchor] = (node, 1, 0)
        self._add(node, 1, 0)

    def _open(self, event: yaml.CollectionStartEvent) -> None:
        line = line_of(event)
        self._check_tag(event.tag, line)
        self._check_depth(len(self.frames) + 1, line)
        self.frames.append(
            _Frame(path=self._path(), line=line, anchor=event.anchor, is_map=isinstance(event, yaml.MappingStartEvent))
        )

    def _close(self) -> None:
        frame = self.frames.pop()
        node: Node = MapNode(frame.entries, frame.line) if frame.is_map else ListNode(tuple(frame.items), frame.line)
        if frame.anchor:
            self.anchors[frame.anchor] = (node, frame.size, frame.height)
        self._add(node, frame.size, frame.height, counted=1)

    def _alias(self, event: yaml.AliasEvent) -> None:
        line = line_of(event)
        known = self.anchors.get(event.anchor or "")
        if known is None:
            self._fault(
                self._path(),
                f"*{_short(event.anchor)} repeats something that is not written above it",
                f"mark it above with &{_short(event.anchor)}, or write it out here",
                line,
            )
            self._add(ScalarNode("", False, line), 1, 0)
            return
        node, size, height = known
        self._check_depth(len(self.frames) + height, line)
        self._add(node, size, height, line=line)

    def _check_tag(self, tag: str | None, line: int) -> None:
        if tag and tag != "!":
            shown = tag.replace("tag:yaml.org,2002:", "!!")
            self._fault(self._path(), f"the tag {_short(shown)} has no meaning here", "leave the tag out", line)

    def _check_depth(self, depth: int, line: int) -> None:
        if depth > MAX_DEPTH:
            raise nested_too_deeply(line)

    def _add(self, node: Node, size: int, height: int, *, counted: int | None = None, line: int = 0) -> None:
        """Hand a finished node to the list or mapping that is open around it."""
        # What stands inside a list was counted while the list was open; an alias counts with all it repeats.
        self.count += size if counted is None else counted
        if self.count > MAX_VALUES:
            raise Unreadable(
                f"the file holds more than {MAX_VALUES:,} values",
                "make sure that this is the file you meant, and write out what * repeats",
                line or node.line,
            )
        if not self.frames:
            self.root = node
            return
        frame = self.frames[-1]
        frame.size += size
        frame.height = max(frame.height, height + 1)
        if not frame.is_map:
            frame.items.append(node)
        elif frame.awaits_key:
            self._take_key(frame, node)
            self.frames[-1].awaits_key = False  # of the entry that the key belongs to, which may just have begun
        else:
            if not frame.skips and frame.key is not None:
                frame.entries[frame.key.text] = MapEntry(node, frame.key.line)
            frame.skips = False
            frame.key = None
            frame.awaits_key = True

    def _take_key(self, frame: _Frame, node: Node) -> None:
        if not isinstance(node, ScalarNode):
            self._fault(
                frame.path,
                "a list or mapping stands where a key is due",
                "write the key as one word, followed by a colon",
                node.line,
            )
            frame.skips = True
            return
        if len(node.text) > MAX_KEY:
            self._fault(
                frame.path,
                f"a key here has {len(node.text):,} characters; at most {MAX_KEY} are allowed",
                "write one of the keys that belong here, followed by a colon",
                node.line,
            )
            frame.skips = True
            return
        earlier = frame.entries.get(node.text)
        if earlier is not None and self._begins_another(frame, node):
            frame = self._split(frame, node, earlier.line)
            earlier = None
        frame.key = node
        path = frame.child_path()
        if node.text == "<<" and not node.quoted:
            self._fault(path, "the merge key << is not used here", "write the keys out", node.line)
        elif node.text == "":
            self._fault(frame.path, "a value has no key before its colon", "write the key", node.line)
        elif earlier is not None:
            self._fault(
                path,
                f"{node.text} is given twice, on line {earlier.line} and on line {node.line}",
                "keep one of the two",
                node.line,
            )
        else:
            return
        frame.skips = True

    def _begins_another(self, frame: _Frame, key: ScalarNode) -> bool:
        """Whether a key that comes again is the first of a long entry of a list: the dash before it is missing."""
        inside_list = len(self.frames) > 1 and not self.frames[-2].is_map
        return inside_list and len(frame.entries) > _WHOLE and next(iter(frame.entries)) == key.text

    def _split(self, frame: _Frame, key: ScalarNode, earlier: int) -> _Frame:
        """End an entry of a list where the next one begins without a dash, so that each is read for itself."""
        again = f"{key.text} is given twice, on line {earlier} and on line {key.line}"
        fix = f"begin line {key.line} with a dash if another one begins there, as - {key.text}:, or take it out"
        self._fault(f"{frame.path}.{key.text}", again, fix, key.line)
        self._close()
        self.frames.append(_Frame(path=self._path(), line=key.line, anchor=None, is_map=True))
        return self.frames[-1]


def _short(name: str | None) -> str:
    """An anchor or a tag for a message: neither has a cap of its own."""
    name = name or ""
    return name if len(name) <= 40 else f"{name[:37]}..."


def _lines(node: Node, path: str, line: int) -> Iterator[tuple[str, int]]:
    """Field paths with lines. Recursion is safe here: depth was capped while composing."""
    yield path, line
    if isinstance(node, MapNode):
        for key, entry in node.entries.items():
            yield from _lines(entry.value, f"{path}.{key}" if path else key, entry.line)
    elif isinstance(node, ListNode):
        for index, item in enumerate(node.items):
            yield from _lines(item, f"{path}[{index}]", item.line)
