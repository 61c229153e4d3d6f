#!/bin/sh
# Checks everything: lint, format, types, walls, tests and their coverage. Ends with 0 only if all of it passes.
set -eu

clone=$(cd "$(dirname "$0")/.." && pwd)
. "$clone/deploy/environment.sh"
. "$clone/tests/postgresql.sh"
make_environment .venv-test constraints-dev.txt

cd "$source"
cache=$environment/cache
mkdir -p "$cache"
export RUFF_CACHE_DIR="$cache/ruff" COVERAGE_FILE="$cache/coverage" HYPOTHESIS_STORAGE_DIRECTORY="$cache/hypothesis"
PATH=$environment/bin:$PATH
failed=

check() {
    name=$1
    shift
    echo "== $name"
    "$@" || failed="$failed${failed:+, }$name"
}

covered() {
    coverage report --include "$1/*" --omit "$without" --fail-under 95
}

start_postgresql
without=
if [ -z "${WEEKWRIGHT_TEST_POSTGRESQL:-}" ]; then
    echo "No PostgreSQL here (on Debian: apt install postgresql): what needs a server is skipped."
    without=storage/postgresql.py,storage/session.py
fi

check lint ruff check .
check format ruff format --check .
check types mypy --cache-dir "$cache/mypy" bot storage tests
check security bandit -q -c pyproject.toml -r bot storage
check walls lint-imports --cache-dir "$cache/walls"
check tests python -m pytest -q -n "${WEEKWRIGHT_TEST_PROCESSES:-2}" -o cache_dir="$cache/pytest" --cov --cov-report=
for part in storage bot/rules bot/language bot/actions; do
    check "coverage of $part" covered "$part"
done

if [ -n "$failed" ]; then
    echo "Failed: $failed." >&2
    exit 1
fi
echo "All checks passed."
