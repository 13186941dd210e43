"""A picture of every page at both tablet sizes, for people to look at; here only that none is blank.

They are written to the folder that HANGARLEAF_SCREENSHOTS names, else to pytest's own.
"""

import io
import os
import re
import shutil
from pathlib import Path

import every_page
from in_chromium import DESK, TABLET, answering
from PIL import Image

from indexer.settings import Settings
from server.app import create_app
from server.opened import OpenedLibrary

LEAST_COLOURS = 20  # smooth letters alone give more; a blank page has one or two


def test_every_page_has_its_picture(chromium, demo_library, tmp_path):
    folder = Path(os.environ.get("HANGARLEAF_SCREENSHOTS") or tmp_path / "screenshots")
    shutil.copytree(demo_library, tmp_path / "library")
    with OpenedLibrary.open(tmp_path / "library", Settings()) as library:
        home, end = answering(library)
        try:
            starts = [*every_page.STARTS, *every_page.use(home)]
            pages = every_page.walk(create_app(library, Settings()), home, starts)
            for width, height in (DESK, TABLET):
                context = chromium.new_context(viewport={"width": width, "height": height})
                context.add_cookies([{"name": "aircraft", "value": "QX1AB", "url": home}])
                page = context.new_page()
                place = folder / f"{width}x{height}"
                place.mkdir(parents=True, exist_ok=True)
                for number, address in enumerate(pages.addresses):
                    page.goto(home + address)
                    picture = page.screenshot()
                    name = re.sub(r"\W+", "-", address).strip("-")[:80] or "find"
                    (place / f"{number:02}-{name}.png").write_bytes(picture)
                    colours = Image.open(io.BytesIO(picture)).convert("RGB").getcolors(1 << 20)
                    assert colours is None or len(colours) >= LEAST_COLOURS, f"{address} is blank"
                context.close()
        finally:
            end()
    assert len(list(folder.rglob("*.png"))) >= 2 * len(pages.addresses) > 60
