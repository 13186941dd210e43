"""A TLS handshake in memory, by OpenSSL on both sides: Python's own `ssl`, which shares no code with ours."""

import ssl


def client_trusting(*certificates: bytes) -> ssl.SSLContext:
    """A client that trusts these authorities (DER) alone, and checks the name it calls."""
    context = ssl.create_default_context(cadata=b"".join(certificates) or None)
    if not certificates:
        context = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    assert context.check_hostname and context.verify_mode is ssl.CERT_REQUIRED
    return context


def shake_hands(chain, key, client: ssl.SSLContext, name: str) -> str:
    """Call a server that has this certificate by a name or address; gives the version of TLS.

    Raises ssl.SSLCertVerificationError as the client does.
    """
    server = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
    server.load_cert_chain(chain, key)
    there, back = ssl.MemoryBIO(), ssl.MemoryBIO()
    ends = [
        client.wrap_bio(back, there, server_hostname=name),
        server.wrap_bio(there, back, server_side=True),
    ]
    left = list(ends)
    while left:
        for end in list(left):
            try:
                end.do_handshake()
            except ssl.SSLWantReadError:
                continue
            left.remove(end)
    return ends[0].version()
