"""Answers that are no page: what the JSON API says of its addresses, and CSV files."""

from typing import Any

from fastapi.responses import JSONResponse, Response


def described(model: Any, what: str) -> dict[str, Any]:
    """The keywords of a route that answers with JSON of this shape, for /api/openapi.json."""
    return {"responses": {200: {"model": model}}, "summary": what, "response_class": JSONResponse}


def csv_file(text: str, name: str, mark: bool = False) -> Response:
    """A CSV file in UTF-8 under this name; `mark` puts the mark at its head that spreadsheets want."""
    body = text.encode("utf-8-sig" if mark else "utf-8")
    headers = {"Content-Disposition": f'attachment; filename="{name}"'}
    return Response(body, media_type="text/csv", headers=headers)
