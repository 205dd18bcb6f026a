"""What CI and commits are held by: pinned versions of all that is asked for, and hooks that fetch nothing."""

from __future__ import annotations

import re
import shlex
import tomllib
from pathlib import Path

import yaml

ROOT = Path(__file__).parent.parent


def same_name(requirement: str) -> str:
    """The name of a distribution as indexes compare it."""
    name = re.match(r"[A-Za-z0-9._-]+", requirement)
    assert name is not None
    return re.sub(r"[-_.]+", "-", name[0]).lower()


def test_ci_pins_every_library_by_name_and_version_alone() -> None:
    lines = (ROOT / ".ci" / "constraints.txt").read_text(encoding="utf-8").splitlines()
    pins = [line for line in lines if not line.startswith("#")]
    assert all(re.fullmatch(r"[A-Za-z0-9._-]+==[A-Za-z0-9.+!]+", pin) for pin in pins)
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    groups = [project["dependencies"], *project["optional-dependencies"].values()]
    asked = {same_name(requirement) for group in groups for requirement in group}
    assert asked <= {same_name(pin) for pin in pins}


def test_hooks_are_our_own_commands() -> None:
    config = yaml.safe_load((ROOT / ".pre-commit-config.yaml").read_text(encoding="utf-8"))
    assert [repository["repo"] for repository in config["repos"]] == ["local"]
    for hook in config["repos"][0]["hooks"]:
        command, *words = shlex.split(hook["entry"])
        assert hook["language"] == "system"
        assert command.startswith(".venv/bin/")
        assert all((ROOT / word).exists() for word in words if "/" in word)
