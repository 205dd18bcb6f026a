"""Imports go one way, from the doors down to the geometry; an outside library is named only where it belongs.

The tables below are the house as it is drawn for contributors; this test keeps the drawing true. It walks the syntax
trees, so that an import inside a function counts like any other.
"""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterator
from functools import cache
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent

# Room -> the rooms that it may import from, in the order of the house, lowest first: whatever a room may import from
# stands above it here. `errors` is open to all; a room may always import from itself. A part of a room has a row of its
# own where it stands elsewhere in that order; `kinds.*` is the row of every kind of question, which nobody imports.
ROOMS: dict[str, set[str]] = {
    "explainers": set(),  # the front page: reads nothing until a name is asked for; see FRONT_PAGE
    "cache": set(),
    "errors": set(),
    "plain_file": set(),
    "geometry": set(),
    "process_apart": set(),
    "process_pool": set(),
    "safe_write": set(),
    "style": set(),
    "typeface": set(),
    "video": set(),
    "voice": {"plain_file"},
    "web": set(),
    "document": {"geometry", "typeface"},
    "made_record": {"safe_write"},
    "words": {"cache", "geometry", "style"},
    "choice": {"geometry", "document", "words"},
    "made_folder": {"safe_write", "made_record"},
    "choice.words": {"geometry", "words", "choice"},
    "item": {"plain_file", "geometry", "style", "document", "choice"},
    "editing": {"geometry", "document", "item"},
    "tracing": {"plain_file", "geometry", "document", "item"},
    "sentences": {"geometry", "words", "choice", "item"},
    "figure": {"geometry", "style", "typeface", "document", "item", "sentences"},
    "choice.drawing": {"geometry", "style", "choice", "sentences", "figure", "typeface"},
    "choice.panels": {"geometry", "typeface", "document", "words", "choice", "choice.words", "figure"},
    "storyboard": {"geometry", "style", "choice", "item", "sentences", "figure"},
    "choice.stages": {
        "geometry",
        "choice",
        "choice.words",
        "item",
        "sentences",
        "figure",
        "choice.drawing",
        "storyboard",
    },
    "fitting": {"plain_file", "safe_write", "voice", "document", "words", "sentences", "storyboard"},
    "frames": {"geometry", "figure", "storyboard"},
    "outputs.shared": {"typeface", "words", "sentences", "figure", "storyboard"},
    "drawing": {"geometry", "typeface", "figure", "frames"},
    "kinds": {
        "geometry",
        "document",
        "choice",
        "item",
        "editing",
        "sentences",
        "figure",
        "choice.panels",
        "storyboard",
        "choice.stages",
    },
    "outputs.pptx": {
        "plain_file",
        "geometry",
        "safe_write",
        "typeface",
        "words",
        "sentences",
        "figure",
        "storyboard",
        "frames",
        "outputs.shared",
    },
    "outputs.text": {
        "safe_write",
        "words",
        "choice.words",
        "sentences",
        "figure",
        "storyboard",
        "frames",
        "outputs.shared",
    },
    "intake": {"document", "choice", "item", "kinds"},
    "kinds.*": {
        "geometry",
        "style",
        "typeface",
        "document",
        "words",
        "choice",
        "choice.words",
        "item",
        "editing",
        "sentences",
        "figure",
        "choice.drawing",
        "choice.panels",
        "storyboard",
        "choice.stages",
        "kinds",
    },
    "lesson": {
        "words",
        "choice",
        "choice.words",
        "item",
        "sentences",
        "figure",
        "storyboard",
        "choice.stages",
        "kinds",
    },
    "outputs.clip": {
        "cache",
        "safe_write",
        "typeface",
        "video",
        "voice",
        "figure",
        "storyboard",
        "frames",
        "outputs.shared",
        "drawing",
    },
    "outputs.html": {
        "geometry",
        "safe_write",
        "style",
        "typeface",
        "voice",
        "words",
        "choice.words",
        "sentences",
        "figure",
        "storyboard",
        "outputs.shared",
        "drawing",
    },
    "outputs.pdf": {
        "safe_write",
        "typeface",
        "words",
        "sentences",
        "figure",
        "storyboard",
        "choice.stages",
        "outputs.shared",
        "drawing",
    },
    "authoring": {"document", "item", "kinds", "intake"},
    "outputs": {"safe_write", "storyboard", "outputs.html", "outputs.pdf"},
    "own_words": {"plain_file", "safe_write", "document", "choice", "item", "storyboard", "lesson"},
    "preview": {
        "process_apart",
        "geometry",
        "typeface",
        "web",
        "document",
        "words",
        "choice",
        "figure",
        "choice.panels",
        "drawing",
        "kinds",
        "intake",
    },
    "job": {
        "document",
        "words",
        "choice",
        "choice.words",
        "item",
        "sentences",
        "figure",
        "storyboard",
        "fitting",
        "lesson",
        "outputs",
    },
    "making": {"made_record", "made_folder", "sentences", "storyboard", "outputs", "job"},
    "batch": {
        "process_pool",
        "style",
        "document",
        "made_folder",
        "item",
        "figure",
        "storyboard",
        "intake",
        "outputs",
        "job",
        "making",
    },
    "checking": {
        "document",
        "choice",
        "choice.words",
        "item",
        "sentences",
        "figure",
        "storyboard",
        "fitting",
        "kinds",
        "intake",
        "lesson",
        "own_words",
        "batch",
    },
    "table": {
        "cache",
        "process_apart",
        "process_pool",
        "geometry",
        "safe_write",
        "typeface",
        "web",
        "document",
        "choice",
        "made_folder",
        "choice.words",
        "item",
        "editing",
        "sentences",
        "figure",
        "choice.panels",
        "storyboard",
        "drawing",
        "frames",
        "kinds",
        "intake",
        "lesson",
        "outputs.html",
        "outputs",
        "own_words",
        "preview",
        "tracing",
        "batch",
    },
    "scenes": {"geometry", "safe_write", "typeface", "video", "figure", "storyboard", "outputs.clip", "batch"},
    "cli": {
        "cache",
        "safe_write",
        "style",
        "voice",
        "document",
        "choice",
        "made_folder",
        "choice.words",
        "item",
        "sentences",
        "figure",
        "choice.panels",
        "storyboard",
        "fitting",
        "kinds",
        "outputs.pptx",
        "intake",
        "lesson",
        "outputs.clip",
        "outputs.html",
        "outputs.pdf",
        "authoring",
        "outputs",
        "own_words",
        "preview",
        "making",
        "batch",
        "checking",
        "table",
        "tracing",
    },
}

# Module -> modules that it may import besides, each with a reason.
BESIDES = {
    "scenes.worker": {"explainers.outputs.clip.drawing_job"},  # what the clip writer hands to the worker process
    "scenes.lesson_scene": {"explainers.batch"},  # a door too: the one that `manim render` opens
}

# Outside library -> the modules that may import it (a trailing dot: that package and all in it).
OUTSIDE: dict[str, tuple[str, ...]] = {
    "yaml": ("explainers.document.yaml_events", "explainers.document.composing", "explainers.document.laid_out"),
    "svgelements": ("explainers.item.svg_shapes",),
    "shapely": (
        "explainers.geometry.",
        "explainers.item.outline_checks.",
        "explainers.choice.",
        "explainers.kinds.",
        "explainers.figure.",
    ),
    "numpy": (
        "explainers.geometry.",
        "explainers.choice.",
        "explainers.kinds.",
        "explainers.figure.",
        "explainers.video.",
        "explainers.voice.",
        "explainers.fitting.prompter_log",
        "explainers.tracing.",
        "scenes.",
    ),
    "cv2": ("explainers.tracing.vision",),
    "manim": ("scenes.",),
    "manimpango": ("scenes.",),
    "cairo": ("scenes.",),
    "scipy": ("explainers.voice.",),
    "espeakng_loader": ("explainers.voice.espeak",),
    "av": ("explainers.video.", "explainers.voice.", "explainers.outputs.clip.writer", "scenes.worker"),
    "pptx": ("explainers.outputs.pptx.",),
    "lxml": ("explainers.outputs.pptx.",),
    "weasyprint": ("explainers.outputs.pdf.",),
    "pydyf": ("explainers.outputs.pdf.",),
    "fontTools": ("explainers.typeface.",),
    "babel": ("explainers.words.",),
    "starlette": (
        "explainers.web.events",
        "explainers.preview.server",
        "explainers.table.server",
        "explainers.table.dropped",
    ),
    "uvicorn": ("explainers.web.serving",),
    "watchfiles": ("explainers.preview.watching",),
    "typer": ("explainers.cli.",),
    "rich": ("explainers.cli.",),
}

# `import explainers` may name every room's public function, since it loads none.
FRONT_PAGE = "explainers"


def modules() -> Iterator[tuple[str, Path]]:
    """Every module of ours, by its dotted name."""
    for package in ("explainers", "scenes"):
        for path in sorted((ROOT / package).rglob("*.py")):
            parts = path.relative_to(ROOT).with_suffix("").parts
            yield ".".join(parts[:-1] if parts[-1] == "__init__" else parts), path


@cache
def tree_of(path: Path) -> ast.Module:
    """The syntax tree of a module, parsed once however many tests walk it."""
    return ast.parse(path.read_text(encoding="utf-8"))


def imports_of(module: str, path: Path) -> Iterator[tuple[str, int]]:
    """Dotted names of what a module imports, relative ones made whole, with the line of each."""
    package = module.split(".") if path.name == "__init__.py" else module.split(".")[:-1]
    for node in ast.walk(tree_of(path)):
        if isinstance(node, ast.Import):
            for alias in node.names:
                yield alias.name, node.lineno
        elif isinstance(node, ast.ImportFrom):
            above = package[: len(package) - node.level + 1] if node.level else []
            start = ".".join([*above, *([node.module] if node.module else [])])
            for alias in node.names:
                # `from . import model` names a module, `from .model import Item` a name in one: both are covered.
                yield f"{start}.{alias.name}", node.lineno
        elif isinstance(node, ast.Call) and "import_module" in ast.unparse(node.func) and node.args:
            name = node.args[0]
            if isinstance(name, ast.Constant) and isinstance(name.value, str):
                yield name.value, node.lineno


def room_of(name: str) -> str | None:
    """The room that a dotted name of ours stands in, the innermost that has a row; None for what is not ours."""
    parts = name.split(".")
    if parts[0] == "scenes":
        return "scenes"
    if parts[0] != "explainers":
        return None
    if len(parts) > 2 and parts[1] == "kinds" and (ROOT / "explainers" / "kinds" / parts[2]).is_dir():
        return "kinds.*"
    rooms = [".".join(parts[1:length]) for length in range(len(parts), 1, -1)]
    return next((room for room in rooms if room in ROOMS), "explainers")


MODULES = list(modules())


@pytest.mark.parametrize(("module", "path"), MODULES, ids=[module for module, _ in MODULES])
def test_a_module_imports_only_what_its_room_may(module: str, path: Path) -> None:
    if module == FRONT_PAGE:
        return
    room = room_of(module)
    assert room in ROOMS and room != "explainers", f"{module} stands in no room of the table"
    for name, line in imports_of(module, path):
        other = room_of(name)
        if other is None or other in (room, "errors"):
            continue
        besides = any(f"{name}.".startswith(f"{allowed}.") for allowed in BESIDES.get(module, ()))
        assert besides or other in ROOMS[room], f"{path.relative_to(ROOT)}:{line}: {room} may not import {name}"


@pytest.mark.parametrize(("module", "path"), MODULES, ids=[module for module, _ in MODULES])
def test_an_outside_library_is_named_only_where_it_belongs(module: str, path: Path) -> None:
    for name, line in imports_of(module, path):
        library = name.split(".")[0]
        if library in sys.stdlib_module_names or room_of(name) is not None:
            continue
        allowed = OUTSIDE.get(library)
        place = f"{path.relative_to(ROOT)}:{line}"
        assert allowed is not None, f"{place}: {library} is a library that the table does not know"
        assert any(f"{module}.".startswith(start) for start in allowed), f"{place}: {library} does not belong here"


def test_formats_are_blind_to_one_another() -> None:
    """A format may import what all formats share, never another format."""
    formats = {f"outputs.{path.name}" for path in (ROOT / "explainers" / "outputs").iterdir() if path.is_dir()}
    formats -= {"outputs.shared", "outputs.__pycache__"}
    assert formats <= set(ROOMS)
    for room in formats:
        assert not ROOMS[room] & formats, f"{room} knows another format"


def test_nobody_imports_a_kind_of_question() -> None:
    """Kinds are found by entry point and asked for what the protocol says, not for what one of them happens to have."""
    for room, others in ROOMS.items():
        assert "kinds.*" not in others, f"{room} may import a kind"
    for module, path in MODULES:
        if room_of(module) != "kinds.*":
            continue
        own = ".".join(module.split(".")[:3])
        for name, line in imports_of(module, path):
            if room_of(name) == "kinds.*":
                assert f"{name}.".startswith(f"{own}."), f"{path.relative_to(ROOT)}:{line}: a kind imports {name}"


def test_the_order_of_rooms_has_no_way_back() -> None:
    """Every room imports from rooms that stand before it in the table."""
    order = list(ROOMS)
    for room, others in ROOMS.items():
        for other in others:
            assert order.index(other) < order.index(room), f"{room} imports from {other}, which stands after it"


def test_no_room_imports_a_door_or_the_scenes() -> None:
    """The clip writer starts the scenes as a process, so that nothing else ever pays for manim."""
    for module, path in MODULES:
        for name, line in imports_of(module, path):
            other = room_of(name)
            if other in ("cli", "scenes"):
                assert room_of(module) == other, f"{path.relative_to(ROOT)}:{line}: imports {name}"


def test_the_walk_sees_imports_inside_functions(tmp_path: Path) -> None:
    path = tmp_path / "inner.py"
    path.write_text("def f():\n    from ..cli import main\n    import yaml\n", encoding="utf-8")
    assert list(imports_of("explainers.item.inner", path)) == [("explainers.cli.main", 2), ("yaml", 3)]


# Plain words of the plane that everyone needs: each is defined in the module named, and imported elsewhere.
PLANE = {
    "Point": "explainers.geometry.rigid_motion",
    "Side": "explainers.geometry.rigid_motion",
    "Ring": "explainers.geometry.rigid_motion",
}


def definitions(tree: ast.Module) -> Iterator[tuple[str, str]]:
    """(name, what it stands for) of the type aliases of a module."""
    for node in tree.body:
        if isinstance(node, ast.Assign) and len(node.targets) == 1 and isinstance(node.targets[0], ast.Name):
            yield node.targets[0].id, ast.unparse(node.value)


@pytest.mark.parametrize(("module", "path"), MODULES, ids=[module for module, _ in MODULES])
def test_points_sides_and_rings_are_defined_once(module: str, path: Path) -> None:
    """A pair of points is a side, whatever a module might like to call it."""
    for name, meaning in definitions(tree_of(path)):
        if PLANE.get(name) == module:
            continue
        again = name in PLANE or meaning == "tuple[Point, Point]"
        assert not again, f"{path.relative_to(ROOT)}: {name} is defined again: import it from explainers.geometry"


@pytest.mark.parametrize(("module", "path"), MODULES, ids=[module for module, _ in MODULES])
def test_only_the_geometry_asks_whether_a_ray_crosses_a_side(module: str, path: Path) -> None:
    """The mark of an even-odd test written again: `(a > y) != (b > y)`."""
    if module in (
        "explainers.geometry.rings",
        "explainers.kinds.join_and_cut.slips.forecast",
    ):  # there, for many at once
        return
    for node in ast.walk(tree_of(path)):
        if isinstance(node, ast.Compare) and isinstance(node.ops[0], ast.NotEq):
            both = (node.left, node.comparators[0])
            crossing = all(isinstance(one, ast.Compare) and isinstance(one.ops[0], ast.Gt) for one in both)
            assert not crossing, f"{path.relative_to(ROOT)}:{node.lineno}: ask geometry.rings.point_in_polygon"


def modules_imported(module: str, path: Path) -> set[str]:
    """The modules of ours that one imports, names in them and itself left out."""
    known = {name for name, _ in MODULES}
    found = {name if name in known else name.rpartition(".")[0] for name, _ in imports_of(module, path)}
    return (found & known) - {module}


def test_no_modules_import_each_other_in_a_circle() -> None:
    """Not even for types alone: what is read first needs nothing that is read later."""
    TopologicalSorter({module: modules_imported(module, path) for module, path in MODULES}).prepare()
