"""Whether a bulletin stretches a limit of the airworthiness limitations. Read from its words."""

import re

from indexer.library.catalogue import Catalogue
from indexer.library.cited import text_of
from indexer.library.records import PublicationRecord
from indexer.library.works import BULLETINS

_LIMIT = (
    r"(?:replacement|retirement|service|overhaul)[ ](?:time|life|limit)s?|life[ -]?limits?"
    r"|airworthiness[ ]limitations?"
)
_STRETCHES = re.compile(
    rf"\b(?:exten(?:d(?:s|ed)?|ding|sion)|increas(?:e[sd]?|ing)|lengthen(?:s|ed|ing)?)\b[^.;]{{0,80}}?\b(?:{_LIMIT})\b"
    rf"|\b(?:{_LIMIT})\b[^.;]{{0,60}}?\b(?:extended|increased|lengthened)\b",
    re.IGNORECASE,
)


def stretches_a_limit(catalogue: Catalogue, publication: PublicationRecord | None) -> str:
    """The words of a bulletin that extend a replacement time or a life limit; "" without them."""
    if publication is None or publication.type not in BULLETINS:
        return ""
    said = [publication.title, *(each.text for each in text_of(catalogue, publication.id))]
    found = (_STRETCHES.search(" ".join(each.split())) for each in said)
    return next((match[0] for match in found if match), "")
