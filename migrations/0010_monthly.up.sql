-- Sums by month of the site's time zone, kept with those by day in the
-- transaction that stores the event: three years of a thousand sites are then
-- 36,000 rows a quantity. Months are what sites are compared in, so the key
-- begins with what is compared.
--
-- The release before adds to days only. What it stores while it still runs
-- beside this one is not in months until the site's sums are next made anew.

CREATE TABLE monthly (
    site_id uuid NOT NULL,
    noun text NOT NULL,
    quantity smallint NOT NULL,
    subject_id uuid NOT NULL,
    month date NOT NULL, -- its first day
    n bigint NOT NULL,
    sum_micro numeric NOT NULL,
    low_micro bigint NOT NULL,
    high_micro bigint NOT NULL,
    -- Days with anything noted, as bits: 1 for the first of the month, 2 for the
    -- second, 4 for the third. Of several subjects the bits are joined by OR.
    days integer NOT NULL,
    PRIMARY KEY (noun, quantity, site_id, month, subject_id)
);

INSERT INTO monthly
    SELECT site_id, noun, quantity, subject_id, date_trunc('month', day)::date, sum(n), sum(sum_micro), min(low_micro), max(high_micro),
        bit_or(1 << (extract(day FROM day)::integer - 1))
    FROM daily GROUP BY 1, 2, 3, 4, 5;

-- How many readings of a month lie in each bin; bins are as wide as
-- store/bins.go says.
CREATE TABLE monthly_bins (
    site_id uuid NOT NULL,
    quantity smallint NOT NULL,
    subject_id uuid NOT NULL,
    month date NOT NULL,
    bin integer NOT NULL,
    n bigint NOT NULL,
    PRIMARY KEY (quantity, site_id, month, subject_id, bin)
);

-- Which month a reading falls in is told here by the database's table of time
-- zones, and by the program's from now on; UTC stands in for a name unknown here.
INSERT INTO monthly_bins
    SELECT r.site_id, r.quantity, coalesce(r.place_id, '00000000-0000-0000-0000-000000000000'),
        date_trunc('month', r.occurred_at AT TIME ZONE coalesce(z.name, 'UTC'))::date, floor(r.value_micro / coalesce(w.width, 1000000)::numeric), count(*)
    FROM readings r LEFT JOIN sites s ON s.id = r.site_id LEFT JOIN pg_timezone_names z ON z.name = s.time_zone
    LEFT JOIN (VALUES (1, 500000), (2, 500000), (3, 100000), (4, 50000), (5, 50000), (6, 5000000), (7, 250000), (8, 5000000), (9, 10000000),
        (10, 10000000), (11, 50000000), (12, 250000), (13, 1000000), (14, 100000), (15, 500000), (16, 5000000), (17, 10000000), (18, 20000),
        (19, 10000000), (20, 50000000), (21, 20000), (22, 50000000), (23, 5000000), (24, 2000000), (27, 5000000)
    ) AS w (quantity, width) ON w.quantity = r.quantity
    WHERE r.corrected_by IS NULL GROUP BY 1, 2, 3, 4, 5;
