-- Sums by day of the site's time zone, kept in the transaction that stores the
-- event, so that a year of hourly values is answered from 365 rows.

CREATE TABLE daily (
    site_id uuid NOT NULL,
    -- Table of the event: readings, feedings, bed_harvests ...
    noun text NOT NULL,
    -- readings: the quantity; else 0.
    quantity smallint NOT NULL DEFAULT 0,
    -- What the events are about: a place, cohort or planting; nil uuid for none.
    subject_id uuid NOT NULL,
    day date NOT NULL,
    n bigint NOT NULL,
    -- Canonical values (mass in g, volume in L, count, kWh) in millionths.
    sum_micro numeric NOT NULL,
    low_micro bigint NOT NULL,
    high_micro bigint NOT NULL,
    PRIMARY KEY (site_id, noun, quantity, day, subject_id)
);
