"""Against the outside: two columns of codes read as the official table lists them, with their titles."""

import csv
import re
from pathlib import Path

from indexer.reading.document import read_document
from indexer.settings import Settings

ROOT = Path(__file__).parent.parent.parent
PAPER = ROOT / "tests" / "data" / "real" / "JASC_Codes_2008_pages_9_12_20_21.pdf"
TABLE = ROOT / "indexer" / "trade" / "tables" / "jasc.csv"


def test_codes_come_in_order_with_their_titles():
    """Source of the titles: FAA JASC Code Table and Definitions, 27 October 2008, as kept in jasc.csv."""
    with TABLE.open(encoding="utf-8", newline="") as file:
        titles = {row["code"]: row["title"] for row in csv.DictReader(file)}
    for page in read_document(PAPER, Settings()).pages[:2]:
        found = [re.fullmatch(r"(\d{4}) (.+)", line.text) for line in page.body]
        codes = [match[1] for match in found if match]
        assert len(codes) > 80
        assert codes == sorted(codes), "the right column comes after the left"
        wrong = [match.group() for match in found if match and _plain(titles[match[1]]) != _plain(match[2])]
        assert len(wrong) <= 0.05 * len(codes), wrong


def _plain(title):
    return re.sub(r"\W", "", title).upper()
