#!/usr/bin/env python3
"""A second, independent writing of the sward model, to check the C one.

Written from the equations of models/METHOD.md, hour by hour and without any of
the C code's short cuts, in plain Python 3.

    oracle.py reference FILE          the table of reference cases: largest differences
    oracle.py sequences               chambers, autumn, frosty spring, regrowth
    oracle.py trajectory FILE LAT     two-year daily trajectories: largest differences
    oracle.py make FILE LAT ELEV FIRST LAST
                                      trajectories on a daily record
                                      (date,tmin_c,tmax_c,rain_mm,rad_mj_m2,rh_pct,wind_m_s)
SPDX-License-Identifier: GPL-3.0-or-later
"""
import csv
import datetime
import math
import sys

ALPHA, EXTINCTION, TRANSMISSION = 0.012, 0.5, 0.1
PM20, GMAX, K_RYEGRASS, C0, CMAX, SHAPE = 0.78, 42.0, 0.155, 0.020, 0.365, 1.85
RM, YG, ROOT = 0.013, 0.75, 0.12
PHOTO = [(-4, 0), (0, .22), (5, .55), (10, .775), (18, 1), (26, 1), (40, 0)]
GROWTH = [(0, 0), (2, .0625), (5, .25), (10, .51), (20, 1), (26, 1), (36, 0)]
HOURS = [0.5 + i for i in range(24)]


def line(knots, x):
    if x <= knots[0][0]:
        return knots[0][1]
    for (xa, ya), (xb, yb) in zip(knots, knots[1:]):
        if x <= xb:
            return ya + (yb - ya) * (x - xa) / (xb - xa)
    return knots[-1][1]


def clip(x, low, high):
    return max(low, min(high, x))


def declination(doy):
    return math.radians(-23.44) * math.cos(2 * math.pi * (doy + 10) / 365.25)


def day_length(lat, doy):
    x = -math.tan(math.radians(lat)) * math.tan(declination(doy))
    return 24 / math.pi * math.acos(clip(x, -1, 1))


def air(hour, tmin, tmax, n, tmax_before, tmin_after):
    rise, fall = 12 - n / 2, 12 + n / 2
    dusk_factor = math.sin(math.pi * n / (n + 3))
    if n >= 24:
        return tmin + (tmax - tmin) * math.sin(math.pi * hour / 27)
    if n <= 0:
        return tmax - (tmax - tmin) * abs(hour - 12) / 12
    if hour < rise:
        start, warm = fall - 24, tmin + (tmax_before - tmin) * dusk_factor
        return warm + (tmin - warm) * (hour - start) / (rise - start)
    if hour <= fall:
        return tmin + (tmax - tmin) * math.sin(math.pi * (hour - rise) / (n + 3))
    warm = tmin + (tmax - tmin) * dusk_factor
    return warm + (tmin_after - warm) * (hour - fall) / (24 + rise - fall)


def light(hour, rad, n):
    rise = 12 - n / 2
    if n <= 0 or not rise < hour < rise + n:
        return 0.0
    return 0.5 * rad * 1e6 * (math.pi / 2) / (3600 * n) * math.sin(math.pi * (hour - rise) / n)


def flows(c_mass, s, lai, t_air, t_soil, par, f):
    """One hour: supply, upkeep, growth. f: fq fwp fwg fph fa fn ff k."""
    c = c_mass / (s + c_mass)
    fwp = f["fwp"] * f["ff"]
    pm = PM20 * f["fq"] * line(PHOTO, t_air) * fwp
    al = ALPHA * (0.6 + 0.4 * fwp)
    supply = 0.0
    if par > 0 and pm > 0 and lai > 0:
        top = al * EXTINCTION * par + (1 - TRANSMISSION) * pm
        bottom = al * EXTINCTION * par * math.exp(-EXTINCTION * lai) + (1 - TRANSMISSION) * pm
        supply = (1 - ROOT) * 3.6 * 30 / 44 * pm / EXTINCTION * math.log(top / bottom)
        supply *= max(0.0, 1 - (c / CMAX) ** SHAPE)
    upkeep = RM / 24 * 2 ** ((t_air - 15) / 10) * s * min(1, max(0, c - C0) / 0.02)
    grow = 0.0
    if c > C0:
        grow = (1 - ROOT) * GMAX / 24 * line(GROWTH, 0.35 * t_air + 0.65 * t_soil)
        grow *= f["fph"] * f["fa"] * f["fwg"] * f["fn"] * (c - C0) / (c - C0 + f["k"])
    left = c_mass + supply - upkeep - grow / YG
    if left < 0.005 * s and upkeep + grow > 0:
        cut = clip((c_mass + supply - 0.005 * s) / (upkeep + grow / YG), 0, 1)
        upkeep, grow = upkeep * cut, grow * cut
    return supply, upkeep, grow


def sink_area(slow):
    return (1 - math.exp(-0.6 * slow)) / (1 - math.exp(-1.5))


def steady(tmin, tmax, rad, lat, doy, fph, fq, k, lai, s, days, start=0.12, fn=1.0):
    """Reference cases: identical days, the structure kept by taking growth off."""
    f = dict(fq=fq, fwp=1, fwg=1, fph=fph, fa=sink_area(lai), fn=fn, ff=1, k=k)
    n = day_length(lat, doy)
    c_mass = start * s / (1 - start)
    for _ in range(days):
        hourly, grown = [], 0.0
        for h in HOURS:
            a, r, g = flows(c_mass, s, lai, air(h, tmin, tmax, n, tmax, tmin), (tmin + tmax) / 2, light(h, rad, n), f)
            c_mass += a - r - g / YG - g * c_mass / s
            hourly.append(1000 * c_mass / (s + c_mass))
            grown += g
    return (min(hourly), max(hourly), sum(hourly) / 24, 1 + hourly.index(min(hourly)), 1 + hourly.index(max(hourly)),
            grown)


def chamber(t, par, lit, s, lai, days, k=K_RYEGRASS):
    f = dict(fq=1.5, fwp=1, fwg=1, fph=1.22, fa=sink_area(lai), fn=1, ff=1, k=k)
    c_mass = 0.12 * s / 0.88
    for _ in range(days):
        for h in HOURS:
            a, r, g = flows(c_mass, s, lai, t, t, par if h < lit else 0, f)
            c_mass += a - r - g / YG - g * c_mass / s
    return 1000 * c_mass / (s + c_mass)


def sequence(spells, lat, doy, fph, fq, start, s=170.0, lai=2.5):
    days = [w for count, w in spells for _ in range(count)]
    c_mass, t_soil, out = start * s / (1 - start), sum(days[0][:2]) / 2, []
    f = dict(fq=fq, fwp=1, fwg=1, fph=fph, fa=sink_area(lai), fn=1, ff=1, k=K_RYEGRASS)
    for i, (tmin, tmax, rad) in enumerate(days):
        n = day_length(lat, doy + i)
        t_soil += 0.22 * ((tmin + tmax) / 2 - t_soil)
        before = days[i - 1][1] if i else tmax
        after = days[i + 1][0] if i + 1 < len(days) else tmin
        hourly = []
        for h in HOURS:
            a, r, g = flows(c_mass, s, lai, air(h, tmin, tmax, n, before, after), t_soil, light(h, rad, n), f)
            c_mass += a - r - g / YG - g * c_mass / s
            hourly.append(1000 * c_mass / (s + c_mass))
        out.append((min(hourly), max(hourly)))
    return out


def regrowth(days=28):
    s, lai, slow, c, out = 80.0, 0.6, 2.5, 0.15, []
    c_mass, n = c * s / (1 - c), day_length(52, 135)
    for _ in range(days):
        slow += (lai - slow) / 15
        f = dict(fq=1.5, fwp=1, fwg=1, fph=1.22, fa=sink_area(slow), fn=1, ff=1, k=K_RYEGRASS)
        hourly, grown = [], 0.0
        for h in HOURS:
            a, r, g = flows(c_mass, s + grown, lai, air(h, 8, 17, n, 17, 8), 12.5, light(h, 17, n), f)
            c_mass += a - r - g / YG
            grown += g
            hourly.append(1000 * c_mass / (s + grown + c_mass))
        s, lai = s + grown, lai + 0.0178 * grown
        out.append((min(hourly), max(hourly), sum(hourly) / 24))
    return out


class Sward:
    """The whole day, ryegrass, rainfed, no snow rule; shares nothing with the C code."""

    def __init__(self, capacity=120.0, k=K_RYEGRASS, fn=1.0):
        self.leaf, self.stem, self.sugar, self.dead = 30.0, 0.0, 6.0, 30.0
        self.age_leaf, self.age_stem, self.slow = 100.0, 0.0, 1.0
        self.soil, self.st, self.w, self.ff, self.flag = 5.0, 0.0, 0.75, 1.0, True
        self.capacity, self.k, self.fn, self.lai = capacity, k, fn, 0.0

    def phases(self, day):
        st = self.st
        if st < 390:
            return 0.71, 1.0
        if st < 480:
            x = (st - 390) / 90
            return 0.71 + 0.51 * x, 1 + 0.5 * x
        if st <= 980:
            return 1.22, 1.5
        if st < 1290:
            x = (st - 980) / 310
            return 1.22 - 0.41 * x, 1.5 - 0.5 * x
        return 0.81 - 0.10 * clip((day - 245) / 30, 0, 1), 1.0

    @staticmethod
    def old(x):
        return 1.0 if x < 1 / 3 else 3 * x if x < 1 else 3.0

    def step(self, date, lat, tmin, tmax, rad, rain, et0, before, after):
        south = lat < 0
        first_month = 7 if south else 1
        if date.month == first_month and date.day == 1:
            self.st, self.flag = 0.0, True
        t = (tmin + tmax) / 2
        weight = {first_month: 0.5, first_month + 1: 0.75}.get(date.month, 1.0)
        self.st += max(0.0, t) * weight
        self.soil += 0.22 * (t - self.soil)
        self.lai = lai = 0.0178 * (self.leaf + 0.3 * self.stem)
        self.w = clip(self.w + (rain - min(et0, et0 * lai / 3)) / self.capacity, 0, 1)
        self.slow += (lai - self.slow) / 15
        doy = date.timetuple().tm_yday
        fph, fq = self.phases((doy + 182) % 365 if south else doy)
        if tmin < -1:
            self.ff = min(self.ff, clip(1 + (tmin + 1) / 9, 0.2, 1))
        else:
            self.ff = min(1.0, self.ff + 0.15)
        f = dict(fq=fq, fph=fph, fa=sink_area(self.slow), fn=self.fn, ff=self.ff, k=self.k,
                 fwg=clip((self.w - 0.10) / 0.40, 0.02, 1), fwp=clip((self.w - 0.02) / 0.25, 0.1, 1))
        n, s0 = day_length(lat, doy), self.leaf + self.stem
        grown, hourly = 0.0, []
        for h in HOURS:
            a, r, g = flows(self.sugar, s0 + grown, lai, air(h, tmin, tmax, n, before, after), self.soil,
                            light(h, rad, n), f)
            self.sugar += a - r - g / YG
            grown += g
            hourly.append(1000 * self.sugar / (s0 + grown + self.sugar))
        self.turn_over(t, s0, grown)
        return grown, min(hourly), max(hourly), sum(hourly) / 24

    def turn_over(self, t, s0, grown):
        die_leaf = die_stem = 0.0
        if t > 4:
            die_leaf = 0.0027 * self.leaf * t * self.old(self.age_leaf / 800)
            die_stem = 0.001 * self.stem * t * self.old(self.age_stem / 600)
        elif t < 0:
            die_leaf, die_stem = 0.0027 * self.leaf * -t, 0.001 * self.stem * -t
        die_leaf = min(die_leaf, max(0.0, self.leaf - 15))
        die_stem = min(die_stem, self.stem)
        to_stem = 0.6 * grown if 980 <= self.st <= 1290 and self.flag else 0.0
        self.sugar *= 1 - (0.7 if t > 0 else 1.0) * (die_leaf + die_stem) / (s0 + grown)
        self.dead = self.dead * (1 - 0.0015 * max(0.0, t)) + 0.6 * (die_leaf + die_stem)
        self.age_leaf = self.aged(self.age_leaf, self.leaf - die_leaf, grown - to_stem, t)
        self.age_stem = self.aged(self.age_stem, self.stem - die_stem, to_stem, t)
        self.leaf += grown - to_stem - die_leaf
        self.stem += to_stem - die_stem

    @staticmethod
    def aged(age, stay, new, t):
        return stay / (stay + new) * (age + max(0.0, t)) if stay + new > 0 else 0.0

    def total(self):
        return 10 * (self.leaf + self.stem + self.sugar + self.dead)

    def cut(self):
        before, green = self.total(), self.leaf + self.stem
        if self.st >= 980:
            self.flag = False
        self.leaf, self.stem, self.dead = min(self.leaf, 40), min(self.stem, 15), min(self.dead, 25)
        self.sugar *= (self.leaf + self.stem) / green
        return before - self.total()

    def graze(self, cover):
        before = self.total()
        if before <= cover:
            return 0.0
        keep = 1 - 0.3 * (before - cover) / before
        if self.stem > 0 and self.st >= 980:
            self.flag = False
        self.leaf, self.stem, self.sugar, self.dead = (keep * x for x in (self.leaf, self.stem, self.sugar, self.dead))
        return before - self.total()


COLUMNS = ("st_c_d ts_c w ff lai lslow leaf_g_m2 stem_g_m2 sugar_g_m2 dead_g_m2 age_leaf_c_d growth_g_m2_d nsc_min "
           "nsc_max nsc_mean taken_kg_ha").split()


def run(weather, lat, how):
    """weather: rows (date, tmin, tmax, rain, rad, et0). Yields (weather row, column values)."""
    s = Sward()
    for i, (date, tmin, tmax, rain, rad, et0) in enumerate(weather):
        before = weather[i - 1][2] if i else tmax
        after = weather[i + 1][1] if i + 1 < len(weather) else tmin
        grown, low, high, mean = s.step(date, lat, tmin, tmax, rad, rain, et0, before, after)
        doy, taken = date.timetuple().tm_yday, 0.0
        if how == "grazed":
            taken = s.graze(1800)
        elif (doy - 1) % 28 == 0 and 80 < doy < 310:
            taken = s.cut()
        yield weather[i], (s.st, s.soil, s.w, s.ff, s.lai, s.slow, s.leaf, s.stem, s.sugar, s.dead, s.age_leaf, grown,
                           low, high, mean, taken)


def read_weather(path, wanted="cut"):
    rows = []
    with open(path, newline="") as f:
        for r in csv.DictReader(line for line in f if not line.startswith("#")):
            if r.get("run", wanted) == wanted:
                rows.append(r)
    return rows


def do_reference(path):
    worst = [0.0] * 6
    with open(path, newline="") as f:
        for r in csv.DictReader(f):
            get = lambda key: float(r[key])
            got = steady(get("tmin_c"), get("tmax_c"), get("rad_mj_m2"), get("lat"), int(r["doy"]), get("sink_phase"),
                         get("source_phase"), get("k"), get("lai"), get("structural_g_m2"), int(r["days"]))
            want = [get(k) for k in "nsc_min nsc_max nsc_mean hour_min hour_max growth_g_m2_d".split()]
            worst = [max(w, abs(a - b)) for w, a, b in zip(worst, got, want)]
    print("largest differences: min %.2f max %.2f mean %.2f g/kg, hours %d %d, growth %.3f g/m2/d" % tuple(worst))


def do_sequences():
    print("chambers", *("%.1f" % x for x in (chamber(5, 120, 20, 350, 5, 4), chamber(25, 20, 4, 350, 5, 4),
                                              chamber(10, 150, 12, 170, 2.5, 25), chamber(20, 150, 12, 170, 2.5, 25))))
    autumn = [(3, (8, 14, 7)), (7, (-1, 10, 10)), (5, (9, 14, 4))]
    spring = [(3, (7, 16, 17)), (7, (-1, 14, 24)), (5, (10, 15, 8))]
    print("autumn", *("%.1f-%.1f" % x for x in sequence(autumn, 52, 285, 0.71, 1, 0.13)))
    print("spring", *("%.1f-%.1f" % x for x in sequence(spring, 52, 120, 1.22, 1.5, 0.157)))
    print("regrowth", *("%d:%.1f/%.1f" % (i + 1, x[0], x[2]) for i, x in enumerate(regrowth())))


def do_trajectory(path, lat):
    for how in ("cut", "grazed"):
        rows = read_weather(path, how)
        weather = [(datetime.date.fromisoformat(r["date"]),) +
                   tuple(float(r[k]) for k in "tmin_c tmax_c rain_mm rad_mj_m2 et0_mm".split()) for r in rows]
        worst = dict.fromkeys(COLUMNS, 0.0)
        for row, (_, values) in zip(rows, run(weather, lat, how)):
            for name, value in zip(COLUMNS, values):
                worst[name] = max(worst[name], abs(value - float(row[name])))
        print(how, " ".join("%s %.4f" % x for x in worst.items()))


def saturation(t):
    return 0.6108 * math.exp(17.27 * t / (t + 237.3))


def et0_fao56(date, lat, elevation, tmin, tmax, rad, wind):
    """FAO-56 Eq. 6 with humidity missing: dew point = Tmin (Eq. 48)."""
    j, phi, t = date.timetuple().tm_yday, math.radians(lat), (tmin + tmax) / 2
    dr, dec = 1 + 0.033 * math.cos(2 * math.pi * j / 365), 0.409 * math.sin(2 * math.pi * j / 365 - 1.39)
    ws = math.acos(clip(-math.tan(phi) * math.tan(dec), -1, 1))
    ra = 24 * 60 / math.pi * 0.0820 * dr * (ws * math.sin(phi) * math.sin(dec) +
                                            math.cos(phi) * math.cos(dec) * math.sin(ws))
    rso, es, ea = (0.75 + 2e-5 * elevation) * ra, (saturation(tmin) + saturation(tmax)) / 2, saturation(tmin)
    rnl = 4.903e-9 * ((tmax + 273.16) ** 4 + (tmin + 273.16) ** 4) / 2 * (0.34 - 0.14 * math.sqrt(ea))
    rnl *= 1.35 * min(1.0, rad / rso) - 0.35
    rn, slope = 0.77 * rad - rnl, 4098 * saturation(t) / (t + 237.3) ** 2
    gamma = 0.665e-3 * 101.3 * ((293 - 0.0065 * elevation) / 293) ** 5.26
    return max(0.0, (0.408 * slope * rn + gamma * 900 / (t + 273) * wind * (es - ea)) /
               (slope + gamma * (1 + 0.34 * wind)))


def do_make(path, lat, elevation, first, last):
    weather = []
    for r in read_weather(path):
        date = datetime.date.fromisoformat(r["date"])
        if first <= date <= last:
            tmin, tmax, rain, rad, wind = (float(r[k]) for k in "tmin_c tmax_c rain_mm rad_mj_m2 wind_m_s".split())
            weather.append((date, tmin, tmax, rain, rad, round(et0_fao56(date, lat, elevation, tmin, tmax, rad, wind), 2)))
    print("run,date,tmin_c,tmax_c,rain_mm,rad_mj_m2,et0_mm," + ",".join(COLUMNS))
    for how in ("cut", "grazed"):
        for w, values in run(weather, lat, how):
            print(",".join([how, w[0].isoformat()] + ["%g" % x for x in w[1:]] + ["%.6g" % x for x in values]))


def main(argv):
    if argv[1:2] == ["reference"] and len(argv) == 3:
        do_reference(argv[2])
    elif argv[1:2] == ["sequences"]:
        do_sequences()
    elif argv[1:2] == ["trajectory"] and len(argv) == 4:
        do_trajectory(argv[2], float(argv[3]))
    elif argv[1:2] == ["make"] and len(argv) == 7:
        day = datetime.date.fromisoformat
        do_make(argv[2], float(argv[3]), float(argv[4]), day(argv[5]), day(argv[6]))
    else:
        sys.exit(__doc__)


if __name__ == "__main__":
    main(sys.argv)
