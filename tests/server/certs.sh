#!/bin/sh
# certs.sh FOLDER: an authority of our own (FOLDER/authority.crt) and, signed by it, one
# file each with key and certificate: good.pem for 127.0.0.1, expired.pem, other.pem for
# another host; self.pem is signed by nobody. For the loopback server only.
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu
cd "$1"
exec 2>openssl.log </dev/null

key() { # FILE
    openssl genpkey -quiet -algorithm EC -pkeyopt ec_paramgen_curve:P-256 -out "$1" ||
        openssl genpkey -algorithm EC -pkeyopt ec_paramgen_curve:P-256 -out "$1"
}

sign() { # NAME HOST DAYS
    key "$1.key"
    printf 'subjectAltName=%s\n' "$2" >"$1.ext"
    openssl req -new -key "$1.key" -subj "/CN=$1" -out "$1.csr"
    openssl x509 -req -in "$1.csr" -CA authority.crt -CAkey authority.key -set_serial "$4" -days "$3" \
        -extfile "$1.ext" -out "$1.crt"
    cat "$1.key" "$1.crt" >"$1.pem"
}

key authority.key
openssl req -x509 -new -key authority.key -subj "/CN=loopback authority" -days 2 -out authority.crt
sign good IP:127.0.0.1 2 1
sign expired IP:127.0.0.1 -1 2
sign other DNS:elsewhere.example 2 3
key self.key
openssl req -x509 -new -key self.key -subj "/CN=self" -addext subjectAltName=IP:127.0.0.1 -days 2 -out self.crt
cat self.key self.crt >self.pem
