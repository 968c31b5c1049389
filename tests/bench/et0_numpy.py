#!/usr/bin/env python3
"""FAO-56 Penman-Monteith over arrays in numpy, written from the printed equations
(Allen, Pereira, Raes & Smith 1998): an oracle of src/physics/et0.c, and what its rate
is measured against.

    et0_numpy.py FOLDER SITES DAYS     reads and checks what bench_et0 wrote there
SPDX-License-Identifier: GPL-3.0-or-later
"""
import statistics
import sys
import time

import numpy as np


def saturation(t):
    return 0.6108 * np.exp(17.27 * t / (t + 237.3))


def extraterrestrial(doy, lat):
    """Eq. 21-25: of each day of the year, so that a record looks it up."""
    phi, turn = np.radians(lat), 2 * np.pi * doy / 365
    distance, declination = 1 + 0.033 * np.cos(turn), 0.409 * np.sin(turn - 1.39)
    ws = np.arccos(np.clip(-np.tan(phi) * np.tan(declination), -1, 1))
    return 24 * 60 / np.pi * 0.0820 * distance * (ws * np.sin(phi) * np.sin(declination) +
                                                  np.cos(phi) * np.cos(declination) * np.sin(ws))


def et0(tmin, tmax, rad, rh, wind, doy, lat, elevation):
    ra = extraterrestrial(np.arange(367), lat)[doy]
    t = (tmin + tmax) / 2
    es = (saturation(tmin) + saturation(tmax)) / 2
    ea = np.minimum(rh / 100 * es, es)
    ratio = np.clip(rad / ((0.75 + 2e-5 * elevation) * ra), 0.3, 1)
    low, high = np.square(tmin + 273.16), np.square(tmax + 273.16)
    rnl = 4.903e-9 / 2 * (np.square(low) + np.square(high)) * (0.34 - 0.14 * np.sqrt(ea)) * (1.35 * ratio - 0.35)
    slope = 4098 * saturation(t) / np.square(t + 237.3)
    gamma = 0.665e-3 * 101.3 * ((293 - 0.0065 * elevation) / 293) ** 5.26
    u = np.maximum(wind, 0.5)
    top = 0.408 * slope * (0.77 * rad - rnl) + gamma * 900 / (t + 273) * u * (es - ea)
    return np.maximum(top / (slope + gamma * (1 + 0.34 * u)), 0)


def days_of_year(days):
    date = np.datetime64("1991-01-01") + np.arange(days)
    return (date - date.astype("datetime64[Y]").astype("datetime64[D]")).astype(int) + 1


def main(folder, sites, days):
    read = lambda name: np.fromfile("%s/%s.f64" % (folder, name)).reshape(sites, days)
    columns = [read(name) for name in "tmin tmax rad rh wind".split()]
    ours, doy, found, took = read("et0"), days_of_year(days), np.empty((sites, days)), []
    for _ in range(9):
        start = time.process_time()
        for s in range(sites):
            found[s] = et0(*(c[s] for c in columns), doy, 40 + 0.1 * s, 100)
        took.append((time.process_time() - start) * 1e9 / ours.size)
    miss = np.max(np.abs(found - ours) / np.maximum(np.abs(found), 1e-3))
    print("ns %.2f" % statistics.median(took))
    print("miss %.2g" % miss)
    print("version numpy %s, Python %s" % (np.__version__, sys.version.split()[0]))
    sys.exit(0 if miss < 1e-6 else "et0_numpy: the two differ by %.2g" % miss)


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]))
