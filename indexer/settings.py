"""Settings: one frozen value; each has a unit in its name, a default and a line of help."""

import os
from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from pathlib import Path

from indexer.errors import HangarleafError

OCR_FLOOR = 0.9  # measured; DEVELOPERS.md says on what


class SettingRefused(HangarleafError):
    slug = "setting-refused"

    def __init__(self, name: str, given: str, kind: str):
        super().__init__(f"The setting {name} is «{given}», which is not {kind}.", "Correct or unset it.")


def _setting(default: object, help: str):
    return field(default=default, metadata={"help": help})


@dataclass(frozen=True, slots=True)
class Settings:
    """Read from the environment as HANGARLEAF_ and the name in capitals."""

    library: str = _setting("", "folder of the library; empty = a per-user data folder")
    workers: int = _setting(0, "worker processes for ingest; 0 = one per core")
    file_time_limit_s: float = _setting(
        300.0, "seconds a file may take to read before it is set aside; beyond 300 pages as many times longer"
    )
    worker_memory_mb: int = _setting(1500, "address space of one worker in MB (Linux); 0 = no limit")
    max_file_mb: int = _setting(2000, "largest file taken, in MB")
    max_pages: int = _setting(20000, "most pages taken from one file")
    max_page_pixels: int = _setting(40_000_000, "most pixels of one rendered page picture")
    render_dpi: int = _setting(150, "resolution of page pictures, in dots per inch")
    render_time_limit_s: float = _setting(30.0, "seconds one page picture may take")
    ocr_engine: str = _setting("", "engine for OCR: tesseract, rapidocr or none; empty = the first installed")
    ocr_dpi: int = _setting(300, "resolution at which pages are read by OCR, in dots per inch")
    ocr_page_time_limit_s: float = _setting(300.0, "seconds OCR may take for one page before it is set aside")
    ocr_floor: float = _setting(OCR_FLOOR, "confidence, 0 to 1, below which a word read by OCR is doubtful")
    recheck_days: int = _setting(90, "days until a check of the revision register is due again")
    watch_folder: str = _setting("", "folder whose new files the service takes in; empty = none")
    watch_every_s: float = _setting(30.0, "seconds between two looks at the watched folder")
    sign_in_hours: float = _setting(8.0, "hours after which a person must sign in again")
    offline_hours: float = _setting(24.0, "hours after which a copy on a tablet is no longer shown")
    search_cache_mb: int = _setting(128, "memory for posting arrays read from the index, in MB")

    @property
    def library_folder(self) -> Path:
        """The library's folder: the setting, else a per-user data folder."""
        return Path(self.library).expanduser() if self.library else _user_data_folder() / "hangarleaf"


def from_environment(environment: Mapping[str, str]) -> Settings:
    """Settings from HANGARLEAF_... variables. Raises SettingRefused on a value of the wrong kind."""
    given = {}
    for setting in fields(Settings):
        name = f"HANGARLEAF_{setting.name.upper()}"
        if name in environment:
            given[setting.name] = _read(name, environment[name], type(setting.default))
    return Settings(**given)


def _read(name: str, text: str, kind: type) -> object:
    try:
        value = kind(text)
    except ValueError:
        raise SettingRefused(name, text, "a number") from None
    if kind is not str and value < 0:
        raise SettingRefused(name, text, "zero or more")
    return value


def _user_data_folder() -> Path:
    if os.name == "nt":
        return Path(os.environ.get("LOCALAPPDATA", Path.home() / "AppData" / "Local"))
    return Path(os.environ.get("XDG_DATA_HOME", Path.home() / ".local" / "share"))
