"""Turns: what waits holds nothing up, and nobody works for an asker who has gone."""

import asyncio
import threading

import httpx
import pytest
from asking import HERE

from indexer.settings import Settings
from server import leaf
from server.app import create_app
from server.packet_pdf import PacketNotPrinted
from server.routes import packet_pages, search_pages
from server.routes.turns import PRINTING, RETRY_AFTER_S, Response, TooManyAtOnce, Turns

THREADS = 40  # of AnyIO, for all routes together (AnyIO's documentation, "Working with threads")
GUARD_S = 60  # nothing is held to it: without it a service that hangs would hang the test


class Asker:
    def __init__(self, gone=False):
        self.gone = gone

    async def is_disconnected(self):
        return self.gone


def test_nobody_works_for_who_left_while_he_waited():
    turns, at_work, go_on, done = Turns("of a test", 1), threading.Event(), threading.Event(), []

    def slow():
        at_work.set()
        assert go_on.wait(GUARD_S)
        return Response("slow")

    def work(name):
        return lambda: done.append(name) or Response(str(name))

    async def all_of_them():
        first = asyncio.create_task(turns.take(Asker(), slow))
        await asyncio.to_thread(at_work.wait, GUARD_S)
        typed = [Asker() for _ in range(5)]
        waiting = [asyncio.create_task(turns.take(each, work(key))) for key, each in enumerate(typed)]
        await asyncio.sleep(0)
        for each in typed[:-1]:  # a page that asks anew lets go of what it asked before
            each.gone = True
        go_on.set()
        return [each.body for each in await asyncio.gather(first, *waiting)]

    bodies = asyncio.run(all_of_them())
    assert bodies[0] == b"slow" and done == [4]


def test_turns_are_given_on_whatever_becomes_of_the_work():
    turns = Turns("of a test", 1)

    def fails():
        raise ValueError("broken")

    async def both():
        with pytest.raises(ValueError):
            await turns.take(Asker(), fails)
        return await asyncio.wait_for(turns.take(Asker(), Response), GUARD_S)

    assert asyncio.run(both()).status_code == 200


@pytest.mark.parametrize("kind", ["tiles", "pictures", "typing"])
def test_the_service_answers_while_many_wait_for_what_is_slow(library, ids, monkeypatch, kind):
    go_on = threading.Event()

    def slow(*_, **__):
        assert go_on.wait(GUARD_S)
        raise leaf.PageNotDrawn("a.pdf", 1, "it was given up")

    page = f"/api/publications/{ids['manual']}/pages/1"
    if kind == "typing":
        monkeypatch.setattr(search_pages, "_answer", slow)
    else:
        monkeypatch.setattr(leaf, "tile" if kind == "tiles" else "picture", slow)
    asked = {"tiles": f"{page}/tiles/3/0/{{}}", "pictures": f"{page}?dpi={{}}", "typing": "/find?q=brake+{}"}[
        kind
    ]

    async def asking():
        transport = httpx.ASGITransport(create_app(library, Settings()))
        async with httpx.AsyncClient(transport=transport, base_url=HERE, timeout=None) as web:
            many = [asyncio.create_task(web.get(asked.format(n))) for n in range(1, THREADS + 10)]
            await asyncio.sleep(0)
            try:
                for _ in range(3):  # by the second all of the others are at work or wait
                    other = await asyncio.wait_for(web.get("/api/status"), GUARD_S / 4)
            finally:
                go_on.set()
            return other.status_code, {answer.status_code for answer in await asyncio.gather(*many)}

    assert asyncio.run(asking()) == (200, {502})


def test_who_waited_long_enough_is_told_to_come_again():
    turns, at_work, go_on = Turns("of a test", 1, wait_s=0), threading.Event(), threading.Event()

    def slow():
        at_work.set()
        assert go_on.wait(GUARD_S)
        return Response("slow")

    async def both():
        first = asyncio.create_task(turns.take(Asker(), slow))
        await asyncio.to_thread(at_work.wait, GUARD_S)
        try:
            with pytest.raises(TooManyAtOnce):
                await turns.take(Asker(), Response)
        finally:
            go_on.set()
        return await first, await turns.take(Asker(), Response)

    assert [each.status_code for each in asyncio.run(both())] == [200, 200]


def test_packets_are_printed_one_at_a_time_while_searches_are_answered(library, monkeypatch):
    """Retry-After: RFC 9110, section 10.2.3. One is at work and three wait, as four tablets ask; the rest are
    told so in words."""
    at_work, most, go_on = [], [], threading.Event()

    def slow(_, packet):
        at_work.append(packet)
        most.append(len(at_work))
        assert go_on.wait(GUARD_S)
        at_work.remove(packet)
        raise PacketNotPrinted(packet, "of a test")

    monkeypatch.setattr(packet_pages, "packet_pdf", slow)
    assert PRINTING._wait_s == RETRY_AFTER_S, "and none hangs for longer"
    monkeypatch.setattr(packet_pages, "PRINTING", Turns("of a test", PRINTING._most, PRINTING._waiting))

    async def asking():
        transport = httpx.ASGITransport(create_app(library, Settings()))
        async with httpx.AsyncClient(transport=transport, base_url=HERE, timeout=None) as web:
            many = [asyncio.create_task(web.get(f"/packets/p{n}/pdf")) for n in range(THREADS + 10)]
            await asyncio.sleep(0)
            try:
                for _ in range(3):
                    found = await asyncio.wait_for(web.get("/api/search?q=brake"), GUARD_S / 4)
            finally:
                go_on.set()
            return found.status_code, await asyncio.gather(*many)

    found, printed = asyncio.run(asking())
    turned_away = [each for each in printed if each.status_code == 503]
    assert found == 200 and max(most) == 1
    assert len(turned_away) == len(printed) - 4
    for each in turned_away:
        assert each.headers["retry-after"] == str(RETRY_AFTER_S)
        assert "Busy just now" in each.text and "Try again in" in each.text
