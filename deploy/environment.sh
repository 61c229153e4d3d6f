# Makes a virtual environment for a script of this clone; read in with ". deploy/environment.sh", POSIX sh.
#
# make_environment NAME CONSTRAINTS sets
#   source       the folder to run from: the clone, or a copy of it where the clone cannot be written
#   environment  the virtual environment, with the pinned packages and Weekwright itself installed
# What is missing is said in one line, and the script ends with 1.

stop() {
    echo "$1" >&2
    exit 1
}

make_environment() {
    find_python
    find_folders "$1"
    stamp="$("$python" -VV | cksum) $(cat "$clone/deploy/$2" "$clone/pyproject.toml" | cksum) $source"
    if [ "$(cat "$environment/stamp" 2>/dev/null)" != "$stamp" ]; then
        install_everything "$2"
        echo "$stamp" >"$environment/stamp"
    fi
}

find_python() {
    python=
    for name in python3 python3.14 python3.13 python3.12 python3.11; do
        if "$name" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
            python=$name
            break
        fi
    done
    if [ -z "$python" ]; then
        command -v python3 >/dev/null || stop "python3 is missing: install Python 3.11 or later (on Debian: apt install python3 python3-venv)."
        stop "$(python3 -V) is too old: Weekwright needs Python 3.11 or later."
    fi
    "$python" -c 'import ensurepip, venv' 2>/dev/null || stop "Python's venv module is missing (on Debian: apt install python3-venv)."
}

find_folders() {
    source=$clone
    environment=$clone/$1
    if can_write "$clone"; then
        return
    fi
    cache=${XDG_CACHE_HOME:-${HOME:-/nowhere}/.cache}/weekwright
    mkdir -p "$cache" 2>/dev/null && can_write "$cache" || stop "Neither $clone nor $cache can be written: there is nowhere to install to."
    source=$cache/source
    environment=$cache/$1
    rm -rf "$source"
    mkdir -p "$source"
    (cd "$clone" && cp -R README.md LICENSE pyproject.toml bot deploy sample_config storage tests "$source")
    chmod -R u+w "$source"
}

can_write() {
    probe=$1/.writable.$$
    (: >"$probe") 2>/dev/null && rm -f "$probe"
}

install_everything() {
    echo "Installing into $environment (a minute or two, this once) …" >&2
    rm -rf "$environment"
    "$python" -m venv "$environment" >/dev/null 2>&1 || stop "Python cannot make a virtual environment in $environment."
    log=$environment/install.log
    install -r "$source/deploy/$1" --require-hashes --only-binary :all: &&
        install --no-deps --no-build-isolation --editable "$source" ||
        stop "The packages could not be installed: $(grep '^ERROR' "$log" | head -n 1) (all of it is in $log)"
}

install() {
    "$environment/bin/python" -m pip install --quiet --disable-pip-version-check --no-input "$@" >>"$log" 2>&1
}
