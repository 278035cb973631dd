package store

import (
	"context"
	"errors"
	"fmt"

	"github.com/jackc/pgx/v5"
)

// The database's roles, of which only the server's and the keeper's come to the
// program; migration 0011 says what each may do.
const (
	ownerRole  = "freshet_owner"
	serverRole = "freshet_server"
	keeperRole = "freshet_keeper"
)

// ErrPowerful says that the database would let the server do anything.
var ErrPowerful = errors.New("the server's role could go around the rules of the database: it is a superuser, bypasses row security, owns tables, or may act as their owner; give it the role " + serverRole + " and nothing else")

// rolesMade makes the roles where they are missing, lets the role that calls
// act as their owner and keeper, and hands tables of earlier releases over to
// the owner. It may be repeated.
const rolesMade = `
DO $$
DECLARE
	r text;
	t regclass;
BEGIN
	FOREACH r IN ARRAY ARRAY['freshet_owner', 'freshet_keeper', 'freshet_gate', 'freshet_pool', 'freshet_server'] LOOP
		BEGIN
			IF to_regrole(r) IS NULL THEN
				-- NOINHERIT: what the server may act as must not count while it does not.
				EXECUTE format('CREATE ROLE %I NOINHERIT %s', r, CASE WHEN r = 'freshet_server' THEN 'LOGIN' ELSE 'NOLOGIN' END);
			END IF;
		EXCEPTION WHEN duplicate_object OR unique_violation THEN
			NULL; -- another database of the cluster was quicker
		END;
		IF NOT (SELECT rolsuper FROM pg_roles WHERE rolname = current_user) AND r <> 'freshet_server' THEN
			EXECUTE format('GRANT %I TO CURRENT_USER', r);
		END IF;
	END LOOP;
	IF NOT pg_has_role('freshet_server', 'freshet_pool', 'MEMBER') OR NOT pg_has_role('freshet_owner', 'freshet_gate', 'MEMBER')
			OR NOT pg_has_role('freshet_owner', 'freshet_keeper', 'MEMBER') THEN
		GRANT freshet_pool TO freshet_server;
		GRANT freshet_gate, freshet_keeper TO freshet_owner;
	END IF;
	EXECUTE format('GRANT CREATE, TEMPORARY ON DATABASE %I TO freshet_owner', current_database());
	EXECUTE format('GRANT TEMPORARY ON DATABASE %I TO freshet_server', current_database());
	ALTER SCHEMA public OWNER TO freshet_owner;
	REVOKE CREATE ON SCHEMA public FROM PUBLIC;
	GRANT USAGE ON SCHEMA public TO freshet_server, freshet_keeper, freshet_gate, freshet_pool;
	FOR t IN SELECT c.oid FROM pg_class c WHERE c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p')
			AND c.relowner <> 'freshet_owner'::regrole LOOP
		EXECUTE format('ALTER TABLE %s OWNER TO freshet_owner', t);
	END LOOP;
END $$`

func makeRoles(ctx context.Context, conn *pgx.Conn) error {
	if _, err := conn.Exec(ctx, rolesMade); err != nil {
		return fmt.Errorf("the roles of the database cannot be made: %w", err)
	}
	return nil
}

// power is what the role of a URL may do.
type power struct {
	// migrates: may make roles and change the schema.
	migrates bool
	// unbound: row security does not hold it.
	unbound bool
}

func powerOf(ctx context.Context, conn *pgx.Conn) (p power, err error) {
	err = conn.QueryRow(ctx, `SELECT
			rolsuper OR pg_has_role(datdba, 'MEMBER') OR (to_regrole($1) IS NOT NULL AND pg_has_role(to_regrole($1), 'MEMBER')),
			rolsuper OR rolbypassrls OR rolcreaterole OR EXISTS (SELECT FROM pg_class WHERE relnamespace = 'public'::regnamespace AND pg_has_role(relowner, 'MEMBER'))
		FROM pg_roles, pg_database WHERE rolname = current_user AND datname = current_database()`, ownerRole).Scan(&p.migrates, &p.unbound)
	return p, err
}
