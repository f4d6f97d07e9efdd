"""Around all that answers, within the guard: what goes wrong where nobody looks for it is told in one sentence."""

from contextlib import suppress

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from panelwright.web.answers import refused, sentence

_FAULT_OF_OURS = 1011


class Careful:
    """Answers 500 where nothing was answered yet, and ends the socket otherwise; no error goes on to any log."""

    def __init__(self, app: ASGIApp) -> None:
        """Stands around `app`."""
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """One request, or one socket from its start to its end."""
        begun = False

        async def noticed(message: Message) -> None:
            nonlocal begun
            begun = True
            await send(message)

        try:
            await self._app(scope, receive, noticed)
        except Exception as error:
            if scope["type"] == "http" and not begun:
                await refused(error)(scope, receive, send)
                return
            sentence(error)  # tells the fault on standard error
            if scope["type"] == "websocket":
                with suppress(RuntimeError, OSError):  # it has ended already
                    await send({"type": "websocket.close", "code": _FAULT_OF_OURS})
