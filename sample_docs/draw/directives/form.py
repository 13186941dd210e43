"""The lettered form of a final rule: its opening lines and paragraph (a) to the last, from one record."""

from dataclasses import dataclass, replace

from sample_docs.draw.book import CONTINUES, Topic
from sample_docs.draw.facts import PageFacts, PublicationFacts
from sample_docs.draw.looks_of import DIRECTIVE

PREAMBLE = """
!small DEPARTMENT OF TRANSPORTATION

!small Federal Aviation Administration

!small 14 CFR Part 39

!small [Docket No. {docket}; Project Identifier {project}; Amendment {amendment}; AD {number}]

== {title}

**AGENCY:** Federal Aviation Administration (FAA), DOT.

**ACTION:** Final rule.

**SUMMARY:** {summary}

**DATES:** This AD is effective {effective}.

{incorporated}

**ADDRESSES:** You may examine the docket in person at the {office}, Room 62, Northlake, between 9 a.m. and
5 p.m.,
Monday through Friday, except Federal holidays. The office, the room and the docket are invented, like
everything else
on this page.

# SUPPLEMENTARY INFORMATION

{discussion}
"""

AMENDMENT = """
# The Amendment

Accordingly, under the authority delegated by the Administrator, part 39 is amended by adding the following
airworthiness directive:
"""


@dataclass(frozen=True)
class Directive:
    """What the opening of one directive says. `rule` is the lettered text, in the markup."""

    publication: PublicationFacts
    docket: str
    project: str
    amendment: str
    subject_chapter: str
    subject_scheme: str
    office: str
    summary: str
    effective: str
    incorporated: str
    discussion: str
    rule: str
    note: str = ""
    in_force: bool = True
    replaced_by: str = ""


def topics(directive: Directive) -> list[Topic]:
    publication = directive.publication
    text = PREAMBLE.format(
        docket=directive.docket,
        project=directive.project,
        amendment=directive.amendment,
        number=publication.number,
        title=publication.title,
        summary=directive.summary.strip(),
        effective=directive.effective,
        incorporated=directive.incorporated.strip(),
        office=directive.office,
        discussion=directive.discussion.strip(),
    )
    number = publication.number
    reach = f"rule {number}" if directive.in_force else f"superseded by {directive.replaced_by}"
    facts = PageFacts(
        publication,
        printed_page="1",
        number=directive.subject_chapter,
        scheme=directive.subject_scheme,
        final_standing="" if directive.in_force else "information",
        directive=reach,
        note=f"preamble; {directive.note}" if directive.note else "preamble",
    )
    rule = replace(
        facts,
        printed_page=CONTINUES,
        data_standing="approved",
        final_standing="approved" if directive.in_force else "information",
        note=directive.note,
    )
    head = (
        f"\n\n**{number} {publication.maker} Airplanes:** Amendment {directive.amendment}; "
        f"Docket No. {directive.docket}; Project Identifier {directive.project}.\n"
    )
    return [Topic(facts, text, DIRECTIVE), Topic(rule, AMENDMENT + head + directive.rule, DIRECTIVE)]
