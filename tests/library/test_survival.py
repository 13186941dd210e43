"""Entries find their places again: removal, another cut of the passages, better reading, another revision."""

import contextlib
from dataclasses import replace

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from making import Made, Text, take
from shop import DATE, MAKER

from indexer.library import shop_map
from indexer.library.anchoring import Anchor, Printed, Spot, in_copy, in_revision, words_of
from indexer.library.catalogue import Catalogue
from indexer.library.problems import EntryRefused
from indexer.library.records import EntryKind, EntryState, ReviewCause
from indexer.library.relations import relate
from indexer.library.review import queue
from indexer.library.shop_entries import add_entry, entries, entry_passages, second_entry, undo_entry
from indexer.tagging.tags import StandingValue
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.evidence import Box, PageBox
from indexer.trade.publication_types import PublicationType as Type

BRAKES = "Adjust the brake until the lining clears the drum by the width of a feeler gauge."
FIRST_HALF, SECOND_HALF = BRAKES[:33], BRAKES[34:]
MISREAD = BRAKES.replace("lining", "linning")
SET_OTHERWISE = BRAKES.upper().replace(" ", "  ")
WHEELS = "Pack both wheel bearings with fresh grease and spin them until they run without noise."
TIRES = "Inflate the main tires to the pressure on the placard before the first flight of a day."


@pytest.fixture
def catalogue(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as opened:
        yield opened


def handbook(texts, revision="1", year=1951, **rest) -> Made:
    pages = max(text.page for text in texts)
    given_ = {"maker": MAKER, "title": "Handbook", "texts": list(texts), "pages": pages, **rest}
    return Made(f"h-{revision}.pdf", Type.SERVICE_MANUAL, "KM-12", revision, DATE(year, 1, 1), **given_)


def plain(*texts: str) -> list[Text]:
    return [Text(text, (), page) for page, text in enumerate(texts, 1)]


def enter(catalogue, copy_id, quote="", value="32", kind=EntryKind.CHAPTERS, pdf_page=1, **rest):
    return add_entry(catalogue, copy_id, pdf_page, "R. Quill", "as read", kind, value, quote, **rest)


def filed(catalogue, copy_id) -> dict[str, str]:
    """Text of each passage -> the number it is filed under."""
    return {
        passage.text: str(passage.numbers[0].value) if passage.numbers else ""
        for publication in catalogue.publications_in(copy_id)
        for passage in catalogue.passages_of(publication.id)
    }


def cut_anew(catalogue, made: Made, texts) -> None:
    """The same file, read as other passages."""
    recut = replace(made, texts=list(texts), content=made.bytes)
    document = recut.document()
    (held,) = [copy for copy in catalogue.copies() if copy.sha256 == document.sha256]
    catalogue.read_again(held.id, document, recut.publications())
    relate(catalogue)


def states(catalogue):
    return [entry.state for entry in entries(catalogue)]


# One file --------------------------------------------------------------------------------------------------


def test_a_file_taken_again_after_removal_meets_its_entries(catalogue, tmp_path):
    made = handbook(plain(BRAKES, WHEELS))
    copy_id = take(catalogue, tmp_path, made).copy_id
    enter(catalogue, copy_id, BRAKES)
    enter(catalogue, copy_id, "", "acceptable", EntryKind.STANDING, 2)
    second_entry(catalogue, 2, "M. Ohler")
    relate(catalogue)
    before = catalogue.dump()
    catalogue.remove(copy_id)
    relate(catalogue)
    assert len(entries(catalogue)) == 2 and entry_passages(catalogue, 1) == []
    take(catalogue, tmp_path, made)
    relate(catalogue)
    assert catalogue.dump() == before


@pytest.mark.parametrize(
    ("texts", "expected"),
    [
        ([Text(f"{BRAKES} {WHEELS}")], {f"{BRAKES} {WHEELS}": "32"}),
        (
            [Text(FIRST_HALF), Text(SECOND_HALF)],
            {FIRST_HALF: "32", SECOND_HALF: "32"},
        ),
        ([Text(MISREAD), Text(WHEELS)], {MISREAD: "32", WHEELS: ""}),
        ([Text(SET_OTHERWISE), Text(WHEELS)], {SET_OTHERWISE: "32", WHEELS: ""}),
    ],
    ids=["joined", "parted", "read better", "set otherwise"],
)  # fmt: skip
def test_an_entry_finds_its_words_however_they_are_cut(catalogue, tmp_path, texts, expected):
    made = handbook([Text(BRAKES), Text(WHEELS)])
    copy_id = take(catalogue, tmp_path, made).copy_id
    enter(catalogue, copy_id, BRAKES)
    cut_anew(catalogue, made, texts)
    assert filed(catalogue, copy_id) == expected
    assert states(catalogue) == [EntryState.IN_FORCE]


def test_words_that_are_not_found_are_looked_at_again_and_come_back(catalogue, tmp_path):
    made = handbook([Text(BRAKES), Text(WHEELS)])
    copy_id = take(catalogue, tmp_path, made).copy_id
    enter(catalogue, copy_id, BRAKES)
    cut_anew(catalogue, made, [Text("Quite other words."), Text(WHEELS)])
    (entry,) = entries(catalogue, state=EntryState.CHECK_AGAIN)
    assert "is not found" in entry.reason
    assert set(filed(catalogue, copy_id).values()) == {""}
    cut_anew(catalogue, made, made.texts)
    assert states(catalogue) == [EntryState.IN_FORCE] and filed(catalogue, copy_id)[BRAKES] == "32"


def test_the_box_finds_the_place_where_the_words_are_read_otherwise(catalogue, tmp_path):
    made = handbook([Text(BRAKES)])
    copy_id = take(catalogue, tmp_path, made).copy_id
    enter(catalogue, copy_id, BRAKES, box=Box(10, 10, 200, 24))
    cut_anew(catalogue, made, [Text("Adjvst tbe brnke vntil tbe linlng clenrs")])
    assert states(catalogue) == [EntryState.IN_FORCE]
    assert list(filed(catalogue, copy_id).values()) == ["32"]


def test_nothing_is_raised_but_the_very_words_that_two_persons_saw(catalogue, tmp_path):
    made = handbook([Text(BRAKES), Text(WHEELS)])
    copy_id = take(catalogue, tmp_path, made).copy_id
    entry = enter(catalogue, copy_id, BRAKES[:40], "approved", EntryKind.STANDING)
    assert entry.quote == BRAKES
    second_entry(catalogue, entry.id, "M. Ohler")
    relate(catalogue)
    for texts in ([Text(f"{BRAKES} {WHEELS}")], [Text(BRAKES.replace("clears", "cleans")), Text(WHEELS)]):
        cut_anew(catalogue, made, texts)
        passages = catalogue.passages_of(f"{copy_id}-1")
        assert {each.standing.value for each in passages} == {StandingValue.UNDETERMINED}
        assert states(catalogue) == [EntryState.CHECK_AGAIN]
    cut_anew(catalogue, made, made.texts)
    values = [each.standing.value for each in catalogue.passages_of(f"{copy_id}-1")]
    assert values == [StandingValue.APPROVED, StandingValue.UNDETERMINED]


# Another revision ------------------------------------------------------------------------------------------


def test_an_entry_is_carried_to_a_newer_revision_where_its_words_stand_once(catalogue, tmp_path):
    older = take(catalogue, tmp_path, handbook(plain(BRAKES, WHEELS))).copy_id
    enter(catalogue, older, BRAKES)
    newer = take(catalogue, tmp_path, handbook(plain(TIRES, WHEELS, BRAKES), "2", 1953)).copy_id
    relate(catalogue)
    assert filed(catalogue, newer) == {TIRES: "", WHEELS: "", BRAKES: "32"}
    assert filed(catalogue, older)[BRAKES] == "32"
    assert states(catalogue) == [EntryState.IN_FORCE]


@pytest.mark.parametrize("texts", [(TIRES, WHEELS), (BRAKES, BRAKES)], ids=["gone from it", "twice in it"])
def test_where_its_words_do_not_stand_once_somebody_looks_again(catalogue, tmp_path, texts):
    older = take(catalogue, tmp_path, handbook(plain(BRAKES, WHEELS))).copy_id
    enter(catalogue, older, BRAKES)
    newer = take(catalogue, tmp_path, handbook(plain(*texts), "2", 1953)).copy_id
    relate(catalogue)
    assert set(filed(catalogue, newer).values()) == {""}
    (entry,) = entries(catalogue, state=EntryState.CHECK_AGAIN)
    assert "h-2.pdf" in entry.reason
    assert filed(catalogue, older)[BRAKES] == "32"
    undo_entry(catalogue, entry.id, "R. Quill", "entered anew there")
    relate(catalogue)
    assert states(catalogue) == [EntryState.UNDONE]


def test_pages_are_carried_passage_by_passage(catalogue, tmp_path):
    older = take(catalogue, tmp_path, handbook(plain(BRAKES, WHEELS, TIRES))).copy_id
    enter(catalogue, older, last_page=2)
    newer = take(catalogue, tmp_path, handbook(plain(TIRES, BRAKES), "2", 1953)).copy_id
    relate(catalogue)
    assert filed(catalogue, newer) == {TIRES: "", BRAKES: "32"}
    (entry,) = entries(catalogue, state=EntryState.CHECK_AGAIN)
    assert "1 of 2 passages" in entry.reason


@pytest.mark.parametrize(
    ("heading", "state"),
    [("SECTION V BRAKES", EntryState.IN_FORCE), ("SECTION V RADIOS", EntryState.CHECK_AGAIN)],
)
def test_a_section_is_carried_when_number_and_title_are_the_same(catalogue, tmp_path, heading, state):
    def section(number, title, *texts):
        value = ChapterNumber(number, scheme=Scheme.OWN)
        return [Text(text, (title,), page, value) for page, text in enumerate(texts, 1)]

    old = [*section("5", "SECTION V BRAKES", BRAKES), *section("6", "SECTION VI WHEELS", WHEELS)]
    older = take(catalogue, tmp_path, handbook(old)).copy_id
    enter(catalogue, older, section="V")
    new = section("5", heading, "Wholly new words stand here.", TIRES)
    newer = take(catalogue, tmp_path, handbook(new, "2", 1953)).copy_id
    relate(catalogue)
    assert states(catalogue) == [state]
    assert set(filed(catalogue, newer).values()) == ({"32"} if state is EntryState.IN_FORCE else {"5"})


def test_an_older_revision_is_left_alone(catalogue, tmp_path):
    newer = take(catalogue, tmp_path, handbook(plain(BRAKES), "2", 1953)).copy_id
    enter(catalogue, newer, BRAKES)
    older = take(catalogue, tmp_path, handbook(plain(BRAKES, WHEELS), "1", 1951)).copy_id
    relate(catalogue)
    assert filed(catalogue, older)[BRAKES] == ""
    assert states(catalogue) == [EntryState.IN_FORCE]


def test_an_entry_is_carried_although_its_own_copy_is_gone(catalogue, tmp_path):
    older = take(catalogue, tmp_path, handbook(plain(BRAKES, WHEELS))).copy_id
    enter(catalogue, older, BRAKES)
    enter(catalogue, older, pdf_page=2)
    catalogue.remove(older)
    newer = take(catalogue, tmp_path, handbook(plain(BRAKES, WHEELS), "2", 1953)).copy_id
    relate(catalogue)
    assert filed(catalogue, newer) == {BRAKES: "32", WHEELS: ""}
    assert states(catalogue) == [EntryState.IN_FORCE, EntryState.CHECK_AGAIN]  # pages alone say nothing


def test_a_raise_is_never_carried_and_a_caution_is(catalogue, tmp_path):
    older = take(catalogue, tmp_path, handbook(plain(BRAKES, WHEELS))).copy_id
    raised = enter(catalogue, older, BRAKES, "approved", EntryKind.STANDING)
    second_entry(catalogue, raised.id, "M. Ohler")
    enter(catalogue, older, WHEELS, "blocked", EntryKind.STANDING, 2)
    newer = take(catalogue, tmp_path, handbook(plain(BRAKES, WHEELS), "2", 1953)).copy_id
    relate(catalogue)
    values = [each.standing.value for each in catalogue.passages_of(f"{newer}-1")]
    assert values == [StandingValue.UNDETERMINED, StandingValue.BLOCKED]
    assert states(catalogue) == [EntryState.CHECK_AGAIN, EntryState.IN_FORCE]


# Another file at the same place ----------------------------------------------------------------------------


def unnumbered(texts, **rest) -> Made:
    """A manual that prints no number, always at one path: another edition is another work by its identity."""
    given_ = {"file": "manual.pdf", "number": None, "revision": None, "date": None, **rest}
    return replace(handbook(texts), **given_)


def asked_again(catalogue):
    """Entries that the librarian is asked about."""
    return {
        item.entry_id
        for item in queue(catalogue, [ReviewCause.CHECK_AGAIN]).items
        if item.entry_id is not None
    }


def test_an_entry_follows_the_file_that_took_the_place_of_its_own(catalogue, tmp_path):
    older = take(catalogue, tmp_path, unnumbered(plain(BRAKES, WHEELS, TIRES))).copy_id
    enter(catalogue, older, BRAKES)
    relate(catalogue)
    for texts in ((BRAKES, WHEELS), (TIRES, BRAKES, WHEELS)):
        newer = take(catalogue, tmp_path, unnumbered(plain(*texts))).copy_id
        relate(catalogue)
        assert filed(catalogue, newer)[BRAKES] == "32"
        assert states(catalogue) == [EntryState.IN_FORCE] and not asked_again(catalogue)
    take(catalogue, tmp_path, unnumbered(plain(TIRES, WHEELS)))
    relate(catalogue)
    (entry,) = entries(catalogue, state=EntryState.CHECK_AGAIN)
    assert "manual.pdf" in entry.reason and asked_again(catalogue) == {entry.id}


@pytest.mark.parametrize(
    "other",
    [{"title": "Radio installation"}, {"title": None}, {"type": Type.PARTS_CATALOG}],
    ids=["another title", "no title", "another type"],
)
def test_another_book_at_the_same_place_is_handed_nothing_and_somebody_looks(catalogue, tmp_path, other):
    older = take(catalogue, tmp_path, unnumbered(plain(BRAKES, WHEELS))).copy_id
    entry = enter(catalogue, older, BRAKES)
    newer = take(catalogue, tmp_path, unnumbered(plain(BRAKES, TIRES), **other)).copy_id
    relate(catalogue)
    assert set(filed(catalogue, newer).values()) == {""}
    assert states(catalogue) == [EntryState.CHECK_AGAIN] and asked_again(catalogue) == {entry.id}


def test_two_numbers_are_never_made_one_work(catalogue, tmp_path):
    older = take(catalogue, tmp_path, unnumbered(plain(BRAKES), number="KM-1")).copy_id
    enter(catalogue, older, BRAKES)
    between = take(catalogue, tmp_path, unnumbered(plain(BRAKES, WHEELS))).copy_id
    relate(catalogue)
    assert filed(catalogue, between)[BRAKES] == "32"
    last = take(catalogue, tmp_path, unnumbered(plain(BRAKES, TIRES), number="KM-2")).copy_id
    relate(catalogue)
    assert filed(catalogue, last)[BRAKES] == ""
    assert states(catalogue) == [EntryState.CHECK_AGAIN]


@pytest.mark.parametrize("kind", [EntryKind.NUMBER, EntryKind.TITLE, EntryKind.CHAPTERS, EntryKind.NOTE])
def test_an_entry_whose_copy_is_gone_is_not_silently_in_force(catalogue, tmp_path, kind):
    made = unnumbered(plain(BRAKES, WHEELS))
    copy_id = take(catalogue, tmp_path, made).copy_id
    entry = enter(catalogue, copy_id, value="32", kind=kind)
    if kind is EntryKind.NUMBER:
        second_entry(catalogue, entry.id, "M. Ohler")
    relate(catalogue)
    assert states(catalogue) == [EntryState.IN_FORCE]
    catalogue.remove(copy_id)
    relate(catalogue)
    assert states(catalogue) == [EntryState.CHECK_AGAIN] and asked_again(catalogue) == {entry.id}
    take(catalogue, tmp_path, made)
    relate(catalogue)
    assert states(catalogue) == [EntryState.IN_FORCE] and not asked_again(catalogue)


# At random -------------------------------------------------------------------------------------------------

VOCABULARY = "brake lining drum wheel bearing tire adjust torque remove install check nut bolt gauge".split()


@st.composite
def printed_words(draw) -> list[str]:
    return draw(st.lists(st.sampled_from(VOCABULARY), min_size=12, max_size=60))


def cut(words: list[str], cuts: list[int]) -> list[tuple[int, int]]:
    bounds = sorted({0, len(words), *(place % len(words) for place in cuts)})
    return list(zip(bounds, bounds[1:], strict=False))


def spots_of(words, ranges) -> list[Spot]:
    """Each word has a place of its own on the page: 10 points wide, all on one line."""
    return [
        Spot(
            f"p-{begin}-{end}",
            (1,),
            " ".join(words[begin:end]),
            (PageBox(1, Box(10.0 * begin, 0, 10.0 * end, 10)),),
        )
        for begin, end in ranges
    ]


CUTS = st.lists(st.integers(0, 200), max_size=8)


def letters(words: list[str]) -> int:
    """How much print some words are, with the blank after each."""
    return sum(len(word) + 1 for word in words)


@settings(deadline=None, max_examples=300)
@example(["brake"] * 4 + ["drum"] + ["brake"] * 7, [1, 32, 57, 64], [126, 139], 167, False)
@given(printed_words(), CUTS, CUTS, st.integers(0, 200), st.booleans())
def test_another_cut_never_loses_an_entry(words, before, after, chosen, boxed):
    """Only the cut changes: the entry is where its words are, or they stand there twice and it says so."""
    ranges = cut(words, before)
    begin, end = ranges[chosen % len(ranges)]
    quote = " ".join(words[begin:end])
    box = Box(10.0 * begin, 0, 10.0 * end, 10) if boxed else None
    found = in_copy(Anchor(1, 1, "", quote, box), Printed(spots_of(words, cut(words, after))))
    twice = any(words[at : at + end - begin] == words[begin:end] for at in range(len(words)) if at != begin)
    if not twice:
        assert not found.reason
    assert bool(found.passages) != bool(found.reason)
    if found.passages and not twice:
        there = [tuple(map(int, each.split("-")[1:])) for each in found.passages]
        shared = sum(letters(words[max(begin, first) : min(end, last)]) for first, last in there)
        assert shared >= max(
            letters(words[max(begin, first) : min(end, last)]) for first, last in cut(words, after)
        )
        assert all(min(end, last) > max(begin, first) for first, last in there)
        assert all(
            words_of(" ".join(words[first:last])).strip() in words_of(quote)
            for first, last in there
            if f"p-{first}-{last}" in found.whole
        )


@settings(deadline=None, max_examples=300)
@given(
    printed_words(),
    CUTS,
    CUTS,
    st.integers(0, 200),
    st.lists(st.integers(0, 200), max_size=12),
    st.booleans(),
)
def test_edits_leave_an_entry_in_place_or_have_it_looked_at(
    words, before, after, chosen, edits, other_revision
):
    """The entry lands where nine in ten of its words stand in order, or somebody looks again."""
    ranges = cut(words, before)
    begin, end = ranges[chosen % len(ranges)]
    changed = list(words)
    for place in edits:
        changed[place % len(words)] = f"other{place}"
    quote = " ".join(words[begin:end])
    now = Printed(spots_of(changed, cut(changed, after)))
    anchor = Anchor(1, 1, "", quote)
    found = in_revision(anchor, (), Printed(()), now) if other_revision else in_copy(anchor, now)
    assert bool(found.passages) != bool(found.reason)
    if found.passages:
        there = " ".join(spot.text for spot in now.spots if spot.id in found.passages).split()
        assert in_order(words[begin:end], there) >= 0.9 or words_of(quote) in now.text
    if other_revision and end - begin < 4:
        assert found.reason


def in_order(wanted: list[str], there: list[str]) -> float:
    """Share of the words that stand there in their order: the longest common subsequence in full."""
    best = [0] * (len(there) + 1)
    for word in wanted:
        row = [0]
        for place, other in enumerate(there, 1):
            row.append(best[place - 1] + 1 if word == other else max(best[place], row[-1]))
        best = row
    return best[-1] / len(wanted)


@settings(deadline=None, max_examples=12)
@given(st.lists(CUTS, min_size=1, max_size=3), st.data())
def test_no_entry_is_ever_lost_in_a_library(tmp_path_factory, cuts, data):
    """Whatever is cut, edited or revised: each entry is where its words are, or is to be checked again."""
    words = data.draw(printed_words())
    with Catalogue.open(tmp_path_factory.mktemp("library"), create=True) as catalogue:
        folder = tmp_path_factory.mktemp("in")
        ranges = cut(words, cuts[0])
        made = handbook([Text(" ".join(words[begin:end])) for begin, end in ranges])
        copy_id = take(catalogue, folder, made).copy_id
        asked = 0
        for begin, end in ranges[:4]:
            quote = " ".join(words[begin:end])
            with contextlib.suppress(EntryRefused):  # its words stand at several places
                enter(catalogue, copy_id, quote)
                asked += 1
        shop_map.add_row(catalogue, "KM-12", "V", "", "32", "M. Ohler", "brakes")
        for number, places in enumerate(cuts[1:], 2):
            edits = data.draw(st.lists(st.integers(0, 200), max_size=6))
            changed = list(words)
            for place in edits:
                changed[place % len(words)] = f"other{place}"
            texts = [Text(" ".join(changed[begin:end])) for begin, end in cut(changed, places)]
            what = data.draw(st.sampled_from(("cut anew", "another revision", "at its place")))
            if what == "cut anew":
                cut_anew(catalogue, made, texts)
            elif what == "at its place":
                number_of_it = data.draw(st.sampled_from((None, "KM-12", "KM-13")))
                there = replace(handbook(texts), number=number_of_it, content=f"%PDF {number}".encode())
                take(catalogue, folder, there)
            else:
                take(catalogue, folder, handbook(texts, str(number), 1950 + number))
        relate(catalogue)
        held = entries(catalogue)
        assert len(held) == asked and len(shop_map.map_rows(catalogue)) == 1
        for entry in held:
            here = [each for each in entry_passages(catalogue, entry.id) if each.startswith(copy_id)]
            assert here or entry.state is EntryState.CHECK_AGAIN
            assert (entry.state is EntryState.CHECK_AGAIN) == bool(entry.reason)
            on_shelf = {record.id for record in catalogue.publications()}
            there = {each.rpartition("-")[0] for each in entry_passages(catalogue, entry.id)}
            assert there & on_shelf or entry.state is EntryState.CHECK_AGAIN
