"""Where the service listens: sockets, bound before anything is said of them."""

import socket
import sys
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass

from indexer.errors import HangarleafError

_WAITING = 64  # connections that wait until they are taken


class AddressTaken(HangarleafError):
    """The service cannot listen where it was told to."""

    slug = "address-taken"

    def __init__(self, host: str, port: int, detail: str):
        super().__init__(
            f"The service cannot listen on {host}, port {port} ({detail}).",
            "Choose another port with --port, or end the program that uses this one.",
        )


@dataclass(frozen=True, slots=True)
class Ears:
    """main   the service itself
    door   the plain door beside an encrypted service; None = there is none
    here   plain http for this machine's own browser; None = `main` will do
    """

    main: socket.socket
    door: socket.socket | None = None
    here: socket.socket | None = None


@contextmanager
def ears(host: str, port: int, door: bool, here: bool) -> Iterator[Ears]:
    """Listen at `host`, and beside it on the ports after, or on any free ones where those are taken.

    Raises AddressTaken.
    """
    with ExitStack() as stack:
        main = stack.enter_context(listening(host, port))
        at = port_of(main)
        yield Ears(
            main,
            stack.enter_context(_near(host, at + 1)) if door else None,
            stack.enter_context(_near("127.0.0.1", at + 2)) if here else None,
        )


def listening(host: str, port: int) -> socket.socket:
    """A socket that listens there; 0 = any free port. Raises AddressTaken."""
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


def port_of(ear: socket.socket | None) -> int:
    """0 for none."""
    return ear.getsockname()[1] if ear else 0


def _near(host: str, port: int) -> socket.socket:
    try:
        ear = listening(host, port if port < 65536 else 0)
        ear.listen(_WAITING)
    except (AddressTaken, OSError):
        ear = listening(host, 0)
        ear.listen(_WAITING)
    return ear
