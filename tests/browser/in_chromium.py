"""What every test in a real browser needs: Chromium, a served library, tabs that pass on complaints.

The browser is this machine's own; nothing is downloaded. Playwright is imported where it is used, so that
this file can be imported where neither is installed.
"""

import re
import shutil
import threading
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import uvicorn

from indexer.settings import Settings
from server.app import create_app
from server.listeners import listening
from server.opened import OpenedLibrary

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
MISSING = "these tests look at the pages in Chromium, which is not installed"
FLAGS = [
    "--no-sandbox",
    "--headless",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
]
DESK, TABLET, PHONE = (1280, 800), (800, 1280), (390, 844)
SIZES = [DESK, TABLET, PHONE]  # a tablet both ways, and a phone; CSS pixels
SCHEMES = ["light", "dark"]
_THIS_MACHINE = ("127.0.0.1", "localhost", "::1")
_ONLINE = ("http", "https", "ws", "wss")


class _Service(uvicorn.Server):
    """Says so when it answers, or cannot."""

    def __init__(self, config: uvicorn.Config):
        super().__init__(config)
        self.ready = threading.Event()

    async def startup(self, sockets: list[Any] | None = None) -> None:
        try:
            await super().startup(sockets)
        finally:
            self.ready.set()


@contextmanager
def chromium_open(*flags: str) -> Iterator[Any]:
    """The browser, closed afterwards. One at a time: Playwright holds the thread it is used in."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=[*FLAGS, *flags])
        yield browser
        browser.close()


def answering(
    library: Path | OpenedLibrary, settings: Settings | None = None, port: int = 0, **options: Any
) -> tuple[str, Callable[[], None]]:
    """Serve a library from a thread, on a free port or a given one; gives the address and what ends it.

    options  for create_app, as network=True
    """
    ear = listening("127.0.0.1", port)
    app = create_app(library, settings or Settings(), **options)
    service = _Service(uvicorn.Config(app, log_level="warning"))
    thread = threading.Thread(target=service.run, kwargs={"sockets": [ear]})
    thread.start()
    service.ready.wait()

    def end() -> None:
        service.should_exit = True
        thread.join()
        ear.close()

    return f"http://127.0.0.1:{ear.getsockname()[1]}", end


def listen_to(
    context: Any, complaints: list[str], expected: Iterable[str] = (), own: Iterable[str] = ()
) -> None:
    """Write down what the browser complains of in any page of a context, and what asks another machine.

    expected  regular expressions of complaints that the test itself brings about
    own       addresses of this machine in its network, beside the loopback ones
    """
    hosts = {*_THIS_MACHINE, *own}
    patterns = [re.compile(pattern) for pattern in expected]

    def complain(text: str) -> None:
        if not any(pattern.search(text) for pattern in patterns):
            complaints.append(text)

    def heard(message: Any) -> None:
        if message.type == "error":
            complain(message.text)

    def asked(request: Any) -> None:
        parts = urlsplit(request.url)
        if parts.scheme in _ONLINE and parts.hostname not in hosts:
            complaints.append(f"asks another machine: {request.url}")

    context.on("console", heard)
    context.on("weberror", lambda error: complain(str(error.error)))
    context.on("request", asked)


@contextmanager
def tabs(browser: Any) -> Iterator[Callable[..., Any]]:
    """What makes tabs, each in a context of its own; afterwards fails on any complaint of the browser.

    Called with size (width, height in CSS pixels), scheme ("light", "dark"), touch (fingers, no mouse),
    javascript, expected and own (as `listen_to`) and whatever else Playwright's new_context takes.
    """
    contexts: list[Any] = []
    complaints: list[str] = []

    def make(
        size: tuple[int, int] = TABLET,
        scheme: str = "light",
        touch: bool = False,
        javascript: bool = True,
        expected: Iterable[str] = (),
        own: Iterable[str] = (),
        **more: Any,
    ) -> Any:
        context = browser.new_context(
            viewport={"width": size[0], "height": size[1]},
            color_scheme=scheme,
            has_touch=touch,
            java_script_enabled=javascript,
            **more,
        )
        contexts.append(context)
        listen_to(context, complaints, expected, own)
        return context.new_page()

    yield make
    for context in contexts:
        context.close()
    assert not complaints, "the browser complained: " + "; ".join(complaints)
