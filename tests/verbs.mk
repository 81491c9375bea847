# Slow or strict ways to test, each a verb of its own; `make check` does not need them.
# They build into folders of their own below $(OUT)/build.

FUZZ_SECONDS ?= 60
FUZZERS      := quantity csv settings template page
STRICT       := -O1 -g -fno-omit-frame-pointer -fsanitize=address,undefined -fno-sanitize-recover=all

PACKAGES_VERBS := clang clang-tidy cppcheck libclang-rt-dev valgrind

.PHONY: deps-verbs library replay asan valgrind lint fuzz faults

library: $(LIBRARY)

# The fuzz targets as ordinary programs that run the kept inputs.
replay: $(FUZZERS:%=$(OUT)/build/tests/fuzz_%)

$(OUT)/build/tests/fuzz_%: tests/fuzz/fuzz_%.c tests/fuzz/replay.c $(LIBRARY)
	@mkdir -p $(@D)
	$(call say,compile $<)$(CC) -std=c11 $(CPPFLAGS) $(CFLAGS) $(WARNINGS) -MMD -MP -o $@ \
	  $< tests/fuzz/replay.c $(LIBRARY) $(LIBS)

FUZZ_LIBRARY := $(OUT)/build/fuzz/build/libspindlebook.a

$(FUZZ_LIBRARY): $(wildcard src/*.[ch] src/*/*.[ch])
	@$(MAKE) -s OUT=$(OUT)/build/fuzz CC=clang CFLAGS='$(STRICT) -fsanitize=fuzzer-no-link' library

$(OUT)/build/fuzz/fuzz_%: tests/fuzz/fuzz_%.c tests/fuzz/fuzz_file.h $(FUZZ_LIBRARY)
	$(call say,compile $<)clang -std=c11 $(CPPFLAGS) $(STRICT) -fsanitize=fuzzer $(WARNINGS) -o $@ $< \
	  $(FUZZ_LIBRARY) $(LIBS)

fuzz: $(FUZZERS:%=$(OUT)/build/fuzz/fuzz_%) ## throw made-up input at the readers, FUZZ_SECONDS each
	@for name in $(FUZZERS); do \
	  mkdir -p $(OUT)/build/fuzz/found/$$name; \
	  echo "  fuzz $$name for $(FUZZ_SECONDS) s"; \
	  $(OUT)/build/fuzz/fuzz_$$name -max_total_time=$(FUZZ_SECONDS) -timeout=20 -verbosity=0 \
	    -artifact_prefix=$(OUT)/build/fuzz/$$name- $(OUT)/build/fuzz/found/$$name tests/fuzz/corpus/$$name \
	    || exit 1; done
