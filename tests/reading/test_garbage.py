"""A text layer that is not words is called garbled; other languages, lists and formulas are not."""

from pathlib import Path

import pytest
from paper import Paper, prose

from indexer.reading.document import read_document
from indexer.reading.garbage import text_state
from indexer.reading.page import TextState, Word
from indexer.reading.raw_page import RawPage
from indexer.settings import Settings
from indexer.trade.evidence import Box

DATA = Path(__file__).parent.parent / "data"
TEXT, GARBLED = TextState.TEXT, TextState.GARBLED


def _raw(text):
    words = [Word(word, Box(0, 0, 1, 1), 10.0, False) for word in text.split()]
    return RawPage(1, 612.0, 792.0, 0, "", {0: words}, (), 0.0, False, False)


def _shifted(text, by):
    return "".join(
        chr((ord(letter) - 97 + by) % 26 + 97) if "a" <= letter <= "z" else letter for letter in text.lower()
    )


RULE = (DATA / "text" / "14cfr_part43_2015.txt").read_text(encoding="utf-8")[:3000]


@pytest.mark.parametrize(
    "text, state",
    [
        (RULE, TEXT),
        ("QZ-114 AN4-7A MS20470AD4-6 NAS1149F0432P 24-31-00 0.290 92 98 " * 10, TEXT),
        ("BRG BRKT ASSY LH FWD STA 214.5 WL 88 RBL 22.5 THK .040 2024-T3 ALCLD " * 5, TEXT),
        ("任何人在对航空器或者航空器部件进行维修或改装工作时，都应当遵守如下准则：" * 5, TEXT),
        ("Prüfe die Klemmung der Lichtmaschine und schreibe den Wert in das Bordbuch " * 5, TEXT),
        ("Проверьте натяжение ремня генератора и запишите значение в журнал " * 5, TEXT),
        ("Vérifier la tension de la courroie de l'alternateur et noter la valeur " * 5, TEXT),
        (_shifted(RULE, 2), GARBLED),
        (_shifted(RULE, 3), GARBLED),
        ("".join(chr(ord(letter) - 29) if letter.islower() else letter for letter in RULE), GARBLED),
        ("\ue001\ue002\ue003 \ue004\ue005 \ufffd\ufffd\ufffd " * 20, GARBLED),
        ("\ufffd\ufffd bolt", TEXT),  # too little to judge by
    ],
)
def test_what_is_words(text, state):
    found, problem = text_state(_raw(text))
    assert found is state
    assert bool(problem) is (state is GARBLED)


def test_a_real_page_whose_font_gives_other_letters():
    """NTSB coding manual 1998, page 3 of the cut: the form's text layer reads "4GXKUGF" for "Revised"."""
    document = read_document(DATA / "real" / "NTSB_coding_manual_1998_pages_7_8_19_35_36.pdf", Settings())
    assert [page.state for page in document.pages] == [TEXT, TEXT, GARBLED, TEXT, TEXT]
    assert all(passage.pdf_page != 3 for passage in document.passages)


def test_a_plain_page_beside_it(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.lines(72, 100, prose(200, 10))
    assert read_document(paper.save(), Settings()).pages[0].state is TEXT
