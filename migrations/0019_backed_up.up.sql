-- Backups that were proved to come back equal, and through which operation of
-- each install they reach: its device need not keep what is in one.
CREATE TABLE proved_backups (
    dump_sha256 text PRIMARY KEY,
    taken_at timestamptz NOT NULL,
    proved_at timestamptz NOT NULL DEFAULT now()
);
CALL protect('proved_backups');
ALTER TABLE installs ADD COLUMN backed_up_number bigint NOT NULL DEFAULT 0;
