/* usage: season FOLDER [NIGHTS [UPCOMING [DAYS APART [SEED]]]]
 *
 * Writes a made season into the folder, which has to be there (support/season_maker.h); without
 * numbers that of samples/season. */
#include "support/season_maker.h"

#include <stdio.h>
#include <stdlib.h>

static int number(int count, char **words, int which, int usual) {
    return count > which ? atoi(words[which]) : usual;
}

int main(int count, char **words) {
    if (count < 2) {
        fputs("usage: season FOLDER [NIGHTS [UPCOMING [DAYS APART [SEED]]]]\n", stderr);
        return 2;
    }
    SeasonMaking making = {.folder = words[1],
                           .nights = number(count, words, 2, 30),
                           .upcoming = number(count, words, 3, 4),
                           .apart_days = number(count, words, 4, 4),
                           .seed = (uint64_t)number(count, words, 5, 7),
                           .last = {2026, 11, 30}};
    season_make(&making);
    return 0;
}
