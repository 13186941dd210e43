"""The day: one source for all, the local day of the machine, and the demonstration's own."""

import ast
import datetime
from pathlib import Path

import pytest

from indexer.library.catalogue import Catalogue
from indexer.library.day import demonstration_day, demonstration_words, make_demonstration, today
from indexer.library.fleet import add, confirm
from indexer.library.problems import NotEmpty

ROOT = Path(__file__).parents[2]
DAY = datetime.date(2032, 6, 1)
_ONLY = ROOT / "indexer" / "library" / "day.py"


@pytest.fixture
def catalogue(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as opened:
        yield opened


def test_a_shop_has_the_local_day(catalogue):
    before = datetime.date.today()
    found = today(catalogue)
    assert before <= found <= datetime.date.today()
    assert demonstration_day(catalogue) is None and demonstration_words(catalogue) == ""


def test_the_demonstration_has_its_own_day_for_good(catalogue):
    make_demonstration(catalogue, DAY)
    assert today(catalogue) == DAY
    assert demonstration_words(catalogue) == "Demonstration: answers are given as of 1 June 2032."
    with pytest.raises(NotEmpty):
        make_demonstration(catalogue, datetime.date(2033, 1, 1))
    add(catalogue, "QX-1AB", "QZ62", "R. Quill")
    assert confirm(catalogue, "QX-1AB", "R. Quill").confirmed_on == DAY
    with Catalogue.open(catalogue.folder) as again:
        assert today(again) == DAY


def test_a_library_that_holds_something_is_never_made_a_demonstration(catalogue):
    add(catalogue, "QX-1AB", "QZ62", "R. Quill")
    with pytest.raises(NotEmpty) as refused:
        make_demonstration(catalogue, DAY)
    assert "keeps its own day" in refused.value.what
    assert demonstration_day(catalogue) is None


def _days_asked(path: Path) -> list[int]:
    """Lines that ask the clock for a day: `date.today()`, and `now(...).date()`."""
    found = []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not (isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute)):
            continue
        on = node.func.value
        of_a_date = ast.unparse(on).split(".")[-1] in ("date", "datetime")
        of_a_moment = isinstance(on, ast.Call) and ast.unparse(on.func).endswith((".now", ".utcnow"))
        if (node.func.attr == "today" and of_a_date) or (node.func.attr == "date" and of_a_moment):
            found.append(node.lineno)
    return found


def test_nobody_else_asks_the_clock_for_a_day():
    files = [*(ROOT / "indexer").rglob("*.py"), *(ROOT / "server").rglob("*.py")]
    assert _days_asked(_ONLY), "the search itself must find the one place there is"
    asked = {str(path.relative_to(ROOT)): _days_asked(path) for path in files if path != _ONLY}
    assert not {path: lines for path, lines in asked.items() if lines}


def test_nobody_but_the_demo_gives_a_library_a_day():
    files = [*(ROOT / "indexer").rglob("*.py"), *(ROOT / "server").rglob("*.py")]
    calling = {
        str(path.relative_to(ROOT).as_posix())
        for path in files
        if "make_demonstration(" in path.read_text(encoding="utf-8") and path != _ONLY
    }
    assert calling == {"server/demo.py"}
