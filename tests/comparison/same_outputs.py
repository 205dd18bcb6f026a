"""Holds everything that one tree makes against what another made: which files differ, where, and why they may.

    python tests/comparison/same_outputs.py [COMMIT] [--full]      this tree against a commit, both made anew
    python tests/comparison/same_outputs.py --folders BEFORE AFTER  two folders of `make_outputs.py`
    python tests/comparison/same_outputs.py --write FOLDER          note the digests of a folder in baseline.json
    python tests/comparison/same_outputs.py --stored [--full]       this tree against those digests

Bytes are compared first. Where they differ: JSON by its values, numbers within 1e-9; a packed file by what is packed in
it; a clip by its decoded pictures and sound; anything else by its lines. Differences that are meant stand in EXPLAINED,
each with its reason, and are listed apart. Exit code 1 if any is left unexplained.

Notes are tried as well: the new tree builds over what the old one made, and lists a lesson's own words over the old
note; neither may find anything changed by somebody else, or words that are out of date.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import os
import shutil
import subprocess
import sys
import zipfile
from collections import Counter
from collections.abc import Iterator
from difflib import unified_diff
from fnmatch import fnmatch
from itertools import islice, zip_longest
from pathlib import Path
from tempfile import mkdtemp
from typing import Any

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent
BASELINE = HERE / "baseline.json"
COMPARED = ("said", "out", "formatted", "voiced")
NUMBERS_WITHIN = 1e-9

BEFORE = "5e28e57"  # the commit that EXPLAINED speaks of: move it on, and clear EXPLAINED, when what differs is wanted

# File (of `said/`, `out/`, `formatted/`, `voiced/`; * for any part of a name) -> why it may differ from that commit's.
EXPLAINED: dict[str, str] = {
    "*/.made.json": "the note of what was made bears the print of the program itself",
}


def files_in(folder: Path) -> dict[str, Path]:
    """Every file that is compared, by its name from the folder on."""
    found = [path for part in COMPARED for path in (folder / part).rglob("*") if path.is_file()]
    return {path.relative_to(folder).as_posix(): path for path in sorted(found)}


def explained(name: str) -> str:
    """Why a file may differ; "" where it may not."""
    return next((why for pattern, why in EXPLAINED.items() if fnmatch(name, pattern)), "")


def differences(before: Path, after: Path) -> Iterator[str]:
    """What differs between two files of one name, in a few lines; nothing where only the writing of numbers does."""
    old, new = before.read_bytes(), after.read_bytes()
    if old == new:
        return
    if zipfile.is_zipfile(before) and zipfile.is_zipfile(after):
        yield from _packed(before, after)
    elif before.suffix in (".mp4", ".m4a"):
        yield from _decoded(before, after)
    else:
        try:
            lines = old.decode().splitlines(), new.decode().splitlines()
        except UnicodeDecodeError:
            yield f"{len(old)} and {len(new)} bytes, other from byte {_first(old, new)} on"
            return
        try:
            values = [[json.loads(line) for line in side if line.startswith(("{", "["))] for side in lines]
        except ValueError:
            values = []
        rest = [[line for line in side if not line.startswith(("{", "["))] for side in lines]
        if values and values[0] and rest[0] == rest[1] and len(values[0]) == len(values[1]):
            yield from islice(_values(values[0], values[1], ""), 6)
        else:
            shown = (line[:200] for line in unified_diff(*lines, "before", "after", n=0, lineterm=""))
            yield from islice(shown, 2, 14)


def _first(old: bytes, new: bytes) -> int:
    return next((at for at, (one, other) in enumerate(zip(old, new, strict=False)) if one != other), len(old))


def _values(old: Any, new: Any, at: str) -> Iterator[str]:
    if isinstance(old, dict) and isinstance(new, dict):
        for key in dict.fromkeys((*old, *new)):
            if key not in old or key not in new:
                yield f"{at}.{key}: only {'after' if key in new else 'before'}"
            else:
                yield from _values(old[key], new[key], f"{at}.{key}")
    elif isinstance(old, list) and isinstance(new, list) and len(old) == len(new):
        for index, (one, other) in enumerate(zip(old, new, strict=True)):
            yield from _values(one, other, f"{at}[{index}]")
    elif _are_numbers(old, new):
        if abs(old - new) > NUMBERS_WITHIN:
            yield f"{at}: {old!r} and {new!r}"
    elif old != new:
        yield f"{at}: {str(old)[:80]!r} and {str(new)[:80]!r}"


def _are_numbers(*values: Any) -> bool:
    return all(isinstance(value, int | float) and not isinstance(value, bool) for value in values)


def _packed(before: Path, after: Path) -> Iterator[str]:
    with zipfile.ZipFile(before) as old, zipfile.ZipFile(after) as new:
        for name in sorted({*old.namelist(), *new.namelist()}):
            if name not in old.namelist() or name not in new.namelist():
                yield f"{name}: only {'after' if name in new.namelist() else 'before'}"
            elif (one := old.read(name)) != (other := new.read(name)):
                at = _first(one, other)
                yield f"{name}: {one[max(0, at - 40) : at + 80]!r} and {other[max(0, at - 40) : at + 80]!r}"


def _decoded(before: Path, after: Path) -> Iterator[str]:
    """Pictures and sound of two clips, one by one."""
    prints = [
        subprocess.run(
            ["ffmpeg", "-v", "error", "-i", str(path), "-f", "framehash", "-hash", "md5", "-"],
            capture_output=True,
            text=True,
            check=True,
        ).stdout.splitlines()
        for path in (before, after)
    ]
    pairs = list(zip_longest(*prints))
    other = [pair for pair in pairs if pair[0] != pair[1]]
    if other:
        yield f"{len(other)} of {len(pairs)} decoded frames differ, first {other[0][0]} and {other[0][1]}"


def compared(before: Path, after: Path) -> int:
    """Print what differs between two folders; how many differences are left unexplained."""
    old, new = files_in(before), files_in(after)
    same, unexplained = 0, 0
    meant: Counter[str] = Counter()
    for name in sorted({*old, *new}):
        why = explained(name)
        if name not in old or name not in new:
            found = [f"only {'after' if name in new else 'before'}"]
        else:
            found = list(differences(old[name], new[name]))
        if not found:
            same += 1
        elif why:
            meant[why] += 1
        else:
            unexplained += 1
            print(f"DIFFERENT   {name}")
            print("".join(f"            {line}\n" for line in found), end="")
    for why, count in meant.items():
        print(f"explained   {count} files: {why}")
    print(f"{same} files the same, {unexplained} differences unexplained")
    return unexplained


def digests(folder: Path) -> dict[str, str]:
    """Sixteen hexadecimal digits for each file that may not differ."""
    return {
        name: hashlib.sha256(path.read_bytes()).hexdigest()[:16]
        for name, path in files_in(folder).items()
        if not explained(name)
    }


def against_stored(folder: Path) -> int:
    """Hold a folder against the digests in baseline.json; how many differ. Other libraries make other bytes."""
    stored = json.loads(BASELINE.read_text(encoding="utf-8"))["files"]
    now = digests(folder)
    other = [
        name for name in stored if not explained(name) and (folder / name).exists() and now.get(name) != stored[name]
    ]
    for name in other:
        print(f"DIFFERENT   {name}")
    gone = [name for name in now if name not in stored]
    print(f"{len(now) - len(other) - len(gone)} files as stored, {len(other)} other, {len(gone)} not stored")
    return len(other)


def notes_hold(before: Path, tree: Path) -> int:
    """Build with the new tree over what the old one made; how many notes of the old one are not believed."""
    folder = Path(mkdtemp(prefix="notes-"))
    for part in ("items", "out", "voiced"):
        shutil.copytree(before / part, folder / part)
    wrong = 0
    for name in ("first-blocks", "cutting-out", "corner-block"):
        for words in (
            ["build", f"items/{name}.yaml", "--to", "out/build/own", "--only", "deck", "--only", "cues"],
            ["words", f"items/{name}.yaml", "--own"],
            *([["fit", f"voiced/{name}.yaml", "--to", "out/fit"]] if name == "corner-block" else []),
        ):
            told = _explainers(tree, folder, words)
            for sign in ("put aside", "kept-", "no longer", "have changed", "Traceback"):
                if sign in told:
                    wrong += 1
                    print(f"NOTE        {' '.join(words)}: {told.strip()[:400]}")
                    break
    shutil.rmtree(folder)
    return wrong


def _explainers(tree: Path, folder: Path, words: list[str]) -> str:
    program = "from explainers.cli.main import main; main()"
    done = subprocess.run(
        [sys.executable, "-c", program, *words],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(tree), "COLUMNS": "200", "XDG_CACHE_HOME": str(folder / "cache")},
        capture_output=True,
        text=True,
        check=False,
    )
    return done.stdout + done.stderr


def made(tree: Path, folder: Path, *, full: bool, like: Path | None = None) -> Path:
    """What a tree makes, in a folder.

    like : of the items that were made in this folder, in place of its own
    """
    folder.mkdir(parents=True, exist_ok=True)
    if like is not None and not (folder / "generated").exists():
        shutil.copytree(like / "generated", folder / "generated")
    subprocess.run(
        [
            sys.executable,
            str(HERE / "make_outputs.py"),
            str(tree),
            str(folder),
            *(["--full"] if full else []),
            *(["--items", str(like / "items")] if like else []),
        ],
        env={**os.environ, "PYTHONPATH": str(tree)},
        check=True,
    )
    return folder


def main() -> int:
    """What is asked for on the command line."""
    parser = argparse.ArgumentParser()
    parser.add_argument("commit", nargs="?", default=BEFORE, help="the commit before; that of EXPLAINED unless named")
    parser.add_argument("--full", action="store_true", help="clips, stills and every theme too")
    parser.add_argument("--folders", nargs=2, type=Path)
    parser.add_argument("--write", type=Path)
    parser.add_argument("--stored", action="store_true")
    parser.add_argument("--before", type=Path, help="what the commit before made, where that is there already")
    asked = parser.parse_args()
    if asked.folders:
        return 1 if compared(*asked.folders) else 0
    if asked.write:
        value = {"what": "see same_outputs.py", "files": digests(asked.write)}
        BASELINE.write_text(json.dumps(value, indent=0) + "\n", encoding="utf-8")
        return 0
    work = Path(mkdtemp(prefix="same-outputs-"))
    if asked.stored:
        return 1 if against_stored(made(ROOT, work, full=asked.full)) else 0
    before = asked.before
    if before is None:
        tree = work / "tree"
        subprocess.run(["git", "-C", str(ROOT), "worktree", "add", "-q", str(tree), asked.commit], check=True)
        try:
            before = made(tree, work / "before", full=asked.full)
        finally:
            subprocess.run(["git", "-C", str(ROOT), "worktree", "remove", "--force", str(tree)], check=True)
    after = made(ROOT, work / "after", full=asked.full, like=before)
    print(f"made in {work}")
    return 1 if compared(before, after) + notes_hold(before, ROOT) else 0


if __name__ == "__main__":
    sys.exit(main())
