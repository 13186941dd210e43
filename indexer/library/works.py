"""Which work a publication is a revision of: keys made from the words of its identity alone.

Two publications are revisions of one work when type, maker and number agree (common practice, no source).
Titles vary between revisions and are left out.
"""

import re
from dataclasses import dataclass
from functools import lru_cache

from indexer.tagging.tags import Claim, Identity
from indexer.trade.bulletin_numbers import find_bulletin_numbers, normalised_bulletin
from indexer.trade.directive_numbers import normalised_directive
from indexer.trade.publication_types import PublicationType
from indexer.trade.revisions import normalised_revision

DIRECTIVES = frozenset({PublicationType.AIRWORTHINESS_DIRECTIVE, PublicationType.PROPOSED_DIRECTIVE})
BULLETINS = frozenset({PublicationType.SERVICE_BULLETIN, PublicationType.SERVICE_LETTER})

# Words that say what kind of company it is, not which one.
_COMPANY_WORDS = frozenset(
    """the inc incorporated co company corp corporation ltd limited llc plc gmbh ag sa sas spa srl group
    holdings aircraft aviation aerospace aeronautical airplane airplanes industries international
    manufacturing mfg
    """.split()
)
_NUMBER_WORDS = re.compile(
    r"^(?:(?:p/?n|part|publication|pub|document|doc|manual|report|no|number)\b[.:#\s]*)+", re.I
)
# The series from the words before a number, where the number brings its own.
_SERIES_TWICE = re.compile(r"^[A-Z]{2,4}-(?=(?:SL|SIL|SI|SB|ASB|MSB|CSB|ESB|SEB|SEL|MEB)-)")


@dataclass(frozen=True, slots=True)
class WorkKey:
    """`id` is made from the other three; number "" means the work cannot be told from others of its kind."""

    id: str
    type: str
    maker: str
    number: str


def maker_key(maker: str) -> str:
    """A maker's name for comparison: "Kestrel Aircraft Co., Inc." and "KESTREL AIRCRAFT" are one."""
    words = re.findall(r"\w+", maker.casefold())
    return " ".join([word for word in words if word not in _COMPANY_WORDS] or words)


@lru_cache(16384)  # a library names the same documents again and again
def number_key(number: str, type: PublicationType | None) -> str:
    """A publication's number for comparison with others of its type; "" when there is none."""
    if type in DIRECTIVES:
        return normalised_directive(number) or _plain_key(number)
    if type in BULLETINS:
        return _with_series(normalised_bulletin(number) or _plain_key(number), type)
    return _plain_key(number)


def claimed_keys(claim: Claim) -> frozenset[str]:
    """Number keys of the document a claim names.

    A bulletin's series may stand only in the words before its number ("Alert Service Bulletin 32-0012"),
    which the quote still has.
    """
    if claim.type not in BULLETINS:
        return frozenset({number_key(claim.document, claim.type)} - {""})
    bare = normalised_bulletin(claim.document)
    quoted = {
        _with_series(found.number, claim.type)
        for found in find_bulletin_numbers(claim.evidence.quote)
        if normalised_bulletin(found.text) == bare
    }
    return frozenset((quoted or {number_key(claim.document, claim.type)}) - {""})


def work_key(identity: Identity, publication_id: str) -> WorkKey:
    """The work of a publication. Without a number it stands alone: its work is named after itself."""
    type = identity.type.value if identity.type else None
    number = number_key(identity.number.value, type) if identity.number else ""
    maker = maker_key(identity.maker.value) if identity.maker and type not in DIRECTIVES else ""
    name = type.value if type else ""
    if not number:
        return WorkKey(f"alone|{publication_id}", name, maker, "")
    return WorkKey(f"{name}|{maker}|{number}", name, maker, number)


def revision_mark(identity: Identity) -> str:
    """The revision for comparison: "original", "3", "B"; "" when none is printed."""
    return normalised_revision(identity.revision.value) if identity.revision else ""


def revision_id(key: WorkKey, identity: Identity) -> str:
    """The id of a work's revision: its mark and date."""
    date = identity.date.value.isoformat() if identity.date else ""
    return f"{key.id}|{revision_mark(identity)}|{date}"


def _plain_key(number: str) -> str:
    return re.sub(r"[\W_]+", "-", _NUMBER_WORDS.sub("", number.strip())).strip("-").upper()


def _with_series(number: str, type: PublicationType | None) -> str:
    """With the letters of its series once: "Service Letter SL-0219" is SL-0219, and so is a letter "0219"."""
    number = _SERIES_TWICE.sub("", number)
    bare = type is PublicationType.SERVICE_LETTER and number[:1].isdigit()
    return f"SL-{number}" if bare else number
