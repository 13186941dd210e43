"""Titles that say what kind of book it is and no more: "SERVICE MANUAL" may be any airplane's. Pure.

The words are those that the covers of manuals and catalogs put together: common practice, no source.
"""

import re

_KIND_WORDS = frozenset(
    "aircraft airplane and book catalog catalogue component engine flight handbook illustrated instructions"
    " list maintenance manual of operating overhaul owner owners owner's parts pilot's propeller repair"
    " service shop structural the".split()
)


def says_kind_alone(title: str) -> bool:
    """Whether a title tells no aircraft from another: "SHOP MANUAL", "Parts List"; False for ""."""
    words = re.findall(r"[\w'-]+", title.casefold().replace("\u2019", "'"))
    return bool(words) and _KIND_WORDS.issuperset(words)
