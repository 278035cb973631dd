SET LOCAL ROLE freshet_gate;
DROP FUNCTION renew, device_key, enrol_key, join_by(bytea, uuid, uuid, text, text, bytea, bytea, timestamptz);
SET LOCAL ROLE freshet_owner;
GRANT CREATE ON SCHEMA public TO freshet_gate;
SET LOCAL ROLE freshet_gate;
CREATE OR REPLACE FUNCTION holder_of(hash bytea) RETURNS TABLE (member_id uuid, display_name text, role smallint, joined_at timestamptz, sites uuid[], device_id uuid, revoked boolean)
LANGUAGE plpgsql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    RETURN QUERY SELECT a.member_id, a.display_name, a.role, a.joined_at,
            ARRAY(SELECT s.site_id FROM account_sites s WHERE s.member_id = a.member_id ORDER BY s.site_id), d.id, d.revoked_at IS NOT NULL
        FROM devices d JOIN accounts a ON a.member_id = d.member_id WHERE d.token_hash = hash;
END $$;
SET LOCAL ROLE freshet_owner;
REVOKE CREATE ON SCHEMA public FROM freshet_gate;
DROP TABLE renewals, tokens;
REVOKE UPDATE ON devices FROM freshet_gate;
-- Devices with keys know no token that an earlier release takes: their people
-- join anew. The hash is of nothing that anybody has.
UPDATE devices SET token_hash = sha256(convert_to(gen_random_uuid()::text || gen_random_uuid()::text, 'UTF8')) WHERE token_hash IS NULL;
ALTER TABLE devices DROP COLUMN public_key, ALTER COLUMN token_hash SET NOT NULL;
