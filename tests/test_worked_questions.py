"""Twenty-six questions a shop asks of a source, from the entry's words to the verdict, on real PDFs.

The documents are drawn for the purpose or are samples, read, tagged, taken and related as any other. What is
expected was written down from the rules named in worked/cases.py before any answer was looked at.
"""

import json
import re

import pytest
from worked.cases import CASES
from worked.shelf import ingested
from worked.shop import confirm_fleet, keep_register

from indexer.settings import Settings
from server import sourcecheck
from server.opened import OpenedLibrary


@pytest.fixture(scope="module")
def shelf(tmp_path_factory):
    folder = ingested(tmp_path_factory.mktemp("worked"))
    with OpenedLibrary.open(folder, Settings()) as library:
        confirm_fleet(library)
        keep_register(library)
        yield library


def _finding(library, case):
    answer = sourcecheck.check(library, case.entry, aircraft=case.aircraft or None, work=case.work).fields()
    found = [one for one in answer["citations"] if case.about in one["number"] or case.about in one["text"]]
    assert found, f"nothing found of {case.about!r}: {[one['text'] for one in answer['citations']]}"
    return answer, found[0]


def _printed(finding) -> str:
    """All that the finding prints, without the entry's own words and the words suggested for a record."""
    kept = {name: value for name, value in finding.items() if name not in ("text", "wording")}
    return json.dumps(kept, ensure_ascii=False)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_worked_question(shelf, case):
    answer, finding = _finding(shelf, case)
    enough = {name: one["answer"] for name, one in finding["enough"].items()}
    said = {
        "standing": (finding["standing"]["value"], case.standing),
        "current": (finding["current"]["state"], case.current),
        "applies": (finding["applies"]["answer"], case.applies),
        "minor": (enough["minor"], case.minor),
        "major": (enough["major"], case.major),
        "directive": (enough.get("directive"), case.directive),
    }
    wrong = {name: pair for name, pair in said.items() if pair[1] and pair[0] not in pair[1]}
    assert not wrong, json.dumps(finding, indent=1, ensure_ascii=False)
    if case.mandatory is not None:
        assert finding["standing"]["mandatory"] == case.mandatory
    if case.level:
        number, level, status = case.level
        ties = [one for one in finding["directives"] if number in one["number"]]
        assert [one["level"] for one in ties if one["level"] == level], finding["directives"]
        assert all(status in one["status"] for one in ties), ties
    for words in case.says:
        assert re.search(words, _printed(finding)), f"«{words}» is not said: {_printed(finding)}"
    for words in case.never:
        assert not re.search(words, _printed(finding)), f"«{words}» is said"
    assert answer["cautions"]


@pytest.mark.parametrize("case", [case for case in CASES if case.positions], ids=lambda case: case.name)
def test_a_disputed_point_prints_both_readings(shelf, case):
    _, finding = _finding(shelf, case)
    printed = _printed(finding)
    for position in case.positions:
        assert re.search(position, printed), f"«{position}» is not said: {printed}"


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_a_yes_quotes_its_proof(shelf, case):
    """ "Approved" and "enough for major work" never stand without quoted words and their page."""
    _, finding = _finding(shelf, case)
    standing = finding["standing"]
    if standing["value"] == "approved" or finding["enough"]["major"]["answer"] == "yes":
        assert standing["value"] == "approved" and standing["quote"] and standing["pdf_page"]
    if finding["current"]["state"] == "current as checked":
        assert "by" in finding["current"]["why"]
    if finding["applies"]["answer"] == "does not apply":
        assert finding["applies"]["quote"]


def test_all_twenty_six_are_asked():
    assert sorted({int(case.name.split()[0]) for case in CASES}) == list(range(1, 27))
