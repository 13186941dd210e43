"""The worked questions: what a mechanic writes, and what must and must not be answered.

Each case names its basis, and how far that basis was read: V = in a copy of the rule or document itself, S
= in
a secondary source that reports it, M = from memory, common practice. They are kept beside the case so that an
inspector can hold them against the rule.
"""

from dataclasses import dataclass

YES = ("yes",)
NO = ("no",)
CANNOT_TELL = ("cannot tell",)
NOT_YES = ("no", "cannot tell")
NOT_NO = ("yes", "cannot tell")
NOT_APPROVED = ("acceptable", "information", "part approval", "blocked", "undetermined")

TWIN = "N410QZ"  # QZ62, serial QZ-077
XJ9 = "N901XJ"  # serial XJ9-0123
OLD = "N27ST"  # Stannard S-2, serial 127
FABRIC = "N33WB"  # Wensley B20, serial 20-041
FOREIGN = "N7LF"  # LF7, serial 7019


@dataclass(frozen=True)
class Case:
    """One question.

    about       part of the number of the citation meant; "" = the only one
    standing    the values allowed, () = not held here
    minor, major, directive   the answers allowed of "enough", () = not held here; directive asks for that
    work
    mandatory   of the finding: by what; "" = by nothing held, None = not held here
    level       (directive's number, level of its tie, words in its status)
    says, never, positions   regular expressions: what the finding must, must not, and must both print
    """

    name: str
    entry: str
    basis: str
    mark: str
    aircraft: str = ""
    work: str = ""
    about: str = ""
    standing: tuple[str, ...] = ()
    current: tuple[str, ...] = ()
    applies: tuple[str, ...] = ()
    minor: tuple[str, ...] = ()
    major: tuple[str, ...] = ()
    directive: tuple[str, ...] = ()
    mandatory: str | None = None
    level: tuple[str, str, str] | None = None
    says: tuple[str, ...] = ()
    never: tuple[str, ...] = ()
    positions: tuple[str, str] = ()  # words of both readings of a disputed point


CASES = (
    Case(
        "1 brake linings by the current manual",
        "Replaced LH brake linings IAW Aldermoor Maintenance Manual QZM-62-2, Rev 6, dated March 14, 2031, "
        "32-42-00 pg 401.",
        "14 CFR 43.13(a)",
        "V",
        TWIN,
        "minor",
        about="QZM-62-2",
        standing=("acceptable",),
        current=("current as checked",),
        applies=("applies",),
        minor=YES,
        mandatory="",
        says=("43\\.13\\(a\\)", "[Rr]evision"),
    ),
    Case(
        "2 wing spar spliced by a manual without approval words: both positions",
        "Spliced LH wing front spar lower cap IAW Brackenfell Maintenance Manual XJM-9-2, Rev 4, "
        "57-10-00 pg 801.",
        "14 CFR 65.95(a)(1); part 43 Appendix A (b)(1); FAA Order 8900.1 v4 ch9 s1",
        "V / S",
        XJ9,
        "major",
        about="XJM-9-2",
        standing=("acceptable", "undetermined"),
        major=CANNOT_TELL,
        says=("8900\\.1", "inspection authorization|\\bIA\\b", "repair station"),
        positions=("acceptable data", "already approved|8900\\.1"),
    ),
    Case(
        "3 skin patch by an approved page, inside the limits: some doubt the stamp's meaning",
        "Patched fuselage skin at STA 120, dent inside the allowable limits, no previous repair in this "
        "area, IAW Aldermoor Structural Repair Manual QZM-62-3, Rev 2, dated May 17, 2030, 53-10-00 pg 201.",
        "the manual's approval page; FAA letter 23 Feb 2010 as reported",
        "M / V",
        TWIN,
        "major",
        about="QZM-62-3",
        standing=("approved",),
        current=("current as checked",),
        applies=("applies",),
        major=YES,
        says=("FAA APPROVED",),
        positions=("words make the pages|usual teaching", "no special meaning"),
    ),
    Case(
        "3 the same, and no revision is named",
        "Patched fuselage skin at STA 120, inside the allowable limits, no previous repair, IAW Aldermoor "
        "Structural Repair Manual QZM-62-3, 53-10-00 pg 201.",
        "common practice: a reference without its revision is incomplete",
        "M",
        TWIN,
        "major",
        about="QZM-62-3",
        standing=("approved",),
        major=CANNOT_TELL,
        says=("does not say which revision",),
    ),
    Case(
        "4 the same over an old repair",
        "Patched fuselage skin at STA 120 over an old repair doubler, IAW Aldermoor Structural Repair Manual "
        "QZM-62-3, Rev 2, dated May 17, 2030, 53-10-00 pg 201.",
        "a maker's structural repair manual, 51-11: limits do not apply to structure that has been repaired",
        "V",
        TWIN,
        "major",
        about="QZM-62-3",
        minor=CANNOT_TELL,
        major=CANNOT_TELL,
        says=("repaired (?:before|structure)|previous(?:ly)? repair|old repair|earlier repair",),
    ),
    Case(
        "5 a bulletin printed MANDATORY and no directive: the word is the maker's",
        "C/W MANDATORY Service Bulletin QZ62-24-0102, original issue, dated August 19, 2030.",
        "FAA legal interpretation of 11 Aug 2006 as reported",
        "S",
        TWIN,
        about="QZ62-24-0102",
        standing=("acceptable",),
        minor=NOT_NO,
        major=NOT_YES,
        mandatory="",
        says=("[Nn]one among the directives held",),
        never=("(?<!that )none applies",),
        positions=("[Mm]andatory|MANDATORY", "11 Aug(?:ust)? 2006"),
    ),
    Case(
        "6 the bulletin, revision and part that a directive requires",
        "C/W AD 2099-04-07: installed strap IAW Brackenfell ASB XJ9-53A0041, Rev 3, Part 3.",
        "14 CFR 39.27",
        "V",
        XJ9,
        "directive",
        about="53A0041",
        standing=("approved",),
        applies=("applies",),
        directive=YES,
        mandatory="AD 2099-04-07",
        level=("2099-04-07", "required", "in force"),
    ),
    Case(
        "6 the directive itself, cited with its bulletin",
        "C/W AD 2099-04-07: installed strap IAW Brackenfell ASB XJ9-53A0041, Rev 3, Part 3.",
        "14 CFR 39.3, 39.7",
        "V",
        XJ9,
        "directive",
        about="2099-04-07",
        standing=("approved",),
        applies=("applies",),
        directive=YES,
        mandatory="AD 2099-04-07",
        level=("2099-04-07", "the directive cited", "in force"),
    ),
    Case(
        "6 the same bulletin for a serial number that the directive does not list",
        "Installed strap IAW Brackenfell ASB XJ9-53A0041, Rev 3, Part 3.",
        "14 CFR 39.27: a directive makes nothing of a bulletin for a product that it does not name",
        "V",
        "N902XJ",
        "directive",
        about="53A0041",
        standing=NOT_APPROVED,
        applies=("does not apply",),
        minor=NO,
        major=NO,
        directive=NOT_YES,
        mandatory="",
    ),
    Case(
        "7 a later revision than the directive names",
        "C/W AD 2099-04-07: installed strap IAW Brackenfell ASB XJ9-53A0041, Rev 5, Part 3.",
        "14 CFR 39.19, 39.27; 1 CFR 51.1(f)",
        "V / M",
        XJ9,
        "directive",
        about="53A0041",
        standing=NOT_APPROVED,
        directive=NOT_YES,
        mandatory="",
        says=("[Rr]evision 3", "AMOC|alternative method"),
    ),
    Case(
        "8 credit for an older revision, work done too late",
        "June 20, 2099: installed doubler IAW Brackenfell SB XJ9-57-0012, Rev 3, for AD 2099-05-08.",
        "the credit paragraph of a directive: before its effective date only",
        "M",
        XJ9,
        "directive",
        about="57-0012",
        standing=NOT_APPROVED,
        directive=NOT_YES,
        mandatory="",
        level=("2099-05-08", "credit", "in force"),
        says=("before (?:the effective date|(?:1 )?June)", "credit"),
    ),
    Case(
        "9 the bulletin says 50, the directive 60",
        "Torqued nose wheel axle nut to 50 in-lb IAW Brackenfell SB XJ9-32-0020, Rev 1, for AD 2099-06-05.",
        "14 CFR 39.27",
        "V",
        XJ9,
        "directive",
        about="32-0020",
        level=("2099-06-05", "required", "in force"),
        directive=NOT_YES,
        says=("governs", "39\\.27", "60\\s+inch-pounds"),
    ),
    Case(
        "10 an old directive whose last line names a bulletin",
        "Inspected aileron hinge brackets IAW Stannard Service Bulletin No. 5.",
        "the form of AD 47-51-08: the closing parenthesis names a bulletin for information",
        "V",
        OLD,
        about="5",
        standing=NOT_APPROVED,
        mandatory="",
        level=("52-07-03", "mentioned", ""),
        says=("[Mm]ention",),
    ),
    Case(
        "11 an additional source of service information",
        "Replaced gears of elevator trim actuator IAW Quillhurst Controls SB QC-27-114, original issue.",
        "the wording of a directive's note",
        "V",
        XJ9,
        about="QC-27-114",
        standing=NOT_APPROVED,
        mandatory="",
        level=("2099-07-09", "mentioned", "in force"),
        says=("[Mm]ention",),
    ),
    *(
        Case(
            f"12 QB-1 through QB-816, except QB-814: {serial}",
            "C/W AD 91-22-06, fuel filler cap seals inspected.",
            "the form of AD 89-24-09",
            "V",
            registration,
            "directive",
            about="91-22-06",
            applies=answers,
            says=("QB-1 through QB-816, except QB-814",),
        )
        for serial, registration, answers in (
            ("QB-814 is out by name", "N814WB", ("does not apply",)),
            ("QB-816 is the last", "N816WB", ("applies",)),
            ("QB-817 is outside", "N817WB", ("does not apply",)),
            ("QD-3 is not of this list", "N3WD", ("does not apply", "cannot tell")),
        )
    ),
    Case(
        "13 only a registration",
        "N62481: C/W AD 91-22-06, fuel filler cap seals inspected.",
        "common practice: a registration is not a serial",
        "M",
        work="directive",
        about="91-22-06",
        applies=("cannot tell",),
        minor=CANNOT_TELL,
        major=CANNOT_TELL,
        directive=CANNOT_TELL,
        says=("serial|aircraft",),
    ),
    Case(
        "13 an aircraft of the fleet whose serial nobody entered",
        "C/W AD 91-22-06, fuel filler cap seals inspected.",
        "common practice: a registration is not a serial",
        "M",
        "N80WX",
        "directive",
        about="91-22-06",
        applies=("cannot tell",),
        directive=NOT_YES,
        says=("serial",),
    ),
    Case(
        "13 the entry names one aircraft and another was chosen",
        "N816WB: C/W AD 91-22-06, fuel filler cap seals inspected.",
        "common practice: an entry is about the aircraft it names",
        "M",
        "N817WB",
        "directive",
        about="91-22-06",
        applies=("cannot tell",),
        minor=CANNOT_TELL,
        major=CANNOT_TELL,
        directive=CANNOT_TELL,
        says=("N816WB, and N817WB was chosen",),
    ),
    Case(
        "13 a bulletin that a directive requires, and no aircraft",
        "Installed strap IAW Brackenfell ASB XJ9-53A0041, Rev 3, Part 3.",
        "14 CFR 39.27: for the products that the directive names",
        "V",
        work="directive",
        about="53A0041",
        applies=("cannot tell",),
        major=NOT_YES,
        directive=CANNOT_TELL,
        says=("choose the aircraft|No aircraft is given",),
    ),
    Case(
        "14 the circular for a fabric repair, the maker silent: the user must find a, b and c",
        "Repaired 6 inch tear in fabric of left wing top surface IAW AC 43.13-1B chapter 2, paragraph 2-42.",
        "AC 43.13-1B paragraph 1",
        "V",
        OLD,
        "major",
        about="43.13-1B",
        standing=NOT_APPROVED,
        minor=NOT_NO,
        major=CANNOT_TELL,
        says=(
            "appropriate to the product",
            "directly applicable",
            "not contrary",
            "(?:block|item) 8",
            "paragraph",
        ),
        positions=("acceptable", "approved data"),
    ),
    Case(
        "15 the circular where the maker's manual says otherwise, as the entry itself says",
        "Sewed 3 inch tear in fabric of right wing IAW AC 43.13-1B chapter 2, paragraph 2-42, in lieu of the "
        "maintenance manual WM-20-2, 51-30-00 pg 201, which gives a doped patch.",
        "AC 43.13-1B paragraph 1, condition c",
        "V",
        FABRIC,
        "major",
        about="43.13-1B",
        standing=NOT_APPROVED,
        minor=NOT_YES,
        major=NOT_YES,
        says=("contrary to (?:the )?(?:maker|manufacturer)'s",),
    ),
    Case(
        "15 the circular where a manual held here covers the repair and the entry is silent",
        "Sewed 3 inch tear in fabric of right wing IAW AC 43.13-1B chapter 2, paragraph 2-42.",
        "AC 43.13-1B paragraph 1: only when there are no manufacturer repair or maintenance instructions",
        "V",
        FABRIC,
        "minor",
        about="43.13-1B",
        standing=NOT_APPROVED,
        minor=NOT_YES,
        major=NOT_YES,
        says=(
            "WM-20-2: MAINTENANCE MANUAL, 51-30-00, page 201 .*speaks of",
            "contrary to (?:the )?(?:maker|manufacturer)'s",
        ),
    ),
    Case(
        "16 the circular for a pressurized skin",
        "Repaired crack in pressurized fuselage skin IAW AC 43.13-1B chapter 4, paragraph 4-58.",
        "AC 43.13-1B paragraph 1: nonpressurized areas",
        "V",
        XJ9,
        "major",
        about="43.13-1B",
        standing=NOT_APPROVED,
        minor=NOT_YES,
        major=NOT_YES,
        says=("[Nn]on-?pressurized",),
    ),
    Case(
        "17 a designee's form that recommends approval",
        "Installed doubler per FAA Form 8110-3 dated February 11, 2099, drawing VQ-0131.",
        "FAA Order 8110.37F",
        "M",
        XJ9,
        "major",
        about="8110-3",
        standing=NOT_APPROVED,
        major=NOT_YES,
        says=("recommend",),
    ),
    Case(
        "18 a field approval of another aircraft",
        "Installed second antenna IAW FAA Form 337 field approval of N777XJ dated May 4, 2098.",
        "Form 337, item 3",
        "M",
        XJ9,
        "major",
        about="337",
        major=NOT_YES,
        says=("(?:one|that|another|named|for the) aircraft",),
    ),
    Case(
        "19 a part approval as authority for an alteration",
        "Altered engine mount for bushing HT-771 on the authority of FAA-PMA No. PQ0999CE, Supplement No. 3.",
        "14 CFR 21.9(a)(2)",
        "V",
        XJ9,
        "major",
        standing=("part approval",),
        minor=NOT_YES,
        major=NO,
        says=("21\\.9", "part"),
    ),
    Case(
        "20 a bulletin that extends a retirement life",
        "Side brace bolt reached its retirement life of 8,000 landings in chapter 04; life extended "
        "to 10,000 landings IAW Aldermoor SB QZ62-32-0133, original issue.",
        "14 CFR 43.16; 91.403(c)",
        "V",
        TWIN,
        about="32-0133",
        standing=NOT_APPROVED,
        minor=NOT_YES,
        major=NOT_YES,
        says=("[Aa]irworthiness [Ll]imitation", "43\\.16|91\\.403"),
    ),
    Case(
        "21 IAW MM",
        "Replaced tail wheel tire IAW MM.",
        "14 CFR 43.9(a)(1): the reference must lead to the data",
        "M",
        TWIN,
        minor=CANNOT_TELL,
        major=CANNOT_TELL,
        current=("unknown",),
        says=("[Rr]evision", "incomplete|missing|does not say"),
    ),
    Case(
        "21 an annual inspection that names the rule alone",
        "Annual inspection performed IAW 14 CFR part 43 Appendix D.",
        "14 CFR 43.15(c): the rule gives the scope and asks for a checklist",
        "V",
        TWIN,
        "inspection",
        about="43",
        says=("checklist",),
    ),
    Case(
        "22 a newer revision is announced",
        "Adjusted flap tracks IAW Wensley Maintenance Manual WM-80-2, Rev 6, 27-50-00 pg 501.",
        "14 CFR 145.109(d)",
        "V",
        "N816WB",
        "minor",
        about="WM-80-2",
        current=("superseded",),
        minor=NOT_YES,
        says=("145\\.109\\(d\\)", "7"),
        never=("wrong work",),
    ),
    Case(
        "23 a page of 1998 in a manual of 2009",
        "Serviced main gear strut IAW Wensley Maintenance Manual WM-20-2, Rev 12, 32-10-00 pg 201, dated "
        "March 16, 1998.",
        "a manual's note on partial revisions: unchanged pages keep their date",
        "V",
        FABRIC,
        "minor",
        about="WM-20-2",
        current=("current as checked",),
        minor=YES,
        says=("1998|effective pages",),
    ),
    Case(
        "24 an information bulletin cited as required",
        "Complied with required seat track pin inspection IAW SAIB 2098-11.",
        "FAA Order 8110.100 series: an information bulletin recommends",
        "V",
        XJ9,
        "directive",
        about="2098-11",
        standing=("information",),
        directive=NOT_YES,
        mandatory="",
        says=("requires nothing|not mandatory|no requirement|not a requirement",),
    ),
    Case(
        "25 approved by a foreign organization, the data sheet's note unknown",
        "Reinforced tail frame IAW Lindhavn SB LF7-53-0009, Rev 2.",
        "type certificate data sheet notes; bilateral implementation procedures",
        "M",
        FOREIGN,
        "major",
        about="LF7-53-0009",
        standing=("acceptable", "undetermined"),
        minor=NOT_NO,
        major=CANNOT_TELL,
        says=("data sheet", "bilateral"),
        positions=("acceptable", "bilateral"),
    ),
    Case(
        "26 a superseded directive cited as done",
        "June 3, 2032: C/W AD 2029-22-08, door latch inspected.",
        "paragraph (b) of the later directive",
        "V",
        TWIN,
        "directive",
        about="2029-22-08",
        standing=NOT_APPROVED,
        current=("superseded",),
        directive=NOT_YES,
        says=("2032-03-05",),
    ),
)
