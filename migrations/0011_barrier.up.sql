-- The second barrier: the database itself decides whose rows a call may touch,
-- whatever the program asks for. Each transaction first says who acts, in
-- settings that end with it; without them it sees and changes nothing.
--
-- Roles are made by the store before this step, for the whole cluster:
--   freshet_owner   owns the tables; nobody logs in as it
--   freshet_server  the server's; owns nothing and is held by every policy
--   freshet_gate    owns the few functions that must look before anybody is known
--   freshet_pool    sees, for comparisons, what sites consented to
--   freshet_keeper  whoever keeps the machine: backup, restore, invitations

-- What kinds of records there are, and where they are kept. "house": private to
-- a site unless shared by itself. No growers' data.
CREATE TABLE kinds (
    kind text PRIMARY KEY,
    kept_in text NOT NULL UNIQUE,
    house boolean NOT NULL DEFAULT false
);
GRANT SELECT ON kinds TO freshet_server, freshet_gate, freshet_pool, freshet_keeper;

-- Whose a scope and its pages are, for the policies: a site, a member, or the
-- nil uuid for the cooperative. house: of a site's private kinds.
ALTER TABLE scopes
    ADD COLUMN owner uuid NOT NULL GENERATED ALWAYS AS (CASE WHEN name = 'coop' THEN '00000000-0000-0000-0000-000000000000' ELSE split_part(name, ':', 2)::uuid END) STORED,
    ADD COLUMN house boolean NOT NULL GENERATED ALWAYS AS (name LIKE 'house:%') STORED,
    ADD UNIQUE (id, owner, house);
ALTER TABLE pages ADD COLUMN owner uuid, ADD COLUMN house boolean;
UPDATE pages p SET owner = s.owner, house = s.house FROM scopes s WHERE s.id = p.scope_id;
ALTER TABLE pages ALTER COLUMN owner SET NOT NULL, ALTER COLUMN house SET NOT NULL,
    DROP CONSTRAINT pages_scope_id_fkey, ADD FOREIGN KEY (scope_id, owner, house) REFERENCES scopes (id, owner, house);

-- How far each site shares each kind now, by its own rule, else by "all", which
-- never covers the kinds of the house; private ones are left out. The row "all"
-- is there where a site shares all kinds but those, and says how far at least.
CREATE TABLE shared_now (
    site_id uuid NOT NULL,
    kind text NOT NULL,
    sharing smallint NOT NULL,
    PRIMARY KEY (site_id, kind)
);
CREATE INDEX shared_now_kind ON shared_now (kind, sharing);

-- Who acts, as this transaction said by enter. Custom settings that were set
-- for a transaction read as '' after it.
CREATE FUNCTION acting_member() RETURNS uuid LANGUAGE sql STABLE AS
$$ SELECT nullif(current_setting('freshet.member', true), '')::uuid $$;

CREATE FUNCTION acting_role() RETURNS smallint LANGUAGE sql STABLE AS
$$ SELECT coalesce(nullif(current_setting('freshet.role', true), ''), '0')::smallint $$;

-- The sites the member is at, those they enter records at, those whose private
-- kinds they see, and those that are theirs to decide about.
CREATE FUNCTION sites_at() RETURNS uuid[] LANGUAGE sql STABLE AS
$$ SELECT coalesce(nullif(current_setting('freshet.at', true), ''), '{}')::uuid[] $$;

CREATE FUNCTION sites_entered() RETURNS uuid[] LANGUAGE sql STABLE AS
$$ SELECT CASE WHEN public.acting_role() = 4 THEN '{}' ELSE public.sites_at() END $$;

CREATE FUNCTION sites_lived_at() RETURNS uuid[] LANGUAGE sql STABLE AS
$$ SELECT CASE WHEN public.acting_role() IN (1, 2, 3) THEN public.sites_at() ELSE '{}' END $$;

CREATE FUNCTION sites_kept() RETURNS uuid[] LANGUAGE sql STABLE AS
$$ SELECT CASE WHEN public.acting_role() IN (1, 2) THEN public.sites_at() ELSE '{}' END $$;

-- Sites that this push makes; the member is at them already.
CREATE FUNCTION sites_made() RETURNS uuid[] LANGUAGE sql STABLE AS
$$ SELECT coalesce(nullif(current_setting('freshet.made', true), ''), '{}')::uuid[] $$;

-- The gate's functions: each a question that must be answered across members.
-- They run as freshet_gate, which sees accounts and sharing and no records.

-- enter says for this transaction who acts, as it stands now, and answers it.
CREATE FUNCTION enter(member uuid, OUT role smallint, OUT sites uuid[])
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    SELECT a.role INTO enter.role FROM accounts a WHERE a.member_id = enter.member;
    sites := ARRAY(SELECT s.site_id FROM account_sites s WHERE s.member_id = enter.member ORDER BY s.site_id);
    PERFORM set_config('freshet.member', CASE WHEN enter.role IS NULL THEN '' ELSE enter.member::text END, true),
        set_config('freshet.role', coalesce(enter.role::text, ''), true),
        set_config('freshet.at', sites::text, true), set_config('freshet.made', '', true);
END $$;

-- settle_shared follows a site's rules in shared_now.
CREATE FUNCTION settle_shared(site uuid) RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    DELETE FROM shared_now n WHERE n.site_id = site;
    WITH holding AS (
        SELECT DISTINCT ON (s.kind) s.kind, s.sharing FROM sharings s WHERE s.site_id = site ORDER BY s.kind, s.since DESC
    )
    INSERT INTO shared_now SELECT site, k.kind, coalesce(own.sharing, whole.sharing) FROM kinds k
        LEFT JOIN holding own ON own.kind = k.kind LEFT JOIN holding whole ON whole.kind = 'all' AND NOT k.house
        WHERE coalesce(own.sharing, whole.sharing) > 1;
    INSERT INTO shared_now SELECT site, 'all', min(n.sharing) FROM kinds k
        LEFT JOIN shared_now n ON n.site_id = site AND n.kind = k.kind WHERE NOT k.house HAVING count(*) = count(n.kind);
END $$;

-- settle_all_shared is for this step and those that add a kind, as freshet_gate.
CREATE FUNCTION settle_all_shared() RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    PERFORM settle_shared(s.site_id) FROM (SELECT DISTINCT r.site_id FROM sharings r) s;
END $$;

CREATE FUNCTION sharing_changed() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    PERFORM settle_shared(NEW.site_id);
    RETURN NULL;
END $$;

-- Sites that opened a kind to members, or ("all") every kind but the house's.
CREATE FUNCTION sites_open(of_kind text) RETURNS uuid[]
LANGUAGE plpgsql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    IF acting_role() NOT BETWEEN 1 AND 4 THEN
        RETURN '{}';
    END IF;
    RETURN ARRAY(SELECT n.site_id FROM shared_now n WHERE n.kind = of_kind AND n.sharing >= 4);
END $$;

CREATE FUNCTION kinds_open() RETURNS TABLE (site_id uuid, kept_in text)
LANGUAGE plpgsql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    IF acting_role() BETWEEN 1 AND 4 THEN
        RETURN QUERY SELECT n.site_id, k.kept_in FROM shared_now n JOIN kinds k ON k.kind = n.kind WHERE n.sharing >= 4;
    END IF;
END $$;

-- Sites that consented to be counted on a kind, or ("any") on at least one.
CREATE FUNCTION sites_counted(of_kind text) RETURNS uuid[]
LANGUAGE plpgsql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    IF acting_role() NOT BETWEEN 1 AND 4 THEN
        RETURN '{}';
    END IF;
    IF of_kind = 'any' THEN
        RETURN ARRAY(SELECT DISTINCT n.site_id FROM shared_now n);
    END IF;
    RETURN ARRAY(SELECT n.site_id FROM shared_now n WHERE n.kind = of_kind);
END $$;

CREATE FUNCTION kinds_counted() RETURNS TABLE (site_id uuid, kind text, kept_in text, sharing smallint)
LANGUAGE plpgsql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    IF acting_role() BETWEEN 1 AND 4 THEN
        RETURN QUERY SELECT n.site_id, n.kind, k.kept_in, n.sharing FROM shared_now n JOIN kinds k ON k.kind = n.kind;
    END IF;
END $$;

-- make_sites lets this push of a steward or grower make sites that nobody is at.
CREATE FUNCTION make_sites(made uuid[]) RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
    free uuid[] := ARRAY(SELECT m FROM unnest(made) m WHERE NOT EXISTS (SELECT FROM account_sites a WHERE a.site_id = m));
BEGIN
    IF acting_role() IN (1, 2) THEN
        PERFORM set_config('freshet.made', free::text, true), set_config('freshet.at', (sites_at() || free)::text, true);
    END IF;
END $$;

-- holder_of finds whose a token is, by its hash, before anybody is known.
CREATE FUNCTION holder_of(hash bytea) RETURNS TABLE (member_id uuid, display_name text, role smallint, joined_at timestamptz, sites uuid[], device_id uuid, revoked boolean)
LANGUAGE plpgsql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    RETURN QUERY SELECT a.member_id, a.display_name, a.role, a.joined_at,
            ARRAY(SELECT s.site_id FROM account_sites s WHERE s.member_id = a.member_id ORDER BY s.site_id), d.id, d.revoked_at IS NOT NULL
        FROM devices d JOIN accounts a ON a.member_id = d.member_id WHERE d.token_hash = hash;
END $$;

-- site_of tells the gate which site a record belongs to, and device_owner whose
-- a device is, so that what is another's is told from what is not there.
CREATE FUNCTION site_of(of_kind text, record uuid) RETURNS TABLE (site_id uuid)
LANGUAGE plpgsql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    RETURN QUERY EXECUTE format('SELECT %I FROM %I WHERE id = $1', CASE WHEN of_kind = 'site' THEN 'id' ELSE 'site_id' END,
        (SELECT k.kept_in FROM kinds k WHERE k.kind = of_kind)) USING record;
END $$;

CREATE FUNCTION device_owner(device uuid) RETURNS uuid
LANGUAGE plpgsql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    RETURN (SELECT d.member_id FROM devices d WHERE d.id = device);
END $$;

-- install_holder tells whose an install is, so that no two members share one.
CREATE FUNCTION install_holder(of_install bytea) RETURNS TABLE (member_id uuid)
LANGUAGE plpgsql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    RETURN QUERY SELECT i.member_id FROM installs i WHERE i.install = of_install;
END $$;

-- usable_invitation reads an invitation by its code's hash without using it.
CREATE FUNCTION usable_invitation(hash bytea) RETURNS SETOF invitations
LANGUAGE plpgsql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    RETURN QUERY SELECT * FROM invitations i WHERE i.code_hash = hash AND i.used_at IS NULL AND i.expires_at > now();
END $$;

-- join_by uses an invitation: no row where it does not hold. Of two who use it
-- at the same moment one finds it used.
CREATE FUNCTION join_by(hash bytea, new_member uuid, new_device uuid, person text, device_name text, token bytea)
RETURNS TABLE (member_id uuid, role smallint, is_new boolean)
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
    i invitations;
BEGIN
    UPDATE invitations SET used_at = now() WHERE code_hash = hash AND used_at IS NULL AND expires_at > now() RETURNING * INTO i;
    IF NOT FOUND THEN
        RETURN;
    END IF;
    is_new := i.member_id IS NULL;
    IF is_new THEN
        INSERT INTO accounts (member_id, display_name, role) VALUES (new_member, person, i.role);
        INSERT INTO account_sites (member_id, site_id) SELECT new_member, s FROM unnest(i.site_ids) s ON CONFLICT DO NOTHING;
        i.member_id := new_member;
    END IF;
    INSERT INTO devices (id, member_id, name, token_hash) VALUES (new_device, i.member_id, device_name, token);
    RETURN QUERY SELECT a.member_id, a.role, join_by.is_new FROM accounts a WHERE a.member_id = i.member_id;
END $$;

-- found_cooperative fills an empty database: false where it holds a cooperative.
CREATE FUNCTION found_cooperative(id uuid, code bytea, until timestamptz) RETURNS boolean
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    INSERT INTO server_state (cooperative_id) VALUES (found_cooperative.id) ON CONFLICT DO NOTHING;
    IF NOT FOUND THEN
        RETURN false;
    END IF;
    INSERT INTO cooperatives (id) VALUES (found_cooperative.id);
    INSERT INTO invitations (code_hash, role, expires_at) VALUES (code, 1, until);
    RETURN true;
END $$;

-- set_role changes what a member may do. A steward may let them into the
-- steward's own sites and leave them where they are; nobody is let into others'.
-- Answers '', or 'forbidden', 'unknown', 'last', 'site'.
CREATE FUNCTION set_role(of_member uuid, new_role smallint, new_sites uuid[]) RETURNS text
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
    stewards uuid[];
    had uuid[];
BEGIN
    -- All stewards' rows are locked, so that two who step down at the same
    -- moment see each other.
    stewards := ARRAY(SELECT a.member_id FROM accounts a WHERE a.role = 1 ORDER BY a.member_id FOR UPDATE);
    IF acting_member() IS NULL OR acting_member() <> ALL (stewards) THEN
        RETURN 'forbidden';
    END IF;
    IF NOT EXISTS (SELECT FROM accounts a WHERE a.member_id = of_member) THEN
        RETURN 'unknown';
    END IF;
    IF new_role <> 1 AND stewards = ARRAY[of_member] THEN
        RETURN 'last';
    END IF;
    had := ARRAY(SELECT s.site_id FROM account_sites s WHERE s.member_id = of_member);
    IF NOT new_sites <@ (had || sites_kept()) THEN
        RETURN 'site';
    END IF;
    UPDATE accounts SET role = new_role WHERE accounts.member_id = of_member;
    IF new_role > 2 THEN
        DELETE FROM account_sites s WHERE s.member_id = of_member;
        INSERT INTO account_sites (member_id, site_id) SELECT of_member, s FROM unnest(new_sites) s ON CONFLICT DO NOTHING;
    END IF;
    RETURN '';
END $$;

-- protect closes a table: row security, forced on its owner too, and the keeper's way in.
CREATE PROCEDURE protect(tabled text) LANGUAGE plpgsql AS $$
BEGIN
    EXECUTE format('ALTER TABLE %1$I ENABLE ROW LEVEL SECURITY, FORCE ROW LEVEL SECURITY', tabled);
    EXECUTE format('GRANT SELECT, INSERT, UPDATE, DELETE ON %I TO freshet_keeper', tabled);
    EXECUTE format('CREATE POLICY keeper ON %I TO freshet_keeper USING (true) WITH CHECK (true)', tabled);
END $$;

-- protect_events closes a table of events of a kind: read at the site and where
-- the kind is open, entered at the site by the member who acts.
CREATE PROCEDURE protect_events(of_kind text, tabled text, of_house boolean DEFAULT false) LANGUAGE plpgsql AS $$
DECLARE
    readers text := CASE WHEN of_house THEN 'sites_lived_at()' ELSE 'sites_at()' END;
    writers text := CASE WHEN of_house THEN 'sites_lived_at()' WHEN of_kind IN ('reading', 'correction') THEN 'sites_entered()' ELSE 'sites_lived_at()' END;
BEGIN
    INSERT INTO kinds VALUES (of_kind, tabled, of_house);
    CALL protect(tabled);
    EXECUTE format('GRANT SELECT, INSERT, UPDATE (corrected_by) ON %I TO freshet_server', tabled);
    EXECUTE format('CREATE POLICY reads ON %I FOR SELECT TO freshet_server
        USING (site_id = ANY ((SELECT %s)::uuid[]) OR site_id = ANY ((SELECT sites_open(%L))::uuid[]))', tabled, readers, of_kind);
    EXECUTE format('CREATE POLICY enters ON %I FOR INSERT TO freshet_server
        WITH CHECK (member_id = (SELECT acting_member()) AND site_id = ANY ((SELECT %s)::uuid[]))', tabled, writers);
    EXECUTE format('CREATE POLICY corrects ON %1$I FOR UPDATE TO freshet_server
        USING (site_id = ANY ((SELECT %2$s)::uuid[])) WITH CHECK (site_id = ANY ((SELECT %2$s)::uuid[]))', tabled, writers);
    EXECUTE format('GRANT SELECT ON %I TO freshet_pool', tabled);
    EXECUTE format('CREATE POLICY compares ON %I FOR SELECT TO freshet_pool
        USING (site_id = ANY ((SELECT sites_counted(%L))::uuid[]))', tabled, of_kind);
END $$;

-- protect_records closes a table of records that a site or the cooperative holds.
CREATE PROCEDURE protect_records(of_kind text, tabled text) LANGUAGE plpgsql AS $$
DECLARE
    writes text := 'site_id = ANY ((SELECT sites_lived_at())::uuid[]) OR site_id IS NULL AND (SELECT acting_role()) IN (1, 2)';
BEGIN
    INSERT INTO kinds VALUES (of_kind, tabled);
    CALL protect(tabled);
    EXECUTE format('GRANT SELECT, INSERT, UPDATE ON %I TO freshet_server', tabled);
    EXECUTE format('CREATE POLICY reads ON %I FOR SELECT TO freshet_server
        USING (site_id = ANY ((SELECT sites_at())::uuid[]) OR site_id IS NULL AND (SELECT acting_member()) IS NOT NULL
            OR site_id = ANY ((SELECT sites_open(%L))::uuid[]))', tabled, of_kind);
    EXECUTE format('CREATE POLICY makes ON %I FOR INSERT TO freshet_server WITH CHECK (%s)', tabled, writes);
    EXECUTE format('CREATE POLICY edits ON %1$I FOR UPDATE TO freshet_server USING (%2$s) WITH CHECK (%2$s)', tabled, writes);
    EXECUTE format('GRANT SELECT (id, site_id) ON %I TO freshet_gate', tabled);
    EXECUTE format('CREATE POLICY gate ON %I FOR SELECT TO freshet_gate USING (true)', tabled);
    EXECUTE format('GRANT SELECT ON %I TO freshet_pool', tabled);
    EXECUTE format('CREATE POLICY compares ON %I FOR SELECT TO freshet_pool
        USING (site_id IS NULL OR site_id = ANY ((SELECT sites_counted(''any''))::uuid[]))', tabled);
END $$;

CALL protect_events('reading', 'readings');
CALL protect_events('feeding', 'feedings');
CALL protect_events('stocking', 'stockings');
CALL protect_events('weighing', 'weighings');
CALL protect_events('count', 'counts');
CALL protect_events('death', 'deaths');
CALL protect_events('move', 'moves');
CALL protect_events('fish_harvest', 'fish_harvests');
CALL protect_events('sowing', 'sowings');
CALL protect_events('transplanting', 'transplantings');
CALL protect_events('bed_harvest', 'bed_harvests');
CALL protect_events('pulling', 'pullings');
CALL protect_events('dosing', 'dosings');
CALL protect_events('treatment', 'treatments');
CALL protect_events('water_in', 'waters_in');
CALL protect_events('water_out', 'waters_out');
CALL protect_events('solids_out', 'solids_out');
CALL protect_events('disposition', 'dispositions');
CALL protect_events('upkeep', 'upkeep');
CALL protect_events('incident', 'incidents');
CALL protect_events('energy', 'energy');
CALL protect_events('correction', 'corrections');
CALL protect_events('labour', 'labour', true);
CALL protect_events('expense', 'expenses', true);
CALL protect_events('note', 'notes', true);
CALL protect_events('photo', 'photos', true);

CALL protect_records('system', 'systems');
CALL protect_records('vessel', 'vessels');
CALL protect_records('bed', 'beds');
CALL protect_records('equipment', 'equipment');
CALL protect_records('cohort', 'cohorts');
CALL protect_records('planting', 'plantings');
CALL protect_records('feed', 'feeds');
CALL protect_records('species', 'species');
CALL protect_records('crop', 'crops');
CALL protect_records('remedy', 'remedies');
CALL protect_records('plan', 'plans');
CALL protect_records('trial', 'trials');

INSERT INTO kinds VALUES ('cooperative', 'cooperatives'), ('member', 'members'), ('site', 'sites');

CALL protect('cooperatives');
GRANT SELECT, UPDATE ON cooperatives TO freshet_server;
CREATE POLICY reads ON cooperatives FOR SELECT TO freshet_server USING (true);
CREATE POLICY edits ON cooperatives FOR UPDATE TO freshet_server USING ((SELECT acting_role()) = 1);

CALL protect('members');
GRANT SELECT, INSERT, UPDATE ON members TO freshet_server;
CREATE POLICY own ON members TO freshet_server USING (id = (SELECT acting_member())) WITH CHECK (id = (SELECT acting_member()));

CALL protect('sites');
GRANT SELECT, INSERT, UPDATE ON sites TO freshet_server;
CREATE POLICY reads ON sites FOR SELECT TO freshet_server USING (id = ANY ((SELECT sites_at())::uuid[])
    OR id = ANY ((SELECT sites_open('site'))::uuid[]));
CREATE POLICY makes ON sites FOR INSERT TO freshet_server WITH CHECK (id = ANY ((SELECT sites_made())::uuid[]));
CREATE POLICY edits ON sites FOR UPDATE TO freshet_server USING (id = ANY ((SELECT sites_kept())::uuid[]));
GRANT SELECT (id) ON sites TO freshet_gate;
CREATE POLICY gate ON sites FOR SELECT TO freshet_gate USING (true);
GRANT SELECT ON sites TO freshet_pool;
CREATE POLICY compares ON sites FOR SELECT TO freshet_pool USING (id = ANY ((SELECT sites_counted('any'))::uuid[]));

-- protect_sums closes a table of sums, whose noun says the table summed up: read
-- as what went in, written by whoever enters it.
CREATE PROCEDURE protect_sums(tabled text, noun text DEFAULT 'noun') LANGUAGE plpgsql AS $$
DECLARE
    writes text := format($q$site_id = ANY ((SELECT sites_lived_at())::uuid[])
        OR site_id = ANY ((SELECT sites_entered())::uuid[]) AND %s = 'readings'$q$, noun);
BEGIN
    CALL protect(tabled);
    EXECUTE format('GRANT SELECT, INSERT, UPDATE, DELETE ON %I TO freshet_server', tabled);
    EXECUTE format('CREATE POLICY reads ON %I FOR SELECT TO freshet_server USING (site_id = ANY ((SELECT sites_lived_at())::uuid[])
        OR site_id = ANY ((SELECT sites_at())::uuid[]) AND %2$s NOT IN (SELECT k.kept_in FROM kinds k WHERE k.house)
        OR (site_id, %2$s) IN (SELECT o.site_id, o.kept_in FROM kinds_open() o))', tabled, noun);
    EXECUTE format('CREATE POLICY sums ON %1$I TO freshet_server USING (%2$s) WITH CHECK (%2$s)', tabled, writes);
    EXECUTE format('GRANT SELECT ON %I TO freshet_pool', tabled);
    EXECUTE format('CREATE POLICY compares ON %I FOR SELECT TO freshet_pool
        USING ((site_id, %s) IN (SELECT c.site_id, c.kept_in FROM kinds_counted() c))', tabled, noun);
END $$;

CALL protect_sums('daily');
CALL protect_sums('monthly');
CALL protect_sums('monthly_bins', $$'readings'$$);

CALL protect('scopes');
GRANT SELECT, INSERT, UPDATE ON scopes TO freshet_server;
CALL protect('pages');
GRANT SELECT, INSERT ON pages TO freshet_server;
DO $$
DECLARE
    of_coop text := $q$owner = '00000000-0000-0000-0000-000000000000'$q$;
    reads text := 'owner = ANY ((SELECT sites_at())::uuid[]) AND NOT house OR owner = ANY ((SELECT sites_lived_at())::uuid[])
        OR owner = (SELECT acting_member()) OR ' || of_coop || ' AND (SELECT acting_member()) IS NOT NULL
        OR owner = ANY ((SELECT sites_open(''all''))::uuid[]) AND NOT house';
    writes text := 'owner = ANY ((SELECT sites_entered())::uuid[]) AND NOT house OR owner = ANY ((SELECT sites_lived_at())::uuid[])
        OR owner = (SELECT acting_member()) OR ' || of_coop || ' AND (SELECT acting_role()) IN (1, 2)';
BEGIN
    EXECUTE format('CREATE POLICY reads ON scopes FOR SELECT TO freshet_server USING (%s)', reads);
    EXECUTE format('CREATE POLICY makes ON scopes FOR INSERT TO freshet_server WITH CHECK (%s)', writes);
    EXECUTE format('CREATE POLICY raises ON scopes FOR UPDATE TO freshet_server USING (%s)', writes);
    EXECUTE format('CREATE POLICY reads ON pages FOR SELECT TO freshet_server USING (%s)', reads);
    EXECUTE format('CREATE POLICY adds ON pages FOR INSERT TO freshet_server WITH CHECK (%s)', writes);
END $$;

CALL protect('installs');
GRANT SELECT, INSERT, UPDATE ON installs TO freshet_server;
CREATE POLICY own ON installs TO freshet_server USING (member_id = (SELECT acting_member())) WITH CHECK (member_id = (SELECT acting_member()));

CALL protect('outcomes');
GRANT SELECT, INSERT, UPDATE (settled_at) ON outcomes TO freshet_server;
CREATE POLICY own ON outcomes FOR SELECT TO freshet_server USING (EXISTS (SELECT FROM installs i WHERE i.install = outcomes.install)
    OR scope = ANY ((SELECT ARRAY(SELECT 'site:' || s FROM unnest(sites_kept()) s))::text[]));
CREATE POLICY adds ON outcomes FOR INSERT TO freshet_server WITH CHECK (EXISTS (SELECT FROM installs i WHERE i.install = outcomes.install));
CREATE POLICY settles ON outcomes FOR UPDATE TO freshet_server
    USING (scope = ANY ((SELECT ARRAY(SELECT 'site:' || s FROM unnest(sites_kept()) s))::text[]));

CALL protect('server_state');
GRANT SELECT ON server_state TO freshet_server;
CREATE POLICY reads ON server_state FOR SELECT TO freshet_server USING (true);

CALL protect('accounts');
GRANT SELECT ON accounts TO freshet_server;
CREATE POLICY reads ON accounts FOR SELECT TO freshet_server
    USING (member_id = (SELECT acting_member()) OR (SELECT acting_role()) BETWEEN 1 AND 4);

CALL protect('account_sites');
GRANT SELECT, INSERT ON account_sites TO freshet_server;
CREATE POLICY reads ON account_sites FOR SELECT TO freshet_server
    USING (member_id = (SELECT acting_member()) OR (SELECT acting_role()) = 1 OR site_id = ANY ((SELECT sites_kept())::uuid[]));
CREATE POLICY makes ON account_sites FOR INSERT TO freshet_server
    WITH CHECK (member_id = (SELECT acting_member()) AND site_id = ANY ((SELECT sites_made())::uuid[]));

CALL protect('devices');
GRANT SELECT, UPDATE (last_contact_at, revoked_at) ON devices TO freshet_server;
CREATE POLICY reads ON devices FOR SELECT TO freshet_server
    USING (member_id = (SELECT acting_member()) OR (SELECT acting_role()) = 1);
CREATE POLICY ends ON devices FOR UPDATE TO freshet_server
    USING (member_id = (SELECT acting_member()) OR (SELECT acting_role()) = 1);

CALL protect('invitations');
GRANT INSERT ON invitations TO freshet_server;
CREATE POLICY invites ON invitations FOR INSERT TO freshet_server WITH CHECK (created_by = (SELECT acting_member()) AND used_at IS NULL AND
    (member_id = (SELECT acting_member()) AND site_ids = '{}'
     OR member_id IS NULL AND site_ids <@ (SELECT sites_kept())::uuid[]
        AND ((SELECT acting_role()) = 1 OR (SELECT acting_role()) = 2 AND role > 2 AND site_ids <> '{}')));

CALL protect('sharings');
GRANT SELECT, INSERT ON sharings TO freshet_server;
CREATE POLICY reads ON sharings FOR SELECT TO freshet_server
    USING (site_id = ANY ((SELECT sites_at())::uuid[]) OR site_id = ANY ((SELECT sites_open('all'))::uuid[]));
CREATE POLICY sets ON sharings FOR INSERT TO freshet_server
    WITH CHECK (site_id = ANY ((SELECT sites_kept())::uuid[]) AND changed_by = (SELECT acting_member()));

CREATE TRIGGER sharing_changed AFTER INSERT ON sharings FOR EACH ROW EXECUTE FUNCTION sharing_changed();
CALL protect('shared_now');

-- The gate sees accounts, devices, invitations, installs and sharing.
GRANT SELECT, INSERT, UPDATE ON accounts TO freshet_gate;
GRANT SELECT, INSERT, DELETE ON account_sites TO freshet_gate;
GRANT SELECT, INSERT ON devices TO freshet_gate;
GRANT SELECT, INSERT, UPDATE ON invitations TO freshet_gate;
GRANT SELECT ON installs, sharings TO freshet_gate;
GRANT SELECT, INSERT ON server_state TO freshet_gate;
GRANT INSERT ON cooperatives TO freshet_gate;
CREATE POLICY gate ON accounts TO freshet_gate USING (true) WITH CHECK (true);
CREATE POLICY gate ON account_sites TO freshet_gate USING (true) WITH CHECK (true);
CREATE POLICY gate ON devices TO freshet_gate USING (true) WITH CHECK (true);
CREATE POLICY gate ON invitations TO freshet_gate USING (true) WITH CHECK (true);
CREATE POLICY gate ON installs FOR SELECT TO freshet_gate USING (true);
CREATE POLICY gate ON sharings FOR SELECT TO freshet_gate USING (true);
GRANT SELECT, INSERT, DELETE ON shared_now TO freshet_gate;
CREATE POLICY gate ON shared_now TO freshet_gate USING (true) WITH CHECK (true);
CREATE POLICY gate ON server_state TO freshet_gate USING (true) WITH CHECK (true);
CREATE POLICY gate ON cooperatives FOR INSERT TO freshet_gate WITH CHECK (true);

-- Functions that define their right belong to the gate, and only the server
-- and the pool may call them.
GRANT EXECUTE ON FUNCTION sites_counted, kinds_counted TO freshet_pool;
GRANT CREATE ON SCHEMA public TO freshet_gate;
DO $$
DECLARE
    f regprocedure;
BEGIN
    FOR f IN SELECT p.oid FROM pg_proc p WHERE p.pronamespace = 'public'::regnamespace AND p.prosecdef LOOP
        EXECUTE format('REVOKE ALL ON FUNCTION %s FROM PUBLIC', f);
        EXECUTE format('GRANT EXECUTE ON FUNCTION %s TO freshet_server', f);
        EXECUTE format('ALTER FUNCTION %s OWNER TO freshet_gate', f);
    END LOOP;
END $$;
REVOKE CREATE ON SCHEMA public FROM freshet_gate;
GRANT SELECT ON schema_migrations TO freshet_server, freshet_keeper;

-- What sites shared before this step.
SET LOCAL ROLE freshet_gate;
SELECT settle_all_shared();
SET LOCAL ROLE freshet_owner;
