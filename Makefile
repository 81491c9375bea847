# spindlebook: `make help` lists the verbs.

OUT      ?= out
CC       ?= gcc
CFLAGS   ?= -O2 -g
WARNINGS := -Wall -Wextra -Wconversion -Wshadow -Wstrict-prototypes -Wmissing-prototypes
# Where the tree lies stands in nothing that is made.
CPPFLAGS += -Isrc -D_GNU_SOURCE -I/usr/include/freetype2 -ffile-prefix-map=$(CURDIR)=.
# What Debian has as archives is linked whole: to look for a library at every start costs more
# than many an answer. libharu and what it needs have none.
LIBS     := -Wl,-Bstatic -lcmark -lyaml -lfreetype -lbrotlidec -lbrotlicommon -lmd \
            -Wl,-Bdynamic -lhpdf -lpng16 -lz -lm

PACKAGES_BUILD := gcc make libc6-dev libcmark-dev libhpdf-dev libyaml-dev libfreetype-dev \
                  libmd-dev zlib1g-dev fonts-dejavu-extra
PACKAGES_CHECK := git libcmocka-dev libgsl-dev cmark mandoc units qpdf poppler-utils python3 locales \
                  valgrind admesh
# Without these everything is made but the bench page.
PACKAGES_BENCH := clang lld wasi-libc libclang-rt-dev-wasm32
# For the test in a browser; a node or a Java that is there already may be from elsewhere.
PACKAGES_BROWSER := chromium $(if $(shell command -v npm),,nodejs npm) \
                    $(if $(shell command -v java),,default-jre-headless)

SOURCES := $(filter-out src/bench/%,$(wildcard src/*/*.c))
OBJECTS := $(SOURCES:src/%.c=$(OUT)/build/%.o)
PROGRAM := $(OUT)/bin/spindlebook

# The commit that the program is made from, behind its version where --version tells it: known
# in a clone, and in an archive of `make dist`, which has it as a file.
COMMIT := $(shell cat COMMIT 2>/dev/null || git describe --always --dirty=+ --abbrev=12 --exclude='*' 2>/dev/null)
$(OUT)/build/cli/main.o: CPPFLAGS += -DCOMMIT='"$(COMMIT:%= (%))"'

# Everything but cli/main.c, for the tests to link against.
LIBRARY := $(OUT)/build/libspindlebook.a

# `make V=1` shows the commands.
ifeq ($(V),)
say = @echo "  $(1)";
else
say =
endif

include src/bench/bench.mk

.DEFAULT_GOAL := booklet

# As many jobs at a time as there are processors, where the command does not say how many;
# cleaning comes before all else.
ifeq ($(MAKELEVEL)$(filter clean,$(MAKECMDGOALS)),0)
MAKEFLAGS += --jobs=$(shell nproc)
endif

.PHONY: quick formats pictures booklet check check-long check-all deps program help clean packages unit simulate

help: ## list the verbs
	@awk -F':.*## ' '/^[a-z-]+:.*## /{printf "  make %-14s %s\n", $$1, $$2}' $(MAKEFILE_LIST)

deps: ## install the Debian packages that building and testing need (root or sudo)
	@$(if $(filter 0,$(shell id -u)),,sudo )env DEBIAN_FRONTEND=noninteractive sh -c \
	  'apt-get update -q && apt-get install -q -y --no-install-recommends $(PACKAGES_BUILD) $(PACKAGES_CHECK) \
  $(PACKAGES_BENCH) $(PACKAGES_BROWSER)'

# `make deps booklet`: the packages are there before anyone asks for them.
ifneq ($(filter deps,$(MAKECMDGOALS)),)
packages: deps
endif

packages:
	@missing=; for package in $(PACKAGES_BUILD); do \
	  dpkg-query -W -f '$${Status}' $$package 2>/dev/null | grep -q 'install ok' \
	    || missing="$$missing $$package"; done; \
	if [ -n "$$missing" ]; then \
	  echo "These packages are missing:$$missing"; \
	  echo "Type: make deps booklet"; exit 1; fi

booklet: program engine ## make the program and everything under out/; what `make` alone does
	$(call say,make the site the booklet the card and the tables in $(OUT)/)$(PROGRAM) book --out $(OUT) \
	  $$(test ! -e $(ENGINE) || echo --bench $(ENGINE))

program: packages $(PROGRAM) ## make out/bin/spindlebook

# Checks that take minutes.
LONG := $(addprefix check_,adding.py browser.sh dist.sh each.py injected.py kill.py long_book.py meddlers.py \
        mutants.py same_bytes.sh)

check: booklet unit replay simulate ## run the tests, some three minutes
	@tests/run $(OUT) $(notdir $(TESTS)) $(filter-out $(LONG),$(notdir $(wildcard tests/check_*)))

check-long: booklet ## run the tests that take long
	@tests/run $(OUT) $(addprefix check_,adding.py dist.sh each.py kill.py meddlers.py same_bytes.sh)

# Not yet within the time that check-long has, or not yet seen to hold since the pages and the
# judging grew.
check-all: booklet simulate ## run all long tests, and some of the others over more cases
	@SHOPS=200 WORKSHOPS=1000 CONSTRUCTS=all TRIALS=10000 tests/run $(OUT) $(LONG) \
	  $(addprefix check_,growth.py one_answer.py oracle.py simulation.py)

quick: booklet unit ## run the tests that take seconds
	@tests/run $(OUT) $(notdir $(TESTS)) check_agreement.py check_rules.py check_terminal.sh

formats: $(OUT)/build/tests/book ## write the tables of docs/formats.md and content/settings.yaml anew
	@GOLDEN=update $< formats > $(OUT)/build/formats.txt 2>&1 || { cat $(OUT)/build/formats.txt; exit 1; }

pictures: booklet ## make the pictures of README and docs anew from what was made
	@tests/pictures.sh $(OUT)

clean: ## remove everything that was made
	rm -rf $(OUT)

# At a fixed place: the tables' addresses then stand in the file, and are not worked out at
# every start.
$(PROGRAM): $(OUT)/build/cli/main.o $(LIBRARY)
	@mkdir -p $(@D)
	$(call say,link $@)$(CC) $(CFLAGS) $(LDFLAGS) -no-pie -o $@ $^ $(LIBS)

$(LIBRARY): $(filter-out $(OUT)/build/cli/main.o,$(OBJECTS))
	@rm -f $@
	$(call say,gather $@)ar rcs $@ $^

$(OUT)/build/%.o: src/%.c | packages
	@mkdir -p $(@D)
	$(call say,compile $<)$(CC) -std=c11 $(CPPFLAGS) $(CFLAGS) $(WARNINGS) -MMD -MP -c -o $@ $<

# A test program a folder of tests/unit; each prints its own totals.
TESTS := $(patsubst tests/unit/%/,$(OUT)/build/tests/%,$(sort $(wildcard tests/unit/*/)))
UNITS := $(patsubst tests/%.c,$(OUT)/build/%.o,$(wildcard tests/unit/*.c tests/unit/*/*.c))

unit: $(TESTS) ## build the test programs that tests/run runs

$(OUT)/build/unit/%.o: tests/unit/%.c | packages
	@mkdir -p $(@D)
	$(call say,compile $<)$(CC) -std=c11 $(CPPFLAGS) -Itests/unit $(CFLAGS) $(WARNINGS) -MMD -MP -c -o $@ $<

# What each is linked from: the groups of its folder and the main of all.
define groups_of
$(OUT)/build/tests/$(1): $(OUT)/build/unit/main.o $(filter $(OUT)/build/unit/$(1)/%,$(UNITS))
endef
$(foreach name,$(notdir $(TESTS)),$(eval $(call groups_of,$(name))))

$(TESTS): $(LIBRARY)
	@mkdir -p $(@D)
	$(call say,link $@)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $(filter %.o,$^) $(LIBRARY) \
	  -lcmocka -lgsl -lgslcblas $(LIBS)

# The whole chain from drum to verdict, by chance from a seed.
SIMULATE := $(OUT)/build/simulate/simulate

simulate: $(SIMULATE) ## build the simulation of the chain from drum to verdict

$(OUT)/build/simulate/%.o: tests/simulate/%.c | packages
	@mkdir -p $(@D)
	$(call say,compile $<)$(CC) -std=c11 $(CPPFLAGS) $(CFLAGS) $(WARNINGS) -MMD -MP -c -o $@ $<

$(SIMULATE): $(patsubst tests/simulate/%.c,$(OUT)/build/simulate/%.o,$(wildcard tests/simulate/*.c)) \
             $(LIBRARY)
	$(call say,link $@)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ -lgsl -lgslcblas $(LIBS)

include install.mk
include tests/verbs.mk
include tests/bench/bench.mk

-include $(OBJECTS:.o=.d) $(UNITS:.o=.d) $(wildcard $(OUT)/build/simulate/*.d)
