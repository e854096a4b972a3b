/* Reader: files of a workshop and of batches, read into the nouns of the domain.
 *
 * All faults of a file are reported in one run. A workshop is read once, however many batches
 * name it. Everything lives in the arena the reader was made with, or in one for a while.
 *
 *     Reader reader = reader_new(arena);
 *     const Batch *batch = read_batch(&reader, "samples/cheese-overnight.xml");
 *     diagnostics_print(&reader.diagnostics, stderr);
 */
#ifndef INPUT_READER_H
#define INPUT_READER_H

#include "base/diagnostic.h"
#include "base/element.h"
#include "domain/bagging.h"
#include "domain/workshop.h"
#include "schema/rule.h"

#include <stdbool.h>

typedef struct KnownWorkshop {
    const char *path;
    const Workshop *workshop; /* as far as it could be read; NULL: not at all */
    size_t errors;
    bool could_not_open;
    LIST_OF(SourceText) sources; /* its text, for what is reported later */
} KnownWorkshop;

typedef struct Reader {
    Arena *arena;            /* of what is read now … */
    Arena *lasting;          /* … and of what is kept for all files: the workshops */
    Diagnostics diagnostics; /* print and clear it as often as wanted */
    LIST_OF(KnownWorkshop) workshops;
    bool could_not_open; /* a file of the last read could not be opened or read */
    Names languages;     /* there are words for; none: not known, any will do */
    Instant now;         /* the day of reading, for dates years off; 0: not known */
} Reader;

Reader reader_new(Arena *arena);

/* What is read and reported from now on lives in `own`, until reader_leave; only workshops live on,
 * and their texts. So that many files, each read between the two, take no more memory than the
 * greatest. Returns what reader_leave wants; there must be no reports then or now that are still to
 * be printed. */
Diagnostics reader_enter(Reader *reader, Arena *own);
void reader_leave(Reader *reader, const Diagnostics *before);

/* The same for a while of what must last; returns the arena to go back to. */
Arena *reader_use(Reader *reader, Arena *arena);

/* What the files may hold: <workshop>, <batch> and <bagging>, and NULL. */
extern const ElementRule *const file_roots[4];

/* The workshop of that file; NULL when it has faults, which were then reported now or when it
 * was read before. */
const Workshop *read_workshop(Reader *reader, const char *path);

/* The batch of that file with its workshop, which is looked for from the batch's folder; NULL
 * when either has faults. */
const Batch *read_batch(Reader *reader, const char *path);

/* The same for a day of bagging. */
const Bagging *read_bagging(Reader *reader, const char *path);

/* A file of any kind, read. */
typedef struct ReadFile {
    const char *kind;   /* its root element's name, known or not; NULL: not well-formed */
    const Batch *batch; /* NULL: of another kind, or faulty; so the next two */
    const Bagging *bagging;
    const Workshop *workshop;
} ReadFile;

/* Reads a file as what it is, once. One with another root element is told by its kind alone and
 * not reported. */
ReadFile read_any(Reader *reader, const char *path);

/* The root element's name of a file that is well-formed and holds one of the kinds; NULL, and
 * reported, when it does not. */
const char *read_kind(Reader *reader, const char *path);

/* What a tree holds, when it has no faults. */
typedef struct TreeRead {
    bool good;
    const Batch *batch;     /* NULL: another kind, or faults */
    const Bagging *bagging; /* the same */
} TreeRead;

/* Reads the tree of a file of any kind, for its faults. A workshop's has to last. */
TreeRead read_tree(Reader *reader, const char *path, const Element *root);

/* The same; whether it has none. */
bool check_tree(Reader *reader, const char *path, const Element *root);

#endif
