-- Events: one table a noun, one column a field of the contract's message of
-- the same name. Rows are never changed but for corrected_by, which names the
-- correction that voids them or puts a row with the correction's own id in
-- their place.

CREATE TABLE readings (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    quantity smallint NOT NULL,
    digits bigint NOT NULL,
    decimals bigint NOT NULL,
    unit smallint NOT NULL,
    basis smallint NOT NULL,
    method smallint NOT NULL,
    censoring smallint NOT NULL,
    place_id uuid,
    equipment_id uuid,
    -- The canonical value (SI, nitrogen as N) in millionths: whole numbers add up
    -- to the same sum in any order, so sums by day stay exact.
    value_micro bigint NOT NULL
);
CREATE INDEX readings_series ON readings (site_id, quantity, occurred_at);

CREATE TABLE feedings (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    vessel_id uuid,
    cohort_id uuid,
    feed_id uuid,
    mass_g double precision NOT NULL,
    left_g double precision NOT NULL
);
CREATE INDEX feedings_site ON feedings (site_id, occurred_at);

CREATE TABLE stockings (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    cohort_id uuid,
    count bigint NOT NULL,
    mass_g double precision NOT NULL
);
CREATE INDEX stockings_site ON stockings (site_id, occurred_at);

CREATE TABLE weighings (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    cohort_id uuid,
    sample_count bigint NOT NULL,
    mass_g double precision NOT NULL,
    sd_g double precision NOT NULL
);
CREATE INDEX weighings_site ON weighings (site_id, occurred_at);

CREATE TABLE counts (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    cohort_id uuid,
    count bigint NOT NULL
);
CREATE INDEX counts_site ON counts (site_id, occurred_at);

CREATE TABLE deaths (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    cohort_id uuid,
    count bigint NOT NULL,
    suspected_cause smallint NOT NULL,
    mass_g double precision NOT NULL
);
CREATE INDEX deaths_site ON deaths (site_id, occurred_at);

CREATE TABLE moves (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    cohort_id uuid,
    to_cohort_id uuid,
    count bigint NOT NULL,
    mass_g double precision NOT NULL
);
CREATE INDEX moves_site ON moves (site_id, occurred_at);

CREATE TABLE fish_harvests (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    cohort_id uuid,
    count bigint NOT NULL,
    mass_g double precision NOT NULL,
    form smallint NOT NULL
);
CREATE INDEX fish_harvests_site ON fish_harvests (site_id, occurred_at);

CREATE TABLE sowings (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    planting_id uuid,
    seeds_count bigint NOT NULL,
    area_m2 double precision NOT NULL
);
CREATE INDEX sowings_site ON sowings (site_id, occurred_at);

CREATE TABLE transplantings (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    planting_id uuid,
    bed_id uuid,
    plants_count bigint NOT NULL
);
CREATE INDEX transplantings_site ON transplantings (site_id, occurred_at);

CREATE TABLE bed_harvests (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    planting_id uuid,
    mass_g double precision NOT NULL,
    pieces_count bigint NOT NULL,
    form smallint NOT NULL
);
CREATE INDEX bed_harvests_site ON bed_harvests (site_id, occurred_at);

CREATE TABLE pullings (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    planting_id uuid,
    reason smallint NOT NULL,
    mass_g double precision NOT NULL
);
CREATE INDEX pullings_site ON pullings (site_id, occurred_at);

CREATE TABLE dosings (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    vessel_id uuid,
    substance smallint NOT NULL,
    remedy_id uuid,
    mass_g double precision NOT NULL,
    volume_ml double precision NOT NULL,
    words text NOT NULL
);
CREATE INDEX dosings_site ON dosings (site_id, occurred_at);

CREATE TABLE treatments (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    planting_id uuid,
    bed_id uuid,
    remedy_id uuid,
    substance smallint NOT NULL,
    volume_ml double precision NOT NULL,
    mass_g double precision NOT NULL,
    against text NOT NULL
);
CREATE INDEX treatments_site ON treatments (site_id, occurred_at);

CREATE TABLE waters_in (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    vessel_id uuid,
    system_id uuid,
    volume_l double precision NOT NULL,
    source smallint NOT NULL
);
CREATE INDEX waters_in_site ON waters_in (site_id, occurred_at);

CREATE TABLE waters_out (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    vessel_id uuid,
    system_id uuid,
    volume_l double precision NOT NULL,
    spilled boolean NOT NULL
);
CREATE INDEX waters_out_site ON waters_out (site_id, occurred_at);

CREATE TABLE solids_out (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    vessel_id uuid,
    volume_l double precision NOT NULL,
    dry_mass_g double precision NOT NULL,
    went_to text NOT NULL
);
CREATE INDEX solids_out_site ON solids_out (site_id, occurred_at);

CREATE TABLE dispositions (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    crop text NOT NULL,
    species text NOT NULL,
    mass_g double precision NOT NULL,
    use smallint NOT NULL,
    pieces_count bigint NOT NULL,
    had_for_it text NOT NULL
);
CREATE INDEX dispositions_site ON dispositions (site_id, occurred_at);

CREATE TABLE upkeep (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    kind smallint NOT NULL,
    vessel_id uuid,
    equipment_id uuid,
    words text NOT NULL
);
CREATE INDEX upkeep_site ON upkeep (site_id, occurred_at);

CREATE TABLE incidents (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    kind smallint NOT NULL,
    ended_at timestamptz,
    vessel_id uuid,
    equipment_id uuid,
    words text NOT NULL
);
CREATE INDEX incidents_site ON incidents (site_id, occurred_at);

CREATE TABLE labour (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    minutes double precision NOT NULL,
    task text NOT NULL
);
CREATE INDEX labour_site ON labour (site_id, occurred_at);

CREATE TABLE energy (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    energy_kwh double precision NOT NULL,
    began_at timestamptz,
    equipment_id uuid
);
CREATE INDEX energy_site ON energy (site_id, occurred_at);

CREATE TABLE expenses (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    amount_minor bigint NOT NULL,
    currency text NOT NULL,
    category text NOT NULL
);
CREATE INDEX expenses_site ON expenses (site_id, occurred_at);

CREATE TABLE notes (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    about_id text NOT NULL,
    text text NOT NULL
);
CREATE INDEX notes_site ON notes (site_id, occurred_at);

CREATE TABLE photos (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    about_id text NOT NULL,
    sha256 bytea NOT NULL,
    size_bytes bigint NOT NULL,
    media_type text NOT NULL,
    caption text NOT NULL
);
CREATE INDEX photos_site ON photos (site_id, occurred_at);

CREATE TABLE corrections (
    id uuid PRIMARY KEY,
    site_id uuid NOT NULL,
    member_id uuid NOT NULL,
    occurred_at timestamptz NOT NULL,
    entered_at timestamptz NOT NULL,
    corrected_by uuid,
    event_id uuid,
    words text NOT NULL
);
CREATE INDEX corrections_site ON corrections (site_id, occurred_at);
CREATE INDEX corrections_event ON corrections (event_id);

