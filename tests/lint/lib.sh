# What the checks share; read with `. tests/lint/lib.sh`.
# SPDX-License-Identifier: GPL-3.0-or-later

# need TOOL PACKAGE: a missing tool fails the check and names its package.
need() {
    command -v "$1" >/dev/null 2>&1 || {
        echo "$1 is not installed: apt-get install $2 (or your system's package of that name)"
        exit 69
    }
}

# c_files FOLDER...: every .c and .h below, sorted.
c_files() {
    find "$@" -name '*.[ch]' -type f | sort
}

# The compiler flags that the analysers need to read a file.
analysis_flags() {
    echo '-std=c11 -D_GNU_SOURCE -Isrc -Itests -DSUGARLEA_VERSION="lint" -DSUGARLEA_RELEASED="lint" -DSUGARLEA_DATADIR="lint" -DSUGARLEA_LIBEXECDIR="lint"' \
        "$(pkg-config --cflags libcjson gsl zlib libcurl)"
}
