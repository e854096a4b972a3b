"""Saturation pressure of water vapour over water and over ice, from the iapws package.

Over ice: IAPWS R14-08(2011). Over water from 0 °C: IAPWS-IF97 region 4. Over supercooled water
there is no such formula in the package, so it is worked out from two others of IAPWS: where the
Gibbs energies of ice (R10-06) and of supercooled water (G12-15) differ by dg, the vapour pressures
differ by the factor exp(dg/RT), both at one atmosphere. That is independent of the formula under
test, and good to about 0.1 %. The package gives g of supercooled water divided by R·228.2 K.
"""
import math

from iapws import _iapws, iapws97

ATMOSPHERE_MPA = 0.101325
GAS_CONSTANT = 0.461523087  # kJ/kg K, as in G12-15
REDUCING_K = 228.2


def over_ice(temp_k):
    return _iapws._Sublimation_Pressure(temp_k) * 1e6


def over_water(temp_k):
    if temp_k >= 273.15:
        return iapws97._PSat_T(temp_k) * 1e6
    water = _iapws._Supercooled(temp_k, ATMOSPHERE_MPA)["g"] * GAS_CONSTANT * REDUCING_K
    ice = _iapws._Ice(temp_k, ATMOSPHERE_MPA)["g"]
    return over_ice(temp_k) * math.exp((water - ice) / (GAS_CONSTANT * temp_k))


print("# Saturation vapour pressure over water and over ice; made by tests/reference/remake")
print("# with the Python package iapws. Supercooled water from Gibbs energies: see saturation.py.")
print("temp_c,water_pa,ice_pa")
for temp_c in list(range(-30, 0, 2)) + list(range(0, 121, 4)):
    temp_k = temp_c + 273.15
    ice = f"{over_ice(temp_k):.10g}" if temp_c <= 0 else ""
    print(f"{temp_c},{over_water(temp_k):.10g},{ice}")
