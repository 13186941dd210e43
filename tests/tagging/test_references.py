"""What running text refers to: forms as manuals, bulletins, directives, rules and work cards print them."""

import csv
import functools
import re
from pathlib import Path

import pytest

from indexer.reading.document import read_document
from indexer.reading.page import Passage, PassageKind
from indexer.settings import Settings
from indexer.tagging.publication import tag_document
from indexer.tagging.references import find_citations, passage_citations, running_text_citations
from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.chapters import ChapterNumber

DATA = Path(__file__).parent / "data"
SAMPLES = Path(__file__).parent.parent.parent / "sample_docs"
PUBLIC = Path(__file__).parent.parent / "data"


def written_forms() -> list[tuple[str, tuple[str, ...]]]:
    forms: list[tuple[str, tuple[str, ...]]] = []
    for line in (DATA / "written_references.txt").read_text(encoding="utf-8").splitlines():
        if line.startswith("    "):
            text, found = forms[-1]
            forms[-1] = (text, (*found, line.strip()))
        elif line.strip() and not line.startswith("#"):
            forms.append((line.replace("\\n", "\n"), ()))
    return forms


# In a manual's running text a form is no reference; in a record it is the paper that the entry leans on.
ENTRY_READS_MORE = ("Form 337",)


def told(citation: Citation) -> str:
    """A citation as the table of written forms tells it."""
    fields = [f"type {citation.type.value}"] if citation.type else []
    fields += [f"number {citation.number} as printed"] if citation.number else []
    fields += [f"revision {citation.revision}"] if citation.revision else []
    fields += [f"date {citation.date}"] if citation.date else []
    fields += [f"number {citation.chapter_number}"] if citation.chapter_number else []
    for name in ("page", "figure", "item", "paragraph"):
        fields += [f"{name} {value}"] if (value := getattr(citation, name)) else []
    words = citation.text.replace("\n", "\\n")
    return f"{citation.kind.value} | {words} | {', '.join(fields)}"


@pytest.mark.parametrize("text, expected", written_forms(), ids=lambda value: str(value)[:60])
def test_written_forms(text, expected):
    assert tuple(told(each) for each in running_text_citations(text)) == expected


@pytest.mark.parametrize(
    "text, expected",
    [row for row in written_forms() if row[0] not in ENTRY_READS_MORE],
    ids=lambda value: str(value)[:60],
)
def test_an_entry_in_the_words_of_a_manual_names_the_same(text, expected):
    assert tuple(told(each) for each in find_citations(text)) == expected


def test_the_table_of_written_forms_is_long():
    assert len(written_forms()) >= 150


def paragraphs(file: str) -> list[str]:
    text = (PUBLIC / file).read_text(encoding="utf-8")
    return [each for each in re.split(r"\n\s*\n", text) if each.strip()]


def rule_section(file: str, number: str) -> list[str]:
    """The paragraphs of one section of a rule, its heading among them."""
    found = paragraphs(file)
    first = next(place for place, each in enumerate(found) if each.startswith(f"§ {number} -"))
    later = (place for place in range(first + 1, len(found)) if found[place].startswith("§ "))
    return found[first : next(later, len(found))]


def names(texts: list[str]) -> list[str]:
    """What is cited, in order: a rule or paper by its number, a place of the same rule by its paragraph."""
    cited = [each for text in texts for each in find_citations(text)]
    return [each.number + (f" {each.paragraph}" if each.paragraph else "") for each in cited]


# Source: Title 14 CFR, 1 January 2015, in tests/data/text; each list written down by hand from the text. The
# section's own heading ("§ 43.1 - Applicability.") is no reference.
COUNTED_BY_HAND = {
    ("text/14cfr_part43_2015.txt", "43.1"): [
        " (b)", " (d)", "part 121", "part 135", "21.191(i)(3)", "21.190", "43.10", "43.5(b)", "43.9(d)",
        " appendix B", " appendix A, (a)", " appendix A, (b)",
    ],
    ("text/14cfr_part43_2015.txt", "43.9"): [
        "part 91", "part 125", "135.411(a)(1)", "135.419", " (a)(4)", "part 121", "part 135", "part 91",
        "part 125",
        "135.411(a)(1)", "135.419", " (a)", " appendix B",
    ],
    ("text/14cfr_part45_2015.txt", "45.22"): [
        "45.21", "45.23 through 45.33", "91.153", "91.169", "21.191(d)", "21.191(g)", "45.21",
        "45.23 through 45.33",
        "45.21(c)", " (b)(1)", " (a)", " (b)", "part 99", "45.21", "45.23 through 45.33", "part 121",
        "part 133",
        "part 135", "part 137", "45.21", "45.23 through 45.33",
    ],
    ("text/14cfr_part45_2015.txt", "45.16"): ["43.10"],
    ("text/14cfr_part39_2015.txt", "39.9"): ["39.7"],
    ("text/14cfr_part39_2015.txt", "39.17"): ["39.19"],
    ("text/14cfr_part39_2015.txt", "39.25"): ["21.199"],
    ("text/14cfr_part39_2015.txt", "39.19"): [],
}  # fmt: skip


@pytest.mark.parametrize("section", COUNTED_BY_HAND, ids=lambda section: section[1])
def test_references_of_a_rule_are_exactly_those_counted_by_hand(section):
    assert names(rule_section(*section)) == COUNTED_BY_HAND[section]


def test_all_of_part_39_holds_three_references():
    """Source: 14 CFR part 39, 1 January 2015, read through by hand."""
    texts = paragraphs("text/14cfr_part39_2015.txt")[1:]  # without the line that names the part itself
    assert names(texts) == ["39.7", "39.19", "21.199"]


# Source: the Federal Register texts in tests/data/directives, read through by hand: every other paper
# and every rule they name, once each. Executive Orders and Federal Register pages are none.
DIRECTIVES = {
    "2018-02352": "2005-19-28 2013-0101 2013-0092 2001-268(B)R1 2001-269(B) 120-104 8000.51C 11.43"
    " 11.45 26.21 39.19 part_39",
    "2018-02354": "2014-0161 A330-92-3125 SB_A340-92-4097 8000.51C 11.43 11.45 39.19 part_39",
    "2024-02930": "2024-03-04 11.35 11.43 11.45 39.13 39.19 part_39 49_U.S.C._106(g) 5_U.S.C._551"
    " 5_U.S.C._552 5_U.S.C._553 5_U.S.C._553(b)(3)(B) 5_U.S.C._553(d)",
    "2017-11001": "600-0768 601-0636 604-57-005 605-57-003 CF-2016-17R2 1_CFR_part_51 11.43 11.45 39.19"
    " 91.403(c) part_39",
}  # fmt: skip


@pytest.mark.parametrize("file", DIRECTIVES)
def test_papers_and_rules_that_real_directives_name(file):
    cited = [each for text in paragraphs(f"directives/{file}.txt") for each in find_citations(text)]
    papers = (CitationKind.DOCUMENT, CitationKind.REGULATION)
    numbers = {each.number for each in cited if each.kind in papers}
    assert numbers == {number.replace("_", " ") for number in DIRECTIVES[file].split()}


def test_real_directives_give_revision_and_date_of_bulletins():
    """Source: the proposal of 7 June 2017 (2017-11001), paragraph (h)."""
    cited = [each for text in paragraphs("directives/2017-11001.txt") for each in find_citations(text)]
    dated = {(each.number, each.revision, str(each.date)) for each in cited if each.date and each.type}
    assert {("601-0636", "01", "2016-05-10"), ("600-0768", "", "2014-09-09")} <= dated


@pytest.mark.parametrize(
    "text",
    [
        "see " * 5000, "32-" * 5000, "32-41-00 " * 2000, "paragraph " + "(a)" * 5000,
        "figures " + "1, " * 5000,
        "§ " + "43.9 and " * 3000, "part 43, " * 3000, "SB " * 5000, "AMM " * 5000, "refer to the " * 3000,
        "of the " * 5000 + "AD 2031-07-11", "maintenance manual (" * 2000, "page 1 of " * 3000, "-\n" * 8000,
        "paragraphs " + "5-12 through " * 3000, " " * 30000, "(" * 30000, "service " * 5000, "A" * 30000,
    ],
    ids=lambda text: text[:20],
)  # fmt: skip
def test_long_and_odd_texts_are_read_to_the_end(text):
    """Each would take minutes with a pattern that tries every way of cutting it up."""
    found = find_citations(text)
    assert [text[each.start : each.end] for each in found] == [each.text for each in found]
    assert all(one.end <= other.start for one, other in zip(found, found[1:], strict=False))


def passage(text: str, kind: PassageKind = PassageKind.TEXT, headings: tuple[str, ...] = ()) -> Passage:
    return Passage(0, 1, (), headings, text, kind)


@pytest.mark.parametrize(
    "text, cited",
    [
        ("Main wheel, 32-41-00. Jack the airplane.", []),  # the number of the page itself
        ("Do the test (refer to 32-41-00, page 501).", ["32-41-00, page 501"]),
        ("Do the test (refer to 32-42-00).", ["32-42-00"]),
        ("Service Bulletin QZ62-32-0114 changes the bolts.", []),  # the bulletin names itself
        ("Revision A of SB QZ62-32-0114 Revision A is cancelled.", ["SB QZ62-32-0114 Revision A"]),
    ],
)
def test_a_passage_does_not_refer_to_itself(text, cited):
    found = passage_citations(passage(text), [ChapterNumber("32", "41", "00")], "QZ62-32-0114", "B")
    assert [each.text for each in found] == cited


@pytest.mark.parametrize("heading", ["CONTENTS", "LIST OF EFFECTIVE PAGES", "NUMERICAL INDEX"])
def test_lists_of_what_a_book_holds_are_not_references(heading):
    text = "32-41-00, page 401 Main wheel\n32-42-00, page 201 Brakes"
    assert passage_citations(passage(text, PassageKind.TABLE, (heading,))) == ()
    assert len(passage_citations(passage(f"See {text}", PassageKind.TABLE, ("INSPECTION",)))) == 2


@functools.cache
def sample_citations(file: str) -> tuple[Citation, ...]:
    works = tag_document(read_document(SAMPLES / "pdf" / file, Settings()))
    return tuple(each for work in works for tagged in work.passages for each in tagged.references)


def sample_ties() -> list[dict[str, str]]:
    with (SAMPLES / "relations_truth.csv").open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["kind"] == "tie" and row["to_number"]]


@pytest.mark.parametrize(
    "tie", sample_ties(), ids=lambda tie: f"{tie['from_file']}-{tie['level']}-{tie['to_number']}"
)
def test_the_document_of_every_tie_is_also_cited(tie):
    """Source: the truth that the sample documents were drawn with."""
    found = sample_citations(tie["from_file"])
    same = [each for each in found if each.number.removeprefix("SB ") == tie["to_number"]]
    assert same, [each.text for each in found]
    if tie["to_revision"]:
        assert tie["to_revision"] in {each.revision for each in same}


def test_numbers_that_mechanics_cite():
    """Source: FAA service difficulty reports as in the package sdr-hazards-classification 1.0.0, 300 of them.

    The column refs_cited was made by a plain pattern. What it has and the finder has not was read through:
    numbers broken by blanks, which it cut short ("53 - 51-11" as 51-11), and numbers of work cards.
    """
    with (DATA / "sdr_cited_numbers.csv").open(encoding="utf-8", newline="") as file:
        reports = list(csv.DictReader(file))
    wanted = found = typed = with_type = 0
    for report in reports:
        cited = {str(each.chapter_number): each for each in find_citations(report["text"])}
        for reference in {each.strip() for each in report["refs_cited"].split(";")}:
            kind, number = reference.split(" ", 1)
            wanted += 1
            found += number in cited
            if number in cited and kind != "ref":
                with_type += 1
                typed += cited[number].type is not None or cited[number].text.lower().startswith(kind)
    assert len(reports) == 300
    assert wanted > 400
    assert found / wanted >= 0.92
    assert typed / with_type >= 0.95
