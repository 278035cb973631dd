-- The change feed. A scope is what one reader may read whole: the cooperative's
-- records, a site, a site's private kinds, a member's settings.

CREATE TABLE scopes (
    id integer GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    name text NOT NULL UNIQUE,
    -- Raised as the last statement of each push, under the row's lock, so that
    -- number order is commit order without gaps. A Postgres sequence gives its
    -- number at insert and shows it at commit: readers would skip rows for ever.
    sequence bigint NOT NULL DEFAULT 0,
    -- Rolling hash of the pages up to sequence.
    chain bytea NOT NULL DEFAULT '',
    operations_count bigint NOT NULL DEFAULT 0,
    -- Sequence of the last page that changed records; caches of records hold until it moves.
    records_sequence bigint NOT NULL DEFAULT 0
);

-- What one push changed in one scope, kept as it is sent.
CREATE TABLE pages (
    scope_id integer NOT NULL REFERENCES scopes,
    sequence bigint NOT NULL,
    chain bytea NOT NULL,
    operations_count integer NOT NULL,
    received_at timestamptz NOT NULL,
    block bytea NOT NULL,
    PRIMARY KEY (scope_id, sequence)
);
-- Blocks are dense columns already; compressing them again costs time and saves little.
ALTER TABLE pages ALTER COLUMN block SET STORAGE EXTERNAL;

CREATE TABLE installs (
    install bytea PRIMARY KEY CHECK (length(install) = 8),
    device_id uuid NOT NULL,
    member_id uuid NOT NULL,
    -- Every operation up to this number has a lasting outcome.
    through_number bigint NOT NULL DEFAULT 0
);

-- Outcomes other than stored, for ever, with the operation as it came.
CREATE TABLE outcomes (
    install bytea NOT NULL REFERENCES installs,
    number bigint NOT NULL,
    kind smallint NOT NULL,
    reason text NOT NULL,
    field text NOT NULL,
    hint text NOT NULL,
    operation bytea NOT NULL,
    scope text NOT NULL,
    received_at timestamptz NOT NULL,
    settled_at timestamptz,
    PRIMARY KEY (install, number)
);
