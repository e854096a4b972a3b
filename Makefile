# burnsheet: session sheets and bag labels for cold smoking.
# Settings first, then the verbs (`make help` lists them), then how things are built.

VERSION := 0.1.0

# ---- Settings: each may be given on the command line -------------------------------------------

PREFIX  := /usr/local
DESTDIR :=
CFLAGS  := -O2 -g
LDFLAGS :=
# A variant is built in a folder of its own, .build/VARIANT, by the same rules.
VARIANT :=
# `make test ONLY=layout` runs only the tests whose path holds that word.
ONLY    :=
# `make mutants`: so many changes, chosen by this number, in files of src/ whose path holds ONLY.
COUNT   := 40
SEED    := 1
# `make fuzz`: so long for each target whose path holds ONLY.
SECONDS := 60
# V=1 shows whole command lines.
V       :=
ifeq ($(origin CC),default)
CC      := gcc
endif

WARNINGS := -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wstrict-prototypes \
            -Wmissing-prototypes -Wpointer-arith -Wwrite-strings -Wundef -Wvla
LIBRARIES := -lhpdf -lxml2 -lm

# Debian packages: to build and run, to test, to check. The companions of fontTools are the small
# ones among those that it takes either of (37 MB to fetch in place of 154).
BUILD_PACKAGES := gcc libc6-dev libhpdf-dev libxml2-dev fonts-roboto-unhinted \
                  python3-fonttools+python3-munkres+python3-defcon tzdata
TEST_PACKAGES  := libcmocka-dev qpdf poppler-utils libxml2-utils
FUZZ_PACKAGES  := clang libclang-rt-14-dev
# The steam tables; the psychrometric library comes from npm, which Debian splits off and others do not.
REFERENCE_PACKAGES := python3 python3-iapws nodejs
CHECK_PACKAGES := cppcheck clang clang-tidy clang-format valgrind

# Faces taken from the font package; fonts/README.md says more.
FACE_NAMES := Roboto-Regular Roboto-Medium Roboto-Bold \
              RobotoCondensed-Regular RobotoCondensed-Bold

# ---- What there is -----------------------------------------------------------------------------

BUILD := .build$(addprefix /,$(VARIANT))

FOLDERS      := base domain schema input model layout print report command
HEADERS      := $(wildcard $(FOLDERS:%=src/%/*.h))
SOURCES      := $(wildcard $(FOLDERS:%=src/%/*.c))
MAIN         := $(filter src/command/main.c,$(SOURCES))
SUPPORT      := $(wildcard tests/support/*.c)
TEST_SOURCES := $(wildcard tests/*/test_*.c)
# The one that notices a lost test file is named, so that its own loss is noticed too.
TEST_SCRIPTS := $(sort $(wildcard tests/*/test_*.sh) tests/tools/test_kept.sh)
FUZZ_TARGETS := $(wildcard tests/fuzz/fuzz_*.c)
FUZZ_SUPPORT := $(filter-out $(FUZZ_TARGETS),$(wildcard tests/fuzz/*.c))
BENCHES      := $(wildcard tests/bench/bench_*.c)
TEST_TOOLS   := $(wildcard tests/tools/*.c)
C_FILES      := $(SOURCES) $(HEADERS) $(SUPPORT) $(wildcard tests/support/*.h) $(TEST_SOURCES) \
                $(wildcard tests/fault/*.c tests/fuzz/*.[ch]) $(BENCHES) $(TEST_TOOLS)
SAMPLES      := $(filter-out samples/workshop%.xml,$(wildcard samples/*.xml))
# Batches that share a tray, whose hours are chosen together.
WEEK         := $(wildcard samples/week/*.xml)
BAGGINGS     := $(wildcard samples/bagging/*.xml)

LIBRARY       := $(BUILD)/libburnsheet.a
PROGRAM       := $(if $(MAIN),$(BUILD)/burnsheet)
FACES         := $(FACE_NAMES:%=fonts/%.ttf)
MAN_PAGE      := $(if $(wildcard templates/burnsheet.1),$(BUILD)/burnsheet.1)
TEST_PROGRAMS := $(TEST_SOURCES:%.c=$(BUILD)/%)
# Loaded before the plain program by the tests that make its calls to the system fail.
FAULT_LIBRARY := .build/tests/fault/failing_calls.so
# The program that writes the marks of its pages in place of PDFs, for the goldens.
MARKS         := $(if $(MAIN),$(BUILD)/tests/tools/marks)
# The program that makes the season of samples/season anew.
SEASON        := $(BUILD)/tests/tools/season
BENCH_PROGRAMS := $(BENCHES:%.c=$(BUILD)/%)
FUZZ_PROGRAMS := $(FUZZ_TARGETS:%.c=$(BUILD)/%)

only = $(if $(ONLY),$(foreach path,$(1),$(if $(findstring $(ONLY),$(path)),$(path))),$(1))
MAKEFLAGS += --no-print-directory
SHOW := $(if $(V),,@)
# As many compilers at once as there are processors, unless `make -j` says otherwise. Several verbs
# in one call, `make clean all`, go one after the other.
ifeq ($(MAKELEVEL)$(findstring -j,$(MAKEFLAGS))$(word 2,$(MAKECMDGOALS)),0)
MAKEFLAGS += -j$(shell nproc)
endif

# ---- Verbs -------------------------------------------------------------------------------------

.PHONY: all demo test check format format-check install uninstall clean help coverage bench \
        goldens schema tests-list pictures season reference fonts man packages run-tests mutants \
        fuzz
.DEFAULT_GOAL := all

all: say-packages $(LIBRARY) $(PROGRAM) $(FACES) ## build the program (the default)

# The samples are of December 2026: printed later, their hours would be past.
demo: export SOURCE_DATE_EPOCH ?= 1796335200
demo: ## install what is missing, build, write all pages of the samples to out/
	@tests/tools/packages $(BUILD_PACKAGES)
	@$(MAKE) all
	$(PROGRAM) sheet -o out $(SAMPLES)
	$(PROGRAM) sheet -o out/week.pdf $(WEEK)
	$(PROGRAM) sheet --template desk -o out/week-desk.pdf $(WEEK)
	$(PROGRAM) labels -o out $(SAMPLES) $(BAGGINGS)
	$(PROGRAM) slip -o out $(BAGGINGS) samples/workshop.xml
	$(PROGRAM) trace -o out B-2611 $(SAMPLES) $(BAGGINGS)
	$(PROGRAM) season -o out samples/season
	@echo "the pages are in out/:" && ls out

test: ## install what is missing for the tests, build, run all of them
	@tests/tools/packages $(BUILD_PACKAGES) $(TEST_PACKAGES)
	@$(MAKE) run-tests

check: ## every check: layout, warnings, cppcheck, clang-tidy, sanitizers, valgrind (slow)
	@tests/tools/packages $(BUILD_PACKAGES) $(TEST_PACKAGES) $(CHECK_PACKAGES)
	@for part in $(CHECKS); do echo "== $$part" && $(MAKE) $$part || exit 1; done
	@echo "all checks passed"

format: ## lay out the C files by .clang-format
	$(SHOW)clang-format -i $(C_FILES)

format-check: ## say what in the C files is not laid out by .clang-format
	$(SHOW)clang-format --dry-run --Werror $(C_FILES)

install: all $(MAN_PAGE) ## install under PREFIX (default /usr/local), staged under DESTDIR
	install -d $(INSTALL_BIN) $(INSTALL_MAN) $(INSTALL_DOC) $(INSTALL_DATA)/fonts
	install -m 755 $(PROGRAM) $(INSTALL_BIN)/burnsheet
	$(if $(MAN_PAGE),install -m 644 $(MAN_PAGE) $(INSTALL_MAN)/burnsheet.1)
	install -m 644 $(FACES) fonts/README.md $(INSTALL_DATA)/fonts
	@$(call install_tree,templates,$(INSTALL_DATA)/templates)
	@$(call install_tree,samples,$(INSTALL_DOC)/samples)
	install -m 644 $(wildcard README.md) LICENSE $(INSTALL_DOC)

uninstall: ## take away what install put there
	rm -f $(INSTALL_BIN)/burnsheet $(INSTALL_MAN)/burnsheet.1
	rm -rf $(INSTALL_DATA) $(INSTALL_DOC)

# Other pages in out/ are somebody's own.
clean: ## take away what was built, the faces, and the samples' pages in out/
	rm -rf .build
	rm -f fonts/*.ttf fonts/*.new $(foreach page,sheet labels, \
	    $(SAMPLES:samples/%.xml=out/%.$(page).pdf)) $(foreach page,slip labels, \
	    $(BAGGINGS:samples/bagging/%.xml=out/%.$(page).pdf)) out/workshop.slip.pdf out/b-2611.trace.pdf \
	    out/season.season.pdf out/week.pdf out/week-desk.pdf

coverage: ## run the tests, say of each folder of src/ how many lines ran; fails when too few
	@$(MAKE) VARIANT=coverage CFLAGS="-O0 -g --coverage" LDFLAGS=--coverage measure-coverage

mutants: fonts ## change src/ a little, COUNT times by SEED in paths with ONLY: do tests notice? (slow)
	@tests/tools/packages $(BUILD_PACKAGES) $(TEST_PACKAGES)
	@tests/tools/mutants --count $(COUNT) --seed $(SEED) --only "$(ONLY)"

fuzz: fonts ## feed made-up files to all that reads, SECONDS for each target with ONLY in its path
	@tests/tools/packages $(BUILD_PACKAGES) $(FUZZ_PACKAGES)
	@$(MAKE) VARIANT=fuzz CC=clang CFLAGS="-O1 -g -fno-omit-frame-pointer $(FUZZ_SANITIZE)" \
	    LDFLAGS="$(SANITIZE)" run-fuzz

bench: all $(BENCH_PROGRAMS) ## time the program and its parts
	@for program in $(BENCH_PROGRAMS); do $$program || exit 1; done
	@$(if $(PROGRAM),tests/tools/bench $(PROGRAM) $(SAMPLES),echo "no program to time yet")

goldens: all $(MARKS) $(BUILD)/tests/input/test_broken ## make the accepted outputs anew, show what changed
	@UPDATE_GOLDENS=1 CMOCKA_MESSAGE_OUTPUT=TAP $(BUILD)/tests/input/test_broken >$(BUILD)/goldens.log 2>&1
	@BURNSHEET="$(CURDIR)/$(PROGRAM)" MARKS="$(CURDIR)/$(MARKS)" tests/tools/goldens
	@git add --intent-to-add tests/goldens
	@git --no-pager diff --stat -- tests/goldens tests/broken
	@git --no-pager diff -- tests/goldens tests/broken

schema: all $(BUILD)/tests/input/test_schema ## make the schemas for editors and the manual's lists anew from the rules
	@UPDATE_GOLDENS=1 CMOCKA_MESSAGE_OUTPUT=TAP $(BUILD)/tests/input/test_schema >$(BUILD)/schema.log 2>&1 || \
	    { cat $(BUILD)/schema.log; exit 1; }
	@git --no-pager diff --stat -- templates

tests-list: ## write the list of test files, tests/list, anew when one came or went on purpose
	@tests/tools/kept --renew

# The date printed on them is always the same, so that they change only when the pages do.
PICTURED := cheese-overnight
pictures: all ## draw the pages of samples/ that the README shows (needs poppler-utils)
	@mkdir -p $(BUILD)/pictures
	@for page in sheet labels; do \
	    SOURCE_DATE_EPOCH=1796335200 $(PROGRAM) $$page -o $(BUILD)/pictures \
	        samples/$(PICTURED).xml && \
	    tests/tools/picture $(BUILD)/pictures/$(PICTURED).$$page.pdf \
	        samples/$(PICTURED).$$page.png || exit 1; \
	done && ls -s samples/*.png

season: $(SEASON) ## make the nights of samples/season anew, burnt by the model at a known truth
	@rm -f samples/season/*.xml && mkdir -p samples/season && $(SEASON) samples/season && ls samples/season

reference: ## make the tables of tests/reference/ anew with outside tools and compare
	@tests/tools/packages $(REFERENCE_PACKAGES)
	@tests/reference/remake

fonts: $(FACES) ## make the small copies of the faces in fonts/

man: $(MAN_PAGE) ## show the man page
	@$(if $(MAN_PAGE),man ./$(MAN_PAGE),echo "no man page yet")

packages: ## install all Debian packages that building, testing and checking need
	@tests/tools/packages $(BUILD_PACKAGES) $(TEST_PACKAGES) $(CHECK_PACKAGES)

help: ## list these verbs
	@sed -n 's/^\([a-z-]*\):.*## \(.*\)/make \1|\2/p' Makefile | \
	    while IFS='|' read -r verb text; do printf '%-22s %s\n' "  $$verb" "$$text"; done

# ---- Parts of the verbs ------------------------------------------------------------------------

# The quick ones first.
CHECKS := check-shape format-check check-globals check-mutants check-fuzz check-cppcheck check-warnings check-tidy \
          check-sanitizers check-valgrind check-faults
.PHONY: say-packages measure-coverage everything $(filter check-%,$(CHECKS))

# Says what a failing build would be short of; `make demo` and `make test` install it.
say-packages:
	@tests/tools/packages --only-say $(BUILD_PACKAGES)

everything: all $(TEST_PROGRAMS) $(BENCH_PROGRAMS) $(MARKS) $(SEASON)

export VARIANT
run-tests: all $(call only,$(TEST_PROGRAMS)) $(FAULT_LIBRARY) $(MARKS) $(MAN_PAGE)
	@BURNSHEET="$(PROGRAM:%=$(CURDIR)/%)" MARKS="$(MARKS:%=$(CURDIR)/%)" \
	    tests/run $(call only,$(TEST_PROGRAMS) $(TEST_SCRIPTS))

measure-coverage: all
	@find $(BUILD) -name '*.gcda' -delete
	@$(MAKE) run-tests; status=$$?; tests/tools/coverage $(BUILD) $(FOLDERS) && exit $$status

check-shape:
	$(SHOW)tests/tools/shape

# Only that each place of the list is there; `make mutants` tries them.
check-mutants:
	@tests/tools/mutants --named --show >/dev/null

# Only that the targets still fit what they call; `make fuzz` runs them.
check-fuzz:
	$(SHOW)clang -fsyntax-only -Werror $(COMPILE_FLAGS) -Itests $(FUZZ_TARGETS) $(FUZZ_SUPPORT)

check-warnings:
	@$(MAKE) VARIANT=gcc CC=gcc CFLAGS="-O2 -Werror" everything
	@$(MAKE) VARIANT=clang CC=clang CFLAGS="-O2 -Werror" everything

check-globals: $(LIBRARY)
	$(SHOW)tests/tools/globals $(LIBRARY)

# The tests on their own: with src/ beside them cppcheck follows their deliberate NULLs into it.
CPPCHECK := cppcheck --quiet --std=c11 --language=c --error-exitcode=1 --inline-suppr \
            --enable=warning,performance,portability --suppress=missingIncludeSystem
check-cppcheck:
	$(SHOW)$(CPPCHECK) -Isrc $(DEFINES) -DBURNSHEET_DATA_DIR=\"/\" $(SOURCES)
	$(SHOW)$(CPPCHECK) -Isrc -Itests $(DEFINES) $(SUPPORT) $(TEST_SOURCES) $(BENCHES)

# A file is looked at anew when its object file is newer than the last look.
TIDY := $(SOURCES:%.c=$(BUILD)/tidy/%.seen)
$(TIDY): $(BUILD)/tidy/%.seen: $(BUILD)/obj/%.o .clang-tidy
	@mkdir -p $(@D)
	$(if $(V),,@echo "  clang-tidy $*.c")
	$(SHOW)clang-tidy --quiet $*.c -- $(COMPILE_FLAGS) $(DATA_DIR) 2>/dev/null && touch $@
check-tidy: $(TIDY)

SANITIZE := -fsanitize=address,undefined,float-cast-overflow -fno-sanitize-recover=all
FUZZ_SANITIZE := $(SANITIZE) -fsanitize=fuzzer-no-link
.PHONY: run-fuzz
run-fuzz: $(FUZZ_PROGRAMS)
	@tests/tools/fuzz $(SECONDS) $(call only,$(FUZZ_PROGRAMS))

check-sanitizers:
	@ASAN_OPTIONS=exitcode=99 UBSAN_OPTIONS=print_stacktrace=1:exitcode=99 $(MAKE) VARIANT=sanitizers \
	    CFLAGS="-O1 -g -fno-omit-frame-pointer $(SANITIZE)" LDFLAGS="$(SANITIZE)" run-tests

# The long runs of the model are left to the sanitizers.
VALGRIND := valgrind --quiet --error-exitcode=9 --leak-check=full --errors-for-leak-kinds=definite
VALGRIND_TESTS := $(filter $(BUILD)/tests/base/% $(BUILD)/tests/input/% $(BUILD)/tests/print/%, \
                  $(TEST_PROGRAMS))
check-valgrind: all $(VALGRIND_TESTS)
	@$(if $(VALGRIND_TESTS),TEST_WRAPPER="$(VALGRIND)" tests/run $(VALGRIND_TESTS))
	@mkdir -p $(BUILD)/valgrind
	$(if $(PROGRAM),$(VALGRIND) $(PROGRAM) sheet -o $(BUILD)/valgrind $(SAMPLES))
	$(if $(PROGRAM),$(VALGRIND) $(PROGRAM) labels -o $(BUILD)/valgrind $(SAMPLES) $(BAGGINGS))
	$(if $(PROGRAM),$(VALGRIND) $(PROGRAM) slip -o $(BUILD)/valgrind $(BAGGINGS) \
	                samples/workshop.xml)
	$(if $(PROGRAM),$(VALGRIND) $(PROGRAM) season -o $(BUILD)/valgrind samples/season)
	$(if $(PROGRAM),$(VALGRIND) $(PROGRAM) trace -o $(BUILD)/valgrind/trace.pdf B-2611 $(SAMPLES) \
	                $(BAGGINGS))

# Every allocation of a sheet and of labels failing in turn; the tests try a sample of them.
check-faults: all $(FAULT_LIBRARY)
	@FAULT_EVERY=1 BURNSHEET="$(CURDIR)/$(PROGRAM)" tests/fault/test_calls.sh

# The program looks for its data in ../share/burnsheet beside its own folder, so that a staged or
# moved installation finds them, and then in the source tree it was built in.
INSTALL_BIN  := $(DESTDIR)$(PREFIX)/bin
INSTALL_MAN  := $(DESTDIR)$(PREFIX)/share/man/man1
INSTALL_DATA := $(DESTDIR)$(PREFIX)/share/burnsheet
INSTALL_DOC  := $(DESTDIR)$(PREFIX)/share/doc/burnsheet
install_tree = find $(1) -type f ! -name burnsheet.1 2>/dev/null | while read -r file; do \
	install -D -m 644 "$$file" "$(2)/$${file\#*/}" || exit 1; done

# ---- How things are built ----------------------------------------------------------------------

DEFINES  := -D_XOPEN_SOURCE=700 -DBURNSHEET_VERSION=\"$(VERSION)\"
DATA_DIR := -DBURNSHEET_DATA_DIR='"$(CURDIR)"'
COMPILE_FLAGS := -std=c11 $(WARNINGS) -Isrc -isystem /usr/include/libxml2 $(DEFINES)

object = $(patsubst %.c,$(BUILD)/obj/%.o,$(1))
LIBRARY_OBJECTS := $(call object,$(filter-out $(MAIN),$(SOURCES)))
SUPPORT_OBJECTS := $(call object,$(SUPPORT))
FUZZ_OBJECTS := $(call object,$(FUZZ_SUPPORT))
OBJECTS := $(call object,$(SOURCES) $(SUPPORT) $(TEST_SOURCES) $(BENCHES) $(TEST_TOOLS) $(FUZZ_SUPPORT) \
           $(FUZZ_TARGETS))

# The include rule is looked at before anything is compiled.
INCLUDE_RULE := $(BUILD)/include-rule.kept
$(INCLUDE_RULE): tests/tools/includes $(SOURCES) $(HEADERS)
	@mkdir -p $(@D)
	@tests/tools/includes && touch $@

$(OBJECTS): $(BUILD)/obj/%.o: %.c Makefile | $(INCLUDE_RULE)
	@mkdir -p $(@D)
	$(if $(V),,@echo "  compile $<")
	$(SHOW)$(CC) $(COMPILE_FLAGS) $(EXTRA_FLAGS) $(CFLAGS) -MMD -MP -c -o $@ $<

# Only the commands know where the data are; only the tests see tests/.
$(BUILD)/obj/src/command/%.o: EXTRA_FLAGS = $(DATA_DIR)
$(BUILD)/obj/tests/%.o: EXTRA_FLAGS = -Itests

$(LIBRARY): $(LIBRARY_OBJECTS)
	@mkdir -p $(@D) && rm -f $@
	$(SHOW)ar rcD $@ $^ && ranlib -D $@

$(BUILD)/burnsheet: $(call object,$(MAIN)) $(LIBRARY)
	$(if $(V),,@echo "  link $@")
	$(SHOW)$(CC) $(LDFLAGS) -o $@ $^ $(LIBRARIES)

$(MARKS): $(BUILD)/obj/tests/tools/marks.o $(BUILD)/obj/tests/support/marks.o \
          $(call object,$(MAIN)) $(LIBRARY)
	@mkdir -p $(@D)
	$(SHOW)$(CC) $(LDFLAGS) -Wl,--wrap=pdf_write -o $@ $^ $(LIBRARIES)

$(TEST_PROGRAMS) $(BENCH_PROGRAMS) $(SEASON): $(BUILD)/%: $(BUILD)/obj/%.o $(SUPPORT_OBJECTS) $(LIBRARY)
	@mkdir -p $(@D)
	$(SHOW)$(CC) $(LDFLAGS) -o $@ $^ -lcmocka $(LIBRARIES)

$(FAULT_LIBRARY): tests/fault/failing_calls.c
	@mkdir -p $(@D)
	$(SHOW)gcc -std=c11 $(WARNINGS) -Wno-pedantic -O2 -shared -fPIC -o $@ $< -ldl

$(FUZZ_PROGRAMS): $(BUILD)/%: $(BUILD)/obj/%.o $(FUZZ_OBJECTS) $(LIBRARY)
	@mkdir -p $(@D)
	$(SHOW)$(CC) $(LDFLAGS) -fsanitize=fuzzer -o $@ $^ $(LIBRARIES)

$(FACES): fonts/%.ttf: | fonts/subset
	$(if $(V),,@echo "  subset $@")
	$(SHOW)fonts/subset $*.ttf

$(BUILD)/burnsheet.1: templates/burnsheet.1 Makefile
	@mkdir -p $(@D)
	@sed 's/@VERSION@/$(VERSION)/g' $< >$@

-include $(OBJECTS:.o=.d)
