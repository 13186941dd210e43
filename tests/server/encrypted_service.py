"""The service as `hangarleaf serve` runs it, in a thread; the machine's name and address are made up."""

import ipaddress
import threading
from contextlib import contextmanager

from server import serving
from server.this_machine import Names

OWN = Names(("hangar-2.local", "hangar-2"), (ipaddress.ip_address("192.168.70.7"),))


@contextmanager
def running(monkeypatch, settings, host, encryption, own=OWN):
    """Gives what runs: `.config`, `.reach()`, `.renew()`."""
    held, answers = [], threading.Event()

    class Held(serving.Service):
        def __init__(self, app, *given):
            super().__init__(app, *given)
            self.reach = lambda: app.state.reach
            held.append(self)

    monkeypatch.setattr(serving, "Service", Held)
    monkeypatch.setattr(serving, "own_names", lambda: own)
    failed = []

    def run():
        try:
            serving.serve(settings, host, 0, lambda _: answers.set(), encryption=encryption)
        except BaseException as problem:
            failed.append(problem)
            raise
        finally:
            answers.set()

    thread = threading.Thread(target=run)
    thread.start()
    assert answers.wait(120) and not failed, failed
    try:
        yield held[0]
    finally:
        held[0].should_exit = True
        thread.join()
