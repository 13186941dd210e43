"""Skew, turn, grain and light of pages of known wear, and boxes there and back. No engine is needed."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from indexer.reading.straighten import lines_run_across, skew_of, turned_upright, without_skew
from indexer.reading.straightened import Straightening
from indexer.reading.worn_pictures import best_threshold, in_even_light, restored, without_grain
from indexer.trade.evidence import Box
from tests.reading import degrade
from tests.reading.degrade import Wear, drawn, worn, worn_point
from tests.reading.public_pages import prose_page, regulation, table_page

WIDTH, HEIGHT = 612.0, 792.0


@pytest.fixture(scope="module")
def pictures(tmp_path_factory):
    """A page in two columns and a ruled table, as drawn at 300 dpi."""
    folder = tmp_path_factory.mktemp("pages")
    pages = (
        prose_page(folder, "two columns", regulation(43), 2, "Helvetica", 9.5),
        table_page(folder, "ruled table", ruled=True),
    )
    return {page.name: drawn(page.path, 1) for page in pages}


@pytest.mark.parametrize("name", ["two columns", "ruled table"])
@pytest.mark.parametrize("skew", [-7.0, -0.4, 0.0, 1.2, 5.5])
def test_skew_is_measured_to_a_tenth_of_a_degree(pictures, name, skew):
    page = worn(pictures[name], Wear("askew", blur=0.8, noise=8, skew=skew))
    assert skew_of(page, 300) == pytest.approx(skew, abs=0.1)


def test_a_page_set_straight_has_no_skew_left(pictures):
    page = worn(pictures["two columns"], Wear("askew", blur=0.8, noise=8, skew=3.3))
    assert skew_of(without_skew(page, skew_of(page, 300)), 300) == pytest.approx(0.0, abs=0.1)


@pytest.mark.parametrize("turned", [0, 90, 180, 270])
def test_which_way_lines_run_is_seen_and_turned_back(pictures, turned):
    page = worn(pictures["two columns"], Wear("turned", turned=turned, skew=1.0))
    assert lines_run_across(page, 300) is (turned in (0, 180))
    upright = worn(pictures["two columns"], Wear("turned", skew=1.0))
    assert np.array_equal(turned_upright(page, turned), upright)


def test_a_page_that_shows_nothing_tells_nothing():
    blank = np.full((3300, 2550), 255, np.uint8)
    assert skew_of(blank, 300) == 0.0
    assert lines_run_across(blank, 300) is None
    assert restored(blank) is blank


def test_a_sound_page_is_left_as_it_is(pictures):
    for wear in (degrade.CLEAN, degrade.OFFICE, degrade.BITONAL, degrade.FAX):
        page = worn(pictures["two columns"], wear)
        assert restored(page) is page, wear.name


def test_one_gray_value_parts_faded_ink_from_shaded_paper_once_the_light_is_even(pictures):
    paper = pictures["two columns"] == 255
    page = worn(pictures["two columns"], degrade.FADED)
    even = in_even_light(page)
    taken_for_ink = [(each[paper] < best_threshold(each)).mean() for each in (page, even)]
    assert taken_for_ink[1] < taken_for_ink[0] / 4
    ink = pictures["two columns"] < 50
    assert (even[ink] < best_threshold(even)).mean() > 0.95


def test_grain_is_taken_out(pictures):
    margin = worn(pictures["two columns"], degrade.GRAINY)[:200]
    assert without_grain(margin).std() < margin.std() / 3


@pytest.mark.parametrize(
    ("turned", "at"),
    # worked by hand: the word stands 100 to the right and 50 down on the upright page
    [(0, (100, 50)), (90, (742, 100)), (180, (512, 742)), (270, (50, 512))],
)
def test_where_a_place_of_the_upright_page_is_displayed(turned, at):
    width, height = (HEIGHT, WIDTH) if turned in (90, 270) else (WIDTH, HEIGHT)
    page = Straightening(width, height, turned)
    assert page.size == (WIDTH, HEIGHT)
    assert page.point_displayed((100, 50)) == pytest.approx(at)
    assert page.point_straightened(at) == pytest.approx((100, 50))


@given(st.floats(0, WIDTH), st.floats(0, HEIGHT), st.sampled_from([0, 90, 180, 270]), st.floats(-12.0, 12.0))
def test_the_way_there_is_the_scanner_s_and_the_way_back_undoes_it(x, y, turned, skew):
    width, height = (HEIGHT, WIDTH) if turned in (90, 270) else (WIDTH, HEIGHT)
    page = Straightening(width, height, turned, skew)
    displayed = page.point_displayed((x, y))
    assert displayed == pytest.approx(
        worn_point(x, y, WIDTH, HEIGHT, Wear("", turned=turned, skew=skew)), abs=1e-6
    )
    assert page.point_straightened(displayed) == pytest.approx((x, y), abs=1e-6)


@given(
    st.floats(0, 500), st.floats(0, 700), st.sampled_from([0, 90, 180, 270]), st.sampled_from([0.0, 2.5, -9])
)
def test_a_box_displayed_holds_what_the_box_held(x, y, turned, skew):
    page = Straightening(WIDTH, HEIGHT, turned, skew)
    shown = page.displayed(Box(x, y, x + 60, y + 9))
    for corner in ((x, y), (x + 60, y), (x, y + 9), (x + 60, y + 9)):
        at = page.point_displayed(corner)
        assert shown.x0 - 1e-6 <= at[0] <= shown.x1 + 1e-6
        assert shown.top - 1e-6 <= at[1] <= shown.bottom + 1e-6
    if not skew:
        back = page.straightened(shown)
        assert (back.x0, back.top, back.x1, back.bottom) == pytest.approx((x, y, x + 60, y + 9))


def test_no_page_is_turned_by_other_than_quarters():
    with pytest.raises(ValueError, match="0, 90, 180 or 270"):
        Straightening(WIDTH, HEIGHT, 45)
