"""Words of the trade and of every record, which name no maker and no product: the tables' and a few more."""

import re
from calendar import month_abbr, month_name
from functools import cache

from indexer.trade.chapter_tables import chapter_rows, jasc_rows, read_table

# What records say around a reference. Common practice, no source.
_OF_RECORDS = frozenset(
    """
    a about above ac acceptable accepted according acft ad additional adj adjust adjusted after
    again all also alt amm an and annual any applicable appropriate approved as assembly assy at
    axle bad base batt battery be bearings been before below blade bled bleed block book both box
    brakes broken by c/w cable cables caliper calipers carb carburetor card cat ch change chap chapt
    chapter chapters check checked checking checks chg chp clean cleaned cmm comp complete completed
    complied comply complying compression conformity control controls copy cord cotter current
    currently cw cyl cylinder cylinders data date dated day day's days dept disc discrepancy discs
    disk disks doc document documents done drawing dtd dwg each eng engines entry existing fab
    fabric factory fig figs figure figures filter filters final fluids follow followed following
    found from function functional fwd good group groups guide h hard has have held high hrs i/a/w
    iaw in in-house info inner inop inoperative insp inspected inspection install installed instr
    instrs instruction ipc is issue issued it item items its job jobs l l/h latest leak leak-check
    leakcheck leaking lh lining linings list listed lists lockwire log logbook low lubed maint major
    maker maker's man manuals manufacturer manufacturer's manufacturers mech metal mfg mfgr mfr
    mfr's mid minor mlg mm mod mx new nlg no non not note notes nr num number o/h oem off-wing ok
    okay old on-wing online only oper operational ops ops-check order orders original our outer
    overhaul overhauled own p p/n pad pads page pages para parag paragraph paragraphs paras part
    parts per pg pgs plug plugs posn pp practice practices prev previous printed proc procs prop
    propeller propellers pub pubs quick r r/h ref refer reference referenced references rel removed
    repack repacked repair repaired replace replaced reqd required reservoir rev revised revision
    revs rh rig rigged rigging rotor rotors rpt s/n safetied safety same sb sect section sections
    see serv serviceable serviced shock shop sl smoh spec specs spm srm standard std step steps
    strut struts sub subject subtask supp svc sys system table tables tach task tasks tech technical
    test tested that this through thru time tire tires to toc total tps tsn tso tt tube tubes under
    use used using valve valves vendor vol was wdm were wheel when which wo work worn x zone
    """.split()
)
_WORD = re.compile(r"[A-Za-z][A-Za-z'/-]*")
_TABLES = (
    ("work_words.csv", "word"),
    ("heading_words.csv", "word"),
    ("words_not_names.csv", "word"),
    ("telling_words.csv", "words"),
    ("thesaurus.csv", "term"),
    ("thesaurus.csv", "manual_terms"),
    ("abbreviations.csv", "word"),
    ("abbreviations.csv", "meaning"),
)


@cache
def trade_words() -> frozenset[str]:
    """Small letters; each word of the tables on its own."""
    printed = [row.title for row in chapter_rows().values()] + [row.title for row in jasc_rows().values()]
    printed += [row[column] for table, column in _TABLES for row in read_table(table)]
    printed += [*month_name, *month_abbr]
    return frozenset(word.casefold() for text in printed for word in _WORD.findall(text)) | _OF_RECORDS


def is_trade_word(word: str) -> bool:
    """Whether the word is one of the trade, in the plural or with what has been done to it ("rebled") too."""
    plain = word.casefold().strip(".'-")
    known = trade_words()
    if plain in known or all(part in known for part in re.split("[-/]", plain) if part):
        return True
    return any(plain.endswith(end) and plain[: -len(end)] in known for end in ("s", "es", "ed", "d", "'s"))
