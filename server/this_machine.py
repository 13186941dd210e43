"""What this machine is called in its network, and its addresses there. Nothing is sent to find out."""

import contextlib
import ipaddress
import re
import socket
from dataclasses import dataclass

IPAddress = ipaddress.IPv4Address | ipaddress.IPv6Address

# Reserved for documentation (RFC 5737, RFC 3849): choosing a way there tells our own address on it.
_BEYOND = ((socket.AF_INET, "192.0.2.1"), (socket.AF_INET6, "2001:db8::1"))
# RFC 952 and RFC 1123 section 2.1; a name with other letters is in no address that a tablet can open.
_NAME = re.compile(r"[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?(\.[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?)*")


@dataclass(frozen=True, slots=True)
class Names:
    """hosts      names in lower case, the one to give to people first
    addresses  IP addresses, the one to give to people first
    """

    hosts: tuple[str, ...] = ()
    addresses: tuple[IPAddress, ...] = ()

    def holds(self, host: str) -> bool:
        """Whether a host of an address, a name or an IP address without brackets, is among them."""
        address = as_address(host)
        if address is not None:
            return address in self.addresses
        return any(host.casefold() == name or _fits(host.casefold(), name) for name in self.hosts)


def own_names() -> Names:
    """This machine's names and its addresses in the network, loopback left out."""
    return Names(_own_hosts(socket.gethostname()), _own_addresses())


def _own_hosts(own: str) -> tuple[str, ...]:
    """The machine's name, and the one that it announces itself by without a name server (RFC 6762)."""
    own = own.casefold().rstrip(".")
    if not _NAME.fullmatch(own) or as_address(own):
        return ()
    first = own.partition(".")[0]
    return tuple(dict.fromkeys((f"{first}.local", own)))


def _own_addresses() -> tuple[IPAddress, ...]:
    found: list[str] = []
    for family, beyond in _BEYOND:
        with contextlib.suppress(OSError), socket.socket(family, socket.SOCK_DGRAM) as probe:
            probe.connect((beyond, 9))
            found.append(probe.getsockname()[0])
    with contextlib.suppress(OSError):  # a machine whose own name leads nowhere
        found += [str(entry[4][0]) for entry in socket.getaddrinfo(socket.gethostname(), None)]
    addresses = dict.fromkeys(address for name in found if (address := as_address(name)))
    return tuple(address for address in addresses if not (address.is_loopback or address.is_unspecified))


def is_this_machine(host: str) -> bool:
    """Whether an address to listen on is closed to the network."""
    if host == "localhost":
        return True
    address = as_address(host)
    return address is not None and address.is_loopback


def as_address(host: str) -> IPAddress | None:
    """An IP address, or None for a name. An address with a zone is no use to another machine: None."""
    try:
        address = ipaddress.ip_address(host)
    except ValueError:
        return None
    return None if getattr(address, "scope_id", None) else address


def in_address(host: str) -> str:
    """A host as it stands in an address: an IPv6 address in brackets."""
    return f"[{host}]" if ":" in host else host


def _fits(host: str, name: str) -> bool:
    """Whether a wildcard name covers a host: one label, the leftmost (RFC 6125, section 6.4.3)."""
    return name.startswith("*.") and host.partition(".")[2] == name[2:]
