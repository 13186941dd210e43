"""Words as OCR misread them are found too, as a labelled loose match; born-digital words never are.

The pairs of look-alikes are common practice, no source.
"""

import ocr_shelf
import pytest

from indexer.errors import NothingToSearchFor
from indexer.settings import Settings
from server.opened import OpenedLibrary
from server.search import search
from server.understood import NoteKind, notes_on


@pytest.fixture(scope="module")
def scans(tmp_path_factory):
    place = tmp_path_factory.mktemp("scans")
    ids = ocr_shelf.make(place / "library", place / "files")
    with OpenedLibrary.open(place / "library", Settings()) as opened:
        yield opened, ids


def found(library, question, **more):
    answer = search(library, question, **more)
    return answer, [hit for group in answer.groups for hit in group.hits]


@pytest.mark.parametrize(
    ("question", "read"),
    [
        ("bolts t0rque", None),  # as typed, nothing is misread
        ("torque bolts", "t0rque"),
        ("TORQUE bolts", "t0rque"),
        ("AN4-12A", "AN4-I2A"),
        ("an412a", "AN4-I2A"),
        ("piston bolts", "PlSTON"),
        ("seal", "5eal"),
        ("seals", "5eal"),
    ],
)
def test_a_misread_word_is_found_labelled_and_marked(scans, question, read):
    answer, hits = found(scans[0], question)
    assert [hit.publication.number for hit in hits] == ["OW9-MM"]
    misread = [each.read for each in hits[0].misread]
    assert misread == ([read] if read else [])
    marked = [words for words, mark in hits[0].snippet.parts() if mark]
    assert not read or read in marked
    notes = [note.words for note in notes_on(answer) if note.kind is NoteKind.MISREAD]
    word = question.split()[0]
    expected = f"Looked for «{read}» as a misreading of «{word}» by OCR."
    assert notes == ([expected] if read else [])


@pytest.mark.parametrize(
    "question",
    [
        "15",  # "is" has no figure
        "so",  # 50 is no word
        "S0",
        "fail",  # "fall": a small i is no small l
        "modern",  # "Modem" stands in born-digital text
        "M4O-88 hose",  # born-digital text prints M40-88
    ],
)
def test_a_word_of_its_own_is_never_taken_for_a_misreading(scans, question):
    answer, hits = found(scans[0], question)
    assert answer.wording.misread == ()
    assert not any(hit.misread for hit in hits)


def test_a_word_too_common_to_look_for_has_no_readings(scans):
    with pytest.raises(NothingToSearchFor):
        found(scans[0], "the")


def test_the_word_itself_comes_before_its_misreading_which_weighs_less(scans):
    library, ids = scans
    _, hits = found(library, "burn", limit=10)
    assert [hit.publication.id for hit in hits] == [ids["digital"], ids["scanned"]]
    assert [bool(hit.misread) for hit in hits] == [False, True]
    assert hits[1].score < hits[0].score
    _, alone = found(library, "bum")
    assert hits[1].score == pytest.approx(0.5 * alone[0].score, rel=1e-4)


def test_a_hit_that_holds_the_word_itself_is_no_misreading(scans):
    _, hits = found(scans[0], "torque")
    assert len(hits) == 3
    assert [hit.passage.text for hit in hits if hit.misread] == [ocr_shelf.SCANNED[0][0]]


def test_it_can_be_switched_off(scans):
    library, _ = scans
    for more in ({"misread": False}, {"as_typed": True}):
        answer, hits = found(library, "seal", **more)
        assert (answer.total, hits, answer.wording.misread) == (0, [], ())
        assert answer.fields()["with_misreadings"] is False
    answer, _ = found(library, "piston")
    assert answer.fields()["misreadings"] == [{"read": "PlSTON", "word": "piston"}]


def test_the_label_stands_on_the_page_and_on_paper(scans, capsys):
    from asking import Client

    from server.app import create_app
    from server.console import show_search

    library, _ = scans
    client = Client(create_app(library, Settings()))
    page = client.get("/?q=piston").text
    assert page.count("as a misreading of «piston» by OCR") == 2  # how it was understood, and on the hit
    assert "misread=0" in page
    off = client.get("/?q=seal&misread=0").text
    assert "Nothing found" in off and "Words that OCR may have misread were not looked for." in off
    hit = client.get("/api/search?q=piston").json()["groups"][0]["hits"][0]
    assert hit["misread"] == [{"read": "PlSTON", "word": "piston"}] and hit["read_by_ocr"]
    show_search(search(library, "piston"))
    assert capsys.readouterr().out.count("as a misreading of «piston» by OCR") == 2
