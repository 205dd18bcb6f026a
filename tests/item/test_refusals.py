"""Each bad file is refused at its line and field, in a sentence, with a way to mend it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from bad_files import BAD_ITEMS, GOOD_ITEM, BadFile

from explainers.errors import Fault, ItemError
from explainers.intake.reader import read_item, scan_item


def written(tmp_path: Path, text: str | bytes) -> Path:
    path = tmp_path / "item.yaml"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return path


def test_the_good_item_is_good(tmp_path: Path) -> None:
    """Else a row below could pass for a fault that it did not bring in."""
    assert scan_item(written(tmp_path, GOOD_ITEM)).faults == ()


@pytest.mark.parametrize("bad", BAD_ITEMS, ids=[bad.why for bad in BAD_ITEMS])
def test_a_bad_file_is_refused_where_it_is_wrong(tmp_path: Path, bad: BadFile) -> None:
    path = written(tmp_path, bad.text)
    with pytest.raises(ItemError) as caught:
        read_item(path)
    faults = caught.value.faults
    found = [f for f in faults if (f.line, f.field) == (bad.line, bad.field) and bad.message in f.message]
    assert found, "\n".join(map(str, faults))
    if bad.faults:
        assert len(faults) == bad.faults, "\n".join(map(str, faults))
    for fault in faults:
        assert fault.file == str(path)
        assert well_said(fault), str(fault)


def well_said(fault: Fault) -> bool:
    """One clause without a full stop and a fix that is told as something to do; nothing of the machine shows."""
    words = f"{fault.message} {fault.fix}"
    return bool(
        fault.message
        and re.match(r"[a-z]", fault.fix)
        and not fault.message.endswith(".")
        and not re.search(
            r"Node|None|<|Traceback|scalar|sequence|!!(?!python)|'str'|  ", words.replace("key <<", "key")
        )
    )


@pytest.mark.parametrize(
    ("old", "new", "message", "fix"),
    [
        ("turned: 135", "turned: 1e9", "numbers go up to 1,000,000", "write a number from -360 to 360"),
        ("options:", "options:\n  - {outline: result}\nextra:", "has 1 option; at least 3 are allowed", "3 to 6"),
    ],
)
def test_a_fix_is_about_what_was_typed(old: str, new: str, message: str, fix: str, tmp_path: Path) -> None:
    """Of a turn it speaks of degrees, not of units; one thing is not several."""
    assert old in GOOD_ITEM
    faults = scan_item(written(tmp_path, GOOD_ITEM.replace(old, new, 1))).faults
    assert any(message in fault.message and fix in fault.fix for fault in faults), "\n".join(map(str, faults))
