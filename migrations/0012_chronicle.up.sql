-- Who did what to sharing, roles, devices, invitations, and what of theirs is
-- held for review: rows that only ever come to the end, each sealed together
-- with all before it. The database writes them itself, with what they tell of.
-- They hold ids and no names, so that nothing of them ever needs to go.
CREATE TABLE chronicle (
    number bigint PRIMARY KEY,
    -- When the change's transaction began.
    at timestamptz NOT NULL,
    -- The contract's ChronicleKind.
    kind smallint NOT NULL,
    -- The member who did it; none: whoever keeps the server.
    actor_id uuid,
    -- Whom, which device and which sites it is about.
    member_id uuid,
    device_id uuid,
    site_ids uuid[] NOT NULL,
    -- The kind of record that is shared, or the reason why something is held.
    about text NOT NULL,
    -- The role, or how far is shared; 0 neither.
    level smallint NOT NULL,
    -- SHA-256 of the seal before and of this row as chronicle_line writes it.
    seal bytea NOT NULL
);
CREATE INDEX chronicle_member ON chronicle (member_id);

CREATE FUNCTION chronicle_line(c chronicle) RETURNS text LANGUAGE sql STABLE AS $$
    SELECT concat_ws('|', c.number, (extract(epoch FROM c.at) * 1000000)::bigint, c.kind, coalesce(c.actor_id::text, ''), coalesce(c.member_id::text, ''),
        coalesce(c.device_id::text, ''), array_to_string(c.site_ids, ','), c.about, c.level)
$$;

-- enter_chronicle adds a row; what this transaction said last is not said twice.
CREATE FUNCTION enter_chronicle(its_kind smallint, its_actor uuid, its_member uuid, its_device uuid, its_sites uuid[], its_about text, its_level smallint)
RETURNS void LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
    last chronicle;
    this chronicle;
BEGIN
    -- One at a time: each seal needs the one before.
    PERFORM pg_advisory_xact_lock(hashtext('chronicle'));
    SELECT * INTO last FROM chronicle ORDER BY number DESC LIMIT 1;
    this := (coalesce(last.number, 0) + 1, now(), its_kind, its_actor, its_member, its_device, its_sites, its_about, its_level, NULL);
    IF (last.at, last.kind, last.actor_id, last.member_id, last.device_id, last.site_ids, last.about, last.level)
        IS NOT DISTINCT FROM (this.at, this.kind, this.actor_id, this.member_id, this.device_id, this.site_ids, this.about, this.level) THEN
        RETURN;
    END IF;
    this.seal := sha256(coalesce(last.seal, '') || convert_to(chronicle_line(this), 'UTF8'));
    INSERT INTO chronicle SELECT this.*;
END $$;

CREATE FUNCTION sites_of_account(member uuid) RETURNS uuid[]
LANGUAGE plpgsql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    RETURN ARRAY(SELECT s.site_id FROM account_sites s WHERE s.member_id = member ORDER BY s.site_id);
END $$;

CREATE FUNCTION chronicle_account() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    IF TG_OP = 'INSERT' THEN -- who joins is nobody before
        PERFORM enter_chronicle(1::smallint, coalesce(acting_member(), NEW.member_id), NEW.member_id, NULL, sites_of_account(NEW.member_id), '', NEW.role);
    ELSE
        PERFORM enter_chronicle(3::smallint, acting_member(), NEW.member_id, NULL, sites_of_account(NEW.member_id), '', NEW.role);
    END IF;
    RETURN NULL;
END $$;

CREATE FUNCTION chronicle_invitation() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    PERFORM enter_chronicle(2::smallint, NEW.created_by, NEW.member_id, NULL, NEW.site_ids, '', NEW.role);
    RETURN NULL;
END $$;

CREATE FUNCTION chronicle_device() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    IF TG_OP = 'INSERT' THEN
        PERFORM enter_chronicle(4::smallint, coalesce(acting_member(), NEW.member_id), NEW.member_id, NEW.id, '{}', '', 0::smallint);
    ELSE
        PERFORM enter_chronicle(5::smallint, acting_member(), NEW.member_id, NEW.id, '{}', '', 0::smallint);
    END IF;
    RETURN NULL;
END $$;

CREATE FUNCTION chronicle_sharing() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    PERFORM enter_chronicle(6::smallint, NEW.changed_by, NULL, NULL, ARRAY[NEW.site_id], NEW.kind, NEW.sharing);
    RETURN NULL;
END $$;

CREATE FUNCTION chronicle_held() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    PERFORM enter_chronicle(7::smallint, i.member_id, i.member_id, i.device_id,
        CASE WHEN NEW.scope ~ '^(site|house):' THEN ARRAY[split_part(NEW.scope, ':', 2)::uuid] ELSE '{}' END, NEW.reason, 0::smallint)
        FROM installs i WHERE i.install = NEW.install;
    RETURN NULL;
END $$;

-- At the end of the transaction, when a member's sites are there too.
CREATE CONSTRAINT TRIGGER chronicle AFTER INSERT OR UPDATE OF role ON accounts DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION chronicle_account();
CREATE CONSTRAINT TRIGGER chronicle AFTER INSERT ON invitations DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION chronicle_invitation();
CREATE CONSTRAINT TRIGGER chronicle AFTER INSERT ON devices DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION chronicle_device();
CREATE CONSTRAINT TRIGGER chronicle_end AFTER UPDATE OF revoked_at ON devices DEFERRABLE INITIALLY DEFERRED
    FOR EACH ROW WHEN (OLD.revoked_at IS NULL AND NEW.revoked_at IS NOT NULL) EXECUTE FUNCTION chronicle_device();
CREATE CONSTRAINT TRIGGER chronicle AFTER INSERT ON sharings DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION chronicle_sharing();
CREATE CONSTRAINT TRIGGER chronicle AFTER INSERT ON outcomes DEFERRABLE INITIALLY DEFERRED
    FOR EACH ROW WHEN (NEW.kind = 4) EXECUTE FUNCTION chronicle_held();

CREATE FUNCTION chronicle_stays() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    RAISE EXCEPTION 'rows of the chronicle are neither changed nor deleted' USING ERRCODE = 'insufficient_privilege';
END $$;
CREATE TRIGGER stays BEFORE UPDATE OR DELETE OR TRUNCATE ON chronicle EXECUTE FUNCTION chronicle_stays();

ALTER TABLE chronicle ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY;
GRANT SELECT ON chronicle TO freshet_server, freshet_keeper;
GRANT SELECT, INSERT ON chronicle TO freshet_gate;
CREATE POLICY keeper ON chronicle FOR SELECT TO freshet_keeper USING (true);
CREATE POLICY looks ON chronicle FOR SELECT TO freshet_gate USING (true);
CREATE POLICY adds ON chronicle FOR INSERT TO freshet_gate WITH CHECK (true);
-- Whom it concerns: who did it, whom it was done to, those at home at the site;
-- stewards besides what they answer for: people and devices, not others' sites.
CREATE POLICY reads ON chronicle FOR SELECT TO freshet_server
    USING (actor_id = (SELECT acting_member()) OR member_id = (SELECT acting_member()) OR site_ids && (SELECT sites_lived_at())::uuid[]
        OR kind BETWEEN 1 AND 5 AND (SELECT acting_role()) = 1);

-- Who becomes a grower or steward leaves the sites they were let into: those
-- that another grower keeps. Else a helper would come to keep them.
CREATE FUNCTION leave_others_sites() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    DELETE FROM account_sites s WHERE s.member_id = NEW.member_id AND EXISTS (SELECT FROM account_sites o JOIN accounts a ON a.member_id = o.member_id
        WHERE o.site_id = s.site_id AND o.member_id <> NEW.member_id AND a.role <= 2);
    RETURN NEW;
END $$;
CREATE TRIGGER leave_others_sites BEFORE UPDATE OF role ON accounts
    FOR EACH ROW WHEN (OLD.role > 2 AND NEW.role <= 2) EXECUTE FUNCTION leave_others_sites();

-- Functions that define their right belong to the gate; nobody calls these.
GRANT CREATE ON SCHEMA public TO freshet_gate;
DO $$
DECLARE
    f regprocedure;
BEGIN
    FOR f IN SELECT p.oid FROM pg_proc p WHERE p.pronamespace = 'public'::regnamespace AND p.prosecdef
            AND (p.proname LIKE '%chronicle%' OR p.proname IN ('sites_of_account', 'leave_others_sites')) LOOP
        EXECUTE format('REVOKE ALL ON FUNCTION %s FROM PUBLIC', f);
        EXECUTE format('ALTER FUNCTION %s OWNER TO freshet_gate', f);
    END LOOP;
END $$;
REVOKE CREATE ON SCHEMA public FROM freshet_gate;
