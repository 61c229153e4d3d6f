#!/bin/sh
# Pins anew what pyproject.toml asks for: names, versions and hashes, nothing else.
# Needs pip-tools. The machine's own pip configuration is left out, so that
# nothing of it gets into the files.
set -eu

cd "$(dirname "$0")/.."
export PIP_CONFIG_FILE=/dev/null
unset PIP_FIND_LINKS PIP_INDEX_URL PIP_EXTRA_INDEX_URL PIP_CONSTRAINT || true

pin() {
    file=$1
    shift
    pip-compile --quiet --upgrade --generate-hashes --allow-unsafe --build-deps-for editable --strip-extras \
        --no-emit-index-url --no-emit-find-links --no-annotate --no-header --pip-args "--only-binary :all:" \
        "$@" --output-file "$file" pyproject.toml
    sed -i '/^#/d; /^--/d; /^$/d' "$file"
}

pin deploy/constraints.txt --extra encryption --extra postgresql
pin deploy/constraints-dev.txt --extra dev --constraint deploy/constraints.txt
