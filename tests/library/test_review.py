"""The librarian's queue: what is asked, in which order, as how many questions. Invented manuals.

Which publications a mechanic works from, and so which question is worth more: common practice, no source.
"""

from dataclasses import dataclass, field, replace

import pytest
from making import Made, Text, evidence, take

from indexer.library.catalogue import Catalogue
from indexer.library.decisions import Spot, decide, places_of_passages
from indexer.library.front_matter import left_out_as
from indexer.library.problems import ItemUnknown
from indexer.library.records import EntryKind, ReviewCause
from indexer.library.relations import relate
from indexer.library.review import find, queue
from indexer.library.review_rules import Doubt, Question, in_order, questions, step, worth
from indexer.reading.page import TextState
from indexer.tagging.inference import LIKELY
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.evidence import Basis, Evidence, Tag
from indexer.trade.publication_types import PublicationType as Type


@dataclass
class Read(Text):
    """A passage and what the machine reads: chapters worked out, an own section, or a rung that disagrees."""

    inferred: str = ""  # "34", or "34;37": the first is the main one
    sure: float = LIKELY
    own: str = ""
    other: str = ""

    @property
    def numbers(self):
        found = []
        why = Evidence(Basis.INFERRED, "words of the passage", confidence=self.sure)
        found += [Tag(ChapterNumber(chapter), why) for chapter in self.inferred.split(";") if chapter]
        if self.number:
            others = (Tag(ChapterNumber(*self.other.split("-")), evidence(self.other)),) if self.other else ()
            found.append(Tag(self.number, evidence(str(self.number)), others))
        if self.own:
            found.append(Tag(ChapterNumber(self.own, scheme=Scheme.OWN), evidence(self.own)))
        return tuple(found)


@dataclass
class Manual(Made):
    scans: tuple[int, ...] = field(default=())

    def publications(self):
        (made,) = super().publications()
        passages = zip(made.passages, self.texts, strict=True)
        return (
            replace(
                made,
                passages=tuple(
                    replace(each, numbers=text.numbers) if isinstance(text, Read) else each
                    for each, text in passages
                ),
            ),
        )

    def document(self):
        made = super().document()
        pages = (
            replace(page, state=TextState.NO_TEXT) if page.pdf_page in self.scans else page
            for page in made.pages
        )
        return replace(made, pages=tuple(pages))


def own_order():
    """Section V is all of 32; in section VI the chapters are mixed; the first page is the title page."""
    return Manual(
        "k-9-service.pdf",
        Type.SERVICE_MANUAL,
        "K-9 SM",
        "2",
        title="K-9 Service Manual",
        pages=9,
        texts=[
            Read("K-9 SERVICE MANUAL", page=1),
            Read("CONTENTS. I General. V Landing gear. VI Systems.", ("Contents",), 2),
            Read("The main wheels have brakes.", ("Landing gear",), 3, inferred="32", own="V"),
            Read("Look at the tires.", ("Landing gear",), 3, inferred="32", own="V", sure=0.8),
            Read("Ordinary care is enough.", ("Landing gear",), 4, own="V"),
            Read("Bleed the brakes.", ("Landing gear",), 4, inferred="32", own="V"),
            Read("The battery stands aft.", ("Systems",), 5, inferred="24", own="VI"),
            Read("Charge the battery.", ("Systems",), 5, inferred="24", own="VI"),
            Read("The fuel cock has two ways.", ("Systems",), 5, inferred="28", own="VI"),
            Read("Drain the strainer.", ("Systems",), 6, inferred="28", own="VI"),
        ],
    )


def by_chapters():
    return Manual(
        "b-2-mm.pdf",
        Type.MAINTENANCE_MANUAL,
        "B-2 MM",
        "1",
        title="B-2 Maintenance Manual",
        pages=10,
        scans=(8, 9),
        texts=[
            Read("Printed and clear.", page=3, number=ChapterNumber("32", "41", "00")),
            Read(
                "Foot and outline differ.", page=4, number=ChapterNumber("32", "41", "00"), other="27-30-00"
            ),
            Read("Here too.", page=4, number=ChapterNumber("32", "41", "00"), other="27-30-00"),
        ],
    )


def circular():
    texts = [Read("Advice on corrosion.", page=1), Read("More advice.", page=2)]
    return Manual("ac.pdf", Type.ADVISORY_CIRCULAR, "AC 00-00", "", title="Corrosion", pages=2, texts=texts)


def letter():
    texts = [Read("Dear owner.", page=1), Read("Grease it.", page=1), Read("Yours.", page=2)]
    return Manual("letter.pdf", Type.SERVICE_LETTER, "SL 7", title="Grease", pages=2, texts=texts)


def nameless():
    return Manual("sheet.pdf", texts=[Read("What am I?", page=1, inferred="32", sure=0.7)])


@pytest.fixture
def catalogue(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as opened:
        for made in (own_order(), by_chapters(), circular(), letter(), nameless()):
            take(opened, tmp_path, made)
        yield opened


def told(catalogue, **more):
    """file, cause, pages, passages, section, suggestions (not the guesses at what has no number)"""
    return [
        (
            catalogue.publication(item.publication_id).file,
            item.cause.name,
            (item.first_page, item.last_page),
            item.passages,
            item.section,
            tuple(str(tag.value) for tag in item.suggestions if item.cause is not ReviewCause.NOT_NUMBERED),
        )
        for item in queue(catalogue, **more).items
    ]


def test_neighbours_with_one_doubt_are_one_question(catalogue):
    assert sorted(told(catalogue)) == sorted(
        [
            ("k-9-service.pdf", "LIKELY_ONLY", (3, 4), 4, "V", ("32",)),
            ("k-9-service.pdf", "LIKELY_ONLY", (5, 5), 2, "", ("24",)),
            ("k-9-service.pdf", "LIKELY_ONLY", (5, 6), 2, "", ("28",)),
            ("b-2-mm.pdf", "RUNGS_DISAGREE", (4, 4), 2, "", ("32-41-00", "27-30-00")),
            ("b-2-mm.pdf", "NO_TEXT", (8, 9), 2, "", ()),
            ("letter.pdf", "NOT_NUMBERED", (1, 2), 3, "", ()),
            ("sheet.pdf", "TYPE_UNCLEAR", (1, 1), 1, "", ()),
            ("sheet.pdf", "LIKELY_ONLY", (1, 1), 1, "", ("32",)),
        ]
    )


def test_what_stands_around_a_passage_without_a_number_is_suggested(catalogue, tmp_path):
    filed = ChapterNumber("32", "41", "00")
    texts = [
        Read("Before.", page=2, number=filed),
        Read("Between.", page=2),
        Read("After.", page=3, inferred="24"),
    ]
    made = Manual("m.pdf", Type.MAINTENANCE_MANUAL, "M", "1", pages=9, texts=texts)
    copy_id = take(catalogue, tmp_path, made).copy_id
    (item,) = [each for each in queue(catalogue, [ReviewCause.NOT_NUMBERED]).items if each.copy_id == copy_id]
    assert [(str(tag.value), tag.evidence.rule) for tag in item.suggestions] == [
        ("32", "the passage before it"),
        ("24", "the passage after it"),
    ]
    assert {tag.evidence.basis for tag in item.suggestions} == {Basis.INFERRED}


def test_the_most_useful_question_comes_first(catalogue):
    order = [(file, cause) for file, cause, *_ in told(catalogue)]
    assert order == [
        ("b-2-mm.pdf", "RUNGS_DISAGREE"),
        ("sheet.pdf", "TYPE_UNCLEAR"),
        ("letter.pdf", "NOT_NUMBERED"),
        ("b-2-mm.pdf", "NO_TEXT"),
        ("k-9-service.pdf", "LIKELY_ONLY"),  # section V: in part only possible
        ("sheet.pdf", "LIKELY_ONLY"),
        ("k-9-service.pdf", "LIKELY_ONLY"),
        ("k-9-service.pdf", "LIKELY_ONLY"),
    ]


def instruments():
    """Section XVI as old manuals have it: one system after another, and one paragraph on two of them."""
    names = (
        "16-1. Panel.",
        "16-2. Altimeter.",
        "16-3. Vacuum.",
        "16-4. Gages.",
        "16-5. Clock.",
        "16-6. Compass.",
    )
    read = ("34", "34", "34;37", "77", "", "34")
    texts = [
        Read(f"On {name}", ("CONTENTS", "SECTION XVI", name), 5, inferred=chapters, own="XVI", sure=sure)
        for name, chapters, sure in zip(names, read, (LIKELY, LIKELY, LIKELY, LIKELY, 0.0, 0.6), strict=True)
    ]
    return Manual("k-4.pdf", Type.SERVICE_MANUAL, "K-4 SM", "1", title="K-4 Manual", pages=9, texts=texts)


def test_a_mixed_section_is_asked_by_what_is_read_in_it(catalogue, tmp_path):
    copy_id = take(catalogue, tmp_path, instruments()).copy_id
    found = [each for each in queue(catalogue).items if each.copy_id == copy_id]
    assert [(item.covers, [str(number) for number in item.filed]) for item in found] == [
        (("16-5 Clock",), []),  # under the heading of the contents page, and no front matter
        (("16-6 Compass",), ["34"]),  # only possible
        (("16-1 Panel", "16-2 Altimeter"), ["34"]),
        (("16-3 Vacuum",), ["34", "37"]),
        (("16-4 Gages",), ["77"]),
    ]
    assert not any(item.section for item in found), "a decision would reach the whole section"
    vacuum = next(item for item in found if item.covers == ("16-3 Vacuum",))
    assert "34 Navigation, and also under 37" in vacuum.now


def test_a_decision_takes_no_further_chapter_away(catalogue, tmp_path):
    copy_id = take(catalogue, tmp_path, instruments()).copy_id
    item = next(
        each for each in queue(catalogue).items if each.copy_id == copy_id and "16-1 Panel" in each.covers
    )
    decide(catalogue, item.id, EntryKind.CHAPTERS, "34", "R. Quill", "read on the page")
    relate(catalogue)
    filed = [
        [str(tag.value) for tag in each.numbers if tag.value.scheme is not Scheme.OWN]
        for each in catalogue.passages_of(item.publication_id)
    ]
    assert filed == [["34"], ["34"], ["34", "37"], ["77"], [], ["34"]]


def test_what_is_only_possible_is_not_called_likely(catalogue):
    (item,) = [each for each in queue(catalogue).items if each.section == "V"]
    assert item.suggestions[0].evidence.confidence < LIKELY, "one of the four was not worked out"
    assert "1 of the 4 could not be worked out" in item.now


def test_what_no_chapter_fits_is_counted_and_not_asked(catalogue):
    found = queue(catalogue)
    assert found.left_out == {
        "title pages, contents, lists and other front matter": 2,
        "publications that belong to no chapter": 2,
    }
    assert [each[0] for each in told(catalogue, left_out=True)] == ["k-9-service.pdf", "ac.pdf"]


def test_counts_are_of_the_whole_queue_whatever_is_shown(catalogue):
    all_of_it = queue(catalogue)
    part = queue(catalogue, [ReviewCause.LIKELY_ONLY], limit=1, offset=1)
    assert part.counts == all_of_it.counts and part.found == 4 and len(part.items) == 1
    assert all_of_it.counts[ReviewCause.LIKELY_ONLY] == 4
    assert all_of_it.passages[ReviewCause.LIKELY_ONLY] == 4 + 2 + 2 + 1
    assert sum(all_of_it.counts.values()) == all_of_it.found == 8


def test_pages_of_the_queue_hold_each_question_once(catalogue):
    ids = [item.id for item in queue(catalogue).items]
    paged = [queue(catalogue, limit=1, offset=place).items[0].id for place in range(len(ids))]
    assert paged == ids and len(set(ids)) == len(ids)


def test_ids_stay_while_other_documents_come_and_go(catalogue, tmp_path):
    before = {item.id for item in queue(catalogue).items}
    again = tmp_path / "again"
    with Catalogue.open(again / "library", create=True) as other:
        for made in (nameless(), letter(), by_chapters(), own_order()):
            take(other, again, made)
        assert {item.id for item in queue(other).items} == before


def test_a_question_is_found_by_its_id(catalogue):
    for item in (*queue(catalogue).items, *queue(catalogue, left_out=True).items):
        assert find(catalogue, item.id)[0] == item
    with pytest.raises(ItemUnknown):
        find(catalogue, "0123456789abcdef-0123456789")


def test_what_holds_now_is_said_in_words(catalogue):
    now = {(item.cause, item.section): item.now for item in queue(catalogue).items}
    assert "32 Landing gear" in now[ReviewCause.LIKELY_ONLY, "V"]
    assert "27-30-00" in now[ReviewCause.RUNGS_DISAGREE, ""]
    assert "OCR" in now[ReviewCause.NO_TEXT, ""]


# The measure ------------------------------------------------------------------------------------------------


def doubt(cause=ReviewCause.LIKELY_ONLY, kind=Type.MAINTENANCE_MANUAL, passages=4, sure=0.5, **rest):
    given = {"own": "", "reading": "32", **rest}
    return Doubt(cause, "a-1", "a", kind, 0, passages - 1, 1, 2, passages, sure=sure, **given)


def asked(**more):
    one = doubt(**more)
    return Question(one.cause, (one,), one.reading)


@pytest.mark.parametrize(
    ("more", "less"),
    [
        ({"passages": 9}, {"passages": 4}),
        ({"kind": Type.MAINTENANCE_MANUAL}, {"kind": Type.SERVICE_LETTER}),
        ({"kind": Type.SERVICE_LETTER}, {"kind": Type.ADVISORY_CIRCULAR, "passages": 40}),
        ({"kind": Type.AIRWORTHINESS_DIRECTIVE}, {"kind": Type.FLIGHT_MANUAL}),
        # The steps, whatever a question covers.
        ({"cause": ReviewCause.WAITING}, {"cause": ReviewCause.RUNGS_DISAGREE, "passages": 90}),
        ({"cause": ReviewCause.RUNGS_DISAGREE}, {"cause": ReviewCause.TYPE_UNCLEAR, "passages": 90}),
        ({"cause": ReviewCause.REVISION_UNCLEAR}, {"cause": ReviewCause.NOT_NUMBERED, "passages": 90}),
        ({"cause": ReviewCause.NOT_NUMBERED}, {"cause": ReviewCause.NO_TEXT, "passages": 90}),
        ({"cause": ReviewCause.NOT_NUMBERED}, {"sure": 0.5, "passages": 90}),
        ({"sure": 0.5}, {"sure": 1.0, "passages": 90}),
    ],
)
def test_what_makes_a_question_more_useful(more, less):
    assert in_order([asked(**less), asked(**more)])[0] == asked(**more)


def test_the_measure_by_hand():
    """Nine passages of a service letter, all of them likely: the last step, and 0.6 x 3."""
    question = asked(kind=Type.SERVICE_LETTER, passages=9, sure=LIKELY)
    assert (step(question), worth(question)) == (6, pytest.approx(1.8))


@pytest.mark.parametrize(
    ("readings", "asked_as"),
    [
        ([("32", 8)], [("32", 8)]),
        ([("32", 8), ("24", 2)], [("32", 8), ("24", 2)]),
        ([("32", 8), ("32;24", 1)], [("32", 8), ("32;24", 1)]),
        ([("32", 1), ("", 8), ("32", 1)], [("32", 10)]),  # it stands between them
        ([("32", 2), ("", 1)], [("32", 2), ("", 1)]),
        ([("", 1), ("32", 2)], [("32", 2), ("", 1)]),
        ([("32", 2), ("", 1), ("24", 2), ("32", 3)], [("32", 5), ("24", 2), ("", 1)]),
        ([("", 4), ("", 2)], [("", 6)]),
    ],
)
def test_a_section_is_one_question_where_nothing_in_it_is_read_otherwise(readings, asked_as):
    doubts, first = [], 0
    for reading, passages in readings:
        cause = ReviewCause.LIKELY_ONLY if reading else ReviewCause.NOT_NUMBERED
        given = {"own": "V", "reading": reading, "sure": LIKELY if reading else 0.0}
        one = replace(doubt(cause, passages=passages, **given), first=first, last=first + passages - 1)
        doubts.append(one)
        first += passages
    found = questions(doubts, {("a-1", "V"): first})
    assert [(question.reading, question.passages) for question in found] == asked_as
    assert bool(found[0].section) is (len(asked_as) == 1)
    printed_beside = questions(doubts, {("a-1", "V"): first + 1})
    assert not any(question.section for question in printed_beside), "a decision would reach what is sure"


@pytest.mark.parametrize(
    ("kind", "pages", "on_first", "headings", "printed_page", "left_out"),
    [
        (Type.MAINTENANCE_MANUAL, 300, True, (), "", True),  # a book's title page
        (Type.PARTS_CATALOG, 4, True, ("PARTS LIST",), "1", True),
        (Type.SERVICE_LETTER, 2, True, (), "1", False),  # a letter begins at once
        (Type.MAINTENANCE_MANUAL, 300, False, ("M", "List of Effective Pages", "Revision 6"), "", True),
        (Type.MAINTENANCE_MANUAL, 300, False, ("M", "INTRODUCTION", "1. Arrangement"), "3", True),
        (Type.SERVICE_LETTER, 2, False, ("INTRODUCTION",), "2", False),
        (Type.MAINTENANCE_MANUAL, 300, False, ("FOREWORD",), "3", True),
        (Type.MAINTENANCE_MANUAL, 300, False, ("CONTENTS",), "3", True),
        (Type.MAINTENANCE_MANUAL, 300, False, ("CONTENTS", "SECTION 12. ENGINE", "Starter"), "3", False),
        (Type.MAINTENANCE_MANUAL, 300, False, (), "LEP-2", True),
        (Type.MAINTENANCE_MANUAL, 300, False, (), "iv", True),
        (Type.MAINTENANCE_MANUAL, 300, False, ("Indexing of the magneto",), "12", False),
        (Type.MAINTENANCE_MANUAL, 300, False, ("Power distribution",), "12", False),
        (Type.MAINTENANCE_MANUAL, 300, False, ("Brakes",), "5-12", False),
        (Type.REGULATION, 3, False, ("Subpart B",), "12", True),
        (None, 3, False, ("Brakes",), "12", False),
    ],
)
def test_who_is_not_asked(kind, pages, on_first, headings, printed_page, left_out):
    assert bool(left_out_as(kind, pages, on_first, headings, printed_page)) is left_out


@pytest.mark.parametrize(
    ("paragraph", "left_out"), [("12-12. Starter.", False), ("1-5. WHAT THIS MANUAL IS.", True)]
)
def test_a_numbered_paragraph_is_no_front_matter_for_what_stands_above_it(paragraph, left_out):
    headings = ("CONTENTS", "SECTION 1", paragraph)
    assert bool(left_out_as(Type.SERVICE_MANUAL, 30, False, headings, "3", own="1")) is left_out


# Where a decision is entered --------------------------------------------------------------------------------


def spots(pages: str):
    """ "1+ 1+ 2- 3+": a passage a word: its page, and + when the question asks about it."""
    return [
        Spot(ordinal, int(word[:-1]), f"words {ordinal}", "[]", word.endswith("+"))
        for ordinal, word in enumerate(pages.split())
    ]


@pytest.mark.parametrize(
    ("pages", "places"),
    [
        ("1+ 1+ 2+", [(1, 2, "")]),
        ("1- 1+ 2+ 3+ 3-", [(1, 1, "words 1"), (2, 2, ""), (3, 3, "words 3")]),
        ("1- 1+ 1+", [(1, 1, "words 1 words 2")]),
        ("1+ 1- 1+", [(1, 1, "words 0"), (1, 1, "words 2")]),
        ("1+ 3+", [(1, 3, "")]),  # nothing begins on page 2
    ],
)
def test_a_decision_reaches_what_is_asked_and_no_other_passage(pages, places):
    found = places_of_passages(spots(pages))
    assert [(place.pdf_page, place.last_page, place.quote) for place in found] == places
