GRANT CREATE ON SCHEMA public TO freshet_gate;
SET LOCAL ROLE freshet_gate;
DROP FUNCTION make_recovery;
CREATE OR REPLACE FUNCTION chronicle_invitation() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    PERFORM enter_chronicle(2::smallint, NEW.created_by, NEW.member_id, NULL, NEW.site_ids, '', NEW.role);
    RETURN NULL;
END $$;
SET LOCAL ROLE freshet_owner;
REVOKE CREATE ON SCHEMA public FROM freshet_gate;
-- Recovery codes are no longer told from invitations that hold for ever.
DELETE FROM invitations WHERE recovery;
ALTER TABLE invitations DROP COLUMN recovery;
