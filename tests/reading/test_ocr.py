"""Pages read from their pictures, beside tesseract's bare command line on the same pictures; and odd pages.

The truth is real public text (tests/data/SOURCES.md), set by us, drawn by pdfium and worn like scans.
"""

import pickle
import shutil
from functools import cache

import numpy as np
import pytest
from PIL import Image

from indexer.reading import ocr_rapid, ocr_tesseract
from indexer.reading.ocr import NoOcrEngine, PageNotRead, find_engine, recognize_page
from indexer.reading.ocr_engine import EngineFailed, OutOfTime, PictureWord
from indexer.reading.straightened import Straightening
from indexer.settings import SettingRefused, Settings
from tests.reading import degrade
from tests.reading.degrade import drawn, scanned_pdf, worn, worn_point
from tests.reading.ocr_measure import bare_tesseract, scored, wrong_words
from tests.reading.public_pages import HEIGHT, WIDTH, public_pages

needs_tesseract = [
    pytest.mark.tesseract,
    pytest.mark.skipif(shutil.which("tesseract") is None, reason="tesseract (tesseract-ocr) is missing"),
]
SETTINGS = Settings(ocr_engine="tesseract", ocr_page_time_limit_s=900.0)  # time is not what is tested
NO_WORSE_THAN = 0.002  # of character errors, over the bare command line
CASES = {
    "one column": degrade.FADED,
    "two columns": degrade.OFFICE,
    "typewritten": degrade.GRAINY,
    "two narrow columns": degrade.UPSIDE_DOWN,
    "three columns": degrade.SLANTED,
    "large type": degrade.STEEP,
    "ruled table": degrade.TURNED_SLANTED,
    "unruled table": degrade.OFFICE,
}


@pytest.fixture(scope="module")
def scans(tmp_path_factory):
    """By name: the page as set, its worn picture, the scan as a PDF."""
    folder = tmp_path_factory.mktemp("pages")
    set_pages = {page.name: page for page in public_pages(folder)}

    @cache
    def scan(name: str):
        picture = worn(drawn(set_pages[name].path, 1), CASES[name])
        path = scanned_pdf(folder / f"{name} scan.pdf", [picture], CASES[name].dpi)
        return set_pages[name], picture, path

    return scan


@pytest.fixture(scope="module")
def pages(scans):
    """By name: what was read of the scan."""
    return cache(lambda name: recognize_page(scans(name)[2], 1, SETTINGS, find_engine(SETTINGS)))


class TestWithTesseract:
    pytestmark = needs_tesseract

    @pytest.mark.parametrize("name", CASES)
    def test_a_worn_page_is_read_well_and_no_worse_than_by_the_bare_command_line(
        self, scans, pages, name, tmp_path
    ):
        (set_page, picture, _), page = scans(name), pages(name)
        ours, bare = (
            scored(set_page.text, text)
            for text in (page.text, bare_tesseract(tmp_path, picture, CASES[name].dpi))
        )
        assert ours.error_rate <= bare.error_rate + NO_WORSE_THAN
        assert ours.word_recall >= max(0.95, bare.word_recall - NO_WORSE_THAN)
        assert ours.number_recall >= 0.9
        if (
            name != "unruled table"
        ):  # which is read column by column; its rows are put together by their boxes
            assert ours.error_rate <= 0.01
        assert page.confidence >= 0.85

    @pytest.mark.parametrize("name", ["ruled table", "large type"])
    def test_turned_and_slanted_pages_give_boxes_where_the_words_really_are(self, scans, pages, name):
        set_page, page = scans(name)[0], pages(name)
        wear = CASES[name]
        assert page.turned == wear.turned
        assert page.skew == pytest.approx(wear.skew, abs=0.1)
        once = {word.text: word.box for word in set_page.words if words_like(set_page, word.text) == 1}
        straightening = Straightening(page.width, page.height, page.turned, page.skew)
        compared = 0
        for word in page.words:
            if word.text not in once:
                continue
            truth = middle(once[word.text])
            assert middle(word.box) == pytest.approx(truth, abs=4.0), word
            shown = middle(straightening.displayed(word.box))
            assert shown == pytest.approx(worn_point(*truth, WIDTH, HEIGHT, wear), abs=4.0), word
            compared += 1
        assert compared >= 0.8 * len(once)

    @pytest.mark.parametrize("name", ["two columns", "three columns"])
    def test_columns_are_read_one_after_the_other(self, scans, pages, name):
        set_page, page = scans(name)[0], pages(name)
        lines = {}
        for word in page.words:
            lines.setdefault(word.line, []).append(word.box)
        gutter = min(word.box.x0 for word in set_page.words) + (2 if name.startswith("two") else 3) * 60
        lefts = [min(box.x0 for box in boxes) for _, boxes in sorted(lines.items())]
        jumps = sum(later > sooner + gutter / 2 for sooner, later in zip(lefts, lefts[1:], strict=False))
        assert jumps == (1 if name.startswith("two") else 2)

    def test_words_below_the_floor_hold_most_of_the_wrong_ones(self, scans, pages):
        names = ("typewritten", "two columns", "ruled table")
        judged = [each for name in names for each in wrong_words(scans(name)[0].text, pages(name).words)]
        sure = [wrong for word, wrong in judged if word.confidence >= Settings().ocr_floor]
        doubtful = [wrong for word, wrong in judged if word.confidence < Settings().ocr_floor]
        assert np.mean(sure) < 0.01
        assert np.mean(doubtful) > 10 * np.mean(sure)

    def test_a_blank_page_gives_no_words(self, tmp_path):
        blank = scanned_pdf(tmp_path / "blank.pdf", [np.full((1650, 1275), 255, np.uint8)], 150)
        page = recognize_page(blank, 1, SETTINGS, find_engine(SETTINGS))
        assert (page.words, page.confidence, page.turned, page.skew) == ((), 0.0, 0, 0.0)

    def test_a_page_that_is_only_a_picture_is_not_called_well_read(self, tmp_path):
        down, across = np.mgrid[0:1650, 0:1275]
        hills = 128 + 60 * np.sin(across / 170) + 50 * np.cos(down / 230 + across / 400)
        grain = np.random.default_rng(7).normal(0, 12, hills.shape)
        picture = np.clip(hills + grain, 0, 255).astype(np.uint8)
        path = scanned_pdf(tmp_path / "picture.pdf", [picture], 150)
        page = recognize_page(path, 1, SETTINGS, find_engine(SETTINGS))
        assert sum(word.confidence >= SETTINGS.ocr_floor for word in page.words) <= 3

    def test_a_foldout_is_read_with_no_more_pixels_than_allowed(self, scans, tmp_path):
        set_page = scans("large type")[0]
        foldout = np.full((3300, 9600), 255, np.uint8)
        foldout[:, :2550] = drawn(set_page.path, 1)[:3300]
        path = scanned_pdf(tmp_path / "foldout.pdf", [foldout], 300)
        settings = Settings(ocr_page_time_limit_s=900.0, max_page_pixels=14_000_000)
        page = recognize_page(path, 1, settings, find_engine(SETTINGS))
        assert page.dpi < 210
        assert scored(set_page.text, page.text).word_recall > 0.9

    def test_a_page_that_takes_too_long_says_so(self, scans):
        path = scans("large type")[2]
        with pytest.raises(PageNotRead, match=r"large type scan\.pdf, PDF page 1: .*more than 0"):
            recognize_page(path, 1, Settings(ocr_page_time_limit_s=0.01), find_engine(SETTINGS))

    def test_the_engine_names_its_version_as_the_program_does(self):
        said = ocr_tesseract._said_by(shutil.which("tesseract"), "--version")
        assert find_engine(SETTINGS).name in said

    def test_it_crosses_process_borders(self):
        assert pickle.loads(pickle.dumps(find_engine(SETTINGS))) == find_engine(SETTINGS)


def words_like(page, text: str) -> int:
    return sum(word.text == text for word in page.words)


def middle(box) -> tuple[float, float]:
    return (box.x0 + box.x1) / 2, (box.top + box.bottom) / 2


class Told:
    """An engine that reads what it is told, and only when the picture is turned as it should be."""

    name = "told 1.0"

    def __init__(self, reads_at: int, says: int | None = None):
        self.reads_at, self.says, self.tried = reads_at, says, 0

    def read(self, picture, dpi, time_limit_s):
        """Good words where the mark in the corner has come to the top left."""
        self.tried += 1
        good = picture[:200, :200].mean() < 128
        return [
            PictureWord("word", 100 * n, 300, 100 * n + 80, 330, 0.9 if good else 0.2, 0) for n in range(12)
        ]

    def turned(self, picture, dpi, time_limit_s):
        return self.says


def marked(turned: int) -> np.ndarray:
    """A page of lines of uneven bars with a black mark at its top left, turned."""
    upright = np.full((1650, 1275), 255, np.uint8)
    upright[:200, :200] = 0
    chance = np.random.default_rng(3)
    for top in range(300, 1500, 40):
        bars = np.repeat(chance.random(100) < 0.6, 10)
        upright[top : top + 20, 100:1100][:, bars] = 0
    return np.ascontiguousarray(np.rot90(upright, -turned // 90))


@pytest.mark.parametrize("turned", [0, 90, 180, 270])
def test_the_right_way_round_is_found_without_an_engine_that_can_tell(tmp_path, turned):
    engine = Told(turned)
    path = scanned_pdf(tmp_path / "marked.pdf", [marked(turned)], 150)
    page = recognize_page(path, 1, Settings(ocr_dpi=150), engine)
    assert (page.turned, page.confidence, page.engine, page.dpi) == (
        turned,
        pytest.approx(0.9),
        "told 1.0",
        150,
    )
    assert engine.tried <= 2


def test_a_page_that_reads_well_is_not_asked_about(tmp_path):
    engine = Told(0, says=180)
    path = scanned_pdf(tmp_path / "marked.pdf", [marked(0)], 150)
    assert recognize_page(path, 1, Settings(ocr_dpi=150), engine).turned == 0


class Slow(Told):
    def read(self, picture, dpi, time_limit_s):
        raise OutOfTime(f"it took more than {time_limit_s:.0f} seconds")


def test_a_page_out_of_time_names_the_whole_time_it_had(tmp_path):
    """Not what earlier steps had left of it."""
    path = scanned_pdf(tmp_path / "scan.pdf", [marked(0)], 150)
    with pytest.raises(PageNotRead, match=r"scan\.pdf, PDF page 1: .*it took more than 300 seconds"):
        recognize_page(path, 1, Settings(), Slow(0))


class Failing(Told):
    def read(self, picture, dpi, time_limit_s):
        raise EngineFailed("it gave up")


def test_what_cannot_be_read_or_drawn_says_which_page_and_why(tmp_path):
    path = scanned_pdf(tmp_path / "scan.pdf", [marked(0)], 150)
    with pytest.raises(PageNotRead, match=r"scan\.pdf, PDF page 1: .*it gave up"):
        recognize_page(path, 1, Settings(), Failing(0))
    with pytest.raises(PageNotRead, match=r"scan\.pdf, PDF page 7: .*the file has 1 pages"):
        recognize_page(path, 7, Settings(), Told(0))
    broken = tmp_path / "broken.pdf"
    broken.write_bytes(path.read_bytes()[:300])
    with pytest.raises(PageNotRead, match=r"broken\.pdf, PDF page 1: .*does not open"):
        recognize_page(broken, 1, Settings(), Told(0))
    thin = scanned_pdf(tmp_path / "thin.pdf", [np.zeros((900, 2), np.uint8)], 150)
    with pytest.raises(PageNotRead, match="points large"):
        recognize_page(thin, 1, Settings(), Told(0))


def test_engines_are_chosen_by_the_setting_and_by_what_is_installed(monkeypatch):
    monkeypatch.setattr(
        "indexer.reading.ocr._FINDERS", {"tesseract": lambda: None, "rapidocr": lambda: "rapid"}
    )
    assert find_engine(Settings()) == "rapid"
    assert find_engine(Settings(ocr_engine="RapidOCR ")) == "rapid"
    assert find_engine(Settings(ocr_engine="none")) is None
    with pytest.raises(NoOcrEngine, match="«tesseract» is not installed.*apt install"):
        find_engine(Settings(ocr_engine="tesseract"))
    with pytest.raises(SettingRefused, match="one of tesseract, rapidocr, none"):
        find_engine(Settings(ocr_engine="eyes"))


def test_without_any_engine_there_is_none(monkeypatch):
    monkeypatch.setattr(ocr_tesseract.shutil, "which", lambda program: None)
    assert ocr_tesseract.find_tesseract.__wrapped__() is None
    monkeypatch.setattr(ocr_rapid.util, "find_spec", lambda module: None)
    assert ocr_rapid.find_rapid.__wrapped__() is None


def test_a_program_that_does_not_start_is_an_answer(tmp_path):
    missing = ocr_tesseract.Tesseract(str(tmp_path / "tesseract"), "5.3.0")
    with pytest.raises(EngineFailed, match="does not start"):
        missing.read(np.full((100, 100), 255, np.uint8), 300, 5.0)


def test_the_picture_given_to_tesseract_is_one_that_others_can_open(tmp_path):
    picture = np.arange(60 * 40, dtype=np.uint32).reshape(60, 40).astype(np.uint8)
    path = tmp_path / "picture.pgm"
    path.write_bytes(ocr_tesseract._as_pgm(picture))
    assert np.array_equal(np.array(Image.open(path)), picture)
