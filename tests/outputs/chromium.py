"""A headless Chromium, spoken to over its own debugging pipe: one page, one script, one answer."""

from __future__ import annotations

import contextlib
import fcntl
import json
import os
import select
import subprocess
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

__all__ = ["CHROMIUM", "Page", "opened_page"]

CHROMIUM = Path("/usr/bin/chromium")  # Debian's; its FFmpeg plays H.264, as not every build's does

_LONGEST_S = 120.0


class Page:
    """An open page; messages are JSON, each ended by a zero byte."""

    def __init__(self, write_to: int, read_from: int) -> None:
        self._write_to = write_to
        self._read_from = read_from
        self._waiting = b""
        self._number = 0
        self._session: str | None = None

    def open(self, uri: str) -> None:
        """Go to a page and wait until it has loaded."""
        target = self._ask("Target.createTarget", url="about:blank")["targetId"]
        self._session = self._ask("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        self._ask("Page.enable")
        self._ask("Page.navigate", url=uri)
        self.answer("new Promise(done => document.readyState === 'complete' ? done() : addEventListener('load', done))")

    def answer(self, expression: str) -> Any:
        """What an expression comes to in the page; promises are waited for. AssertionError with what it threw."""
        result = self._ask("Runtime.evaluate", expression=expression, awaitPromise=True, returnByValue=True)
        if "exceptionDetails" in result:
            raise AssertionError(json.dumps(result["exceptionDetails"])[:2000])
        return result["result"].get("value")

    def _ask(self, method: str, **params: object) -> dict[str, Any]:
        self._number += 1
        message: dict[str, object] = {"id": self._number, "method": method, "params": params}
        if self._session is not None:
            message["sessionId"] = self._session
        os.write(self._write_to, json.dumps(message).encode() + b"\0")
        deadline = time.monotonic() + _LONGEST_S
        while True:
            said = json.loads(self._next(deadline))
            if said.get("id") == self._number:
                if "error" in said:
                    raise AssertionError(f"{method}: {said['error']}")
                result: dict[str, Any] = said["result"]
                return result

    def _next(self, deadline: float) -> bytes:
        while b"\0" not in self._waiting:
            left_s = deadline - time.monotonic()
            if left_s <= 0 or not select.select([self._read_from], [], [], left_s)[0]:
                raise TimeoutError("Chromium does not answer")
            more = os.read(self._read_from, 1 << 16)
            if not more:
                raise ConnectionError("Chromium has gone")
            self._waiting += more
        message, self._waiting = self._waiting.split(b"\0", 1)
        return message


@contextlib.contextmanager
def opened_page(uri: str, profile: Path) -> Iterator[Page]:
    """A page in a browser of its own, which is ended with the block; `profile` is an empty folder for it."""
    # The browser reads commands from file 3 and answers on file 4. Ours are moved out of the way of these numbers.
    to_browser, our_end = (fcntl.fcntl(end, fcntl.F_DUPFD_CLOEXEC, 10) for end in os.pipe())
    from_browser, its_end = (fcntl.fcntl(end, fcntl.F_DUPFD_CLOEXEC, 10) for end in os.pipe())

    def lay_pipes() -> None:
        os.dup2(to_browser, 3)
        os.dup2(its_end, 4)

    command = [
        str(CHROMIUM), "--headless", "--no-sandbox", "--disable-gpu", "--mute-audio", "--no-first-run",
        "--disable-dev-shm-usage", "--autoplay-policy=no-user-gesture-required", "--remote-debugging-pipe",
        f"--user-data-dir={profile}",
    ]  # fmt: skip
    process = subprocess.Popen(
        command,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        preexec_fn=lay_pipes,
        pass_fds=(3, 4),
        env={**os.environ, "HOME": str(profile)},
    )
    os.close(to_browser)
    os.close(its_end)
    try:
        page = Page(our_end, from_browser)
        page.open(uri)
        yield page
        with contextlib.suppress(OSError, AssertionError, ConnectionError):
            page._session = None
            page._ask("Browser.close")
        with contextlib.suppress(subprocess.TimeoutExpired):
            process.wait(10)
    finally:
        process.kill()
        process.wait()
        os.close(our_end)
        os.close(from_browser)
