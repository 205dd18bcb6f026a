"""A limit that was passed is told as a teacher would type it."""

from __future__ import annotations

from pathlib import Path

from bad_files import GOOD_ITEM

from explainers.intake.reader import scan_item


def test_a_limit_is_written_out_in_full(tmp_path: Path) -> None:
    path = tmp_path / "corner-block.yaml"
    path.write_text(GOOD_ITEM[: GOOD_ITEM.index("options:")] + "options: {make: 4, seed: 9999999999}\n")
    (fault,) = scan_item(path).faults
    assert (fault.field, fault.fix) == ("options.seed", "write a number from 0 to 2147483647")
