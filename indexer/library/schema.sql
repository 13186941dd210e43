-- The catalogue of one library: the whole current schema. migrations/ brings an older library here.
-- Dates and times are ISO 8601 text (times in UTC). Columns named *_json are written by codec.py.

-- generation and changed_at; documents_generation: the last that added, removed or replaced documents;
-- entries_generation: the last in which a person added or took back something; related_generation: the last that
-- relations were worked out for; indexed_generation: the last handed to the index.
CREATE TABLE meta (
    key TEXT PRIMARY KEY,
    value TEXT NOT NULL
) WITHOUT ROWID;

-- What the documents say ------------------------------------------------------------------------------------

-- One file, by its content. id = the first 16 hex digits of the sha256.
CREATE TABLE copy (
    id TEXT PRIMARY KEY,
    sha256 TEXT NOT NULL UNIQUE,
    file TEXT NOT NULL,
    size INTEGER NOT NULL,
    pages INTEGER NOT NULL,
    properties_json TEXT NOT NULL,
    notes_json TEXT NOT NULL,
    taken_at TEXT NOT NULL,
    -- The copy that took this one's last place, and when; NULL = on the shelf. Follows from `place` (places.py).
    replaced_by TEXT,
    replaced_since TEXT,
    rules INTEGER NOT NULL DEFAULT 0 -- of reading and tagging, that its passages and tags were made by
) WITHOUT ROWID;

-- Where a copy was seen. The row with the highest seq is what lies at the path now; the others are its history.
CREATE TABLE place (
    path TEXT NOT NULL,
    seq INTEGER NOT NULL,
    copy_id TEXT NOT NULL REFERENCES copy ON DELETE CASCADE,
    since TEXT NOT NULL,
    PRIMARY KEY (path, seq)
) WITHOUT ROWID;
CREATE INDEX place_copy ON place (copy_id);

CREATE TABLE page (
    copy_id TEXT NOT NULL REFERENCES copy ON DELETE CASCADE,
    pdf_page INTEGER NOT NULL, -- 1-based
    state TEXT NOT NULL,
    label TEXT NOT NULL,
    printed_page TEXT NOT NULL,
    width REAL NOT NULL, -- points, as displayed
    height REAL NOT NULL,
    rotation INTEGER NOT NULL,
    origin TEXT NOT NULL,
    problem TEXT NOT NULL,
    ocr_reason TEXT, -- why its picture is to be read; NULL = its own text will do
    skew REAL NOT NULL DEFAULT 0, -- degrees clockwise that its lines slant, when it was read by OCR
    PRIMARY KEY (copy_id, pdf_page)
) WITHOUT ROWID;
CREATE INDEX page_to_read ON page (copy_id, pdf_page) WHERE ocr_reason IS NOT NULL;

-- What OCR read on a page whose own text will not do. Kept when the copy is read again: it is dear to make.
CREATE TABLE recognized_page (
    copy_id TEXT NOT NULL REFERENCES copy ON DELETE CASCADE,
    pdf_page INTEGER NOT NULL,
    at TEXT NOT NULL,
    engine TEXT NOT NULL,
    confidence REAL NOT NULL, -- mean over the characters, 0 to 1
    seconds REAL NOT NULL,
    problem TEXT NOT NULL, -- why it could not be read; '' = it was read
    tries INTEGER NOT NULL, -- runs in which it could not be read
    used INTEGER NOT NULL, -- 1 = the passages of the copy were cut with it
    record BLOB, -- RecognizedPage as zlib-packed JSON; NULL where it could not be read
    PRIMARY KEY (copy_id, pdf_page)
);

-- What was looked for and hardly found, and pages that were opened before they were read: they are read first.
CREATE TABLE missed_search (
    words TEXT PRIMARY KEY, -- folded
    times INTEGER NOT NULL,
    last_at TEXT NOT NULL
) WITHOUT ROWID;
CREATE TABLE wanted_page (
    copy_id TEXT NOT NULL REFERENCES copy ON DELETE CASCADE,
    pdf_page INTEGER NOT NULL,
    last_at TEXT NOT NULL,
    PRIMARY KEY (copy_id, pdf_page)
) WITHOUT ROWID;

-- The manual as such. Every column follows from the id, so it does not matter which revision came first.
CREATE TABLE work (
    id TEXT PRIMARY KEY,
    type TEXT NOT NULL, -- '' = cannot tell
    maker TEXT NOT NULL, -- folded for comparison; the words as printed are with the publication
    number TEXT NOT NULL
) WITHOUT ROWID;

CREATE TABLE revision (
    id TEXT PRIMARY KEY,
    work_id TEXT NOT NULL REFERENCES work,
    number TEXT NOT NULL, -- one form for marks that mean one state; '' = not printed
    date TEXT -- NULL = not printed
) WITHOUT ROWID;
CREATE INDEX revision_work ON revision (work_id);

-- One work's revision as bound in one copy. id = copy id, '-', first page.
CREATE TABLE publication (
    id TEXT PRIMARY KEY,
    copy_id TEXT NOT NULL REFERENCES copy ON DELETE CASCADE,
    revision_id TEXT NOT NULL REFERENCES revision,
    first_page INTEGER NOT NULL,
    last_page INTEGER NOT NULL,
    type TEXT NOT NULL,
    number TEXT NOT NULL,
    title TEXT NOT NULL,
    identity_json TEXT NOT NULL,
    passages INTEGER NOT NULL,
    not_numbered INTEGER NOT NULL -- passages that no chapter follows from
) WITHOUT ROWID;
CREATE INDEX publication_copy ON publication (copy_id);
CREATE INDEX publication_revision ON publication (revision_id);

CREATE TABLE directive (
    publication_id TEXT PRIMARY KEY REFERENCES publication ON DELETE CASCADE,
    facts_json TEXT NOT NULL
) WITHOUT ROWID;

CREATE TABLE bulletin (
    publication_id TEXT PRIMARY KEY REFERENCES publication ON DELETE CASCADE,
    facts_json TEXT NOT NULL
) WITHOUT ROWID;

-- What a publication says of other documents, as printed.
CREATE TABLE claim (
    publication_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    kind TEXT NOT NULL,
    document TEXT NOT NULL,
    claim_json TEXT NOT NULL,
    PRIMARY KEY (publication_id, ordinal)
) WITHOUT ROWID;

-- id = publication id, '-', ordinal in the file.
CREATE TABLE passage (
    id TEXT PRIMARY KEY,
    publication_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    pdf_page INTEGER NOT NULL,
    kind TEXT NOT NULL,
    origin TEXT NOT NULL,
    heading_path_json TEXT NOT NULL,
    text TEXT NOT NULL,
    boxes_json TEXT NOT NULL,
    page_block_json TEXT, -- NULL = none
    doubtful_json TEXT NOT NULL DEFAULT '[]' -- words of the text that OCR read below the floor of confidence
);
CREATE INDEX passage_publication ON passage (publication_id, ordinal);

CREATE TABLE number_tag (
    passage_id TEXT NOT NULL REFERENCES passage ON DELETE CASCADE,
    rank INTEGER NOT NULL, -- 0 = the number the passage is filed under
    scheme TEXT NOT NULL,
    chapter TEXT NOT NULL,
    section TEXT,
    subject TEXT,
    evidence_json TEXT NOT NULL,
    others_json TEXT NOT NULL,
    PRIMARY KEY (passage_id, rank)
) WITHOUT ROWID;
CREATE INDEX number_tag_chapter ON number_tag (chapter, section);

-- What a passage refers to, as printed.
CREATE TABLE citation (
    passage_id TEXT NOT NULL REFERENCES passage ON DELETE CASCADE,
    ordinal INTEGER NOT NULL, -- 0-based in the passage
    kind TEXT NOT NULL,
    scheme TEXT, -- of the chapter number it names; NULL = it names none
    chapter TEXT,
    section TEXT,
    subject TEXT,
    citation_json TEXT NOT NULL,
    PRIMARY KEY (passage_id, ordinal)
) WITHOUT ROWID;
CREATE INDEX citation_chapter ON citation (chapter, section);

-- Models, serials and conditions that the print gives for a place.
CREATE TABLE applicability (
    publication_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    scope TEXT NOT NULL,
    pdf_page INTEGER, -- NULL = the whole publication
    passage_id TEXT, -- NULL = the page, or the whole publication
    record_json TEXT NOT NULL,
    PRIMARY KEY (publication_id, ordinal)
) WITHOUT ROWID;

-- What pages print of their own state.
CREATE TABLE page_mark (
    publication_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    pdf_page INTEGER NOT NULL,
    number TEXT NOT NULL,
    printed_page TEXT NOT NULL,
    date TEXT, -- NULL = not printed
    record_json TEXT NOT NULL,
    PRIMARY KEY (publication_id, pdf_page)
) WITHOUT ROWID;

-- Lines of lists of effective pages, in printed order.
CREATE TABLE listed_page (
    publication_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    record_json TEXT NOT NULL,
    PRIMARY KEY (publication_id, ordinal)
) WITHOUT ROWID;

-- Parts lists: figures and rows in printed order, and the numerical index.
CREATE TABLE part_figure (
    publication_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    figure TEXT NOT NULL, -- as printed
    record_json TEXT NOT NULL,
    PRIMARY KEY (publication_id, ordinal)
) WITHOUT ROWID;
CREATE TABLE part_row (
    publication_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    figure INTEGER NOT NULL, -- ordinal of its figure
    item TEXT NOT NULL, -- without the dash; '' = not read
    loose_key TEXT NOT NULL, -- part_numbers.loose_key of its part number; '' = not read
    part_number TEXT NOT NULL, -- as printed
    origin TEXT NOT NULL, -- of the text: what OCR read is never more than alike
    pdf_page INTEGER NOT NULL,
    record_json TEXT NOT NULL,
    PRIMARY KEY (publication_id, ordinal)
) WITHOUT ROWID;
-- All that tells one number from another, so that the thousands of rows of a common bolt are not read one by one.
CREATE INDEX part_row_number ON part_row (loose_key, part_number, origin, figure, item);
CREATE INDEX part_row_item ON part_row (publication_id, figure, item);
-- Part numbers that a row names beside its own: superseded, alternate, to be ordered.
CREATE TABLE part_named (
    loose_key TEXT NOT NULL,
    publication_id TEXT NOT NULL,
    ordinal INTEGER NOT NULL,
    PRIMARY KEY (loose_key, publication_id, ordinal),
    FOREIGN KEY (publication_id, ordinal) REFERENCES part_row ON DELETE CASCADE
) WITHOUT ROWID;
CREATE INDEX part_named_row ON part_named (publication_id, ordinal);
-- Words of the nomenclature, folded.
CREATE TABLE part_word (
    word TEXT NOT NULL,
    publication_id TEXT NOT NULL,
    ordinal INTEGER NOT NULL,
    PRIMARY KEY (word, publication_id, ordinal),
    FOREIGN KEY (publication_id, ordinal) REFERENCES part_row ON DELETE CASCADE
) WITHOUT ROWID;
CREATE INDEX part_word_row ON part_word (publication_id, ordinal);
CREATE TABLE indexed_number (
    publication_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    loose_key TEXT NOT NULL,
    record_json TEXT NOT NULL,
    PRIMARY KEY (publication_id, ordinal)
) WITHOUT ROWID;
CREATE INDEX indexed_number_key ON indexed_number (loose_key);

-- Standing from the publication's own words.
CREATE TABLE standing (
    passage_id TEXT PRIMARY KEY REFERENCES passage ON DELETE CASCADE,
    value TEXT NOT NULL,
    standing_json TEXT NOT NULL
) WITHOUT ROWID;

-- What follows from all documents and all entries together: written by relations.py alone ---------------------

CREATE TABLE supersession (
    older_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    newer_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    kind TEXT NOT NULL,
    record_json TEXT NOT NULL,
    PRIMARY KEY (older_id, newer_id, kind)
) WITHOUT ROWID;
CREATE INDEX supersession_newer ON supersession (newer_id);

CREATE TABLE tie (
    source_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    claim INTEGER NOT NULL, -- ordinal of the source's claim
    target_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    record_json TEXT NOT NULL,
    PRIMARY KEY (source_id, claim, target_id)
) WITHOUT ROWID;
CREATE INDEX tie_target ON tie (target_id);

CREATE TABLE page_override (
    target_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    pdf_page INTEGER NOT NULL,
    source_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    source_pdf_page INTEGER NOT NULL,
    record_json TEXT NOT NULL,
    PRIMARY KEY (target_id, pdf_page, source_id, source_pdf_page)
) WITHOUT ROWID;
CREATE INDEX page_override_source ON page_override (source_id);

-- The standing of a passage where a directive changes it. Goes with the directive that gave it.
CREATE TABLE directive_standing (
    passage_id TEXT PRIMARY KEY REFERENCES passage ON DELETE CASCADE,
    directive_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    value TEXT NOT NULL,
    standing_json TEXT NOT NULL
) WITHOUT ROWID;
CREATE INDEX directive_standing_directive ON directive_standing (directive_id);

CREATE TABLE unresolved_claim (
    publication_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    claim INTEGER NOT NULL,
    record_json TEXT NOT NULL,
    PRIMARY KEY (publication_id, claim)
) WITHOUT ROWID;

-- Passages that the shop's map or an entry files otherwise than their publication alone does.
CREATE TABLE filing (
    passage_id TEXT PRIMARY KEY REFERENCES passage ON DELETE CASCADE
) WITHOUT ROWID;

-- Their numbers, in place of those in number_tag; no row = not numbered.
CREATE TABLE filed_number (
    passage_id TEXT NOT NULL REFERENCES filing ON DELETE CASCADE,
    rank INTEGER NOT NULL,
    scheme TEXT NOT NULL,
    chapter TEXT NOT NULL,
    section TEXT,
    subject TEXT,
    evidence_json TEXT NOT NULL,
    others_json TEXT NOT NULL,
    PRIMARY KEY (passage_id, rank)
) WITHOUT ROWID;
CREATE INDEX filed_number_chapter ON filed_number (chapter, section);

-- The numbers that hold now.
CREATE VIEW number_now AS
    SELECT * FROM number_tag WHERE passage_id NOT IN (SELECT passage_id FROM filing)
    UNION ALL SELECT * FROM filed_number;

-- A publication's identity where entries of the shop change it; the one it was read with stays with the publication.
CREATE TABLE entered_identity (
    publication_id TEXT PRIMARY KEY REFERENCES publication ON DELETE CASCADE,
    identity_json TEXT NOT NULL
) WITHOUT ROWID;

-- The standing of a passage where entries of the shop change it: over its own and over a directive's.
CREATE TABLE entered_standing (
    passage_id TEXT PRIMARY KEY REFERENCES passage ON DELETE CASCADE,
    value TEXT NOT NULL,
    standing_json TEXT NOT NULL
) WITHOUT ROWID;

-- Where the shop's entries stand now, and what they speak of.
CREATE TABLE entry_state (
    entry_id INTEGER PRIMARY KEY REFERENCES shop_entry ON DELETE CASCADE,
    state TEXT NOT NULL,
    reason TEXT NOT NULL -- in words for a person; '' = none needed
);
CREATE TABLE entry_passage (
    entry_id INTEGER NOT NULL REFERENCES shop_entry ON DELETE CASCADE,
    passage_id TEXT NOT NULL REFERENCES passage ON DELETE CASCADE,
    PRIMARY KEY (entry_id, passage_id)
) WITHOUT ROWID;
CREATE INDEX entry_passage_passage ON entry_passage (passage_id);

-- Where the citations of passages lead among the publications held here.
CREATE TABLE reference (
    passage_id TEXT NOT NULL REFERENCES passage ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    state TEXT NOT NULL,
    record_json TEXT NOT NULL,
    PRIMARY KEY (passage_id, ordinal)
) WITHOUT ROWID;

CREATE TABLE reference_target (
    passage_id TEXT NOT NULL,
    ordinal INTEGER NOT NULL,
    target_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    pdf_page INTEGER, -- NULL = the whole publication
    target_passage_id TEXT, -- NULL = the whole page
    FOREIGN KEY (passage_id, ordinal) REFERENCES reference ON DELETE CASCADE
);
CREATE INDEX reference_target_source ON reference_target (passage_id, ordinal);
CREATE INDEX reference_target_target ON reference_target (target_id, pdf_page);

-- What relations.py knew the last time, so that only what a change touches is worked out again -----------------

-- Every publication it knew. No foreign key: what leaned on a publication is worked out again when that is gone.
CREATE TABLE related (
    publication_id TEXT PRIMARY KEY,
    unchanged INTEGER NOT NULL, -- 0 = its passages were taken out since, to go or to be read again
    shown TEXT NOT NULL, -- what other publications see of it: identity, whether it is on the shelf and current
    names_json TEXT NOT NULL -- keys that references can mean it by
) WITHOUT ROWID;
CREATE TRIGGER related_unless_taken_out AFTER DELETE ON publication
    BEGIN UPDATE related SET unchanged = 0 WHERE publication_id = OLD.id; END;

-- Keys by which the references of a publication may mean another one.
CREATE TABLE cited_name (
    name TEXT NOT NULL,
    publication_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    PRIMARY KEY (name, publication_id)
) WITHOUT ROWID;
CREATE INDEX cited_name_publication ON cited_name (publication_id);

-- Works that entries or lines of the map speak of.
CREATE TABLE spoken_of (
    work_id TEXT PRIMARY KEY, -- no foreign key: an entry outlives the publications it speaks of
    basis TEXT NOT NULL, -- digest of all that the filing and the entered standing of its passages rest on
    publications_json TEXT NOT NULL -- those it had
) WITHOUT ROWID;

-- What people add: never touched by reading a file again, and kept when a copy is removed --------------------

CREATE TABLE shop_entry (
    id INTEGER PRIMARY KEY,
    copy_id TEXT NOT NULL, -- no foreign key: the entry outlives the copy and meets it again by its content
    pdf_page INTEGER NOT NULL,
    last_page INTEGER NOT NULL,
    section TEXT NOT NULL, -- '' = by page
    quote TEXT NOT NULL, -- '' = every passage of the pages or section
    box_json TEXT NOT NULL, -- 'null' = no one place
    kind TEXT NOT NULL,
    value TEXT NOT NULL,
    who TEXT NOT NULL,
    made_at TEXT NOT NULL,
    why TEXT NOT NULL,
    second TEXT NOT NULL, -- the second person; '' = none
    undone_by TEXT NOT NULL, -- '' = not undone
    undone_why TEXT NOT NULL,
    undone_second TEXT, -- who agreed to undoing, where that raises standing: '' = awaited; NULL = takes none
    work_id TEXT NOT NULL -- of the publication it was made in, for when the copy is gone; '' = not known
);
CREATE INDEX shop_entry_copy ON shop_entry (copy_id, pdf_page);

CREATE TABLE shop_map (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    publication TEXT NOT NULL, -- its number, else its title, as printed
    first TEXT NOT NULL,
    last TEXT NOT NULL,
    chapters_json TEXT NOT NULL,
    who TEXT NOT NULL,
    made_at TEXT NOT NULL,
    why TEXT NOT NULL
);

CREATE TABLE shop_word (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    term TEXT NOT NULL,
    manual_terms_json TEXT NOT NULL,
    note TEXT NOT NULL,
    who TEXT NOT NULL,
    made_at TEXT NOT NULL
);

-- The shop's aircraft. Every change of a row stands in the history.
CREATE TABLE aircraft (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    registration TEXT NOT NULL UNIQUE, -- capitals, as painted
    maker TEXT NOT NULL,
    model TEXT NOT NULL,
    serial TEXT NOT NULL, -- of the airframe, '' = not known
    note TEXT NOT NULL,
    confirmed_on TEXT NOT NULL, -- when the row was last held against the aircraft, '' = never
    confirmed_by TEXT NOT NULL -- who did; where nobody has, who entered the row
);

-- Engines, propellers, appliances and alterations of an aircraft.
CREATE TABLE fitted (
    aircraft_id INTEGER NOT NULL REFERENCES aircraft ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    kind TEXT NOT NULL,
    position TEXT NOT NULL, -- 'left', '1'; '' = the only one
    maker TEXT NOT NULL,
    model TEXT NOT NULL, -- of an alteration: its number or name
    serial TEXT NOT NULL, -- '' = not known
    note TEXT NOT NULL,
    PRIMARY KEY (aircraft_id, ordinal)
) WITHOUT ROWID;

-- The revision register: what a named person found to be the current revision. A row never changes but for its undoing.
CREATE TABLE revision_check (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    work_id TEXT NOT NULL, -- no foreign key: a check outlives the copies it speaks of
    publication TEXT NOT NULL, -- what the work was called then
    revision TEXT NOT NULL, -- the current one, as printed; '' = told by its date alone
    date TEXT, -- of that revision; NULL = not given
    source TEXT NOT NULL, -- against what it was checked
    checked_on TEXT NOT NULL,
    who TEXT NOT NULL,
    recheck_days INTEGER NOT NULL,
    note TEXT NOT NULL,
    made_at TEXT NOT NULL,
    undone_by TEXT NOT NULL, -- '' = not undone
    undone_why TEXT NOT NULL
);
CREATE INDEX revision_check_work ON revision_check (work_id);

-- Source checks: what was asked, and all that was answered. Append only.
CREATE TABLE source_check (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    at TEXT NOT NULL,
    text TEXT NOT NULL,
    aircraft TEXT NOT NULL, -- registration, '' = none
    work TEXT NOT NULL, -- class of work, '' = not said
    generation INTEGER NOT NULL,
    answer_json TEXT NOT NULL
);
CREATE TRIGGER source_check_keeps_what_it_has BEFORE UPDATE ON source_check
    BEGIN SELECT RAISE(ABORT, 'source checks are append only'); END;
CREATE TRIGGER source_check_forgets_nothing BEFORE DELETE ON source_check
    BEGIN SELECT RAISE(ABORT, 'source checks are append only'); END;

-- Persons, tablets and work in hand ------------------------------------------------------------------------

-- None of it makes a generation: it changes nothing that search finds.
CREATE TABLE person (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL, -- as it stands under entries
    role TEXT NOT NULL, -- librarian, inspector
    salt BLOB NOT NULL,
    passcode_hash BLOB NOT NULL, -- scrypt
    named_at TEXT NOT NULL,
    ended_at TEXT NOT NULL, -- '' = may sign in; a row is never deleted, since entries stand under its name
    failures INTEGER NOT NULL, -- wrong passcodes since the last right one
    locked_until TEXT NOT NULL -- '' = not locked
);
CREATE TABLE sign_in (
    token_hash TEXT PRIMARY KEY, -- SHA-256 of the token that the browser holds
    person_id INTEGER NOT NULL REFERENCES person,
    at TEXT NOT NULL,
    until TEXT NOT NULL
) WITHOUT ROWID;
CREATE TABLE tablet (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    token_hash TEXT NOT NULL UNIQUE,
    name TEXT NOT NULL, -- as it was called when it joined
    joined_at TEXT NOT NULL,
    last_seen TEXT NOT NULL,
    ended_at TEXT NOT NULL -- '' = may read
);

-- What is collected for a job. A packet is closed, never deleted, so that a copy on a tablet can be withdrawn.
CREATE TABLE packet (
    id TEXT PRIMARY KEY, -- random: whoever may read can open it
    job TEXT NOT NULL, -- work order or task, as typed
    aircraft TEXT NOT NULL, -- registration, '' = none
    model TEXT NOT NULL, -- of the aircraft when the packet was begun
    serial TEXT NOT NULL,
    begun_at TEXT NOT NULL,
    changed_at TEXT NOT NULL,
    closed_at TEXT NOT NULL -- '' = open
) WITHOUT ROWID;
CREATE TABLE packet_item (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    packet_id TEXT NOT NULL REFERENCES packet,
    position INTEGER NOT NULL, -- order in the packet; gaps are allowed
    kind TEXT NOT NULL, -- page, passage, figure, part, finding
    publication_id TEXT NOT NULL, -- no foreign key: an item outlives what it speaks of; '' for a finding
    pdf_page INTEGER NOT NULL, -- 0 for a finding
    last_page INTEGER NOT NULL,
    about TEXT NOT NULL, -- id of the passage, figure, row or source check; '' for a page
    note TEXT NOT NULL, -- as typed
    words TEXT NOT NULL, -- what it was called when it was added
    as_added_json TEXT NOT NULL, -- revision, currency and standing as they were then
    added_at TEXT NOT NULL
);
CREATE INDEX packet_item_packet ON packet_item (packet_id, position);

-- Said from a tablet: a tag is wrong. It changes nothing until a person at the desk answers it.
CREATE TABLE tag_report (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    copy_id TEXT NOT NULL, -- no foreign key, as for entries
    publication TEXT NOT NULL, -- id
    pdf_page INTEGER NOT NULL,
    passage_id TEXT NOT NULL, -- '' = the whole page
    quote TEXT NOT NULL, -- of the passage
    tag TEXT NOT NULL, -- which: chapter, type, standing, revision, applies, text, other
    said TEXT NOT NULL, -- what is wrong, as typed
    who TEXT NOT NULL, -- as typed, '' = not said
    at TEXT NOT NULL,
    settled_at TEXT NOT NULL, -- '' = open
    settled_by TEXT NOT NULL,
    settled_why TEXT NOT NULL
);
CREATE INDEX tag_report_open ON tag_report (settled_at, id);

-- The shelf's own books --------------------------------------------------------------------------------------

CREATE TABLE refused (
    path TEXT PRIMARY KEY,
    slug TEXT NOT NULL,
    what TEXT NOT NULL,
    remedy TEXT NOT NULL,
    sha256 TEXT NOT NULL, -- '' when the file could not be read at all
    refused_at TEXT NOT NULL
) WITHOUT ROWID;

-- Publications whose indexed form changed, and the generation that did it.
CREATE TABLE outbox (
    generation INTEGER NOT NULL,
    publication_id TEXT NOT NULL,
    PRIMARY KEY (generation, publication_id)
) WITHOUT ROWID;

-- Append only.
CREATE TABLE history (
    id INTEGER PRIMARY KEY,
    at TEXT NOT NULL,
    event TEXT NOT NULL, -- taken, replaced, seen again, read again, removed, and every act of a person of the shop
    copy_id TEXT NOT NULL,
    path TEXT NOT NULL,
    detail TEXT NOT NULL
);
CREATE TRIGGER history_keeps_what_it_has BEFORE UPDATE ON history
    BEGIN SELECT RAISE(ABORT, 'history is append only'); END;
CREATE TRIGGER history_forgets_nothing BEFORE DELETE ON history
    BEGIN SELECT RAISE(ABORT, 'history is append only'); END;
