"""Phrases of record entries that matter to the rules, and what each says. Common practice, no source."""

import re
from dataclasses import dataclass

from indexer.tagging.entry_fact_records import FactKind
from indexer.tagging.reference_words import spaced


@dataclass(frozen=True, slots=True)
class Phrase:
    """`value`: what the fact's value says; "" = the words that the pattern calls so."""

    kind: FactKind
    words: re.Pattern
    value: str = ""


_MAKER = r"(?:manufacturer'?s?'?|mfr'?s?|mfg'?s?|maker'?s?|factory)\.?"
_OLD = r"(?:previous(?:ly)?|prior|old|older|existing|earlier|former)"
_REPAIR = r"(?:repair(?:ed|s)?|patch(?:ed|es)?|doubler)"
_B, _E = r"(?<![\w])", r"(?![\w])"
PHRASES: tuple[Phrase, ...] = (
    Phrase(FactKind.WORK, spaced(rf"{_B}major repairs?{_E}"), "major repair"),
    Phrase(
        FactKind.WORK, spaced(rf"{_B}major (?:alterations?|alt\b\.?|modifications?){_E}"), "major alteration"
    ),
    Phrase(FactKind.WORK, spaced(rf"{_B}minor repairs?{_E}"), "minor repair"),
    Phrase(
        FactKind.WORK, spaced(rf"{_B}minor (?:alterations?|alt\b\.?|modifications?){_E}"), "minor alteration"
    ),
    Phrase(
        FactKind.WORK,
        spaced(rf"{_B}(?:alterations?|altered|altering|modification|modified){_E}"),
        "alteration",
    ),
    Phrase(
        FactKind.WORK,
        spaced(rf"{_B}annual(?: insp(?:ection|ected)?\b\.?|(?= (?:c/w|complied|compl|performed|done)))"),
        "annual inspection",
    ),
    Phrase(
        FactKind.WORK,
        spaced(rf"{_B}100[ -]?(?:hr|hour)s?\.?(?: insp(?:ection)?\b\.?)?{_E}"),
        "100-hour inspection",
    ),
    Phrase(FactKind.WORK, spaced(rf"{_B}progressive insp(?:ection)?\b\.?"), "progressive inspection"),
    Phrase(
        FactKind.WORK,
        spaced(rf"{_B}(?:phase [0-9A-Z]{{1,2}}|condition|pre-?buy|special) insp(?:ection)?\b\.?"),
        "other inspection",
    ),
    Phrase(
        FactKind.WORK,
        spaced(rf"{_B}(?:field overhaul(?:ed)?|overhaul(?:ed)?|o/h'?d?){_E}(?! ?(?:manual|man\b))"),
        "overhaul",
    ),
    Phrase(
        FactKind.WORK, spaced(rf"{_B}preventi(?:ve|tive) maint(?:enance)?\b\.?"), "preventive maintenance"
    ),
    Phrase(FactKind.WORK, spaced(rf"{_B}(?:FAA )?(?:form )?337s?{_E}(?![-.][0-9])"), "form 337"),
    Phrase(
        FactKind.DIRECTIVE_WORDS,
        spaced(
            rf"{_B}(?:c/w|complied w(?:ith|/)|cw|comply with|terminat(?:es|ed|ing)(?: action(?: "
            rf"(?:of|for|to))?)?)"
            rf" (?:all )?(?:appl(?:icable)?\.? )?A\.?/?D'?s?{_E}"
        ),
        "complied with",
    ),
    Phrase(
        FactKind.DIRECTIVE_WORDS,
        spaced(
            rf"{_B}A\.?/?D'?s?(?: (?:no\.? ?)?[0-9-]{{8,12}}(?: ?R[0-9])?)?[ ,:]{{1,3}}"
            rf"(?:previously complied(?: with)?|PCW){_E}"
        ),
        "previously complied with",
    ),
    Phrase(
        FactKind.DIRECTIVE_WORDS,
        spaced(
            rf"{_B}A\.?/?D'?s?(?: (?:no\.? ?)?[0-9-]{{8,12}}(?: ?R[0-9])?)?[ ,:]{{1,3}}(?:was |is "
            rf"|has been |all )?(?:complied(?: with)?|c/w|cw){_E}"
        ),
        "complied with",
    ),
    Phrase(
        FactKind.DIRECTIVE_WORDS,
        spaced(
            rf"{_B}A\.?/?D'?s? (?:no\.? ?)?[0-9-]{{8,12}}(?: ?R[0-9])?[ ,:]{{1,3}}(?:is )?(?:n/?a"
            rf"|not applicable|does not apply){_E}"
        ),
        "not applicable, as the entry says",
    ),
    Phrase(
        FactKind.REPAIRED_BEFORE,
        spaced(
            rf"{_B}(?:{_OLD}[ -](?:\w{{1,14}}[ -]){{0,2}}{_REPAIR}|already (?:been )?{_REPAIR}"
            rf"|re-?repair(?:ed)?|repair (?:over|on|of) (?:an? |the )?repair"
            rf"|repaired (?:before|in the past|earlier)){_E}"
        ),
        "repaired before",
    ),
    Phrase(
        FactKind.PRESSURIZED,
        spaced(
            rf"{_B}(?:pressuri[sz]ed(?: (?:area|cabin|fuselage|skin|structure|section|vessel"
            rf"|aircraft|compartment))?(?! (?:\w{{1,10}} ){{0,2}}to [0-9])"
            rf"|press(?:ure)?\.? (?:vessel|bulkhead|cabin|dome|hull)|pressurization boundary){_E}"
        ),
        "pressurized",
    ),
    Phrase(FactKind.PRESSURIZED, spaced(rf"{_B}un-?pressuri[sz]ed{_E}"), "not pressurized"),
    Phrase(
        FactKind.OTHER_AIRCRAFT,
        spaced(
            rf"{_B}(?:(?:for|of|from|on) (?:another|other|a different|an identical|a similar"
            rf"|sister)(?: (?:\w{{1,14}} )?(?:aircraft|airplane|acft|a/c|ship"
            rf"|N-?number|S/N|serial(?: number)?)|(?= of the (?:same )?model))|same "
            rf"(?:make and )?model aircraft|sister ?ship){_E}"
        ),
        "another aircraft",
    ),
    Phrase(
        FactKind.RECOMMENDS_APPROVAL,
        spaced(
            rf"{_B}recommend(?:s|ed|ing|ation)?(?: (?:the|for|of|of the))? approval{_E}"
            rf"|{_B}recommend(?:s|ed)? (?:that )?(?:\w{{1,12}} ){{1,3}}(?:be )?approv(?:ed|al){_E}"
        ),
        "recommends approval",
    ),
    Phrase(
        FactKind.PART_APPROVAL,
        spaced(rf"{_B}(?:FAA[ /-]?)?PMA(?:'?d)?(?: (?:approv(?:al|ed)|parts?|authority|stamp))?{_E}"),
        "PMA",
    ),
    Phrase(
        FactKind.PART_APPROVAL,
        spaced(
            rf"{_B}TSO(?:[ -]{{0,2}}C[0-9]{{1,3}}[a-z]{{0,2}}|'?d| (?:approv(?:al|ed)|authorization"
            rf"|authority|part|article)|A){_E}"
        ),
        "TSO",
    ),
    Phrase(
        FactKind.PART_APPROVAL,
        spaced(
            rf"{_B}(?:FAA )?(?:form )?8130-3(?: tag)?{_E}|{_B}(?:yellow|release" rf"|serviceable) tag{_E}"
        ),
        "release tag",
    ),
    Phrase(
        FactKind.NO_MAKERS_DATA,
        spaced(
            rf"{_B}(?:no {_MAKER} (?:\w{{1,14}} ){{0,2}}(?:data|instructions?|repair|manual"
            rf"|information|procedure)s?(?: (?:available|exists?|published))?"
            rf"|{_MAKER} (?:is |manual |manual is )?silent|not (?:covered|addressed) (?:in|by) "
            rf"(?:the )?(?:{_MAKER} )?(?:\w{{1,12}} )?(?:manual|SRM|MM|AMM)"
            rf"|(?:MM|AMM|SRM|manual) (?:is )?silent){_E}"
        ),
        "maker silent",
    ),
    Phrase(
        FactKind.CONTRARY,
        spaced(
            rf"{_B}(?:contrary to (?:the )?(?:{_MAKER} )?(?:data|manual|instructions?|MM|SRM)?|"
            rf"(?:deviat(?:es|ed|ing|ion)|differ(?:s|ent(?:ly)?)?) (?:from|than|to) (?:the )?"
            rf"(?:{_MAKER} )?"
            rf"(?:data|manual|instructions?|MM|AMM|SRM)|in lieu of (?:the )?(?:{_MAKER} )(?:data"
            rf"|manual|instructions?|method)|(?:MM|AMM|SRM|manual) (?:covers|calls for|gives"
            rf"|requires|repairs) (?:\w{{1,12}} ){{0,4}}different(?:ly)?){_E}"
        ),
        "contrary to the maker's data",
    ),
    Phrase(
        FactKind.LIMITS,
        spaced(rf"{_B}(?:with)?in (?:the )?(?:\w{{1,12}} ){{0,2}}(?:limits?|tolerances?){_E}"),
        "within",
    ),
    Phrase(
        FactKind.LIMITS,
        spaced(
            rf"{_B}(?:exceed(?:s|ed|ing)?|beyond|out of|outside(?: of)?|over) (?:the )?"
            rf"(?:\w{{1,12}} ){{0,2}}(?:limits?|tolerances?){_E}"
        ),
        "outside",
    ),
    Phrase(
        FactKind.LIFE_LIMIT,
        spaced(
            rf"{_B}(?:life[ -]?limit(?:s|ed)?|retirement (?:life|time)|ret\. life|life extension"
            rf"|safe life|replacement life"
            rf"|(?:extend(?:s|ed|ing)?|increas(?:es|ed|ing)) (?:the )?(?:\w{{1,14}} ){{0,2}}life){_E}"
        ),
        "life limit",
    ),
    Phrase(
        FactKind.BATCH,
        spaced(
            r"(?<![\w-])(?:batch|lot|heat lot)(?: ?(?:nos?|number|code)\b\.?)?[ .:#]{1,3}"
            r"(?P<value>(?=[A-Z0-9-]{0,12}[0-9])[A-Z0-9]{1,12}(?:-[A-Z0-9]{1,8}){0,3})(?![\w-])"
        ),
    ),
)
DENIED = spaced(
    r"(?:\b(?:not|never|no|without|free of|non|isn'?t|wasn'?t|nor|neither|nil)(?:[ -]"
    r"(?:an?|any|been|a part of|in|is|evidence of|signs? of"
    r"|considered|deemed|constitute|the|in the|in a|located in)){0,3}[ -]{1,2})$"
)
