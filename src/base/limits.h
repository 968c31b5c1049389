/* Named maxima of everything that grows. Each is far above honest use and low
 * enough that a hostile file cannot exhaust the machine. SPDX: GPL-3.0-or-later */
#ifndef SUGARLEA_LIMITS_H
#define SUGARLEA_LIMITS_H

#define LIMIT_FILE_BYTES (4ull << 30)  /* a weather file that is held whole */
#define LIMIT_SITES_BYTES (1ull << 40) /* one that is read site by site and never held */
#define LIMIT_JSON_BYTES (64ull << 20) /* decades of hourly open data */
#define LIMIT_JSON_DEPTH 64            /* nesting of braces and brackets */
#define LIMIT_LINE_BYTES (64u << 10)   /* one line of a text file */
#define LIMIT_COLUMNS 512              /* columns of a CSV file */
#define LIMIT_SITES 100000             /* sites of one file */
#define LIMIT_NAME 64                  /* ids, site names; bytes with the closing 0 */
#define LIMIT_TEXT 256                 /* a name or title shown to people */
#define LIMIT_PATH 4096                /* a file name */
#define LIMIT_HOLDINGS 100000          /* of one round */
#define LIMIT_LIST_BYTES (64u << 20)   /* the paths of a round */
#define LIMIT_PADDOCKS 256             /* of one holding */
#define LIMIT_ANIMALS 1024             /* animal groups of one holding */
#define LIMIT_WEATHER_SOURCES 64       /* weather entries of one holding */
#define LIMIT_FILES 4096               /* files that one pattern may match */
#define LIMIT_DOUBTS 4096              /* doubts about the weather that are named one by one */
#define LIMIT_MIX 8                    /* grasses of one paddock */
#define LIMIT_FED 16                   /* feeds of one animal group */
#define LIMIT_STOCK 64                 /* hay lots of one holding */
#define LIMIT_DIARY_BYTES (16u << 20)  /* a diary of many years */
#define LIMIT_CUT_DATES 64             /* cuts named for one paddock */
#define LIMIT_PICTURE (32u << 20)      /* bytes of a drawn picture */

/* Days of one site: 328 years. The fuzz targets are built with fewer, which they reach sooner. */
#ifndef LIMIT_DAYS
#define LIMIT_DAYS 120000
#endif

#endif
