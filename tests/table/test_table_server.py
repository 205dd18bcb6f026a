"""The drawing table asked over its addresses: what a page needs comes back, and nobody else gets anything."""

from __future__ import annotations

import http.client
import json
import resource
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import Any
from xml.etree import ElementTree

import pytest
from asking import Page, drawn_on
from demo_items import demo_items
from six_pieces import SIX
from test_sitting import CORNER

from explainers.intake.workspace import load_solution
from explainers.table.server import TableServer


@pytest.fixture
def path(tmp_path: Path) -> Path:
    made = tmp_path / "corner-block.yaml"
    made.write_text(CORNER, encoding="utf-8")
    return made


@pytest.fixture
def server(path: Path) -> Iterator[TableServer]:
    with drawn_on(path) as served:
        yield served


@pytest.mark.parametrize("item", demo_items(), ids=lambda item: item.stem)
def test_the_state_of_a_demo_item_is_what_its_solution_says(item: Path, tmp_path: Path) -> None:
    path = tmp_path / item.name
    path.write_bytes(item.read_bytes())
    solution = load_solution(path)
    with drawn_on(path) as served:
        state = Page(served).state
    assert state["verdict"]["state"] == "sound" and state["verdict"]["key"] == solution.key
    assert state["file"] == {**state["file"], "saved": True, "new": False, "other": None}
    assert [each["turn_deg"] for each in state["laid"]] == pytest.approx(list(solution.turns_deg))
    assert state["result"]["corners"] == [list(corner) for corner in solution.outline.exterior]
    assert [each["same"] for each in state["options"]] == [verdict.same for verdict in solution.verdicts]
    assert all(each["reason"] for each in state["options"]) and not state["faults"]
    for svg in (state["sheet"], *(each["svg"] for each in state["options"])):
        assert ElementTree.fromstring(svg).tag.endswith("svg")
    assert all(each["whole"] and each["given"] for each in state["outlines"])
    assert state["laid"] == [] or state["laid"][-1]["after"]["corners"] == state["result"]["corners"]
    assert path.read_bytes() == item.read_bytes()


def test_the_sheet_gives_nothing_away(server: TableServer) -> None:
    state = Page(server).state
    for word in ("result", "flipped", "slip", "option-"):
        assert word not in state["sheet"].split("<desc>")[0] + state["sheet"].split("</desc>")[-1]


def test_a_change_is_answered_with_all_that_follows_from_it(server: TableServer, path: Path) -> None:
    page = Page(server)
    before = page.state
    status, told = page.edit({"do": "set", "at": "pieces[0].turned", "value": 100})
    assert status == 200 and told["done"] and told["state"]["revision"] == before["revision"] + 1
    assert told["state"]["laid"][0]["turn_deg"] == pytest.approx(before["laid"][0]["turn_deg"] + 35)
    assert told["state"]["sheet"] != before["sheet"] and told["state"]["undo"] == 1
    assert "turned: 100" in path.read_text()
    status, told = page.post("undo", {"revision": page.state["revision"]})
    assert told["state"]["sheet"] == before["sheet"] and path.read_text() == CORNER
    status, told = page.post("redo", {"revision": page.state["revision"]})
    assert "turned: 100" in told["state"]["text"] and told["state"]["redo"] == 0


def test_a_change_is_tried_without_being_made(server: TableServer, path: Path) -> None:
    page = Page(server)
    before = page.get("state")
    command = {"do": "move-corner", "at": "pieces[0]", "corner": 2, "to": [0, 2.5]}
    status, told = page.post("try", {"revision": 1, "commands": [command]})
    assert status == 200 and not told["done"] and told["state"]["outlines"][1]["corners"][2] == [0, 2.5]
    assert told["state"]["result"] != before["result"] and told["state"]["verdict"]["state"] == "sound"
    assert page.get("state") == before and path.read_text() == CORNER
    assert page.post("try", {"revision": 9, "commands": [command]})[0] == 409


def test_a_fault_is_told_where_it_stands(server: TableServer, path: Path) -> None:
    page = Page(server)
    _, told = page.edit({"do": "marry", "piece": 0, "meets": [[0, 0], [4, 0]]})
    (fault,) = told["state"]["faults"]
    assert fault["field"] == "pieces[0].meets" and fault["fix"] and told["state"]["verdict"]["state"] == "refused"
    assert told["state"]["text"].splitlines()[fault["line"] - 1].strip().startswith("meets:")
    assert path.read_text() == CORNER and not told["state"]["file"]["saved"]
    assert told["state"]["outlines"][1]["meets"] == [[0.0, 0.0], [4.0, 0.0]]
    _, told = page.edit({"do": "marry", "piece": 0, "meets": 2})
    assert told["state"]["verdict"]["state"] == "sound" and "meets: 2" in path.read_text()


def test_an_item_is_drawn_from_nothing(tmp_path: Path) -> None:
    path = tmp_path / "pin.yaml"
    with drawn_on(path) as served:
        page = Page(served)
        assert page.state["file"]["new"] and page.state["verdict"]["state"] == "refused"
        page.edit({"do": "set-corners", "at": "base", "corners": [[0, 0], [4, 0], [4, 3], [0, 2]]})
        page.edit({"do": "add-piece", "does": "join"})
        page.edit({"do": "set-corners", "at": "pieces[0]", "corners": [[0, 0], [4, 0], [1, 1.5]]})
        page.edit({"do": "marry", "piece": 0, "side": 1, "meets": [[0, 0], [4, 0]], "of": "base"})
        page.edit({"do": "set-mark", "piece": 0, "sign": "bell"}, {"do": "rename-piece", "piece": 0, "name": "wing"})
        assert not path.exists()
        (laid,) = page.state["laid"]  # the proof of the side that was married needs no options
        assert laid["id"] == "piece-wing" and [4.0, 0.0] in laid["side"] and len(laid["after"]["corners"]) == 5
        page.edit({"do": "make-options", "make": 3, "seed": 2})
        assert page.state["made"] == {"make": 3, "seed": 2} and path.exists() and len(page.state["options"]) == 4
        assert page.edit({"do": "add-option"})[0] == 422
        status, told = page.edit({"do": "write-options"})
        assert status == 200 and told["state"]["made"] is None, told
        labels = [each["label"] for each in told["state"]["options"] if not each["same"]]
        before = [each["outline"] for each in told["state"]["options"]]
        status, told = page.edit({"do": "exchange-options", "labels": labels[0], "seed": 5})
        assert told["state"]["verdict"]["state"] == "sound", told
        after = [each["outline"] for each in told["state"]["options"]]
        assert sum(one != other for one, other in zip(before, after, strict=True)) == 1
        later = page.get("later")
        assert later["certificate"] and later["revision"] == told["state"]["revision"]
        for slip in later["slips"]:
            ElementTree.fromstring(slip["svg"])
        status, told = page.edit(later["slips"][0]["command"])
        assert told["state"]["verdict"]["state"] == "sound" and len(told["state"]["options"]) == 5
    assert load_solution(path).sound


def test_two_pages_are_merged_or_asked(server: TableServer) -> None:
    one, other = Page(server), Page(server)
    one.edit({"do": "set", "at": "pieces[0].turned", "value": 1})
    status, told = other.edit({"do": "set", "at": "title", "value": "Both"})
    assert status == 200 and told["merged"] and "turned: 1\n" in told["state"]["text"]
    status, told = one.edit({"do": "set", "at": "title", "value": "Mine"})
    assert status == 409 and told["why"] == "clash"
    (clash,) = told["clashes"]
    assert clash["ours"]["text"] == "Mine" and clash["theirs"]["text"] == "Both" and clash["field"] == "title"
    assert one.state["title"] == "Both"  # it has seen it now, and may say it again
    assert one.edit({"do": "set", "at": "title", "value": "Mine"})[0] == 200
    assert other.post("undo", {"revision": other.state["revision"]})[0] == 409


def test_a_file_changed_elsewhere_is_told_and_settled(server: TableServer, path: Path) -> None:
    page = Page(server)
    path.write_text(CORNER.replace("turned: 135", "turned: 7"), encoding="utf-8")
    status, told = page.edit({"do": "set", "at": "pieces[0].turned", "value": 8})
    other = told["state"]["file"]["other"]
    assert status == 200 and other["why"] == "clash" and other["clashes"][0]["theirs"] == {"text": "7", "line": 10}
    assert "turned: 7" in path.read_text()
    status, told = page.post("answer", {"revision": page.state["revision"], "keep": "ours"})
    assert told["state"]["file"]["other"] is None and "turned: 8" in path.read_text()


def test_news_come_with_every_change_of_any_window_or_of_the_file(server: TableServer, path: Path) -> None:
    connection = http.client.HTTPConnection("127.0.0.1", server.server_port, timeout=10)
    connection.request("GET", f"/{server.secret}/news")
    answer = connection.getresponse()

    def told() -> bytes:
        while not (line := answer.readline()).startswith(b"data: "):
            assert line
        return line

    seen = [told()]
    Page(server).edit({"do": "set", "at": "title", "value": "News"})
    seen.append(told())
    path.write_text(path.read_text().replace("News", "Newer"), encoding="utf-8")
    server.desk.look_at_file()
    seen.append(told())
    assert len(set(seen)) == 3 and "Newer" in Page(server).state["text"]
    connection.close()


def test_the_commands_tell_what_they_take(server: TableServer) -> None:
    listed = {each["do"]: each for each in Page(server).get("commands")}
    assert {"set-corners", "move-corner", "marry", "add-piece", "add-option", "write-options"} <= set(listed)
    assert listed["reorder"]["keys"] == {"at": "str", "from": "int", "to": "int"}
    assert all(each["what"].endswith(".") for each in listed.values())


def test_who_is_foreign_changes_and_learns_nothing(server: TableServer, path: Path) -> None:
    page = Page(server)
    body = json.dumps({"revision": 1, "commands": [{"do": "set", "at": "title", "value": "HACKED"}]}).encode()
    own, secret = f"/{server.secret}/edit", server.secret
    tried = [
        page.asked("POST", own, body, Host="evil.example"),
        page.asked("POST", own, body, Origin="http://evil.example"),
        page.asked("POST", own, body, Origin="null"),
        page.asked("POST", own, body, Sec_Fetch_Site="cross-site"),
        page.asked("POST", own, body, Content_Type="text/plain"),
        page.asked("POST", own, body, Content_Type="application/x-www-form-urlencoded"),
        page.asked("PUT", own, body),
        page.asked("POST", "/edit", body),
        page.asked("POST", f"/{secret[::-1]}/edit", body),
        page.asked("POST", f"/{secret}/../edit", body),
        page.asked("GET", f"/{secret}/edit"),
        page.asked("GET", f"/{secret}/{path.name}"),
        page.asked("GET", f"/{secret}/../{path.name}"),
        page.asked("GET", "/state"),
    ]
    assert all(status in (403, 404, 405, 415) for status, _ in tried)
    assert all(b"corner" not in answer for _, answer in tried)
    assert path.read_text() == CORNER and Page(server).state["revision"] == 1


def hostile(rng: Random) -> bytes:
    """Something that is no edit."""
    deep = rng.choice([17, 1000, 100_000])
    command: Any = rng.choice(
        [
            {"do": "set", "at": "title", "value": "\u0000"}, {"do": "set", "at": "../../etc/passwd", "value": "x"},
            {"do": "set", "at": "pieces[99999999999999999999].turned", "value": 1}, {"do": "set", "at": "a" * 5000},
            {"do": "set", "at": "base", "value": "x"}, {"do": "set", "at": "title", "value": ["x"]},
            {"do": "set", "at": "title", "value": True}, {"do": "set", "at": "title", "value": "\ud800"},
            {"do": "__class__"}, {"do": ["set"]}, {"do": "set-corners", "at": "base", "corners": "[[0, 0]]"},
            {"do": "set-corners", "at": "base", "corners": [[0, 0]] * 301},
            {"do": "set-corners", "at": "base", "corners": [[0, 1e300], [1, 1], [2, 2]]},
            {"do": "set-corners", "at": "base", "corners": [["0, 0], [1", 1], [1, 1], [2, 2]]},
            {"do": "move-corner", "at": "base", "corner": -1, "to": [0, 0]},
            {"do": "set-ready", "at": "base", "ready": "rectangle", "sizes": {"wide: 1}, evil: {a": 2}},
            {"do": "add-piece", "name": "x\ny: z"}, {"do": "reorder", "at": "options", "from": 0, "to": 99},
            {"do": "exchange-options", "labels": "Z" * 500}, {"do": "marry", "piece": 0, "side": [[0, 0]]},
            {"do": "set", "at": "title", "value": "x", "file": "/etc/passwd"}, None, 3, [], "set",
        ]
    )  # fmt: skip
    whole = {"revision": 1, "commands": [command] * rng.choice([1, 1, 1, 51])}
    return rng.choice(
        [
            json.dumps(whole).encode(), json.dumps(whole).encode(), json.dumps(whole).encode(),
            b"[" * deep, b'{"revision": 1, "commands": ' + b"[" * deep + b"]" * deep + b"}",
            b'{"revision": 1, "commands": [{"do": "set", "at": "pieces[0].turned", "value": NaN}]}',
            b'{"revision": 1, "commands": [{"do": "set", "at": "pieces[0].turned", "value": 1e999}]}',
            b'{"revision": true, "commands": [{"do": "set", "at": "title", "value": "x"}]}',
            b'{"revision": 1e308, "text": "item: x"}', b'{"revision": 1, "text": 3}', b"", b"\xff" * 100,
            b'{"revision": 1, "text": "' + b"a" * 2_900_000 + b'"}', b"a" * 3_000_001,
            rng.randbytes(rng.randint(1, 500)),
        ]
    )  # fmt: skip


def test_what_is_no_edit_is_refused_and_memory_stays_as_it_is(
    server: TableServer, path: Path, cases: Any, capfd: pytest.CaptureFixture[str]
) -> None:
    page = Page(server)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    for seed in range(cases(120, 500)):
        body = hostile(Random(seed))
        try:
            status, answer = page.asked("POST", f"/{server.secret}/edit", body)
        except (ConnectionError, http.client.HTTPException):  # too large: dropped while it was sent
            continue
        assert status in (400, 409, 413, 422), (status, body[:200], answer[:200])
        assert b"Traceback" not in answer and b"root:" not in answer
    assert page.get("state")["revision"] == 1 and path.read_text() == CORNER
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 200_000  # kilobytes
    assert "Traceback" not in capfd.readouterr().err


def test_words_of_a_file_are_no_markup(tmp_path: Path) -> None:
    path = tmp_path / "corner-block.yaml"
    path.write_text(CORNER.replace("The corner block", "'<script>alert(1)</script>'"), encoding="utf-8")
    with drawn_on(path) as served:
        page = Page(served)
        _, shown = page.asked("GET", f"/{served.secret}/")
        assert b"alert" not in shown and shown.count(b"<script") == 1
        assert "<script" not in page.state["sheet"] and page.state["title"] == "<script>alert(1)</script>"


def test_the_largest_question_is_told_whole(tmp_path: Path) -> None:
    path = tmp_path / "six-pieces.yaml"
    path.write_text(SIX, encoding="utf-8")
    with drawn_on(path) as served:
        state = Page(served).state
    assert state["verdict"]["state"] == "sound" and len(state["laid"]) == 6 and state["sheet"]
