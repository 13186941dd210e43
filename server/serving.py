"""Runs the service until it is stopped: where it listens, over which way, and what runs beside it."""

import contextlib
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from indexer.library.tablets import shop_code
from indexer.settings import Settings
from server.announcing import announce
from server.app import create_app
from server.certificates import Certified
from server.door import create_door
from server.given_certificate import given_certificate
from server.listeners import Ears, ears, port_of
from server.ocr_background import OcrBackground
from server.opened import OpenedLibrary
from server.reach import Reach, how_reached, own_names_at
from server.routes.protection import THIS_MACHINE
from server.service import Service, beside
from server.shop_certificate import shop_certificate
from server.this_machine import Names, is_this_machine, own_names


@dataclass(frozen=True, slots=True)
class Encryption:
    """How the way to the service is encrypted; by default it is not.

    shop              True = with a certificate by the shop's own authority, which is made and renewed
    certificate, key  files in PEM that were given; both or none
    """

    shop: bool = False
    certificate: Path | None = None
    key: Path | None = None


PLAIN = Encryption()


def serve(
    settings: Settings,
    host: str,
    port: int,
    started: Callable[[str], None] | None = None,
    ocr: bool = False,
    encryption: Encryption = PLAIN,
) -> None:
    """Serve the library until stopped. `started` is called with the address once it answers.

    host   "127.0.0.1" = this machine only; "0.0.0.0" = also the local network
    port   0 = any free one
    ocr    True = read scanned pages in the background, from when the service answers until it ends
    Encrypted and open to the network it listens twice more: as the plain door, and in plain http for this
    machine's own browser, which then needs to trust no authority.
    Raises LibraryProblem, AddressTaken, CertificateRefused, ShopKeyOpen, ShopCertificateDamaged,
    ShopCertificateNotKept.
    """
    given = None
    if encryption.certificate and encryption.key:
        given = given_certificate(encryption.certificate, encryption.key)
    network = not is_this_machine(host)
    encrypted = encryption.shop or given is not None
    with (
        OpenedLibrary.open(settings.library_folder, settings) as library,
        ears(host, port, door=network and encryption.shop, here=network and encrypted) as at,
    ):

        def certified_now(own: Names) -> Certified | None:
            return shop_certificate(library.folder, own) if encryption.shop else given

        own = own_names_at(host, own_names())
        certified = certified_now(own)
        names = {*THIS_MACHINE, host, *own.hosts, *(certified.names.hosts if certified else ())}
        app = create_app(library, settings, names, network)
        app.state.reach = _reach(host, at, own, certified)
        code = shop_code(library.catalogue) if network else ""
        background = OcrBackground(settings.library_folder, settings)

        def answers() -> None:
            announce(app.state.reach, code)
            if started:
                started(app.state.reach.here or app.state.reach.address)
            if ocr:
                background.start()

        def renewed() -> Certified | None:
            now_own = own_names_at(host, own_names())
            now = certified_now(now_own)
            app.state.reach = _reach(host, at, now_own, now)
            return now

        door = create_door(lambda: app.state.reach, names)
        service = Service(app, answers, certified, at.here, renewed if encryption.shop else None)
        try:
            with (
                beside(door, at.door) if at.door else contextlib.nullcontext(),
                contextlib.suppress(KeyboardInterrupt),  # Ctrl-C is how a reader ends it
            ):
                service.run(sockets=[at.main])
        finally:
            background.stop()


def _reach(host: str, at: Ears, own: Names, certified: Certified | None) -> Reach:
    return how_reached(host, port_of(at.main), own, certified, port_of(at.door), port_of(at.here))
