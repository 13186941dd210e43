"""Dates as publications print them. A date that can be read two ways is not read."""

import datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from indexer.trade.dates import find_dates, parse_date

READ = [
    # Federal Register, documents 2018-02352 and 2024-02724
    ("dated April 30, 2013", (2013, 4, 30)),
    ("dated 06 December 2022", (2022, 12, 6)),
    # feet of advisory circulars AC 43-2B, AC 43-214A, AC 43-14
    ("10/16/80", (1980, 10, 16)),
    ("7/23/16", (2016, 7, 23)),
    ("2/24/77", (1977, 2, 24)),
    ("March 24,2006", (2006, 3, 24)),  # AC 43-18
    # feet of manuals (common practice, no source)
    ("Aug 31/98", (1998, 8, 31)),
    ("AUG 31/98", (1998, 8, 31)),
    ("May 12/04", (2004, 5, 12)),
    ("12 May 2004", (2004, 5, 12)),
    ("12 MAY 04", (2004, 5, 12)),
    ("12MAY04", (2004, 5, 12)),
    ("12-May-2004", (2004, 5, 12)),
    ("May 25, 2023", (2023, 5, 25)),
    ("MAY 25, 2023", (2023, 5, 25)),
    ("May 25th, 2023", (2023, 5, 25)),
    ("25th of May, 2023", (2023, 5, 25)),
    ("Sept. 15, 1999", (1999, 9, 15)),
    ("September 21,\n2020", (2020, 9, 21)),
    ("Dec. 4, 2001", (2001, 12, 4)),
    ("2021-03-01", (2021, 3, 1)),
    ("2021–03–01", (2021, 3, 1)),
    ("5/25/2004", (2004, 5, 25)),
    ("25/5/2004", (2004, 5, 25)),
    ("25.05.2004", (2004, 5, 25)),
    ("5/5/2004", (2004, 5, 5)),  # the same day either way
    ("June 1, 1956", (1956, 6, 1)),
    ("Jan 1/39", (2039, 1, 1)),
    ("Jan 1/40", (1940, 1, 1)),
]


@pytest.mark.parametrize(("text", "date"), READ)
def test_dates_are_read(text, date):
    (found,) = find_dates(text)
    assert found.date == datetime.date(*date)
    assert text[found.start : found.end] == found.text


@pytest.mark.parametrize("text", ["5/12/04", "06/07/11", "6/8/98", "5/12/2004", "05-12-2004", "5.12.2004"])
def test_two_readings_are_none(text):
    (found,) = find_dates(text)
    assert found.date is None
    assert parse_date(text) is None


@pytest.mark.parametrize(
    "text",
    [
        "32-41-00",
        "06-12-98",  # as well a chapter, a directive or a part
        "AD 2024-03-04",
        "2018–03–08 Airbus: Amendment 39–19181; Docket No. FAA–2018–0069",
        "June 31, 2000",
        "February 29, 2001",
        "2021-13-01",
        "31/31/2004",
        "12/14/16/18",
        "1/2 inch",
        "May 2004",
        "2024-0237-E",
        "202-493-2251",
        "",
    ],
)
def test_no_dates(text):
    assert find_dates(text) == []


@settings(deadline=None)  # how long it takes is measured elsewhere
@given(st.dates(datetime.date(1940, 1, 1), datetime.date(2039, 12, 31)))
def test_every_day_reads_back(day):
    month = day.strftime("%B")
    assert parse_date(f"{month} {day.day}, {day.year}") == day
    assert parse_date(f"{day.day} {month[:3].upper()} {day.year}") == day
    assert parse_date(f"{month[:3]} {day.day:02}/{day.year % 100:02}") == day
    assert parse_date(day.isoformat()) == day


def test_dates_in_order():
    text = "dated May 1, 2001, effective 5/12/04, and 2 June 2002"
    assert [found.date for found in find_dates(text)] == [
        datetime.date(2001, 5, 1),
        None,
        datetime.date(2002, 6, 2),
    ]
