/* What is wrong with the XML itself, in words of our own. */
#ifndef INPUT_XML_FAULT_H
#define INPUT_XML_FAULT_H

#include "base/diagnostic.h"

#include <libxml/xmlerror.h>

/* Reports the parser's error at the place. */
void report_xml_fault(Diagnostics *diagnostics, Place place, const xmlError *error);

#endif
