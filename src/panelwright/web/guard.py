"""What stands before every request: only this computer's own page is served, and nothing of it is kept by a browser."""

from collections.abc import Iterable
from typing import Final

from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from panelwright.web.answers import refusal

LOOPBACK: Final = frozenset({"127.0.0.1", "localhost", "[::1]"})
POLICY: Final = (
    "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; font-src 'self' data:; "
    "connect-src 'self'; object-src 'none'; base-uri 'none'; frame-ancestors 'none'"
)
HEADERS: Final = {
    "Content-Security-Policy": POLICY,
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-store",
}
# What a browser says of a request that the page itself, or the person's own hand, has made.
_OWN: Final = frozenset({"same-origin", "none"})


class Guard:
    """Refuses (403) what comes by another host's name or from another page; sets the headers of every answer."""

    def __init__(self, app: ASGIApp) -> None:
        """Stands before `app`."""
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """One request, or one socket from its start to its end."""
        if scope["type"] not in ("http", "websocket"):
            await self._app(scope, receive, send)
            return
        reason = _objection(Headers(scope=scope), scope["path"])
        if scope["type"] == "websocket":
            if reason is None:
                await self._app(scope, receive, send)
            else:
                await receive()
                await send({"type": "websocket.close", "code": 1008})  # before it is accepted: the answer is 403
            return

        async def sealed(message: Message) -> None:
            if message["type"] == "http.response.start":
                MutableHeaders(scope=message).update(HEADERS)
            await send(message)

        app = self._app if reason is None else refusal(403, reason)
        await app(scope, receive, sealed)


def _objection(headers: Headers, path: str) -> str | None:
    """Why a request is not served, or None."""
    hosts, origins = headers.getlist("host"), headers.getlist("origin")
    if len(hosts) != 1 or _name(hosts[0]) not in LOOPBACK:
        return "the board is served to this computer alone: open the address that the program has printed"
    if any(origin != f"http://{hosts[0]}" for origin in origins):
        return "another page may not speak to the board: open the address that the program has printed"
    if path.startswith("/api/") and not _are_own(headers.getlist("sec-fetch-site")):
        return "another page may not ask the board: open the address that the program has printed"
    return None


def _are_own(sites: Iterable[str]) -> bool:
    return all(site in _OWN for site in sites)


def _name(host: str) -> str:
    """The host without its port."""
    name, colon, port = host.rpartition(":")
    return name.lower() if colon and port.isdigit() else host.lower()
