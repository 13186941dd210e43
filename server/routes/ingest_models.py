"""The shapes of the JSON answers about ingest, for /api/openapi.json."""

from pydantic import Field

from server.routes.models import Problem, Shape, State


class FileOutcome(Shape):
    file: str
    source: str = Field(alias="from", description="sent to the service, or watched folder")
    came: str = Field(description="sent = it waits for its turn; taken, already, refused")
    at: str = Field(description="UTC")
    pages: int
    publications: list[str] = Field(description="ids")
    problem: Problem | None


class WatchedFolder(Shape):
    folder: str
    every_s: float
    looked_at: str | None = Field(description="UTC; null = not yet")
    problem: str = Field(description="why it cannot be looked into, and what to do")
    files: int = Field(description="PDF files that lie there")
    may_still_be_written_to: int = Field(description="new or changed files not the same at two looks yet")


class IngestAnswer(Shape):
    library_state: State
    doing: str = Field(description="nothing, waiting, reading, relating, indexing")
    words: str
    files: int = Field(description="of the ingest at work")
    done: int
    reading: list[str] = Field(description="names of the files being read")
    waiting: int = Field(description="files that wait for their turn after these")
    begun_at: str | None = Field(description="UTC")
    seconds: float
    last_ended: str | None = Field(description="UTC; null = none since the service was started")
    problem: str = Field(description="what keeps it from going on, and what to do")
    outcomes: list[FileOutcome] = Field(description="since the service was started, the newest first")
    watched_folder: WatchedFolder | None


class UploadAnswer(Shape):
    files: list[FileOutcome]
