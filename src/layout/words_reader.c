/* Reading a words file into Words. */
#include "layout/words.h"
#include "schema/form.h"

#include <string.h>

#include "schema/rows.h"

/* The name of a month or a weekday. */
typedef struct Name {
    int number;
    const char *shorter, *longer;
    const char *alone; /* of a month; NULL: as longer */
    Place place;
} Name;

/* A file as it is written. */
typedef struct WordsFile {
    Words words;
    LIST_OF(Name) months, weekdays;
    Place place;
} WordsFile;

/* ---- Numbers and dates --------------------------------------------------------------------- */

static const AttributeRule numbers_attributes[] = {
    ROW("decimal", TEXT, WordsFile, words.numbers.decimal_sign, "before the decimals", MUST),
    ROW("group", TEXT, WordsFile, words.numbers.group_sign, "between groups of three digits"),
    ROW("group-from", COUNT("4", "9"), WordsFile, words.numbers.group_from_digits,
        "digits from which on there are groups", .usual = "5"),
    ROW("percent-space", WORDS("yes no"), WordsFile, words.percent_closed,
        "whether a space stands before the percent sign", .usual = "yes"),
};
static ELEMENT(numbers, "How numbers are written.");

static const AttributeRule dates_attributes[] = {
    ROW("date", TEXT, WordsFile, words.dates.date, "as in 4 Dec 2026", MUST),
    ROW("day", TEXT, WordsFile, words.dates.day, "as in Fri 4 Dec", MUST),
    ROW("full", TEXT, WordsFile, words.dates.full, "as in Friday, 4 December 2026", MUST),
};
static ELEMENT(dates, "Patterns of dates, of {d} {dd} {mm} {mon} {month} {yyyy} {ddd} {weekday}.");

static const AttributeRule month_attributes[] = {
    ROW("number", COUNT("1", "12"), Name, number, "of the month", MUST),
    ROW("short", TEXT, Name, shorter, "as in Dec", MUST),
    ROW("long", TEXT, Name, longer, "as it stands behind a day's number", MUST),
    ROW("alone", TEXT, Name, alone, "as it stands without a day; as long when not written"),
};
static ELEMENT(month, "The name of a month.", OWN_STRUCT(Name));

static const AttributeRule weekday_attributes[] = {
    ROW("number", COUNT("1", "7"), Name, number, "of the day, from Monday", MUST),
    ROW("short", TEXT, Name, shorter, "as in Fri", MUST),
    ROW("long", TEXT, Name, longer, "as in Friday", MUST),
};
static ELEMENT(weekday, "The name of a weekday.", OWN_STRUCT(Name));

/* Puts a name where its number says. */
static void take_name(Form *form, const char *element, const Name *name, const char **shorts,
                      const char **longs) {
    if (name->number < 1)
        return;
    if (longs[name->number - 1])
        error_at(form, name, NULL, "<%s number=\"%d\"> is there twice", element, name->number);
    shorts[name->number - 1] = name->shorter;
    longs[name->number - 1] = name->longer;
}

/* ---- Words --------------------------------------------------------------------------------- */

static void check_forms(Form *form, const Element *element, const Word *word, PluralRule plurals) {
    for (int i = 0; i < PLURAL_COUNT; i++) {
        const char *name = plural_name((Plural)i);
        bool needed = plural_needed(plurals, (Plural)i);
        if (needed && !word->forms[i])
            error_at(form, element, NULL, "'%s' has no plural form <%s>", word->key, name);
        if (!needed && word->forms[i])
            error_at(form, element, NULL,
                     "'%s' has a plural form <%s> that this language does not use", word->key,
                     name);
    }
}

static void check_word(Form *form, const Element *element, void *into) {
    Word *word = into;
    const WordsFile *file = form->outer;
    if (!word->key)
        return;
    if (word->count) {
        check_forms(form, element, word, file->words.plurals);
        return;
    }
    word->text = element_words(form->arena, element);
    if (!*word->text)
        error_at(form, element, NULL, "'%s' has no text in <word>", word->key);
    if (element->first)
        error_at(form, element->first, "give the word a count=\"path\"",
                 "'%s' has forms but does not say what it counts", word->key);
}

#define PLURAL_FORM(form, line)                                                                    \
    static const ElementRule form##_rule = {                                                       \
        .name = #form, .help = (line), .words = TEXT_MUST, .size = sizeof(const char *)}
PLURAL_FORM(one, "The form for one.");
PLURAL_FORM(few, "The form for a few.");
PLURAL_FORM(many, "The form for many.");
PLURAL_FORM(other, "The form for all else.");

static const AttributeRule word_attributes[] = {
    ROW("id", ID, Word, key, "what templates and the program call it", MUST),
    ROW("count", TEXT, Word, count, "path of the field that it counts; it then has plural forms"),
};
static const ChildRule word_children[] = {
    ONE(one, 0, Word, forms[PLURAL_ONE]), ONE(few, 0, Word, forms[PLURAL_FEW]),
    ONE(many, 0, Word, forms[PLURAL_MANY]), ONE(other, 0, Word, forms[PLURAL_OTHER])};
static ELEMENT(word, "Something that is said, with {fields} in it.", CHILDREN(word_children),
               OWN_STRUCT(Word), .words = TEXT_MAY, .check = check_word);

/* ---- The whole ----------------------------------------------------------------------------- */

static void check_whole(Form *form, const Element *root, const Words *words) {
    for (int i = 0; i < MONTHS; i++)
        if (!words->dates.month_long[i])
            error_at(form, root, NULL, "month %d is missing", i + 1);
    for (int i = 0; i < WEEKDAYS; i++)
        if (!words->dates.weekday_long[i])
            error_at(form, root, NULL, "weekday %d is missing", i + 1);
    for (size_t i = 1; i < words->words.count; i++) {
        const Word *word = &words->words.items[i];
        if (strcmp(word->key, words->words.items[i - 1].key) == 0)
            error_at(form, word, NULL, "word '%s' is there twice", word->key);
    }
}

/* A word without its id can not be looked up; that it has none was reported. */
static void drop_nameless(Words *words) {
    size_t kept = 0;
    for (size_t i = 0; i < words->words.count; i++)
        if (words->words.items[i].key)
            words->words.items[kept++] = words->words.items[i];
    words->words.count = kept;
}

static void check_file(Form *form, const Element *root, void *into) {
    WordsFile *file = into;
    DateWords *dates = &file->words.dates;
    for (size_t i = 0; i < file->months.count; i++)
        take_name(form, "month", &file->months.items[i], dates->month_short, dates->month_long);
    for (size_t i = 0; i < file->months.count; i++) {
        const Name *name = &file->months.items[i];
        if (name->number >= 1)
            dates->month_alone[name->number - 1] = name->alone ? name->alone : name->longer;
    }
    for (size_t i = 0; i < file->weekdays.count; i++)
        take_name(form, "weekday", &file->weekdays.items[i], dates->weekday_short,
                  dates->weekday_long);
    drop_nameless(&file->words);
    words_sort(&file->words);
    check_whole(form, root, &file->words);
}

static const AttributeRule words_attributes[] = {
    ROW("language", ID, WordsFile, words.language, "tag of the language, such as en", MUST),
    ROW("plurals", WORDS("none germanic french polish east-slavic czech"), WordsFile, words.plurals,
        "which plural forms it has and when", MUST),
};
static const ChildRule words_children[] = {
    INSIDE(numbers, 1),
    INSIDE(dates, 1),
    SEVERAL(month, 0, MONTHS, WordsFile, months),
    SEVERAL(weekday, 0, WEEKDAYS, WordsFile, weekdays),
    SEVERAL(word, 0, 10000, WordsFile, words.words),
};
ELEMENT(words, "Everything that is said on a page in one language.", CHILDREN(words_children),
        OWN_STRUCT(WordsFile), .check = check_file);

const Words *words_read(Arena *arena, const Element *root, Diagnostics *diagnostics) {
    static const ElementRule *const roots[] = {&words_rule, NULL};
    size_t before = diagnostics_errors(diagnostics, NULL);
    WordsFile *file = ARENA_NEW(arena, WordsFile);
    Form form = {.arena = arena, .diagnostics = diagnostics, .roots = roots};
    if (form_check_root(&form, root))
        form_read(&form, &words_rule, root, file);
    return diagnostics_errors(diagnostics, NULL) == before ? &file->words : NULL;
}
