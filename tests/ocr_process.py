"""A run of OCR in a process of its own, for tests that kill it: ocr_process.py LIBRARY.

It prints a line once it has found its pages, and goes on to start its workers.
"""

import sys
from pathlib import Path

import fake_ocr

from indexer.ocr_run import PagesFound, recognize_pages
from indexer.settings import Settings

if __name__ == "__main__":
    recognize_pages(
        Path(sys.argv[1]),
        Settings(workers=2),
        fake_ocr.Engine(),
        progress=lambda event: isinstance(event, PagesFound) and print("found", flush=True),
        recognize=fake_ocr.recognize,
        read=fake_ocr.read,
    )
