"""Publications that an entry calls by their number alone: "Brakes: QZM-62-2 Rev 5, 32-42-00 pg 401".

A number that nothing points at is a source only where it is known as a publication's own: which are, the
caller says. What stands beside it is then read as beside any other source.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from indexer.tagging.record_lists import further
from indexer.tagging.record_places import Reading, read_places
from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.dashes import plain_dashes
from indexer.trade.publication_types import PublicationType as Type
from indexer.trade.revisions import find_revisions

_NUMBER = re.compile(
    r"(?<![\w.-])(?=[A-Z0-9 -]*[0-9])(?=[A-Z0-9]*[A-Z])[A-Z0-9]{1,10}(?:-[A-Z0-9]{1,10}){1,5}(?![\w-])"
    r"|(?<![\w.-])[A-Z]{2,5}[ ][0-9]{1,4}(?:-[A-Z0-9]{1,6}){1,4}(?![\w-])",
    re.IGNORECASE,
)
_SLASHED = re.compile(r"/(?P<mark>[0-9]{1,3}|[A-Z])(?![\w/-])", re.IGNORECASE)
_BESIDE = re.compile(
    r"[ ,;:()/-]*(?:(?:of|in|from|per|IAW|ref|see|to)\.?[ ]+)?(?:the[ ]+)?[(]?", re.IGNORECASE
)
_KIND_WORDS = re.compile(r"(?:(?:the|manual|document|publication|pub|doc|p/n|no)\b[. #:]*)*$", re.IGNORECASE)
_PLACES = ("chapter_number", "page", "figure", "paragraph", "item", "revision")


@dataclass(frozen=True, slots=True)
class BareNumber:
    """A token with the form of a document's number; text[start:end] in the entry."""

    start: int
    end: int
    text: str

    @property
    def spellings(self) -> tuple[str, ...]:
        """How it may be printed: with a blank, with a dash in its place, in one piece."""
        return tuple(dict.fromkeys((self.text, self.text.replace(" ", "-"), self.text.replace(" ", ""))))


def bare_numbers(text: str, citations: Sequence[Citation]) -> list[BareNumber]:
    """Tokens of letters and figures with dashes that no reference with a number has taken, in order."""
    flat = _flat(text)
    taken = [each for each in citations if each.number]
    return [
        BareNumber(*match.span(), match[0])
        for match in _NUMBER.finditer(flat)
        if not any(match.start() < each.end and match.end() > each.start for each in taken)
    ]


def with_numbers(
    text: str, citations: Sequence[Citation], held: Mapping[BareNumber, tuple[str, Type | None]]
) -> list[Citation]:
    """The references of an entry with those to the numbers known; places beside them become theirs.

    held  number as printed and type of the publication for each token that is known
    """
    flat, found = _flat(text), list(citations)
    for token in sorted(held, key=lambda each: each.start):
        number, type = held[token]
        if any(each.number and each.start < token.end and token.start < each.end for each in found):
            continue
        found = _with_one(text, flat, found, token, number, type)
    return sorted(found, key=lambda each: each.start)


def _with_one(
    text: str, flat: str, citations: list[Citation], token: BareNumber, number: str, type: Type | None
) -> list[Citation]:
    reading = Reading(token.start, token.end, type, number)
    if slashed := _SLASHED.match(flat, token.end):
        reading.revision, reading.end = slashed["mark"], slashed.end()
    last = min(
        [each.start for each in citations if each.number and each.start >= token.end], default=len(flat)
    )
    read_places(flat, reading, last)
    more = further(flat, reading, None, None, last) if reading.places else []
    made = _citation(text, reading)
    made = _with_place_beside(text, flat, _with_revision_before(text, flat, made), citations)
    added = [made, *(_citation(text, each) for each in more)]
    kept = [each for each in citations if each.number or not any(_overlap(each, one) for one in added)]
    return [*kept, *added]


def _citation(text: str, reading: Reading) -> Citation:
    return Citation(
        CitationKind.DOCUMENT,
        text[reading.start : reading.end],
        reading.start,
        reading.end,
        reading.type,
        reading.number,
        reading.revision,
        reading.date,
        reading.chapter,
        reading.page,
        reading.figure,
        reading.paragraph,
        reading.item,
        claims_current=reading.current,
        date_words=reading.date_words,
    )


def _with_revision_before(text: str, flat: str, citation: Citation) -> Citation:
    """ "Rev 5 of QZM-62-2"."""
    if citation.revision:
        return citation
    for found in reversed(find_revisions(flat[: citation.start])):
        if re.fullmatch(
            r"[ ,]*(?:of |to |for )?(?:the )?(?:manual )?", flat[found.end : citation.start], re.I
        ):
            return _from(text, found.start, replace(citation, revision=found.mark))
        break
    return citation


def _with_place_beside(text: str, flat: str, citation: Citation, citations: Sequence[Citation]) -> Citation:
    """Take up the place right before the number or right after it: "32-42-00 pg 401, QZM-62-2 Rev 5"."""
    if citation.chapter_number or citation.page or citation.figure or citation.paragraph:
        return citation
    for each in citations:
        if each.number or each.kind is CitationKind.REGULATION or each.type not in (None, citation.type):
            continue
        if each.start < citation.end and citation.start < each.end:
            joins = True  # the words of the place hold the number
        elif each.end <= citation.start:
            between = _KIND_WORDS.sub("", flat[each.end : citation.start])
            joins = _BESIDE.fullmatch(between) is not None
        else:
            joins = _BESIDE.fullmatch(flat, citation.end, each.start) is not None
        if not joins or (citation.revision and each.revision and citation.revision != each.revision):
            continue
        taken = {name: getattr(each, name) for name in _PLACES if not getattr(citation, name)}
        dated = {} if citation.date else {"date": each.date, "date_words": each.date_words}
        joined = replace(citation, **taken, **dated, named=each.named)
        return _from(text, min(each.start, citation.start), replace(joined, end=max(each.end, citation.end)))
    return citation


def _from(text: str, start: int, citation: Citation) -> Citation:
    end = citation.end
    if text[end : end + 1] == ")" and "(" in text[start:end]:
        end += 1
    return replace(citation, start=start, end=end, text=text[start:end])


def _overlap(a: Citation, b: Citation) -> bool:
    return a.start < b.end and b.start < a.end


def _flat(text: str) -> str:
    return plain_dashes(text).replace("\n", " ")
