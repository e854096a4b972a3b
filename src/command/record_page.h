/* Record page: the record of a night that is over, planned beside happened, to be filed. */
#ifndef COMMAND_RECORD_PAGE_H
#define COMMAND_RECORD_PAGE_H

#include "command/run.h"
#include "layout/pattern.h"

/* Lays the record out: one page, and further ones when the looks are more than fit on it. Reports
 * and returns false when it can not be made. */
bool record_page_lay_out(Run *run, const Job *job, const Pattern *template, Document *document);

#endif
