"""Other forms of a word. Common knowledge of English, no source; what is not a form matters as much."""

import pytest

from indexer.library.word_forms import is_spelled_as_form, word_forms

HELD = frozenset(
    """torque torqued torquing leak leaked leaking leakage remove removed removing removal inspect
    inspected inspecting inspection rig rigged rigging modify modified modification install installed
    installation fit fitted fitting line lined lining bear bearing land landed landing wire wired wiring
    spring sprung wing house housing seal sealed sealing press pressed pressing free freed freeing apply
    applied application bleed bled bleeding tow towed towing worn wear wearing lubricate lubricating
    lubrication bolt fed feed feeding spe str cylinder crack cracked cracking gauge 3241 brake braked
    braking align alignment""".split()
)


@pytest.mark.parametrize(
    ("word", "forms"),
    [
        ("torqued", "torque torquing"),
        ("torque", "torqued torquing"),
        ("Torquing", "torque torqued"),
        ("leaks", "leakage leaked leaking"),
        ("leaking", "leak leakage leaked"),
        ("removal", "remove removed removing"),
        ("removing", "removal remove removed"),
        ("inspected", "inspect inspecting inspection"),
        ("inspections", "inspect inspected inspecting"),
        ("rigging", "rig rigged"),
        ("rig", "rigged rigging"),
        ("modified", "modification modify"),
        ("applied", "application apply"),
        ("pressing", "press pressed"),
        ("freed", "free freeing"),
        ("bled", "bleed bleeding"),
        ("worn", "wear wearing"),
        ("towing", "tow towed"),
        ("lubricated", "lubricate lubricating lubrication"),
        ("cracks", "cracked cracking"),
        ("braking", "brake braked"),
        ("alignment", "align"),
        ("fit", "fitted"),  # a fitting is a part
        ("fitting", ""),
        ("fittings", ""),
        ("line", "lined"),
        ("lining", ""),
        ("bearing", ""),
        ("landing", ""),
        ("wiring", ""),
        ("wing", ""),
        ("string", ""),
        ("spring", ""),
        ("housing", ""),
        ("feed", ""),
        ("speed", ""),
        ("bolt", ""),
        ("cylinder", ""),
        ("3241", ""),
        ("32-41", ""),
        ("", ""),
        ("a", ""),
        ("ed", ""),
        ("ing", ""),
    ],
)
def test_forms(word, forms):
    assert word_forms(word, HELD.__contains__) == tuple(forms.split())


def test_only_what_the_library_holds():
    assert word_forms("torqued", {"torquing"}.__contains__) == ("torquing",)
    assert word_forms("torqued", frozenset().__contains__) == ()


def test_a_form_is_spelled_as_one():
    for word in ("torqued", "rigged", "lining", "removing", "modified", "torn", "brakes"):
        assert is_spelled_as_form(word)
    for word in ("lineing", "rigeing"):
        assert not is_spelled_as_form(word)
