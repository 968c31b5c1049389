#!/usr/bin/env python3
"""The sward of many members in numpy, a day for all of them at once: the equations of
oracle.py (models/METHOD.md), ryegrass, rainfed, without the snow rule, grazed to 1800
kg/ha. What depends on the day alone is found once for all members.

    sward_numpy.py FOLDER DAYS MEMBERS      reads and checks what bench_members wrote there
SPDX-License-Identifier: GPL-3.0-or-later
"""
import datetime
import statistics
import sys
import time

import numpy as np
import oracle

COVER = 1800.0


class Members:
    def __init__(self, capacity, nitrogen, k):
        full = lambda value: np.full(capacity.shape, value)
        self.capacity, self.nitrogen, self.k = capacity, nitrogen, k
        self.leaf, self.stem, self.sugar, self.dead = full(30.0), full(0.0), full(6.0), full(30.0)
        self.age_leaf, self.age_stem, self.slow = full(100.0), full(0.0), full(1.0)
        self.w, self.flag = full(0.75), np.ones(capacity.shape, bool)
        self.common = oracle.Sward()  # temperature sum, soil and frost are those of the day alone

    def factors(self, tmin, doy, lai):
        c = self.common
        if tmin < -1:
            c.ff = min(c.ff, oracle.clip(1 + (tmin + 1) / 9, 0.2, 1))
        else:
            c.ff = min(1.0, c.ff + 0.15)
        sink, source = c.phases(doy)
        wet = np.clip((self.w - 0.02) / 0.25, 0.1, 1) * c.ff
        area = (1 - np.exp(-0.6 * self.slow)) / (1 - np.exp(-1.5))
        grow = sink * area * np.clip((self.w - 0.10) / 0.40, 0.02, 1) * self.nitrogen
        return wet, source * wet, grow

    def supply(self, lai, source, wet, warm, par):
        """A at no sugar of each lit hour, 24 x members; None in the dark."""
        shade, out = np.exp(-oracle.EXTINCTION * lai), []
        alpha = oracle.ALPHA * (0.6 + 0.4 * wet) * oracle.EXTINCTION
        for t, light in zip(warm, par):
            if light <= 0 or oracle.line(oracle.PHOTO, t) <= 0:
                out.append(None)
                continue
            pm = oracle.PM20 * oracle.line(oracle.PHOTO, t) * source
            caught, through = alpha * light, (1 - oracle.TRANSMISSION) * pm
            rate = (1 - oracle.ROOT) * 3.6 * 30 / 44 / oracle.EXTINCTION
            out.append(rate * pm * np.log((caught + through) / (caught * shade + through)))
        return out

    def hours(self, s0, warm, supply, grow):
        sugar, grown, total = self.sugar, 0.0, 0.0
        c = sugar / (s0 + sugar)
        for t, most in zip(warm, supply):
            above = np.maximum(c - oracle.C0, 0)
            a = 0.0 if most is None else most * np.maximum(0, 1 - (c / oracle.CMAX) ** oracle.SHAPE)
            upkeep = oracle.RM / 24 * 2 ** ((t - 15) / 10) * (s0 + grown) * np.minimum(1, above / 0.02)
            rate = (1 - oracle.ROOT) * oracle.GMAX / 24 * oracle.line(oracle.GROWTH, 0.35 * t + 0.65 * self.common.soil)
            g = rate * grow * (above / (above + self.k))
            need, there = upkeep + g / oracle.YG, sugar + a - 0.005 * (s0 + grown)
            if (need > there).any():
                share = np.where(need > there, np.maximum(there, 0) / np.where(need > 0, need, 1), 1)
                upkeep, g, need = upkeep * share, g * share, need * share
            sugar, grown = sugar + a - need, grown + g
            c = sugar / (s0 + grown + sugar)
            total = total + c
        self.sugar = sugar
        return grown, 1000 * total / 24

    def turn_over(self, t, s0, grown):
        old = lambda x: np.where(x < 1 / 3, 1, np.minimum(3 * x, 3))
        aged = lambda age, stay, new: stay * (age + max(0.0, t)) / np.where(stay + new > 0, stay + new, 1)
        die_leaf, die_stem = 0.0 * self.leaf, 0.0 * self.stem
        if t > 4:
            die_leaf = 0.0027 * self.leaf * t * old(self.age_leaf / 800)
            die_stem = 0.001 * self.stem * t * old(self.age_stem / 600)
        elif t < 0:
            die_leaf, die_stem = 0.0027 * self.leaf * -t, 0.001 * self.stem * -t
        die_leaf = np.minimum(die_leaf, np.maximum(0, self.leaf - 15))
        die_stem = np.minimum(die_stem, self.stem)
        to_stem = 0.6 * grown * self.flag if 980 <= self.common.st <= 1290 else 0.0
        self.sugar = self.sugar * (1 - (0.7 if t > 0 else 1.0) * (die_leaf + die_stem) / (s0 + grown))
        self.dead = self.dead * (1 - 0.0015 * max(0.0, t)) + 0.6 * (die_leaf + die_stem)
        self.age_leaf = aged(self.age_leaf, self.leaf - die_leaf, grown - to_stem)
        self.age_stem = aged(self.age_stem, self.stem - die_stem, to_stem)
        self.leaf = self.leaf + (grown - to_stem - die_leaf)
        self.stem = self.stem + (to_stem - die_stem)

    def graze(self):
        before = 10 * (self.leaf + self.stem + self.sugar + self.dead)
        keep = 1 - 0.3 * np.maximum(before - COVER, 0) / before
        if self.common.st >= 980:
            self.flag = self.flag & ~((before > COVER) & (self.stem > 0))
        self.leaf, self.stem, self.sugar, self.dead = (keep * x for x in (self.leaf, self.stem, self.sugar, self.dead))

    def step(self, day):
        number, tmin, tmax, rad, rain, et0, before, after, length = day
        date, t, c = datetime.date.fromordinal(719163 + int(number)), (tmin + tmax) / 2, self.common
        if date.month == 1 and date.day == 1:
            c.st = 0.0
            self.flag = np.ones(self.leaf.shape, bool)
        c.st += max(0.0, t) * {1: 0.5, 2: 0.75}.get(date.month, 1.0)
        c.soil += 0.22 * (t - c.soil)
        lai = 0.0178 * (self.leaf + 0.3 * self.stem)
        self.w = np.clip(self.w + (rain - et0 * np.minimum(1, lai / 3)) / self.capacity, 0, 1)
        self.slow = self.slow + (lai - self.slow) / 15
        wet, source, grow = self.factors(tmin, date.timetuple().tm_yday, lai)
        warm = [oracle.air(h, tmin, tmax, length, before, after) for h in oracle.HOURS]
        par = [oracle.light(h, rad, length) for h in oracle.HOURS]
        s0 = self.leaf + self.stem
        grown, nsc = self.hours(s0, warm, self.supply(lai, source, wet, warm, par), grow)
        self.turn_over(t, s0, grown)
        self.graze()
        return 10 * grown, nsc


def main(folder, days, members):
    read = lambda name, *shape: np.fromfile("%s/%s.f64" % (folder, name)).reshape(shape)
    weather, member, took = read("weather", days, 9), read("member", 3, members), []
    growth, nsc = np.empty((days, members)), np.empty((days, members))
    for _ in range(3):
        s, start = Members(*member), time.process_time()
        for i in range(days):
            growth[i], nsc[i] = s.step(weather[i])
        took.append((time.process_time() - start) * 1e9 / (days * members))
    miss = max(np.max(np.abs(found - read(name, days, members)) / np.maximum(np.abs(found), 1e-2))
               for name, found in (("growth", growth), ("nsc", nsc)))
    print("ns %.1f" % statistics.median(took))
    print("miss %.2g" % miss)
    print("version numpy %s, Python %s" % (np.__version__, sys.version.split()[0]))
    sys.exit(0 if miss < 1e-6 else "sward_numpy: the two differ by %.2g" % miss)


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]))
