/* Constants of the fire: every one with its unit and where it comes from. No figure of this table
 * stands anywhere else.
 *
 * Standing: "looked up" was seen in the source; "from memory" was not looked up; "judgement" is
 * this project's own; "common practice, no source" is what people who do it go by. */
#ifndef MODEL_FIRE_CONSTANTS_H
#define MODEL_FIRE_CONSTANTS_H

/* Heat that keeps the front going, J per kg of dry fuel: the part of what smoulder gives off
 * (5 to 12 MJ/kg, from memory) that stays in the bed. Set so that common practice comes out. */
#define FIRE_HEAT_KEPT_J_PER_KG 1.62e6

/* Specific heat of dry wood between air and smoulder temperature, J/kg K. Wood Handbook eq. 4-16a
 * gives 1.24 at 20 °C and 1.55 at 100 °C (looked up); a mean for the whole range, judgement. */
#define FIRE_WOOD_J_PER_KG_K 1500.0

/* Liquid water, J/kg K; its latent heat at 100 °C, J/kg; steam, J/kg K. Steam tables, from
 * memory. */
#define FIRE_WATER_J_PER_KG_K 4190.0
#define FIRE_LATENT_J_PER_KG 2.257e6
#define FIRE_STEAM_J_PER_KG_K 2000.0
#define FIRE_BOILING_C 100.0

/* Temperature of the smouldering zone, °C. 500 to 700 for cellulosic beds (from memory). */
#define FIRE_SMOULDER_C 500.0

/* The reference burn: clean carrier dust of 500–750 µm, 200 kg/m³ dry, 4 % moisture, 10 °C,
 * level in a mesh channel 20 × 20 mm, fronts at 100 mm/h. A judgement inside the published
 * 50–250 mm/h (250 for an incense stick, looked up), and about eight hours or more for an ordinary
 * fold (common practice, no source). The one looked-up speed for a bed of wood dust, 50–65 mm/h
 * downward in pine flour of 204–234 kg/m³ (Kim, Kim & Rie 2017), is 59–66 at this density: its
 * middle lies inside the 80 % band of 60–167 that the spread of speeds makes. No published
 * speed for hardwood dust in a channel was found. */
#define FIRE_REFERENCE_MPS (0.100 / 3600)
#define FIRE_REFERENCE_DRY_KG_M3 200.0
#define FIRE_REFERENCE_MOISTURE 0.04
#define FIRE_REFERENCE_AIR_C 10.0
#define FIRE_REFERENCE_SIDE_M 0.020
/* Top counts 1, the three mesh faces 1/2 each: 2.5 sides over one side squared, 1/m. */
#define FIRE_REFERENCE_AIR_SIDE_PER_M (2.5 / FIRE_REFERENCE_SIDE_M)

/* The carrier's grain at reference, m: d50 and Sauter mean of 500–750 µm spread evenly over the
 * logarithm: sqrt(0.5 × 0.75) mm, and ln 1.5 / (1/0.5 − 1/0.75) mm (arithmetic). */
#define FIRE_REFERENCE_D50_M 0.612372e-3
#define FIRE_REFERENCE_SAUTER_M 0.608198e-3
/* Share of the bed that is air, levelled: 1 − 0.40 (Briggs, Table 7-1, looked up). */
#define FIRE_REFERENCE_POROSITY 0.60

/* How the heat falls as the bed chokes: relative Kozeny–Carman permeability to this power. Set so
 * that a tenth of fines is the edge of trouble (common practice, no source). */
#define FIRE_CHOKE_POWER 0.3
/* Grain at which half the glow is lost between grains, m. Set so that 1–2 mm is about the coarsest
 * that holds (common practice, no source). */
#define FIRE_COARSE_D50_M 2.8e-3

/* Heat the tray drinks: specific heat of steel, J/kg K (from memory), and how much the metal
 * within the front warms, K (judgement). It rests on a heat balance and on practice; the one
 * published trial found, with cork dust (Palmer & Skeet 1952, Fire Research Note 11, looked up),
 * saw no effect of the support on the burning time. */
#define FIRE_STEEL_J_PER_KG_K 490.0
#define FIRE_METAL_RISE_K 270.0

/* Hold margin from which a burn is good; below FIRE_MARGIN_HOLD the front starves. Judgement on
 * common practice. */
#define FIRE_MARGIN_GOOD 1.35
#define FIRE_MARGIN_HOLD 1.00

/* Effective diffusion of vapour through the bed's pores, m²/s: 2.4e-5 in free air (from memory)
 * less the grains and the winding way (judgement, factor 2). */
#define FIRE_BED_DIFFUSION_M2_S 1.0e-5
/* Time in which a grain itself follows the air in its pore, s. Dried incense sticks reach the
 * air's state in about 40 min (J. Meteorol. Soc. Japan 20(11), looked up): four of these. */
#define FIRE_GRAIN_LAG_S 600.0

/* Heat given off to the cabinet, J per kg of dry fuel: 9 (5 to 12) MJ/kg, Rein, from memory. */
#define FIRE_HEAT_RELEASED_J_PER_KG 9.0e6
/* The upper end of these, which walls and oxygen have to bear. */
#define FIRE_HEAT_RICH_J_PER_KG 12.0e6
/* Heat per kg of oxygen used, J: 13.1 MJ ± 5 % (Huggett 1980, from memory), made for complete
 * burning; smoulder that leaves carbon monoxide is taken as the same. */
#define FIRE_OXYGEN_J_PER_KG 13.1e6
/* Oxygen of fresh air: share of the dry volume, and of the dry mass: 0.2095 × 32.00/28.96
 * (standard atmosphere, from memory). */
#define FIRE_OXYGEN_FRESH 0.2095
#define FIRE_OXYGEN_MASS_SHARE 0.2315
/* Air in the lower vent from which smoulder in its way may flame, m/s: judgement. A jet from a vent
 * slows to a fraction before it is at the tray; solid oak in a channel comes to flame at the upper
 * end of 0.09 to 0.22 m/s (Ohlemiller 1991, looked up), thin incense sticks bear 1.5 m/s and go out
 * by 3 (J. Meteorol. Soc. Japan 20(11), looked up). */
#define FIRE_VENT_FLAME_MPS 1.5
/* Cabinet oxygen under which a burn has to be tended, and under which it is not to be lit:
 * judgement. No figure for wood dust was found. The glow itself goes on at less (peat and
 * cellulose down to some 10 to 13 %, from memory; "much lower" than the 15 % of flames, fire
 * investigators' textbook, looked up): what is refused is a smoke that gets sour and rich in
 * carbon monoxide, and a box that flares up when somebody opens it. */
#define FIRE_OXYGEN_TEND 0.17
#define FIRE_OXYGEN_LEAST 0.15
/* Water made by burning, kg per kg of dry wood. Complete burning of its 6 % hydrogen would make
 * 0.54. Smoulder leaves half of the heat: of 18.3 MJ/kg (net) 9 are released, 1.6 go off in 160 g
 * of carbon monoxide, and 7.7 in smoke at some 25 MJ/kg, 0.31 kg of it with 7 % hydrogen. 38 g of
 * hydrogen are left to make water: 0.34 kg (arithmetic; what goes in from memory; 0.25 to 0.54). */
#define FIRE_WATER_MADE_KG_PER_KG 0.34
/* Carbon monoxide, kg per kg of dry fuel: 160 (90 to 250) g/kg, judgement on smouldering peat and
 * forest fires (Watson et al. 2019, looked up). The upper end is what a room has to bear without
 * somebody watching over it. */
#define FIRE_CO_KG_PER_KG 0.160
#define FIRE_CO_RICH_KG_PER_KG 0.250

#endif
