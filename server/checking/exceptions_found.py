"""Where a directive says otherwise than the cited document it requires: it governs (14 CFR 39.27)."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from indexer.library.catalogue import Catalogue
from indexer.tagging.directive_exceptions import find_exceptions, values_replaced
from indexer.tagging.tags import Citation, ClaimKind
from server.checking.findings import DirectiveFinding

_REACHING = (ClaimKind.REQUIRES, ClaimKind.INCORPORATES)
_NUMBER = re.compile(r"(?=[A-Z0-9-]*\d)[A-Z0-9]{2,}(?:-[A-Z0-9]+)+")


@dataclass(frozen=True, slots=True)
class ExceptionFound:
    """One sentence of a directive that takes the place of the document's.

    used  values of the entry that the directive replaced by others: ("50 inch-pounds",)
    """

    directive: str
    quote: str
    pdf_page: int
    used: tuple[str, ...]

    @property
    def words(self) -> str:
        said = (
            f"{self.directive} says otherwise than this document, and the directive governs (14 CFR 39.27): "
            f"«{self.quote}» (PDF page {self.pdf_page})."
        )
        if self.used:
            said += f" The entry names {', '.join(self.used)}, which the directive replaced."
        return said


def exceptions_of(
    catalogue: Catalogue, citation: Citation, directives: Sequence[DirectiveFinding], entry: str
) -> tuple[ExceptionFound, ...]:
    """The exceptions of directives that require or incorporate the cited document, in page order."""
    found: dict[tuple[str, str], ExceptionFound] = {}
    for each in directives:
        if each.level not in _REACHING:
            continue
        for passage in catalogue.passages_of(each.publication):
            for said in find_exceptions(passage.text):
                quote = " ".join(said.quote.split())
                if _speaks_of(citation, quote):
                    used = values_replaced(entry, said)
                    found.setdefault(
                        (each.number, quote), ExceptionFound(each.number, quote, passage.pdf_page, used)
                    )
    return tuple(found.values())


def _speaks_of(citation: Citation, quote: str) -> bool:
    """Whether the sentence names the cited document, or none ("where the service bulletin says ...")."""
    before = quote.partition("AD requires")[0].upper()
    numbers = _NUMBER.findall(before)
    mine = _NUMBER.findall(citation.number.upper()) or [citation.number.upper()]
    return not numbers or any(number in mine for number in numbers)
