"""The librarian's queue, entries and the shop's map, printed for a person at a terminal."""

import shlex
from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

import click

from server.routes.desk_view import buttons, place_words, value_words
from server.words import count_of


def show_queue(answer: dict[str, Any], names: Mapping[str, str]) -> None:
    """names: publication id -> what it is called"""
    print_line(f"{count_of(answer['total'], 'question')}, the most useful first.")
    counts = [f"{each['words']}: {each['questions']:,}" for each in answer["counts"] if each["questions"]]
    if counts:
        print_line("; ".join(counts), 2)
    for item in answer["items"]:
        owner = item["publication"]
        print_line("")
        print_line(f"{item['id']}  {item['cause_words']}")
        name = names[owner["id"]] if owner else "a file not held any more"
        covers = f" · {count_of(item['passages'], 'passage')}" if item["passages"] > 1 else ""
        place = place_words(item["first_page"], item["last_page"], item["section"])
        print_line(f"{name} · {place}{covers}", 2)
        if item["quote"]:
            print_line(f"“{item['quote']}”", 4)
        print_line(item["now"], 4)
        if item["covers"]:
            print_line(f"covers: {'; '.join(item['covers'])}", 4)
        for choice in buttons(item):
            print_line(
                f"--file-under {shlex.quote(choice['value'])}   {choice['words']} ({choice['how']})", 4
            )
    left = [f"{count_of(each['passages'], 'passage')} of {each['words']}" for each in answer["left_out"]]
    if left:
        print_line("")
        print_line(f"Not asked about: {'; '.join(left)}.")


def show_entries(entries: list[dict[str, Any]], names: Mapping[str, str]) -> None:
    """names: publication id -> what it is called"""
    if not entries:
        print_line("No entries.")
    for entry in entries:
        owner = entry["publication"]
        name = names[owner["id"]] if owner else "a file not held any more"
        before = f"{entry['before']} -> " if entry["before"] else ""
        value = value_words(entry["kind"], entry["value"])
        print_line(f"{entry['id']}  {entry['kind']}: {before}{value} ({entry['state']})")
        place = place_words(entry["pdf_page"], entry["last_page"], entry["section"])
        print_line(f"{name} · {place}", 4)
        print_line(f"{entry['who']}, {entry['made_at'][:16].replace('T', ' ')} UTC: {entry['why']}", 4)
        if entry["second"]:
            print_line(f"second person: {entry['second']}", 4)
        if entry["undone_by"]:
            said = (
                "is to be taken back, when a second person agrees:"
                if entry["undo_waits"]
                else "taken back by"
            )
            print_line(f"{said} {entry['undone_by']}: {entry['undone_why']}", 4)
        if entry["reason"]:
            print_line(entry["reason"], 4)


def show_lines(lines: list[dict[str, Any]], why_none: Mapping[int, str] = MappingProxyType({})) -> None:
    """why_none: lines that file nothing, by their numbers, and why"""
    if not lines:
        print_line("No lines on the map.")
    for line in lines:
        ends = line["first"] if line["first"] == line["last"] else f"{line['first']} to {line['last']}"
        print_line(f"{line['id']}  {line['publication']}, section {ends}: {', '.join(line['chapters'])}")
        print_line(f"{line['who']}, {line['made_at'][:10]}: {line['why']}", 4)
        if line["id"] in why_none:
            print_line(why_none[line["id"]], 4)


def show_sections(answer: dict[str, Any]) -> None:
    print_line(f"{answer['map_name']}: {count_of(len(answer['sections']), 'section')} of its own.")
    for section in answer["sections"]:
        pages = place_words(section["first_page"], section["last_page"], section["number"])
        print_line("")
        print_line(f"{pages} · {section['title']} · {count_of(section['passages'], 'passage')}")
        for name, found in (("filed under", section["filed"]), ("worked out", section["worked_out"])):
            if found:
                chapters = ", ".join(f"{each['chapter']} ({each['passages']})" for each in found)
                print_line(f"{name} {chapters}", 4)
        for line in section["mapped"]:
            print_line(f"on the map (line {line['id']}): {', '.join(line['chapters'])}", 4)


def print_line(words: str, indent: int = 0) -> None:
    click.echo(f"{' ' * indent}{words}")
