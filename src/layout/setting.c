#include "layout/setting.h"

#include "layout/phrase.h"

bool setting_refused(const Setting *setting) {
    return setting->plan->verdict == VERDICT_DO_NOT_LIGHT;
}

const char *setting_row_words(Setting *setting, const char *key, const FieldGroup *row) {
    const char *text = phrase_word(setting->pen.arena, setting->locale, setting->template->place,
                                   key, row, setting->diagnostics);
    return text ? text : "?";
}

const char *setting_words(Setting *setting, const char *key) {
    return setting_row_words(setting, key, setting->fields);
}

const char *setting_field_words(Setting *setting, const FieldGroup *row, const char *name) {
    const Field *field = row ? field_find(row, name) : NULL;
    return field && field->text ? setting_row_words(setting, field->text, row) : "?";
}

const char *setting_strong_words(Setting *setting, const FieldGroup *row, const char *name) {
    static const char strong[] = {WRAP_STRONG, '\0'};
    static const char plain[] = {WRAP_PLAIN, '\0'};
    const Field *field = row ? field_find(row, name) : NULL;
    if (!field || !field->text)
        return "?";
    const char *text = phrase_word_marked(setting->pen.arena, setting->locale,
                                          setting->template->place, field->text, row, strong, plain,
                                          setting->diagnostics);
    return text ? text : "?";
}

const char *setting_figure(Setting *setting, QuantityKind kind, double value, const char *style) {
    const char *text =
        format_quantity(setting->pen.arena, setting->locale, quantity(kind, value), style);
    return text ? text : "?";
}

const char *setting_time(Setting *setting, Instant at, const char *style) {
    return setting_figure(setting, QUANTITY_INSTANT, at ? (double)at : NOT_STATED, style);
}

const char *setting_strong(Setting *setting, const char *text) {
    return arena_format(setting->pen.arena, "%c%s%c", WRAP_STRONG, text, WRAP_PLAIN);
}
