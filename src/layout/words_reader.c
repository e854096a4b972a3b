/* Reading a words file into Words. */
#include "base/nearest.h"
#include "layout/words.h"

#include <stdlib.h>
#include <string.h>

typedef struct Reader {
    Arena *arena;
    Diagnostics *diagnostics;
    Words *words;
} Reader;

/* The value of an attribute that has to be there; NULL when it is not, which is reported. */
static const char *required(Reader *reader, const Element *element, const char *name) {
    const char *value = element_value(element, name);
    if (!value || !*value) {
        report_error(reader->diagnostics, element->place, NULL, "'%s' of <%s> is missing", name,
                     element->name);
        return NULL;
    }
    return value;
}

static bool allowed(const char *const *names, const char *name) {
    for (; *names; names++)
        if (strcmp(*names, name) == 0)
            return true;
    return false;
}

static Names name_list(Arena *arena, const char *const *names) {
    Names list = {0};
    for (; *names; names++)
        LIST_ADD(arena, &list, *names);
    return list;
}

static const char *meant(Reader *reader, const char *written, const char *const *names) {
    Names list = name_list(reader->arena, names);
    const char *nearest = nearest_name(written, &list);
    if (nearest)
        return arena_format(reader->arena, "did you mean '%s'?", nearest);
    return arena_format(reader->arena, "known here: %s", names_listed(reader->arena, &list));
}

/* Reports each attribute that is not in the NULL-ended list. */
static void check_attributes(Reader *reader, const Element *element, const char *const *names) {
    for (size_t i = 0; i < element->attributes.count; i++) {
        const Attribute *attribute = &element->attributes.items[i];
        if (!allowed(names, attribute->name))
            report_error(reader->diagnostics, attribute->name_place,
                         meant(reader, attribute->name, names), "unknown attribute '%s' of <%s>",
                         attribute->name, element->name);
    }
}

/* A whole number from `least` to `most`, from an attribute; `least - 1` and a report otherwise. */
static int whole(Reader *reader, const Element *element, const char *name, int least, int most) {
    const char *value = required(reader, element, name);
    if (!value)
        return least - 1;
    char *end = NULL;
    long number = strtol(value, &end, 10);
    if (*end || number < least || number > most) {
        report_error(reader->diagnostics, element_value_place(element, name),
                     arena_format(reader->arena, "a whole number from %d to %d", least, most),
                     "'%s' is no number for '%s'", value, name);
        return least - 1;
    }
    return (int)number;
}

static void read_numbers(Reader *reader, const Element *element) {
    static const char *const names[] = {"decimal", "group", "group-from", "percent-space", NULL};
    check_attributes(reader, element, names);
    NumberStyle *style = &reader->words->numbers;
    style->decimal_sign = required(reader, element, "decimal");
    style->group_sign = element_value(element, "group");
    if (element_value(element, "group-from"))
        style->group_from_digits = whole(reader, element, "group-from", 4, 9);
    const char *space = element_value(element, "percent-space");
    reader->words->percent_closed = space && strcmp(space, "no") == 0;
    if (space && strcmp(space, "no") != 0 && strcmp(space, "yes") != 0)
        report_error(reader->diagnostics, element_value_place(element, "percent-space"),
                     "yes or no", "'%s' is no answer", space);
}

static void read_dates(Reader *reader, const Element *element) {
    static const char *const names[] = {"date", "day", "full", NULL};
    check_attributes(reader, element, names);
    DateWords *dates = &reader->words->dates;
    dates->date = required(reader, element, "date");
    dates->day = required(reader, element, "day");
    dates->full = required(reader, element, "full");
}

static void read_name(Reader *reader, const Element *element, const char **shorts,
                      const char **longs, int most) {
    static const char *const names[] = {"number", "short", "long", NULL};
    check_attributes(reader, element, names);
    int number = whole(reader, element, "number", 1, most);
    if (number < 1)
        return;
    if (longs[number - 1])
        report_error(reader->diagnostics, element->place, NULL, "<%s number=\"%d\"> is there twice",
                     element->name, number);
    shorts[number - 1] = required(reader, element, "short");
    longs[number - 1] = required(reader, element, "long");
}

/* The text of an element, which has to be some. */
static const char *some_text(Reader *reader, const Element *element, const char *key) {
    const char *text = element_words(reader->arena, element);
    if (!*text)
        report_error(reader->diagnostics, element->place, NULL, "'%s' has no text in <%s>", key,
                     element->name);
    return text;
}

static bool form_find(const char *name, int *form) {
    for (int i = 0; i < PLURAL_COUNT; i++) {
        if (strcmp(plural_name((Plural)i), name) == 0) {
            *form = i;
            return true;
        }
    }
    return false;
}

static void read_forms(Reader *reader, const Element *element, Word *word) {
    static const char *const names[] = {"one", "few", "many", "other", NULL};
    for (const Element *child = element->first; child; child = child->next) {
        int form = 0;
        if (form_find(child->name, &form))
            word->forms[form] = some_text(reader, child, word->key);
        else
            report_error(reader->diagnostics, child->place, meant(reader, child->name, names),
                         "unknown plural form <%s> of '%s'", child->name, word->key);
    }
    for (int i = 0; i < PLURAL_COUNT; i++) {
        bool needed = plural_needed(reader->words->plurals, (Plural)i);
        if (needed && !word->forms[i])
            report_error(reader->diagnostics, element->place, NULL, "'%s' has no plural form <%s>",
                         word->key, plural_name((Plural)i));
        if (!needed && word->forms[i])
            report_error(reader->diagnostics, element->place, NULL,
                         "'%s' has a plural form <%s> that this language does not use", word->key,
                         plural_name((Plural)i));
    }
}

static void read_word(Reader *reader, const Element *element) {
    static const char *const names[] = {"id", "count", NULL};
    check_attributes(reader, element, names);
    Word word = {.key = required(reader, element, "id"), .place = element->place};
    if (!word.key)
        return;
    word.count = element_value(element, "count");
    if (word.count)
        read_forms(reader, element, &word);
    else
        word.text = some_text(reader, element, word.key);
    if (!word.count && element->first)
        report_error(reader->diagnostics, element->first->place, "give the word a count=\"path\"",
                     "'%s' has forms but does not say what it counts", word.key);
    LIST_ADD(reader->arena, &reader->words->words, word);
}

static void read_child(Reader *reader, const Element *child) {
    static const char *const names[] = {"numbers", "dates", "month", "weekday", "word", NULL};
    DateWords *dates = &reader->words->dates;
    if (strcmp(child->name, "word") == 0)
        read_word(reader, child);
    else if (strcmp(child->name, "numbers") == 0)
        read_numbers(reader, child);
    else if (strcmp(child->name, "dates") == 0)
        read_dates(reader, child);
    else if (strcmp(child->name, "month") == 0)
        read_name(reader, child, dates->month_short, dates->month_long, MONTHS);
    else if (strcmp(child->name, "weekday") == 0)
        read_name(reader, child, dates->weekday_short, dates->weekday_long, WEEKDAYS);
    else
        report_error(reader->diagnostics, child->place, meant(reader, child->name, names),
                     "unknown element <%s> in <words>", child->name);
}

static void check_whole(Reader *reader, const Element *root) {
    const Words *words = reader->words;
    if (!words->numbers.decimal_sign)
        report_error(reader->diagnostics, root->place, NULL, "<numbers> is missing");
    if (!words->dates.date)
        report_error(reader->diagnostics, root->place, NULL, "<dates> is missing");
    for (int i = 0; i < MONTHS; i++)
        if (!words->dates.month_long[i])
            report_error(reader->diagnostics, root->place, NULL, "month %d is missing", i + 1);
    for (int i = 0; i < WEEKDAYS; i++)
        if (!words->dates.weekday_long[i])
            report_error(reader->diagnostics, root->place, NULL, "weekday %d is missing", i + 1);
    for (size_t i = 1; i < words->words.count; i++) {
        const Word *word = &words->words.items[i];
        if (strcmp(word->key, words->words.items[i - 1].key) == 0)
            report_error(reader->diagnostics, word->place, NULL, "word '%s' is there twice",
                         word->key);
    }
}

static void read_root(Reader *reader, const Element *root) {
    static const char *const names[] = {"language", "plurals", NULL};
    check_attributes(reader, root, names);
    reader->words->language = required(reader, root, "language");
    const char *rule = required(reader, root, "plurals");
    if (rule && !plural_rule_find(rule, &reader->words->plurals))
        report_error(reader->diagnostics, element_value_place(root, "plurals"),
                     "known: none, germanic, french, polish, east-slavic, czech",
                     "unknown rule of plurals '%s'", rule);
}

const Words *words_read(Arena *arena, const Element *root, Diagnostics *diagnostics) {
    size_t before = diagnostics_errors(diagnostics, NULL);
    Reader reader = {arena, diagnostics, ARENA_NEW(arena, Words)};
    if (strcmp(root->name, "words") != 0) {
        report_error(diagnostics, root->place, "a words file holds <words language=\"…\">",
                     "<%s> is no words file", root->name);
        return NULL;
    }
    read_root(&reader, root);
    for (const Element *child = root->first; child; child = child->next)
        read_child(&reader, child);
    words_sort(reader.words);
    check_whole(&reader, root);
    return diagnostics_errors(diagnostics, NULL) == before ? reader.words : NULL;
}
