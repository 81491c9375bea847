# `make bench`: how fast it is, side by side with programs that do less.

BENCH_PROGRAMS := $(addprefix $(OUT)/build/bench/measure-,floor bare run empty)

.PHONY: bench

bench: booklet $(BENCH_PROGRAMS) ## measure speed and memory against cmark, a plain write and libharu
	@tests/bench/bench.py $(OUT)

$(OUT)/build/bench/measure-empty: tests/bench/empty.c
	@mkdir -p $(@D)
	$(call say,compile $<)$(CC) $(CFLAGS) -o $@ $<

$(OUT)/build/bench/measure-%: tests/bench/%.c
	@mkdir -p $(@D)
	$(call say,compile $<)$(CC) -std=c11 $(CPPFLAGS) $(CFLAGS) $(WARNINGS) -o $@ $< $(LIBS)
