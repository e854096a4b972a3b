/* Tree: XML files as the fuzzer changes them: whole elements and attributes at a time, by the
 * rules of input/reader.h, so that most of what it makes is read to the end and reaches what lies
 * behind. */
#ifndef FUZZ_TREE_H
#define FUZZ_TREE_H

#include "base/element.h"
#include "base/text.h"

#include <stddef.h>
#include <stdint.h>

/* An element as XML text. */
void tree_write(Text *text, const Element *element);

/* Changes an XML file of `size` bytes in place, up to `most` bytes; returns its new size. The same
 * seed makes the same change. What is no XML is changed byte by byte, and so now and then is what
 * is. This is what LLVMFuzzerCustomMutator of a target for XML does. */
size_t tree_mutate(uint8_t *bytes, size_t size, size_t most, unsigned seed);

#endif
