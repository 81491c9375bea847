# Slow or strict ways to test, each a verb of its own; `make check` does not need them.
# They build into folders of their own below $(OUT)/build.

FUZZ_SECONDS ?= 60
FUZZERS      := quantity csv log settings template page trace folder answers
STRICT       := -O1 -g -fno-omit-frame-pointer -fsanitize=address,undefined -fno-sanitize-recover=all

PACKAGES_VERBS := clang clang-format clang-tidy cppcheck libclang-rt-dev cmake patch

deps-verbs: ## install what asan, valgrind, lint and fuzz need (root or sudo)
	@$(if $(filter 0,$(shell id -u)),,sudo )env DEBIAN_FRONTEND=noninteractive \
	  apt-get install -q -y --no-install-recommends $(PACKAGES_VERBS)

# Checks of memory and coverage open files of their own when the program ends.
asan valgrind coverage: export SPINDLEBOOK_UNCONFINED := 1

.PHONY: deps-verbs library replay asan valgrind lint coverage fuzz fuzz-libraries faults

library: $(LIBRARY)

# The fuzz targets as ordinary programs that run the kept inputs.
replay: $(FUZZERS:%=$(OUT)/build/tests/fuzz_%)

$(OUT)/build/tests/fuzz_%: tests/fuzz/fuzz_%.c tests/fuzz/replay.c $(LIBRARY)
	@mkdir -p $(@D)
	$(call say,compile $<)$(CC) -std=c11 $(CPPFLAGS) $(CFLAGS) $(WARNINGS) -MMD -MP -o $@ \
	  $< tests/fuzz/replay.c $(LIBRARY) $(LIBS)

FUZZ_LIBRARY := $(OUT)/build/fuzz/build/libspindlebook.a
FUZZ_STRICT  := $(STRICT) -fsanitize=fuzzer-no-link -DARENA_BLOCK=1

# Where `make fuzz-libraries` has been, the fuzzers see into the libraries too.
FUZZ_BUILT   := $(OUT)/build/fuzz/libraries
FUZZ_LIBS     = $(if $(wildcard $(FUZZ_BUILT)/libhpdfs.a),$(addprefix $(FUZZ_BUILT)/,libhpdfs.a \
                libcmark.a libyaml.a) -lpng -lfreetype -lmd -lz -lm,$(LIBS))

fuzz-libraries: ## build the libraries that meet text so that the fuzzers see into them
	@tests/fuzz/libraries.sh $(FUZZ_BUILT) '$(FUZZ_STRICT)'
	@rm -f $(FUZZERS:%=$(OUT)/build/fuzz/fuzz_%)

$(FUZZ_LIBRARY): $(wildcard src/*/*.[ch])
	@$(MAKE) -s OUT=$(OUT)/build/fuzz CC=clang CFLAGS='$(FUZZ_STRICT)' library

$(OUT)/build/fuzz/fuzz_%: tests/fuzz/fuzz_%.c tests/fuzz/fuzz_file.h $(FUZZ_LIBRARY)
	$(call say,compile $<)clang -std=c11 $(CPPFLAGS) $(STRICT) -fsanitize=fuzzer $(WARNINGS) -o $@ $< \
	  $(FUZZ_LIBRARY) $(FUZZ_LIBS)

fuzz: $(FUZZERS:%=$(OUT)/build/fuzz/fuzz_%) ## throw made-up input at the readers, FUZZ_SECONDS each
	@for name in $(FUZZERS); do \
	  mkdir -p $(OUT)/build/fuzz/found/$$name; \
	  echo "  fuzz $$name for $(FUZZ_SECONDS) s"; \
	  $(OUT)/build/fuzz/fuzz_$$name -max_total_time=$(FUZZ_SECONDS) -timeout=20 -verbosity=0 \
	    -artifact_prefix=$(OUT)/build/fuzz/$$name- $(OUT)/build/fuzz/found/$$name tests/fuzz/corpus/$$name \
	    || exit 1; done

# clang's checks see more of undefined behaviour than gcc's.
ASAN    := $(OUT)/build/asan
ASAN_CC ?= clang
ASKED   := check_faults.sh check_faults_made.py check_terminal.sh check_untrusted.py \
           check_long_book.py check_parts.sh

asan: ## run the unit tests, the book and the faults under address and undefined-behaviour checks
	@$(MAKE) -s OUT=$(ASAN) CC=$(ASAN_CC) CFLAGS='$(STRICT)' booklet unit replay
	@PATIENCE=60 tests/run $(ASAN) $(notdir $(TESTS)) check_fuzz_corpus.sh check_each.py $(ASKED)

# Programs of the same names that run the real ones under valgrind, by their bare names: some
# messages begin with what a program was called.
GRIND    := $(OUT)/build/valgrind
VALGRIND := valgrind -q --error-exitcode=9 --leak-check=full \
            --errors-for-leak-kinds=definite,indirect
GRINDED  := bin/spindlebook $(TESTS:$(OUT)/%=%)

valgrind: booklet unit ## run the unit tests, the book and the faults under valgrind
	@mkdir -p $(GRIND)/bin $(GRIND)/build/tests
	@for name in $(GRINDED); do \
	  printf '#!/bin/sh\nPATH=%s:$$PATH exec $(VALGRIND) %s "$$@"\n' \
	    $(abspath $(OUT))/$${name%/*} $${name##*/} > $(GRIND)/$$name; \
	  chmod +x $(GRIND)/$$name; done
	@$(GRIND)/bin/spindlebook book --out $(GRIND)/made
	@tests/run $(GRIND) $(notdir $(filter build/tests/%,$(GRINDED))) check_faults.sh check_terminal.sh

faults: booklet ## let every call on memory and files fail in turn, and kill the program at every call
	@tests/check_injected.py $(OUT) --all
	@tests/check_kill.py $(OUT) --all

LINTED := $(filter-out src/bench/%,$(wildcard src/*/*.c tests/fuzz/*.c))
CPPCHECK := cppcheck -q --std=c11 --enable=warning,performance,portability \
            --suppress=missingIncludeSystem --suppressions-list=tests/cppcheck.txt --error-exitcode=1 --template='{file}:{line}: {id}: {message}'

lint: ## what .clang-format would change; what gcc, clang, cppcheck and clang-tidy warn of
	@clang-format --dry-run --Werror $$(find src tests -name '*.[ch]')
	@$(MAKE) -s OUT=$(OUT)/build/lint-gcc CC=gcc CFLAGS='-O2 -Werror' program unit replay
	@$(MAKE) -s OUT=$(OUT)/build/lint-clang CC=clang CFLAGS='-O2 -Werror' program unit replay
	@$(CPPCHECK) -D_GNU_SOURCE -Isrc $(LINTED) tests/inject/inject.c
	@printf '%s\n' $(LINTED) | xargs -P2 -n8 sh -c \
	  'clang-tidy --quiet "$$@" -- -std=c11 $(CPPFLAGS) 2>/dev/null' clang-tidy
	@echo "$(words $(LINTED)) sources looked at by gcc, clang, cppcheck and clang-tidy: no warning"

# Everything once more with gcov's counters; assertions are left out, since no test can
# make one fail and go on.
coverage: packages ## show which branches the tests take
	@rm -rf $(OUT)/coverage
	@$(MAKE) -s OUT=$(OUT)/coverage CFLAGS="-O0 -g --coverage -DNDEBUG" LDFLAGS=--coverage program unit
	@for test in $(notdir $(TESTS)); do \
	  $(OUT)/coverage/build/tests/$$test > /dev/null 2>&1 || { echo "$$test fails"; exit 1; }; done
	@tests/check_faults.sh $(OUT)/coverage && tests/check_oracle.py $(OUT)/coverage 60
	@tests/check_terminal.sh $(OUT)/coverage
	@$(OUT)/coverage/bin/spindlebook book --out $(OUT)/coverage/made
	@tests/coverage.py $(OUT)/coverage/build
