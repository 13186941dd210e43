"""All script of one page, as written, with its imports and the service worker, fits a slow tablet."""

import re

import pytest

from server.routes.page_templates import templates
from server.routes.static_files import FOLDER

MOST_BYTES = 40_000
_ASKED = re.compile(r'src="\{\{ static \}\}/([\w-]+\.js)"')
_IMPORTED = re.compile(r'from "\./([\w-]+\.js)"')
NAMES = sorted(name for name in templates.env.list_templates() if not name.startswith("_"))


def source(name):
    return templates.env.loader.get_source(templates.env, name)[0]


def scripts(name):
    waiting = _ASKED.findall(source(name) + source("base.html"))
    found = {"service-worker.js"}
    while waiting:
        script = waiting.pop()
        if script not in found:
            found.add(script)
            waiting += _IMPORTED.findall((FOLDER / script).read_text(encoding="utf-8"))
    return found


@pytest.mark.parametrize("name", NAMES)
def test_a_page_brings_little_script(name):
    assert sum((FOLDER / script).stat().st_size for script in scripts(name)) <= MOST_BYTES


def test_what_is_counted_is_what_a_page_asks_for():
    assert scripts("search.html") == {
        "find.js", "hangarleaf.js", "kept.js", "offline.js", "service-worker.js", "without_contact.js",
    }  # fmt: skip
