# sugarlea: GNU make, no configure step. `make help` lists the targets.
# SPDX-License-Identifier: GPL-3.0-or-later
VERSION  := 0.1.0
RELEASED := 2026-11-27
PREFIX  ?= /usr/local
DESTDIR ?=
BUILD   ?= build
# V=1 shows the whole compiler lines
Q   := $(if $(V),,@)
SAY := @$(if $(V),:,echo " ")

LIBRARIES := libcjson gsl zlib
CPPFLAGS += -Isrc -D_GNU_SOURCE -DSUGARLEA_VERSION='"$(VERSION)"' \
            -DSUGARLEA_RELEASED='"$(RELEASED)"' -DSUGARLEA_DATADIR='"$(PREFIX)/share/sugarlea"' \
            -DSUGARLEA_LIBEXECDIR='"$(PREFIX)/libexec/sugarlea"'
CFLAGS   ?= -O2 -g
WARNINGS := -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wno-sign-conversion -Wstrict-prototypes \
            -Wmissing-prototypes -Wvla -Wformat=2 -Wundef -Wcast-qual -Wwrite-strings -Wdouble-promotion
HARDEN   := -fstack-protector-strong -fPIE -D_FORTIFY_SOURCE=2
LDHARDEN := $(if $(filter Darwin,$(shell uname -s)),,-pie -Wl,-z,relro,-z,now)
ifeq ($(SANITIZE),1)
  BUILD  := build/sanitize
  HARDEN := -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer -fPIE
  LDHARDEN := -fsanitize=address,undefined -pie
endif
ALL_CFLAGS = -std=c11 -pthread $(CFLAGS) $(STRAIGHT) $(WARNINGS) $(HARDEN) $(CPPFLAGS) $(shell pkg-config --cflags $(LIBRARIES) 2>/dev/null)
LDLIBS     = $(shell pkg-config --libs $(LIBRARIES) 2>/dev/null) -lm -pthread

SOURCES := $(filter-out src/main.c,$(wildcard src/base/*.c src/data/*.c src/weather/*.c src/physics/*.c \
             src/sward/*.c src/animal/*.c src/advice/*.c src/season/*.c src/hay/*.c src/out/*.c src/setup/*.c src/cmd/*.c))
OBJECTS := $(SOURCES:%.c=$(BUILD)/%.o)
LIBRARY := $(BUILD)/libsugarlea.a
TESTS   := $(patsubst %.c,$(BUILD)/%,$(wildcard tests/unit/test_*.c tests/science/test_*.c))
HELPERS := $(patsubst %.c,$(BUILD)/%.o,$(wildcard tests/support/*.c))
BENCHES := $(patsubst %.c,$(BUILD)/%,$(wildcard tests/bench/bench_*.c))
JOBS     = $(if $(filter -j% --jobserver%,$(MAKEFLAGS)),,-j2)
PROGRAM := $(if $(filter 1,$(SANITIZE)),$(BUILD)/sugarlea,sugarlea)
# The only program that links libcurl: it costs each process milliseconds at its start.
FETCHER := $(PROGRAM)-fetch
FETCHES := $(patsubst %.c,$(BUILD)/%.o,$(wildcard src/fetch/*.c))

.PHONY: all help deps demo picture check page-tools stress fuzz faults determinism coverage lint format bench trials hindcasts samples install uninstall dist clean deb deb-check always
.DELETE_ON_ERROR:
.SECONDARY:

all: $(PROGRAM) $(FETCHER)

help:
	@sed -n 's/^## //p' Makefile

## deps       check the libraries; install them when run as root, else say how
deps:
	@sh .ci/deps

$(PROGRAM): $(BUILD)/src/main.o $(LIBRARY)
	$(SAY) LINK $@
	$(Q)$(CC) $(LDHARDEN) $(LDFLAGS) -o $@ $^ $(LDLIBS)

$(FETCHER): $(FETCHES) $(LIBRARY)
	$(SAY) LINK $@
	$(Q)$(CC) $(LDHARDEN) $(LDFLAGS) -o $@ $^ $(LDLIBS) $(shell pkg-config --libs libcurl 2>/dev/null)

$(LIBRARY): $(OBJECTS)
	@rm -f $@
	$(SAY) AR $@
	$(Q)$(AR) rcs $@ $^

# What the command line defines is compiled into some objects: they are made anew when it changes.
$(BUILD)/constants: always
	@mkdir -p $(@D)
	@echo '$(VERSION) $(RELEASED) $(PREFIX)' | cmp -s - $@ || echo '$(VERSION) $(RELEASED) $(PREFIX)' >$@
$(patsubst %.c,$(BUILD)/%.o,$(shell grep -lE 'SUGARLEA_(VERSION|RELEASED|DATADIR|LIBEXECDIR)' src/*/*.c)): $(BUILD)/constants

# Vector code of straight loops. None of these flags lets a result change: errno and traps of floating point are
# not used, and multiplications are not fused with additions, which would differ between machines.
$(addprefix $(BUILD)/src/physics/,et0_block.o diurnal.o frost.o) $(addprefix $(BUILD)/src/sward/,lanes.o sward.o balance.o canopy.o) $(BUILD)/src/advice/session.o: STRAIGHT := -O3 -fno-math-errno -fno-trapping-math -ffp-contract=off

# Libraries are looked for before anything is compiled (flags are read after that).
$(BUILD)/%.o: %.c | deps
	@mkdir -p $(@D)
	$(SAY) CC $<
	$(Q)$(CC) $(ALL_CFLAGS) -MMD -MP -c -o $@ $<

$(BUILD)/tests/%.o: tests/%.c | deps
	@mkdir -p $(@D)
	$(SAY) CC $<
	$(Q)$(CC) $(ALL_CFLAGS) -Itests -MMD -MP -c -o $@ $<

# Tests may refuse allocations from arenas (tests/support/starve.h).
WRAPPED := $(if $(filter Darwin,$(shell uname -s)),,-Wl,--wrap=arena_alloc,--wrap=arena_strndup,--wrap=arena_strdup)

$(BUILD)/tests/unit/%: $(BUILD)/tests/unit/%.o $(HELPERS) $(LIBRARY)
	$(SAY) LINK $@
	$(Q)$(CC) $(LDHARDEN) $(WRAPPED) $(LDFLAGS) -o $@ $^ $(LDLIBS) -lcmocka

# The fetcher's own files are in no library.
$(BUILD)/tests/unit/test_requests: $(BUILD)/src/fetch/request.o

$(BUILD)/tests/science/%: $(BUILD)/tests/science/%.o $(HELPERS) $(LIBRARY)
	$(SAY) LINK $@
	$(Q)$(CC) $(LDHARDEN) $(WRAPPED) $(LDFLAGS) -o $@ $^ $(LDLIBS) -lcmocka

$(BUILD)/tests/bench/%: $(BUILD)/tests/bench/%.o $(HELPERS) $(LIBRARY)
	$(SAY) LINK $@
	$(Q)$(CC) $(LDHARDEN) $(WRAPPED) $(LDFLAGS) -o $@ $^ $(LDLIBS) -lcmocka

-include $(shell find $(BUILD)/src $(BUILD)/tests $(BUILD)/fuzz -name '*.d' 2>/dev/null)

## demo       build, then this morning's advice for an invented holding and for a real record
demo:
	@$(MAKE) --no-print-directory $(JOBS) all
	@sh data/demo.sh

## picture    draw the README's picture anew
picture: all
	./sugarlea season --holding data/demo/holding.json --paddock old-bank --from 2025-02-01 --to 2025-04-22 \
	    --plot plots/season.svg

## check      build and run every test (SANITIZE=1: under ASan and UBSan)
check:
	@$(MAKE) --no-print-directory $(JOBS) tests-run

.PHONY: tests-run
tests-run: all $(TESTS)
	@PROGRAM=$(PROGRAM) FETCHER=$(FETCHER) sh tests/run.sh $(TESTS)

## page-tools what the tests of the sheet in a browser need from npm, into build/page (chromium itself: apt-get)
page-tools:
	@mkdir -p build/page
	cp tests/page/package.json tests/page/package-lock.json tests/page/.npmrc build/page
	cd build/page && npm ci --silent

## stress     sixteen fetchers on one cache for 30 s, then 500 killed at random moments
stress: all
	@PROGRAM=$(PROGRAM) sh tests/server/stress.sh

## fuzz       each reader of outside bytes: the kept inputs again, then SECONDS=30 of new ones in all (needs clang)
fuzz:
	@SECONDS_IN_ALL=$(or $(SECONDS),30) MAKE=$(MAKE) sh tests/fuzz/run.sh

# libFuzzer is clang's; the whole library is compiled anew with what it watches.
FUZZ_FLAGS := -fsanitize=fuzzer-no-link,address,undefined -fsanitize-coverage-ignorelist=tests/fuzz/unwatched.txt \
              -fno-sanitize-recover=all -fno-omit-frame-pointer -DLIMIT_DAYS=4000
FUZZERS    := $(patsubst tests/fuzz/%.c,$(BUILD)/fuzz/%,$(wildcard tests/fuzz/fuzz_*.c))
FUZZERS    := $(filter-out $(BUILD)/fuzz/fuzz_weather,$(FUZZERS))
.PHONY: fuzzers
fuzzers: $(FUZZERS)

$(BUILD)/fuzz/src/%.o: src/%.c | deps
	@mkdir -p $(@D)
	$(SAY) FUZZ-CC $<
	$(Q)clang -std=c11 -pthread -O2 -g $(FUZZ_FLAGS) $(CPPFLAGS) $(shell pkg-config --cflags $(LIBRARIES)) -MMD -MP -c -o $@ $<

$(BUILD)/fuzz/%.o: tests/fuzz/%.c | deps
	@mkdir -p $(@D)
	$(SAY) FUZZ-CC $<
	$(Q)clang -std=c11 -pthread -O2 -g $(FUZZ_FLAGS) $(WARNINGS) $(CPPFLAGS) -Itests $(shell pkg-config --cflags $(LIBRARIES)) -MMD -MP -c -o $@ $<

$(BUILD)/fuzz/fuzz_%: $(BUILD)/fuzz/fuzz_%.o $(BUILD)/fuzz/fuzz_weather.o $(SOURCES:%.c=$(BUILD)/fuzz/%.o)
	$(SAY) FUZZ-LINK $@
	$(Q)clang -fsanitize=fuzzer,address,undefined -pthread -o $@ $^ $(LDLIBS)

## valgrind   memcheck over every command on the demo and the unit tests (UNITS="test_run test_diary": those)
.PHONY: valgrind
# Left out: what takes long there, and two that start programs which are not there, which valgrind takes ill.
NO_VALGRIND = test_advice_properties test_base test_bootstrap test_child test_ensemble test_events test_fetch test_memory \
              test_plot_figure test_quality test_ration_properties test_sward_many test_weather_memory
VALGRIND_UNITS = $(patsubst %,$(BUILD)/tests/unit/%,$(or $(UNITS),$(filter-out $(NO_VALGRIND), \
                 $(patsubst tests/unit/%.c,%,$(wildcard tests/unit/test_*.c)))))
valgrind: all $(VALGRIND_UNITS)
	@sh tests/valgrind/run.sh ./$(PROGRAM) $(VALGRIND_UNITS)

## faults     each allocation and file call failing in turn, for every command on the demo (ALL=1: not a sample)
faults: all
	@mkdir -p $(BUILD)/fault
	@$(CC) -shared -fPIC -O1 -o $(BUILD)/fault/fail_nth.so tests/fault/fail_nth.c -ldl
	@python3 tests/fault/run.py ./$(PROGRAM) $(BUILD)/fault/fail_nth.so $(if $(ALL),all)

## determinism the same bytes a hundred times, with any number of threads, in four locales; the same numbers by clang
determinism: all
	@mkdir -p $(BUILD)/determinism
	@$(MAKE) --no-print-directory $(JOBS) CC=clang WARNINGS=-Wall BUILD=build/clang PROGRAM=build/clang/sugarlea all
	@$(CC) -shared -fPIC -O1 -o $(BUILD)/determinism/cores.so tests/determinism/cores.c -ldl
	@python3 tests/determinism/run.py ./$(PROGRAM) $(BUILD)/determinism/cores.so $(or $(RUNS),100) build/clang/sugarlea

## coverage   lines and branches that `make check` runs, overall and in the model (needs gcovr)
coverage:
	@MAKE=$(MAKE) sh tests/coverage.sh

## mutants    200 small faults put into the model, one after the other: does a test notice? (MUTANTS=, SEED=, LEAST= percent)
.PHONY: mutants
mutants:
	@python3 tests/mutants/run.py --mutants $(or $(MUTANTS),200) --seed $(or $(SEED),15) --least $(or $(LEAST),90) --workers $$(nproc)

## lint       size and style limits, include directions, static analysis
lint:
	@sh tests/lint/run.sh

## analyze    gcc's analyzer alone (a part of lint)
.PHONY: analyze
analyze:
	@sh tests/lint/run.sh analyzer

## format     lay out the C files as .clang-format says
format:
	find src tests -name '*.[ch]' | xargs clang-format -i

## bench      timings as ratios (against numpy and fread; cost of a site-day), kept in build/bench-report.txt
bench: all $(BENCHES)
	@{ CC="$(CC)" sh tests/bench/run.sh $(BENCHES); echo "== bench_round"; sh tests/bench/bench_round.sh ./$(PROGRAM); \
	    sh tests/bench/bench_today.sh ./$(PROGRAM); \
	    sh tests/bench/bench_country.sh ./$(PROGRAM) $(BUILD)/tests/bench/bench_reader; } | tee $(BUILD)/bench-report.txt; \
	    ! grep -q '^FAILED' $(BUILD)/bench-report.txt

## instructions  what three tasks cost, counted by valgrind, against the table kept: alarm at 3 in 100 more
.PHONY: instructions
instructions: all
	@CC="$(CC)" sh tests/bench/instructions.sh ./$(PROGRAM)

## trials     growth against measurement: make trials DATA=FOLDER with the trial files [DAILY=FOLDER of long records]
trials: $(BUILD)/tests/bench/trials
	@test -n "$(DATA)" || { echo "trials: say where the trial files are: make trials DATA=FOLDER" >&2; exit 64; }
	@$(BUILD)/tests/bench/trials models "$(DATA)" $(if $(DAILY),"$(DAILY)")

## hindcasts  outlooks into the past: make hindcasts FILE=RECORD AT="52.1 2" (latitude, elevation) [CLASSES="goat-dry pony"]
hindcasts: $(BUILD)/tests/bench/hindcasts
	@test -n "$(FILE)" -a -n "$(AT)" || { echo "hindcasts: say which record, and where: make hindcasts FILE=RECORD AT=\"52.1 2\"" >&2; exit 64; }
	@$(BUILD)/tests/bench/hindcasts "$(FILE)" $(AT) $(if $(CLASSES),$(CLASSES),goat-dry horse equid-at-risk)

## samples    what the readers make of a folder of weather files: make samples DATA=FOLDER
samples: $(BUILD)/tests/bench/samples
	@test -n "$(DATA)" || { echo "samples: say where the files are: make samples DATA=FOLDER" >&2; exit 64; }
	@$(BUILD)/tests/bench/samples $(DATA)

# What is made by the program itself, for man and the shells, and the unit that names where it is.
MADE := $(BUILD)/made
HELPS := $(addprefix $(MADE)/,manual completion-bash completion-zsh completion-fish)
$(HELPS): $(MADE)/%: $(PROGRAM)
	@mkdir -p $(@D)
	@SUGARLEA_MODELS=models ./$(PROGRAM) help $* >$@

$(MADE)/sugarlea.service: packaging/sugarlea.service.in $(BUILD)/constants
	@mkdir -p $(@D)
	@sed 's#@BIN@#$(PREFIX)/bin#' $< >$@

# Folders below PREFIX that differ between systems.
BASHDIR ?= share/bash-completion/completions
ZSHDIR  ?= share/zsh/site-functions
FISHDIR ?= share/fish/vendor_completions.d
UNITDIR ?= lib/systemd/user
DOCDIR  ?= share/doc/sugarlea

# mode:from:to, the last below PREFIX: install and uninstall both go by this list.
INSTALLED = 755:$(PROGRAM):bin/sugarlea 755:$(FETCHER):libexec/sugarlea/sugarlea-fetch \
  $(foreach f,$(wildcard models/*.json) models/METHOD.md $(wildcard plots/*.gp),644:$(f):share/sugarlea/$(f)) \
  644:$(MADE)/manual:share/man/man1/sugarlea.1 644:$(MADE)/completion-bash:$(BASHDIR)/sugarlea \
  644:$(MADE)/completion-zsh:$(ZSHDIR)/_sugarlea 644:$(MADE)/completion-fish:$(FISHDIR)/sugarlea.fish \
  644:$(MADE)/sugarlea.service:$(UNITDIR)/sugarlea.service 644:packaging/sugarlea.timer:$(UNITDIR)/sugarlea.timer \
  $(foreach f,README.md LICENSE plots/season.svg,644:$(f):$(DOCDIR)/$(f)) \
  $(foreach f,daily.conf crontab,644:packaging/$(f):$(DOCDIR)/examples/$(f)) \
  $(foreach f,holding.json weather.csv,644:data/demo/$(f):$(DOCDIR)/examples/demo/$(f))
OURS := share/sugarlea/models share/sugarlea/plots share/sugarlea libexec/sugarlea \
  $(DOCDIR)/examples/demo $(DOCDIR)/examples $(DOCDIR)/plots $(DOCDIR)

## install    program, models, manual, completions and daily timer below PREFIX (DESTDIR honoured)
install: all $(HELPS) $(MADE)/sugarlea.service
	@umask 022; set -e; for line in $(INSTALLED); do \
	    mode=$${line%%:*} from=$${line#*:} to="$(DESTDIR)$(PREFIX)/$${line##*:}"; \
	    mkdir -p "$${to%/*}"; install -m "$$mode" "$${from%:*}" "$$to"; done
	$(SAY) INSTALL $(DESTDIR)$(PREFIX)/bin/sugarlea

## uninstall  remove what install put there (the same PREFIX and DESTDIR)
uninstall:
	@for line in $(INSTALLED); do rm -f "$(DESTDIR)$(PREFIX)/$${line##*:}"; done
	@for folder in $(OURS); do rmdir "$(DESTDIR)$(PREFIX)/$$folder" 2>/dev/null || :; done

## deb        the Debian package, in build/ (needs dpkg-dev and debhelper)
deb:
	@sh packaging/deb.sh $(VERSION) $(RELEASED)

## deb-check  build it, have lintian look at it, install and remove it in an empty root
deb-check: deb
	@sh packaging/check_deb.sh $(VERSION)

## dist       a source archive of the last commit
dist:
	git archive --prefix=sugarlea-$(VERSION)/ -o sugarlea-$(VERSION).tar.gz HEAD

## clean      remove what was built
clean:
	rm -rf build sugarlea sugarlea-fetch
