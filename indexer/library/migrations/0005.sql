-- Format 5: persons who sign in, tablets that joined, job packets, reports that a tag is wrong.

-- Persons, tablets and work in hand. None of it makes a generation: it changes nothing that search finds.
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
