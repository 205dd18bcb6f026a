"""A drawing sent to the table: a proposal comes back to be looked at, whatever it holds nothing comes to harm."""

from __future__ import annotations

import io
import json
import resource
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import pytest
from asking import Page, drawn_on
from hostile_uploads import NAMES, dies, hostile_uploads, hungry, never_done
from test_sitting import CORNER

from explainers.table import dropped, read_apart
from explainers.table.read_apart import Asked, proposed
from explainers.table.server import TableServer

DRAWING = b"""<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 140">
<rect id="base" x="20" y="20" width="80" height="80"/><polygon id="wing" points="100,40 140,40 100,80"/>
<rect id="notch" x="20" y="60" width="20" height="20"/></svg>"""


@pytest.fixture(scope="module")
def path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("drawn") / "corner-block.yaml"
    made.write_text(CORNER, encoding="utf-8")
    return made


@pytest.fixture(scope="module")
def server(path: Path) -> Iterator[TableServer]:
    with drawn_on(path) as served:
        yield served


def sent(server: TableServer, data: bytes, **asked: Any) -> tuple[int, Any]:
    """(status, answer)"""
    place = f"/{server.secret}/trace?{urlencode(asked)}"
    status, raw = Page(server).asked("POST", place, data, Content_Type="application/octet-stream")
    return status, json.loads(raw) if raw.startswith(b"{") else raw.decode()


def test_a_drawing_comes_back_as_a_proposal_and_nothing_is_changed(server: TableServer, path: Path) -> None:
    status, told = sent(server, DRAWING, unit=20, source="a.svg")
    assert status == 200 and told["kind"] == "drawing"
    base, wing, notch = told["outlines"]
    assert base["role"] == "base" and base["corners"] == [[0, 0], [4, 0], [4, 4], [0, 4]]
    assert sorted(base["rings"][0]) == [[20, 20], [20, 100], [100, 20], [100, 100]]
    assert (wing["does"], notch["does"]) == ("join", "cut")
    assert sorted(wing["side"]) == sorted(wing["meets"]) == [[100, 40], [100, 80]]
    assert "item: corner-block\ntitle: The corner block\n" in told["text"], "it keeps its name and its title"
    assert Page(server).state["revision"] == 1 and path.read_text() == CORNER


def test_what_a_person_says_of_the_shapes_holds(server: TableServer) -> None:
    _, told = sent(server, DRAWING, unit=20)
    numbers = {each["name"]: each["number"] for each in told["outlines"]}
    _, other = sent(server, DRAWING, unit=20, base=numbers["wing"], without=numbers["notch"])
    assert [each["role"] for each in other["outlines"]] == ["base", "piece"]
    assert other["outlines"][0]["number"] == numbers["wing"]
    assert [each["number"] for each in other["left_out"]] == [numbers["notch"]] and "notch" not in other["text"]
    _, holed = sent(server, DRAWING.replace(b'x="20" y="60"', b'x="40" y="60"'), unit=10, holes=numbers["notch"])
    assert len(holed["outlines"][0]["holes"]) == 1 and holed["outlines"][0]["hole_numbers"] == [numbers["notch"]]
    status, none = sent(server, DRAWING, without=",".join(map(str, numbers.values())))
    assert status == 422 and "left out" in none["message"]


def test_it_is_taken_by_one_edit_that_one_undo_takes_back(tmp_path: Path) -> None:
    path = tmp_path / "new-block.yaml"
    with drawn_on(path) as served:
        page = Page(served)
        before = page.state["text"]
        _, told = sent(served, DRAWING, unit=20)
        status, done = page.post("edit", {"revision": page.state["revision"], "text": told["text"]})
        assert status == 200 and done["state"]["verdict"]["state"] == "sound" and len(done["state"]["laid"]) == 2
        _, back = page.post("undo", {"revision": page.state["revision"]})
        assert back["state"]["text"] == before


def test_a_slide_is_read_by_its_number(server: TableServer) -> None:
    from pptx import Presentation
    from pptx.enum.shapes import MSO_SHAPE
    from pptx.util import Cm

    deck = Presentation()
    for wide in (4, 6):
        shapes = deck.slides.add_slide(deck.slide_layouts[6]).shapes
        shapes.add_shape(MSO_SHAPE.RECTANGLE, Cm(2), Cm(2), Cm(wide), Cm(4))
    packed = io.BytesIO()
    deck.save(packed)
    for number, wide in ((1, 4), (2, 6)):
        status, told = sent(server, packed.getvalue(), slide=number)
        assert (status, told["kind"]) == (200, "slide")
        assert max(x for x, _ in told["outlines"][0]["corners"]) == wide
    status, told = sent(server, packed.getvalue(), slide=3)
    assert status == 422 and "no slide 3" in told["message"]


@pytest.mark.parametrize(
    ("asked", "status"),
    [
        ({"unit": "nan"}, 400),
        ({"unit": "0"}, 400),
        ({"unit": "1e9"}, 400),
        ({"grid": "-1"}, 400),
        ({"slide": "x"}, 400),
        ({"base": "9" * 30}, 400),
        ({"without": "1,2,x"}, 400),
        ({"base": "77"}, 200),
        ({"holes": ",,"}, 200),
    ],
)
def test_what_is_asked_for_has_bounds(asked: dict[str, str], status: int, server: TableServer) -> None:
    assert sent(server, DRAWING, **asked)[0] == status


def test_only_bytes_are_taken_and_only_there(server: TableServer) -> None:
    page, place = Page(server), f"/{server.secret}/trace"
    kinds = ("application/json", "image/png", "image/svg+xml", "multipart/form-data", "text/plain", "")
    for kind in kinds:
        assert page.asked("POST", place, DRAWING, Content_Type=kind)[0] == 415, kind
    assert page.asked("GET", place)[0] == 405
    bytes_ = {"Content_Type": "application/octet-stream"}
    assert page.asked("POST", f"/{server.secret}/edit", DRAWING, **bytes_)[0] == 415
    assert page.asked("POST", place, DRAWING, Origin="http://evil.example", **bytes_)[0] == 403
    # Refused by what it says of itself: nothing of it is waited for.
    assert page.asked("POST", place, b"", Content_Length="30000001", **bytes_)[0] == 413
    assert page.asked("POST", f"/{server.secret}/edit", b"", Content_Length="3000001", **bytes_)[0] == 413


def test_without_the_library_a_picture_is_refused_with_the_fix(monkeypatch: pytest.MonkeyPatch) -> None:
    from explainers.errors import OutputError
    from explainers.tracing import from_picture

    def missing(data: bytes) -> None:
        raise OutputError("pictures are read by OpenCV, which is not installed. To mend it: install it.")

    monkeypatch.setattr(read_apart._Kept, "bounded", True)  # this process is not to be bounded
    monkeypatch.setattr(from_picture, "picture_of", missing)
    asked = Asked(
        unit=20,
        grid=0.5,
        slide=1,
        base=None,
        without=frozenset(),
        holes=frozenset(),
        pieces=frozenset(),
        source="a",
        name="a",
        title=None,
    )
    told = proposed(b"\x89PNG\r\n\x1a\n", asked)
    assert told["why"] == "refused" and "not installed" in told["message"] and told["fix"] == "install it"
    assert proposed(DRAWING, asked)["kind"] == "drawing"


@pytest.mark.parametrize(
    ("work", "words"), [(never_done, "takes longer"), (dies, "failed over it"), (hungry, "memory")]
)
def test_a_file_costs_its_own_process_at_most(
    work: Any, words: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(dropped, "proposed", work)
    if work is never_done:
        monkeypatch.setattr(dropped, "_LONGEST_S", 0.2)
    with drawn_on(tmp_path / "new-block.yaml") as served:
        for _ in range(2):  # the next one is read by a process that was started anew
            status, told = sent(served, DRAWING)
            assert status == 422 and words in told["message"] and told["fix"]
        assert Page(served).state["revision"] == 1


def test_hostile_files_are_refused_or_harmless(
    server: TableServer, path: Path, cases: Any, capfd: pytest.CaptureFixture[str]
) -> None:
    every = list(hostile_uploads())
    assert len(every) >= 200
    sent(server, DRAWING)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    for number, (name, data) in enumerate(every[:: cases(len(every) // 20, 1)]):
        status, told = sent(server, data, source=NAMES[number % len(NAMES)])
        assert status in (200, 422), (name, status, told)
        if status == 422:
            assert told["message"] and told["fix"] and "program itself failed" not in told["message"], (name, told)
        else:
            assert "\nitem: corner-block\n" in told["text"] and "item: evil" not in told["text"].splitlines(), name
    assert sent(server, DRAWING)[0] == 200
    assert Page(server).state["revision"] == 1 and path.read_text() == CORNER
    assert sorted(each.name for each in path.parent.iterdir() if not each.name.startswith(".")) == [path.name]
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 250_000  # kilobytes
    assert "Traceback" not in capfd.readouterr().err
