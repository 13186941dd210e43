"""What a page prints against its own approval: "this page is not FAA approved", "outside its approval"."""

import re
from dataclasses import dataclass

from indexer.library.catalogue import Catalogue
from indexer.library.records import PublicationRecord
from indexer.library.works import BULLETINS, DIRECTIVES
from server.checking.places import MOST_PAGES, Place
from server.page_lookup import passages_on

_DENIES = re.compile(
    r"\b(?:this|the following|these)\s(?:pages?|sections?|chapters?|repairs?|figures?|procedures?|data)\b"
    r"[^.\n]{0,40}?\b(?:is|are)\s(?:not\s(?:[\w-]+\s){0,3}?approved|outside\s(?:of\s)?(?:the\s)?(?:[\w-]+\s){0,2}?approval)"
    r"\b[^.\n]{0,80}\.?",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Denial:
    """The words as printed, and their page (1-based)."""

    quote: str
    pdf_page: int


def denial_on(catalogue: Catalogue, publication: PublicationRecord | None, place: Place) -> Denial | None:
    """The first such words on the pages meant; None without any, and for papers that approve by paragraph."""
    if publication is None or publication.type in BULLETINS | DIRECTIVES:
        return None
    for page in place.pdf_pages[:MOST_PAGES]:
        for passage in passages_on(catalogue, publication, page):
            for words in (*passage.heading_path, passage.text):
                if found := _DENIES.search(" ".join(words.split())):
                    return Denial(found[0], page)
            if _DENIES.search(quote := passage.standing.quote):
                return Denial(quote, page)
    return None
