#include "model/belief.h"

Belief belief_unmeasured(void) {
    return (Belief){speed_factor_unmeasured(), holding_unmeasured()};
}
