"""Whatever stands in an address, no answer is a failure: every GET route, with ids that mean nothing."""

import asyncio
import re

import httpx
import pytest
from asking import HERE
from test_rights import every_route

from indexer.settings import Settings
from server.app import create_app

LONG = "x" * 10_000
# Written as they stand in an address. %FF and %C3%28 are no UTF-8 (RFC 3629, section 3); 2**63 is one more
# than an SQLite integer holds (SQLite, "Datatypes", section 2).
NONSENSE = {
    "word": "nothing-here",
    "zero": "0",
    "negative": "-1",
    "more than a database holds": str(2**63),
    "a number without end": "9" * 400,
    "no number": "1e5",
    "other digits": "%D9%A3",
    "not UTF-8": "%FF%C3%28",
    "a zero byte": "a%00b",
    "control characters": "%0D%0Ax%1B%7F",
    "two lines up": "..%2F..%2Fetc%2Fpasswd",
    "a backslash": "..%5C..%5Cx",
    "half a surrogate": "%ED%A0%80",
    "right to left": "%E2%80%AEabc%F0%9F%94%A7",
    "markup": "%3Cscript%3Ealert(1)%3C%2Fscript%3E",
    "quotes": "%22%27%60;--",
    "percent": "%25s%25n%7B0%7D",
    "very long": LONG,
    "a space": "%20",
}
PARAMETER = re.compile(r"\{[^}]+\}")


@pytest.fixture(scope="module")
def app(library):
    return create_app(library, Settings())


@pytest.fixture(scope="module")
def routes(app):
    found = sorted({route.path for route in every_route(app.routes) if "GET" in route.methods})
    assert len(found) > 60 and any("{" in path for path in found)
    return found


@pytest.fixture(scope="module")
def asked(app):
    """Asks one application many things at once; gives those that it failed at."""

    def failures(method, addresses, **headers):
        async def all_of_them():
            transport = httpx.ASGITransport(app, raise_app_exceptions=False)
            found = []
            async with httpx.AsyncClient(transport=transport, base_url=HERE) as client:
                for address in addresses:
                    answer = await client.request(method, address, headers=headers)
                    if answer.status_code >= 500:
                        found.append((answer.status_code, address[:150]))
            return found

        return asyncio.run(all_of_them())

    return failures


@pytest.mark.parametrize("what", NONSENSE)
def test_no_id_brings_about_a_failure(asked, routes, what):
    addresses = [PARAMETER.sub(NONSENSE[what], path) for path in routes if "{" in path]
    assert asked("GET", addresses) == []


@pytest.mark.parametrize("what", NONSENSE)
def test_no_query_brings_about_a_failure(asked, routes, app, what):
    """Every parameter that any route takes, all at once and those that most routes take alone."""
    names = sorted(
        {
            field.alias
            for route in every_route(app.routes)
            if getattr(route, "dependant", None)
            for dependant in (route.dependant, *route.dependant.dependencies)
            for field in dependant.query_params
        }
    )
    assert {"q", "back", "aircraft", "offset"} <= set(names)
    value = NONSENSE[what]
    alike = value if what != "very long" else value[:1000]
    query = "&".join(f"{name}={value if name == 'q' else alike}" for name in names)
    whole = [f"{PARAMETER.sub('1', path)}?{query}" for path in routes]
    alone = [
        f"{PARAMETER.sub('1', path)}?{name}={value}" for path in routes for name in ("q", "aircraft", "back")
    ]
    assert asked("GET", whole + alone) == []


def test_no_query_at_all_that_is_not_a_query(asked, routes):
    odd = ("?", "?&&&", "?=", "?%FF=%FF", f"?{LONG}", "?q=a&q=b&q=%00", "/", "//", "?q[]=1")
    assert asked("GET", [f"{PARAMETER.sub('1', path)}{each}" for path in routes for each in odd]) == []


@pytest.mark.parametrize(
    "headers", [{}, {"Range": "bytes=0-"}, {"Range": "bytes=9-3,x"}, {"Cookie": "aircraft=\x7f; packet=%FF"}]
)
def test_other_ways_to_ask(asked, routes, headers):
    """HEAD is refused or answered; a range of what is drawn anew is not looked at, which a server may
    do (RFC 9110, section 14.2)."""
    addresses = [PARAMETER.sub("1", path) for path in routes]
    assert asked("HEAD", addresses, **headers) == []
    assert asked("GET", addresses, **headers) == []
