package device

// schema is the device's database. Every statement can be run again.
//
// The outbox holds packets and not single operations: a packet is a piece of
// an encoded PushRequest, ready to be sent, of operations that go to one scope.
// Readings and feedings of the replica stay the columns they came as: exploded
// into rows they would take ten times the room and most of the time of a pull.
const schema = `
CREATE TABLE IF NOT EXISTS facts (
    name TEXT PRIMARY KEY,
    value BLOB NOT NULL
) WITHOUT ROWID;

CREATE TABLE IF NOT EXISTS outbox (
    first_number INTEGER PRIMARY KEY,
    operations_count INTEGER NOT NULL,
    -- Operations stored whole or not at all share the number of the first; 0 alone.
    group_number INTEGER NOT NULL,
    -- Kind of packet: readings and feedings may be packed again as columns.
    lane INTEGER NOT NULL,
    scope TEXT NOT NULL,
    noted_ms INTEGER NOT NULL,
    -- 1: the server's echo of some of it is in the replica; 2: its scope is gone. Then it
    -- is laid over only until the answer has come too.
    echoed INTEGER NOT NULL DEFAULT 0,
    body BLOB NOT NULL
);
CREATE INDEX IF NOT EXISTS outbox_laid_over ON outbox (first_number) WHERE echoed = 0;

-- Each push has a mark, kept before it is first sent; the last one that the
-- server knows shows whether it speaks of this device or of one it is a copy of.
CREATE TABLE IF NOT EXISTS pushes (
    last_number INTEGER PRIMARY KEY,
    mark BLOB NOT NULL,
    -- When the server answered, by its clock; 0 before.
    answered_ms INTEGER NOT NULL DEFAULT 0
);

-- Outcomes of an install that this device had before.
CREATE TABLE IF NOT EXISTS former_outcomes (
    install BLOB NOT NULL,
    number INTEGER NOT NULL,
    kind INTEGER NOT NULL,
    reason TEXT NOT NULL,
    field TEXT NOT NULL,
    hint TEXT NOT NULL,
    operation BLOB NOT NULL,
    PRIMARY KEY (install, number)
) WITHOUT ROWID;

CREATE TABLE IF NOT EXISTS outcomes (
    number INTEGER PRIMARY KEY,
    kind INTEGER NOT NULL,
    reason TEXT NOT NULL,
    field TEXT NOT NULL,
    hint TEXT NOT NULL,
    operation BLOB NOT NULL
);

CREATE TABLE IF NOT EXISTS cursors (
    scope TEXT PRIMARY KEY,
    epoch INTEGER NOT NULL,
    sequence INTEGER NOT NULL,
    chain BLOB NOT NULL,
    operations_count INTEGER NOT NULL
) WITHOUT ROWID;

CREATE TABLE IF NOT EXISTS columns (
    scope TEXT NOT NULL,
    sequence INTEGER NOT NULL,
    part INTEGER NOT NULL,
    lane INTEGER NOT NULL,
    install BLOB NOT NULL,
    member_id TEXT NOT NULL,
    first_number INTEGER NOT NULL,
    from_ms INTEGER NOT NULL,
    to_ms INTEGER NOT NULL,
    body BLOB NOT NULL,
    PRIMARY KEY (scope, sequence, part)
);
CREATE INDEX IF NOT EXISTS columns_install ON columns (install, first_number);

CREATE TABLE IF NOT EXISTS events (
    id TEXT PRIMARY KEY,
    scope TEXT NOT NULL,
    -- Field number of the event's kind in the contract; 0 is a kind of a later release.
    kind INTEGER NOT NULL,
    occurred_ms INTEGER NOT NULL,
    entered_ms INTEGER NOT NULL,
    install BLOB NOT NULL,
    member_id TEXT NOT NULL,
    body BLOB NOT NULL
) WITHOUT ROWID;
CREATE INDEX IF NOT EXISTS events_kind ON events (kind, occurred_ms);
CREATE INDEX IF NOT EXISTS events_scope ON events (scope);

CREATE TABLE IF NOT EXISTS records (
    id TEXT PRIMARY KEY,
    scope TEXT NOT NULL,
    site_id TEXT NOT NULL,
    -- Field number of the record's kind in the contract.
    kind INTEGER NOT NULL,
    removed INTEGER NOT NULL,
    body BLOB NOT NULL,
    stamps TEXT NOT NULL
) WITHOUT ROWID;
CREATE INDEX IF NOT EXISTS records_scope ON records (scope);

-- Operations of kinds that this release does not know, as they came, for the next one.
CREATE TABLE IF NOT EXISTS unread (
    scope TEXT NOT NULL,
    sequence INTEGER NOT NULL,
    part INTEGER NOT NULL,
    body BLOB NOT NULL,
    PRIMARY KEY (scope, sequence, part)
) WITHOUT ROWID;

-- Files of the photos noted here, in the folder photos, by their hashes.
CREATE TABLE IF NOT EXISTS photo_files (
    sha256 BLOB PRIMARY KEY,
    site_id TEXT NOT NULL,
    -- Of the operation that names it; 0: of an install that this device had before.
    number INTEGER NOT NULL,
    arrived INTEGER NOT NULL DEFAULT 0,
    -- Why the co-op did not take it, in words.
    trouble TEXT NOT NULL DEFAULT ''
) WITHOUT ROWID;

-- What imports have entered: 16-byte hashes, many to a row.
CREATE TABLE IF NOT EXISTS imported (
    batch INTEGER PRIMARY KEY,
    hashes BLOB NOT NULL
);
`
