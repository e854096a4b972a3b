#!/bin/sh
# The faces: same bytes each time, every sign the pages use, figures of one width, no hinting.
. tests/support/check.sh
python=/usr/bin/python3

same_bytes() {
    mkdir "$scratch/fonts"
    cp fonts/subset "$scratch/fonts"
    for face in fonts/*.ttf; do
        "$scratch/fonts/subset" "${face#fonts/}" && cmp "$face" "$scratch/$face" || return 1
    done
}
five_faces() { [ "$(find fonts -name '*.ttf' | wc -l)" -eq 5 ]; }
unknown_face() { "$PWD/fonts/subset" Unknown.ttf; }
no_left_over() { [ -z "$(find fonts -name '*.new')" ]; }
holds_signs() {
    $python - fonts/*.ttf <<'END'
import sys
from fontTools.ttLib import TTFont

wanted = "ÄäÖöÜüßĄąĆćĘęŁłŃńÓóŚśŹźŻżÅøçñΔΩµБбжЯ €№‰°×−±≈≤≥½⅓¼¾²³₂–—‘’“”„…·•\u00a0\u2009\u202f\u2011"
failed = False
for name in sys.argv[1:]:
    face = TTFont(name)
    signs = face.getBestCmap()
    lacking = [sign for sign in wanted if ord(sign) not in signs]
    lacking += [chr(code) for code in range(0x20, 0x7F) if code not in signs]
    lacking += [chr(code) for code in range(0xA0, 0x180) if code not in signs]
    figures = {face["hmtx"][signs[ord(figure)]][0] for figure in "0123456789"}
    tables = {"GSUB", "GPOS", "GDEF", "kern", "fpgm", "prep", "cvt ", "DSIG"} & set(face.keys())
    licence = face["name"].getDebugName(13)
    if lacking or len(figures) != 1 or tables or "glyf" not in face or "Apache" not in (licence or ""):
        print(name, lacking, figures, tables, licence)
        failed = True
sys.exit(failed)
END
}

check "five faces" five_faces
check "the same bytes when made again" same_bytes
check "every sign, figures of one width, outlines, licence; no layout tables" holds_signs
check_status 1 "an unknown face is an error" unknown_face
check "no half-made face is left" no_left_over
check_end
