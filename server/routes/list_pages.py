"""What the pages of the shop's lists share: do what a form asks, then show the list with what was done."""

from collections.abc import Callable
from typing import Any
from urllib.parse import urlencode

from fastapi.responses import RedirectResponse, Response

from indexer.errors import HangarleafError
from indexer.library.shop_lists import Imported
from server.list_imports import import_fields
from server.routes.writer import remember
from server.routes.writing import Form

_MOST_SAID = 300  # characters of what was done that an address carries


def after(form: Form, address: str, act: Callable[[], str], page: Callable[..., Response]) -> Response:
    """Do it, then lead to the list, so that loading the page again does nothing twice.

    act   does it and says what was done
    page  shows the list again with the form as it was filled in: page(form, problem)
    """
    try:
        said = act()
    except HangarleafError as problem:
        return page(form, problem)
    return led_to(address, said, form)


def after_import(
    form: Form,
    address: str,
    take: Callable[[], Imported],
    words: Callable[[Imported], str],
    page: Callable[..., Response],
) -> Response:
    """Take the lines of a form's CSV, all or none; then show the list and what is wrong or was added."""
    try:
        taken = take()
    except HangarleafError as problem:
        return page(form, problem)
    if taken.problems:
        return page(form, lines=import_fields(taken)["problems"], said=words(taken))
    return led_to(address, words(taken), form)


def led_to(address: str, said: str, form: Form, **asked: Any) -> Response:
    """To the list, which says what was done; the name that was given is remembered on this device."""
    query = urlencode({**asked, "done": said[:_MOST_SAID]})
    response = RedirectResponse(f"{address}?{query}", status_code=303)
    remember(response, form.get("who", ""))
    return response
