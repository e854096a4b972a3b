#include "domain/label_sheet.h"

#include <string.h>

static LabelSheet *sheet_of(const LabelSheets *sheets, const Stock *stock) {
    for (size_t i = 0; i < sheets->sheets.count; i++) {
        if (sheets->sheets.items[i].stock == stock) {
            return &sheets->sheets.items[i];
        }
    }
    return NULL;
}

int label_sheet_first(const LabelSheets *sheets, FirstLabels firsts, const Stock *stock,
                      const BagOrder *order) {
    int of_all = 0;
    for (size_t i = 0; i < firsts.count; i++) {
        const FirstLabel *first = &firsts.items[i];
        if (first->stock && strcmp(first->stock, stock->name) == 0) {
            return sheet_of(sheets, stock) ? order->first : first->number;
        }
        of_all = first->stock ? of_all : first->number;
    }
    return of_all && sheets->sheets.count == 0 ? of_all : order->first;
}

LabelSheet *label_sheet_start(Arena *arena, LabelSheets *sheets, const Stock *stock, int first) {
    LabelSheet *sheet = sheet_of(sheets, stock);
    if (!sheet) {
        LIST_ADD(arena, &sheets->sheets, ((LabelSheet){.stock = stock}));
        sheet = &sheets->sheets.items[sheets->sheets.count - 1];
    }
    if (first > 1 && first - 1 != sheet->next) {
        sheet->open = false;
        sheet->next = first - 1;
    }
    return sheet;
}

int label_sheet_take(LabelSheet *sheet) {
    int taken = stock_for_bag(sheet->stock);
    if (sheet->next + taken > stock_count(sheet->stock)) {
        sheet->open = false;
        sheet->next = 0;
    }
    if (!sheet->open) {
        sheet->open = true;
        sheet->sheets++;
    }
    int number = sheet->next;
    sheet->next += taken;
    sheet->labels += taken;
    return number;
}

int label_sheet_free(const LabelSheet *sheet) {
    int free = sheet->next + 1;
    return free <= stock_last_first(sheet->stock) ? free : 0;
}
