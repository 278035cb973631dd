-- Devices have keys of their own: the private half never leaves them, the public
-- half is kept here, and with it they renew tokens that live for an hour. What
-- a thief of the database finds opens nothing, now or later.
ALTER TABLE devices
    -- Ed25519, 32 bytes; none: a device that joined before and holds a token
    -- without an end, until it enrols a key.
    ADD COLUMN public_key bytea UNIQUE CHECK (length(public_key) = 32),
    ALTER COLUMN token_hash DROP NOT NULL,
    ADD CHECK (token_hash IS NULL OR public_key IS NULL);

-- Tokens of devices with keys. Several may hold at once: two programs on one
-- device renew each for itself.
CREATE TABLE tokens (
    hash bytea PRIMARY KEY,
    device_id uuid NOT NULL REFERENCES devices,
    ends_at timestamptz NOT NULL
);
CREATE INDEX tokens_device ON tokens (device_id);

-- Statements that were taken for a token lately, so that none is taken twice.
-- Older ones are refused for their time.
CREATE TABLE renewals (
    device_id uuid NOT NULL REFERENCES devices,
    nonce bytea NOT NULL,
    at timestamptz NOT NULL DEFAULT now(),
    PRIMARY KEY (device_id, nonce)
);

-- join_by with a key: the device is made with it, and its first token ends.
CREATE FUNCTION join_by(hash bytea, new_member uuid, new_device uuid, person text, device_name text, token bytea, key bytea, until timestamptz)
RETURNS TABLE (member_id uuid, role smallint, is_new boolean)
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    RETURN QUERY SELECT * FROM join_by(hash, new_member, new_device, person, device_name, token);
    IF FOUND THEN
        UPDATE devices d SET public_key = key, token_hash = NULL WHERE d.id = new_device;
        INSERT INTO tokens VALUES (token, new_device, until);
    END IF;
END $$;

-- enrol_key gives a device that joined without a key the one it made; what token
-- it had ends. Again with the same key is the same; false with another.
CREATE FUNCTION enrol_key(device uuid, key bytea, token bytea, until timestamptz) RETURNS boolean
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    UPDATE devices d SET public_key = key, token_hash = NULL
        WHERE d.id = device AND d.member_id = acting_member() AND d.revoked_at IS NULL AND (d.public_key IS NULL OR d.public_key = key);
    IF NOT FOUND THEN
        RETURN false;
    END IF;
    INSERT INTO tokens VALUES (token, device, until);
    RETURN true;
END $$;

-- device_key finds a device's key before anybody is known; no row without one.
CREATE FUNCTION device_key(device uuid) RETURNS TABLE (key bytea, revoked boolean)
LANGUAGE plpgsql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    RETURN QUERY SELECT d.public_key, d.revoked_at IS NOT NULL FROM devices d WHERE d.id = device AND d.public_key IS NOT NULL;
END $$;

-- renew keeps a token for a statement that the server has verified; false where
-- the statement was taken before. What has ended is let go of.
CREATE FUNCTION renew(device uuid, its_nonce bytea, token bytea, until timestamptz, lately interval) RETURNS boolean
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    INSERT INTO renewals (device_id, nonce) VALUES (device, its_nonce) ON CONFLICT DO NOTHING;
    IF NOT FOUND THEN
        RETURN false;
    END IF;
    DELETE FROM renewals r WHERE r.device_id = device AND r.at < now() - lately;
    DELETE FROM tokens t WHERE t.device_id = device AND t.ends_at < now();
    INSERT INTO tokens VALUES (token, device, until);
    RETURN true;
END $$;

CALL protect('tokens');
CALL protect('renewals');
GRANT UPDATE ON devices TO freshet_gate;
GRANT SELECT, INSERT, DELETE ON tokens, renewals TO freshet_gate;
CREATE POLICY gate ON tokens TO freshet_gate USING (true) WITH CHECK (true);
CREATE POLICY gate ON renewals TO freshet_gate USING (true) WITH CHECK (true);

-- Functions that define their right belong to the gate, and only the server
-- may call them.
GRANT CREATE ON SCHEMA public TO freshet_gate;
DO $$
DECLARE
    f regprocedure;
BEGIN
    FOR f IN SELECT p.oid FROM pg_proc p WHERE p.pronamespace = 'public'::regnamespace AND p.prosecdef
            AND p.proowner = 'freshet_owner'::regrole LOOP
        EXECUTE format('REVOKE ALL ON FUNCTION %s FROM PUBLIC', f);
        EXECUTE format('GRANT EXECUTE ON FUNCTION %s TO freshet_server', f);
        EXECUTE format('ALTER FUNCTION %s OWNER TO freshet_gate', f);
    END LOOP;
END $$;

SET LOCAL ROLE freshet_gate;
-- holder_of answers as before, for both kinds of token.
CREATE OR REPLACE FUNCTION holder_of(hash bytea) RETURNS TABLE (member_id uuid, display_name text, role smallint, joined_at timestamptz, sites uuid[], device_id uuid, revoked boolean)
LANGUAGE plpgsql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
    device uuid := (SELECT t.device_id FROM tokens t WHERE t.hash = holder_of.hash AND t.ends_at > now());
BEGIN
    device := coalesce(device, (SELECT d.id FROM devices d WHERE d.token_hash = holder_of.hash));
    RETURN QUERY SELECT a.member_id, a.display_name, a.role, a.joined_at,
            ARRAY(SELECT s.site_id FROM account_sites s WHERE s.member_id = a.member_id ORDER BY s.site_id), d.id, d.revoked_at IS NOT NULL
        FROM devices d JOIN accounts a ON a.member_id = d.member_id WHERE d.id = device;
END $$;
SET LOCAL ROLE freshet_owner;
REVOKE CREATE ON SCHEMA public FROM freshet_gate;
