"""Several hundred approval-like sentences in context: none that grants nothing is ever called approved.

data/approval_sentences.csv holds each sentence with the kind of publication, the place on the page and the
lines around it. Sources: 14 CFR parts 23, 27, 33 and 35 for the limitations statement, the forms' own words
for the certificates; the wordings of makers are from memory, with invented names and numbers.

The share found here is no forecast for wordings that the code has not met. At their first run the rows of the
group "second set", written after the code had been mended by those before, had 35 of 50 grants found and 8 of
85 others called approved; those of the "third set", 21 of 25 and 2 of 40; of the "fourth set", 38 of 45 and
32 of 177. Then grants were taken only in closed forms and closed company: the "fifth set" had 43 of 43 and 60
of 186, most by lines apart from the sentence, and the "sixth set" 41 of 42 and 30 of 201, half of them lines
that name another paper. Of the "seventh set", 41 of 43 and 2 of 213, neither of them on its page; of the
"eighth set", written against the forms themselves, 18 of 21 and 13 of 96, most by words behind a heading or a
publisher's notice; of the "ninth set", written in the same way after that, 19 of 20 and 2 of 75. Rows that
another set has already are left out. The code was mended by each in turn; the grants it misses are in
data/approval_sentences_missed.txt.
"""

from pathlib import Path

import pytest
from approval_pages import Case, cases, made_for, pages_reached, printed
from reportlab.pdfgen.canvas import Canvas

from indexer.reading.document import read_document
from indexer.reading.page import Document
from indexer.settings import Settings
from indexer.tagging.publication import tag_document
from indexer.tagging.standing import standing_in
from indexer.tagging.tags import StandingValue
from indexer.trade.publication_types import PublicationType as Type

MISSED = Path(__file__).parent / "data" / "approval_sentences_missed.txt"
ALL = cases()
GRANTS = [case for case in ALL if case.reach]
TRAPS = [case for case in ALL if not case.reach]
BY_PLACE = "the place decides"  # the same words grant in another publication or on another page
OF_WORDS = {
    "AC": Type.ADVISORY_CIRCULAR, "ORDER": Type.ORDER_OR_HANDBOOK, "SAIB": Type.AIRWORTHINESS_BULLETIN,
    "AMOC": Type.AMOC_LETTER, "8110-3": Type.ENGINEERING_APPROVAL, "337": Type.REPAIR_ALTERATION_RECORD,
    "8130-3": Type.RELEASE_CERTIFICATE,
}  # fmt: skip
APPROVED = StandingValue.APPROVED


def approved_pages(made: Document) -> tuple[frozenset[int], frozenset[int]]:
    """The pages with an approved passage, and of those the pages on which every passage is."""
    passages = [each for work in tag_document(made) for each in work.passages]
    some = {each.passage.pdf_page for each in passages if each.standing.value is APPROVED}
    rest = {each.passage.pdf_page for each in passages if each.standing.value is not APPROVED}
    return frozenset(some), frozenset(some - rest)


def found(case: Case) -> bool:
    """Whether a grant reaches the pages it should, every passage of them."""
    return approved_pages(made_for(case))[1] == pages_reached(case)


def test_the_set_is_as_large_as_it_is_said_to_be():
    assert len(TRAPS) >= 400
    assert len(GRANTS) >= 150
    assert len({str(case) for case in ALL}) == len(ALL)


@pytest.mark.parametrize("case", TRAPS, ids=str)
def test_what_grants_nothing_approves_no_passage_of_any_page(case):
    assert approved_pages(made_for(case))[0] == frozenset(), case.why


@pytest.mark.parametrize("case", [case for case in TRAPS if case.group != BY_PLACE], ids=str)
def test_nor_do_its_words_alone(case):
    assert standing_in(printed(case.words), OF_WORDS.get(case.type)).value is not APPROVED, case.why


@pytest.mark.parametrize("case", GRANTS, ids=str)
def test_no_grant_reaches_further_than_its_words(case):
    assert approved_pages(made_for(case))[0] <= pages_reached(case)


def test_of_true_grants_at_least_95_in_100_are_found_and_the_others_are_listed():
    missed = [str(case) for case in GRANTS if not found(case)]
    print(f"{len(GRANTS) - len(missed)} of {len(GRANTS)} grants found; missed:", *missed, sep="\n")
    assert len(missed) <= 0.05 * len(GRANTS)
    assert missed == MISSED.read_text(encoding="utf-8").splitlines()


@pytest.mark.parametrize("case", ALL[::6], ids=str)
def test_drawn_and_read_as_a_file_it_is_the_same(case, tmp_path):
    made = made_for(case)
    draw(made, tmp_path / "drawn.pdf")
    some, whole = approved_pages(read_document(tmp_path / "drawn.pdf", Settings()))
    assert some <= pages_reached(case)
    assert (whole == pages_reached(case)) is found(case)


def draw(made: Document, path: Path) -> None:
    """The made pages as a PDF file, each line where it stands."""
    canvas = Canvas(str(path), pagesize=(made.pages[0].width, made.pages[0].height), invariant=True)
    for page in made.pages:
        for line in (*page.head, *page.body, *page.foot):
            first = line.words[0]
            canvas.setFont("Helvetica-Bold" if first.bold else "Helvetica", first.font_size)
            canvas.drawString(line.box.x0, page.height - line.box.top - first.font_size, line.text)
        canvas.showPage()
    canvas.save()
