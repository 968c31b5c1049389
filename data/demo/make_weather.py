#!/usr/bin/env python3
"""Makes the INVENTED weather of the demo holding: python3 data/demo/make_weather.py > data/demo/weather.csv

Nothing here was measured. A yearly cycle that suits a mild, wet place at 52 degrees
north, day-to-day noise with a memory, and at the end ten dry days of sun and cold
nights, because that is when grass sugar climbs and the advice has something to say.
The same file comes out every time: the seed is fixed, and only random(), whose
sequence Python keeps from version to version, is drawn from.

SPDX-License-Identifier: GPL-3.0-or-later
"""

import datetime
import math
import random

LATITUDE = 52.3
FIRST = datetime.date(2023, 5, 1)
LAST = datetime.date(2025, 4, 22)
SEED = 5230
# The last ten days: tmin C, tmax C, share of the radiation above the air.
SPELL = [
    (4.6, 12.8, 0.58), (2.9, 12.1, 0.66), (1.4, 11.6, 0.71), (0.2, 11.2, 0.73), (-0.6, 11.9, 0.72),
    (-1.1, 12.6, 0.74), (-0.4, 13.4, 0.73), (0.1, 12.2, 0.70), (-1.3, 11.7, 0.74), (-0.9, 12.9, 0.73),
]

draw = random.Random(SEED).random


def normal():
    """A draw of mean 0 and SD 1 (Box and Muller 1958)."""
    return math.sqrt(-2.0 * math.log(1.0 - draw())) * math.cos(2.0 * math.pi * draw())


def season(day_of_year, mean, amplitude, peak_day):
    """A yearly cosine that peaks on peak_day."""
    return mean + amplitude * math.cos(2.0 * math.pi * (day_of_year - peak_day) / 365.25)


def above_the_air(day_of_year):
    """Extraterrestrial radiation, MJ/m2/d (FAO-56 Eq. 21 with 23-25)."""
    angle = 2.0 * math.pi * day_of_year / 365.0
    distance = 1.0 + 0.033 * math.cos(angle)
    declination = 0.409 * math.sin(angle - 1.39)
    latitude = math.radians(LATITUDE)
    sunset = math.acos(-math.tan(latitude) * math.tan(declination))
    return 37.586 * distance * (
        sunset * math.sin(latitude) * math.sin(declination)
        + math.cos(latitude) * math.cos(declination) * math.sin(sunset)
    )


def invent():
    """Yields (date, tmin, tmax, rain, radiation, humidity, wind)."""
    warmth = cloud = gusts = 0.0
    wet = False
    for i in range((LAST - FIRST).days + 1):
        date = FIRST + datetime.timedelta(days=i)
        doy = date.timetuple().tm_yday
        warmth = 0.78 * warmth + 1.55 * normal()
        cloud = 0.45 * cloud + 0.89 * normal()
        gusts = 0.55 * gusts + 0.84 * normal()
        wet = draw() < (0.62 if wet else 0.33)
        rain = -5.0 * math.log(1.0 - draw()) if wet else 0.0
        # 1 a cloudless day, 0 the dullest
        clear = 1.0 / (1.0 + math.exp(-(-0.1 + 1.1 * cloud - (0.9 if wet else 0.0))))
        share = 0.17 + 0.60 * clear
        spread = season(doy, 6.4, 1.9, 150) * (0.62 + 0.95 * clear)
        # Clear winter days are cold and clear summer days warm.
        mean = season(doy, 9.7, 6.6, 205) + warmth + season(doy, -0.6, 2.2, 190) * (clear - 0.4)
        tmin, tmax = mean - spread / 2.0, mean + spread / 2.0
        wind = 2.6 * math.exp(0.42 * gusts - 0.09)
        humidity = 90.0 - 22.0 * clear + (3.0 if wet else -2.0) + 1.5 * normal()
        left = (LAST - date).days
        if left < len(SPELL):
            tmin, tmax, share = SPELL[len(SPELL) - 1 - left]
            rain, wind, humidity = 0.0, 1.2 + 0.2 * (left % 3), 68.0 + (left % 4)
        yield date, tmin, tmax, rain, share * above_the_air(doy), min(99.0, humidity), wind


print("date,tmin_c,tmax_c,rain_mm,rad_mj_m2,rh_pct,wind_m_s")
for when, *values in invent():
    shown = [f"{round(v, 1) + 0.0:g}" for v in values[:3]] + [f"{values[3]:.2f}", f"{values[4]:.0f}", f"{values[5]:.1f}"]
    print(f"{when},{','.join(shown)}")
