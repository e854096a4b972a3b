#include "support/every_word.h"

#include "base/list.h"
#include "domain/word.h"

const char *const *every_word(Arena *arena, size_t *count) {
    LIST_OF(const char *) words = {0};
    const char *word;
#define ADD_ALL(word_of, type)                                                                     \
    for (int value = 0; (word = word_of((type)value)); value++) {                                  \
        LIST_ADD(arena, &words, word);                                                             \
    }
    ADD_ALL(word_of_verdict, Verdict)
    ADD_ALL(word_of_cause, Cause)
    ADD_ALL(word_of_remedy, RemedyKind)
    ADD_ALL(word_of_care_level, CareLevel)
    ADD_ALL(word_of_product, ProductKind)
    ADD_ALL(word_of_basis, MoistureBasis)
    ADD_ALL(word_of_packing, Packing)
    ADD_ALL(word_of_channel, ChannelPath)
    ADD_ALL(word_of_season_state, SeasonState)
#undef ADD_ALL
    LIST_ADD(arena, &words, word_of_vents(VENT_QUARTER));
    for (int value = 0; (word = word_of_vent((VentOpening)value, false)); value++) {
        LIST_ADD(arena, &words, word);
    }
    LIST_ADD(arena, &words, word_of_vent(VENT_PART, true));
    LIST_ADD(arena, &words, word_of_vent(VENT_AREA, true));
    *count = words.count;
    return words.items;
}
