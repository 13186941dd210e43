"""What running text refers to: chapter numbers, tasks, figures, sections, pages, other documents, rules.

Numbers are found with the words right before them (reference_atoms.py) and put together here: "SRM 53-60-00,
figure 203" is one reference, "32-41-00 and 32-42-00" are two. What only looks like one is left out: titles of
sections and figures, running heads and feet, dates, parts and measures.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from indexer.reading.page import Passage, PassageKind
from indexer.tagging.joined_lines import Flat, joined_lines
from indexer.tagging.record_references import record_citations
from indexer.tagging.record_spoken import Typed, typed
from indexer.tagging.reference_atoms import Atom, find_atoms
from indexer.tagging.reference_joints import joined
from indexer.tagging.reference_words import ANNOUNCES, POINTS_TO
from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.chapters import ChapterNumber
from indexer.trade.publication_types import PublicationType as Type

_PLACES = (
    CitationKind.FIGURE,
    CitationKind.OWN_SECTION,
    CitationKind.PARAGRAPH,
    CitationKind.PAGE,
)
_PAPERS = {
    "manual": None,
    "bulletin": Type.SERVICE_BULLETIN,
    "letter": Type.SERVICE_LETTER,
    "directive": Type.AIRWORTHINESS_DIRECTIVE,
    "ad": Type.AIRWORTHINESS_DIRECTIVE,
}
_OF_THAT = re.compile(
    r"[ ]{1,3}(?:of|in)[ ]{1,3}(?:that|said)[ ]{1,3}(?:service[ ]|airworthiness[ ])?"
    r"(?P<paper>manual|bulletin|letter|directive|AD)\b",
    re.IGNORECASE,
)
_BULLET = re.compile(r"[ ]*(?:[*\u2022-][ ]+)?$")
# After a title's number: its end, a dash, or words in capitals.
_TITLE_FOLLOWS = re.compile(
    r"[ ]*(?:\n|$|[.:-]{1,2}[ ]*(?:\n|$|[A-Z])|\([Ss]heet|\[[A-Z]|(?!(?:If|When|Do|Refer|See|For|Use|This"
    r"|The)\b)[A-Z])"
)
_SENTENCE_GOES_ON = re.compile(r"[a-z,(/&-][ ]*$|\b(?:AMM|SRM|CMM|IPC|SB|AD|AC|CFR|REF|SEE|TO|PER|IAW)[ ]*$")
# Above the title of a figure stand the words of the figure, which end anyhow.
_ANNOUNCED_ABOVE = re.compile(
    r"(?:[,(]|\b(?:in|see|of|to|and|or|on|per|by|from|with|at|the|through|refer|also))[ ]*$", re.IGNORECASE
)
_WORK_ORDER = re.compile(
    r"(?<![\w])(?:W/?O|RO|job|card|invoice|PO|ship|(?:air|eng|prop)?log(?:[ ]?book)?|squawk)[ ]?"
    r"(?:no\.?|number)?[ #.:]*$",
    re.IGNORECASE,
)
_PART_OR_MODEL = re.compile(r"(?<![\w])(?:[PS]/?N|serial|model)(?: no\.?)?[ .:#]*$", re.IGNORECASE)
_MODEL = re.compile(r"S[BLI][A-Z]-[0-9]{1,2}[A-Z]?")  # "SLG-2": letters run on into one more
_OF_LOG = re.compile(r"[ ](?:of|in)[ ](?:the[ ])?(?:tech[ ])?log", re.IGNORECASE)
_ALONE = re.compile(r"[ .,:;()|-]*")
_LISTS = re.compile(
    r"\b(?:contents|effective pages|index|list of (?:figures|tables|illustrations|pages))\b", re.IGNORECASE
)


def find_citations(text: str) -> list[Citation]:
    """Every source and reference that a record entry names, in order of place, none overlapping another;
    text[start:end] is its text.

    Reads the shorthand of records beside the words of manuals: "IAW MM 32-41-00 P401 REV 6". A source named
    without saying which ("IAW MM") is one without number and place. A list gives one for each member and
    a range one for the whole. Fields say what is written.
    """
    flat = joined_lines(text)
    told = [each for each in _running_text(flat) if not _is_label(flat.text, each)]
    said = typed(flat.text.replace("\u2019", "'"))
    written = [_on_its_lines(flat, _as_said(flat, said, each)) for each in record_citations(said.text)]
    found = _merged([each for each in written if not _is_foot(flat, each)], told)
    return [_as_given(text, flat, each) for each in found]


def _as_said(flat: Flat, said: Typed, citation: Citation) -> Citation:
    """The citation with its places in the flat text."""
    start, end = said.place(citation.start), said.place(citation.end, end=True)
    return replace(citation, start=start, end=end, text=flat.text[start:end])


def _on_its_lines(flat: Flat, citation: Citation) -> Citation:
    """Without a date that begins the line below, with no word before it: that of the next entry."""
    if not citation.date_words or "\n" not in flat.lined[citation.start : citation.end]:
        return citation
    said = r"(?<![,(.])(?<!dated)(?<!dtd)(?<!date)(?<!of)"
    below = re.compile(rf"{said}[ ]*\n[ ]*{re.escape(citation.date_words)}[ )]*$", re.IGNORECASE)
    match = below.search(flat.lined, citation.start, citation.end)
    if not match:
        return citation
    end = match.start()
    return replace(citation, text=flat.text[citation.start : end], end=end, date=None, date_words="")


def _is_foot(flat: Flat, citation: Citation) -> bool:
    """A number alone in its line above a page is what the foot of a page prints."""
    if citation.kind is not CitationKind.CHAPTER or citation.type:
        return False
    line = flat.lined.rfind("\n", 0, citation.start) + 1
    return "\n" in flat.lined[citation.start : citation.end] and not flat.lined[line : citation.start].strip()


def _merged(written: list[Citation], told: list[Citation]) -> list[Citation]:
    """What is read as an entry and what is read as running text, each source once.

    Of two that overlap the entry's stays, unless the other says all that it says, and of that source alone.
    """
    found: list[Citation] = []
    index = 0
    for each in written:
        while index < len(told) and told[index].start < each.start and told[index].end <= each.start:
            found.append(told[index])
            index += 1
        overlapping = []
        while index < len(told) and told[index].start < each.end:
            overlapping.append(told[index])
            index += 1
        if len(overlapping) == 1 and _says_all(overlapping[0], each):
            each = replace(
                overlapping[0],
                named=each.named,
                claims_current=each.claims_current,
                date_words=each.date_words,
            )
        if found and each.start < found[-1].end:
            continue
        found.append(each)
    found += told[index:]
    return [each for place, each in enumerate(found) if not place or each.start >= found[place - 1].end]


def _says_all(told: Citation, written: Citation) -> bool:
    fields = ("type", "number", "revision", "date", "chapter_number", "page", "figure", "paragraph", "item")
    return all(not (said := getattr(written, name)) or getattr(told, name) == said for name in fields)


def _is_label(flat: str, citation: Citation) -> bool:
    """A chapter that files the entry ("ATA 24 - ..."), a work order, a page of the log: no source."""
    before = flat[max(0, citation.start - 14) : citation.start]
    if citation.kind is CitationKind.DOCUMENT:
        return bool(_PART_OR_MODEL.search(before) or _MODEL.fullmatch(citation.text))
    if citation.kind is CitationKind.PAGE:
        return bool(_WORK_ORDER.search(before) or _OF_LOG.match(flat, citation.end))
    if citation.kind is not CitationKind.CHAPTER or citation.type or citation.page or citation.figure:
        return False
    return bool(_WORK_ORDER.search(before)) or citation.text.upper().startswith("ATA") and not before.strip()


def running_text_citations(text: str) -> list[Citation]:
    """Every reference in the running text of a publication, in order of place, none overlapping another;
    text[start:end] is its text.

    A list gives one for each member and a range one for the whole. Fields say what is printed; a reference to
    the paper itself ("paragraph (g) of this AD") names no document.
    """
    flat = joined_lines(text)
    return [_as_given(text, flat, each) for each in _running_text(flat)]


def _running_text(flat: Flat) -> list[Citation]:
    """The references with places in the flat text."""
    atoms = find_atoms(flat.text)
    if not atoms:
        return []
    found = [atom for atom in joined(flat.text, atoms) if _refers(flat, atom)]
    return [_of_another(flat, atom).citation for atom in found]


def passage_citations(
    passage: Passage, numbers: Sequence[ChapterNumber] = (), own_number: str = "", own_revision: str = ""
) -> tuple[Citation, ...]:
    """The references of a passage: those of its text, without what names the passage's own place.

    numbers     what the passage is filed under: its own number standing bare is no reference
    own_number  of its publication, as printed, with own_revision: what names itself refers to nothing
    """
    listing = passage.kind in (PassageKind.TABLE, PassageKind.TEXT, PassageKind.PARTS_ROW)
    if listing and _LISTS.search(" ".join(passage.heading_path)):
        return ()
    found = running_text_citations(passage.text)
    return tuple(
        each
        for each in found
        if not _names_itself(passage, each, numbers)
        and not _is_own_document(passage.text, each, own_number, own_revision)
    )


def _of_another(flat: Flat, atom: Atom) -> Atom:
    """ "Section XIII of that manual" is in another paper, whose name stands further off."""
    citation = atom.citation
    if citation.kind not in _PLACES or not (after := _OF_THAT.match(flat.text, citation.end)):
        return atom
    kind = _PAPERS[after["paper"].lower()]
    return replace(atom, citation=replace(citation, kind=CitationKind.DOCUMENT, type=kind))


def _as_given(text: str, flat: Flat, citation: Citation) -> Citation:
    start, end = flat.place(citation.start, citation.end)
    return replace(citation, start=start, end=end, text=text[start:end])


def _refers(flat: Flat, atom: Atom) -> bool:
    citation = atom.citation
    before = flat.text[max(0, citation.start - 90) : citation.start]
    if atom.weak:
        return citation.kind is CitationKind.DOCUMENT and bool(POINTS_TO.search(before))
    return not _is_title(flat, citation) and not _stands_alone(flat, citation)


def _is_title(flat: Flat, citation: Citation) -> bool:
    """Whether the words stand where a title stands: at the beginning of a line that no sentence runs into,
    with a title or nothing after them."""
    if citation.kind is CitationKind.DOCUMENT and not citation.chapter_number:
        return False
    line = flat.lined.rfind("\n", 0, citation.start) + 1
    if not _BULLET.fullmatch(flat.lined, line, citation.start):
        return False
    above = flat.lined[max(0, line - 20) : max(0, line - 1)]
    goes_on = _ANNOUNCED_ABOVE if citation.kind is CitationKind.FIGURE else _SENTENCE_GOES_ON
    if above.strip() and goes_on.search(above):
        return False
    return bool(_TITLE_FOLLOWS.match(flat.lined, citation.end))


def _stands_alone(flat: Flat, citation: Citation) -> bool:
    """Whether nothing else is in its line, as in a running head or foot, and no sentence runs into it."""
    start = flat.lined.rfind("\n", 0, citation.start) + 1
    end = flat.lined.find("\n", citation.end)
    end = len(flat.lined) if end < 0 else end
    if not _ALONE.fullmatch(flat.lined, start, citation.start) or not _ALONE.fullmatch(
        flat.lined, citation.end, end
    ):
        return False
    if citation.kind in (CitationKind.DOCUMENT, CitationKind.REGULATION) and not citation.chapter_number:
        return False
    above = flat.lined[max(0, start - 20) : max(0, start - 1)]
    opened = "(" in flat.lined[start : citation.start]
    return not opened and not _SENTENCE_GOES_ON.search(above)


def _names_itself(passage: Passage, citation: Citation, numbers: Sequence[ChapterNumber]) -> bool:
    if (
        citation.kind not in (CitationKind.CHAPTER, CitationKind.TASK)
        or citation.chapter_number not in numbers
    ):
        return False
    if citation.page or citation.figure or citation.paragraph:
        return False
    before = passage.text[max(0, citation.start - 60) : citation.start].replace("\n", " ")
    return not ANNOUNCES.search(before)


def _is_own_document(text: str, citation: Citation, own_number: str, own_revision: str) -> bool:
    if citation.kind is not CitationKind.DOCUMENT or not own_number or citation.paragraph:
        return False
    heads = not text[text.rfind("\n", 0, citation.start) + 1 : citation.start].strip()
    same = heads or citation.revision in ("", own_revision)
    return same and _bare(citation.number) == _bare(own_number)


def _bare(number: str) -> str:
    return re.sub(r"^(?:SB|ASB|AC|NO|ORDER|FAA)+", "", re.sub(r"[\W_]+", "", number).upper())
