"""What the terminal says when the service answers: where it is, and codes that a tablet's camera reads."""

import segno

from server.reach import Reach


def announce(reach: Reach, code: str = "") -> None:
    """Print it. `code` = the shop's code, "" = a tablet needs none."""
    print(f"Hangarleaf answers at {reach.address}")
    if reach.here:
        print(f"On this machine open {reach.here}")
    for warning in reach.warnings:
        print(warning)
    if not reach.network:
        print("Only this machine can reach it.")
    elif reach.authority:
        print(f"A tablet first trusts the shop's certificate, once: {reach.door} shows how. For its camera:")
        _print_code(reach.door)
        print("Before it trusts, it shows this fingerprint (SHA-256); compare all of it:")
        groups = reach.authority.fingerprint.groups
        print(f"  {' '.join(groups[:8])}\n  {' '.join(groups[8:])}")
        print("When it trusts, open the first address on it, or point its camera here:")
    else:
        if not reach.is_secure:
            print("The way there is not encrypted, so tablets keep no copies. With --https they do.")
        print("On a tablet in the same network, open that address or point the camera at this code:")
    if reach.network:
        _print_code(reach.joining(code))
        if code:
            print(f"The shop's code, asked of each tablet once: {code}")
    print("Stop it with Ctrl-C.", flush=True)


def _print_code(address: str) -> None:
    segno.make(address, error="m").terminal(compact=True)
