-- Who belongs, with which device, and what each site shares. Changed only by
-- AccountService; growers' own settings are the record "member".

CREATE TABLE server_state (
    only_row boolean PRIMARY KEY DEFAULT true CHECK (only_row),
    cooperative_id uuid NOT NULL,
    -- Raised at every restore, so that devices notice a server gone back in time.
    epoch bigint NOT NULL DEFAULT 1
);

CREATE TABLE accounts (
    member_id uuid PRIMARY KEY,
    display_name text NOT NULL,
    role smallint NOT NULL,
    joined_at timestamptz NOT NULL DEFAULT now()
);

CREATE TABLE account_sites (
    member_id uuid NOT NULL REFERENCES accounts,
    site_id uuid NOT NULL,
    PRIMARY KEY (member_id, site_id)
);
CREATE INDEX account_sites_site ON account_sites (site_id);

CREATE TABLE devices (
    id uuid PRIMARY KEY,
    member_id uuid NOT NULL REFERENCES accounts,
    name text NOT NULL,
    -- Only the SHA-256 of a token is kept: a stolen database opens nothing.
    token_hash bytea NOT NULL UNIQUE,
    joined_at timestamptz NOT NULL DEFAULT now(),
    last_contact_at timestamptz,
    revoked_at timestamptz
);

CREATE TABLE invitations (
    code_hash bytea PRIMARY KEY,
    role smallint NOT NULL,
    -- Set when the invitation is for another device of this member.
    member_id uuid REFERENCES accounts,
    site_ids uuid[] NOT NULL DEFAULT '{}',
    created_by uuid,
    expires_at timestamptz NOT NULL,
    used_at timestamptz
);

-- Each change of sharing is a row of its own, so that what held at any time can be told.
CREATE TABLE sharings (
    site_id uuid NOT NULL,
    kind text NOT NULL,
    sharing smallint NOT NULL,
    since timestamptz NOT NULL,
    changed_by uuid NOT NULL,
    PRIMARY KEY (site_id, kind, since)
);
