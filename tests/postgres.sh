#!/bin/sh
# A PostgreSQL of the tests' own: in a folder that goes away, on a free port, for this machine only.
#
#   tests/postgres.sh start FOLDER    prints the URL (postgresql+psycopg://...)
#   tests/postgres.sh stop FOLDER     stops the server and removes the folder
#   tests/postgres.sh halt FOLDER     stops it in the middle of whatever it does; again starts it anew
#
# The server refuses to run as root; then it runs as the user postgres that Debian's package makes.
set -eu

fail() { echo "postgres.sh: $1" >&2; exit 1; }

bin=$(ls -d /usr/lib/postgresql/*/bin 2>/dev/null | sort -V | tail -n 1)
[ -n "$bin" ] && [ -x "$bin/initdb" ] || bin=$(dirname "$(command -v initdb || true)")
[ -x "$bin/initdb" ] || fail "no PostgreSQL found; install Debian's package postgresql"

as_server() {
    if [ "$(id -u)" = 0 ]; then
        setpriv --reuid=postgres --regid=postgres --init-groups env -C / "$@"
    else
        "$@"
    fi
}

[ $# = 2 ] || fail "usage: postgres.sh start|stop|halt|again FOLDER"
folder=$2

case $1 in
start)
    mkdir -p "$folder"
    folder=$(cd "$folder" && pwd)
    [ ! -e "$folder/data" ] || fail "$folder holds a server already"
    [ "$(id -u)" != 0 ] || chown postgres "$folder"
    as_server test -w "$folder" || fail "the user postgres cannot reach $folder; name one in /tmp"
    as_server "$bin/initdb" -D "$folder/data" -U croft -A trust -E UTF8 --locale=C.UTF-8 \
        --no-sync >"$folder/initdb.log" 2>&1 || { cat "$folder/initdb.log" >&2; fail "initdb failed"; }
    port=$(python3 -c 'import socket; s = socket.socket(); s.bind(("127.0.0.1", 0)); print(s.getsockname()[1])')
    as_server "$bin/pg_ctl" -D "$folder/data" -l "$folder/data/server.log" -w -t 60 \
        -o "-p $port -c listen_addresses=127.0.0.1 -c unix_socket_directories= -c max_connections=100" \
        start >/dev/null || { cat "$folder/data/server.log" >&2; fail "the server did not start"; }
    echo "postgresql+psycopg://croft@127.0.0.1:$port/postgres"
    ;;
stop)
    as_server "$bin/pg_ctl" -D "$folder/data" -m immediate -w stop >/dev/null || true
    rm -rf "$folder"
    ;;
halt)
    as_server "$bin/pg_ctl" -D "$folder/data" -m immediate -w stop >/dev/null
    ;;
again)  # with the port and options of its start
    as_server "$bin/pg_ctl" -D "$folder/data" -l "$folder/data/server.log" -w -t 60 restart \
        >/dev/null 2>&1 || { cat "$folder/data/server.log" >&2; fail "the server did not start"; }
    ;;
*) fail "usage: postgres.sh start|stop|halt|again FOLDER" ;;
esac
