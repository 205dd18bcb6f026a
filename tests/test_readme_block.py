"""The helper by which CI runs the README's own commands."""

from __future__ import annotations

import importlib.util
import subprocess
import sys
from pathlib import Path

import pytest

SCRIPT = Path(__file__).parent.parent / ".ci" / "readme_block.py"
SPEC = importlib.util.spec_from_file_location("readme_block", SCRIPT)
assert SPEC is not None and SPEC.loader is not None
readme_block = importlib.util.module_from_spec(SPEC)
SPEC.loader.exec_module(readme_block)

README = """# A title
```sh
# set up
make ready
make
```
```yaml
item: not-sh
```
```sh
test one
```
"""


def test_blocks_are_counted_among_sh_blocks_only() -> None:
    assert readme_block.block(README, 1) == "make ready\nmake"
    assert readme_block.block(README, 2) == "test one"


@pytest.mark.parametrize(
    ("text", "number", "said"),
    [(README, 3, "only 2 fenced sh blocks"), ("", 1, "only 0"), ("```sh\n# nothing\n```\n", 1, "no command")],
)
def test_a_missing_or_empty_block_is_said_clearly(text: str, number: int, said: str) -> None:
    with pytest.raises(LookupError, match=said):
        readme_block.block(text, number)


def test_it_fails_on_the_command_line_too(tmp_path: Path) -> None:
    readme = tmp_path / "README.md"
    readme.write_text("no block\n", encoding="utf-8")
    run = subprocess.run([sys.executable, str(SCRIPT), str(readme), "2"], capture_output=True, text=True, check=False)
    assert run.returncode == 1
    assert run.stderr.count("\n") == 1 and "block 2 was asked for" in run.stderr
