SET LOCAL ROLE freshet_gate;
DROP FUNCTION cast_of, members_of;
SET LOCAL ROLE freshet_owner;
DROP TABLE casts;
