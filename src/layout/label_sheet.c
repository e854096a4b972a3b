#include "layout/label_sheet.h"

LabelSheet *label_sheet(Arena *arena, LabelSheets *sheets, const Stock *stock) {
    for (size_t i = 0; i < sheets->sheets.count; i++)
        if (sheets->sheets.items[i].stock == stock)
            return &sheets->sheets.items[i];
    LIST_ADD(arena, &sheets->sheets, ((LabelSheet){.stock = stock}));
    return &sheets->sheets.items[sheets->sheets.count - 1];
}

void label_sheet_start(LabelSheet *sheet, int first) {
    if (first <= 1 || first - 1 == sheet->next)
        return;
    sheet->page = NULL;
    sheet->next = first - 1;
}

int label_sheet_take(LabelSheet *sheet) {
    if (sheet->next >= stock_count(sheet->stock)) {
        sheet->next = 0;
        sheet->page = NULL;
    }
    return sheet->next++;
}
