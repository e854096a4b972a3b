// Moist air from psychrolib (npm), after ASHRAE Handbook—Fundamentals 2017, chapter 1, given the
// temperature, the vapour pressure and the total pressure. Its dew point is the frost point below
// the triple point. Usage: node moist_air.js path/to/psychrolib.js
"use strict";
const psychrolib = require(require("path").resolve(process.argv[2]));
psychrolib.SetUnitSystem(psychrolib.SI);

const column = (value) => Number(value.toPrecision(10)).toString();
console.log("# Moist air; made by tests/reference/remake with psychrolib 1.1.1 (npm).");
console.log("temp_c,pressure_pa,vapour_pa,humidity_ratio,density_kg_m3,enthalpy_j_per_kg," +
            "dew_or_frost_c,saturation_pa");
for (const altitude_m of [0, 1500]) {
    const pressure = psychrolib.GetStandardAtmPressure(altitude_m);
    for (let temp = -30; temp <= 80; temp += 10) {
        const saturation = psychrolib.GetSatVapPres(temp);
        for (const share of [0.1, 0.5, 0.9]) {
            const vapour = share * saturation;
            const ratio = psychrolib.GetHumRatioFromVapPres(vapour, pressure);
            console.log([temp, pressure, vapour, ratio,
                         psychrolib.GetMoistAirDensity(temp, ratio, pressure),
                         psychrolib.GetMoistAirEnthalpy(temp, ratio),
                         psychrolib.GetTDewPointFromVapPres(temp, vapour),
                         saturation].map(column).join(","));
        }
    }
}
