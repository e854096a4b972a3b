#include "model/belief.h"

Belief belief_unmeasured(void) {
    return (Belief){pace_unmeasured(), holding_unmeasured()};
}
