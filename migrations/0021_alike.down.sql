SET LOCAL ROLE freshet_gate;
DROP FUNCTION keepers_of, settle_alike, alike_of;
SET LOCAL ROLE freshet_owner;
DROP TABLE alike;
