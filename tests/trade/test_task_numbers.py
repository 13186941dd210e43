"""Task numbers, S1000D data module codes, and what their codes mean.

AMTOSS as a maker's maintenance manual introduction explains it; rows from memory say so in the tables.
"""

import pytest

from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.data_modules import information_title, parse_data_module
from indexer.trade.task_numbers import find_tasks, function_title


def test_a_task_number_in_parts():
    (task,) = find_tasks("TASK 32-41-00-400-801-A01")
    assert task.number == ChapterNumber("32", "41", "00")
    assert (task.function, task.sequence, task.configuration) == ("400", "801", "A01")
    assert not task.is_subtask
    assert task.title == "Installation (whole task)"


def test_a_short_subtask_takes_its_tasks_number():
    task, subtask = find_tasks("TASK 32-41-00-870-801\nSUBTASK 870-001-002")
    assert subtask.number is None
    assert subtask.is_subtask
    assert subtask.under(task).number == ChapterNumber("32", "41", "00")
    assert (subtask.function, subtask.sequence, subtask.configuration) == ("870", "001", "002")


@pytest.mark.parametrize(
    ("sequence", "subtask"),
    [("001", True), ("800", True), ("801", False), ("999", False), ("99A", False)],  # tasks 801 to 999
)
def test_sequences_tell_tasks_from_subtasks(sequence, subtask):
    (found,) = find_tasks(f"32-41-00-400-{sequence}")
    assert found.is_subtask is subtask


@pytest.mark.parametrize(
    "text", ["870-001-002", "32-41-00", "32-41-00-01-15", "TASK 870-001-002", "123-456-789", ""]
)
def test_no_tasks(text):
    assert find_tasks(text) == []


def test_zeros_are_no_configuration():
    assert find_tasks("32-41-00-400-801-000")[0].configuration == ""


@pytest.mark.parametrize(
    ("function", "title"),
    [
        ("000", "Removal (whole task)"),
        ("020", "Remove, disconnect or loosen a unit"),
        ("400", "Installation (whole task)"),
        ("420", "Install or connect a unit"),
        ("710", "Operational test"),
        ("720", "Functional test"),
        ("810", "Fault isolation"),
        ("870", "Bleeding"),
        ("873", "Bleeding"),
        ("900", "Change (remove and install)"),
        ("610", "Servicing, preserving and lubricating"),
        ("150", "Cleaning"),
    ],
)
def test_functions(function, title):
    assert function_title(function) == title


def test_a_data_module_code_in_parts():
    module = parse_data_module("DMC-XXXX-A-32-41-00-00A-520A-D")
    assert module.number == ChapterNumber("32", "41", "00", Scheme.SNS)
    assert (module.model, module.difference, module.disassembly, module.variant) == ("XXXX", "A", "00", "A")
    assert (module.information, module.information_variant, module.location) == ("520", "A", "D")
    assert module.title == "Remove"
    assert parse_data_module("32-41-00") is None
    assert parse_data_module("DMC-XXXX") is None


@pytest.mark.parametrize(
    ("code", "title"),
    [
        ("041", "Description"),
        ("520", "Remove"),
        ("720", "Install"),
        ("941", "Illustrated parts data"),
        ("300", None),
    ],
)
def test_information_codes(code, title):
    if title:
        assert information_title(code) == title
    else:
        assert information_title(code) == "Examinations, tests and checks"
