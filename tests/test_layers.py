"""Imports point one way: a file imports only from its own layer or from those listed before it."""

import ast
import functools
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
LAYERS = """indexer.errors indexer.settings indexer.trade indexer.reading indexer.tagging indexer.library
    indexer.workers indexer.ingest indexer.ocr_next indexer.ocr_at_fault indexer.ocr_placing
    indexer.ocr_telling indexer.ocr_run
    server.pace server.rights server.tries
    server.csv_file server.picture_cache server.tiles server.render server.opened server.words
    server.ocr_words server.first_sentence server.disputed_notes server.applies_words server.snippet
    server.tag_fields server.kept server.standing_today server.page_lookup server.ocr_debt
    server.same_task server.currency
    server.list_imports server.fleet
    server.stated_words server.applying_words server.applying server.hiding server.applies_console
    server.current server.not_current server.warming server.register server.effective_on server.question
    server.system_order server.system_records server.system_scope server.system_asked server.system_words
    server.framing server.number_reading server.systems_named server.wording
    server.ocr_readings server.looking server.usable_first server.search server.hits_in server.facet_counts
    server.words_list server.understood server.why server.shelf
    server.parts_words server.parts_asked server.parts_found server.parts_applying server.parts_row
    server.checking.directive_status server.parts_printed server.parts_named_in
    server.parts_by_number server.parts_by_place server.parts_by_words server.parts_named server.parts_tree
    server.parts_supersession server.parts_fleet server.parts server.parts_figure server.parts_csv
    server.straight_to
    server.parts_batch server.leaf server.contents server.reports server.desk server.shop_map_view
    server.system_how server.system_entries server.system_lines server.system_not_here
    server.system server.checking server.sourcecheck server.sourcecheck_batch
    server.packet_changes server.packet_item server.packet_findings server.packets
    server.packet_fonts server.packet_strip server.packet_stamp server.packet_binding server.packet_plan
    server.packet_cover server.packet_pdf
    server.system_text server.system_csv server.system_fields server.system_console
    server.this_machine server.private_names server.fingerprints server.certificates
    server.shop_certificate server.given_certificate server.reach
    server.watched_folder server.incoming server.ingest_state server.ingest_background server.uploading
    server.taken_lately server.chapter_picture server.review_progress
    server.routes server.app server.console server.parts_console server.loose_tags
    server.progress server.taking_in server.ocr_status server.reading_scans server.ocr_background
    server.announcing server.listeners server.service server.door server.serving server.demo
    server.commands server.cli""".split()
FILES = sorted([*(ROOT / "indexer").rglob("*.py"), *(ROOT / "server").rglob("*.py")])


def dotted(path: Path) -> str:
    return ".".join(path.relative_to(ROOT).with_suffix("").parts)


def layer(name: str) -> int | None:
    """Position of a dotted name in LAYERS; None for a package that is not ours."""
    return next((i for i, top in enumerate(LAYERS) if f"{name}.".startswith(f"{top}.")), None)


@functools.cache
def imported(path: Path) -> list[tuple[int, str]]:
    """Line and dotted name of everything a file imports."""
    names = []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}:{node.lineno} is a relative import; name the package"
            names += [(node.lineno, f"{node.module}.{name.name}") for name in node.names]
        elif isinstance(node, ast.Import):
            names += [(node.lineno, name.name) for name in node.names]
    return names


@pytest.mark.parametrize("path", FILES, ids=dotted)
def test_imports_point_one_way(path):
    if path.name == "__init__.py":
        assert not path.read_text(encoding="utf-8").strip(), f"{path} must stay empty"
        return
    mine = layer(dotted(path))
    assert mine is not None, f"{path} has no place in LAYERS; give it one"
    for line, name in imported(path):
        theirs = layer(name)
        if name.split(".")[0] in ("indexer", "server"):
            assert theirs is not None, f"{path}:{line} imports {name}, which has no place in LAYERS"
            assert theirs <= mine, f"{path}:{line} imports {name} from a later layer"


@pytest.mark.parametrize(
    ("library", "only_in"),
    [
        ("pdfplumber", "indexer/reading/"),
        ("pdfminer", "indexer/reading/page_contents.py"),
        ("whoosh", "indexer/library/"),
        ("pypdfium2", "indexer/reading/ server/render.py"),
        ("sqlite3", "indexer/library/"),
        ("fastapi", "server/"),
        ("click", "server/cli.py server/commands/"),
    ],
)
def test_each_engine_is_imported_in_one_room_only(library, only_in):
    users = [
        path.relative_to(ROOT).as_posix()
        for path in FILES
        if any(name == library or name.startswith(f"{library}.") for _, name in imported(path))
    ]
    assert users, f"nothing imports {library} any more: drop it from pyproject.toml and from this table"
    assert all(user.startswith(tuple(only_in.split())) for user in users), users


def test_facts_of_the_trade_open_no_file_but_their_own_tables():
    for path in (ROOT / "indexer" / "trade").rglob("*.py"):
        calls = {
            node.func.id
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
        }
        assert "open" not in calls, f"{path} opens a file; read tables through importlib.resources"
