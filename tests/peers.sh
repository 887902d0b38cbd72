#!/bin/sh
# Install the outside programs that the tests compare with, and the browser that they look through, from Debian's packages.
# PEERS=none leaves them alone: tests whose program is missing are then named as not run.
set -u
[ "${PEERS:-}" = none ] && exit 0
wanted=""
for pair in ngspice:ngspice ccx:calculix-ccx postgres:postgresql chromium:chromium cc:gcc; do
    program=${pair%%:*}
    command -v "$program" >/dev/null 2>&1 || ls /usr/lib/postgresql/*/bin/"$program" >/dev/null 2>&1 ||
        wanted="$wanted ${pair##*:}"
done
[ -z "$wanted" ] && exit 0
as_root=""
[ "$(id -u)" = 0 ] || as_root=sudo
echo "installing$wanted"
case $wanted in *postgresql*) # the tests start a server of their own; a lasting one is not wanted
    [ -e /etc/postgresql-common/createcluster.conf ] || {
        $as_root mkdir -p /etc/postgresql-common &&
            echo "create_main_cluster = false" | $as_root tee /etc/postgresql-common/createcluster.conf >/dev/null
    } ;;
esac
{ $as_root apt-get update -qq && $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq $wanted; } >/dev/null 2>&1 ||
    echo "could not install$wanted; tests that need them will fail. PEERS=none runs the rest."
exit 0
