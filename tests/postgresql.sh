# shellcheck shell=sh
# A PostgreSQL server of our own for the tests; read in with ". tests/postgresql.sh", POSIX sh.
#
# start_postgresql sets
#   WEEKWRIGHT_TEST_POSTGRESQL  the URL of one of its databases, exported; left as it is when it is set already
# and has the server, with all its files, gone when the script ends, however it ends. Where there is no PostgreSQL,
# nothing is set, and what needs a server is skipped.

start_postgresql() {
    [ -z "${WEEKWRIGHT_TEST_POSTGRESQL:-}" ] || return 0
    programs=$(ls -d /usr/lib/postgresql/*/bin 2>/dev/null | sort -V | tail -n 1)
    [ -x "${programs:-/nowhere}/initdb" ] || return 0
    cluster=$(mktemp -d)
    trap stop_postgresql EXIT
    trap 'exit 1' HUP INT TERM
    # It will not run as root.
    [ "$(id -u)" -ne 0 ] || chown postgres "$cluster" || return 0
    as_owner "$programs/initdb" --pgdata "$cluster/data" --username weekwright --auth trust --encoding UTF8 --locale C >"$cluster/made.log" 2>&1 || return 0
    # No crash of the machine is tested, and its files are gone at the end; commits are otherwise as ever.
    as_owner "$programs/pg_ctl" --pgdata "$cluster/data" --wait --log "$cluster/log" \
        --options "-c listen_addresses= -c unix_socket_directories=$cluster -c fsync=${WEEKWRIGHT_TEST_FSYNC:-off}" start >/dev/null || return 0
    export WEEKWRIGHT_TEST_POSTGRESQL="postgresql://weekwright@/postgres?host=$cluster"
}

stop_postgresql() {
    ended=$?
    trap - EXIT
    as_owner "$programs/pg_ctl" --pgdata "$cluster/data" --mode immediate stop >/dev/null 2>&1 || true
    rm -rf "$cluster"
    exit $ended
}

as_owner() {
    if [ "$(id -u)" -eq 0 ]; then
        # From a folder that its owner may be in.
        (cd / && setpriv --reuid postgres --regid postgres --clear-groups "$@")
    else
        "$@"
    fi
}
