#!/bin/sh
# Makes PostgreSQL's role and database of the log, as the server's superuser:
#     sudo -u postgres sh .deploy/database.sh
# In a container it runs by itself when the database is made. It may run again: what is there stays.
#
# The role owns the database and all tables in it: it updates them, dumps them, and puts dumps back. It is no superuser.
# CREATEDB is for the scratch database of the nightly rehearsal. With PGPASSWORD it also gets that password.
set -eu
psql --no-psqlrc --quiet --set=ON_ERROR_STOP=1 --dbname=postgres --username="${POSTGRES_USER:-$(id -un)}" <<'SQL'
SELECT 'CREATE ROLE tidemark LOGIN' WHERE NOT EXISTS (SELECT FROM pg_roles WHERE rolname = 'tidemark') \gexec
ALTER ROLE tidemark LOGIN CREATEDB NOSUPERUSER NOCREATEROLE;
\getenv password PGPASSWORD
\if :{?password}
SELECT format('ALTER ROLE tidemark PASSWORD %L', :'password') WHERE :'password' <> '' \gexec
\endif
SELECT 'CREATE DATABASE tidemark OWNER tidemark TEMPLATE template0 ENCODING ''UTF8'''
    WHERE NOT EXISTS (SELECT FROM pg_database WHERE datname = 'tidemark') \gexec
REVOKE ALL ON DATABASE tidemark FROM PUBLIC;
SQL
