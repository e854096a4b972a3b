#include "command/records.h"

#include "base/file.h"
#include "base/file_path.h"
#include "command/folder.h"
#include "input/xml.h"

#include <string.h>

static bool looked_through(const Records *records, const char *folder) {
    for (size_t i = 0; i < records->folders.count; i++)
        if (!strcmp(records->folders.items[i], folder))
            return true;
    return false;
}

/* Most batches of a folder have none: a look at the bytes spares reading them. */
static bool may_hold_record(Reader *reader, const char *path) {
    Bytes bytes;
    const char *error;
    return file_read(reader->arena, path, XML_BYTES_MAX, &bytes, &error) &&
           strstr((const char *)bytes.data, "<record");
}

/* Whether a file that can not be read as a batch has a record, or would if it were whole. */
static bool has_record(Reader *reader, const char *path) {
    const Element *root = xml_read(&reader->diagnostics, path, NULL);
    return !root || (!strcmp(root->name, "batch") && element_child(root, "record"));
}

static void gather(Reader *reader, const char *path, Records *records) {
    if (!may_hold_record(reader, path))
        return;
    const Batch *batch = read_batch(reader, path);
    if (batch && batch->record.stated)
        LIST_ADD(reader->arena, &records->batches, batch);
    if (!batch && has_record(reader, path))
        LIST_ADD(reader->arena, &records->unread, path);
}

void records_gather(Reader *reader, const char *batch_file, Records *records) {
    const char *folder = file_path_folder(reader->arena, batch_file);
    if (looked_through(records, folder))
        return;
    records->arena = reader->arena;
    LIST_ADD(reader->arena, &records->folders, folder);
    Names files = {0};
    folder_files(reader->arena, folder, &files);
    for (size_t i = 0; i < files.count; i++)
        gather(reader, files.items[i], records);
    diagnostics_clear(&reader->diagnostics);
}

const Learning *records_learning(Arena *arena, Records *records, const Batch *batch) {
    const Learning *all = taught_by(records->arena, &records->taught, records->batches.items,
                                    records->batches.count, batch->workshop);
    return learning_before(arena, all, batch->timing.at, batch);
}
