"""The shop's authority as a file for a tablet."""

from collections.abc import Mapping

from fastapi.responses import Response
from starlette.exceptions import HTTPException

from server.certificates import Authority

NAME = "hangarleaf-authority.crt"


def certificate_file(authority: Authority | None, headers: Mapping[str, str] | None = None) -> Response:
    """In DER, so that the SHA-256 of the file is the fingerprint; 404 where there is no authority.

    The media type is the one that tablets offer an installation for (from memory; never registered). It is
    not sent as an attachment: an iPad then only saves it.
    """
    if authority is None:
        raise HTTPException(404)
    return Response(
        authority.certificate,
        media_type="application/x-x509-ca-cert",
        headers={"Content-Disposition": f'inline; filename="{NAME}"', **(headers or {})},
    )
