"""How the service is reached: its addresses, what vouches for it, and what must be said of that. Pure."""

from dataclasses import dataclass
from urllib.parse import urlencode, urlsplit

from server.certificates import Authority, Certified
from server.given_certificate import names_missing
from server.private_names import is_private
from server.this_machine import Names, as_address, in_address, is_this_machine

EVERYWHERE = ("0.0.0.0", "::")  # listening there = on all addresses that the machine has
_LOOPBACK = ("localhost", "127.0.0.1", "::1")


@dataclass(frozen=True, slots=True)
class Reach:
    """Addresses end with a slash.

    address    the one to give to people
    network    whether other machines reach it
    door       the plain page on which a tablet begins to trust the shop's authority; "" = there is none
    here       the plain address for this machine's own browser; "" = `address` will do
    authority  the shop's own; None for plain http and for a given certificate
    warnings   what does not work, and what to do
    """

    address: str
    network: bool
    door: str = ""
    here: str = ""
    authority: Authority | None = None
    warnings: tuple[str, ...] = ()

    @property
    def is_secure(self) -> bool:
        return self.address.startswith("https:")

    @property
    def port(self) -> int:
        return urlsplit(self.address).port or 0

    def joining(self, code: str) -> str:
        """The address that a camera reads: it carries the shop's code, so that a scan is enough to join."""
        return f"{self.address}join?{urlencode({'code': code})}" if code else self.address


def own_names_at(host: str, own: Names) -> Names:
    """What the machine is called by those who reach the service on `host`, the address that it listens at."""
    if host in EVERYWHERE:
        addresses = (
            own.addresses if host == "::" else tuple(each for each in own.addresses if each.version == 4)
        )
        return Names(own.hosts, addresses)
    address = as_address(host)
    if address is None:
        return Names(tuple(dict.fromkeys((host.casefold(), *own.hosts))), own.addresses)
    return Names(own.hosts, (address,))


def how_reached(
    host: str,
    port: int,
    own: Names,
    certified: Certified | None = None,
    door_port: int = 0,
    here_port: int = 0,
) -> Reach:
    """The addresses to give to people.

    host       what the service listens at
    own        of own_names_at
    certified  None = plain http
    door_port, here_port   of the plain listeners; 0 = there is none
    """
    network = not is_this_machine(host)
    called = _called(host, own, certified)
    scheme = "https" if certified else "http"
    return Reach(
        f"{scheme}://{in_address(called)}:{port}/",
        network,
        f"http://{in_address(called)}:{door_port}/" if door_port else "",
        f"http://localhost:{here_port}/" if here_port else "",
        certified.authority if certified else None,
        _warnings(own, certified) if network else (),
    )


def _called(host: str, own: Names, certified: Certified | None) -> str:
    """The name or address of this machine to give to people: an address first, which needs no name server."""
    known = [str(address) for address in own.addresses] + list(own.hosts)
    if host not in EVERYWHERE:
        known.insert(0, host)
    if certified is None:
        return known[0] if known else "localhost"
    named = [each for each in known if certified.names.holds(each)]
    named += [each for each in certified.names.hosts if "*" not in each and each not in _LOOPBACK]
    return (named or known or ["localhost"])[0]


def _warnings(own: Names, certified: Certified | None) -> tuple[str, ...]:
    if certified is None:
        return ()
    if certified.authority is None:
        missing = names_missing(certified, own)
        return (missing,) if missing else ()
    outside = [str(address) for address in own.addresses if not is_private(address)]
    if not outside:
        return ()
    return (
        f"The shop's certificate does not name {', '.join(outside)}: this is no address of a local network. "
        "Tablets must use the machine's name.",
    )
