"""An ingest in a process of its own, for tests that kill it: ingest_process.py FOLDER LIBRARY."""

import sys
from pathlib import Path

import misbehaving

from indexer.ingest import ingest
from indexer.settings import Settings

if __name__ == "__main__":
    ingest([Path(sys.argv[1])], Path(sys.argv[2]), Settings(workers=2), read=misbehaving.read_slowly)
