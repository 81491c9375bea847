# `make install`, `make uninstall` and `make dist`.

PREFIX  ?= /usr/local
DESTDIR ?=
PLACE    = $(DESTDIR)$(PREFIX)

# What is installed lies here first, as it will below PREFIX; its list goes with it, and by that
# list it is removed again: what else stands there is the user's.
STAGE := $(OUT)/build/stage
SHARE := $(STAGE)/share/spindlebook
LIST  := share/spindlebook/files

.PHONY: install uninstall dist

install: program engine ## install below PREFIX (/usr/local), with DESTDIR before it where that is given
	@rm -rf $(STAGE)
	@mkdir -p $(SHARE) $(addprefix $(STAGE)/,bin share/man/man1 share/bash-completion/completions \
	  share/doc/spindlebook/docs)
	@cp $(PROGRAM) $(STAGE)/bin
	@$(PROGRAM) --help-as man > $(STAGE)/share/man/man1/spindlebook.1
	@$(PROGRAM) --help-as bash > $(STAGE)/share/bash-completion/completions/spindlebook
	@cp README.md LICENSE $(STAGE)/share/doc/spindlebook
	@cp docs/*.md $(STAGE)/share/doc/spindlebook/docs
	@cp -r content templates $$(test ! -e $(ENGINE) || echo $(ENGINE)) $(SHARE)
	@cd $(STAGE) && find * -type f | LC_ALL=C sort > $(LIST)
	@$(MAKE) --no-print-directory uninstall
	$(call say,install below $(PLACE))while read -r file; do \
	  case $$file in bin/*) mode=755 ;; *) mode=644 ;; esac; \
	  install -D -m $$mode "$(STAGE)/$$file" "$(PLACE)/$$file" || exit 1; done < $(STAGE)/$(LIST)

uninstall: ## remove what was installed there
	@test ! -e "$(PLACE)/$(LIST)" || { cd "$(PLACE)" && xargs -d '\n' rm -f < $(LIST) && \
	  find share/spindlebook share/doc/spindlebook -depth -type d -empty -delete; }

DIST := $(OUT)/dist
NAME  = spindlebook-$(shell sed -n 's/^\#define VERSION  *"\(.*\)"/\1/p' src/base/version.h)

# One file that has everything: where it was made, it goes with the archive.
POCKET := $(OUT)/pocket.html

# Whose code or shapes stand in what is made and handed on: program, engine, PDF files.
NOTICES := libhpdf-dev libcmark-dev libyaml-dev libfreetype-dev libbrotli-dev libmd-dev libpng-dev \
           zlib1g-dev fonts-dejavu-core fonts-dejavu-extra wasi-libc libclang-rt-dev-wasm32

dist: ## make the archive of the sources at the last commit, its notices and its sums, in out/dist
	@rm -rf $(DIST) && mkdir -p $(DIST)
	@git diff --quiet HEAD || echo "  What is not committed yet is not in the archive."
	$(call say,make $(DIST)/$(NAME).tar.gz)git archive --prefix=$(NAME)/ \
	  --add-virtual-file=$(NAME)/COMMIT:$$(git rev-parse --short=12 HEAD) HEAD | gzip -9n > $(DIST)/$(NAME).tar.gz
	@for package in $(NOTICES); do \
	  printf '\n======== %s\n\n' $$package; cat /usr/share/doc/$$package/copyright || exit 1; done \
	  > $(DIST)/$(NAME)-notices.txt
	@test ! -e $(POCKET) || cp $(POCKET) $(DIST)/$(NAME).html
	@cd $(DIST) && sha256sum $(NAME)* > SHA256SUMS
