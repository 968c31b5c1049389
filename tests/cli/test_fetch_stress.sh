#!/bin/sh
# A short form of `make stress`. SPDX-License-Identifier: GPL-3.0-or-later
exec sh tests/server/stress.sh 2 30
