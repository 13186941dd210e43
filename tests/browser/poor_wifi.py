"""The hangar's wifi as numbers: what a first page takes over a slow line that loses packets.

A model and no measurement, so that a test of it gives the same answer on every machine. It counts bytes and
round trips of TCP as the standards have them: one round trip for the handshake (RFC 9293), one for TLS 1.3
(RFC 8446), a window of 10 segments that doubles with every flight (RFC 6928, RFC 5681), one round trip more
for a flight that lost a segment (fast retransmit, RFC 5681), one second for a lost request or handshake (the
first timer, RFC 6298). Losses are taken at their expected cost; tests/bench/wifi.py draws them.
"""

from dataclasses import dataclass

SEGMENT = 1460  # bytes of payload: Ethernet's 1500 without the headers of IPv4 and TCP
FIRST_WINDOW = 10  # segments
FIRST_TIMER_S = 1.0


@dataclass(frozen=True)
class Wifi:
    """bits_per_s of the whole line; round_trip_s; loss: the part of the segments that is lost, 0 to 1"""

    bits_per_s: float
    round_trip_s: float
    loss: float

    def small_exchange(self) -> float:
        """Seconds of one segment there and one back."""
        either_lost = 1 - (1 - self.loss) ** 2
        return self.round_trip_s + either_lost * FIRST_TIMER_S

    def answer(self, size: int, window: int = FIRST_WINDOW) -> tuple[float, int]:
        """Seconds from the request to the last byte of an answer of `size` bytes, and the window reached."""
        left, seconds, first = -(-size // SEGMENT), 0.0, True
        while left > 0:
            flight = min(left, window)
            left -= flight
            sending = flight * SEGMENT * 8 / self.bits_per_s
            # A later flight waits for the acknowledgement of the one before, unless the line is still full.
            seconds += sending + self.round_trip_s if first else max(sending, self.round_trip_s)
            seconds += (1 - (1 - self.loss) ** flight) * self.round_trip_s
            window, first = window * 2, False
        return seconds + self.loss * FIRST_TIMER_S, window  # the request itself may be lost


def first_useful_answer(wifi: Wifi, page: int, styles: int, beside: int, https: bool = False) -> float:
    """Seconds from an address typed to its words being readable, nothing kept from before.

    page    bytes of the HTML as sent, headers included; what is to be read stands in it
    styles  bytes of the stylesheets, which hold up the painting; asked for when the page has begun
    beside  bytes of all else that the page asks for; they take their part of the line, as if all came first
    """
    seconds = wifi.small_exchange() * (2 if https else 1)
    seconds_page, window = wifi.answer(page)
    seconds_styles, _ = wifi.answer(styles, window)
    return seconds + seconds_page + seconds_styles + beside * 8 / wifi.bits_per_s


HANGAR = Wifi(bits_per_s=1e6, round_trip_s=0.3, loss=0.05)
