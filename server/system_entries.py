"""Which passages are on a system and how that is known: filed, referred to, tied. Reads the catalogue.

What is filed comes first. From it follow the papers whose subject the system is, what those are tied to, what
refers to a listed place, and the temporary revisions that change a listed page. One step, not a chain: what
is tied to the tied is not on the system.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from indexer.library import relations, systems
from indexer.library.records import PublicationRecord, Reference, ReferenceState
from indexer.library.systems import Filed, Place
from indexer.tagging.tags import CitationKind
from indexer.trade.chapters import ChapterNumber
from indexer.trade.evidence import Basis, Evidence
from server.applying import NotApplying
from server.opened import OpenedLibrary
from server.system_asked import number_name
from server.system_how import how_known
from server.system_order import ONE_SUBJECT
from server.system_records import Hidden, How, Part
from server.system_scope import Reach, chapters_to_read, reach

_WIDE = (Reach.WIDER, Reach.WITH_CARE)


@dataclass(frozen=True, slots=True)
class Entry:
    """A passage, and one way in which it is known to be on the system.

    number  filed under; None for what refers to the system or is tied to it
    wider   why it only may concern the system
    """

    place: Place
    how: How
    number: ChapterNumber | None
    evidence: Evidence | None
    also_read: tuple[ChapterNumber, ...] = ()
    wider: str = ""


@dataclass(slots=True)
class Entries:
    """All entries of a system. A passage stands in one part only, and only filed ones stand twice in it."""

    on: list[Entry] = field(default_factory=list)
    may_be: list[Entry] = field(default_factory=list)
    elsewhere: dict[str, int] = field(default_factory=dict)  # subsystem -> passages not listed
    into: list[Reference] = field(default_factory=list)  # references to publications with listed pages
    subjects: dict[str, PublicationRecord] = field(default_factory=dict)  # papers whose subject it is
    decoded: systems.Decoded = field(default_factory=systems.Decoded)  # of what the answer reads

    def part(self, part: Part) -> list[Entry]:
        return self.on if part is Part.ON else self.may_be

    def listed(self) -> set[str]:
        return {entry.place.passage_id for entry in (*self.on, *self.may_be)}

    def without(self, hiding: NotApplying, directives: Mapping[str, str]) -> "Hidden":
        """Take out the passages that are to be hidden, and say which those were.

        directives   names by id of all directives and proposals on the shelf
        """
        publications, passages = frozenset(hiding.publications), frozenset(hiding.passages)

        def is_out(entry: Entry) -> bool:
            return entry.place.publication_id in publications or entry.place.passage_id in passages

        gone = [entry.place for entry in (*self.on, *self.may_be) if is_out(entry)]
        self.on = [entry for entry in self.on if not is_out(entry)]
        self.may_be = [entry for entry in self.may_be if not is_out(entry)]
        owners = frozenset(place.publication_id for place in gone)
        named = tuple(dict.fromkeys(name for one, name in directives.items() if one in owners))
        return Hidden(frozenset(place.passage_id for place in gone), owners, named)


def entries_on(
    library: OpenedLibrary, asked: ChapterNumber, holding: frozenset[str] | None = None
) -> Entries:
    """Every passage on the shelf that is on the system, refers to it or is tied to it; inside `reading`.

    holding   passages that hold the words asked for: filed as widely as the chapter, they are on the system
    """
    catalogue = library.catalogue
    chapters = chapters_to_read(asked)
    found = Entries()
    filed = systems.filed(catalogue, chapters, lambda number: reach(asked, number) is not Reach.OUTSIDE)
    reaches = {each.number: reach(asked, each.number) for each in filed}
    found.on = [_filed(each) for each in filed if reaches[each.number] is Reach.ON]
    on = {entry.place.passage_id for entry in found.on}
    _add(found.on, on, _wide_with_words(library, filed, reaches, holding or frozenset()))
    found.subjects = _subjects(library, asked, found.on)
    found.on += _rest_of_subjects(library, found.subjects, on)
    _add(found.on, on, _tied(library, found.subjects))
    _add(found.on, on, _overriding(library, found.on))
    named = systems.naming(
        catalogue, chapters, lambda number: reach(asked, number) in (Reach.ON, Reach.WIDER)
    )
    _add(
        found.on,
        on,
        (
            _referring(each.place, each.citation.text)
            for each in named
            if reach(asked, each.citation.chapter_number) is Reach.ON
        ),
    )
    found.into = systems.references_into(
        catalogue,
        {entry.place.publication_id for entry in found.on if entry.how is not How.REFERRED},
        found.decoded,
    )
    _add(found.on, on, _referring_to_pages(library, found))
    _may_be(library, asked, found, on, filed, reaches, named)
    listed = found.listed()
    for each in filed:
        if each.place.passage_id not in listed and reaches[each.number] is Reach.ELSEWHERE:
            name = _subsystem(each.number)
            found.elsewhere[name] = found.elsewhere.get(name, 0) + 1
            listed.add(each.place.passage_id)
    return found


def _wide_with_words(library, filed, reaches, holding) -> Iterator[Entry]:
    """What is filed widely and holds the words asked for; of a paper on one subject, all of it."""
    wide = [each for each in filed if reaches[each.number] in _WIDE]
    owners = {each.place.publication_id for each in wide if each.place.passage_id in holding}
    papers = {owner for owner in owners if _one_subject(library, owner)}
    for each in wide:
        if each.place.passage_id in holding or each.place.publication_id in papers:
            words = f"Filed under {number_name(each.number)}, and holds the words asked for."
            yield _filed(each, words)


def _may_be(library, asked, found, on, filed, reaches, named) -> None:
    """What is filed so widely, or read so differently, that it may concern the system."""
    found.may_be = [
        _filed(each, _wider_words(asked, each.number, reaches[each.number]))
        for each in filed
        if reaches[each.number] in _WIDE and each.place.passage_id not in on
    ]
    seen = on | {entry.place.passage_id for entry in found.may_be}
    _add(found.may_be, seen, _read_otherwise(library, asked))
    _add(
        found.may_be,
        seen,
        (
            _referring(each.place, each.citation.text, "Refers to the whole chapter or a wider part of it.")
            for each in named
            if reach(asked, each.citation.chapter_number) is Reach.WIDER
        ),
    )


def _add(entries: list[Entry], seen: set[str], more: Iterable[Entry]) -> None:
    """Add what is not listed yet; the first way a passage is known counts."""
    for entry in more:
        if entry.place.passage_id not in seen:
            seen.add(entry.place.passage_id)
            entries.append(entry)


def _filed(each: Filed, wider: str = "") -> Entry:
    return Entry(each.place, how_known(each.evidence), each.number, each.evidence, each.others, wider)


def _referring(place: Place, words: str, wider: str = "") -> Entry:
    said = Evidence(Basis.PRINTED, "reference", words, place.pdf_page)
    return Entry(place, How.REFERRED, None, said, (), wider)


def _wider_words(asked: ChapterNumber, number: ChapterNumber, how: Reach) -> str:
    if how is Reach.WIDER:
        return f"Filed under {number_name(number)}, which takes in {number_name(asked)}."
    return (
        f"Filed under {number_name(number)}: another numbering, which agrees with"
        f" {number_name(asked)} by three digits at most."
    )


def _subsystem(number: ChapterNumber) -> str:
    """ "32-20": the part of the chapter that a number stands in."""
    if number.section is None:
        return number_name(number)
    return number_name(ChapterNumber(number.chapter, f"{number.section[0]}0", scheme=number.scheme))


def _subjects(
    library: OpenedLibrary, asked: ChapterNumber, on: Iterable[Entry]
) -> dict[str, PublicationRecord]:
    """Papers on one subject, which the system is: filed under it surely or likely, or stated so."""
    sure = {entry.place.publication_id for entry in on if entry.how is not How.POSSIBLE}
    found = {}
    for record in library.publications():
        stated = record.directive.subjects if record.directive else ()
        states_it = any(reach(asked, subject.value) is Reach.ON for subject in stated)
        if states_it or (record.id in sure and record.type in ONE_SUBJECT):
            found[record.id] = record
    return found


def _rest_of_subjects(
    library: OpenedLibrary, subjects: dict[str, PublicationRecord], on: set[str]
) -> Iterator[Entry]:
    """The passages of a paper on the system that carry no number of it themselves."""
    for publication_id, held in systems.places_in(library.catalogue, subjects).items():
        directive = subjects[publication_id].directive
        stated = directive.subjects if directive else ()
        evidence = stated[0].evidence if stated else None
        for place in held:
            if place.passage_id not in on:
                on.add(place.passage_id)
                yield Entry(place, How.TIED, None, evidence)


def _tied(library: OpenedLibrary, subjects: dict[str, PublicationRecord]) -> Iterator[Entry]:
    """Papers that one on the system is tied to or stands in place of, and pages of manuals that name one."""
    catalogue = library.catalogue
    whole: dict[str, Evidence | None] = {}
    pages: dict[tuple[str, int], Evidence] = {}
    said_of = relations.ties_to_many(catalogue, subjects)
    says = relations.ties_from_many(catalogue, subjects)
    orders = relations.supersessions_of_many(catalogue, subjects)
    changes = relations.overrides_by_many(catalogue, subjects)
    for publication_id in subjects:
        for tie in said_of[publication_id]:
            if _one_subject(library, tie.source_id):
                whole.setdefault(tie.source_id, tie.evidence)
            elif tie.evidence.pdf_page:
                pages.setdefault((tie.source_id, tie.evidence.pdf_page), tie.evidence)
        for tie in says[publication_id]:
            if _one_subject(library, tie.target_id):
                whole.setdefault(tie.target_id, tie.evidence)
        for each in orders[publication_id]:
            other = each.newer_id if each.older_id == publication_id else each.older_id
            if _one_subject(library, other):
                whole.setdefault(other, each.evidence)
        for each in changes[publication_id]:
            pages.setdefault((each.target_id, each.pdf_page), each.evidence)
    held = systems.places_in(catalogue, {*whole, *(publication_id for publication_id, _ in pages)})
    for publication_id, places in held.items():
        for place in places:
            if publication_id in whole:
                yield Entry(place, How.TIED, None, whole[publication_id])
            for page in place.pages:
                if (publication_id, page) in pages:
                    yield Entry(place, How.TIED, None, pages[publication_id, page])


def _one_subject(library: OpenedLibrary, publication_id: str) -> bool:
    record = library.publication(publication_id)
    return record.replaced is None and record.type in ONE_SUBJECT


def _overriding(library: OpenedLibrary, on: Iterable[Entry]) -> Iterator[Entry]:
    """Pages of temporary revisions that are read before a listed page."""
    pages: dict[str, set[int]] = defaultdict(set)
    for entry in on:
        pages[entry.place.publication_id].update(entry.place.pages)
    sources: dict[str, Evidence] = {}
    changed = relations.overrides_of_many(library.catalogue, pages)
    for publication_id, listed in pages.items():
        for each in changed[publication_id]:
            if each.pdf_page in listed:
                sources.setdefault(each.source_id, each.evidence)
    for publication_id, places in systems.places_in(library.catalogue, sources).items():
        for place in places:
            yield Entry(place, How.TIED, None, sources[publication_id])


def _referring_to_pages(library: OpenedLibrary, found: Entries) -> Iterator[Entry]:
    """Passages that refer to a listed page, or to a paper whose subject the system is."""
    if not found.into:
        return
    pages = {(entry.place.publication_id, page) for entry in found.on for page in entry.place.pages}
    passages = {entry.place.passage_id for entry in found.on}
    said: dict[str, str] = {}
    for reference in found.into:
        document = reference.citation.kind is CitationKind.DOCUMENT
        if reference.state is not ReferenceState.RESOLVED and not document:
            continue
        if any(_leads_to(target, pages, passages, found.subjects) for target in reference.targets):
            said.setdefault(reference.passage_id, reference.citation.text)
    for passage_id, place in systems.places(library.catalogue, said).items():
        yield _referring(place, said[passage_id])


def _leads_to(target, pages, passages, subjects) -> bool:
    publication_id, page, passage_id = target
    if passage_id is not None:
        return passage_id in passages
    return (publication_id, page) in pages if page is not None else publication_id in subjects


def _read_otherwise(library: OpenedLibrary, asked: ChapterNumber) -> Iterator[Entry]:
    """Passages that are filed elsewhere while another reading of their number files them here."""
    for each in systems.read_two_ways(library.catalogue):
        here = [other for other in each.others if reach(asked, other) is Reach.ON]
        if here:
            words = f"Filed under {number_name(each.number)}; also read as {number_name(here[0])}."
            yield _filed(each, words)
