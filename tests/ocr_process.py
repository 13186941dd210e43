"""A run of OCR in a process of its own, for tests that kill it: ocr_process.py LIBRARY."""

import sys
from pathlib import Path

import fake_ocr

from indexer.ocr_run import recognize_pages
from indexer.settings import Settings

if __name__ == "__main__":
    recognize_pages(
        Path(sys.argv[1]),
        Settings(workers=2),
        fake_ocr.Engine(),
        recognize=fake_ocr.recognize,
        read=fake_ocr.read,
    )
