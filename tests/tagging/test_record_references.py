"""Sources in records: how mechanics cite them, and what is no source. See the heads of the lists of lines."""

import datetime
import random
import re
from pathlib import Path

import pytest
from record_lines import Score, agrees, read_lines, score, told

from indexer.tagging.record_dates import date_readings, read_date
from indexer.tagging.references import find_citations, running_text_citations
from indexer.tagging.tags import CitationKind
from indexer.trade.publication_types import PublicationType as Type

DATA = Path(__file__).parent / "data"
WRITTEN = read_lines(DATA / "record_lines.txt")
# The head of each keeps how it came out the one time it was scored, before the reader was mended by it.
APART = ("record_lines_blind.txt", *(f"record_lines_blind_{count}.txt" for count in range(2, 9)))


@pytest.mark.parametrize("line", WRITTEN, ids=lambda line: line.text[:60])
def test_a_line_names_its_sources(line):
    found = find_citations(line.text)
    assert [told(each) for each in found] == [one.fields for one in line.expected]
    for one, each in zip(line.expected, found, strict=True):
        assert agrees(one, each)
        assert each.type is one.type
        assert each.claims_current is one.current


def test_the_lines_are_many():
    assert len(WRITTEN) >= 250


def whole(lines) -> Score:
    return score(lines, find_citations)


def test_whole_citations_of_all_lines():
    result = whole(WRITTEN)
    assert result.precision >= 0.97 and result.recall >= 0.97, result.wrong


@pytest.mark.parametrize("file", APART)
def test_whole_citations_of_lines_written_apart(file):
    lines = read_lines(DATA / file)
    result = whole(lines)
    assert len(lines) >= 50
    assert result.precision >= 0.97 and result.recall >= 0.97, result.wrong


def test_lines_of_records_in_the_words_of_running_text_alone_are_read_worse():
    """The peer: what the reader of manuals makes of the same lines."""
    peer = score(WRITTEN, running_text_citations)
    assert peer.recall < whole(WRITTEN).recall


@pytest.mark.parametrize(
    "text, kind, type_, named",
    [
        ("IAW MM", CitationKind.DOCUMENT, Type.MAINTENANCE_MANUAL, ""),
        ("per mfr MM", CitationKind.DOCUMENT, Type.MAINTENANCE_MANUAL, "mfr"),
        ("iaw QZ62 MM ch 32", CitationKind.CHAPTER, Type.MAINTENANCE_MANUAL, "QZ62"),
        ("Per Aldermoor QZ62 MM", CitationKind.DOCUMENT, Type.MAINTENANCE_MANUAL, "Aldermoor QZ62"),
        ("iaw Pellworth H-14 service manual", CitationKind.DOCUMENT, Type.SERVICE_MANUAL, "Pellworth H-14"),
        ("sect 5 pg 5-12 H-14 service manual", CitationKind.DOCUMENT, Type.SERVICE_MANUAL, "H-14"),
        ("IAW manufacturer's instructions", CitationKind.DOCUMENT, None, "manufacturer's instructions"),
        ("Pellworth SB 24", CitationKind.DOCUMENT, Type.SERVICE_BULLETIN, "Pellworth"),
        ("iaw DER approval", CitationKind.DOCUMENT, Type.ENGINEERING_APPROVAL, "DER approval"),
        ("engine OH manual", CitationKind.DOCUMENT, Type.ENGINE_MANUAL, "engine OH manual"),
        ("AMM Task 32-41-00-400-801", CitationKind.TASK, Type.MAINTENANCE_MANUAL, ""),
        ("iaw FAR 91.411", CitationKind.REGULATION, Type.REGULATION, ""),
    ],
)  # fmt: skip
def test_the_words_that_tell_which_of_its_kind(text, kind, type_, named):
    (found,) = find_citations(text)
    assert (found.kind, found.type, found.named) == (kind, type_, named)


@pytest.mark.parametrize(
    "words, readings",
    [
        ("4-3-56", ["1956-04-03", "1956-03-04"]),  # month first, as is written in the United States
        ("3/14/31", ["2031-03-14"]),
        ("14/3/31", ["2031-03-14"]),
        ("14MAR31", ["2031-03-14"]),
        ("March 14/31", ["2031-03-14"]),
        ("14-Mar-2031", ["2031-03-14"]),
        ("Mar 14, 2031", ["2031-03-14"]),
        ("2031-03-14", ["2031-03-14"]),
        ("3.14.31", ["2031-03-14"]),
        ("March 2031", []),
        ("2/30/31", []),
        ("32-41-00", []),
    ],
)
def test_dates_of_records(words, readings):
    assert [day.isoformat() for day in date_readings(words)] == readings
    assert read_date(words) == (datetime.date.fromisoformat(readings[0]) if readings else None)


def test_a_date_stays_as_written():
    (found,) = find_citations("i/a/w S/B 24 dtd 4-3-56")
    assert (found.date, found.date_words) == (datetime.date(1956, 4, 3), "4-3-56")


def test_the_date_of_the_next_entry_is_not_the_sources():
    (found,) = find_citations("C/W SB 24\n6/14/31 J. Doe A&P")
    assert (found.text, found.date) == ("SB 24", None)
    (found,) = find_citations("C/W SB 24 dated\n4/3/56")
    assert found.date == datetime.date(1956, 4, 3)


@pytest.mark.parametrize(
    "text, number",
    [
        ("C/W SB\u2019s 21", "SB 21"),
        ("AMM 32\u201341\u201300", ""),
        ("AMM TASK32-41-00-400-801", "32-41-00-400-801"),
    ],
)
def test_typesetters_marks_and_words_run_together(text, number):
    (found,) = find_citations(text)
    assert found.number == number
    assert text[found.start : found.end] == found.text


@pytest.mark.parametrize(
    "text, said",
    [
        ("maintenance manual thirty two dash forty one dash zero zero page four oh one rev six",
         {"ch": "32-41-00", "p": "401", "rev": "6"}),
        ("airworthiness directive 2031 dash 07 dash 11 paragraph g", {"n": "2031-07-11", "par": "g"}),
        ("service bulletin number twenty four", {"n": "24"}),
        ("IAW AMM 32-4l-O0 P.401", {"ch": "32-41-00", "p": "401"}),
    ],
)  # fmt: skip
def test_records_as_spoken_or_scanned(text, said):
    (found,) = find_citations(f"Done - {text} and closed.")
    assert told(found) == said
    assert found.text == text.removeprefix("IAW ")


def test_a_revision_after_two_places_of_one_manual_is_that_of_both():
    found = find_citations("per AMM 32-41-00 and 32-42-00 rev 6, SB 24 & SB 27 rev B")
    assert [each.revision for each in found] == ["6", "6", "", "B"]


@pytest.mark.parametrize(
    "text, said",
    [
        ("chapters 5 and 12 of the MM", [{"ch": "5"}, {"ch": "12"}]),
        ("iaw overhaul manual sections 4 and 6 rev 2", [{"ch": "4", "rev": "2"}, {"ch": "6", "rev": "2"}]),
        ("SRM 51-40-02 & -05", [{"ch": "51-40-02"}, {"ch": "51-40-05"}]),
        ("STCs SA123ZZ & SE456ZZ", [{"n": "SA123ZZ"}, {"n": "SE456ZZ"}]),
        ("SB 24/27", [{"n": "SB 24"}, {"n": "SB 27"}]),
        ("Rev. B of SB 24", [{"n": "SB 24", "rev": "B"}]),
        ("8130-3 issued, maintenance manual revisions current", [{"n": "8130-3"}]),
        ("page 3 of the tech log", []),
    ],
)
def test_lists_and_revisions_said_before_or_after(text, said):
    assert [told(each) for each in find_citations(text)] == said


@pytest.mark.parametrize(
    "text", ["IAW the manual", "per standard practices", "iaw mfgr's data", "per ODA-600123-NM letter"]
)
def test_words_that_name_no_document_are_told_all_the_same(text):
    (found,) = find_citations(text)
    assert (found.kind, found.number) == (CitationKind.DOCUMENT, "")


PIECES = [
    "IAW", "MM", "32-41-00", "P401", "REV 6", "dtd", "3/14/31", "SB", "24", "AD", "2031-07-11", "(g)(1)",
    "and", "&", ",", "AC 43.13-1B", "ch 4", "para", "4-57", "QZ62", "8110-3", "337", "of the", "fig 201",
    "per", "mfr", "manual", "/", "\n", "\u2013", ".", "-", "R6", "item 4", "STC SA123ZZ", "ICA",
    "\u00a7 43.9", "part 3",
]  # fmt: skip


def test_citations_of_any_text_slice_to_it_and_never_overlap():
    choices = random.Random(401)
    for _ in range(500):
        text = "".join(choices.choice(PIECES) + choices.choice(["", " ", " "]) for _ in range(30))
        found = find_citations(text)
        assert [text[each.start : each.end] for each in found] == [each.text for each in found]
        assert all(one.end <= other.start for one, other in zip(found, found[1:], strict=False))


@pytest.mark.parametrize(
    "text",
    [
        "MM " * 9000, "SB " * 9000, "AD 2031-07-11 & " * 2500, "IAW mfr " * 5000, "A-1-" * 9000,
        "MM 32-41-00, " * 3000, "ch 4 para 4 " * 4000, "SB 24, " * 5000, "Fig 1 and " * 4000,
        "3/14/31 " * 5000, "(g)" * 12000, "per the " * 5000, "thirty two " * 5000, "32 dash " * 5000,
    ],
    ids=lambda text: text[:16],
)  # fmt: skip
def test_long_and_odd_entries_are_read_to_the_end(text):
    """Each would take minutes with a rule that looks back over the whole text at every word."""
    found = find_citations(text)
    assert [text[each.start : each.end] for each in found] == [each.text for each in found]


def test_no_source_is_read_from_readings_of_instruments_and_parts():
    """Lines of the list that name no source, joined by full stops into one entry."""
    entry = " ".join(f"{line.text}." for line in WRITTEN if not line.expected)
    assert len(re.findall(r"\.", entry)) > 30
    assert find_citations(entry) == []
