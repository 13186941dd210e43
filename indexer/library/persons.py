"""Names of persons: given, and whether two of them may be one person's. Pure.

Until persons sign in, a name is all there is to tell two of them apart.
"""

import re

from indexer.library.folding import folded
from indexer.library.problems import EntryRefused


def named(who: str, why: str | None = None) -> tuple[str, str]:
    """Name and reason with their blanks made simple.

    why   None = none is asked for
    Raises EntryRefused when one of them is blank.
    """
    name = " ".join(who.split())
    if not re.search(r"\w", name):
        raise EntryRefused("no name is given", "Say who you are: every entry stands under a person's name.")
    reason = " ".join((why or "").split())
    if why is not None and not re.search(r"\w", reason):
        raise EntryRefused("no reason is given", "Say why in a few words, for whoever reads it later.")
    return name, reason


def may_be_one(one: str, other: str) -> bool:
    """Whether two names may mean one person: "R. Quill", "Quill, Robert" and "ROBERT QUILL" may."""
    ours, theirs = _words(one), _words(other)
    return len(ours) == len(theirs) and all(
        a == b or (min(len(a), len(b)) == 1 and a[0] == b[0]) for a, b in zip(ours, theirs, strict=True)
    )


def _words(name: str) -> list[str]:
    return sorted(re.findall(r"[^\W_]+", folded(name)[0]))
