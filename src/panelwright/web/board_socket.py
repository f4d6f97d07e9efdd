"""The board's socket: what a hand does comes in, the pattern goes out."""

from collections.abc import Callable
from typing import Final, TypeVar

import anyio
from starlette.websockets import WebSocket, WebSocketDisconnect

from panelwright.app.board_piece import Document
from panelwright.app.open_design import OpenDesign
from panelwright.app.workroom_faults import ChangedElsewhereError
from panelwright.app.workroom_item import lay_ref
from panelwright.body.worded_length import worded_in
from panelwright.errors import InputError
from panelwright.store.version import Kind
from panelwright.web.answers import json_text, sentence
from panelwright.web.body import as_object
from panelwright.web.order import carried_out, leading, opened
from panelwright.web.orders import Order, Orders
from panelwright.web.studio import Studio

Told = TypeVar("Told", Document, Document | None)
MOST_LETTERS: Final = 1_000_000
_TOO_MUCH: Final = 1009
_TOO_MANY: Final = 1013


class BoardSocket:
    """One page: its messages are taken in while an older one is worked on."""

    def __init__(self, socket: WebSocket, studio: Studio) -> None:
        """Nothing is open yet."""
        self._socket, self._studio = socket, studio
        self._orders = Orders()
        self._open: OpenDesign | None = None
        self._speaking = anyio.Lock()

    async def serve(self) -> None:
        """Until the page goes."""
        await self._socket.accept()
        self._studio.pages.add(self)
        try:
            async with anyio.create_task_group() as both:
                both.start_soon(self._listen)
                await self._work()
                both.cancel_scope.cancel()
        finally:
            self._studio.pages.remove(self)

    def shows(self, kind: Kind, ref: str) -> bool:
        """Whether it shows this design, this wearer with fitting notes and lays, or a design on this traced block;
        every page may show the groups.
        """
        if kind == "group":
            return True
        if self._open is None:
            return False
        design, wearer = self._open.design, self._open.wearer
        shown: dict[Kind, str | None] = {
            "design": design,
            "wearer": wearer,
            "trace": self._open.traced,
            "fitting": wearer,
            "lay": lay_ref(design, wearer),
        }
        return shown[kind] == ref

    async def say_changed(self, kind: Kind = "design") -> None:
        """Another page has saved."""
        await self._say({"say": "changed", "kind": kind})

    async def _listen(self) -> None:
        """Take messages in until the page goes or sends what no page of ours sends."""
        try:
            while True:
                message = await self._socket.receive()
                if message["type"] == "websocket.disconnect":
                    return
                text = message.get("text")
                if text is not None and len(text) > MOST_LETTERS:
                    await self._socket.close(_TOO_MUCH)
                    return
                try:
                    order = as_object(text if text is not None else message.get("bytes") or b"")
                except InputError as error:
                    await self._refuse(None, error)
                    continue
                if not self._orders.put(order):
                    await self._socket.close(_TOO_MANY)
                    return
        except WebSocketDisconnect:
            return
        finally:
            self._orders.end()

    async def _work(self) -> None:
        while (order := await self._orders.next()) is not None:
            try:
                told = json_text({**await self._carried_out(order), "id": _id(order)})
            except Exception as error:
                await self._refuse(_id(order), error)
                if isinstance(error, ChangedElsewhereError):
                    await self.say_changed()
                continue
            await self._send(told)

    async def _carried_out(self, order: Order) -> Document:
        if order.get("do") == "open":
            self._open = None
            self._open, told = await self._studio.by_hand(lambda: opened(order, self._studio))
            return told
        if self._open is None:
            raise InputError("no design is open on this page: open one first", "do")
        page, before = self._open, self._open.version
        # At once, in the thread that listens: it is soon done, and to hand it to another and back took a fifth of that.
        if order.get("do") == "drag" and (line := _worded(page, order, leading)):
            await self._say({**line, "id": _id(order)})
        told = await self._studio.by_hand(lambda: _worded(page, order, carried_out))
        if page.version != before:
            await self._studio.pages.changed("design", page.design, by=self)
        return told

    async def _refuse(self, id: object, error: Exception) -> None:
        message, where = sentence(error)
        await self._say({"say": "refused", "id": id, "message": message, "where": where})

    async def _say(self, facts: Document) -> None:
        await self._send(json_text(facts))

    async def _send(self, text: str) -> None:
        """Send, unless the page has gone."""
        async with self._speaking:
            try:
                await self._socket.send_text(text)
            except (WebSocketDisconnect, RuntimeError, OSError):
                self._orders.end()


def _worded(page: OpenDesign, order: Order, work: Callable[[OpenDesign, Order], Told]) -> Told:
    """What was asked, with refusals in the unit of the page too."""
    with worded_in(page.unit):
        return work(page, order)


def _id(order: Order) -> object:
    """What the answer carries so that the page knows which of its messages it answers."""
    id = order.get("id")
    return id if isinstance(id, int | str) else None
