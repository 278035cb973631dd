-- The roles stay: other databases of the cluster may use them.
DROP TRIGGER sharing_changed ON sharings;
DO $$
DECLARE
    p record;
    f regprocedure;
BEGIN
    FOR p IN SELECT tablename, policyname FROM pg_policies WHERE schemaname = 'public' LOOP
        EXECUTE format('DROP POLICY %I ON %I', p.policyname, p.tablename);
    END LOOP;
    FOR p IN SELECT relname FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relrowsecurity LOOP
        EXECUTE format('ALTER TABLE %I DISABLE ROW LEVEL SECURITY, NO FORCE ROW LEVEL SECURITY', p.relname);
        EXECUTE format('REVOKE ALL ON %I FROM freshet_server, freshet_gate, freshet_pool, freshet_keeper', p.relname);
    END LOOP;
    FOR f IN SELECT oid FROM pg_proc WHERE pronamespace = 'public'::regnamespace LOOP
        EXECUTE format('DROP ROUTINE %s', f);
    END LOOP;
END $$;
DROP TABLE kinds, shared_now;
ALTER TABLE pages DROP CONSTRAINT pages_scope_id_owner_house_fkey, DROP COLUMN owner, DROP COLUMN house,
    ADD FOREIGN KEY (scope_id) REFERENCES scopes;
ALTER TABLE scopes DROP COLUMN owner, DROP COLUMN house;
