"""Chapter-section-subject numbers: parse, print, order, and find in text."""

import re
from dataclasses import dataclass
from enum import StrEnum
from functools import total_ordering

from indexer.trade.chapter_tables import chapter_rows, jasc_groups, jasc_rows
from indexer.trade.dashes import plain_dashes
from indexer.trade.number_forms import written_numbers
from indexer.trade.own_numbers import parse_own_number


class Scheme(StrEnum):
    """Which numbering a number belongs to; the same digits mean different things in each."""

    ATA = "ATA"
    JASC = "JASC"
    SNS = "SNS"
    OWN = "OWN"


# S1000D's own numbering gives these systems another meaning than ATA Spec 100 (S1000D numbering list).
_SNS_DIFFERS = frozenset({"14", "39", "40", "43", "85", "86", *(str(chapter) for chapter in range(90, 100))})
# Where the FAA's table leaves the ATA chapter: its preface names the engine and stall warning codes; 14 is
# hardware, which ATA Spec 100 does not number (FAA JASC Code Table and Definitions, 27 October 2008).
_JASC_GROUP_MOVED = {"85": "72", "14": None}
_JASC_CODE_MOVED = {"3418": "27"}


@total_ordering
@dataclass(frozen=True, slots=True)
class ChapterNumber:
    """A system number. Parts are text of two digits ("04"), None when not given.

    JASC: the four digits are chapter and section, with no subject. SNS: the subject may have four digits.
    OWN: the manual's own order; parts are as printed, "V" or "5" and "12". Order: chapter, section, subject,
    then scheme; a part not given comes first. Raises ValueError on parts that no form of the scheme can have.
    """

    chapter: str
    section: str | None = None
    subject: str | None = None
    scheme: Scheme = Scheme.ATA

    def __post_init__(self) -> None:
        given = [part for part in (self.chapter, self.section, self.subject) if part is not None]
        if self.subject is not None and self.section is None:
            raise ValueError("a subject needs its section")
        if self.scheme is Scheme.JASC and self.subject is not None:
            raise ValueError("a JASC code has four digits and no subject")
        for part in given:
            long_subject = (
                self.scheme is Scheme.SNS and part is self.subject and re.fullmatch("[0-9]{4}", part)
            )
            if self.scheme is not Scheme.OWN and not re.fullmatch("[0-9]{2}", part) and not long_subject:
                raise ValueError(f"«{part}» is not two digits")

    def __str__(self) -> str:
        """ "32", "32-41", "32-41-00"; a JASC code "3241"."""
        joint = "" if self.scheme is Scheme.JASC else "-"
        return joint.join(part for part in (self.chapter, self.section, self.subject) if part is not None)

    def __lt__(self, other: object) -> bool:
        if not isinstance(other, ChapterNumber):
            return NotImplemented
        return self._order < other._order

    @property
    def _order(self) -> tuple[str, str, str, str]:
        chapter = self.chapter
        if self.scheme is Scheme.OWN and (own := parse_own_number(str(self))):
            chapter = "".join(f"{kind}{count:04d}{letters} " for kind, count, letters in own.key)
        return chapter, self.section or "", self.subject or "", self.scheme.value

    def covers(self, other: "ChapterNumber") -> bool:
        """Whether everything filed under `other` is filed under this number too.

        32 covers 32-41 and 32-41-05; 32-40 covers 32-41 (a subsystem and its parts); 32-41-00 covers
        32-41-05, 32-00-00 the whole chapter. Across schemes only a whole chapter covers, by the safe two
        digits.
        """
        if self.scheme is not other.scheme:
            other_ata = other.ata()
            whole = _significant(self.section, self.subject) == ""
            return whole and other_ata is not None and self.ata() == other_ata.whole_chapter()
        if self.scheme is Scheme.OWN:
            own, others = parse_own_number(str(self)), parse_own_number(str(other))
            if own and others:
                return own.covers(others)
            mine, theirs = _given(self), _given(other)
            return theirs[: len(mine)] == mine
        if self.chapter != other.chapter:
            return False
        return ((other.section or "") + (other.subject or "")).startswith(
            _significant(self.section, self.subject)
        )

    def whole_chapter(self) -> "ChapterNumber":
        """The chapter alone, in the same scheme."""
        return ChapterNumber(self.chapter, scheme=self.scheme)

    def ata(self) -> "ChapterNumber | None":
        """The ATA number: itself for ATA, the chapter alone for JASC and SNS; None where none is sure.

        A JASC code agrees with ATA by two digits safely, by three with care, never by four: 3241 is not
        32-41.
        """
        if self.scheme is Scheme.ATA:
            return self
        if self.scheme is Scheme.JASC:
            chapter = _JASC_CODE_MOVED.get(str(self)) or _JASC_GROUP_MOVED.get(self.chapter, self.chapter)
        elif self.scheme is Scheme.SNS:
            chapter = None if self.chapter in _SNS_DIFFERS else self.chapter
        else:
            chapter = None
        return ChapterNumber(chapter) if chapter else None


def _given(number: ChapterNumber) -> tuple[str, ...]:
    return tuple(part for part in (number.chapter, number.section, number.subject) if part is not None)


def _significant(section: str | None, subject: str | None) -> str:
    """The digits below the chapter that narrow it: zeros at the end mean "the whole"."""
    return ((section or "") + (subject or "")).rstrip("0")


@dataclass(frozen=True, slots=True)
class FoundNumber:
    """A number found in text. text[start:end] == self.text, as printed, dashes included.

    form   "chapter-section-subject", "chapter-section", "task", "data module code", "figure-item",
           "ata chapter words", "chapter words", "ata code words" or "jasc code words"
    """

    number: ChapterNumber
    start: int
    end: int
    form: str
    text: str


def find_numbers(text: str) -> list[FoundNumber]:
    """Every chapter number in the text, in order of place; none overlaps another.

    Bare digits are taken as a number only in three groups of two under an assigned chapter, where nothing
    around them makes them a date, a directive, a part or another number. Two groups need a word that
    announces them, or to be the whole text. A bulletin's number is not found here (bulletin_numbers.py gives
    its chapter).
    """
    found = []
    for written in written_numbers(plain_dashes(text)):
        number = ChapterNumber(*written.parts, scheme=Scheme(written.scheme))
        if _known(number):
            found.append(
                FoundNumber(
                    number, written.start, written.end, written.form, text[written.start : written.end]
                )
            )
    return found


def _known(number: ChapterNumber) -> bool:
    if number.scheme is Scheme.JASC:
        return number.chapter in jasc_groups()
    return number.scheme is Scheme.SNS or is_chapter(number.chapter)


_FIELD = re.compile(
    r"(?:ata\s*)?(?:chapter\s*|ch\.?\s*)?(?P<a>[0-9]{2})"
    r"(?:(?P<joint>[-. ])(?P<b>[0-9]{2})(?:(?P=joint)(?P<c>[0-9]{2}))?)?",
    re.IGNORECASE,
)
_JASC_FIELD = re.compile(r"(?:jasc\s*)?(?:code\s*)?(?P<a>[0-9]{2})(?P<b>[0-9]{2})?", re.IGNORECASE)
_SNS_FIELD = re.compile(r"(?P<a>[0-9]{2})(?:-(?P<b>[0-9]{2}|[0-9]-[0-9])(?:-(?P<c>[0-9]{4}|[0-9]{2}))?)?")
_OWN_FIELD = re.compile(r"([IVXL]+|[0-9]+[A-Z]?|[A-Z])-([0-9]+[A-Z]?)")


def parse_number(text: str, scheme: Scheme | None = None) -> ChapterNumber | None:
    """The number that a whole field or a person's entry holds; None when it is not one.

    Without a scheme: "32", "32-41", "32.41.00", "ATA 32-41", "Chapter 32" are ATA; a four-digit code of the
    JASC table is JASC. The chapter need not be assigned (see `is_chapter`).
    """
    field = " ".join(plain_dashes(text).split())
    if scheme is Scheme.OWN:
        parts = _OWN_FIELD.fullmatch(field)
        return ChapterNumber(*parts.groups() if parts else (field,), scheme=Scheme.OWN) if field else None
    if scheme in (None, Scheme.JASC):
        match = _JASC_FIELD.fullmatch(field)
        if match and (scheme is Scheme.JASC or match["a"] + (match["b"] or "") in jasc_rows()):
            return ChapterNumber(match["a"], match["b"], scheme=Scheme.JASC)
    if scheme is Scheme.SNS:
        match = _SNS_FIELD.fullmatch(field)
        section = match["b"].replace("-", "") if match and match["b"] else None
        return ChapterNumber(match["a"], section, match["c"], Scheme.SNS) if match else None
    match = _FIELD.fullmatch(field) if scheme in (None, Scheme.ATA) else None
    return ChapterNumber(match["a"], match["b"], match["c"]) if match else None


def is_chapter(text: str) -> bool:
    """Whether the text is a chapter that ATA Spec 100 / iSpec 2200 has in use ("32"; not "17", not "4")."""
    row = chapter_rows().get(text.strip())
    return row is not None and row.use != "not assigned"


def chapter_title(chapter: str) -> str:
    """The title of a two-digit chapter. Raises KeyError for anything else."""
    return chapter_rows()[chapter].title


def chapter_group(chapter: str) -> str:
    """The group a chapter stands in: "Airframe systems", "Structure", "Power plant" ... Raises KeyError."""
    return chapter_rows()[chapter].group


def jasc_title(code: str) -> str:
    """The title of a four-digit JASC code, as printed in the table. Raises KeyError for a code not in it."""
    return jasc_rows()[code].title


def all_chapters() -> tuple[str, ...]:
    """Every assigned or reserved chapter, in order."""
    return tuple(chapter for chapter in chapter_rows() if is_chapter(chapter))
