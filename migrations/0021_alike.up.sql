-- Within a comparison, groups of sites that are like each other. They are made
-- once in a year, for a whole cast, and do not change within it: whoever changes
-- what a site is like moves no site from one group to another, and no two
-- answers differ by one member's sites.
CREATE TABLE alike (
    -- What is compared: the contract's PoolMeasure.
    measure smallint PRIMARY KEY,
    sites uuid[] NOT NULL,
    -- The group of each of the sites, from 1; and what those of each have in common.
    groups smallint[] NOT NULL,
    reasons text[] NOT NULL,
    since timestamptz NOT NULL DEFAULT now()
);
CALL protect('alike');
GRANT SELECT, INSERT, UPDATE ON alike TO freshet_gate;
CREATE POLICY gate ON alike TO freshet_gate USING (true) WITH CHECK (true);

-- keepers_of numbers the members whose sites these are, as members_of counts
-- them: which of the sites are one member's is told, and not whose.
CREATE FUNCTION keepers_of(of_sites uuid[]) RETURNS integer[]
LANGUAGE plpgsql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    RETURN ARRAY(SELECT dense_rank() OVER (ORDER BY k.keeper)::integer FROM (
        SELECT o.n, coalesce((SELECT min(a.member_id::text) FROM account_sites s JOIN accounts a ON a.member_id = s.member_id AND a.role IN (1, 2)
            WHERE s.site_id = o.site), o.site::text) AS keeper
        FROM unnest(of_sites) WITH ORDINALITY o (site, n)) k ORDER BY k.n);
END $$;

-- settle_alike keeps groups of the cast as they were proposed, where there are
-- none of less than a year, and no group is of fewer members than the smallest.
CREATE FUNCTION settle_alike(its_measure smallint, of_sites uuid[], its_groups smallint[], its_reasons text[], smallest integer) RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
    PERFORM pg_advisory_xact_lock(hashtext('cast'), its_measure);
    IF EXISTS (SELECT FROM alike a WHERE a.measure = its_measure AND a.since > now() - interval '364 days')
        OR NOT EXISTS (SELECT FROM casts c WHERE c.measure = its_measure AND c.sites @> of_sites AND c.sites <@ of_sites)
        OR EXISTS (SELECT FROM unnest(of_sites, its_groups) o (site, grp) GROUP BY o.grp HAVING members_of(array_agg(o.site)) < smallest) THEN
        RETURN;
    END IF;
    INSERT INTO alike (measure, sites, groups, reasons) VALUES (its_measure, of_sites, its_groups, its_reasons)
        ON CONFLICT (measure) DO UPDATE SET sites = EXCLUDED.sites, groups = EXCLUDED.groups, reasons = EXCLUDED.reasons, since = now();
END $$;

-- alike_of answers the groups of the sites that are compared now, 0 for sites
-- without one: those that came since, and those of whose group a site is gone.
-- All are 0 where what the groups leave is of fewer members than the smallest:
-- it would be told by what is shown.
CREATE FUNCTION alike_of(its_measure smallint, of_sites uuid[], smallest integer, OUT groups smallint[], OUT reasons text[], OUT since timestamptz)
LANGUAGE plpgsql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
    a alike;
    rest uuid[];
BEGIN
    SELECT * INTO a FROM alike k WHERE k.measure = its_measure AND k.since > now() - interval '364 days';
    reasons := a.reasons;
    since := a.since;
    groups := ARRAY(SELECT coalesce(g.grp, 0)::smallint FROM unnest(of_sites) WITH ORDINALITY o (site, n)
        LEFT JOIN unnest(a.sites, a.groups) g (site, grp) ON g.site = o.site
            AND g.grp NOT IN (SELECT gone.grp FROM unnest(a.sites, a.groups) gone (site, grp) WHERE gone.site <> ALL (of_sites))
        ORDER BY o.n);
    rest := ARRAY(SELECT o.site FROM unnest(of_sites, groups) o (site, grp) WHERE o.grp = 0);
    IF cardinality(rest) > 0 AND members_of(rest) < smallest THEN
        groups := ARRAY(SELECT 0::smallint FROM unnest(of_sites));
    END IF;
END $$;

GRANT CREATE ON SCHEMA public TO freshet_gate;
REVOKE ALL ON FUNCTION keepers_of, settle_alike, alike_of FROM PUBLIC;
GRANT EXECUTE ON FUNCTION keepers_of, settle_alike, alike_of TO freshet_pool;
ALTER FUNCTION keepers_of OWNER TO freshet_gate;
ALTER FUNCTION settle_alike OWNER TO freshet_gate;
ALTER FUNCTION alike_of OWNER TO freshet_gate;
REVOKE CREATE ON SCHEMA public FROM freshet_gate;
