#!/bin/sh
# The include rule fails when it is broken: each breach is planted alone in a small tree.
. tests/support/check.sh
rule=$PWD/tests/tools/includes

# plants FILE with TEXT in a clean tree (where base/ring.h includes base/own.h) and says what the rule answers
planted() {
    rm -rf "$scratch/tree"
    for folder in base domain schema model input layout print report command; do
        mkdir -p "$scratch/tree/src/$folder"
        printf '#include "%s/own.h"\n#include <stddef.h>\n' $folder \
            >"$scratch/tree/src/$folder/own.c"
        printf '/* own: fopen( and <hpdf.h> in a comment are no matter */\n' \
            >"$scratch/tree/src/$folder/own.h"
    done
    printf '#include "base/own.h"\n' >"$scratch/tree/src/base/ring.h"
    mkdir -p "$(dirname "$scratch/tree/$1")"
    printf "$2" >"$scratch/tree/$1"
    "$rule" "$scratch/tree"
}
refused() {
    check_status 1 "refused: $1" planted "$2" "$3"
}
allowed() {
    check_status 0 "allowed: $1" planted "$2" "$3"
}
# the message names file and line
names_place() {
    planted src/model/burn.c '\n#include <libxml/tree.h>\n' | grep -q '^src/model/burn.c:2: error: '
}

check "the source tree keeps the rule" "$rule" .
check "a breach is named by file and line" names_place

allowed "every folder its own headers" src/base/extra.c '#include "base/own.h"\n'
allowed "model includes domain" src/model/burn.c '#include "domain/own.h"\n'
allowed "model uses snprintf" src/model/burn.c 'void f(void) { snprintf(b, n, "x"); }\n'
allowed "libharu in print" src/print/writer.c '#include <hpdf.h>\n'
allowed "libxml2 in input" src/input/reader.c '#include <libxml/tree.h>\n'
allowed "libxml2 in the template reader" src/layout/words_reader.c '#include <libxml/tree.h>\n'
allowed "a banned word in a string" src/model/burn.c 'const char *s = "fopen(";\n'
allowed "a name that only ends like a banned one" src/model/burn.c 'x = burn_time(1);\n'

refused "base includes domain" src/base/extra.c '#include "domain/own.h"\n'
refused "domain includes model" src/domain/extra.h '#include "model/own.h"\n'
refused "model includes libxml2" src/model/burn.c '#include <libxml/tree.h>\n'
refused "model includes input" src/model/burn.c '#include "input/own.h"\n'
refused "model includes the clock" src/model/burn.c '#include <time.h>\n'
refused "model opens a file" src/model/burn.c 'void f(void) { fopen("a", "r"); }\n'
refused "model prints" src/model/burn.c 'void f(void) {\n    printf("a");\n}\n'
refused "model asks the time" src/model/burn.c 'long f(void) { return time(0); }\n'
refused "model allocates" src/model/burn.c 'char *f(void) { return malloc(1); }\n'
refused "model reads the environment" src/model/burn.c 'char *f(void) { return getenv("A"); }\n'
refused "code after a comment counts" src/model/burn.c '/* a */ int a = printf("b");\n'
refused "schema includes domain" src/schema/extra.c '#include "domain/own.h"\n'
refused "layout includes input" src/layout/page.c '#include "input/own.h"\n'
refused "layout includes libharu" src/layout/page.c '#include <hpdf.h>\n'
refused "command includes libharu" src/command/main.c '#  include <hpdf.h>\n'
refused "libxml2 in another file of layout" src/layout/page.c '#include <libxml/tree.h>\n'
refused "print includes domain" src/print/writer.c '#include "domain/own.h"\n'
refused "report includes model" src/report/text.c '#include "model/own.h"\n'
refused "an include not written from src/" src/base/extra.c '#include "own.h"\n'
refused "an include that climbs" src/base/extra.c '#include "../base/own.h"\n'
refused "a header that includes itself" src/base/own.h '#include "base/own.h"\n'
refused "two headers in a ring" src/base/own.h '#include "base/ring.h"\n'
refused "a folder that does not exist in the plan" src/extra/own.c '\n'
check_end
