"""Files that were sent to the service and wait to be taken: incoming/<moment>-<random>/<name>.pdf.

Each has a folder of its own, so that a file never takes the place of another one of the same name; a better
one for a file that was refused lies in <its folder>.<random>. What is being written ends in .part until all
of it is there. The folder is the queue that outlives the service.
"""

import datetime
import os
import re
import secrets
import shutil
import time
import unicodedata
from collections.abc import Iterable
from pathlib import Path

FOLDER = "incoming"
PART = ".part"
_MOST_NAME = 120  # bytes of UTF-8: file systems take 255, and .part is added
_LEFT_BEHIND_S = 3600.0  # a part that nobody wrote to for so long belongs to a service that was ended
_NOT_IN_NAMES = re.compile(r'[<>:"|?*\\/]')
_RESERVED = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)(\..*)?", re.IGNORECASE)  # names of devices on Windows
_NO_LETTERS = {
    "Cc",
    "Cf",
    "Cs",
    "Co",
    "Cn",
    "Zl",
    "Zp",
}  # controls, marks that turn the direction, no letters


def incoming_folder(library: Path) -> Path:
    return library.absolute() / FOLDER


def safe_name(given: str) -> str:
    """A file name for any system out of what a browser or a program calls the file. Pure.

    Only the part after the last slash or backslash counts; what no system takes becomes "_".
    """
    last = re.split(r"[\\/]", unicodedata.normalize("NFC", given))[-1]
    kept = "".join(letter for letter in last if unicodedata.category(letter) not in _NO_LETTERS)
    stem = " ".join(_NOT_IN_NAMES.sub("_", kept).split())
    if stem.casefold().endswith(".pdf"):
        stem = stem[:-4]
    stem = stem.encode()[:_MOST_NAME].decode(errors="ignore").strip(". ")
    if _RESERVED.fullmatch(stem):
        stem = f"_{stem}"
    return f"{stem or 'unnamed'}.pdf"


def new_part(library: Path, given: str, instead: Path | None = None) -> Path:
    """A place to write a file to; `accept` it when all of it is there.

    instead   a file that was sent and refused, in whose place this one is sent
    """
    if instead is None:
        moment = datetime.datetime.now(datetime.UTC).strftime("%Y%m%d-%H%M%S-%f")
        own = f"{moment}-{secrets.token_hex(4)}"
    else:
        own = f"{instead.parent.name}.{secrets.token_hex(4)}"
    place = incoming_folder(library) / own
    place.mkdir(parents=True)
    return place / f"{safe_name(given)}{PART}"


def accept(part: Path) -> Path:
    """The file is whole: from here on it waits to be taken, also after the power failed."""
    whole = part.with_name(part.name.removesuffix(PART))
    part.replace(whole)
    if os.name != "nt":
        handle = os.open(whole.parent, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
    return whole


def drop(library: Path, path: Path) -> bool:
    """Delete a file that was sent, or what there is of it, with its folder; False for any other file."""
    if not is_incoming(library, path):
        return False
    path.unlink(missing_ok=True)
    if path.parent.is_dir() and not any(path.parent.iterdir()):
        path.parent.rmdir()
    return True


def is_incoming(library: Path, path: Path) -> bool:
    """Whether it lies where files that were sent lie: <library>/incoming/<its folder>/<its name>. Pure."""
    return path.parent.parent == incoming_folder(library) and ".." not in path.parts


def is_better_than(path: Path, older: Path) -> bool:
    """Whether a file was sent in place of an older one, or of one that was sent in place of that. Pure."""
    return path.parent.name.startswith(f"{older.parent.name}.")


def waiting(library: Path, refused: Iterable[Path] = ()) -> list[Path]:
    """Whole files that were sent and are neither taken nor refused, the first sent first."""
    left_out = set(refused)
    return sorted(
        path for path in incoming_folder(library).glob("*/*.pdf") if path.is_file() and path not in left_out
    )


def sweep(library: Path) -> int:
    """Delete what a service that was ended had begun to write; return how many files."""
    swept = 0
    for part in incoming_folder(library).glob(f"*/*{PART}"):
        if time.time() - part.stat().st_mtime > _LEFT_BEHIND_S:
            swept += drop(library, part)
    for place in incoming_folder(library).glob("*/"):
        if not any(place.iterdir()) and time.time() - place.stat().st_mtime > _LEFT_BEHIND_S:
            place.rmdir()
    return swept


def free_bytes(library: Path) -> int:
    """What is free on the drive of the library."""
    return shutil.disk_usage(library).free
