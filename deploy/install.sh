#!/bin/sh
# Installs Weekwright with its pinned packages into .venv of this clone, to run it for real. deploy/running.md goes on from there.
set -eu

clone=$(cd "$(dirname "$0")/.." && pwd)
. "$clone/deploy/environment.sh"
make_environment .venv constraints.txt
"$environment/bin/python" -m compileall -q "$source/bot" "$source/storage"
echo "Installed: $environment/bin/weekwright"
