/* What is wrong with the XML itself, in words of our own. */
#ifndef INPUT_XML_FAULT_H
#define INPUT_XML_FAULT_H

#include "base/diagnostic.h"
#include "input/source.h"

#include <libxml/xmlerror.h>

/* Reports the parser's error, at the tag, attribute or entity it is about where that can be told,
 * else where the parser stopped. */
void report_xml_fault(Diagnostics *diagnostics, const Source *source, const xmlError *error);

#endif
