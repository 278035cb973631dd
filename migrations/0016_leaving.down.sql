SET LOCAL ROLE freshet_keeper;
DROP FUNCTION has_left, leave, erase_entries, erase_site, sum_labour_again, chain_again, rewrite_page, pages_left, begin_leaving, leaving;
SET LOCAL ROLE freshet_owner;
GRANT CREATE ON SCHEMA public TO freshet_gate;
SET LOCAL ROLE freshet_gate;
CREATE OR REPLACE FUNCTION enter(member uuid, OUT role smallint, OUT sites uuid[])
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    SELECT a.role INTO enter.role FROM accounts a WHERE a.member_id = enter.member;
    sites := ARRAY(SELECT s.site_id FROM account_sites s WHERE s.member_id = enter.member ORDER BY s.site_id);
    PERFORM set_config('freshet.member', CASE WHEN enter.role IS NULL THEN '' ELSE enter.member::text END, true),
        set_config('freshet.role', coalesce(enter.role::text, ''), true),
        set_config('freshet.at', sites::text, true), set_config('freshet.made', '', true);
END $$;
SET LOCAL ROLE freshet_owner;
REVOKE CREATE ON SCHEMA public FROM freshet_gate;
GRANT CREATE ON SCHEMA public TO freshet_gate;
SET LOCAL ROLE freshet_gate;
CREATE OR REPLACE FUNCTION chronicle_account() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    IF TG_OP = 'INSERT' THEN -- who joins is nobody before
        PERFORM enter_chronicle(1::smallint, coalesce(acting_member(), NEW.member_id), NEW.member_id, NULL, sites_of_account(NEW.member_id), '', NEW.role);
    ELSE
        PERFORM enter_chronicle(3::smallint, acting_member(), NEW.member_id, NULL, sites_of_account(NEW.member_id), '', NEW.role);
    END IF;
    RETURN NULL;
END $$;
SET LOCAL ROLE freshet_owner;
REVOKE CREATE ON SCHEMA public FROM freshet_gate;
ALTER POLICY reads ON chronicle
    USING (actor_id = (SELECT acting_member()) OR member_id = (SELECT acting_member()) OR site_ids && (SELECT sites_lived_at())::uuid[]
        OR kind BETWEEN 1 AND 5 AND (SELECT acting_role()) = 1);
