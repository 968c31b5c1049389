#!/bin/sh
# Holds the package of make deb to its promises: lintian finds no error; in an empty root it
# installs, advises, and goes again without a trace. make deb-check calls it: check_deb.sh
# VERSION. Skips with a word what needs root. SPDX-License-Identifier: GPL-3.0-or-later
set -eu
package=$(ls build/sugarlea_"$1"_*.deb)
root=$(mktemp -d)
trap 'rm -rf "$root"' EXIT

fail() {
    echo "deb-check: $1" >&2
    exit 1
}

if command -v lintian >/dev/null 2>&1; then
    lintian --allow-root --fail-on error,warning "$package" || fail "lintian finds fault"
    echo "deb-check: lintian finds nothing"
else
    echo "# skipped: lintian is not installed"
fi

dpkg-deb -f "$package" Depends | grep -q libgsl || fail "the libraries it needs are not among its Depends"
if dpkg-deb -I "$package" | grep -qE ' (pre|post)(inst|rm) '; then
    fail "it needs no maintainer scripts, and has one"
fi
[ "$(id -u)" -eq 0 ] || {
    echo "# skipped: installing it into an empty root: needs root"
    exit 0
}

# A root of dpkg's own records, and of the libraries and time zones that the package depends on.
mkdir -p "$root/var/lib/dpkg/info" "$root/var/lib/dpkg/updates" "$root/tmp" "$root/etc"
: >"$root/var/lib/dpkg/status"
: >"$root/var/lib/dpkg/available"
dpkg() {
    command dpkg --root="$root" --log=/dev/null --force-depends --force-script-chrootless "$@" >"$root/tmp/log" 2>&1 ||
        fail "dpkg $1: $(cat "$root/tmp/log")"
}
there() { # what is there but dpkg's records, and what is borrowed below
    (cd "$root" && find . -path ./var/lib/dpkg -prune -o -path ./tmp -prune -o -print | sort)
}
there >"$root/tmp/before"
dpkg --install "$package"
[ -x "$root/usr/bin/sugarlea" ] || fail "the program is not there"
for path in $(dpkg-deb -c "$package" | awk '$1 ~ /^-/ { print $6 }'); do
    [ -s "$root/$path" ] || fail "$path is not there"
done

borrowed=$(ldd "$root/usr/bin/sugarlea" "$root/usr/libexec/sugarlea/sugarlea-fetch" | grep -oE '/[^ ]+\.so[^ ]*' | sort -u)
mkdir "$root/borrowed"
for library in $borrowed; do
    mkdir -p "$root/borrowed/${library%/*}"
    cp -L "$library" "$root/borrowed/$library"
done
mkdir -p "$root/borrowed/usr/share/zoneinfo/Europe"
cp -L /usr/share/zoneinfo/Europe/London "$root/borrowed/usr/share/zoneinfo/Europe"
cp -R "$root/usr" "$root/borrowed"
mkdir "$root/borrowed/farm"
cp "$root"/usr/share/doc/sugarlea/examples/demo/* "$root/borrowed/farm"
chroot "$root/borrowed" /usr/bin/sugarlea today --holding farm/holding.json --date 2025-04-23 >"$root/tmp/out" ||
    fail "the installed program does not advise"
grep -q "grey-pony" "$root/tmp/out" || fail "the installed program does not speak of the demo's pony"
chroot "$root/borrowed" /usr/bin/sugarlea --version | grep -qx "sugarlea $1" || fail "it is not version $1"
rm -rf "$root/borrowed"
echo "deb-check: installed into an empty root, it advises"

dpkg --purge sugarlea
there >"$root/tmp/after"
cmp -s "$root/tmp/before" "$root/tmp/after" || fail "left behind: $(diff "$root/tmp/before" "$root/tmp/after")"
command dpkg --root="$root" --get-selections | grep -q sugarlea && fail "dpkg still knows it"
echo "deb-check: purged, it leaves nothing"
