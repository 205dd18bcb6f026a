"""The names that the package promises: there, from where they are said to live, loaded only when used."""

from __future__ import annotations

import ast
import subprocess
import sys
from importlib import import_module
from pathlib import Path

import explainers


def test_every_promised_name_can_be_had() -> None:
    for name in explainers.__all__:
        assert getattr(explainers, name) is not None


def test_each_name_is_the_one_of_its_home() -> None:
    for name, home in explainers._HOME.items():
        assert getattr(explainers, name) is getattr(import_module(f"explainers.{home}"), name)


def test_what_a_type_checker_sees_is_what_is_loaded() -> None:
    tree = ast.parse(Path(explainers.__file__).read_text(encoding="utf-8"))
    seen = {
        alias.name: node.module
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and node.level == 1 and node.module
        for alias in node.names
    }
    assert seen == explainers._HOME
    assert set(explainers.__all__) == {*seen, "__version__"}


def test_an_unknown_name_is_refused_as_python_does() -> None:
    assert not hasattr(explainers, "edges")


def test_importing_the_package_loads_no_room() -> None:
    code = "import explainers, sys; print([m for m in sys.modules if m.startswith('explainers.')])"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"
