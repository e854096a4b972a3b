#!/bin/sh
# One output under attack: the program is killed in the middle 300 times while an older page is
# there, eight of it write one file at once, and the disk is full. What stands under the name is
# then the older page or a new one, whole to the byte, and nothing of what was unfinished is left
# but by a kill that nobody can catch.
. tests/support/check.sh
desk=$scratch/desk
mkdir "$desk"
cp samples/workshop.xml samples/mark.svg samples/cheese-overnight.xml "$desk"
export SOURCE_DATE_EPOCH=1780000000
kills=${FAULT_KILLS:-300}
# A page of another day, so that the older and the new one differ.
(cd "$desk" && SOURCE_DATE_EPOCH=1770000000 "$BURNSHEET" sheet -o older.pdf cheese-overnight.xml &&
    "$BURNSHEET" sheet -o new.pdf cheese-overnight.xml)
differ() {
    [ -s "$desk/older.pdf" ] && [ -s "$desk/new.pdf" ] &&
        ! cmp -s "$desk/older.pdf" "$desk/new.pdf"
}
check "an older and a new page to tell apart" differ

older_or_new() { cmp -s "$1" "$desk/older.pdf" || cmp -s "$1" "$desk/new.pdf"; }
# Whatever is beside the pages and what they are made from.
strays() { find "$desk" -type f ! -name '*.xml' ! -name '*.svg' ! -name older.pdf ! -name new.pdf ! -name page.pdf; }

# ---- Killed: at moments spread over the whole of a run, as long as it takes here and now.
cat >"$scratch/killer" <<'END'
import os, subprocess, sys, time
program, folder, kills = sys.argv[1], sys.argv[2], int(sys.argv[3])
page, pages = f"{folder}/page.pdf", {}
for name in ("older", "new"):
    with open(f"{folder}/{name}.pdf", "rb") as file:
        pages[file.read()] = name
older = next(bytes for bytes in pages if pages[bytes] == "older")
command = [program, "sheet", "-o", "page.pdf", "cheese-overnight.xml"]
def start():
    with open(page, "wb") as file:
        file.write(older)
    return subprocess.Popen(command, cwd=folder, stderr=subprocess.DEVNULL)
began = time.monotonic()
assert start().wait() == 0
whole_s = time.monotonic() - began
seen = {"older": 0, "new": 0, "killed": 0}
for turn in range(kills):
    run = start()
    time.sleep(whole_s * 1.2 * turn / kills)
    run.kill()
    seen["killed"] += run.wait() < 0
    with open(page, "rb") as file:
        found = pages.get(file.read())
    if not found:
        sys.exit(f"kill {turn}: the page is neither the older nor the new one")
    seen[found] += 1
print(f"# {seen['killed']} of {kills} killed; {seen['older']} older pages, {seen['new']} new ones")
sys.exit(0 if seen["killed"] * 4 >= kills else "too few were killed in time")
END
check "killed $kills times: the older page or the new one, each time" \
    python3 "$scratch/killer" "$BURNSHEET" "$desk" "$kills"
# Nobody can tidy up after a kill -9, but what is left must not look like a page.
hidden() { ! strays | grep -v '/\.[^/]*\.part$'; }
check "what a kill leaves is hidden and no page" hidden
check_status 0 "the next run is none the worse for it" \
    sh -c 'cd "$1" && exec "$2" sheet -o page.pdf cheese-overnight.xml' - "$desk" "$BURNSHEET"
check "and writes the new page" cmp "$desk/page.pdf" "$desk/new.pdf"
find "$desk" -name '.*.part' -exec rm {} +

# ---- Eight at once, and a reader among them
eight() {
    cp "$desk/older.pdf" "$desk/page.pdf"
    for writer in 1 2 3 4 5 6 7 8; do
        (cd "$desk" && exec "$BURNSHEET" sheet -o page.pdf cheese-overnight.xml) &
        writers="${writers-} $!"
    done
    bad=0
    for look in 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20; do
        cp "$desk/page.pdf" "$scratch/seen.pdf" && older_or_new "$scratch/seen.pdf" || bad=1
    done
    for writer in $writers; do
        wait "$writer" || bad=1
    done
    [ $bad -eq 0 ] && cmp "$desk/page.pdf" "$desk/new.pdf"
}
check "eight writers at once: every one is done, and a reader never sees half a page" eight
check "they leave nothing beside the page" [ -z "$(strays)" ]

# ---- A disk that is full: a small file system of its own, where that is allowed
disk=$scratch/disk
mkdir "$disk"
trap 'umount "$disk" 2>/dev/null; rm -rf "$scratch"' EXIT
if mount -t tmpfs -o size=64k none "$disk" 2>/dev/null; then
    on_full_disk() { (cd "$desk" && exec "$BURNSHEET" "$1" -o "$disk/page.pdf" cheese-overnight.xml); }
    head -c 30000 "$desk/older.pdf" >"$disk/page.pdf"
    cp "$disk/page.pdf" "$scratch/before.pdf"
    dd if=/dev/zero of="$disk/fill" bs=1k count=60 2>/dev/null
    for command in sheet labels; do
        check_status 3 "a full disk: $command" on_full_disk $command
        check_said "No space left" "that is said"
        check "the earlier page is as it was" cmp "$disk/page.pdf" "$scratch/before.pdf"
        check "and nothing half-written is left" [ "$(ls -A "$disk" | tr '\n' ' ')" = "fill page.pdf " ]
    done
    umount "$disk"
else
    echo "not ok - a full disk # SKIP no file system can be mounted here"
fi
check_end
