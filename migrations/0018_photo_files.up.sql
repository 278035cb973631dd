-- Files of photos, apart from the entries that name them, in chunks that come
-- in their order. A file is its site's: content that two sites have alike is
-- kept twice, so that nobody learns by sending it what others have.
CREATE TABLE photo_files (
    site_id uuid NOT NULL,
    sha256 bytea NOT NULL CHECK (length(sha256) = 32),
    -- Who began to send it, and whose room it takes up.
    sender_id uuid NOT NULL,
    size_bytes bigint NOT NULL CHECK (size_bytes > 0),
    media_type text NOT NULL,
    next_chunk integer NOT NULL DEFAULT 0,
    begun_at timestamptz NOT NULL DEFAULT now(),
    -- When all chunks were there and had the hash that was named.
    whole_at timestamptz,
    thumbnail bytea,
    PRIMARY KEY (site_id, sha256)
);
CREATE INDEX photo_files_sender ON photo_files (sender_id);

CREATE TABLE photo_chunks (
    site_id uuid NOT NULL,
    sha256 bytea NOT NULL,
    number integer NOT NULL,
    data bytea NOT NULL,
    PRIMARY KEY (site_id, sha256, number),
    FOREIGN KEY (site_id, sha256) REFERENCES photo_files ON DELETE CASCADE
);
-- Pictures are compressed already.
ALTER TABLE photo_chunks ALTER COLUMN data SET STORAGE EXTERNAL;
ALTER TABLE photo_files ALTER COLUMN thumbnail SET STORAGE EXTERNAL;

-- Read and written as the photos that name them.
CALL protect('photo_files');
CALL protect('photo_chunks');
GRANT SELECT, INSERT, DELETE, UPDATE (next_chunk, whole_at, thumbnail) ON photo_files TO freshet_server;
GRANT SELECT, INSERT, DELETE ON photo_chunks TO freshet_server;
DO $$
DECLARE
    lives text := 'site_id = ANY ((SELECT sites_lived_at())::uuid[])';
    reads text := lives || ' OR site_id = ANY ((SELECT sites_open(''photo''))::uuid[])';
BEGIN
    EXECUTE format('CREATE POLICY reads ON photo_files FOR SELECT TO freshet_server USING (%s)', reads);
    EXECUTE format('CREATE POLICY begins ON photo_files FOR INSERT TO freshet_server WITH CHECK (%s AND sender_id = (SELECT acting_member()))', lives);
    EXECUTE format('CREATE POLICY goes_on ON photo_files FOR UPDATE TO freshet_server USING (%1$s) WITH CHECK (%1$s)', lives);
    EXECUTE format('CREATE POLICY erases ON photo_files FOR DELETE TO freshet_server USING (%s)', lives);
    EXECUTE format('CREATE POLICY reads ON photo_chunks FOR SELECT TO freshet_server USING (%s)', reads);
    EXECUTE format('CREATE POLICY adds ON photo_chunks FOR INSERT TO freshet_server WITH CHECK (%s)', lives);
    EXECUTE format('CREATE POLICY erases ON photo_chunks FOR DELETE TO freshet_server USING (%s)', lives);
END $$;

-- A file goes with the last photo that names it, however that went: voided,
-- given another file, or erased. At the end of the transaction, since a
-- correction may put one in another's place.
CREATE FUNCTION photo_left() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    DELETE FROM photo_files f WHERE f.site_id = OLD.site_id AND f.sha256 = OLD.sha256
        AND NOT EXISTS (SELECT FROM photos p WHERE p.site_id = OLD.site_id AND p.sha256 = OLD.sha256 AND p.corrected_by IS NULL);
    RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER photo_left AFTER UPDATE OF corrected_by OR DELETE ON photos
    DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION photo_left();
