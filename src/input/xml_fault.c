#include "input/xml_fault.h"

#include <string.h>

typedef struct Wording {
    int code; /* of libxml2 */
    const char *message;
    const char *remedy;
} Wording;

static const char quotes[] = "write every value as name=\"value\"";
static const char entity[] = "write &amp; for the sign &";

static const Wording wordings[] = {
    {XML_ERR_DOCUMENT_EMPTY, "no element at the start", "an XML file starts with '<'"},
    {XML_ERR_DOCUMENT_END, "something follows the closing tag of the file", NULL},
    {XML_ERR_ATTRIBUTE_NOT_STARTED, "value without quotes", quotes},
    {XML_ERR_ATTRIBUTE_NOT_FINISHED, "value without closing quotes", quotes},
    {XML_ERR_ATTRIBUTE_WITHOUT_VALUE, "attribute without a value", quotes},
    {XML_ERR_LT_IN_ATTRIBUTE, "'<' inside a value", "close the quotes before it, or write &lt;"},
    {XML_ERR_SPACE_REQUIRED, "no blank between two attributes", NULL},
    {XML_ERR_GT_REQUIRED, "tag without a closing '>'", NULL},
    {XML_ERR_LTSLASH_REQUIRED, "closing tag expected", NULL},
    {XML_ERR_NAME_REQUIRED, "'<' or '&' that starts nothing", "write &lt; or &amp; for the sign"},
    {XML_ERR_ENTITYREF_SEMICOL_MISSING, "'&' that starts nothing", entity},
    {XML_ERR_INVALID_CHARREF, "'&#' that names no character", entity},
    {XML_ERR_INVALID_DEC_CHARREF, "'&#' that names no character", entity},
    {XML_ERR_INVALID_HEX_CHARREF, "'&#x' that names no character", entity},
    {XML_ERR_INVALID_CHAR, "character that XML does not let through", "take it out"},
    {XML_ERR_COMMENT_NOT_FINISHED, "comment without its closing '-->'", NULL},
    {XML_ERR_HYPHEN_IN_COMMENT, "'--' inside a comment", "use a single dash"},
    {XML_ERR_CDATA_NOT_FINISHED, "CDATA without its closing ']]>'", NULL},
    {XML_ERR_MISPLACED_CDATA_END, "']]>' in text", "write ]]&gt;"},
    {XML_ERR_PI_NOT_FINISHED, "'<?' without its closing '?>'", NULL},
    {XML_ERR_RESERVED_XML_NAME, "'<?xml' that is not at the very start",
     "take out what stands before it"},
    {XML_ERR_XMLDECL_NOT_FINISHED, "'<?xml' without its closing '?>'", NULL},
    {XML_ERR_VERSION_MISSING, "'<?xml' without a version",
     "write <?xml version=\"1.0\" encoding=\"UTF-8\"?>"},
    {XML_NS_ERR_UNDEFINED_NAMESPACE, "name with a colon", "names here have no colon"},
    {XML_NS_ERR_QNAME, "name with a colon", "names here have no colon"},
    {XML_NS_ERR_COLON, "name with a colon", "names here have no colon"},
};

/* Faults that name the tag or attribute they are about. Returns false for all others. */
static bool report_named(Diagnostics *diagnostics, Place place, const xmlError *error) {
    const char *name = error->str1 ? error->str1 : "?";
    switch (error->code) {
    case XML_ERR_TAG_NAME_MISMATCH:
        report_error(diagnostics, place, "close tags in the order in which they were opened",
                     "'</%s>' where '</%s>' of line %d should close",
                     error->str2 ? error->str2 : "?", name, error->int1);
        return true;
    case XML_ERR_TAG_NOT_FINISHED:
        report_error(diagnostics, place, NULL, "the file ends before '<%s>' of line %d is closed",
                     name, error->int1);
        return true;
    case XML_ERR_ATTRIBUTE_REDEFINED:
        report_error(diagnostics, place, "take one of them out", "'%s' is written twice", name);
        return true;
    case XML_ERR_UNDECLARED_ENTITY:
    case XML_WAR_UNDECLARED_ENTITY:
        report_error(diagnostics, place,
                     "write the character itself; only &amp;, &lt;, &gt;, &quot; and &apos; are "
                     "known",
                     "unknown entity '&%s;'", name);
        return true;
    default:
        return false;
    }
}

void report_xml_fault(Diagnostics *diagnostics, Place place, const xmlError *error) {
    if (report_named(diagnostics, place, error))
        return;
    for (size_t i = 0; i < sizeof wordings / sizeof *wordings; i++)
        if (wordings[i].code == error->code) {
            report_error(diagnostics, place, wordings[i].remedy, "%s", wordings[i].message);
            return;
        }
    int length = error->message ? (int)strcspn(error->message, "\n") : 0;
    report_error(diagnostics, place, NULL, "not well-formed XML: %.*s", length,
                 error->message ? error->message : "");
}
