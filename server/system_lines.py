"""Entries of a system -> the lines of its listing: one for each publication and run of pages.

A paper on one subject is one line. A manual gives a line for each number, page block and run of pages; a
manual with its own order a line for each of its sections. What is known in two ways stands on two lines.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from indexer.library import systems
from indexer.library.catalogue import Catalogue
from indexer.library.records import PublicationRecord, Reference, ReferenceState, RevisionMatch
from indexer.library.systems import Place
from indexer.tagging.tags import ClaimKind, Standing
from indexer.trade.applies import ApplicabilityAnswer
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.own_numbers import OwnNumber, parse_own_number
from server.applying import Applying
from server.currency import Currency, Relation
from server.current import Current
from server.ocr_words import HowRead
from server.opened import OpenedLibrary
from server.page_lookup import read_by_ocr
from server.standing_today import StandingToday
from server.system_entries import Entries, Entry
from server.system_order import GROUPS, ONE_SUBJECT, block_order, group_of
from server.system_records import Counts, How, Line, Mention, PagePlace, Part, PassagePlace, Section

_HOWS = list(How)
_GROUPS = {group.key: place for place, group in enumerate(GROUPS)}


@dataclass(frozen=True, slots=True)
class Around:
    """What is read once for all lines of a listing."""

    catalogue: Catalogue
    publications: Mapping[str, PublicationRecord]  # on the shelf, by id
    currency: Currency
    current: Current
    on_day: StandingToday
    known: dict[str, tuple[tuple[str, ...], frozenset[int]]]  # what `against` has found, by publication id
    printed: Mapping[tuple[str, int], str]
    own: Mapping[str, ChapterNumber]  # passage id -> its section in a manual with its own order
    filed: Mapping[str, ChapterNumber]  # passage id -> the first number it is filed under
    begun: Collection[tuple[str, int]]  # pages of listed publications on which a passage begins
    refers: Mapping[str, Sequence[Reference]]
    referred: Mapping[tuple[str, int | None], Sequence[tuple[Reference, str | None]]]
    holding: frozenset[str] | None  # passages that hold the words asked for
    applying: Applying | None  # to the aircraft in hand
    by_ocr: Mapping[str, HowRead]  # passages that OCR read, also those that refer to these

    @classmethod
    def read(
        cls,
        library: OpenedLibrary,
        found: Entries,
        holding: frozenset[str] | None,
        applying: Applying | None = None,
    ) -> "Around":
        everything = [*found.on, *found.may_be]
        catalogue = library.catalogue
        with_own = systems.own_order(catalogue)
        if applying:
            applying.read_ahead(entry.place.publication_id for entry in everything)
        numbers = systems.numbers_of(
            catalogue,
            (
                entry.place.passage_id
                for entry in everything
                if entry.number is None or entry.place.publication_id in with_own
            ),
        )
        long = {entry.place.publication_id for entry in everything if len(entry.place.pages) > 1}
        begins = {
            (entry.place.publication_id, entry.place.pdf_page): entry.place.printed_page
            for entry in everything
        }
        referred: dict[tuple[str, int | None], list[tuple[Reference, str | None]]] = defaultdict(list)
        owners = {entry.place.publication_id for entry in everything}
        for reference in found.into:
            for publication_id, page, passage_id in reference.targets:
                if publication_id in owners:
                    referred[publication_id, page].append((reference, passage_id))
        currency = Currency(catalogue)
        current = Current(catalogue, currency=currency)
        records = {record.id: record for record in library.publications()}
        listed = [records[each] for each in {entry.place.publication_id for entry in everything}]
        currency.read_ahead_all(listed, library.every_publication())
        current.prepare(listed)
        return cls(
            catalogue,
            records,
            currency,
            current,
            StandingToday(catalogue, current.on),
            {},
            begins | systems.printed_pages(catalogue, long),
            {passage: number for passage, held in numbers.items() for number in held if _is_own(number)},
            {passage: held[0] for passage, held in numbers.items() if not _is_own(held[0])},
            systems.begun_pages(catalogue, long),
            systems.references_in(catalogue, (entry.place.passage_id for entry in everything), found.decoded),
            referred,
            holding,
            applying,
            read_by_ocr(
                catalogue,
                (
                    *(entry.place.passage_id for entry in everything),
                    *(reference.passage_id for reference in found.into),
                ),
            ),
        )

    def against(self, record: PublicationRecord) -> tuple[tuple[str, ...], frozenset[int]]:
        """What is known against a publication's being current, and its pages that others override."""
        if record.id not in self.known:
            pages = self.currency.overridden_pages(record)
            self.known[record.id] = (self.currency.of_publication(record), pages)
        return self.known[record.id]

    def applies(self, record: PublicationRecord, places: Iterable[Place]) -> ApplicabilityAnswer | None:
        """Whether the passages reach the aircraft in hand; None where none is."""
        if self.applying is None:
            return None
        return self.applying.of_several(record, [(place.passage_id, place.pages) for place in places])

    def publication(self, publication_id: str) -> PublicationRecord:
        return self.publications[publication_id]


def _is_own(number: ChapterNumber) -> bool:
    return number.scheme is Scheme.OWN


def section(part: Part, found: Entries, around: Around) -> Section:
    """One part of the listing: its lines in order, and its counts."""
    entries = found.part(part)
    runs: dict[tuple, list[Entry]] = defaultdict(list)
    for entry in entries:
        runs[_key(entry, around)].append(entry)
    lines = [
        _line(run, around)
        for alike in runs.values()
        for run in (_runs(alike) if _is_parted(alike[0], around) else [alike])
    ]
    lines.sort(key=_order)
    return Section(part, tuple(lines), _counts(entries, lines, around))


def _key(entry: Entry, around: Around) -> tuple:
    """Entries with the same key may share a line."""
    place = entry.place
    record = around.publication(place.publication_id)
    if record.type in ONE_SUBJECT:
        return (place.publication_id, entry.how, entry.number, entry.wider)
    number = entry.number or around.filed.get(place.passage_id)
    own = around.own.get(place.passage_id)
    block = place.page_block if own is None else ""
    return (place.publication_id, entry.how, number, entry.wider, block, own and own.chapter)


def _is_parted(entry: Entry, around: Around) -> bool:
    """Whether pages that do not follow one another are lines of their own."""
    return (
        around.publication(entry.place.publication_id).type not in ONE_SUBJECT
        and entry.place.passage_id not in around.own
    )


def _runs(alike: Iterable[Entry]) -> Iterable[list[Entry]]:
    """Entries of one publication, parted where a page lies between."""
    run: list[Entry] = []
    for entry in sorted(alike, key=lambda entry: entry.place.ordinal):
        if run and entry.place.pages[0] > max(run[-1].place.pages) + 1:
            yield run
            run = []
        run.append(entry)
    if run:
        yield run


def _line(run: Sequence[Entry], around: Around) -> Line:
    first = run[0]
    record = around.publication(first.place.publication_id)
    group = group_of(record.type)
    one_subject = record.type in ONE_SUBJECT
    pages = sorted({page for entry in run for page in _pages(entry.place, around)})
    passages = tuple(dict.fromkeys(entry.place.passage_id for entry in run))
    own = [around.own[each] for each in passages if each in around.own]
    ties = _ties(around, record) if one_subject else ()
    places = {entry.place.passage_id: entry.place for entry in run}
    figures = list(dict.fromkeys(entry.place.figure for entry in run if entry.place.figure))
    above = _shared([entry.place.heading_path for entry in run])
    below = [entry.place.heading_path[-1] for entry in run if len(entry.place.heading_path) > len(above)]
    return Line(
        group=group,
        block="" if one_subject or own else first.place.page_block,
        publication=record,
        how=first.how,
        number=first.number or around.filed.get(first.place.passage_id),
        own=_own_words(own),
        pages=tuple(PagePlace(page, around.printed.get((record.id, page), "")) for page in pages),
        subject=figures[0] if figures else above[-1] if above else "",
        headings=tuple(figures[1:] or dict.fromkeys(() if figures else below)),
        evidence=first.evidence,
        also_read=tuple(dict.fromkeys(number for entry in run for number in entry.also_read)),
        standings=tuple(
            around.on_day.standing(each, record.id)
            for each in _distinct([entry.place.standing for entry in run])
        ),
        currency=_currency(around, record, pages),
        current=around.current.of_pages(record, pages),
        ties=ties,
        requirements=_requirements(around, record, ties),
        refers_to=tuple(mention for each in passages for mention in _refers_to(around, each)),
        referred_from=_referred_from(around, record.id, [None, *pages] if one_subject else pages, passages),
        passages=tuple(
            PassagePlace(
                place.passage_id, place.pdf_page, place.heading_path[-1] if place.heading_path else ""
            )
            for place in places.values()
        ),
        wider=first.wider,
        applies=around.applying.of_several(
            record, [(place.passage_id, place.pages) for place in places.values()]
        )
        if around.applying
        else None,
        read=tuple(around.by_ocr[each] for each in passages if each in around.by_ocr),
        holds_words=None if around.holding is None else len(around.holding.intersection(passages)),
    )


def _distinct(standings: Sequence[Standing]) -> tuple[Standing, ...]:
    if all(each is standings[0] for each in standings):  # read once for all passages that have it alike
        return (standings[0],)
    return tuple(dict.fromkeys(standings))


def _shared(paths: Sequence[tuple[str, ...]]) -> tuple[str, ...]:
    """The headings, from the strongest down, that all the paths begin with."""
    first, last = min(paths), max(paths)
    length = next((i for i, (a, b) in enumerate(zip(first, last, strict=False)) if a != b), None)
    return first[: min(len(first), len(last)) if length is None else length]


def _pages(place: Place, around: Around) -> Iterable[int]:
    """The page it begins on, and those it alone fills: a page on which others begin is listed for theirs."""
    return (
        page
        for page in place.pages
        if page == place.pdf_page or (place.publication_id, page) not in around.begun
    )


def _own_words(own: Sequence[ChapterNumber]) -> str:
    """ "5-12", "5-12 to 5-15, 5-20": what to cite; only paragraphs in a row are drawn together."""
    runs: list[list[tuple[str, OwnNumber | None]]] = []
    for name in dict.fromkeys(map(str, own)):
        parsed = parse_own_number(name)
        if runs and _next_to(runs[-1][-1][1], parsed):
            runs[-1].append((name, parsed))
        else:
            runs.append([(name, parsed)])
    return ", ".join(f"{run[0][0]} to {run[-1][0]}" if len(run) > 1 else run[0][0] for run in runs)


def _next_to(before: OwnNumber | None, after: OwnNumber | None) -> bool:
    if before is None or after is None or before.section != after.section:
        return False
    numbers = before.paragraph, after.paragraph
    return all(each.isdigit() for each in numbers) and int(numbers[0]) + 1 == int(numbers[1])


def _currency(around: Around, record: PublicationRecord, pages: Sequence[int]) -> tuple[str, ...]:
    """What is known against its being current, and what overrides its pages."""
    against, overridden = around.against(record)
    words = dict.fromkeys(against)
    for page in sorted(overridden.intersection(pages)):
        for override in around.currency.overrides(record, page):
            where = around.printed.get((record.id, page), "")
            name = f"Page {where}" if where else f"PDF page {page}"
            words[f"{name}: {around.currency.override_words(override)}"] = None
    return tuple(words)


def _ties(around: Around, record: PublicationRecord) -> tuple[Relation, ...]:
    """How it stands to others held here; what speaks against it is among the words of currency."""
    return tuple(each for each in around.currency.relations(record) if not each.against)


def _requirements(
    around: Around, record: PublicationRecord, ties: Iterable[Relation]
) -> tuple[Relation, ...]:
    """One for each document: that it requires or is required by, at the revision held here."""
    found: dict[str, Relation] = {}
    if not any(tie.kind in (ClaimKind.REQUIRES.value, ClaimKind.INCORPORATES.value) for tie in ties):
        return ()
    held = [(tie, tie.source_id) for tie in around.currency.ties_to(record)]
    held += [(tie, tie.target_id) for tie in around.currency.ties_from(record)]
    reached = {(tie.level, other) for tie, other in held if tie.match is not RevisionMatch.OTHER}
    for level in (ClaimKind.REQUIRES, ClaimKind.INCORPORATES):
        for tie in ties:
            if tie.kind == level.value and (level, tie.publication) in reached:
                found.setdefault(tie.publication, tie)
    return tuple(found.values())


def _refers_to(around: Around, passage_id: str) -> Iterable[Mention]:
    for reference in around.refers.get(passage_id, ()):
        targets = reference.targets or (("", None, None),)
        places = ((publication_id, page, None) for publication_id, page, _ in targets)
        yield from _mentions(reference, places, passage_id in around.by_ocr)


def _referred_from(
    around: Around, publication_id: str, pages: Sequence[int | None], passages: Sequence[str]
) -> tuple[Mention, ...]:
    """Who refers to these pages; None = to the whole publication.

    A reference to one passage counts where that passage is on the line.
    """
    mine = set(passages)
    found: dict[tuple[str, str], Mention] = {}
    for page in pages:
        for reference, passage_id in around.referred.get((publication_id, page), ()):
            if passage_id is not None and passage_id not in mine:
                continue
            key = (reference.passage_id, reference.citation.text)
            if key not in found:
                read = reference.passage_id in around.by_ocr
                (found[key],) = _mentions(reference, [(reference.publication_id, None, page)], read)
    return tuple(found.values())


def _mentions(
    reference: Reference, places: Iterable[tuple[str, int | None, int | None]], read_by_ocr: bool
) -> Iterable[Mention]:
    """One for each place: the other publication, its page, and the page here."""
    text, kind = reference.citation.text, reference.citation.kind.value
    state, reason = reference.state, reference.reason
    is_held = state is not ReferenceState.NOT_HELD
    for other, page, here in places:
        yield Mention(text, kind, state, other if is_held else "", page, here, reason, read_by_ocr)


def _order(line: Line) -> tuple:
    record = line.publication
    by_number = record.type not in ONE_SUBJECT
    return (
        _GROUPS[line.group.key],
        *block_order(line.group, line.block),
        line.how in (How.REFERRED, How.TIED) and by_number,
        (line.number is None, str(line.number)) if by_number else (False, ""),
        record.number or record.title or record.file,
        record.id,
        _HOWS.index(line.how),
        line.pages[0].pdf_page,
        str(line.number),
    )


def _counts(entries: Iterable[Entry], lines: Sequence[Line], around: Around) -> Counts:
    surest: dict[str, Entry] = {}
    for entry in entries:
        held = surest.get(entry.place.passage_id)
        if held is None or _HOWS.index(entry.how) < _HOWS.index(held.how):
            surest[entry.place.passage_id] = entry
    by_how: dict[How, int] = {}
    by_group: dict[str, int] = {}
    for entry in surest.values():
        by_how[entry.how] = by_how.get(entry.how, 0) + 1
        key = group_of(around.publication(entry.place.publication_id).type).key
        by_group[key] = by_group.get(key, 0) + 1
    return Counts(
        len(lines),
        len({line.publication.id for line in lines}),
        len(surest),
        {how: by_how[how] for how in How if how in by_how},
        {group.key: by_group[group.key] for group in GROUPS if group.key in by_group},
    )
