-- Leaving: a member's membership ends and what is theirs is erased. Whose it is,
-- is the member who acts, whom no function here takes as an argument: a fault of
-- the server could erase no other.
--
-- Of the account a row without a name stays, so that the chronicle's ids mean
-- somebody, devices are told why they are shut out, and no install's ids can be
-- made a second time.

-- Whoever leaves waits for pushes under way, and pushes wait for them: what a
-- push found the member to be holds until it ends.
GRANT CREATE ON SCHEMA public TO freshet_gate;
SET LOCAL ROLE freshet_gate;
CREATE OR REPLACE FUNCTION enter(member uuid, OUT role smallint, OUT sites uuid[])
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    PERFORM pg_advisory_xact_lock_shared(hashtext('leaving'));
    SELECT a.role INTO enter.role FROM accounts a WHERE a.member_id = enter.member AND a.role > 0;
    sites := ARRAY(SELECT s.site_id FROM account_sites s WHERE s.member_id = enter.member ORDER BY s.site_id);
    PERFORM set_config('freshet.member', CASE WHEN enter.role IS NULL THEN '' ELSE enter.member::text END, true),
        set_config('freshet.role', coalesce(enter.role::text, ''), true),
        set_config('freshet.at', sites::text, true), set_config('freshet.made', '', true);
END $$;
SET LOCAL ROLE freshet_owner;
REVOKE CREATE ON SCHEMA public FROM freshet_gate;

-- leaving tells what would go: '' or why not ('unknown', 'last'), the sites that
-- only the member keeps, which are erased whole, and those where others stay.
CREATE FUNCTION leaving(OUT refused text, OUT erased uuid[], OUT staying uuid[])
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
    me uuid := acting_member();
    its_role smallint := (SELECT a.role FROM accounts a WHERE a.member_id = me AND a.role > 0);
BEGIN
    refused := CASE WHEN its_role IS NULL THEN 'unknown'
        WHEN its_role = 1 AND NOT EXISTS (SELECT FROM accounts a WHERE a.role = 1 AND a.member_id <> me) THEN 'last' ELSE '' END;
    erased := ARRAY(SELECT s.site_id FROM account_sites s WHERE s.member_id = me AND its_role IN (1, 2)
        AND NOT EXISTS (SELECT FROM account_sites o JOIN accounts a ON a.member_id = o.member_id AND a.role IN (1, 2)
            WHERE o.site_id = s.site_id AND o.member_id <> me) ORDER BY 1);
    staying := ARRAY(SELECT s.site_id FROM account_sites s WHERE s.member_id = me AND s.site_id <> ALL (erased) ORDER BY 1);
END $$;

-- begin_leaving is leaving, with everybody else's pushes and leaving held off
-- until the transaction ends.
CREATE FUNCTION begin_leaving(OUT refused text, OUT erased uuid[], OUT staying uuid[])
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    PERFORM pg_advisory_xact_lock(hashtext('leaving'));
    PERFORM FROM accounts a WHERE a.role = 1 ORDER BY a.member_id FOR UPDATE;
    SELECT l.refused, l.erased, l.staying INTO begin_leaving.refused, begin_leaving.erased, begin_leaving.staying FROM leaving() l;
END $$;

-- pages_left are the feed's pages that the member entered and that stay.
CREATE FUNCTION pages_left() RETURNS TABLE (scope_id integer, sequence bigint, block bytea)
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    RETURN QUERY SELECT p.scope_id, p.sequence, p.block FROM pages p
        WHERE p.owner <> acting_member() AND p.owner <> ALL ((SELECT l.erased FROM leaving() l)::uuid[])
            AND position(convert_to(acting_member()::text, 'UTF8') IN p.block) > 0;
END $$;

-- rewrite_page puts a page without the member in the place of one with them.
CREATE FUNCTION rewrite_page(of_scope integer, of_sequence bigint, rewritten bytea, operations integer) RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    UPDATE pages p SET block = rewritten, operations_count = operations
        WHERE p.scope_id = of_scope AND p.sequence = of_sequence AND position(convert_to(acting_member()::text, 'UTF8') IN p.block) > 0;
    IF NOT FOUND THEN
        RAISE EXCEPTION 'this page is not of whoever leaves' USING ERRCODE = 'insufficient_privilege';
    END IF;
END $$;

-- chain_again follows a scope's pages with the rolling hash, from the first on:
-- devices that hold the pages as they were begin the scope anew.
CREATE FUNCTION chain_again(of_scope integer) RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
    p pages;
    rolled bytea := '';
    total bigint := 0;
BEGIN
    FOR p IN SELECT * FROM pages WHERE scope_id = of_scope ORDER BY sequence LOOP
        rolled := substring(sha256(rolled || p.block) FOR 16);
        total := total + p.operations_count;
        IF rolled <> p.chain THEN
            UPDATE pages SET chain = rolled WHERE scope_id = of_scope AND sequence = p.sequence;
        END IF;
    END LOOP;
    UPDATE scopes SET chain = rolled, operations_count = total WHERE id = of_scope;
END $$;

-- sum_labour_again reckons sites' labour anew, by day and by month.
CREATE FUNCTION sum_labour_again(sites uuid[]) RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    DELETE FROM daily WHERE noun = 'labour' AND site_id = ANY (sites);
    DELETE FROM monthly WHERE noun = 'labour' AND site_id = ANY (sites);
    INSERT INTO daily
        SELECT l.site_id, 'labour', 0, '00000000-0000-0000-0000-000000000000', (l.occurred_at AT TIME ZONE coalesce(z.name, 'UTC'))::date,
            count(*), sum(m.micro), min(m.micro), max(m.micro)
        FROM labour l CROSS JOIN LATERAL (SELECT (l.minutes::double precision * 1e6)::bigint AS micro) m
            LEFT JOIN sites s ON s.id = l.site_id LEFT JOIN pg_timezone_names z ON z.name = s.time_zone
        WHERE l.corrected_by IS NULL AND l.site_id = ANY (sites) GROUP BY 1, 5;
    INSERT INTO monthly
        SELECT site_id, noun, quantity, subject_id, date_trunc('month', day)::date, sum(n), sum(sum_micro), min(low_micro), max(high_micro),
            bit_or(1 << (extract(day FROM day)::integer - 1))
        FROM daily WHERE noun = 'labour' AND site_id = ANY (sites) GROUP BY 1, 2, 3, 4, 5;
END $$;

-- erase_site takes away all that is kept of a site; files of photos are a step to
-- come, which is made before anybody can leave.
CREATE FUNCTION erase_site(gone uuid) RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
    k kinds;
    tabled text;
BEGIN
    FOR k IN SELECT * FROM kinds WHERE kept_in NOT IN ('cooperatives', 'members', 'sites') LOOP
        EXECUTE format('DELETE FROM %I WHERE site_id = $1', k.kept_in) USING gone;
    END LOOP;
    FOREACH tabled IN ARRAY ARRAY['daily', 'monthly', 'monthly_bins', 'sharings', 'shared_now', 'account_sites', 'photo_files'] LOOP
        EXECUTE format('DELETE FROM %I WHERE site_id = $1', tabled) USING gone;
    END LOOP;
    DELETE FROM sites WHERE id = gone;
    DELETE FROM outcomes WHERE scope IN ('site:' || gone, 'house:' || gone);
    DELETE FROM invitations WHERE gone = ANY (site_ids);
    DELETE FROM pages WHERE owner = gone;
    DELETE FROM scopes WHERE owner = gone;
END $$;

-- erase_entries takes the member out of what stays: numbers without a name. What
-- they entered of the kinds of the house goes, and their words do.
CREATE FUNCTION erase_entries(free_words text[]) RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
    me uuid := acting_member();
    worked_at uuid[] := ARRAY(SELECT DISTINCT l.site_id FROM labour l WHERE l.member_id = me);
    emptied text;
    k kinds;
BEGIN
    FOR k IN SELECT * FROM kinds e WHERE EXISTS (SELECT FROM information_schema.columns c
            WHERE c.table_schema = 'public' AND c.table_name = e.kept_in AND c.column_name = 'member_id') LOOP
        IF k.house THEN
            EXECUTE format('DELETE FROM %I WHERE member_id = $1', k.kept_in) USING me;
            CONTINUE;
        END IF;
        SELECT coalesce(string_agg(format(', %I = ''''', c.column_name), ''), '') INTO emptied FROM information_schema.columns c
            WHERE c.table_schema = 'public' AND c.table_name = k.kept_in AND c.column_name = ANY (free_words);
        EXECUTE format('UPDATE %I SET member_id = ''00000000-0000-0000-0000-000000000000''%s WHERE member_id = $1', k.kept_in, emptied) USING me;
    END LOOP;
    DELETE FROM photo_files f WHERE f.sender_id = me
        AND NOT EXISTS (SELECT FROM photos p WHERE p.site_id = f.site_id AND p.sha256 = f.sha256 AND p.corrected_by IS NULL);
    UPDATE photo_files SET sender_id = '00000000-0000-0000-0000-000000000000' WHERE sender_id = me;
    PERFORM sum_labour_again(worked_at);
END $$;

-- leave erases what is the acting member's, once pages_left were rewritten, and
-- ends their membership. It answers '' or why not, as leaving does.
CREATE FUNCTION leave(free_words text[]) RETURNS text
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
    me uuid := acting_member();
    l record;
BEGIN
    SELECT * INTO l FROM begin_leaving();
    IF l.refused <> '' THEN
        RETURN l.refused;
    END IF;
    PERFORM erase_site(s) FROM unnest(l.erased) s;
    PERFORM erase_entries(free_words);
    DELETE FROM members WHERE id = me;
    DELETE FROM outcomes o USING installs i WHERE i.install = o.install AND i.member_id = me;
    DELETE FROM pages WHERE owner = me;
    DELETE FROM scopes WHERE owner = me;
    DELETE FROM account_sites WHERE member_id = me;
    DELETE FROM invitations WHERE member_id = me OR created_by = me AND used_at IS NULL;
    UPDATE devices SET name = '', last_contact_at = NULL, revoked_at = coalesce(revoked_at, now()) WHERE member_id = me;
    UPDATE accounts SET role = 0, display_name = '' WHERE member_id = me;
    RETURN '';
END $$;

-- has_left tells a device that proves itself why it is shut out.
CREATE FUNCTION has_left(device uuid) RETURNS boolean
LANGUAGE plpgsql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    RETURN EXISTS (SELECT FROM devices d JOIN accounts a ON a.member_id = d.member_id WHERE d.id = device AND a.role = 0);
END $$;

-- The chronicle keeps that somebody left.
GRANT CREATE ON SCHEMA public TO freshet_gate;
SET LOCAL ROLE freshet_gate;
CREATE OR REPLACE FUNCTION chronicle_account() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    IF TG_OP = 'INSERT' THEN -- who joins is nobody before
        PERFORM enter_chronicle(1::smallint, coalesce(acting_member(), NEW.member_id), NEW.member_id, NULL, sites_of_account(NEW.member_id), '', NEW.role);
    ELSIF NEW.role = 0 THEN
        PERFORM enter_chronicle(8::smallint, acting_member(), NEW.member_id, NULL, '{}', '', 0::smallint);
    ELSE
        PERFORM enter_chronicle(3::smallint, acting_member(), NEW.member_id, NULL, sites_of_account(NEW.member_id), '', NEW.role);
    END IF;
    RETURN NULL;
END $$;
SET LOCAL ROLE freshet_owner;
REVOKE CREATE ON SCHEMA public FROM freshet_gate;

-- Stewards answer for people: they read that one left.
ALTER POLICY reads ON chronicle
    USING (actor_id = (SELECT acting_member()) OR member_id = (SELECT acting_member()) OR site_ids && (SELECT sites_lived_at())::uuid[]
        OR (kind BETWEEN 1 AND 5 OR kind = 8) AND (SELECT acting_role()) = 1);

-- These see all rows, as the keeper does, and do what they do to the member who
-- acts. The server calls those that begin, read, rewrite and end; the others are
-- called by them.
GRANT CREATE ON SCHEMA public TO freshet_keeper;
DO $$
DECLARE
    f regprocedure;
BEGIN
    FOR f IN SELECT p.oid FROM pg_proc p WHERE p.pronamespace = 'public'::regnamespace AND p.proname IN
            ('leaving', 'begin_leaving', 'pages_left', 'rewrite_page', 'chain_again', 'sum_labour_again', 'erase_site', 'erase_entries', 'leave', 'has_left') LOOP
        EXECUTE format('REVOKE ALL ON FUNCTION %s FROM PUBLIC', f);
        EXECUTE format('ALTER FUNCTION %s OWNER TO freshet_keeper', f);
    END LOOP;
END $$;
REVOKE CREATE ON SCHEMA public FROM freshet_keeper;
GRANT EXECUTE ON FUNCTION acting_member TO freshet_keeper;
SET LOCAL ROLE freshet_keeper;
GRANT EXECUTE ON FUNCTION leaving, begin_leaving, pages_left, rewrite_page, chain_again, leave, has_left TO freshet_server;
SET LOCAL ROLE freshet_owner;
