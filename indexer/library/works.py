"""Which work a publication is a revision of: keys made from the words of its identity alone.

Two publications are revisions of one work when type, maker and number agree (common practice, no source).
Titles vary between revisions and are left out.
"""

import re
from dataclasses import dataclass

from indexer.tagging.tags import Identity
from indexer.trade.publication_types import PublicationType

DIRECTIVES = frozenset({PublicationType.AIRWORTHINESS_DIRECTIVE, PublicationType.PROPOSED_DIRECTIVE})

# Words that say what kind of company it is, not which one.
_COMPANY_WORDS = frozenset(
    """the inc incorporated co company corp corporation ltd limited llc plc gmbh ag sa sas spa srl group
    holdings aircraft aviation aerospace aeronautical airplane airplanes industries international manufacturing mfg
    """.split()  # noqa: SIM905
)
_NUMBER_WORDS = re.compile(
    r"^(?:(?:p/?n|part|publication|pub|document|doc|manual|report|no|number)\b[.:#\s]*)+", re.I
)


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


def number_key(number: str, type: PublicationType | None) -> str:
    """A publication's number for comparison; "" when there is none."""
    plain = _NUMBER_WORDS.sub("", number.strip())
    return re.sub(r"[\W_]+", "-", plain).strip("-").upper()


def work_key(identity: Identity, publication_id: str) -> WorkKey:
    """The work of a publication. Without a number it stands alone: its work is named after itself."""
    type = identity.type.value if identity.type else None
    number = number_key(identity.number.value, type) if identity.number else ""
    maker = maker_key(identity.maker.value) if identity.maker and type not in DIRECTIVES else ""
    name = type.value if type else ""
    if not number:
        return WorkKey(f"alone|{publication_id}", name, maker, "")
    return WorkKey(f"{name}|{maker}|{number}", name, maker, number)


def revision_id(key: WorkKey, identity: Identity) -> str:
    """The id of a work's revision as printed: number and date."""
    number = identity.revision.value.strip().casefold() if identity.revision else ""
    date = identity.date.value.isoformat() if identity.date else ""
    return f"{key.id}|{number}|{date}"
