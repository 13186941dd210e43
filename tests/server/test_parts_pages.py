"""The parts pages: what stands on them, of whom, in which words. Pages are read as a browser gets them."""

import html
import re

import drawn_parts
import pytest
from asking import Client
from plain_engine import PlainEngine

from indexer.library import fleet
from indexer.library.catalogue import Catalogue
from indexer.settings import Settings
from server.app import create_app
from server.opened import OpenedLibrary
from server.render import PagePictures
from server.routes.parts_view import note_view


@pytest.fixture(scope="module")
def parts_library(tmp_path_factory):
    place = tmp_path_factory.mktemp("parts")
    drawn = drawn_parts.make(place / "library", place / "files")
    with Catalogue.open(place / "library") as held:
        fleet.add(held, "QX-1AB", "OW-12", "R. Quill", serial="0020", maker="Osprey Works")
    pictures = PagePictures(place / "library" / "cache" / "pages", Settings())
    with OpenedLibrary(
        place / "library", Catalogue.open(place / "library"), PlainEngine(), pictures
    ) as opened:
        opened.catch_up()
        yield opened, drawn


@pytest.fixture
def drawn(parts_library):
    return parts_library[1]


@pytest.fixture
def web(parts_library):
    return Client(create_app(parts_library[0], Settings()))


def words(page):
    """The text of a page as it is read, without tags."""
    main = page.text.partition("<main")[2].partition("</main>")[0]
    return re.sub(r"\s+", " ", html.unescape(re.sub("<[^>]*>", " ", main)))


def section(page, name):
    """The part of a page under the heading with this id."""
    found = re.search(rf'<section[^>]*aria-labelledby="{name}".*?</section>', page.text, re.DOTALL)
    return re.sub(r"\s+", " ", html.unescape(re.sub("<[^>]*>", " ", found[0]))) if found else ""


def test_a_number_is_found_under_its_labels_the_surest_first(web):
    page = web.get("/parts?q=AN4-12A")
    assert page.status_code == 200
    exact, loose = page.text.index('id="match-exact"'), page.text.index('id="match-loose"')
    assert exact < loose
    assert "BOLT" in section(page, "match-exact") and "1 row" in section(page, "match-exact")
    assert "Read by OCR" not in section(page, "match-exact")
    assert "OW-9 Parts List" in section(page, "match-loose") and "OCR" in section(page, "match-loose")
    # AN4-12 has a hole for a cotter pin, AN4-12A none (AN standards; tests/trade/test_part_numbers.py)
    assert "QZ32-4450-1" not in section(page, "match-exact") and page.text.count("match exact") == 1
    assert "AN4-12 is another number" in words(page)


def test_hits_a_row_and_its_figure_say_that_nobody_knows_whether_the_list_is_current(web):
    """As each hit of a search does: no page of a publication that was not checked is shown without it."""
    unchecked = "Not known to be current. Nobody has checked which revision is current."
    found = web.get("/parts?q=QZ32-4421-3")
    assert unchecked in words(found)
    row = re.search(r'href="(/parts/[^"?]*-part-[0-9]+)', found.text)[1]
    figure = re.search(r'href="(/figures/[^"?]*)', found.text)[1]
    assert unchecked in words(web.get(row)) and unchecked in words(web.get(figure))


def test_a_row_says_what_is_printed_in_words(web):
    said = words(web.get("/parts?q=QZ32-4421-3"))
    for expected in (
        "Item 2",
        "2 for one next higher assembly",
        "A: Model OW-12",
        "B: what it means was not found",
        "QZ32-4421-3 is superseded by QZ32-4421-5",
        "Only before the change by SB 32-0012",
        "Figure 1, 32-42-00: Wheel and brake",
        "Page 2 (PDF page 4)",
    ):
        assert expected in said, expected


@pytest.mark.parametrize(
    ("ordinal", "said"),
    [
        (0, "REF reference only, listed elsewhere"),  # TRADE: REF = listed elsewhere
        (3, "4 to attach one of the part above"),  # quantity of attaching parts: for one of the item
        (4, "A/R as required"),
        (4, "Item 4, not illustrated"),  # "-" before the item
        (5, "Supplier 0QX7"),
        (2, "QZ32-4421-5 supersedes QZ32-4421-3"),
        (2, "Stock number 0044-17"),
        (6, "Only for, as printed S/N 0012 THRU 0040"),
        (9, "The dots could not be read, so the assembly is not certain: read the page"),
        (10, "Part number not read"),
        (10, "The units could not be read: read the page"),
    ],
)
def test_the_page_of_a_row_says_it_in_words(web, drawn, ordinal, said):
    page = web.get(f"/parts/{drawn.part(ordinal)}")
    assert page.status_code == 200
    assert said in words(page)
    assert "It never proves by itself that a part may be installed" in section(page, "caution")


def test_supersession_is_said_with_its_direction_on_both_rows(web, drawn):
    for ordinal in (1, 2):
        change = section(web.get(f"/parts/{drawn.part(ordinal)}"), "changes")
        line = change.replace("→ ", "").partition("as figure")[0]
        assert line.index("QZ32-4421-3") < line.index("is superseded by") < line.index("QZ32-4421-5")
        assert change.count("is superseded by →") == 1, "two rows say one thing: it stands once"


def test_the_row_and_its_number_are_marked_on_the_picture_and_its_item_on_the_figure(web, drawn):
    page = web.get(f"/parts/{drawn.part(1)}")
    art, listed = re.findall(r"<figure.*?</figure>", page.text, re.DOTALL)
    assert "/pages/3?" in art and "/pages/4?" in listed
    left, top = drawn_parts.CALLOUTS["2"]
    box = re.search(r'<rect class="box" x="([\d.]+)" y="([\d.]+)" width="([\d.]+)"', art)
    x, y, width = map(float, box.groups())
    assert x < left and y < top and x + width > left + 14
    number = drawn_parts.tree()[1].number_box
    marked = re.search(r'<rect class="word" x="([\d.]+)" y="([\d.]+)" width="([\d.]+)"', listed)
    assert tuple(map(float, marked.groups())) == (number.x0, number.top, number.width)
    assert 'class="box"' in listed


def test_an_item_that_the_figure_does_not_show_is_not_marked_and_that_is_said(web, drawn):
    hidden = web.get(f"/parts/{drawn.part(4)}")
    assert "<rect" not in re.search(r"<figure.*?</figure>", hidden.text, re.DOTALL)[0]
    assert "The list says that this item is not illustrated." in words(hidden)
    unmarked = web.get(f"/parts/{drawn.part(6)}")
    assert "was not found in the text of the figure: look for it on the picture" in words(unmarked)


def test_the_tree_above_and_below_a_row(web, drawn):
    above = section(web.get(f"/parts/{drawn.part(7)}"), "above")
    assert above.index("QZ32-4450-1") < above.index("QZ32-4400-1"), "nearest first, by printed order and dots"
    assert "QZ32-4460-1" in section(web.get(f"/parts/{drawn.part(7)}"), "below")
    page = web.get(f"/parts/{drawn.part(2)}")
    assert "AN4-12A" in section(page, "attaching") and "AN960-416" in section(page, "attaching")
    attaches = section(web.get(f"/parts/{drawn.part(3)}"), "attaches")
    assert "QZ32-4421-5" in attaches
    assert "QZ32-4421-3" in attaches, "items 2 and 2A are variants: it attaches either"
    assert "usage code A: " in attaches
    assert "AN4-12A" in section(web.get(f"/parts/{drawn.part(1)}"), "attaching")


def test_an_aircraft_in_hand_marks_every_row_in_three_valued_words(web, drawn):
    page = web.get("/parts?q=QZ32-4421-3&aircraft=QX-1AB")
    assert "Cannot tell for QX-1AB:" in words(page)
    row = web.get(f"/parts/{drawn.part(6)}?aircraft=QX-1AB")
    assert re.search(r"(Applies to|Does not apply to|Cannot tell for) QX-1AB:", words(row))
    assert "QX-1AB" in section(row, "fleet-answers")


def test_what_ocr_read_is_said_at_the_row_and_never_called_exact(web, drawn):
    page = web.get(f"/parts/{drawn.scan}-part-1")
    assert "Read by OCR, and not surely" in words(page)
    assert "The part number was read by OCR and is doubtful: read the page" in words(page)
    found = web.get("/parts?q=QZ32-4421-5")
    assert "QZ32-442I-5" in section(found, "match-loose") and "QZ32-442I-5" not in section(
        found, "match-exact"
    )


@pytest.mark.parametrize("asked", ["q=fig+1+item+2A", "figure=1&item=2a", "q=figure+1,+item+2A"])
def test_a_place_is_found_however_it_is_asked(web, asked):
    assert "QZ32-4421-5" in words(web.get(f"/parts?{asked}"))


def test_an_empty_answer_says_what_was_searched_and_what_was_not_and_never_that_there_is_none(web):
    said = words(web.get("/parts?q=zeppelin"))
    assert "No row found. That does not mean that there is no such part." in said
    assert "Searched: 413 rows of 2 parts lists." in said  # 11 + 400 + 2 as drawn
    assert "Not searched: 1 page" in said, "page 3 of the scan was never read"
    assert "does not exist" not in said


def test_a_number_that_only_an_index_names_leads_to_its_page(web, drawn):
    page = web.get("/parts?q=QZ99-1000-1")
    assert "QZ99-1000-1" in section(page, "index-only") and "3-7" in section(page, "index-only")
    assert f"/publications/{drawn.catalogue}/pages/21" in page.text


def test_the_rows_of_a_figure_stand_in_printed_order_with_their_dots(web, drawn):
    page = web.get(f"/figures/{drawn.figure(0)}?row={drawn.part(2)}")
    numbers = re.findall(r'<tr role="row" id="row-[^"]*-part-(\d+)"', page.text)
    assert numbers == [str(each.ordinal) for each in drawn_parts.tree()]
    assert "Item 2A: QZ32-4421-5, DISC, BRAKE. Outlined at 1 place." in words(page)
    assert ". . . <b onclick" in words(page), "three dots as printed, and markup of a list is only text"
    assert "<b onclick" not in page.text
    assert f'href="/api/figures/{drawn.figure(0)}.csv"' in page.text
    assert f'href="/figures/{drawn.figure(0)}?row={drawn.part(1)}#art"' in page.text


def test_a_large_figure_without_a_picture_has_all_its_rows(web, drawn):
    page = web.get(f"/figures/{drawn.figure(1)}")
    assert page.text.count('id="row-') == drawn_parts.MANY
    assert "No page with the picture of this figure was found." in words(page)


@pytest.mark.parametrize(
    ("address", "status"),
    [
        ("/parts/nothing-part-1", 404),
        ("/figures/nothing-figure-1", 404),
        ("/parts?item=2", 400),
        ("/parts?q=bolt&catalogue=nothing", 404),
        ("/parts?q=bolt&limit=0", 400),
        ("/parts?q=%22", 400),
    ],
)
def test_what_cannot_be_shown_is_said_with_a_way_on(web, address, status):
    page = web.get(address)
    assert page.status_code == status
    assert "internal-error" not in page.text and 'href="/' in page.text


@pytest.mark.parametrize(
    ("asked", "number", "said"),
    [
        ("AN4-12A", "AN4-12A", "1 row of parts lists and 1 that only look alike, or were read by OCR"),
        ("bolt AN4-12A torque", "AN4-12A", "1 row of parts lists and 1 that only look alike"),
        ("qz3244213", "qz3244213", "1 row of parts lists"),
        ("AN9-99A", "", ""),  # no list has it
        ("brake lining", "", ""),
        ("32-42", "", ""),
    ],
)
def test_a_search_for_a_part_number_leads_to_the_parts_lists(web, asked, number, said):
    page = web.get("/", params={"q": asked})
    assert page.status_code == 200
    if not number:
        assert '<span class="kind">Part</span>' not in page.text
        return
    assert f"Part {number}: {said}" in words(page)
    to = f"/parts?q={number}" if "alike" in said else "/parts/"  # the only row is shown at once
    assert f'class="to" href="{to}' in page.text


def test_what_is_not_shown_at_first_is_counted_and_one_tap_away(web):
    page = web.get("/parts?q=panel")
    assert page.text.count('<article class="hit part">') == 50
    assert "400 rows" in section(page, "match-words")
    more = re.search(r'<p class="more"><a class="button second" href="([^"]+)">Show 400 rows</a>', page.text)[
        1
    ]
    assert web.get(html.unescape(more)).text.count('<article class="hit part">') == drawn_parts.MANY


def test_where_a_row_sends_the_reader_to_is_a_link(web, drawn):
    page = web.get(f"/parts/{drawn.part(5)}")
    link = re.search(r'For its details see figure <a class="tap number" href="([^"]+)">2</a>', page.text)[1]
    assert "Floor panels" in words(web.get(html.unescape(link)))
    # iSpec 2200: chapter-section-subject and figure in one number
    note = {"kind": "see figure", "words": "SEE 32-42-00-01", "number": "32-42-00-01"}
    there = note_view("QZ1", note, drawn.catalogue).address
    assert "QZ32-4421-5" in words(web.get(there))


def test_an_attaching_part_is_not_called_an_assembly_for_want_of_dots(web, drawn):
    assert "it is an assembly of the figure" in words(web.get(f"/parts/{drawn.part(0)}"))
    assert "it is an assembly of the figure" not in words(web.get(f"/parts/{drawn.part(3)}"))


def test_numbers_of_the_index_without_a_row_are_counted_where_the_lists_are(web):
    assert "1 of the 1 number in its index stands in no row that was read." in words(web.get("/parts"))


def test_a_page_of_a_parts_list_leads_to_the_rows_of_its_figures(web, drawn):
    for pdf_page, figures in ((2, []), (3, [0]), (4, [0]), (5, [1])):
        page = web.get(f"/publications/{drawn.catalogue}/pages/{pdf_page}")
        assert re.findall(r'href="/figures/([^"]+)"', page.text) == [drawn.figure(each) for each in figures]


LIST = "part_number,shelf\nAN4-12A,3B\nan4 12a,3C\nQZ32-4421-3,\nQZ00-0000-9,7\nQZ99-1000-1,\n"


def send(web, text, **more):
    sent = {"csv": text, **more}
    return web.request("POST", "/parts/list", data=sent, headers={"Sec-Fetch-Site": "same-origin"})


def test_every_line_of_a_list_is_answered_with_how_it_matches(web, drawn):
    page = send(web, LIST)
    assert page.status_code == 200
    cards = [re.sub(r"\s+", " ", re.sub("<[^>]*>", " ", each)) for each in page.text.split("<article")[1:]]
    assert len(cards) == 5
    assert "The same number." in cards[0] and "shelf: 3B" in cards[0] and "BOLT" in cards[0]
    assert "The same number written otherwise." in cards[1] and "Listed as AN4-12A" in cards[1]
    assert "QZ32-4421-3 is superseded by QZ32-4421-5" in cards[2]
    assert "No row found." in cards[3] and "In a number index only." in cards[4]
    assert f'href="/parts/{drawn.part(3)}"' in page.text


def test_the_answers_are_saved_as_csv_without_script(web):
    page = send(web, LIST, **{"as": "csv"})
    assert page.headers["content-type"].startswith("text/csv")
    rows = page.text.lstrip("\ufeff").splitlines()
    assert len(rows) == 6 and rows[0].startswith("part_number,shelf,")


def test_an_empty_list_comes_back_with_the_message_beside_its_box(web):
    page = send(web, "  ")
    assert page.status_code == 422 and "No list was given." in words(page)
    assert web.get("/parts/list").status_code == 200


def test_a_list_is_not_taken_from_a_page_of_another_site(web):
    sent = {"data": {"csv": "AN4-12A"}, "headers": {"Sec-Fetch-Site": "cross-site", "Origin": "http://other"}}
    page = web.request("POST", "/parts/list", **sent)
    assert page.status_code == 403


def test_a_list_over_the_limit_is_refused(web):
    assert send(web, "AN4-12A\n" * 200_000).status_code == 413
