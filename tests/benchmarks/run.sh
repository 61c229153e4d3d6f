#!/bin/sh
# Prints every benchmark's table and ends with 0 only if all figures keep to their limits. README.md beside it says how each is measured.
#   sh tests/benchmarks/run.sh [NAME ...]      all of them, or those named
set -eu

clone=$(cd "$(dirname "$0")/../.." && pwd)
. "$clone/deploy/environment.sh"
make_environment .venv-test constraints-dev.txt

cd "$source"
failed=
for name in ${*:-start_and_memory throughput many_people planning understanding}; do
    echo "== $name"
    "$environment/bin/python" -m "tests.benchmarks.$name" || failed="$failed${failed:+, }$name"
done

if [ -n "$failed" ]; then
    echo "Beyond a limit: $failed." >&2
    exit 1
fi
echo "All within their limits."
