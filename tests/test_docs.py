"""README.md or DEVELOPERS.md names what people meet: commands, options, settings, messages, addresses."""

import re
from dataclasses import fields
from pathlib import Path

import click
import pytest

from indexer import errors
from indexer.settings import SettingRefused, Settings
from indexer.trade.publication_types import PublicationType
from server.cli import main
from server.routes import (
    api,
    check_api,
    desk_api,
    desk_pages,
    fleet_api,
    fleet_pages,
    map_pages,
    offline_pages,
    packet_api,
    packet_pages,
    parts_api,
    parts_list_pages,
    parts_pages,
    search_pages,
    shelf_pages,
    system_api,
    system_pages,
    tablet_pages,
    words_pages,
)

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def every_error(kind=errors.HangarleafError):
    return [kind] + [deeper for child in kind.__subclasses__() for deeper in every_error(child)]


@pytest.mark.parametrize("name", sorted(main.commands))
def test_every_command_is_in_the_readme(name):
    assert f"hangarleaf {name}" in README


@pytest.mark.parametrize(
    ("command", "option"),
    [
        (name, option)
        for name, command in sorted(main.commands.items())
        for parameter in command.params
        if isinstance(parameter, click.Option)
        for option in parameter.opts
        if option.startswith("--") and option != "--help"
    ],
)
def test_every_option_is_in_the_readme(command, option):
    assert re.search(rf"[ `]{option}\b", README), f"hangarleaf {command} {option}"


@pytest.mark.parametrize("setting", fields(Settings), ids=lambda setting: setting.name)
def test_every_setting_is_listed_with_its_default_and_help(setting):
    row = f"| `HANGARLEAF_{setting.name.upper()}` | {setting.default!s} | {setting.metadata['help']} |"
    assert row in DEVELOPERS


@pytest.mark.parametrize("slug", sorted({error.slug for error in every_error()}))
def test_every_message_is_listed_by_its_slug(slug):
    assert f"`{slug}`" in DEVELOPERS


def test_the_error_tree_in_the_docstring_is_the_tree_in_the_code():
    for error in every_error():
        if error is not SettingRefused and error.__module__ == "indexer.errors":
            assert re.search(rf"\b{error.__name__}\b", errors.__doc__), error


@pytest.mark.parametrize(
    "path",
    [
        route.path
        for router in (
            *(rooms.router for rooms in (api, desk_api, desk_pages, map_pages, search_pages, shelf_pages)),
            *(rooms.router for rooms in (check_api, system_api, system_pages)),
            *(rooms.router for rooms in (packet_api, packet_pages)),
            *(rooms.router for rooms in (fleet_api, fleet_pages, parts_api, parts_list_pages, parts_pages)),
            tablet_pages.router,
            offline_pages.router,
            offline_pages.api_router,
            words_pages.router,
            words_pages.api_router,
        )
        for route in router.routes
    ],
)
def test_every_address_is_listed(path):
    assert f"`{path}`" in DEVELOPERS


@pytest.mark.parametrize("kind", PublicationType)
def test_every_publication_type_is_in_the_readme(kind):
    assert f"`{kind}`" in README
