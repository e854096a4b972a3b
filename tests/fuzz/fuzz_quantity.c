/* Numbers with units, bare numbers and counts: what is taken is a number of ordinary size, and what
 * is refused is told. */
#include "fuzz/night.h"

#include "schema/measure.h"

#include <math.h>
#include <stddef.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);

static void check(ValueFault fault, double value) {
    if (!fault.problem && !isfinite(value))
        fuzz_found("a value was taken that is no number");
    if (fault.problem && !fault.remedy)
        fuzz_found("a value was refused without a remedy");
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size) {
    Arena *arena = arena_new();
    const char *text = arena_copy(arena, (const char *)bytes, size);
    double value = 0;
    int count = 0;
    for (int measure = 0; measure < MEASURE_COUNT; measure++) {
        ValueFault fault = measure_read(arena, (Measure)measure, "fuzz", text, &value);
        check(fault, value);
    }
    ValueFault fault = number_read(arena, "fuzz", text, &value);
    check(fault, value);
    fault = count_read(arena, "fuzz", text, &count);
    check(fault, count);
    if (count < 0)
        fuzz_found("a count is negative");
    arena_free(arena);
    return 0;
}
