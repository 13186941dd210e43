"""Which names and addresses the shop's certificate authority may vouch for: those that mean nothing outside.

Whoever trusts the authority on a tablet lets it vouch for web sites. So the authority itself says, in a way
that browsers hold it to (RFC 5280, section 4.2.1.10, "Name Constraints"), that it vouches for local names and
addresses alone: should its key be stolen, no site on the internet can be counterfeited with it.
"""

import ipaddress

from server.this_machine import IPAddress, Names

# Blocks that lead nowhere on the internet, by the registries of special-purpose addresses that IANA keeps.
NETWORKS = tuple(
    ipaddress.ip_network(block)
    for block in (
        "10.0.0.0/8",  # RFC 1918, private
        "172.16.0.0/12",  # RFC 1918
        "192.168.0.0/16",  # RFC 1918
        "100.64.0.0/10",  # RFC 6598, shared by the customers of one carrier
        "169.254.0.0/16",  # RFC 3927, link-local
        "127.0.0.0/8",  # RFC 1122, loopback
        "192.0.2.0/24",  # RFC 5737, documentation and test networks
        "fc00::/7",  # RFC 4193, unique local
        "fe80::/10",  # RFC 4291, link-local
        "::1/128",  # RFC 4291, loopback
    )
)
_LOCAL = ("local", "localhost")  # RFC 6762 and RFC 6761: never in the public tree of names


def permitted_hosts(own: Names) -> tuple[str, ...]:
    """The names that the authority of a machine is limited to; each covers what stands below it as well."""
    more = [host for host in own.hosts if not (_may_be_public(host) or _is_under_any(host, _LOCAL))]
    return (*_LOCAL, *more)


def covered(own: Names, permitted: tuple[str, ...]) -> Names:
    """Of a machine's names, those that an authority limited to `permitted` and NETWORKS may vouch for."""
    return Names(
        tuple(host for host in own.hosts if _is_under_any(host, permitted)),
        tuple(address for address in own.addresses if is_private(address)),
    )


def is_private(address: IPAddress) -> bool:
    return any(address in network for network in NETWORKS)


def _may_be_public(host: str) -> bool:
    """Whether a machine's one-word name may also be a top-level domain: "shop" is one, and a limit to it
    would cover every site under it. Those are letters alone, or begin with "xn--" (RFC 1123, section 2.1;
    RFC 5890).
    """
    return "." not in host and (host.isalpha() or host.startswith("xn--"))


def _is_under_any(host: str, names: tuple[str, ...]) -> bool:
    return any(host == name or host.endswith(f".{name}") for name in names)
