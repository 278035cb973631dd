-- A comparison is made of a cast of sites that changes only when as many members
-- as the smallest group have come or gone, or after a year: no two answers differ
-- by one member's sites.
CREATE TABLE casts (
    -- What is compared: the contract's PoolMeasure.
    measure smallint PRIMARY KEY,
    sites uuid[] NOT NULL,
    since timestamptz NOT NULL DEFAULT now()
);
CALL protect('casts');
GRANT SELECT, INSERT, UPDATE ON casts TO freshet_gate;
CREATE POLICY gate ON casts TO freshet_gate USING (true) WITH CHECK (true);

-- members_of counts whose sites these are; a site without a keeper counts as one.
CREATE FUNCTION members_of(of_sites uuid[]) RETURNS integer
LANGUAGE plpgsql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    RETURN (SELECT count(DISTINCT coalesce((SELECT min(a.member_id::text) FROM account_sites s JOIN accounts a ON a.member_id = s.member_id AND a.role IN (1, 2)
        WHERE s.site_id = o), o::text)) FROM unnest(of_sites) o);
END $$;

-- cast_of answers which of the sites that could be compared now are, of how many
-- members, and of how many members sites came or went since the cast was made. It
-- makes the cast anew where it may be. Before the first is made, nobody's sites
-- are in it: what is shown of fewer would differ by whoever joins.
CREATE FUNCTION cast_of(its_measure smallint, ready uuid[], smallest integer, OUT sites uuid[], OUT members integer, OUT gone integer, OUT waiting integer)
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
    c casts;
    came uuid[];
    went uuid[];
BEGIN
    PERFORM pg_advisory_xact_lock(hashtext('cast'), its_measure);
    SELECT * INTO c FROM casts k WHERE k.measure = its_measure;
    came := ARRAY(SELECT r FROM unnest(ready) r WHERE r <> ALL (coalesce(c.sites, '{}')));
    went := ARRAY(SELECT s FROM unnest(c.sites) s WHERE s <> ALL (ready));
    IF members_of(ready) >= smallest AND (c.measure IS NULL OR members_of(came || went) >= smallest OR c.since < now() - interval '364 days') THEN
        INSERT INTO casts (measure, sites) VALUES (its_measure, ready)
            ON CONFLICT (measure) DO UPDATE SET sites = EXCLUDED.sites, since = now();
        sites := ready;
        members := members_of(ready);
        gone := 0;
        waiting := 0;
        RETURN;
    END IF;
    sites := ARRAY(SELECT r FROM unnest(ready) r WHERE r = ANY (c.sites));
    members := members_of(sites);
    gone := members_of(went);
    waiting := members_of(came);
END $$;

GRANT CREATE ON SCHEMA public TO freshet_gate;
REVOKE ALL ON FUNCTION members_of, cast_of FROM PUBLIC;
GRANT EXECUTE ON FUNCTION cast_of TO freshet_pool;
ALTER FUNCTION members_of OWNER TO freshet_gate;
ALTER FUNCTION cast_of OWNER TO freshet_gate;
REVOKE CREATE ON SCHEMA public FROM freshet_gate;
