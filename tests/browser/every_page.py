"""Every page of the service, with real addresses: found by following links, one or two of each kind.

A route that no link and no start reaches is a page nobody looks at: `Pages.unseen` names it.
"""

import html
import re
from dataclasses import dataclass, field

import httpx

MOST_OF_A_KIND = 2
_NO_PAGES = ("/api/", "/static/")
_LINK = re.compile(r'<a\b[^>]*?\bhref="([^"#]+)')
_WORK = "Replaced LH brake linings IAW QZM-62-2 Rev 6, 32-42-00 pg 401, and P/N QZ32-4410-1 IAW IPC."

# Addresses that stand for a state of a page rather than for a page of their own.
STARTS = [
    "/",
    "/?q=brake+lining",
    "/?q=brake+lining&chapter=32",
    "/?q=zeppelin",
    "/?q=3241",
    "/system/32?aircraft=QX-1AB",
    "/parts?q=brake+disc",
    "/parts?q=QZ32-4410-1",
    "/fleet/choose?back=/",
    "/find?q=brake+lining",
    "/find/chapter/32?q=brake+lining",
    "/join",
    "/offline",
    "/persons",
    "/pinned",
    "/manifest.webmanifest",
    "/service-worker.js",
    "/parts/list",
    "/tablet/authority.crt",
    "/tablet/code.svg",
    "/tablet/door.svg",
    "/no-such-page",
]


@dataclass
class Pages:
    """addresses  of HTML pages, the first of each route first
    others      path of a route -> its type where it is no page, or its status
    unseen      paths of routes that were not reached
    dead        links that no route answers
    """

    addresses: list[str] = field(default_factory=list)
    others: dict[str, str] = field(default_factory=dict)
    unseen: list[str] = field(default_factory=list)
    dead: list[str] = field(default_factory=list)


def use(home: str) -> list[str]:
    """Do some work in a library, so that its pages have something to show; gives addresses it led to."""
    found = []
    with httpx.Client(base_url=home, headers={"sec-fetch-site": "same-origin"}, timeout=60) as client:
        for aircraft in ("QX-1AB", ""):
            made = client.post("/check", data={"text": _WORK, "aircraft": aircraft, "work": "minor"})
            assert made.status_code == 303, made.text
            found.append(made.headers["location"])
        row = re.search(r'href="(/parts/[^"?/]+)', client.get("/parts?q=QZ32-4410-1").text)
        assert row is not None
        hit = re.search(r'href="(/publications/([^"/]+)/pages/(\d+))', client.get("/?q=brake+lining").text)
        assert hit is not None
        _, publication, pdf_page = hit.groups()
        found.append(f"/desk/items/{client.get('/api/desk').json()['items'][0]['id']}")
        page = {"kind": "page", "publication": publication, "pdf_page": pdf_page, "back": "/"}
        if (added := client.post("/packets/add", data=page)).status_code != 404:
            assert added.status_code == 303, added.text
            packets = client.get("/packets").text
            for packet in sorted(set(re.findall(r'href="(/packets/[^"?/]+)"', packets))):
                found += [packet, f"{packet}/copy"]
    return found


def walk(app, home: str, starts: list[str]) -> Pages:
    """Follow the links of every page, no more than MOST_OF_A_KIND to each route, beginning with `starts`."""
    routes = [route for route in _every_route(app.routes) if _is_of_pages(route)]
    seen: dict[str, int] = dict.fromkeys((route.path for route in routes), 0)
    pages, waiting, known = Pages(), [*starts], set()
    always = set(starts)
    with httpx.Client(base_url=home, timeout=60) as client:
        while waiting:
            address = waiting.pop(0)
            if address in known:
                continue
            known.add(address)
            route = _route_of(routes, address)
            if route is None and address not in always:
                pages.dead.append(address)
                continue
            path = route.path if route else address
            if address not in always and seen[path] >= MOST_OF_A_KIND:
                continue
            client.cookies.clear()  # no aircraft and no packet in hand goes from page to page
            answer = client.get(address)
            assert answer.status_code < 500, f"{address}: {answer.status_code}"
            kind = answer.headers.get("content-type", "").partition(";")[0]
            if answer.is_redirect:
                pages.others.setdefault(path, str(answer.status_code))
                waiting.append(answer.headers["location"])
            elif kind == "text/html" and (answer.status_code == 200 or route is None):
                pages.addresses.append(address)
            elif kind == "text/html":
                pages.others[path] = str(answer.status_code)
            else:
                pages.others[path] = kind
            if route:
                seen[path] += 1
            if kind == "text/html":
                links = {html.unescape(link): None for link in _LINK.findall(answer.text)}
                waiting += [link for link in links if link.startswith("/") and not link.startswith(_NO_PAGES)]
    pages.unseen = [path for path, count in seen.items() if not count]
    return pages


def _every_route(routes):
    """Routes with a method, those of included routers among them."""
    for route in routes:
        router = getattr(route, "original_router", route)  # newer FastAPI keeps included routers whole
        if inner := getattr(router, "routes", None):
            yield from _every_route(inner)
        else:
            yield route


def _is_of_pages(route) -> bool:
    return "GET" in (getattr(route, "methods", None) or ()) and not route.path.startswith(_NO_PAGES)


def _route_of(routes, address: str):
    path = address.partition("?")[0]
    return next((route for route in routes if route.path_regex.match(path)), None)
