"""News to a page as server-sent events: a text whenever something has changed, a sign of life where nothing has."""

from __future__ import annotations

from collections.abc import AsyncIterator, Callable

from starlette.responses import StreamingResponse

from .bell import Bell

__all__ = ["news"]

_STILL_THERE_S = 15.0  # between signs of life


def news(bell: Bell, told: Callable[[], str | None], *, still_there_s: float = _STILL_THERE_S) -> StreamingResponse:
    """An answer that goes on until the page leaves.

    told : what there is to say now, one line, asked whenever the bell rings and said where it is another than before;
           None ends it
    """
    return StreamingResponse(_events(bell, told, still_there_s), media_type="text/event-stream")


async def _events(bell: Bell, told: Callable[[], str | None], still_there_s: float) -> AsyncIterator[str]:
    yield "retry: 1000\n\n"
    before: str | None = None
    with bell.listening() as listener:
        while (now := told()) is not None:
            if now != before:
                before = now
                yield f"data: {now}\n\n"
            elif not await listener.wait(still_there_s):
                yield ": still there\n\n"
