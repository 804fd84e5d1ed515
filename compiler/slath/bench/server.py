"""The page, its pictures and its stream of changes, served on this machine alone to who has the address.

The address holds a token. Every request must name this machine as its host, come from the page itself, and only read;
there are no paths to files, so there is nothing to climb out of.
"""

from __future__ import annotations

import asyncio
import contextlib
from collections.abc import AsyncIterator, Callable
from functools import partial
from importlib import resources
from pathlib import Path
from typing import Any, cast

from msgspec import Struct, field
from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response, StreamingResponse
from starlette.routing import Route
from starlette.types import ASGIApp, Receive, Scope, Send
from watchfiles import Change, awatch

from slath.bench.followed import Followed, GoneError, PastError
from slath.bench.what_if import counts_near, figure_on
from slath.booklet.styles import names as style_names
from slath.messages.language import ENGLISH, languages
from slath.output.watching import BESIDE
from slath.pipeline import CommandFaultError
from slath.units.printing import First
from slath.work import BuildOptions, Work

HOST = "127.0.0.1"
SETTLE_MS = 30  # an editor writes in several goes; what comes within this counts as one save
BEAT_S = 15.0  # a line on the stream, so that both ends see whether the other is still there
ASSETS = {"": ("index.html", "text/html"), "bench.css": ("bench.css", "text/css"),
          "bench.js": ("bench.js", "text/javascript")}  # fmt: skip
HEADERS = {
    "Content-Security-Policy": "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
    "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
    "Cache-Control": "no-store",
}


class Follower(Struct, dict=True):
    """The pattern followed, with those who wait for its next version."""

    followed: Followed
    _changed: asyncio.Condition = field(default_factory=asyncio.Condition)

    async def look(self) -> None:
        """Look at the files, and tell everybody who waits."""
        await run_in_threadpool(self.followed.look)
        async with self._changed:
            self._changed.notify_all()

    async def follow(self) -> None:
        """Look whenever the pattern or a file it may read is saved, moved, deleted or put back."""
        folder = self.followed.file.resolve().parent
        watched = [folder]
        if self.followed.workshop:
            watched.append(self.followed.workshop.resolve().parent)
        async for _ in awatch(*watched, watch_filter=self._concerns, debounce=SETTLE_MS, step=10, recursive=False):
            await self.look()

    def _concerns(self, _: Change, path: str) -> bool:
        return Path(path).suffix.lower() in BESIDE

    async def versions(self) -> AsyncIterator[str]:
        """The version there is and each that comes, as server-sent events (HTML Living Standard, 9.2)."""
        told = -1
        while True:
            version = self.followed.looked.version
            if version != told:
                told = version
                yield f"data: {told}\n\n"
                continue
            async with self._changed:
                with contextlib.suppress(TimeoutError):
                    await asyncio.wait_for(self._changed.wait(), BEAT_S)
            if self.followed.looked.version == told:
                yield ": still here\n\n"


def application(followed: Followed, token: str, port: int) -> ASGIApp:
    """The whole of what is served, behind the guard."""
    follower = Follower(followed)

    @contextlib.asynccontextmanager
    async def following(_: Starlette) -> AsyncIterator[None]:
        task = asyncio.create_task(follower.follow())
        try:
            yield
        finally:
            task.cancel()
            with contextlib.suppress(asyncio.CancelledError):
                await task

    async def changes(_: Request) -> Response:
        return StreamingResponse(follower.versions(), media_type="text/event-stream")

    def read(path: str, answer: Callable[[Request], Any]) -> Route:
        async def endpoint(request: Request) -> Response:
            try:
                return await run_in_threadpool(answer, request)
            except PastError:
                return Response(status_code=204)
            except (GoneError, CommandFaultError) as problem:
                return PlainTextResponse(str(problem), 404)
            except ValueError as problem:
                return PlainTextResponse(str(problem), 400)

        return Route(f"/{token}/{path}", endpoint, methods=["GET"])

    def figure(request: Request) -> Response:
        size, name = _asked(request, "size"), _asked(request, "name")
        return _svg(followed.figure(size, name, _options(request), _version(request)))

    def page(request: Request) -> Response:
        made = followed.page(_number(request, "number"), _options(request), _version(request))
        return Response(made, media_type="image/png")

    routes = [
        Route(f"/{token}/changes", changes, methods=["GET"]),
        read("state", lambda request: JSONResponse(_state(followed, request))),
        read("figure", figure),
        read("pages", lambda request: JSONResponse(followed.pages(_options(request)))),
        read("page", page),
        read("counts", lambda request: JSONResponse(counts_near(followed.compiled(_asked(request, "size"))))),
        read("what-if", lambda request: _svg(_what_if(followed, request))),
        *(read(name, partial(_asset, name)) for name in ASSETS),
    ]
    return Guard(Starlette(routes=routes, lifespan=following), port)


def _state(followed: Followed, request: Request) -> dict[str, Any]:
    choices = {"styles": list(style_names()), "languages": sorted(languages(), key=lambda code: code != ENGLISH)}
    return followed.state(_options(request)) | {"choices": choices}


def _options(request: Request) -> BuildOptions:
    """How the page wants to see things. ValueError for a choice there is not."""
    asked = request.query_params

    def one_of(name: str, *known: str) -> str:
        value = asked.get(name) or known[0]
        if value not in known:
            raise ValueError(f"{name} is none of {', '.join(filter(None, known))}")
        return value

    units = one_of("units", "", "inches", "mm")
    return BuildOptions(
        units=cast("First", units) if units else None,
        vocabulary=one_of("vocabulary", "uk", "us"),
        language=one_of("language", ENGLISH, *languages()),
        style=one_of("style", "", *style_names()),
        left_handed=one_of("hand", "right", "left") == "left",
    )


def _what_if(followed: Followed, request: Request) -> bytes:
    size, stakes, options = _asked(request, "size"), _number(request, "stakes"), _options(request)
    good = followed.looked.good
    if good is None:
        raise GoneError("nothing could be worked out yet")
    return figure_on(followed, size, stakes, _asked(request, "name"), Work(good, options).drawing)


def _asked(request: Request, name: str) -> str:
    value = request.query_params.get(name)
    if not value:
        raise ValueError(f"{name} is missing")
    return value


def _number(request: Request, name: str) -> int:
    text = _asked(request, name)
    if not (text.isascii() and text.isdigit() and len(text) < 6):
        raise ValueError(f"{name} is no number")
    return int(text)


def _version(request: Request) -> int | None:
    return _number(request, "version") if "version" in request.query_params else None


def _svg(data: bytes) -> Response:
    return Response(data, media_type="image/svg+xml")


def _asset(name: str, _: Request) -> Response:
    file, kind = ASSETS[name]
    return Response((resources.files("slath.bench") / "page" / file).read_bytes(), media_type=kind)


class Guard(Struct, dict=True):
    """Lets through only what a page opened on this machine asks of it, and puts the safe headers on every answer."""

    inner: ASGIApp
    port: int

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request, or refuse it before anybody has looked at it."""
        if scope["type"] != "http":
            await self.inner(scope, receive, send)
            return
        refused = self._refused(scope)
        if refused:
            await PlainTextResponse(refused, 403, headers=HEADERS)(scope, receive, send)
            return

        async def sent(message: Any) -> None:
            if message["type"] == "http.response.start":
                own = {name.lower(): value for name, value in message["headers"]}
                message["headers"] = [
                    *message["headers"],
                    *((name.lower().encode(), value.encode()) for name, value in HEADERS.items() if name.lower().encode() not in own),
                ]  # fmt: skip
            await send(message)

        await self.inner(scope, receive, sent)

    def _refused(self, scope: Scope) -> str:
        headers: dict[bytes, list[bytes]] = {}
        for name, value in scope["headers"]:
            headers.setdefault(name, []).append(value)
        hosts = {f"{host}:{self.port}".encode() for host in (HOST, "localhost")}
        if len(headers.get(b"host", [])) != 1 or headers[b"host"][0] not in hosts:
            return "this page is for this machine alone"
        origins = {b"http://" + host for host in hosts}
        if any(origin not in origins for origin in headers.get(b"origin", [])):
            return "this page answers itself alone"
        if headers.get(b"sec-fetch-site", [b"none"])[0] not in {b"none", b"same-origin"}:
            return "this page answers itself alone"
        return ""


def address(token: str, port: int) -> str:
    """Where the page is."""
    return f"http://{HOST}:{port}/{token}/"
