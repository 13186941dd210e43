"""Page blocks: what a printed page number means in each kind of manual."""

import pytest

from indexer.trade.page_blocks import page_block, page_blocks
from indexer.trade.publication_types import PublicationType as Type

BLOCKS = [
    # ATA Spec 100 page blocks, as a maker's maintenance manual introduction prints them
    (Type.MAINTENANCE_MANUAL, "1", "Description and operation"),
    (Type.MAINTENANCE_MANUAL, "99", "Description and operation"),
    (Type.MAINTENANCE_MANUAL, "101", "Troubleshooting / fault isolation"),
    (Type.MAINTENANCE_MANUAL, "201", "Maintenance practices"),
    (Type.MAINTENANCE_MANUAL, "301", "Servicing"),
    (Type.MAINTENANCE_MANUAL, "401", "Removal/installation"),
    (Type.MAINTENANCE_MANUAL, "499", "Removal/installation"),
    (Type.MAINTENANCE_MANUAL, "501", "Adjustment/test"),
    (Type.MAINTENANCE_MANUAL, "601", "Inspection/check"),
    (Type.MAINTENANCE_MANUAL, "701", "Cleaning/painting"),
    (Type.MAINTENANCE_MANUAL, "801", "Approved repairs"),
    (Type.INSTRUCTIONS_FOR_CONTINUED_AIRWORTHINESS, "401", "Removal/installation"),
    (Type.STANDARD_PRACTICES_MANUAL, "201", "Maintenance practices"),
    # the same for an engine manual
    (Type.ENGINE_MANUAL, "1", "System description"),
    (Type.ENGINE_MANUAL, "101", "Fault isolation"),
    (Type.ENGINE_MANUAL, "201", "Special procedure"),
    (Type.ENGINE_MANUAL, "301", "Removal"),
    (Type.ENGINE_MANUAL, "401", "Installation"),
    (Type.ENGINE_MANUAL, "501", "Disassembly"),
    (Type.ENGINE_MANUAL, "601", "Cleaning"),
    (Type.ENGINE_MANUAL, "701", None),  # not assigned
    (Type.ENGINE_MANUAL, "801", "Inspection/check"),
    (Type.ENGINE_MANUAL, "901", "Repair"),
    (Type.ENGINE_MANUAL, "1001", "Assembly"),
    (Type.ENGINE_MANUAL, "1101", "Servicing"),
    (Type.ENGINE_MANUAL, "1201", "Storage"),
    (Type.ENGINE_MANUAL, "1301", "Testing"),
    (Type.ENGINE_MANUAL, "1401", "Rework"),
    # component manual: two numberings (from memory; the parts list at 10001 as a maker prints it)
    (Type.COMPONENT_MAINTENANCE_MANUAL, "1", "Description and operation"),
    (Type.COMPONENT_MAINTENANCE_MANUAL, "101", "Testing and fault isolation"),
    (Type.COMPONENT_MAINTENANCE_MANUAL, "301", "Disassembly"),
    (Type.COMPONENT_MAINTENANCE_MANUAL, "3001", "Disassembly"),
    (Type.COMPONENT_MAINTENANCE_MANUAL, "401", "Cleaning"),
    (Type.COMPONENT_MAINTENANCE_MANUAL, "4001", "Cleaning"),
    (Type.COMPONENT_MAINTENANCE_MANUAL, "601", "Repair"),
    (Type.COMPONENT_MAINTENANCE_MANUAL, "7001", "Assembly"),
    (Type.COMPONENT_MAINTENANCE_MANUAL, "8001", "Fits and clearances"),
    (Type.COMPONENT_MAINTENANCE_MANUAL, "901", "Special tools"),
    (Type.COMPONENT_MAINTENANCE_MANUAL, "9001", "Special tools"),
    (Type.COMPONENT_MAINTENANCE_MANUAL, "10001", "Illustrated parts list"),
    (Type.COMPONENT_MAINTENANCE_MANUAL, "1001", None),  # parts list or testing: cannot tell
    # structural repair manual (from memory)
    (Type.STRUCTURAL_REPAIR_MANUAL, "1", "Identification"),
    (Type.STRUCTURAL_REPAIR_MANUAL, "101", "Allowable damage"),
    (Type.STRUCTURAL_REPAIR_MANUAL, "201", "Repairs"),
    (Type.STRUCTURAL_REPAIR_MANUAL, "801", "Repairs"),
    # no block: other manuals, pages of the front matter, pages numbered another way
    (Type.SERVICE_MANUAL, "401", None),
    (Type.PARTS_CATALOG, "401", None),
    (Type.FLIGHT_MANUAL, "401", None),
    (Type.SERVICE_BULLETIN, "1", None),
    (None, "401", None),
    (Type.MAINTENANCE_MANUAL, "T-1", None),
    (Type.MAINTENANCE_MANUAL, "LEP-1", None),
    (Type.MAINTENANCE_MANUAL, "RR-1", None),
    (Type.MAINTENANCE_MANUAL, "iv", None),
    (Type.MAINTENANCE_MANUAL, "5-12", None),
    (Type.MAINTENANCE_MANUAL, "1 of 12", None),
    (Type.MAINTENANCE_MANUAL, "", None),
    (Type.MAINTENANCE_MANUAL, "0", None),
    (Type.MAINTENANCE_MANUAL, "100", None),
    (Type.MAINTENANCE_MANUAL, "400", None),
    (Type.MAINTENANCE_MANUAL, "1001", None),
    # ways a page number is printed
    (Type.MAINTENANCE_MANUAL, "Page 401", "Removal/installation"),
    (Type.MAINTENANCE_MANUAL, "page  402", "Removal/installation"),
    (Type.MAINTENANCE_MANUAL, "401A", "Removal/installation"),
    (Type.MAINTENANCE_MANUAL, "401.1", "Removal/installation"),
    (Type.MAINTENANCE_MANUAL, " 401 ", "Removal/installation"),
]


@pytest.mark.parametrize(("kind", "printed_page", "title"), BLOCKS)
def test_page_blocks(kind, printed_page, title):
    block = page_block(kind, printed_page)
    assert (block.title if block else None) == title


@pytest.mark.parametrize("manual", ["maintenance", "engine", "component", "structural"])
def test_blocks_do_not_overlap(manual):
    blocks = page_blocks(manual)
    assert blocks
    assert all(block.source for block in blocks)
    assert all(one.last < other.first for one, other in zip(blocks, blocks[1:], strict=False))
    assert all(block.first % 100 == 1 and block.last % 100 == 99 for block in blocks)


def test_page_301_has_three_meanings():
    titles = {page_block(kind, "301").title for kind in (Type.MAINTENANCE_MANUAL, Type.ENGINE_MANUAL)}
    titles.add(page_block(Type.COMPONENT_MAINTENANCE_MANUAL, "301").title)
    assert titles == {"Servicing", "Removal", "Disassembly"}
