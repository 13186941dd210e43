"""Where references lead among the publications held, told as cases of an invented shop.

Common practice, no source.
"""

import datetime
import random

import pytest
from making import Made, Text, take

from indexer.library.catalogue import Catalogue
from indexer.library.codec import from_json, to_json
from indexer.library.records import Reference
from indexer.library.records import ReferenceState as State
from indexer.library.references import references_from, references_to, references_to_number, unresolved
from indexer.library.relations import relate
from indexer.reading.page import PassageKind
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.publication_types import PublicationType as Type

MAKER, OTHER = "Corvane Aircraft Company", "Dellmore Aviation, Inc."
DATE = datetime.date
WHEEL, BRAKE, DOOR = (ChapterNumber(*each.split("-")) for each in ("32-41-00", "32-42-00", "52-11-00"))


def figure(words: str, page: int, number: ChapterNumber | None = None) -> Text:
    return Text(words, (), page, number, kind=PassageKind.FIGURE_TITLE)


def maintenance_manual(file="mm.pdf", maker=MAKER, number="CM-2", models=("C-220",), **rest) -> Made:
    """Each subject counts its pages and figures anew."""
    texts = [
        Text("Take the wheel off.", ("1. Removal",), 1, WHEEL),
        figure("Figure 401. Wheel, exploded view", 1, WHEEL),
        Text("Bleed the brake as told here.", ("1. Bleeding",), 2, BRAKE),
        Text("A. Remove the disc.\nB. Keep the bolts.", ("1. Removal",), 3, BRAKE),
        figure("Figure 401. Brake, exploded view", 3, BRAKE),
        Text("A. Put the disc in.\nB. Torque the bolts.", ("2. Installation",), 4, BRAKE),
        *rest.pop("more", ()),
    ]
    printed = {1: "401", 2: "201", 3: "401", 4: "402", 5: "402"}
    return Made(
        file,
        Type.MAINTENANCE_MANUAL,
        number,
        maker=maker,
        models=models,
        texts=texts,
        pages=5,
        printed=printed,
        **rest,
    )


def own_order_manual() -> Made:
    texts = [
        Text("General.", ("SECTION I", "1-1. GENERAL."), 1),
        Text("Gear.", ("SECTION V", "LANDING GEAR", "5-1. MAIN GEAR."), 2),
        Text("Wheels.", ("SECTION V", "LANDING GEAR", "5-6. WHEELS."), 2),
        Text("Brakes.", ("SECTION V", "LANDING GEAR", "5-12. BRAKES."), 3),
        Text("Bleeding.", ("SECTION V", "LANDING GEAR", "5-13. BLEEDING."), 3),
        figure("Figure 5-3. Brake", 3),
    ]
    printed = {1: "1-1", 2: "5-1", 3: "5-2"}
    return Made(
        "service.pdf",
        Type.SERVICE_MANUAL,
        "H-1",
        maker=OTHER,
        models=("D-14",),
        texts=texts,
        pages=3,
        printed=printed,
    )


def repair_manual() -> Made:
    texts = [Text("Damage limits.", ("1. Limits",), 1, ChapterNumber("53", "60", "00"))]
    return Made("srm.pdf", Type.STRUCTURAL_REPAIR_MANUAL, "CM-3", maker=MAKER, models=("C-220",), texts=texts)


def bulletin(
    revision: str, date: datetime.date, file="", number="SB 32-0012", maker=MAKER, text="Words."
) -> Made:
    texts = [Text(text, ("2. ACCOMPLISHMENT", "B. Work"))]
    file = file or f"sb-{revision}.pdf"
    return Made(file, Type.SERVICE_BULLETIN, number, revision, date, maker, models=("C-220",), texts=texts)


def letter(*sentences: str, maker: str | None = MAKER, models=("C-220",)) -> Made:
    """The paper that refers: one passage a sentence."""
    texts = [Text(sentence) for sentence in sentences]
    return Made("letter.pdf", Type.SERVICE_LETTER, "SL-9", maker=maker, models=models, texts=texts)


REV_A, REV_B = bulletin("A", DATE(2030, 1, 1)), bulletin("B", DATE(2031, 1, 1))


class Library:
    def __init__(self, folder):
        self.folder = folder
        self.catalogue = Catalogue.open(folder / "library", create=True)

    def put(self, *made: Made) -> None:
        for each in made:
            take(self.catalogue, self.folder / "in", each)
        relate(self.catalogue)

    def id(self, file: str) -> str:
        return next(each.id for each in self.catalogue.publications(replaced=True) if each.file == file)

    def found(self, file: str) -> list[tuple]:
        """(state, targets) of each reference of a file; targets as (file, pdf page, its words)."""
        files = {each.id: each.file for each in self.catalogue.publications(replaced=True)}
        return [
            (
                each.state,
                [(files[where], page, self._words(passage)) for where, page, passage in each.targets],
            )
            for each in references_from(self.catalogue, self.id(file))
        ]

    def _words(self, passage_id: str | None) -> str:
        return self.catalogue.passage(passage_id).text if passage_id else ""


@pytest.fixture
def library(tmp_path):
    held = Library(tmp_path)
    yield held
    held.catalogue.close()


def one(library, sentence: str, *held: Made, **rest) -> tuple:
    library.put(letter(sentence, **rest), *held)
    (found,) = library.found("letter.pdf")
    return found


# (sentence in a letter about the C-220, papers held, where it leads)
LEADS = {
    "a subject": ("See 32-41-00.", [maintenance_manual()], [("mm.pdf", 1, "")]),
    "a section": ("See AMM 32-42.", [maintenance_manual()], [("mm.pdf", 2, "")]),
    "a page of a subject": ("See 32-42-00, page 402.", [maintenance_manual()], [("mm.pdf", 4, "")]),
    "a figure of a subject": (
        "See 32-42-00, Figure 401.",
        [maintenance_manual()],
        [("mm.pdf", 3, "Figure 401. Brake, exploded view")],
    ),
    "a paragraph of a page block": (
        "See 32-42-00, page 401, paragraph 2.B.",
        [maintenance_manual()],
        [("mm.pdf", 4, "A. Put the disc in.\nB. Torque the bolts.")],
    ),
    "a type word": ("See SRM 53-60-00.", [maintenance_manual(), repair_manual()], [("srm.pdf", 1, "")]),
    "a manual by number": (
        "See Maintenance Manual CM-2, 32-42-00.", [maintenance_manual()], [("mm.pdf", 2, "")],
    ),
    "a manual by type": (
        "Refer to the Structural Repair Manual.", [repair_manual()], [("srm.pdf", None, "")],
    ),
    "every revision held": (
        "See SB 32-0012.", [REV_A, REV_B], [("sb-A.pdf", None, ""), ("sb-B.pdf", None, "")],
    ),
    "the revision named": ("See SB 32-0012 Rev. A.", [REV_A, REV_B], [("sb-A.pdf", None, "")]),
    "the date named": ("See SB 32-0012 dated January 1, 2031.", [REV_A, REV_B], [("sb-B.pdf", None, "")]),
    "only manuals of this product": (
        "See 32-41-00.", [maintenance_manual(), maintenance_manual("other.pdf", OTHER, "D-2", ("D-14",))],
        [("mm.pdf", 1, "")],
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", LEADS)
def test_references_that_lead_to_a_place(library, case):
    sentence, held, targets = LEADS[case]
    state, found = one(library, sentence, *held)
    assert state is State.RESOLVED
    assert sorted(found, key=str) == sorted(targets, key=str)


# (sentence, papers held, state, files that stand as possible targets)
LEAD_NOWHERE = {
    "no manual": ("See 32-41-00.", [], State.NOT_HELD, []),
    "another maker's manual": (
        "See 32-41-00.", [maintenance_manual("o.pdf", OTHER, "D-2")], State.NOT_HELD, [],
    ),
    "no such subject": ("See 78-10-00.", [maintenance_manual()], State.NO_SUCH_PLACE, ["mm.pdf"]),
    "no such page": ("See 32-41-00, page 601.", [maintenance_manual()], State.NO_SUCH_PLACE, ["mm.pdf"]),
    "no such manual": ("See SRM 53-60-00.", [maintenance_manual()], State.NOT_HELD, []),
    "no such bulletin": ("See SB 32-0099.", [REV_A], State.NOT_HELD, []),
    "another revision": ("See SB 32-0012 Rev. C.", [REV_A, REV_B], State.NOT_HELD, ["sb-A.pdf", "sb-B.pdf"]),
    "no text of the rule": ("See 14 CFR 43.13(b).", [], State.NOT_HELD, []),
    "two manuals": (
        "See 32-41-00.",
        [maintenance_manual(), maintenance_manual("second.pdf", number="CM-9")],
        State.CANNOT_TELL,
        ["mm.pdf", "second.pdf"],
    ),
    "a bulletin whose maker is not printed": (
        "See SB 32-0012.",
        [REV_A, bulletin("A", DATE(2030, 1, 1), "theirs.pdf", maker=None)],
        State.RESOLVED,
        ["sb-A.pdf", "theirs.pdf"],
    ),
    "a paragraph not picked out": (
        "See 32-42-00, page 401, paragraph 7.", [maintenance_manual()], State.CANNOT_TELL, ["mm.pdf"],
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", LEAD_NOWHERE)
def test_what_is_not_sure_is_said(library, case):
    sentence, held, expected, files = LEAD_NOWHERE[case]
    state, found = one(library, sentence, *held)
    assert (state, sorted({target[0] for target in found})) == (expected, files)


def test_every_state_but_resolved_has_a_reason(library):
    sentences = [case[0] for case in LEAD_NOWHERE.values()]
    library.put(letter(*sentences), maintenance_manual(), REV_A, REV_B)
    assert all(each.reason for each in unresolved(library.catalogue))
    assert len(unresolved(library.catalogue)) >= 6


def test_a_paper_without_maker_and_model_leads_nowhere_for_sure(library):
    state, found = one(library, "See 32-41-00.", maintenance_manual(), maker=None, models=())
    assert (state, [target[0] for target in found]) == (State.CANNOT_TELL, ["mm.pdf"])


def test_a_bare_number_stays_in_its_own_manual_when_it_is_there(library):
    more = [Text("Do the check of 32-41-00, page 401.", (), 5, DOOR)]
    library.put(maintenance_manual(more=more), maintenance_manual("second.pdf", number="CM-9"))
    assert library.found("mm.pdf") == [(State.RESOLVED, [("mm.pdf", 1, "")])]


def test_figures_and_pages_are_those_of_the_subject_and_block_around(library):
    more = [
        Text("See Figure 401.", (), 4, BRAKE),
        Text("See Figure 401.", (), 1, WHEEL),
        Text("See Page 401.", (), 4, BRAKE),
        Text("See Figure 401.", (), 5, DOOR),
    ]
    library.put(maintenance_manual(more=more))
    assert library.found("mm.pdf") == [
        (State.RESOLVED, [("mm.pdf", 3, "Figure 401. Brake, exploded view")]),
        (State.RESOLVED, [("mm.pdf", 1, "Figure 401. Wheel, exploded view")]),
        (State.RESOLVED, [("mm.pdf", 3, "")]),
        (State.NO_SUCH_PLACE, [("mm.pdf", None, "")]),
    ]


def test_a_manual_of_its_own_order_by_section_paragraph_page_and_figure(library):
    sentences = ["See Service Manual, Section V.", "See Service Manual, Section V, paragraph 5-12."]
    sentences += ["See Service Manual, paragraphs 5-6 through 5-12.", "See Service Manual, page 5-2."]
    sentences += ["See Service Manual, figure 5-3.", "See Service Manual, Section IX."]
    library.put(own_order_manual(), letter(*sentences, maker=OTHER, models=("D-14",)))
    assert library.found("letter.pdf") == [
        (State.RESOLVED, [("service.pdf", 2, "")]),
        (State.RESOLVED, [("service.pdf", 3, "Brakes.")]),
        (State.RESOLVED, [("service.pdf", 2, "Wheels."), ("service.pdf", 3, "Brakes.")]),
        (State.RESOLVED, [("service.pdf", 3, "")]),
        (State.RESOLVED, [("service.pdf", 3, "Figure 5-3. Brake")]),
        (State.NO_SUCH_PLACE, [("service.pdf", None, "")]),
    ]


def test_a_bulletin_speaks_of_its_own_paragraphs(library):
    library.put(bulletin("A", DATE(2030, 1, 1), text="Do paragraph 2.B of this bulletin again."))
    ((state, targets),) = library.found("sb-A.pdf")
    assert (state, [target[:2] for target in targets]) == (State.RESOLVED, [("sb-A.pdf", 1)])


def test_the_text_of_a_rule_is_found_by_its_section(library):
    texts = [Text("§ 43.9 - Content of records.", (), 1), Text("§ 43.13 - Performance rules.", (), 2)]
    rule = Made("part43.pdf", Type.REGULATION, "14 CFR Part 43", title="Part 43", texts=texts, pages=2)
    assert one(library, "See 14 CFR 43.13(b).", rule) == (State.RESOLVED, [("part43.pdf", 2, "")])


def test_a_replaced_copy_is_no_target_when_a_current_one_is_held(library):
    old, new = bulletin("A", DATE(2030, 1, 1), "same.pdf"), bulletin("B", DATE(2031, 1, 1), "same.pdf")
    library.put(old, new, letter("See SB 32-0012."))
    (found,) = references_from(library.catalogue, library.id("letter.pdf"))
    (target,) = found.targets
    assert library.catalogue.publication(target[0]).revision == "B"


def test_an_older_revision_of_a_manual_is_no_target(library):
    new = maintenance_manual("new.pdf", revision="4", date=DATE(2031, 1, 1))
    old = maintenance_manual("old.pdf", revision="3", date=DATE(2030, 1, 1))
    assert one(library, "See 32-41-00.", new, old) == (State.RESOLVED, [("new.pdf", 1, "")])


def test_who_refers_here(library):
    library.put(letter("See 32-42-00, page 402.", "See 32-41-00."), maintenance_manual())
    manual = library.id("mm.pdf")
    assert [each.citation.text for each in references_to(library.catalogue, manual)] == [
        "32-42-00, page 402", "32-41-00",
    ]  # fmt: skip
    (found,) = references_to(library.catalogue, manual, 4)
    assert (found.publication_id, found.passage_id) == (
        library.id("letter.pdf"),
        f"{library.id('letter.pdf')}-0",
    )
    assert references_to(library.catalogue, manual, 3) == []


def test_who_names_a_system_whether_or_not_it_is_held(library):
    library.put(letter("See 32-41-00.", "See 24-31-00.", "See ATA 32.", "See SRM 53-60-00."))
    named = {
        number: [each.citation.text for each in references_to_number(library.catalogue, number)]
        for number in (
            ChapterNumber("32"),
            ChapterNumber("32", "41"),
            ChapterNumber("53"),
            ChapterNumber("27"),
        )
    }
    assert list(named.values()) == [["32-41-00", "ATA 32"], ["32-41-00"], ["SRM 53-60-00"], []]
    jasc = ChapterNumber("32", scheme=Scheme.JASC)
    assert len(references_to_number(library.catalogue, jasc)) == 2


def test_papers_off_the_shelf_refer_to_nothing(library):
    first, second = letter("See 32-41-00."), letter("See 52-11-00.")
    library.put(first, second)  # at one path: the second takes the place of the first
    cited = [each.citation.text for each in unresolved(library.catalogue)]
    assert cited == ["52-11-00"]


SHOP = [
    maintenance_manual(), maintenance_manual("other.pdf", OTHER, "D-2", ("D-14",)), own_order_manual(),
    repair_manual(), REV_A, REV_B, letter(*(case[0] for case in (*LEADS.values(), *LEAD_NOWHERE.values()))),
    Made("part43.pdf", Type.REGULATION, "14 CFR Part 43", texts=[Text("§ 43.13 - Work. See § 43.9.")]),
]  # fmt: skip


def build(folder, documents, relate_between=lambda: False) -> str:
    library = Library(folder)
    for made in documents:
        take(library.catalogue, folder / "in", made)
        if relate_between():
            relate(library.catalogue)
    relate(library.catalogue)
    with library.catalogue:
        return library.catalogue.dump()


@pytest.fixture(scope="module")
def expected(tmp_path_factory):
    dump = build(tmp_path_factory.mktemp("all"), SHOP)
    assert dump.partition("== reference_target\n")[2].count("\n") > 15
    return dump


@pytest.mark.parametrize("chance", [random.Random(number) for number in range(12)], ids=range(12))
def test_references_do_not_depend_on_the_order_of_taking(chance, tmp_path, expected):
    documents = chance.sample(SHOP, k=len(SHOP))
    assert without_paths(build(tmp_path, documents, lambda: chance.random() < 0.4)) == without_paths(expected)


@pytest.mark.parametrize("made", SHOP, ids=lambda made: made.file)
def test_removing_a_paper_takes_back_what_it_gave(made, tmp_path, expected):
    library = Library(tmp_path)
    with library.catalogue as catalogue:
        library.put(*SHOP)
        catalogue.remove(made.document().sha256[:16])
        relate(catalogue)
        others = build(tmp_path / "others", [each for each in SHOP if each is not made])
        assert without_paths(catalogue.dump()) == without_paths(others)
        library.put(made)
        assert without_paths(catalogue.dump()) == without_paths(expected)


def without_paths(dump: str) -> str:
    """The catalogue's text without the table of places, whose folder differs from test to test."""
    before, _, rest = dump.partition("== place\n")
    return before + rest.partition("== page\n")[2]


def test_references_are_kept_in_the_words_of_the_codec(library):
    library.put(*SHOP)
    with library.catalogue.reading() as connection:
        kept = [row["record_json"] for row in connection.execute("SELECT record_json FROM reference")]
    assert len(kept) > 15
    assert [to_json(from_json(Reference, text)) for text in kept] == kept
