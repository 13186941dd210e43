"""Files that hold several works are cut into them, and other files never are."""

from made_documents import document, page

from indexer.reading.page import OutlineEntry
from indexer.tagging.works import cut_works


def spans(*pages, outline=()):
    return [(work.first_page, work.last_page) for work in cut_works(document(*pages, outline=outline))]


def bulletin(number, first, pages=2):
    head = [f"SERVICE BULLETIN No. {number}"]
    return [
        page(first + place, "Text of the bulletin", head=head, printed_page=str(place + 1))
        for place in range(pages)
    ]


def test_a_binder_of_bulletins_is_cut_at_each_new_number_on_a_page_1():
    assert spans(*bulletin("21", 1), *bulletin("24", 3), *bulletin("27", 5, pages=1)) == [
        (1, 2),
        (3, 4),
        (5, 5),
    ]


def test_single_sheets_without_page_numbers_are_cut_too():
    sheets = [page(place, f"# SERVICE LETTER SL-{place}0\nText") for place in (1, 2, 3)]
    assert spans(*sheets) == [(1, 1), (2, 2), (3, 3)]


def test_bookmarks_may_be_the_sign_of_a_new_paper():
    pages = [
        page(place, "Text", head=[f"SERVICE BULLETIN No. {20 + place}"], printed_page=str(place))
        for place in (1, 2)
    ]
    assert spans(*pages) == [(1, 2)]
    assert spans(*pages, outline=(OutlineEntry(1, "SB 22", 2),)) == [(1, 1), (2, 2)]


def test_a_manual_whose_blocks_begin_at_page_1_again_is_one_work():
    pages = [page(1, "# MAINTENANCE MANUAL D88-2", printed_page="T-1")] + [
        page(
            number,
            "Text",
            head=["MAINTENANCE MANUAL"],
            foot=[f"{number + 20}-10-00 Page 1"],
            printed_page="1",
        )
        for number in range(2, 8)
    ]
    outline = tuple(OutlineEntry(1, f"Chapter {number}", number) for number in range(2, 8))
    assert spans(*pages, outline=outline) == [(1, 7)]


def test_a_bulletin_that_names_another_at_the_top_of_a_page_is_not_cut():
    pages = [
        page(1, "# SERVICE BULLETIN No. 30\nText", printed_page="1"),
        page(2, "Do the work of Service Bulletin No. 22 first.\nText", printed_page="2"),
        page(3, "Reference: Service Bulletin No. 21\nText", printed_page="3"),
    ]
    assert spans(*pages) == [(1, 3)]


def test_numbers_that_come_back_do_not_part_works():
    pages = [*bulletin("21", 1, 1), *bulletin("24", 2, 1), *bulletin("21", 3, 1)]
    assert spans(*pages) == [(1, 3)]


def test_a_new_title_in_the_middle_of_the_page_count_is_not_enough():
    pages = [
        page(1, "Text", head=["SERVICE BULLETIN No. 21"], printed_page="1"),
        page(2, "Text", head=["SERVICE BULLETIN No. 24"], printed_page="2"),
    ]
    assert spans(*pages) == [(1, 2)]


def test_a_continuation_page_with_the_words_and_a_list_below_is_not_a_new_bulletin():
    pages = [
        page(1, "Service Bulletin No. C88-32-0114\nText", head=["SERVICE BULLETIN"]),
        page(2, "2. MATERIAL INFORMATION\nText", head=["SERVICE BULLETIN"]),
    ]
    assert spans(*pages) == [(1, 2)]


def test_every_page_belongs_to_one_work_in_order():
    pages = [*bulletin("21", 1, 3), page(4, ""), *bulletin("24", 5, 2)]
    assert spans(*pages) == [(1, 4), (5, 6)]


def test_a_file_without_pages_holds_no_work():
    assert spans() == []
