"""Makes everything that the commands make of the demo and of generated items, for one tree, into one folder.

    PYTHONPATH=TREE python tests/comparison/make_outputs.py TREE FOLDER [--full] [--jobs N]

Only the command line is used, since it stays while the modules behind it move. FOLDER gets `items/` (those of TREE, or
of --items), `generated/` (read if it is there, else made), `out/` (what was made) and `said/` (what each command
printed, and its exit code). Each command runs in a process of its own, forked after the heavy libraries have been
imported once.

Without --full: one theme, no clips, no stills; a few minutes of processor time. With it: every theme and every format.
"""

from __future__ import annotations

import argparse
import os
import shutil
import sys
import tomllib
from collections.abc import Iterator, Sequence
from importlib import import_module
from pathlib import Path

GENERATED = 300
LESSONS = ("first-blocks", "cutting-out", "looking-closely")
THEMES = ("light", "dark", "print")
FEW_ITEMS = ("corner-block", "gate-block", "twin-block")  # one piece, a closed ring, two of a kind
LIGHT = (
    "deck",
    "deck-pdf",
    "deck-html",
    "handout",
    "cues",
    "script",
    "transcript",
    "poster",
    "description",
    "certificate",
    "index",
)
HEAVY = ("clip", "stills")


def commands(items: Sequence[str], *, full: bool, themes: Sequence[str]) -> Iterator[tuple[str, list[str]]]:
    """(what it is called, the words of the command line), every one run beside `items/`."""
    yield "solve-generated", ["solve", "--json", "generated"]
    yield "check-generated", ["check", "--certificate", "--json", "generated"]
    yield "solve", ["solve", "items"]
    yield "solve-json", ["solve", "--json", "items"]
    yield "check", ["check", "items"]
    yield "check-certificate", ["check", "--certificate", "items"]
    yield "check-series", ["check", "items/series.yaml"]
    for lesson in LESSONS:
        yield f"check-{lesson}", ["check", f"items/{lesson}.yaml"]
        yield f"words-{lesson}", ["words", f"items/{lesson}.yaml"]
        yield f"prompter-{lesson}", ["prompter", f"items/{lesson}.yaml", "--to", f"out/prompter/{lesson}"]
        yield f"sheets-{lesson}", ["sheets", f"items/{lesson}.yaml", "--to", f"out/sheets/{lesson}", "--versions", "2"]
        yield (
            f"large-{lesson}",
            [
                "sheets",
                f"items/{lesson}.yaml",
                "--to",
                f"out/sheets/{lesson}-large",
                "--large-print",
                "--paper",
                "letter",
            ],
        )
        yield (
            f"ideas-{lesson}",
            ["deck", f"items/{lesson}.yaml", "--to", f"out/ideas/{lesson}", "--slides", "one-per-idea"],
        )
        yield (
            f"handout-{lesson}",
            ["deck", f"items/{lesson}.yaml", "--as", "handout", "--per-page", "4", "--to", f"out/ideas/{lesson}"],
        )
    yield "fit", ["fit", "voiced/corner-block.yaml", "--scratch", "--to", "out/fit"]
    yield "sheets-items", ["sheets", "items", "--to", "out/sheets/items"]
    yield "themes", ["themes"]
    for what in ("item", "lesson", "series"):
        yield f"schema-{what}", ["schema", what]
        yield f"new-{what}", ["new", what, "my-block", "--to", f"out/new-{what}"]
    for name in FEW_ITEMS:
        for level in ([], ["--easier"], ["--harder"]):
            to = f"out/siblings/{name}{''.join(level)}"
            yield f"vary-{name}{''.join(level)}", ["vary", f"items/{name}.yaml", "--to", to, "--seed", "5", *level]
    outputs = (*LIGHT, *HEAVY) if full else LIGHT
    only = [word for output in outputs for word in ("--only", output)]
    for name in items:
        yield f"fmt-{name}", ["fmt", f"formatted/{name}.yaml"]
        for theme in (None, *themes) if full else (None,):
            look = ["--theme", theme] if theme else []
            to = f"out/build/{theme or 'own'}"
            yield f"build-{name}-{theme or 'own'}", ["build", f"items/{name}.yaml", "--to", to, *look, *only]


def prepared(tree: Path, folder: Path, items: Path) -> list[str]:
    """Items and generated items laid ready; the names of all items and lessons."""
    for again in ("items", "out", "said", "formatted", "voiced"):
        shutil.rmtree(folder / again, ignore_errors=True)
    shutil.copytree(items, folder / "items")
    shutil.copytree(items, folder / "formatted")
    shutil.copytree(items, folder / "voiced")  # apart: a voice that is remembered is heard in what is built
    if not (folder / "generated").is_dir():
        _generate(tree, folder / "generated")
    (folder / "said").mkdir()
    return sorted(path.stem for path in (folder / "items").glob("*.yaml") if path.stem != "series")


def _generate(tree: Path, folder: Path) -> None:
    sys.path.insert(0, str(tree / "tests"))
    random_item = import_module("strategies").random_item
    item_yaml = import_module("explainers.intake.writing").item_yaml
    folder.mkdir()
    for seed in range(GENERATED):
        item = random_item(seed)
        (folder / f"{seed:03}-{item.name}.yaml").write_text(item_yaml(item), encoding="utf-8")


def run(words: Sequence[str], said: Path, tree: Path) -> int:
    """One command in a process of its own; the number of that process."""
    number = os.fork()
    if number:
        return number
    code = 70
    try:
        with said.open("w", encoding="utf-8") as file:
            os.dup2(file.fileno(), 1)
            os.dup2(file.fileno(), 2)
            sys.stdout.reconfigure(encoding="utf-8")
            sys.stderr.reconfigure(encoding="utf-8")
            sys.argv = ["explainers", *words]
            try:
                _door(tree)()
                code = 0
            except SystemExit as leaving:
                code = leaving.code if isinstance(leaving.code, int) else 0 if leaving.code is None else 1
            except BaseException:
                import traceback

                traceback.print_exc()
            sys.stderr.flush()
            print(f"exit code {code}", flush=True)
    finally:
        os._exit(code)


def _door(tree: Path) -> object:
    with (tree / "pyproject.toml").open("rb") as file:
        target = tomllib.load(file)["project"]["scripts"]["explainers"]
    module, _, function = target.partition(":")
    return getattr(import_module(module), function)


def main() -> None:
    """Run them all."""
    parser = argparse.ArgumentParser()
    parser.add_argument("tree", type=Path)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--full", action="store_true")
    parser.add_argument("--items", type=Path, help="the items of another tree, in place of its own")
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--only", default="", help="only commands whose name has this in it")
    asked = parser.parse_args()
    tree, folder = asked.tree.resolve(), asked.folder.resolve()
    folder.mkdir(parents=True, exist_ok=True)
    for library in ("shapely", "numpy", "fontTools.ttLib", "pptx", "weasyprint", "av", "yaml", "babel", "typer"):
        import_module(library)
    import explainers

    if Path(explainers.__file__).resolve().parent.parent != tree:
        sys.exit(f"the package stands in {explainers.__file__}, not in {tree}: set PYTHONPATH")
    names = prepared(tree, folder, (asked.items or tree / "items").resolve())
    os.chdir(folder)
    os.environ["XDG_CACHE_HOME"] = str(folder / "cache")
    # Wide enough that no message is broken, and the same for both.
    os.environ |= {"COLUMNS": "200", "NO_COLOR": "1", "LC_ALL": "C.UTF-8", "TZ": "UTC"}
    running: dict[int, str] = {}
    for called, words in commands(names, full=asked.full, themes=THEMES):
        if asked.only not in called:
            continue
        while len(running) >= asked.jobs:
            running.pop(os.wait()[0], None)
        running[run(words, folder / "said" / f"{called}.txt", tree)] = called
    while running:
        running.pop(os.wait()[0], None)


if __name__ == "__main__":
    main()
