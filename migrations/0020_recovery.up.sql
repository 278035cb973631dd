-- A recovery code is an invitation of a member to themselves, kept on paper for
-- the day when no device is left: it does not end by time, and there is one.
ALTER TABLE invitations ADD COLUMN recovery boolean NOT NULL DEFAULT false;
CREATE UNIQUE INDEX invitations_recovery ON invitations (member_id) WHERE recovery AND used_at IS NULL;

-- make_recovery makes whoever acts a recovery code; the one before is used up.
CREATE FUNCTION make_recovery(code bytea, until timestamptz) RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    UPDATE invitations SET used_at = now() WHERE member_id = acting_member() AND recovery AND used_at IS NULL;
    INSERT INTO invitations (code_hash, role, member_id, created_by, expires_at, recovery)
        VALUES (code, acting_role(), acting_member(), acting_member(), until, true);
END $$;
REVOKE ALL ON FUNCTION make_recovery FROM PUBLIC;
GRANT EXECUTE ON FUNCTION make_recovery TO freshet_server;

GRANT CREATE ON SCHEMA public TO freshet_gate;
ALTER FUNCTION make_recovery OWNER TO freshet_gate;
SET LOCAL ROLE freshet_gate;
-- The chronicle tells a recovery code from other invitations.
CREATE OR REPLACE FUNCTION chronicle_invitation() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    PERFORM enter_chronicle(2::smallint, NEW.created_by, NEW.member_id, NULL, NEW.site_ids, CASE WHEN NEW.recovery THEN 'recovery' ELSE '' END, NEW.role);
    RETURN NULL;
END $$;
SET LOCAL ROLE freshet_owner;
REVOKE CREATE ON SCHEMA public FROM freshet_gate;
