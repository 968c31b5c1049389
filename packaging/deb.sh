#!/bin/sh
# Builds the Debian package in build/deb/ from a copy of the sources, and puts it into build/.
# make deb calls it: deb.sh VERSION DATE. SPDX-License-Identifier: GPL-3.0-or-later
set -eu
version=$1
released=$2
for tool in dpkg-buildpackage dh; do
    command -v "$tool" >/dev/null 2>&1 || {
        echo "deb: $tool is missing; on Debian or Ubuntu: sudo apt-get install dpkg-dev debhelper" >&2
        exit 69
    }
done
sh .ci/deps # the package is built from the same libraries as the program

top=build/deb
source=$top/sugarlea-$version
rm -rf "$top"
mkdir -p "$source"
if git ls-files --error-unmatch Makefile >/dev/null 2>&1; then
    git ls-files -z | tar -cf "$top/source.tar" --null -T -
else
    tar -cf "$top/source.tar" --exclude=./build --exclude='*.tar.gz' .
fi
tar -xf "$top/source.tar" -C "$source"

# The changelog is what dpkg takes the version from; ours stands in the Makefile.
cat >"$source/debian/changelog" <<TEXT
sugarlea ($version) unstable; urgency=medium

  * Release $version.

 -- sugarlea developers <sugarlea@example.org>  $(LC_ALL=C date -u -R -d "$released 12:00")
TEXT

# The tests are for make check; here they would run a second time.
cd "$source"
unset MAKEFLAGS MAKELEVEL MAKEOVERRIDES
if ! DEB_BUILD_OPTIONS="nocheck noautodbgsym parallel=$(getconf _NPROCESSORS_ONLN)" \
    dpkg-buildpackage -us -uc -b >../log 2>&1; then
    tail -30 ../log >&2
    echo "deb: the package could not be built; all of it: $top/log" >&2
    exit 70
fi
cp ../sugarlea_*.deb ../..
ls ../../sugarlea_"$version"_*.deb | sed 's#.*/#build/#'
