-- A backup also keeps where the sequences stand.
GRANT SELECT ON ALL SEQUENCES IN SCHEMA public TO freshet_keeper;
