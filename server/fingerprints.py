"""A certificate's fingerprint for people: in groups to compare by eye, and spelled to be read out."""

import hashlib
from dataclasses import dataclass

_GROUP = 4
# ICAO Annex 10, volume II, spelling alphabet; figures by their plain names.
_SPELLED = dict(
    zip(
        "0123456789ABCDEF",
        "Zero One Two Three Four Five Six Seven Eight Nine Alfa Bravo Charlie Delta Echo Foxtrot".split(),
        strict=True,
    )
)


@dataclass(frozen=True, slots=True)
class Fingerprint:
    """digits   upper-case hexadecimal, as a tablet shows it but for spaces and colons"""

    digits: str

    @property
    def groups(self) -> tuple[str, ...]:
        return tuple(self.digits[at : at + _GROUP] for at in range(0, len(self.digits), _GROUP))

    @property
    def spelled(self) -> tuple[tuple[str, str], ...]:
        """Each group and its words: ("3FA2", "Three Foxtrot Alfa Two")."""
        return tuple((group, " ".join(_SPELLED[digit] for digit in group)) for group in self.groups)


def sha256(certificate: bytes) -> Fingerprint:
    """Of a certificate in DER."""
    return Fingerprint(hashlib.sha256(certificate).hexdigest().upper())


def sha1(certificate: bytes) -> Fingerprint:
    """The shorter one, the only one that Windows shows in its window of a certificate."""
    return Fingerprint(hashlib.sha1(certificate, usedforsecurity=False).hexdigest().upper())
