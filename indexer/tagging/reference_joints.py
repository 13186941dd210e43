"""Which numbers beside each other are one reference: "32-41-00, page 401", "paragraph 2.B of SB 32-0012"."""

import re
from dataclasses import replace

from indexer.tagging.reference_atoms import Atom
from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.publication_types import PublicationType as Type

_PLACES = frozenset(
    {CitationKind.FIGURE, CitationKind.OWN_SECTION, CitationKind.PARAGRAPH, CitationKind.PAGE}
)
_NUMBERED = frozenset({CitationKind.CHAPTER, CitationKind.TASK})
_LONGEST = 90  # characters between the two halves of one reference
# Between a document or a place and a narrower place in it.
_NARROWS = re.compile(
    r"[ ,;:(/#-]*(?:at[ ]|on[ ]|in[ ])?(?:(?:chapters?|sections?|subjects?|(?:sub)?tasks?|ref|no"
    r"|title)\b[ .:#]*)?[ (]*"
)
# Between a place and what it is a place of.
_OF = re.compile(
    r"[ ]{0,3},?[ ]{0,3}(?:of|in|from|to)[ ]{1,3}(?:the[ ]{1,3})?"
    r"(?:(?!this\b|that\b|these\b|and\b|or\b|to\b|see\b)[\w.'&()-]{1,24},?[ ]{1,3}){0,7}",
    re.IGNORECASE,
)
_AND = re.compile(r"[ ]*(?:,|,?[ ]*(?:and|or|through|to|thru)|&|/)[ ]*", re.IGNORECASE)


def joined(flat: str, atoms: list[Atom]) -> list[Atom]:
    """The atoms with those that are one reference put together, in order of place."""
    done: list[Atom] = []
    for atom in atoms:
        before = done[-1] if done else None
        between = flat[before.end : atom.start] if before and atom.start - before.end <= _LONGEST else None
        if before is None or between is None:
            done.append(atom)
        elif (together := _together(flat, before, atom, between)) is not None:
            done[-1] = together
            if _OF.fullmatch(between) and not _contains(before):
                _share_back(done, before, together)
        else:
            done.append(_sharing(before, atom, between))
    return done


def _contains(atom: Atom) -> bool:
    """Whether it names something that has places in it."""
    return atom.citation.kind in _NUMBERED or atom.citation.kind in (
        CitationKind.DOCUMENT,
        CitationKind.REGULATION,
    )


def _together(flat: str, before: Atom, after: Atom, between: str) -> Atom | None:
    one, other = before.citation, after.citation
    if _NARROWS.fullmatch(between) and (fields := _narrowed(one, other)):
        group = after.group if other.kind in _PLACES else before.group
        kind = fields.pop("kind", one.kind)
        whole = replace(one, kind=kind, text=flat[one.start : other.end], end=other.end, **fields)
        weak = before.weak and not any(fields.values())
        return Atom(whole, group, weak)
    if _OF.fullmatch(between) and one.kind is other.kind is CitationKind.PARAGRAPH and _is_appendix(other):
        whole = replace(other, text=flat[one.start : other.end], start=one.start)
        return Atom(replace(whole, paragraph=f"{other.paragraph}, {one.paragraph}"), before.group)
    if one.kind in _PLACES and _contains(after) and _OF.fullmatch(between):
        fields = _placed(one, other)
        if fields is not None:
            whole = replace(other, text=flat[one.start : other.end], start=one.start, **fields)
            return Atom(whole, before.group, after.weak and before.weak)
    return None


def _is_appendix(one: Citation) -> bool:
    return one.paragraph.lower().startswith("append")


def _narrowed(one: Citation, other: Citation) -> dict | None:
    """What `other` adds to `one` when it is a place in it; None when it is not."""
    if one.kind is CitationKind.REGULATION:
        return _added(one, paragraph=other.paragraph) if other.kind is CitationKind.PARAGRAPH else None
    if other.kind in _NUMBERED and one.kind is CitationKind.DOCUMENT and not one.chapter_number:
        return _numbered(one, other)
    if other.kind is CitationKind.OWN_SECTION:
        return _with_section(one, other)
    if other.kind in _PLACES and (_has_places(one) or one.kind in _PLACES and one.kind is not other.kind):
        return _added(one, page=other.page, figure=other.figure, paragraph=other.paragraph, item=other.item)
    if other.kind is CitationKind.TASK and one.kind is CitationKind.CHAPTER and not other.chapter_number:
        return {"kind": CitationKind.TASK, "number": other.number}
    return None


def _has_places(one: Citation) -> bool:
    return one.kind in _NUMBERED or one.kind is CitationKind.DOCUMENT


def _numbered(one: Citation, other: Citation) -> dict | None:
    """A chapter number after a manual: its place there, or the number of a component manual itself."""
    if one.type in (
        Type.SERVICE_BULLETIN,
        Type.SERVICE_LETTER,
        Type.AIRWORTHINESS_DIRECTIVE,
        Type.ADVISORY_CIRCULAR,
    ):
        return None
    fields = {
        "chapter_number": other.chapter_number,
        "page": other.page,
        "figure": other.figure,
        "item": other.item,
        "paragraph": other.paragraph,
    }
    if one.type is Type.COMPONENT_MAINTENANCE_MANUAL and not one.number:
        return {**fields, "number": str(other.chapter_number)}
    if one.number:
        return fields
    return {**fields, "kind": other.kind, "number": other.number}


def _with_section(one: Citation, other: Citation) -> dict | None:
    section = other.chapter_number
    rest = _added(one, page=other.page, figure=other.figure, paragraph=other.paragraph, item=other.item)
    if section is None or rest is None:
        return None
    if one.kind is CitationKind.DOCUMENT and not one.chapter_number:
        return {**rest, "chapter_number": section}
    held = one.chapter_number
    own = held is not None and held.scheme is Scheme.OWN and held.section is None
    if (
        own
        and one.kind in (CitationKind.DOCUMENT, CitationKind.OWN_SECTION)
        and section.chapter != held.chapter
    ):
        return {**rest, "chapter_number": ChapterNumber(held.chapter, section.chapter, scheme=Scheme.OWN)}
    return None


def _placed(place: Citation, container: Citation) -> dict | None:
    """The fields of a place, to be added to what it is a place of."""
    if place.kind is CitationKind.OWN_SECTION:
        if container.kind is not CitationKind.DOCUMENT or container.chapter_number:
            return None
        rest = _added(
            container, page=place.page, figure=place.figure, paragraph=place.paragraph, item=place.item
        )
        return None if rest is None else {**rest, "chapter_number": place.chapter_number}
    return _added(container, page=place.page, figure=place.figure, paragraph=place.paragraph, item=place.item)


def _added(one: Citation, **fields: str) -> dict | None:
    """The fields that say something, where `one` says nothing yet; None where it does, or none does."""
    new = {name: value for name, value in fields.items() if value}
    return new if not any(getattr(one, name) for name in new) else None


def _sharing(before: Atom, after: Atom, between: str) -> Atom:
    """A further member of a list takes from the one before what was said once for both."""
    one, other = before.citation, after.citation
    listed = _AND.fullmatch(between) is not None
    if other.kind in _PLACES and _contains(before):
        if after.group == before.group or (listed and _alike(one, other)):
            return Atom(_moved(one, other), after.group)
    elif listed and {one.kind, other.kind} <= _NUMBERED and one.type and not other.type:
        return replace(after, citation=replace(other, type=one.type))
    return after


def _alike(one: Citation, other: Citation) -> bool:
    """Whether both name a place of one sort: "32-42-00, Page 201 and Page 401"."""
    sorts = ("page", "figure", "paragraph")
    mine = [sort for sort in sorts if getattr(one, sort)]
    return bool(mine) and mine == [sort for sort in sorts if getattr(other, sort)]


def _moved(one: Citation, place: Citation) -> Citation:
    """The place as one of what `one` names a place of."""
    return replace(
        place,
        kind=one.kind,
        type=one.type,
        number=one.number,
        revision=one.revision,
        date=one.date,
        chapter_number=one.chapter_number,
    )


def _share_back(done: list[Atom], place: Atom, together: Atom) -> None:
    """ "Paragraphs (g) and (h) of AD ...": the document named at the end is that of every member."""
    whole = together.citation
    for index in range(len(done) - 2, -1, -1):
        earlier = done[index]
        if earlier.group != place.group or earlier.citation.kind not in _PLACES:
            return
        if whole.kind is CitationKind.PARAGRAPH:  # in an appendix
            appendix = whole.paragraph.partition(",")[0]
            named = replace(earlier.citation, paragraph=f"{appendix}, {earlier.citation.paragraph}")
            done[index] = replace(earlier, citation=named)
            continue
        shared = replace(
            earlier.citation,
            kind=whole.kind,
            type=whole.type,
            number=whole.number,
            revision=whole.revision,
            date=whole.date,
            chapter_number=whole.chapter_number or earlier.citation.chapter_number,
        )
        done[index] = replace(earlier, citation=shared, weak=together.weak)
