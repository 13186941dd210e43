"""Runs the service and says where it is: addresses, and a code that a tablet's camera reads."""

import contextlib
import ipaddress
import socket
import sys
from collections.abc import Callable

import segno
import uvicorn

from indexer.errors import HangarleafError
from indexer.settings import Settings
from server.app import create_app
from server.ocr_background import OcrBackground
from server.routes.protection import THIS_MACHINE


class AddressTaken(HangarleafError):
    """The service cannot listen where it was told to."""

    slug = "address-taken"

    def __init__(self, host: str, port: int, detail: str):
        super().__init__(
            f"The service cannot listen on {host}, port {port} ({detail}).",
            "Choose another port with --port, or end the program that uses this one.",
        )


def serve(
    settings: Settings,
    host: str,
    port: int,
    started: Callable[[str], None] | None = None,
    ocr: bool = False,
) -> None:
    """Serve the library until stopped. `started` is called with the address once it answers.

    host   "127.0.0.1" = this machine only; "0.0.0.0" = also the local network
    port   0 = any free one
    ocr    True = read scanned pages in the background, from when the service answers until it ends
    Raises LibraryProblem, AddressTaken.
    """
    network = not is_this_machine(host)
    app = create_app(settings.library_folder, settings, {*THIS_MACHINE, host}, network)
    background = OcrBackground(settings.library_folder, settings)
    with listening(host, port) as ear:
        address = f"http://{_in_address(_reachable(host))}:{ear.getsockname()[1]}/"

        def answers() -> None:
            _announce(address, network, started)
            if ocr:
                background.start()

        try:
            with contextlib.suppress(KeyboardInterrupt):  # Ctrl-C is how a reader ends it
                _Service(app, answers).run(sockets=[ear])
        finally:
            background.stop()


def is_this_machine(host: str) -> bool:
    """Whether an address to listen on is closed to the network."""
    if host == "localhost":
        return True
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False


def listening(host: str, port: int) -> socket.socket:
    """A socket that listens there. Raises AddressTaken."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    ear = socket.socket(family)
    try:
        if sys.platform != "win32":  # there it would let two programs share the port
            ear.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        ear.bind((host, port))
    except OSError as problem:
        ear.close()
        raise AddressTaken(host, port, problem.strerror or type(problem).__name__) from problem
    return ear


class _Service(uvicorn.Server):
    """Says so when it answers."""

    def __init__(self, app: object, answers: Callable[[], None]):
        super().__init__(uvicorn.Config(app, log_level="warning", server_header=False))
        self._answers = answers

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        if self.started:
            self._answers()


def _announce(address: str, network: bool, started: Callable[[str], None] | None) -> None:
    print(f"Hangarleaf answers at {address}")
    if network:
        print("On a tablet in the same network, open that address or point the camera at this code:")
        segno.make(address, error="m").terminal(compact=True)
    else:
        print("Only this machine can reach it.")
    print("Stop it with Ctrl-C.", flush=True)
    if started:
        started(address)


def _reachable(host: str) -> str:
    """The address to give to a tablet when listening on all of them."""
    if host not in ("0.0.0.0", "::"):
        return host
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # reserved for documentation (RFC 5737); nothing is sent
            return probe.getsockname()[0]
        except OSError:
            return socket.gethostname()


def _in_address(host: str) -> str:
    return f"[{host}]" if ":" in host else host
