"""How long a change on the drawing table takes until it is answered: from the request to verdict, sheet and options.

    .venv/bin/python tests/bench/table_change.py [CHANGES]

Commands are posted to a running server, one after the other (60 unless told), for a question of six pieces and five
options; medians and worst are printed for each kind of change, and what the second answer takes. Beside them stands how
long the processor was used, which says more where others use the machine too; client and server are one process here.
"""

from __future__ import annotations

import http.client
import json
import sys
import tempfile
from pathlib import Path
from statistics import median
from time import perf_counter, process_time
from typing import Any

sys.path[:0] = [str(Path(__file__).parents[2]), str(Path(__file__).parents[1] / "table")]

from six_pieces import SIX

from explainers.table.desk import Desk
from explainers.table.server import TableServer
from explainers.table.sitting import Sitting

CHANGES = {
    "a corner of a piece is dragged": lambda n: {
        "do": "move-corner",
        "at": "pieces[3]",
        "corner": 2,
        "to": [1 + n / 100, 2],
    },
    "a piece is turned on the sheet": lambda n: {"do": "set", "at": "pieces[1].turned", "value": 60 + n},
    "an option is turned": lambda n: {"do": "set", "at": "options[1].turned", "value": 10 + n},
    "the title is changed": lambda n: {"do": "set", "at": "title", "value": f"Six pieces {n}"},
}


def asked(server: TableServer, method: str, path: str, body: Any = None) -> Any:
    """One request."""
    connection = http.client.HTTPConnection("127.0.0.1", server.server_port, timeout=60)
    sent = None if body is None else json.dumps(body)
    connection.request(method, f"/{server.secret}/{path}", sent, {"Content-Type": "application/json"} if sent else {})
    answer = json.loads(connection.getresponse().read())
    connection.close()
    return answer


def show(name: str, times: list[tuple[float, float]]) -> None:
    """A line of the table."""
    took, used = zip(*times, strict=True)
    print(
        f"{name:34} median {median(took) * 1000:5.0f} ms   worst {max(took) * 1000:5.0f} ms   "
        f"processor {median(used) * 1000:5.0f} ms"
    )


def main() -> None:
    """Measure each kind of change in turn."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 60
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "six-pieces.yaml"
        path.write_text(SIX, encoding="utf-8")
        server = TableServer(Desk(Sitting(path)))
        server.start()
        asked(server, "GET", "state")
        every: list[tuple[float, float]] = []
        for name, change in CHANGES.items():
            times = []
            for number in range(max(1, count // len(CHANGES))):
                revision = asked(server, "GET", "state")["revision"]
                body = {"revision": revision, "commands": [change(number)]}
                start, used = perf_counter(), process_time()
                answer = asked(server, "POST", "edit", body)
                times.append((perf_counter() - start, process_time() - used))
                assert answer["done"] and answer["state"]["verdict"]["state"] == "sound", answer
                assert answer["state"]["sheet"]
            every += times
            show(name, times)
        show("all", every)
        later = []
        for number in range(3):
            revision = asked(server, "GET", "state")["revision"]
            change = {"do": "set", "at": "pieces[0].turned", "value": 40 + number}
            asked(server, "POST", "edit", {"revision": revision, "commands": [change]})
            start, used = perf_counter(), process_time()
            asked(server, "GET", "later")
            later.append((perf_counter() - start, process_time() - used))
        show("the second answer (proof, slips)", later)
        server.stop()


if __name__ == "__main__":
    main()
