"""The further members of a list in a record: "AMM 32-41-00 P401 and 32-42-00 P201", "SBs 24 & 27"."""

import re
from dataclasses import replace

from indexer.tagging.record_numbers import DIRECTIVE_NUMBER, bulletin_prefix, circular_number, revision_in
from indexer.tagging.record_place_words import FIGURE, PAGE, PARAGRAPH
from indexer.tagging.record_places import Reading, read_places, value_of
from indexer.tagging.record_words import Kind, Numbered
from indexer.tagging.reference_words import spaced
from indexer.trade.publication_types import PublicationType as Type

_JOINT = spaced(r" ?(?:[,;/&+]|,? ?(?:and|or)(?![\w])) ?(?:and |& )?")
_AND = re.compile(r"[ ]*(?:and|&|or)[ ]*|[ ]*,[ ]*(?:and|&)[ ]*", re.IGNORECASE)
_TOKEN = spaced(
    r"(?P<number>(?=[A-Z0-9.-]{0,24}[0-9])[A-Z0-9]{1,16}(?:(?:-|\.(?=[0-9]))[A-Z0-9]{1,12}){0,6})"
    r"(?![\w-])(?!\.[0-9])(?!/[0-9]{1,2}/)"
)
_DIRECTIVE = spaced(r"(?:AD )?" + DIRECTIVE_NUMBER)
_CIRCULAR = spaced(r"(?P<number>-?[12][A-Z](?![\w])|43[.-]13-[12][A-Z](?![\w]))")
_CERTIFICATE = spaced(r"(?P<number>S[AEHPR][0-9]{2,5}[A-Z]{2}(?:-[A-Z])?)(?![\w-])")
_CHAPTER_NEXT = re.compile(r"(?:[0-9]{2}-[0-9]{2}(?P<subject>-[0-9]{2})?)(?![0-9])")
_SUBJECT_NEXT = re.compile(r"-(?P<subject>[0-9]{2})(?![\w-])")
_OWN_NEXT = re.compile(r"[0-9]{1,2}(?![\w-])(?!\.[0-9])")
_SEVERAL = re.compile(r"\b(?:chapters|ch'?s|sections|sect?s)\b", re.IGNORECASE)
_MOST = 60
_ONE_SHAPE = (Numbered.BULLETIN, Numbered.DRAWING, Numbered.PAPER)
_PLACES = {"page": PAGE, "figure": FIGURE, "paragraph": PARAGRAPH}
_VALUES = {
    "page": re.compile(r"(?P<one>(?:[A-Z]{1,3}-)?[0-9]{1,4}(?:[-.][0-9]{1,4})?[A-Z]?)(?![\w-])(?P<until>)"),
    "figure": re.compile(r"(?P<one>[0-9]{1,4}(?:[-.][0-9]{1,4})?[A-Z]?)(?![\w-])(?P<until>)"),
    "paragraph": re.compile(
        r"(?P<one>(?:\([a-z0-9]{1,4}\)){1,5}|[0-9]{1,3}[-.][0-9A-Z]{1,4})(?![\w-])(?P<until>)"
    ),
}


def further(
    flat: str, first: Reading, kind: Kind | None, words: re.Match | None, last: int | None = None
) -> list[Reading]:
    """The members of the list that `first` begins, without it. Each has what was said once for all."""
    last = len(flat) if last is None else last
    found: list[Reading] = []
    while len(found) < _MOST:
        before = found[-1] if found else first
        joint = _JOINT.match(flat, before.end, last)
        if not joint:
            break
        one = _chapter(flat, joint.end(), before, last) or _subject(flat, joint, before, last)
        one = one or _own_chapter(flat, joint, first, before, last) or _place(flat, joint, before, last)
        if not one and kind is not None:
            one = _number(flat, joint, first, before, kind, words)
        if not one:
            break
        found.append(one)
    _share_back([first, *found])
    return found


def _share_back(members: list[Reading]) -> None:
    """ "32-41-00 and 32-42-00 rev 6": a manual has one revision, said once after all its places."""
    last = members[-1]
    if not last.chapter or any(each.revision or each.date_words for each in members[:-1]):
        return
    if any(each.type is not last.type for each in members):
        return
    for each in members[:-1]:
        each.revision, each.date_words = last.revision, last.date_words
        each.current = each.current or last.current


def _next(before: Reading, start: int, **cleared: object) -> Reading:
    return replace(before, start=start, end=start, places=[], **cleared)


def _chapter(flat: str, place: int, before: Reading, last: int) -> Reading | None:
    shape = _CHAPTER_NEXT.match(flat, place, last)
    if (
        not shape
        or not before.chapter
        or before.chapter.section is None
        or before.type is Type.ADVISORY_CIRCULAR
    ):
        return None
    if bool(shape["subject"]) != bool(before.chapter.subject):
        return None
    one = _next(before, place, chapter=None, page="", figure="", paragraph="", item="", task="")
    read_places(flat, one, last)
    return one if one.places and one.places[0] == "chapter" else None


def _own_chapter(flat: str, joint: re.Match, first: Reading, before: Reading, last: int) -> Reading | None:
    """Another of several chapters or sections: "chapters 5 and 12"."""
    value = _OWN_NEXT.match(flat, joint.end(), last)
    if not value or not before.chapter or before.chapter.section or before.places[-1] != "chapter":
        return None
    if not _SEVERAL.search(flat, first.start, first.end):
        return None
    one = _next(before, joint.end(), page="", figure="", paragraph="", item="", task="")
    one.chapter = replace(before.chapter, chapter=value[0])
    one.places.append("chapter")
    one.end = value.end()
    read_places(flat, one, last)
    return one


def _subject(flat: str, joint: re.Match, before: Reading, last: int) -> Reading | None:
    """Another subject of the same section: "51-40-02 & -05"."""
    shape = _SUBJECT_NEXT.match(flat, joint.end(), last)
    if not shape or not before.chapter or not before.chapter.subject or before.places[-1] != "chapter":
        return None
    one = _next(before, joint.end(), page="", figure="", paragraph="", item="", task="")
    one.chapter = replace(before.chapter, subject=shape["subject"])
    one.places.append("chapter")
    one.end = shape.end()
    read_places(flat, one, last)
    return one


def _place(flat: str, joint: re.Match, before: Reading, last: int) -> Reading | None:
    """Another page, figure or paragraph of the same source."""
    place = joint.end()
    sorts = [sort for sort in before.places if sort in _PLACES]
    if not sorts:
        return None
    sort = sorts[-1]
    match = _PLACES[sort].match(flat, place, last)
    if not match and before.places[-1] == sort and _AND.fullmatch(joint[0]):
        match = _VALUES[sort].match(flat, place, last)
        if match and _shape(match["one"]) != _shape(getattr(before, sort)):
            match = None
    if not match:
        return None
    cleared = {"item": ""} | {other: "" for other in sorts}
    one = _next(before, place, **cleared)
    setattr(one, sort, value_of(match))
    one.places.append(sort)
    one.end = match.end()
    read_places(flat, one, last)
    return one


def _shape(value: str) -> str:
    return re.sub("[A-Za-z]", "A", re.sub("[0-9]", "0", value))


def _number(
    flat: str, joint: re.Match, first: Reading, before: Reading, kind: Kind, words: re.Match
) -> Reading | None:
    place = joint.end()
    clean = {
        "chapter": None,
        "page": "",
        "figure": "",
        "paragraph": "",
        "item": "",
        "revision": "",
        "date_words": "",
    }
    if kind.numbered is Numbered.DIRECTIVE and first.number and (match := _DIRECTIVE.match(flat, place)):
        one = _next(before, place, **clean)
        one.number, one.revision = " ".join(match["number"].split()), revision_in(match)
    elif kind.numbered is Numbered.CIRCULAR and first.number and (match := _CIRCULAR.match(flat, place)):
        one = _next(before, place, **clean)
        one.number = _circular(first.number, match["number"])
    elif kind.type is Type.SUPPLEMENTAL_TYPE_CERTIFICATE and (match := _CERTIFICATE.match(flat, place)):
        one = _next(before, place, **clean)
        one.number = match["number"]
    elif kind.numbered in _ONE_SHAPE and (match := _TOKEN.match(flat, place)):
        if not first.number or not _belongs(first.number, match["number"], joint[0], words[0]):
            return None
        one = _next(before, place, **clean)
        prefix = bulletin_prefix(words[0]) if kind.numbered is Numbered.BULLETIN else ""
        one.number = f"{prefix} {match['number']}".strip()
    else:
        return None
    one.end = match.end()
    read_places(flat, one, len(flat))
    return one


def _circular(first: str, number: str) -> str:
    if len(number) > 3:
        return circular_number(number)
    return f"{first[: first.rindex('-')]}-{number.lstrip('-')}" if "-" in first else number


def _belongs(first: str, number: str, joint: str, words: str) -> bool:
    """Whether a number after a joint is one more of its kind: of one shape, or any after a plural."""
    plain = first.rpartition(" ")[2]
    if number.isdigit() and plain.isdigit():
        plural = words.rstrip().lower().endswith("s")
        return (
            len(number) >= 2
            and abs(len(number) - len(plain)) <= 1
            and (plural or _AND.fullmatch(joint) is not None or joint == "/")
        )
    joints = re.sub("[A-Za-z0-9]", "", plain)
    return (
        bool(joints)
        and re.sub("[A-Za-z0-9]", "", number) == joints
        and _shape(number)[:2] == _shape(plain)[:2]
    )
