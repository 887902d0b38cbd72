#!/bin/sh
# Install the outside programs that the tests compare with, from Debian's packages.
# PEERS=none leaves them alone: tests whose program is missing are then named as not run.
set -u
[ "${PEERS:-}" = none ] && exit 0
wanted=""
for pair in ngspice:ngspice ccx:calculix-ccx; do
    command -v "${pair%%:*}" >/dev/null 2>&1 || wanted="$wanted ${pair##*:}"
done
[ -z "$wanted" ] && exit 0
as_root=""
[ "$(id -u)" = 0 ] || as_root=sudo
echo "installing$wanted"
{ $as_root apt-get update -qq && $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq $wanted; } >/dev/null 2>&1 ||
    echo "could not install$wanted; tests that need them will fail. PEERS=none runs the rest."
exit 0
