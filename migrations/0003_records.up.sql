-- Records: one table a noun, one column a field of the contract's message of
-- the same name. NULL: never set. stamps holds, for each field, when and by
-- which install it was last set, for merging field by field. Enums are the
-- contract's numbers, which never change their meaning.

CREATE TABLE cooperatives (
    id uuid PRIMARY KEY,
    site_id uuid,
    removed_at timestamptz,
    stamps jsonb NOT NULL DEFAULT '{}',
    name text,
    smallest_group bigint,
    currency text
);

CREATE TABLE members (
    id uuid PRIMARY KEY,
    site_id uuid,
    removed_at timestamptz,
    stamps jsonb NOT NULL DEFAULT '{}',
    display_name text,
    locale text,
    unit_system smallint
);

CREATE TABLE sites (
    id uuid PRIMARY KEY,
    site_id uuid,
    removed_at timestamptz,
    stamps jsonb NOT NULL DEFAULT '{}',
    name text,
    latitude_degrees double precision,
    longitude_degrees double precision,
    elevation_m double precision,
    time_zone text,
    last_frost text,
    first_frost text,
    source_alkalinity_mg_per_l double precision,
    source_hardness_mg_per_l double precision,
    source_nitrate_mg_per_l double precision,
    source_disinfectant smallint,
    household_people bigint,
    climate text
);

CREATE TABLE systems (
    id uuid PRIMARY KEY,
    site_id uuid,
    removed_at timestamptz,
    stamps jsonb NOT NULL DEFAULT '{}',
    name text,
    started_on date,
    ended_on date,
    growing smallint,
    target_temperature_low_celsius double precision,
    target_temperature_high_celsius double precision,
    target_ph_low double precision,
    target_ph_high double precision,
    target_oxygen_low_mg_per_l double precision,
    target_unionized_ammonia_high_mg_per_l double precision
);
CREATE INDEX systems_site ON systems (site_id);

CREATE TABLE vessels (
    id uuid PRIMARY KEY,
    site_id uuid,
    removed_at timestamptz,
    stamps jsonb NOT NULL DEFAULT '{}',
    system_id uuid,
    name text,
    kind smallint,
    volume_l double precision,
    surface_m2 double precision,
    media text,
    media_volume_l double precision,
    media_specific_surface_m2_per_m3 double precision,
    flows_to uuid[],
    flow_l_per_h double precision
);
CREATE INDEX vessels_site ON vessels (site_id);

CREATE TABLE beds (
    id uuid PRIMARY KEY,
    site_id uuid,
    removed_at timestamptz,
    stamps jsonb NOT NULL DEFAULT '{}',
    name text,
    kind smallint,
    area_m2 double precision,
    system_id uuid,
    vessel_id uuid,
    covered boolean
);
CREATE INDEX beds_site ON beds (site_id);

CREATE TABLE equipment (
    id uuid PRIMARY KEY,
    site_id uuid,
    removed_at timestamptz,
    stamps jsonb NOT NULL DEFAULT '{}',
    name text,
    kind smallint,
    system_id uuid,
    vessel_id uuid,
    power_w double precision,
    flow_l_per_h double precision,
    head_m double precision,
    on_backup boolean,
    light_umol_per_s double precision
);
CREATE INDEX equipment_site ON equipment (site_id);

CREATE TABLE cohorts (
    id uuid PRIMARY KEY,
    site_id uuid,
    removed_at timestamptz,
    stamps jsonb NOT NULL DEFAULT '{}',
    name text,
    species text,
    system_id uuid,
    vessel_id uuid,
    purpose smallint,
    target_weight_g double precision,
    wanted_by date
);
CREATE INDEX cohorts_site ON cohorts (site_id);

CREATE TABLE plantings (
    id uuid PRIMARY KEY,
    site_id uuid,
    removed_at timestamptz,
    stamps jsonb NOT NULL DEFAULT '{}',
    crop text,
    variety text,
    bed_id uuid,
    area_m2 double precision,
    plants_count bigint,
    method smallint,
    companion_of uuid,
    first_bearing_year bigint,
    hand_pollinated boolean
);
CREATE INDEX plantings_site ON plantings (site_id);

CREATE TABLE feeds (
    id uuid PRIMARY KEY,
    site_id uuid,
    removed_at timestamptz,
    stamps jsonb NOT NULL DEFAULT '{}',
    name text,
    protein_percent double precision,
    phosphorus_percent double precision,
    moisture_percent double precision,
    price_minor_per_kg bigint,
    currency text
);
CREATE INDEX feeds_site ON feeds (site_id);

CREATE TABLE species (
    id uuid PRIMARY KEY,
    site_id uuid,
    removed_at timestamptz,
    stamps jsonb NOT NULL DEFAULT '{}',
    species text,
    local_name text,
    thermal_growth_coefficient_x1000 double precision,
    feeds_from_celsius double precision,
    feeds_to_celsius double precision,
    source text
);
CREATE INDEX species_site ON species (site_id);

CREATE TABLE crops (
    id uuid PRIMARY KEY,
    site_id uuid,
    removed_at timestamptz,
    stamps jsonb NOT NULL DEFAULT '{}',
    crop text,
    local_name text,
    days_to_bearing double precision,
    bearing_days double precision,
    yield_kg_per_m2 double precision,
    use_kg_per_week double precision,
    source text
);
CREATE INDEX crops_site ON crops (site_id);

CREATE TABLE remedies (
    id uuid PRIMARY KEY,
    site_id uuid,
    removed_at timestamptz,
    stamps jsonb NOT NULL DEFAULT '{}',
    name text,
    register_name text,
    active_ingredients text[],
    waiting_days double precision,
    active_percent double precision
);
CREATE INDEX remedies_site ON remedies (site_id);

CREATE TABLE plans (
    id uuid PRIMARY KEY,
    site_id uuid,
    removed_at timestamptz,
    stamps jsonb NOT NULL DEFAULT '{}',
    name text,
    from_on date,
    to_on date,
    steps jsonb
);
CREATE INDEX plans_site ON plans (site_id);

CREATE TABLE trials (
    id uuid PRIMARY KEY,
    site_id uuid,
    removed_at timestamptz,
    stamps jsonb NOT NULL DEFAULT '{}',
    question text,
    measure smallint,
    arms jsonb,
    from_on date,
    to_on date,
    stopping_rule text,
    worthwhile_percent double precision
);
CREATE INDEX trials_site ON trials (site_id);

