-- Each push carries a mark made at random on its device. The last one tells two
-- devices apart that were one: a phone set up from another's backup pushes after
-- a mark that is no longer the last.
ALTER TABLE installs ADD COLUMN mark bytea NOT NULL DEFAULT '';
