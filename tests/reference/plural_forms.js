// Cardinal plural forms by the Unicode Common Locale Data Repository, as Node.js has them.
"use strict";
const letters = {one: "o", few: "f", many: "m", other: "x"};
const languages = [["germanic", "en"], ["germanic", "de"], ["polish", "pl"],
                   ["east-slavic", "ru"], ["czech", "cs"], ["french", "fr"]];

function forms(language, count, divisor, options) {
    const rules = new Intl.PluralRules(language, options);
    return Array.from({length: count}, (_, i) => letters[rules.select(i / divisor)]).join("");
}

console.log("# Cardinal plural forms of 0…220, a letter each (o one, f few, m many, x other), and " +
            "of 0.0…9.9.");
console.log(`# Made with Intl.PluralRules of Node.js ${process.version}, CLDR ${process.versions.cldr}.`);
console.log("rule,language,whole,tenths");
for (const [rule, language] of languages)
    console.log([rule, language, forms(language, 221, 1, {}),
                 forms(language, 100, 10, {minimumFractionDigits: 1})].join(","));
