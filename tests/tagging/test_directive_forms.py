"""What `read_directive` makes of the forms of every era, and of texts that only look like a directive."""

import textwrap

import pytest
from directive_forms import EIGHTIES, FORMS, FORTIES, LETTERED, REVISION_2020, SEVENTIES

from indexer.tagging.directives import read_directive
from indexer.tagging.flow import plain


def documents(named):
    return {(each.document, each.revision, each.date) for each in named}


def as_printed(text):
    return text


def wrapped(text):
    """Broken anew at another width, as a page would break it; a line of its own stays one."""
    return "\n".join(part for line in text.splitlines() for part in textwrap.wrap(line, 60))


def en_dashes(text):
    """As the register prints numbers."""
    return text.replace("-", "–")


@pytest.mark.parametrize("variant", [as_printed, wrapped, en_dashes])
@pytest.mark.parametrize("form", FORMS, ids=lambda form: form.name)
def test_every_form_is_read_as_a_person_reads_it(form, variant):
    read = read_directive(variant(form.text))
    assert (read.number, read.amendment, read.effective_date) == (form.number, form.amendment, form.effective)
    assert set(read.supersedes) == set(form.supersedes)
    assert tuple(str(chapter) for chapter in read.chapters) == form.chapters
    text = read.applicability.text.replace("–", "-")
    assert text.startswith(form.applicability.replace("–", "-")) and text.endswith(
        form.ends.replace("–", "-")
    )
    assert bool(text) is bool(form.applicability)
    if not (form.proposal and not form.required):
        assert documents(read.incorporated) == set(form.incorporated)
        assert documents(read.required) == set(form.required)
    assert {(each.document, each.revision, each.date, each.before) for each in read.credit} == set(
        form.credit
    )
    assert (read.is_rule, read.emergency, read.proposal) == (form.is_rule, form.emergency, form.proposal)


def test_enough_forms_are_read():
    assert len(FORMS) >= 25 and sum(not form.is_rule for form in FORMS) >= 8


def test_a_bulletin_that_also_covers_the_subject_is_only_mentioned():
    """As AD 47-51-08 closes."""
    read = read_directive(FORTIES.text)
    assert [each.document for each in read.mentioned] == ["5"]
    assert read.required == read.incorporated == read.credit == ()


def test_the_required_actions_are_quoted_and_nothing_else_is():
    actions = read_directive(EIGHTIES.text).actions
    assert [action[:34] for action in actions if action.startswith("(")] == [
        "(a) Within the next 100 hours time",
        "(b) If cracks are found, prior to ",
    ]
    assert [action[:20] for action in read_directive(LETTERED.text).actions] == [
        "(g) Inspection Withi",
        "(h) Exceptions to Se",
    ]


def test_later_revisions_are_allowed_only_where_it_is_printed():
    allowed = {
        form.number: [each.later_allowed for each in read_directive(form.text).required] for form in FORMS
    }
    assert [number for number, said in allowed.items() if any(said)] == [
        SEVENTIES.number,
        REVISION_2020.number,
    ]


def test_the_part_named_with_its_document_is_kept():
    read = read_directive(LETTERED.text)
    assert [each.paragraphs for each in read.required] == [("Part 3",)]
    assert {each.document: each.paragraphs for each in read.incorporated} == {
        "32A0012": (),
        "53-0077": ("Part 1",),
        "Corvane C-88 Airworthiness Limitations Section": (),
    }


def test_who_may_approve_another_method_is_quoted():
    assert "has the authority to approve AMOCs" in read_directive(LETTERED.text).alternative_words
    assert "alternate method of compliance" in read_directive(EIGHTIES.text).alternative_words


def test_a_step_that_the_directive_leaves_out_makes_its_document_no_requirement_twice():
    """ "This AD does not require that": the sentence names the bulletin and orders nothing."""
    quotes = [each.quote for each in read_directive(LETTERED.text).required]
    assert len(quotes) == 1 and quotes[0].startswith("Within 30 days")


def test_effective_upon_receipt_is_kept_in_its_words():
    emergency = next(form for form in FORMS if form.emergency)
    read = read_directive(emergency.text)
    assert read.effective_date is None and "effective upon receipt" in read.effective_words
    assert read.issued.isoformat() == "2034-12-20"


def test_words_of_no_directive_give_nothing():
    for text in ("", "   \n", "A maintenance manual.", "\f\f", "AD"):
        read = read_directive(text)
        assert (read.number, read.amendment, read.effective_date, read.supersedes) == ("", "", None, ())
        assert not read.is_rule and not read.chapters and read.applicability.text == ""


def test_one_long_line_is_read_as_its_printed_lines_are():
    for form in (LETTERED, EIGHTIES):
        plain, joined = read_directive(form.text), read_directive(" ".join(form.text.split()))
        for name in (
            "number",
            "amendment",
            "effective_date",
            "supersedes",
            "chapters",
            "incorporated",
            "credit",
        ):
            assert getattr(joined, name) == getattr(plain, name), name


@pytest.mark.parametrize("form", FORMS, ids=lambda form: form.name)
def test_a_text_cut_anywhere_gives_only_numbers_that_it_prints(form):
    for place in range(20, len(form.text), max(len(form.text) // 15, 1)):
        cut = form.text[:place]
        printed = plain(cut).replace(" ", "")
        read = read_directive(cut)
        assert not (read.is_rule and not form.is_rule), place
        for number in (read.number, read.amendment, *read.supersedes):
            assert number.partition("R")[0] in printed, (place, number)
