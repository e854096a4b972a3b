#include "model/holding.h"

#include "model/holding_constants.h"

#include <math.h>

Holding holding_unmeasured(void) {
    double shared = HOLDING_SHOP_SPREAD * HOLDING_SHOP_SPREAD +
                    HOLDING_TRAY_SPREAD * HOLDING_TRAY_SPREAD +
                    HOLDING_DUST_SPREAD * HOLDING_DUST_SPREAD;
    return (Holding){.common_spread = sqrt(shared), .burn_spread = HOLDING_BURN_SPREAD};
}
