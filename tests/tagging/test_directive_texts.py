"""`read_directive` and `supersedes_in` on published texts; every expected value was read in the text by eye.

Sources: Federal Register documents of 2017 to 2024, and titles and abstracts of 2020 to 2026
(tests/data/SOURCES.md).
"""

import csv
import datetime
import textwrap
from pathlib import Path

import pytest

from indexer.tagging.directives import read_directive, supersedes_in

DATA = Path(__file__).parent.parent / "data" / "directives"
ABSTRACTS = Path(__file__).parent / "data" / "directive_abstracts.csv"
JUDGED = Path(__file__).parent / "data" / "directive_abstracts_judged.csv"
ALL_ABSTRACTS = (
    1626  # of the published set; those without a directive's number or a word of replacing are not kept
)

D = datetime.date
REAL = {
    "2017-11001": {
        "proposal": True,
        "chapters": ("57",),
        "required": {
            ("600-0768", "", D(2014, 9, 9)),
            ("601-0636", "01", D(2016, 5, 10)),
            ("604-57-005", "", D(2014, 9, 9)),
            ("605-57-003", "", D(2014, 9, 9)),
        },
        "applies": (
            "This AD applies to the airplanes specified in paragraphs (c)(1) through (c)(3)",
            "5701 through 5851 inclusive.",
        ),
    },
    "2018-02352": {
        "number": "2018-03-08",
        "amendment": "39-19181",
        "effective": D(2018, 2, 22),
        "supersedes": ("2005-19-28",),
        "chapters": ("57",),
        "applies": ("This AD applies to the Airbus airplanes specified", "has been embodied in production."),
    },
    "2018-02354": {
        "number": "2018-03-07",
        "amendment": "39-19180",
        "effective": D(2018, 2, 22),
        "chapters": ("92",),
        "applies": ("This AD applies to the airplanes identified", "has been embodied in production."),
    },
    "2020-17221": {
        "proposal": True,
        "supersedes": ("2018-23-51",),
        "chapters": ("22", "27", "31"),
        "required": {
            ("737-31-1860", "", D(2020, 6, 12)),
            ("737-27-1318", "1", D(2020, 6, 24)),
            ("737-00-1028", "", D(2020, 7, 20)),
        },
        "credit": {("737-27-1318", "", D(2020, 6, 10))},
        "applies": ("This AD applies to The Boeing Company Model 737–8 and 737–9", "dated June 12, 2020."),
    },
    "2024-02724": {
        "proposal": True,
        "chapters": ("51",),
        "incorporated": {("CF-2023-37", "", D(2023, 5, 30))},
        "required": {("CF-2023-37", "", D(2023, 5, 30))},
        "applies": (
            "This AD applies to all Airbus Canada Limited Partnership",
            "certificated in any category.",
        ),
    },
    "2024-02930": {
        "number": "2024-03-04",
        "amendment": "39-22673",
        "effective": D(2024, 2, 12),
        "chapters": ("27",),
        "credit": {("MOM-MOM-23-0993-01B", "", D(2023, 12, 27))},
        "applies": ("This AD applies to The Boeing Company Model 737–8", "on or before December 20, 2023."),
    },
}  # fmt: skip


def published(name):
    return (DATA / f"{name}.txt").read_text(encoding="utf-8")


def wrapped(text):
    return "\n".join(textwrap.fill(line, 72) for line in text.splitlines())


@pytest.mark.parametrize("shape", [str, wrapped, lambda text: text.replace("–", "-")])
@pytest.mark.parametrize("name", REAL)
def test_everything_asked_of_a_published_directive_is_what_it_prints(name, shape):
    truth = REAL[name]
    read = read_directive(shape(published(name)))

    def documents(named):
        return {(each.document, each.revision, each.date) for each in named}

    assert read.number == truth.get("number", "")
    assert read.amendment == truth.get("amendment", "")
    assert read.effective_date == truth.get("effective")
    assert read.supersedes == truth.get("supersedes", ())
    assert tuple(str(chapter) for chapter in read.chapters) == truth["chapters"]
    assert documents(read.incorporated) == truth.get("incorporated", set())
    assert documents(read.required) == truth.get("required", set())
    assert documents(read.credit) == truth.get("credit", set())
    assert read.proposal is truth.get("proposal", False)
    assert read.is_rule is not read.proposal
    first, last = (words.replace("–", "-") for words in truth["applies"])
    text = read.applicability.text.replace("–", "-")
    assert text.startswith(first) and text.endswith(last)


def test_credit_counts_before_the_day_the_rule_took_effect():
    (credit,) = read_directive(published("2024-02930")).credit
    assert credit.before == D(2024, 2, 12) and "if those actions were performed before" in credit.quote


def abstracts():
    with ABSTRACTS.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def judged():
    with JUDGED.open(encoding="utf-8", newline="") as file:
        return {row["document"]: row for row in csv.DictReader(file)}


def test_what_abstracts_say_they_replace_differs_from_the_labels_only_where_a_person_judged_it():
    """The labels were made by a pattern (silver); each row that differs was read and judged by hand."""
    differing = {
        row["document"]: " ".join(supersedes_in(row["words"]))
        for row in abstracts()
        if set(supersedes_in(row["words"])) != set(row["supersedes"].split())
    }
    assert differing == {document: row["ours"] for document, row in judged().items()}
    wrong = sum(row["right"] != "ours" for row in judged().values())
    assert 1 - wrong / ALL_ABSTRACTS >= 0.99


def test_every_directive_that_a_label_names_is_found_but_for_withdrawn_proposals():
    labelled = [row for row in abstracts() if row["supersedes"]]
    agreeing = [
        row
        for row in labelled
        if set(row["supersedes"].split())
        <= {number.partition("R")[0] for number in supersedes_in(row["words"])}
    ]
    assert len(labelled) == 429 and len(agreeing) / len(labelled) >= 0.99


def test_the_reader_of_directives_reads_an_abstract_alike():
    for row in abstracts():
        read = read_directive(row["words"])
        assert set(read.supersedes) == set(supersedes_in(row["words"])), row["document"]
        assert not read.is_rule


@pytest.mark.parametrize(
    ("words", "numbers"),
    [
        ("AD 2005-19-28 required inspections.", ()),
        ("AD 2019-07-05, which superseded AD 2017-01-03, required inspections.", ()),
        ("This AD retains the requirements of AD 2016-18-02.", ()),
        ("The FAA proposes to supersede AD 64- 09-03, which applies to gliders.", ("64-09-03",)),
        ("Supersedes AD 98-25-06, Amendment 39-10930.", ("98-25-06",)),
        ("This AD revises AD 82-27-13 R1.", ("82-27-13R1",)),
        ("The FAA is withdrawing the NPRM that would have superseded AD 2023-08-04.", ()),
        ("Replace the pin of 2020-01-02 and see AD 2021-03-04.", ()),
        ("This AD replaces Service Bulletin 2001-02-03.", ()),
    ],
)
def test_only_words_of_replacing_replace(words, numbers):
    assert supersedes_in(words) == numbers
