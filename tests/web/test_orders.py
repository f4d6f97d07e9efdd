"""Messages that wait: in their order, of two drags in a row the newer, and not without end."""

from typing import Any

import anyio

from panelwright.web.orders import MOST_WAITING, Orders


def taken(orders: Orders) -> list[dict[str, Any]]:
    """All that waits, when no more comes."""

    async def take() -> list[dict[str, Any]]:
        orders.end()
        found = []
        while (order := await orders.next()) is not None:
            found.append(order)
        return found

    return anyio.run(take)


def test_orders_keep_their_order() -> None:
    orders = Orders()
    for do in ("open", "drag", "drop", "drag", "undo"):
        assert orders.put({"do": do})
    assert [each["do"] for each in taken(orders)] == ["open", "drag", "drop", "drag", "undo"]


def test_a_drag_takes_the_place_of_the_drag_before_it_and_of_no_other() -> None:
    orders = Orders()
    for id, do in enumerate(("drag", "drag", "drop", "drag", "drag", "drag")):
        orders.put({"do": do, "id": id})
    assert [each["id"] for each in taken(orders)] == [1, 2, 5]


def test_a_drag_takes_the_place_of_a_rest_that_the_hand_did_not_keep() -> None:
    orders = Orders()
    for id, do in enumerate(("drag", "rest", "drop", "drag", "rest", "drag")):
        orders.put({"do": do, "id": id})
    assert [each["id"] for each in taken(orders)] == [0, 1, 2, 3, 5]


def test_more_orders_than_a_hand_can_give_are_refused_but_drags_never() -> None:
    orders = Orders()
    assert all(orders.put({"do": "undo"}) for _ in range(MOST_WAITING - 1))
    assert all(orders.put({"do": "drag"}) for _ in range(10 * MOST_WAITING))
    assert not orders.put({"do": "undo"})
    assert len(taken(orders)) == MOST_WAITING


def test_whoever_waits_is_told_of_an_order_and_of_the_end() -> None:
    async def talk() -> list[object]:
        orders, heard = Orders(), []

        async def listen() -> None:
            heard.append(await orders.next())
            heard.append(await orders.next())

        async with anyio.create_task_group() as group:
            group.start_soon(listen)
            await anyio.lowlevel.checkpoint()
            orders.put({"do": "open"})
            await anyio.lowlevel.checkpoint()
            orders.end()
        return heard

    assert anyio.run(talk) == [{"do": "open"}, None]
