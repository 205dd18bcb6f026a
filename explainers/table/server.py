"""The addresses of the drawing table, served to a browser on this machine; see ``web.guard`` for who may ask.

Every address begins with the secret, so a page uses relative ones. What is sent is JSON with the content type
``application/json``, at most 3,000,000 bytes and 16 deep; what comes back is JSON too.

GET  .          the page; NAME.js, table.css, colours.css: what it is made of
GET  state      the state (below)
GET  later      {revision, certificate: [line], without: [piece], refused: [{why, slips}], slips: [{slip, piece, words,
                svg, outline, command}]}: the proof, the pieces of which no option shows a slip, each slip that could be
                an option with the command that adds it; where more than options is missing all are empty. Ask for it
                when nothing has changed for a moment; its revision says of which text it is
GET  mends      {revision, mends: [{of: "fault" | "warning" | "verdict" | "without", number, piece, offers: [{words,
                commands}], accepts: kind | null}]}: what mends each fault, each warning (by its number among them),
                an unsound question, a piece of which no option shows a slip. Every offer has been tried: what it is
                for is gone after it, and no new fault is there. No offers: there is no single mend. A warning is let
                stand by {do: "set", at: "accepted.KIND", value: the reason}. Ask for it as for later
GET  choices    {signs: [name], ready: [{name, what, sizes: [{name, what, optional, example}]}], kinds: [name]}: what
                there is to choose from, whatever the file holds
GET  commands   [{do, keys: {key: type}, what}]; a type that ends in ? may be left out
GET  news       server-sent events: a text that is another one whenever the state is; load it then
POST edit       {revision, commands: [{do, ...}]}, all or none of at most 50; or {revision, text} for a whole text
POST try        {revision, commands}, as while something is dragged: answered by 200 {done: false, notes, state} with
                what would come of it; nothing is changed or kept
POST undo, redo {revision}
POST answer     {revision, keep: "ours" | "theirs"} where ``file.other`` asks
POST trace      a drawing's bytes, see ``dropped``

The lesson (``lesson_desk``):
GET  strip      {revision, lesson: name, "" for the item alone, lessons: [name], offer: the name of a lesson that could
                be made, folder: where it is built, steps: [{id, key, heading, said, own, moves, pause_s, alt, warnings:
                [{field, line, message, fix}]}], gone: [warning of words whose step is gone], why: [line] where there
                are no steps}; ask for it after the state
GET  still/KEY  the picture of a step as SVG, for ever the same
GET  builds     {state: "none" | "making" | "made" | "failed" | "stopped", of, folder, said: [line], outputs: [{output,
                state: "waiting" | "making" | "made" | "kept" | "not made", files, done, total}]}
POST lesson     {lesson} which one is told; new-lesson {name: the one offered}; words {lesson, step, said, was}, said ""
                for the program's own, 409 {why: "clash", theirs} where they are not as they were; motion {key}, by
                200 {done: true, motion: see ``outputs.html.engine``}; build {outputs: of "clip", "slides", "page",
                "sheets"}, 409 {why: "busy"}; stop-build {}

``revision`` is the one that the page has seen. Fields are paths such as base, pieces[0].turned, options[2]; numbers are
from 0. A coordinate is a number, written short, or a text such as "2.8284", written as typed.

A POST is answered by
200 {done: true, notes, merged, state}; a note is {note: "became-corners", field, was} or {note: "renamed", field,
    name}; merged: others have changed other fields since that revision
409 {done: false, why: "clash", clashes: [{field, ours: {text, line}, theirs: {text, line}}], state}: others have
    changed the same field; or why: "stale": what was seen is too long ago, or for undo, redo and answer not the last
422 {done: false, why: "refused", message, fix}: it cannot be done
400 what is no JSON, 413 too large, 500 {why: "failed", message} where the journal cannot be written

The state: {revision, file: {name, saved, new, taken_up, failed, other: null | {why: "clash" | "unreadable" | "gone",
fault, clashes, has_text}}, undo, redo, text, kind, name, title, readable, outlines, options, made: null | {make, seed},
faults: [{field, line, message, fix}], todo: [{fields, words, how, does, piece, ready}] (what is still missing, for
somebody who draws; the faults of its fields say the same of keys), warnings and accepted: [{kind, field, line, message,
fix}], verdict: {state: "sound" | "unsound" | "refused", key, because: [line]}, laid: [{id, turn_deg, corners, side,
after: {corners, holes}, line}], result: null | {corners, holes}, features, pause_s, sheet: null | svg, on_sheet:
[{id, option, middle, room: [left, top, right, low]}]}

on_sheet: where pieces (by id) and options (by letter) lie on the sheet, in units of its view box.
laid: of a question that cannot be solved yet, as many pieces from the first as can be laid.

file.saved: the file has this text; a text with faults of its reader stays in the journal. taken_up: a sitting before
did not end well, and this goes on from it. readable: the text is YAML; where it is not, only a whole text can be put.
outlines: [{id, field, role: "base" | "piece" | "outline", given: "corners" | "walk" | "ready" | "", ready, corners,
whole, holes, sizes: [{at, name, words, value, counts, moves: [[x, y]], hole}], ...}], in the coordinates of the file;
moves: by how much each corner moves for each 1 of a size. Pieces also {name, does, turned, side, meets, of, mark, sign,
has_side, has_meets}, where a side is two points, a number from 1, or null, and has_ tells whether anything is written
there. options: the same with role "option", and {label, slip, piece, turned, scale, same, mirrored, reason,
nearly_right, svg, outline} where they are known; made options have no corners.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, PlainTextResponse, Response
from starlette.routing import Route

from ..web.bodies import BadBody, json_in
from ..web.events import news
from ..web.guard import POLICY
from ..web.serving import LocalServer
from .desk import Desk, Told
from .dropped import MOST_DROPPED, TRACE, Dropped
from .lesson_desk import LessonDesk
from .page import STATIC, choices, page, static_file

__all__ = ["TableServer"]

_MOST_BODY = 3_000_000
_PICTURES = "; img-src 'self' blob: data:"  # what is dropped on the page is shown there


class TableServer(LocalServer):
    """Serves a desk until it is told to stop."""

    def __init__(self, desk: Desk, lesson: LessonDesk | None = None) -> None:
        """Takes a free port; OSError where there is none."""
        self.desk = desk
        self._dropped = Dropped(desk.sitting)
        self.lesson = lesson or LessonDesk(desk)
        app = Starlette(
            routes=[
                Route("/", self._page),
                Route("/state", self._of(desk.state)),
                Route("/later", self._of(desk.later)),
                Route("/mends", self._of(desk.mends)),
                Route("/commands", self._of(desk.described)),
                Route("/choices", self._of(choices)),
                *(Route(f"/{name}", _static(name)) for name in STATIC),
                Route("/news", self._news),
                Route(TRACE, self._dropped.answer, methods=["POST"]),
                *(Route(f"/{name}", self._of(found)) for name, found in self.lesson.answers.items()),
                *(Route(f"/{name}", self._for(done), methods=["POST"]) for name, done in self.lesson.changes.items()),
                Route("/still/{key}", self._still),
                *(
                    Route(f"/{name}", self._for(done), methods=["POST"])
                    for name, done in (
                        ("edit", desk.edit),
                        ("try", desk.tried),
                        ("undo", desk.undo),
                        ("redo", desk.redo),
                        ("answer", desk.answer),
                    )
                ),
            ]
        )
        super().__init__(
            app,
            methods=("GET", "POST"),
            most_body=_MOST_BODY,
            larger={TRACE: MOST_DROPPED},
            policy=POLICY + _PICTURES,
            at_the_end=self._end,
        )

    def _end(self) -> None:
        self.lesson.close()
        self.desk.close()
        self._dropped.close()

    async def _page(self, request: Request) -> Response:
        return HTMLResponse(page(self.desk.sitting.path.name))

    async def _news(self, request: Request) -> Response:
        return news(self.desk.bell, lambda: None if self.desk.closed else f"{self.desk.tag} {self.lesson.tag}")

    async def _still(self, request: Request) -> Response:
        svg = self.lesson.still(request.path_params["key"])
        return PlainTextResponse("No such still.\n", 404) if svg is None else Response(svg, media_type="image/svg+xml")

    def _of(self, found: Callable[[], Any]) -> Callable[[Request], Any]:
        async def answer(request: Request) -> Response:
            return JSONResponse(await run_in_threadpool(found))

        return answer

    def _for(self, done: Callable[[Any], Told]) -> Callable[[Request], Any]:
        async def answer(request: Request) -> Response:
            if request.headers.get("content-type", "").partition(";")[0].strip() != "application/json":
                return PlainTextResponse("Only application/json.\n", 415)
            try:
                body = json_in(await request.body())
            except BadBody as error:
                return PlainTextResponse(f"This cannot be taken: {error}.\n", 400)
            status, told = await run_in_threadpool(done, body)
            return JSONResponse(told, status)

        return answer


def _static(name: str) -> Callable[[Request], Any]:
    async def answer(request: Request) -> Response:
        kind, text = static_file(name)
        return Response(text, media_type=kind)

    return answer
