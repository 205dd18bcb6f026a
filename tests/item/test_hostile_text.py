"""Text that YAML takes in odd ways: `check` and `fmt` agree on every file, and rewriting never changes what it says."""

from __future__ import annotations

from pathlib import Path

import pytest
from bad_files import GOOD_ITEM
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from explainers.errors import ItemError
from explainers.intake.reader import scan_item
from explainers.intake.writing import rewritten

# Remarks above, beside and below, with signs that take two units or four bytes in front of everything else.
TEXT = f"# The 😀 head.\n{GOOD_ITEM.rstrip()}  # beside 😀\n# below\n"
TEXT = TEXT.replace("title: The corner block", "title: Die Eckblöcke  # 😀 and more")
HOSTILE = (
    *("\t", " \t", "\t# r", "\n\t\n", "#\t", " # r", "# r", "\n  # r\n", "\n \n", "  \n", "\n", " ", "  "),
    *("\x85", "\u2028", "\u2029", "\xa0", "\u200b", "\ufeff", "😀", "é", "\r", "\r\n"),
    *(
        "'",
        '"',
        "''",
        '""',
        "'\n  b'",
        '"\\t"',
        "\\",
        "|",
        ">",
        "|\n  text\n",
        ">-\n  text\n",
        ">\n\n   x\n",
        "|2\n  x\n",
    ),
    *("&a ", "*a", "&a", "! ", "!!str ", "!x ", "---", "---\n", "...\n", "%YAML 1.1\n---\n", "%TAG ! x\n---\n", "<<: "),
    *("? ", ": ", "- ", "[", "]", "{", "}", ",", "[]", "{}", "a: b", "%", "@", "`", "~", "null", "0x1", "1e3"),
)


@st.composite
def hostile_texts(draw: st.DrawFn) -> bytes:
    """A good text with a few hostile bits in it, often where a value begins or a line ends."""
    text = TEXT
    for _ in range(draw(st.integers(1, 3))):
        values = [at + 2 for at in range(len(text) - 1) if text[at : at + 2] == ": "]
        ends = [at for at, char in enumerate(text) if char == "\n"]
        at = draw(st.one_of(st.sampled_from(values or [0]), st.sampled_from(ends or [0]), st.integers(0, len(text))))
        text = text[:at] + draw(st.sampled_from(HOSTILE)) + text[at:]
    if draw(st.booleans()):
        text = text.replace("\n", "\r\n")
    return (draw(st.sampled_from(("", "", "\ufeff"))) + text).encode("utf-8")


def agreed(path: Path) -> bool:
    """Whether the file is good; that both doors say so alike, and that the file means the same when rewritten."""
    found = scan_item(path)
    if found.faults:
        with pytest.raises(ItemError) as told:
            rewritten(path)
        assert tuple(told.value.faults) == tuple(found.faults)
        return False
    try:
        new = rewritten(path)
    except ItemError as left_alone:
        (fault,) = left_alone.faults
        assert "cannot be rewritten" in fault.message and fault.fix
        return True
    path.write_bytes(new.new)
    again = scan_item(path)
    assert (again.faults, again.item) == ((), found.item)
    assert not rewritten(path).changes
    return True


def test_the_text_is_good_as_it_stands(tmp_path: Path) -> None:
    path = tmp_path / "corner-block.yaml"
    path.write_text(TEXT, encoding="utf-8")
    assert agreed(path)


def test_a_bracket_before_everything_is_told_with_its_line(tmp_path: Path) -> None:
    """Nothing in the file then says that it is an item."""
    path = tmp_path / "corner-block.yaml"
    path.write_text(f"[{TEXT}", encoding="utf-8")
    assert not agreed(path)


@settings(
    max_examples=150,
    deadline=None,
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(raw=hostile_texts())
def test_what_is_accepted_can_be_rewritten_or_is_left_alone(tmp_path: Path, raw: bytes) -> None:
    path = tmp_path / "corner-block.yaml"
    path.write_bytes(raw)
    agreed(path)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("title: Die", "title: Die\t"),
        ("title: Die", "title:\tDie"),
        ("title: Die Eckblöcke", "title: 'Die\tEckblöcke'\t# 😀\t#"),
        ("title: Die Eckblöcke  # 😀 and more", "title: >\n  Die\tEck-\n  blöcke"),
        ("mark: K", "mark:\tK\t# 😀\tremark"),
        ("# beside", "\t# beside"),
    ],
)
def test_a_tab_is_no_fault_where_it_means_a_space(tmp_path: Path, old: str, new: str) -> None:
    path = tmp_path / "corner-block.yaml"
    path.write_text(TEXT.replace(old, new, 1), encoding="utf-8")
    assert agreed(path)
