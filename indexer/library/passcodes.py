"""Passcodes: what may be one, and how it is kept. Pure.

scrypt (RFC 7914) with N = 2^15, r = 8, p = 3: 32 MB and some tenths of a second for each try. From memory:
these are among the settings that OWASP's sheet on keeping passwords names; eight characters at least and the
form NFKC are NIST SP 800-63B, section 5.1.1.2.
"""

import hashlib
import hmac
import secrets
import threading
import unicodedata

from indexer.library.problems import EntryRefused

LEAST, MOST = 8, 128  # characters
_COST, _BLOCK, _PARALLEL = 2**15, 8, 3
_SALT_BYTES = 16
_one_at_a_time = threading.Lock()  # so that many tries at once do not take the machine's memory


def checked_passcode(passcode: str, name: str) -> str:
    """The passcode as it is kept. Raises EntryRefused; what was typed is not repeated."""
    text = _written(passcode)
    if len(text) < LEAST:
        raise EntryRefused(
            f"the passcode is too short: it has {len(text)} characters",
            f"Take {LEAST} or more; four words are easy to keep in mind.",
        )
    if len(text) > MOST:
        raise EntryRefused("the passcode is too long", f"Take {MOST} characters at most.")
    if len(set(text)) < 4 or text.casefold() == name.casefold():
        raise EntryRefused("the passcode is too easy to guess", "Take another: four words, or letters mixed.")
    return text


def new_salt() -> bytes:
    return secrets.token_bytes(_SALT_BYTES)


def hashed(
    passcode: str, salt: bytes, cost: int = _COST, block: int = _BLOCK, parallel: int = _PARALLEL
) -> bytes:
    """64 bytes made of a passcode and a salt (RFC 7914: N = cost, r = block, p = parallel)."""
    memory = 128 * block * (cost + parallel + 2) + 2**20
    with _one_at_a_time:
        return hashlib.scrypt(
            _written(passcode).encode("utf-8"),
            salt=salt,
            n=cost,
            r=block,
            p=parallel,
            maxmem=memory,
            dklen=64,
        )


def is_right(passcode: str, salt: bytes, kept: bytes) -> bool:
    """Whether it is the passcode that was kept; takes the same time whatever the answer is."""
    return hmac.compare_digest(hashed(passcode[: 2 * MOST], salt), kept)


def _written(passcode: str) -> str:
    return unicodedata.normalize("NFKC", passcode).strip()
