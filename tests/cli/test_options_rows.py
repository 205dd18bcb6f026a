"""`explainers options`: other seeds, every piece, the contact sheet, some of a row kept and others exchanged."""

from __future__ import annotations

import re
import shutil
from html.parser import HTMLParser
from pathlib import Path

import pytest
import yaml

from explainers.intake.workspace import load_solution

ITEMS = Path(__file__).parents[2] / "items"
THREE_PIECES = ("kite-block", "comet-block")
SEEDS = 5


@pytest.fixture
def file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An item of three pieces in the working folder."""
    monkeypatch.chdir(tmp_path)
    return Path(shutil.copy(ITEMS / "kite-block.yaml", tmp_path))


def slips_of(printed: str) -> frozenset[tuple[str, str]]:
    """(slip, piece) of each wrong option of a printed list."""
    listed = yaml.safe_load(printed)
    return frozenset((option["slip"], option.get("piece", "")) for option in listed if "slip" in option)


def told(said: str, head: str) -> list[str]:
    """What stands on the lines that begin so."""
    return [line.removeprefix(head) for line in said.splitlines() if line.startswith(head)]


@pytest.mark.parametrize(
    "name",
    [
        "corner-block",
        "kite-block",
        "letterbox-block",
        *(pytest.param(name, marks=pytest.mark.full) for name in ("border-block", "comet-block", "button-block")),
    ],
)
def test_other_seeds_give_other_slips_where_there_are_others(run, name: str) -> None:
    rows, spare = set(), ""
    for seed in range(1, SEEDS + 1):
        ran = run("options", ITEMS / f"{name}.yaml", "--seed", seed)
        assert ran.code == 0
        row = frozenset(str({**option, "turned": 0}) for option in yaml.safe_load(ran.out))
        assert len(row) == 5, "none twice"
        rows.add(row)
        (spare,) = told(ran.err, "Could stand in: ")
    few = 1 if spare.startswith("no other") else 2 if spare.count(",") < 2 else 3
    assert len(rows) >= few, (rows, spare)


@pytest.mark.parametrize("name", THREE_PIECES)
@pytest.mark.parametrize("seed", range(1, 4))
def test_every_piece_has_an_option_of_its_own_where_it_can_have_one(run, name: str, seed: int) -> None:
    ran = run("options", ITEMS / f"{name}.yaml", "--seed", seed)
    pieces = {piece.name for piece in load_solution(ITEMS / f"{name}.yaml").item.pieces}
    shown = {piece for _, piece in slips_of(ran.out)}
    without = {said.rstrip(".") for said in told(ran.err, "No option shows a slip of ")}
    assert without == pieces - shown
    (spare,) = told(ran.err, "Could stand in: ")
    assert not [piece for piece in without if re.search(rf" of {piece}\b", spare)], "it could have had one"


def test_each_option_is_told_with_its_slip_and_each_slip_that_fails_with_why(run, file: Path) -> None:
    ran = run("options", file, "--seed", 2)
    (shown,) = told(ran.err, "Shown: ")
    listed = yaml.safe_load(ran.out)
    assert len(shown.split("; ")) == len(listed) == 5
    for letter, option, said in zip("ABCDE", listed, shown.rstrip(".").split("; "), strict=True):
        slip = f"{option['slip']} of {option['piece']}" if "slip" in option else "the right one"
        assert said == f"{letter} {slip}"
    failed = told(ran.err, "Cannot: ")
    assert failed and all(re.fullmatch(r"[a-z-]+ of [a-z]+(, [a-z-]+ of [a-z]+)*: .{10,}\.", line) for line in failed)
    (spare,) = told(ran.err, "Could stand in: ")
    names = [*spare.rstrip(".").split(", "), *(name for line in failed for name in line.split(": ")[0].split(", "))]
    assert len(set(names)) == len(names), "no slip is both"
    assert not {said[2:] for said in shown.rstrip(".").split("; ")} & set(names), "nor shown besides"


class Sheet(HTMLParser):
    """The headings of a contact sheet, the pictures below each, and its words."""

    def __init__(self, path: Path) -> None:
        super().__init__()
        self.pictures: dict[str, int] = {}
        self.words: list[str] = []
        self._heading = self._level = ""
        self.feed(path.read_text(encoding="utf-8"))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "h2":
            self._level, self._heading = tag, ""
        elif tag == "svg" and self._heading:
            self.pictures[self._heading] = self.pictures.get(self._heading, 0) + 1

    def handle_endtag(self, tag: str) -> None:
        if tag == "h2":
            self._level = ""

    def handle_data(self, data: str) -> None:
        self.words.append(data)
        if self._level:
            self._heading += data


def test_all_there_are_are_drawn_on_a_page_that_names_what_failed_and_why(run, file: Path) -> None:
    ran = run("options", file, "--seed", 2, "--show")
    (path,) = told(ran.err, "Drawn in ")
    assert Path(path) == Path("render_out/kite-block/options.html")
    sheet = Sheet(Path(path))
    (spare,) = told(ran.err, "Could stand in: ")
    assert sheet.pictures["The options"] >= 5
    assert sheet.pictures["What could stand in for one of them"] >= len(spare.split(", "))
    words = " ".join(" ".join(sheet.words).split())
    for failed in told(ran.err, "Cannot: "):
        names, why = failed.rstrip(".").split(": ")
        assert why in words, why
        assert all(name.split(" of ")[0] in words for name in names.split(", "))


def test_some_are_kept_where_they_are_and_others_exchanged(run, file: Path) -> None:
    assert run("options", file, "--seed", 2, "--write").code == 0
    before = yaml.safe_load(file.read_text(encoding="utf-8"))["options"]
    right = next(number for number, option in enumerate(before) if "slip" not in option)
    first, second = [letter for number, letter in enumerate("ABCDE") if number != right][:2]
    for arguments, stay in ((("--keep", f"{first},{second}"), {first, second}), (("--exchange", first), None)):
        ran = run("options", file, *arguments, "--seed", 5)
        assert ran.code == 0
        after = yaml.safe_load(ran.out)
        kept = stay if stay is not None else set("ABCDE") - {first}
        for number, (letter, old, new) in enumerate(zip("ABCDE", before, after, strict=True)):
            same_slip = (old.get("slip"), old.get("piece")) == (new.get("slip"), new.get("piece"))
            assert same_slip is (letter in kept or number == right), letter
            if letter in kept:
                assert new == old, letter
    assert run("options", file, "--keep", first, "--seed", 5, "--write").code == 0
    assert run("check", file).code == 0


def test_what_was_exchanged_does_not_come_again(run, file: Path) -> None:
    assert run("options", file, "--seed", 2, "--write").code == 0
    gone = slips_of(run("options", file, "--seed", 2).out)
    solution = load_solution(file)
    wrong = ",".join(verdict.label for verdict in solution.verdicts if not verdict.same)
    for seed in range(1, 4):
        assert not slips_of(run("options", file, "--exchange", wrong, "--seed", seed).out) & gone


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--keep", "A", "--exchange", "B"), "give one of the two"),
        (("--exchange", "G"), "there is no option G"),
        (("--exchange", "A"), "option A is the right one, which stays"),
        (("--keep", "ABCDE"), "no option is left to exchange"),
        (("--keep", "A", "--make", "3"), "leave it out"),
    ],
)
def test_what_cannot_be_kept_or_exchanged_is_said_with_what_to_write(run, file: Path, arguments, said: str) -> None:
    before = file.read_bytes()
    ran = run("options", file, *arguments)
    assert ran.code == 2 and said in ran.err and "To mend it: " in ran.err and ran.out == ""
    assert file.read_bytes() == before
