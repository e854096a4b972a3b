#include "support/accepted.h"

#include "input/xml.h"

bool file_accepted(Reader *reader, const char *path) {
    bool could_not_open = false;
    const Element *root = xml_read(&reader->diagnostics, path, &could_not_open);
    bool accepted = root && check_tree(reader, path, root);
    reader->could_not_open = root ? reader->could_not_open : could_not_open;
    return accepted;
}
