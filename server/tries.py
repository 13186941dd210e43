"""Wrong tries counted by the address they come from, so that guessing is slow. Kept in memory."""

import ipaddress
import threading
import time
from collections import OrderedDict
from collections.abc import Callable

_MOST_ADDRESSES = 5000  # remembered; the one that tried longest ago is forgotten first
_IPV6_NETWORK_BITS = 64  # one device may use every address of it (RFC 4291, section 2.5.4)


class Tries:
    """most     wrong tries after which an address must wait
    minutes  for how long a wrong try counts
    clock    seconds that only grow
    """

    def __init__(self, most: int, minutes: int, clock: Callable[[], float] = time.monotonic):
        self.most = most
        self.minutes = minutes
        self._clock = clock
        self._wrong: OrderedDict[str, list[float]] = OrderedDict()
        self._lock = threading.Lock()

    def begin(self, address: str) -> bool:
        """Count a try as wrong until `right` is called; False when the address must wait."""
        now, key = self._clock(), _key(address)
        with self._lock:
            recent = [at for at in self._wrong.pop(key, ()) if now - at < self.minutes * 60]
            allowed = len(recent) < self.most
            self._wrong[key] = [*recent, now] if allowed else recent
            while len(self._wrong) > _MOST_ADDRESSES:
                self._wrong.popitem(last=False)
            return allowed

    def right(self, address: str) -> None:
        """The try that was begun was right: it does not count."""
        with self._lock:
            held = self._wrong.get(_key(address))
            if held:
                held.pop()


def _key(address: str) -> str:
    try:
        given = ipaddress.ip_address(address)
    except ValueError:
        return address
    given = getattr(given, "ipv4_mapped", None) or given
    if given.version == 6:
        return str(ipaddress.ip_network((given.packed, _IPV6_NETWORK_BITS), strict=False))
    return str(given)
