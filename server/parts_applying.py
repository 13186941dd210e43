"""Whether a row of a parts list applies to one aircraft: three answers, each with its words.

A row says "for these" by its usage codes, by words on serials or models, and by "before" or "after" a
bulletin; a blank usage column means all that the list covers. All of them must hold, and so must those of the
assemblies above it and of the part that it attaches. What OCR read decides nothing. That a blank column means
all variants: iSpec 2200; the other rules are common practice, no source.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from indexer.library import parts
from indexer.library.fleet_records import Aircraft, FittedKind
from indexer.library.fleet_values import key_of
from indexer.library.parts_records import PartRecord, RowKey
from indexer.library.records import PublicationRecord
from indexer.library.stated import Stated
from indexer.tagging.parts_rows import PartNoteKind, PartsRow, RowFlag, UsageCode
from indexer.tagging.tags import ApplicabilityScope
from indexer.trade.applies import ApplicabilityAnswer, Applies
from indexer.trade.evidence import Basis, Evidence, Origin, Tag
from server.applying import Applying
from server.applying_words import HeldAgainst
from server.opened import OpenedLibrary
from server.stated_words import StatedWords

_BULLETIN = (PartNoteKind.PRE_BULLETIN, PartNoteKind.POST_BULLETIN)
_MOST_ABOVE = 12  # levels of assemblies: a list has seven dots at most
_MAY_NARROW = {
    RowFlag.COLUMNS: "Its columns could not be told apart, so a usage code may have been missed",
    RowFlag.FOOTNOTE: "A footnote's mark stands in it, and the footnote may say which aircraft it is for",
    RowFlag.OTHER_COLUMN: "A column that is not kept here may say which aircraft it is for",
    RowFlag.DITTO: "A mark stands in it for what the row above says, which may be a usage code",
}
_LISTED_UNDER = "The assembly that it is listed under"
_READ_THE_PAGE = "It was read by OCR, which may misread codes and serials: read the page."


class RowApplying:
    """One aircraft; make one for each answer, inside `reading`."""

    def __init__(self, library: OpenedLibrary, aircraft: Aircraft):
        self._library = library
        self.aircraft = aircraft
        self._applying = Applying(library.catalogue, aircraft)
        self._words = HeldAgainst(library.catalogue, aircraft)
        self._stated = StatedWords(library.catalogue)
        self._altered = [each.model for each in aircraft.fitted if each.kind is FittedKind.ALTERATION]
        self._rows: dict[RowKey, PartRecord | None] = {}
        self._origins: dict[tuple[str, int], Origin] = {}

    def read_ahead(self, records: Iterable[PartRecord]) -> None:
        """Read the assemblies above many rows in one go, a level at a time."""
        held = list(records)
        self._rows |= {each.key: each for each in held}
        for _ in range(_MOST_ABOVE):
            above = [(each.publication_id, at) for each in held if (at := _held_by(each.row)) is not None]
            missing = [key for key in dict.fromkeys(above) if key not in self._rows]
            if not missing:
                return
            found = parts.rows(self._library.catalogue, missing)
            self._rows |= {key: found.get(key) for key in missing}
            held = list(found.values())

    def of_publication(self, publication: PublicationRecord) -> ApplicabilityAnswer:
        return self._applying.of_publication(publication)

    def of_row(self, record: PartRecord) -> ApplicabilityAnswer:
        """From the row's own words, the assemblies above it, its page and its publication."""
        publication = self._library.publication(record.publication_id)
        whole = self._applying.of_place(publication, "", [record.row.pdf_page])
        levels = [self._with_lead(record.row, whole), *self._above(publication, record)]
        levels += self._own(publication, record.row)
        answer = _together(levels)
        if record.row.origin is not Origin.DIGITAL:
            sure = answer.answer is not Applies.CANNOT_TELL
            why = f'{_READ_THE_PAGE} As read: "{answer.why}"' if sure else f"{_READ_THE_PAGE} {answer.why}"
            return ApplicabilityAnswer(Applies.CANNOT_TELL, why, answer.quote)
        return answer

    def _with_lead(self, row: PartsRow, whole: ApplicabilityAnswer) -> ApplicabilityAnswer:
        if row.usage or row.effectivity:
            return whole
        lead = "The row has no usage code, which means all that the list covers."
        return replace(whole, why=f"{lead} {whole.why}".strip())

    def _above(self, publication: PublicationRecord, record: PartRecord) -> Iterator[ApplicabilityAnswer]:
        """What narrows the assemblies above a row. One that does not apply leaves the row in doubt: details
        are often printed once, under the last of several assemblies that they belong to."""
        self.read_ahead([record])
        at, seen = record, {record.key}
        while (ordinal := _held_by(at.row)) is not None:
            key = (at.publication_id, ordinal)
            above = self._rows.get(key)
            if above is None or key in seen:
                break
            seen.add(key)
            at = above
            for answer in self._own(publication, above.row):
                if answer.answer is Applies.APPLIES:
                    continue
                if any(self._may_apply(publication, each) for each in self._beside(above)):
                    continue
                name = f"item {above.row.item}" if above.row.item else above.row.nomenclature
                of = "The part that it attaches" if record.row.attaches == ordinal else _LISTED_UNDER
                why = f"{of} ({name}): {answer.why}"
                yield ApplicabilityAnswer(Applies.CANNOT_TELL, why, answer.quote)
        own = record.row
        if RowFlag.ATTACHING in own.flags or (own.attaching and own.attaches is None):
            why = "Which part it attaches is not certain, and that part may be for others."
            yield ApplicabilityAnswer(Applies.CANNOT_TELL, why)
        if at.row.indenture is None or RowFlag.INDENTURE in at.row.flags:
            why = "Which assembly it belongs to could not be read, and that assembly may be for others."
            yield ApplicabilityAnswer(Applies.CANNOT_TELL, why)

    def _beside(self, above: PartRecord) -> list[PartRecord]:
        """Assemblies printed right before this one, which may share its details: "-1" and "-2"."""
        near = parts.rows_of_figure(self._library.catalogue, above.publication_id, above.row.figure)
        before = [each for each in near if each.row.ordinal < above.row.ordinal]
        found = []
        for each in reversed(before):
            if each.row.indenture != above.row.indenture or each.row.attaching:
                break
            found.append(each)
        return found

    def _may_apply(self, publication: PublicationRecord, record: PartRecord) -> bool:
        own = list(self._own(publication, record.row))
        return bool(own) and all(each.answer is Applies.APPLIES for each in own)

    def _own(self, publication: PublicationRecord, row: PartsRow) -> Iterator[ApplicabilityAnswer]:
        """What the words of one row say by themselves; nothing for a blank usage column."""
        for flag, why in _MAY_NARROW.items():
            if flag in row.flags:
                yield ApplicabilityAnswer(Applies.CANNOT_TELL, f"{why}: read the page.", row.quote)
                return  # nor do codes that were read say no: there may be more of them
        if row.usage:
            yield _any_of([self._of_code(publication, row, each) for each in row.usage])
        if row.effectivity:
            yield self._said(publication, row.effectivity, row.pdf_page, row.origin, "The row says")
        for note in row.notes:
            if note.kind in _BULLETIN:
                yield self._of_bulletin(note.kind, note.number, note.words)

    def _of_code(
        self, publication: PublicationRecord, row: PartsRow, usage: UsageCode
    ) -> ApplicabilityAnswer:
        if not usage.words:
            why = f"It has usage code {usage.code}, and what that means was not found in the list."
            return ApplicabilityAnswer(Applies.CANNOT_TELL, why, usage.code)
        if usage.of_assembly:
            why = f"Usage code {usage.code} means {usage.words}: see which of the assemblies is installed."
            return ApplicabilityAnswer(Applies.CANNOT_TELL, why, usage.code)
        page = usage.pdf_page or row.pdf_page
        origin = row.origin if row.origin is not Origin.DIGITAL else self._origin(publication.id, page)
        return self._said(publication, usage.words, page, origin, f"Usage code {usage.code} means")

    def _said(
        self, publication: PublicationRecord, words: str, page: int, origin: Origin, lead: str
    ) -> ApplicabilityAnswer:
        """Words on models and serials, held against the aircraft or what is fitted to it."""
        evidence = Evidence(Basis.PRINTED, "parts row", words, page, origin=origin)
        stated = Stated(ApplicabilityScope.PASSAGE, Tag(words, evidence), page, None)
        whole = self._stated.whole(self._library.catalogue, publication.id)
        found = self._words.say(publication, stated, whole)
        if origin is not Origin.DIGITAL and found.answer is not Applies.CANNOT_TELL:
            found = ApplicabilityAnswer(Applies.CANNOT_TELL, f"{_READ_THE_PAGE} {found.why}", found.quote)
        return replace(found, why=f'{lead} "{words}". {found.why}')

    def _of_bulletin(self, kind: PartNoteKind, number: str, words: str) -> ApplicabilityAnswer:
        here, name = self.aircraft.registration, number or words
        if number and any(_is_bulletin(each, number) for each in self._altered):
            said = f"{words}: on the fleet list's word, {name} is embodied on {here}."
            done = Applies.APPLIES if kind is PartNoteKind.POST_BULLETIN else Applies.DOES_NOT_APPLY
            return ApplicabilityAnswer(done, said, words)
        why = (
            f"{words}: whether {name} is embodied on {here} is not in the fleet list. Look in the aircraft's "
            "records."
        )
        return ApplicabilityAnswer(Applies.CANNOT_TELL, why, words)

    def _origin(self, publication_id: str, pdf_page: int) -> Origin:
        key = publication_id, pdf_page
        if key not in self._origins:
            self._origins[key] = parts.page_origin(self._library.catalogue, publication_id, pdf_page)
        return self._origins[key]


def _held_by(row: PartsRow) -> int | None:
    """Ordinal of the row that it goes with: the part that it attaches, else the assembly above it."""
    return row.attaches if row.attaching and row.attaches is not None else row.above


def bulletin_key(number: str) -> str:
    """A bulletin's number without the word before it: "SB QZ62-32-0114" and "QZ62-32-0114" are one."""
    plain = re.sub(
        r"^\s*(?:A?SB|MSB|SL|SERVICE\s+BULLETIN|BULLETIN)\b[\s.:#-]*", "", number, flags=re.IGNORECASE
    )
    return key_of(plain)


def _is_bulletin(alteration: str, number: str) -> bool:
    return bool(bulletin_key(number)) and bulletin_key(alteration) == bulletin_key(number)


def _any_of(found: Sequence[ApplicabilityAnswer]) -> ApplicabilityAnswer:
    """Several codes of one row: it is for each of them."""
    for wanted in (Applies.APPLIES, Applies.CANNOT_TELL):
        for each in found:
            if each.answer is wanted:
                return each
    return ApplicabilityAnswer(
        Applies.DOES_NOT_APPLY,
        " ".join(each.why for each in found),
        "; ".join(each.quote for each in found if each.quote),
    )


def _together(found: Sequence[ApplicabilityAnswer]) -> ApplicabilityAnswer:
    """All must hold; of equal answers the last, which is the row's own."""
    for wanted in (Applies.DOES_NOT_APPLY, Applies.CANNOT_TELL, Applies.APPLIES):
        for each in reversed(found):
            if each.answer is wanted:
                return each
    raise ValueError("no level says anything")
