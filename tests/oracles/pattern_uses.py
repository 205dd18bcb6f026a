"""Every pattern that a source text gives to `re`, wherever it stands, with the ways in which it is used.

Found in the syntax trees, so that a pattern inside a function, a class or a table counts like any other. A name that is
handed on rather than used on the spot counts as used in every way.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

__all__ = ["WAYS", "Use", "uses_in", "ways_of_names"]

WAYS = ("match", "fullmatch", "search")
_SEARCHES = ("search", "sub", "subn", "split", "findall", "finditer")
_WAY_OF = {"match": "match", "fullmatch": "fullmatch", **dict.fromkeys(_SEARCHES, "search")}
_NO_USE = ("pattern", "flags", "groups", "groupindex")
_TELLS = "whole_match"  # writes a pattern into a schema, whose own patterns are held to the same


@dataclass(frozen=True, slots=True)
class Use:
    """One pattern, and how it is run over a text."""

    place: str  # file and line
    pattern: re.Pattern[Any]
    ways: tuple[str, ...]


def uses_in(
    tree: ast.Module, file: str, ways: Mapping[str, set[str]], names_of: Callable[[str], Mapping[str, Any]]
) -> Iterator[Use]:
    """Each pattern of a file.

    ways     : how each name of a pattern is used, see ways_of_names
    names_of : (function that a pattern stands in, or "") -> what its names stand for
    Raises   : NameError for a pattern that is made of something that names_of does not know
    """
    of_names = {
        id(node.value): target.id
        for node in tree.body
        if isinstance(node, ast.Assign | ast.AnnAssign)
        for target in (node.targets if isinstance(node, ast.Assign) else [node.target])
        if isinstance(target, ast.Name)
    }
    for call, function in _calls(tree, ""):
        method = _method_of_re(call)
        if method is None or method == "escape":
            continue
        expressions = [call.args[0], *_flags_of(call, method)]
        named = {node.id for expression in expressions for node in ast.walk(expression) if isinstance(node, ast.Name)}
        names = {**(names_of(function) if named - {"re"} else {}), "re": re}
        try:
            pattern, *flags = (
                eval(compile(ast.Expression(expression), file, "eval"), names)  # our own source, read from its file
                for expression in expressions
            )
        except NameError as error:
            raise NameError(f"{file}:{call.lineno}, in {function}: what is {error.name} made of?") from error
        if isinstance(pattern, re.Pattern):
            continue  # it is found where it is compiled
        used = ways.get(of_names.get(id(call), ""), set(WAYS)) if method == "compile" else {_WAY_OF[method]}
        yield Use(f"{file}:{call.lineno}", re.compile(pattern, *flags), tuple(sorted(used)))


def ways_of_names(tree: ast.Module) -> dict[str, set[str]]:
    """How each name of a file is used, if it is the name of a pattern."""
    found: dict[str, set[str]] = {}
    spared: set[int] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
            if node.attr in _WAY_OF:
                found.setdefault(node.value.id, set()).add(_WAY_OF[node.attr])
                spared.add(id(node.value))
            elif node.attr in _NO_USE:
                spared.add(id(node.value))
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == _TELLS:
            spared.update(map(id, node.args))
    for node in ast.walk(tree):
        if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load) and id(node) not in spared:
            found.setdefault(node.id, set()).update(WAYS)
    return found


def _calls(node: ast.AST, function: str) -> Iterator[tuple[ast.Call, str]]:
    for child in ast.iter_child_nodes(node):
        inner = child.name if isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef) else function
        if isinstance(child, ast.Call):
            yield child, inner
        yield from _calls(child, inner)


def _method_of_re(call: ast.Call) -> str | None:
    method = call.func
    if isinstance(method, ast.Attribute) and isinstance(method.value, ast.Name) and method.value.id == "re":
        return method.attr
    return None


def _flags_of(call: ast.Call, method: str) -> list[ast.expr]:
    """The flags, by name or in their place."""
    place = {"compile": 1, "split": 3, "sub": 4, "subn": 4}.get(method, 2)
    named = [keyword.value for keyword in call.keywords if keyword.arg == "flags"]
    return named or call.args[place : place + 1]
