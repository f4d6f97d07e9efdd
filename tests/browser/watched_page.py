"""What a page did that no page of ours may do."""

from urllib.parse import urlsplit

from playwright.sync_api import ConsoleMessage, Page, WebSocket

BROWSER_SAYS = ("GPU stall due to ReadPixels",)  # of itself, where it copies a picture without a graphics card


class Watch:
    """Collects errors of a page, and every request to anywhere but its own server."""

    def __init__(self, page: Page, address: str) -> None:
        """Watches from now on."""
        self.page = page
        self.complaints: list[str] = []
        self._home = urlsplit(address).netloc
        self._sockets: list[WebSocket] = []
        self._forgiven = BROWSER_SAYS
        page.on("request", lambda request: self._asked(request.url))
        page.on("websocket", self._connected)
        page.on("console", self._told)
        page.on("pageerror", lambda error: self.complaints.append(f"error on the page: {error}"))

    @property
    def socket(self) -> WebSocket:
        """The one that was opened last."""
        assert self._sockets, "the page has opened no socket"
        return self._sockets[-1]

    def _connected(self, socket: WebSocket) -> None:
        self._sockets.append(socket)
        self._asked(socket.url)

    def _asked(self, address: str) -> None:
        parts = urlsplit(address)
        if parts.scheme not in ("data", "blob") and parts.netloc != self._home:
            self.complaints.append(f"asked elsewhere: {address}")

    def _told(self, message: ConsoleMessage) -> None:
        told = f"{message.type} on the console: {message.text} ({message.location.get('url', '')})"
        if message.type in ("error", "warning") and not any(words in told for words in self._forgiven):
            self.complaints.append(told)

    def forgive(self, *words: str) -> None:
        """From now on let pass what the console says with these words in it, as when a test stops the server."""
        self._forgiven += words
