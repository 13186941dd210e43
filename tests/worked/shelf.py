"""The shelf of the worked questions: drawn papers and some of the sample documents, ingested the whole
way.
"""

import datetime
from pathlib import Path

from worked import bulletins, directives, manuals, papers

from indexer.ingest import ingest
from indexer.library.catalogue import Catalogue
from indexer.library.day import make_demonstration
from indexer.library.whoosh_engine import WhooshEngine
from indexer.settings import Settings
from sample_docs.draw.book import draw_book
from server.opened import index_folder

DAY = datetime.date(2100, 1, 1)  # after the newest of the drawn directives
SAMPLES = Path(__file__).parents[2] / "sample_docs" / "pdf"
FROM_THE_SAMPLES = (
    "qz62-maintenance-manual.pdf",
    "qz62-temporary-revision-32-07.pdf",
    "qz62-structural-repair-manual.pdf",
    "sb-qz62-24-0102.pdf",
    "sb-qz62-52-0087.pdf",
    "sb-qz62-52-0093-rev-a.pdf",
    "ad-2029-22-08.pdf",
    "ad-2032-03-05.pdf",
)
DRAWN = (
    bulletins.frame_strap_3,
    bulletins.frame_strap_5,
    bulletins.spar_doubler_3,
    bulletins.spar_doubler_4,
    bulletins.axle_nut,
    bulletins.trim_screw,
    bulletins.vendor_gears,
    bulletins.longer_life,
    bulletins.foreign_frame,
    bulletins.hinge_brackets,
    directives.frame_strap,
    directives.spar_doubler,
    directives.axle_nut,
    directives.trim_screw,
    directives.hinge_brackets,
    directives.fuel_cap,
    manuals.spar_splice,
    manuals.flap_tracks,
    manuals.older_page,
    manuals.silent_on_fabric,
    papers.circular,
    papers.information_bulletin,
    papers.designee_form,
    papers.field_approval,
    papers.parts_approval,
)


def draw(folder: Path) -> list[Path]:
    """Every drawn paper as a PDF in `folder`."""
    folder.mkdir(parents=True, exist_ok=True)
    files = []
    for make in DRAWN:
        topics = make()
        file = folder / topics[0].facts.publication.file
        draw_book(file, topics)
        files.append(file)
    return files


def ingested(place: Path) -> Path:
    """A new library under `place` with every document of the worked questions; returns its folder."""
    files = [*draw(place / "drawn"), *(SAMPLES / name for name in FROM_THE_SAMPLES)]
    folder = place / "library"
    settings = Settings(library=str(folder))
    with Catalogue.open(folder, create=True) as catalogue:
        make_demonstration(catalogue, DAY)
    report = ingest(
        files, folder, settings, engine=WhooshEngine(index_folder(folder), settings.search_cache_mb)
    )
    if report.refused:
        raise AssertionError(f"not taken: {report.refused}")
    return folder
