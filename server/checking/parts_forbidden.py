"""Whether the words around a part number forbid the part, and the answers that this lowers.

An AD forbids a part in a sentence of its own or at the head of a paragraph with a list (14 CFR 39.11: what a
directive may require). The words are a closed list: more are found than forbid, for a yes beside a directive
that forbids the part is worse than "cannot tell". Nothing is ever raised.
"""

import re
from collections.abc import Iterable, Mapping

from indexer.library.catalogue import Catalogue
from indexer.library.records import PassageRecord
from indexer.trade.evidence import Answer
from indexer.trade.part_numbers import Match, compare
from server.checking.answer_facts import cannot_tell
from server.checking.findings import Enough
from server.page_lookup import passages_on
from server.parts_printed import Printed, called, number_in

_FORBIDS = re.compile(
    r"\b(?:do not install|(?:may |must |shall )?not be installed|no person (?:may|shall) install"
    r"|(?<!not )prohibit(?:s|ed|ion)|(?:is|are) not allowed|not eligible for installation)\b",
    re.IGNORECASE,
)
_REMOVES = re.compile(
    r"\bremove[sd]?\b[^.;]*?\bbefore further flight\b|\bbefore further flight\b[^.;]*?\bremove[sd]?\b"
    r"|\bremove[sd]?\b[^.;]*?\bfrom service\b",
    re.IGNORECASE,
)
_SENTENCE = re.compile(r"(?<=[.;:!?])\s+(?=[A-Z(\"])|\n{2,}")
_LETTERED = re.compile(r"\((?!(?:i|ii|iv|v|vi|x)\))[a-z]{1,2}\)")  # and not the (i) below a (1)


def why_forbidden(catalogue: Catalogue, each: Printed, number: str) -> str:
    """ "AD 2031-07-11 (h) forbids installing QZ32-4421-3: read it before use."; "" = only named;
    inside `reading`."""
    of = " ".join(part for part in (called(each), each.paragraph) if part)
    force = "" if each.in_force else f" ({each.status.words if each.status else 'not shown to be a rule'})"
    read = " Read by OCR: compare with the page." if each.read_by_ocr else ""
    printed = _as_printed(each.passage.text, number)
    sentences = (" ".join(one.split()) for one in _SENTENCE.split(each.passage.text))
    if any(number_in(one, number) and _FORBIDS.search(one) for one in sentences):
        return f"{of}{force} forbids installing {printed}: read it before use.{read}"
    if said := forbidding_words(_paragraph(catalogue, each.passage)):
        return f"{of}{force} names {printed} in a paragraph that says «{said}»: read it before use.{read}"
    return ""


def forbidding_words(text: str) -> str:
    """The first words of a text that forbid or remove a part; "" = none."""
    plain = " ".join(text.split())
    found = _FORBIDS.search(plain) or _REMOVES.search(plain)
    return found[0] if found else ""


def lowered(answers: Mapping[str, Enough], reasons: Iterable[str]) -> dict[str, Enough]:
    """Answers for each class of work: where it was yes, "cannot tell" with the reasons first. Pure."""
    first = " ".join(dict.fromkeys(reasons))
    if not first:
        return dict(answers)
    return {
        work: cannot_tell(f"{first} Of the source itself: {each.why}") if each.answer is Answer.YES else each
        for work, each in answers.items()
    }


def _as_printed(text: str, number: str) -> str:
    place = number_in(text, number)
    if place is None:
        return number
    printed = re.sub(r"(?<=[/.-])\s+", "", text[slice(*place)])
    return number if compare(number, printed) is Match.EXACT else " ".join(printed.split())


def _paragraph(catalogue: Catalogue, passage: PassageRecord) -> str:
    """The lettered paragraph around a passage, as far as it stands on its page and the one before."""
    heading = passage.heading_path[-1] if passage.heading_path else ""
    pages = (passage.pdf_page - 1, passage.pdf_page)
    publication = catalogue.publication(passage.publication_id)
    near = [
        each
        for page in pages
        if page > 0
        for each in passages_on(catalogue, publication, page)
        if each.heading_path == passage.heading_path
    ]
    if _LETTERED.match(heading):
        return "\n\n".join((heading, *(each.text for each in near)))
    before = [each for each in near if each.ordinal <= passage.ordinal]
    starts = [at for at, each in enumerate(before) if _LETTERED.match(each.text)]
    kept = before[starts[-1] :] if starts else [passage]
    return "\n\n".join(each.text for each in kept)
