// Names of months (as they stand behind a day's number) and weekdays, short and long, by the
// Unicode Common Locale Data Repository, as Node.js has them.
"use strict";
function part(language, date, type, options) {
    const format = new Intl.DateTimeFormat(language, {timeZone: "UTC", ...options});
    return format.formatToParts(date).find((found) => found.type === type).value;
}

console.log("# Names of months behind a day's number and of weekdays from Monday.");
console.log(`# Made with Intl.DateTimeFormat of Node.js ${process.version}, CLDR ${process.versions.cldr}.`);
console.log("language,kind,number,short,long");
for (const language of ["en", "de", "pl"]) {
    for (let i = 0; i < 12; i++) {
        const date = new Date(Date.UTC(2026, i, 15));
        console.log([language, "month", i + 1,
                     part(language, date, "month", {day: "numeric", month: "short"}),
                     part(language, date, "month", {day: "numeric", month: "long"})].join(","));
    }
    for (let i = 0; i < 7; i++) {
        const date = new Date(Date.UTC(2026, 10, 30 + i));
        console.log([language, "weekday", i + 1,
                     part(language, date, "weekday", {weekday: "short"}),
                     part(language, date, "weekday", {weekday: "long"})].join(","));
    }
}
