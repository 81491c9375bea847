# The bench page's engine: src/bench with what it asks as WebAssembly.
# It needs clang, lld, wasi-libc and clang's runtime for wasm32. Where one is missing the
# rest is made without the bench page, and the build says so.

ENGINE         := $(OUT)/build/bench.wasm
ENGINE_SOURCES := $(wildcard $(addprefix src/,bench/*.c number/*.c physics/*.c judge/*.c)) \
                  $(filter-out src/drum/deflate.c,$(wildcard src/drum/*.c)) \
                  $(addprefix src/,shop/shop.c shop/fields.c shop/logs.c shop/check.c \
                    shop/asked.c base/memory.c base/buffer.c base/utf8.c report/card.c \
                    report/remarks.c report/report.c report/typed.c report/values.c report/words.c)
ENGINE_FLAGS   := --target=wasm32-wasi -std=c11 -Isrc -D_GNU_SOURCE -O2 -ffp-contract=off \
                  -nostartfiles \
                  -Wl,--no-entry,--strip-all,--gc-sections,--stack-first,-z,stack-size=1048576

# Can a program that needs the library and the runtime be made? Then the engine can.
# Asked only once the packages are there.
ENGINE_TRIAL := \#include <stdio.h>\nlong double f(long double x) { return puts("") * x; }\n

.PHONY: engine

engine: packages
	@if printf '$(ENGINE_TRIAL)' | clang $(ENGINE_FLAGS) -Wl,--export=f -x c - -o /dev/null 2>/dev/null; \
	then $(MAKE) --no-print-directory $(ENGINE); \
	else rm -f $(ENGINE); \
	  echo "  The bench page is left out: it needs $(PACKAGES_BENCH). Type: make deps booklet"; fi

$(ENGINE): $(ENGINE_SOURCES) $(wildcard src/*/*.h)
	@mkdir -p $(@D)
	$(call say,compile $@)clang $(ENGINE_FLAGS) $(WARNINGS) -o $@ $(ENGINE_SOURCES)
