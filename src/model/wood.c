#include "model/wood.h"

#include "model/air.h"
#include "model/bounds.h"
#include "model/name_words.h"

#include <math.h>

#define SOLID_SHARE_LOOSE 0.40 /* Briggs table 7-1: 2.50 m³ sawdust per m³ solid, looked up */
#define WATER_DENSITY 1000.0   /* kg/m³ */
#define GRAVITY_MIN 0.05       /* lighter or heavier than any wood */
#define GRAVITY_MAX 1.3
#define POROSITY_MIN 0.05
#define POROSITY_MAX 0.98

/* Basic gravity: USDA Wood Handbook, hardwood table, where looked up; European woods and fruit
 * woods from memory. Steadiness: common practice, no source. */
static const Wood woods[] = {
    {"beech", "european beech", "Fagus sylvatica", false, 0.58, WOOD_ROUGH, 1.00},
    {"american beech", "", "Fagus grandifolia", false, 0.56, WOOD_FROM_MEMORY, 1.00},
    {"alder", "common alder", "Alnus glutinosa", false, 0.44, WOOD_ROUGH, 0.97},
    {"red alder", "", "Alnus rubra", false, 0.37, WOOD_LOOKED_UP, 0.97},
    {"ash", "european ash", "Fraxinus excelsior", false, 0.56, WOOD_ROUGH, 0.97},
    {"white ash", "", "Fraxinus americana", false, 0.55, WOOD_FROM_MEMORY, 0.97},
    {"maple", "sugar maple", "Acer saccharum", false, 0.56, WOOD_FROM_MEMORY, 0.97},
    {"red maple", "", "Acer rubrum", false, 0.49, WOOD_FROM_MEMORY, 0.97},
    {"birch", "yellow birch", "Betula alleghaniensis", false, 0.55, WOOD_FROM_MEMORY, 0.95},
    {"paper birch", "", "Betula papyrifera", false, 0.48, WOOD_FROM_MEMORY, 0.95},
    {"hickory", "shagbark hickory", "Carya ovata", false, 0.64, WOOD_FROM_MEMORY, 0.95},
    {"pecan", "pecan hickory", "Carya illinoinensis", false, 0.60, WOOD_FROM_MEMORY, 0.95},
    {"walnut", "black walnut", "Juglans nigra", false, 0.51, WOOD_FROM_MEMORY, 0.92},
    {"oak", "european oak", "Quercus robur/petraea", false, 0.56, WOOD_ROUGH, 0.92},
    {"white oak", "", "Quercus alba", false, 0.60, WOOD_FROM_MEMORY, 0.92},
    {"red oak", "northern red oak", "Quercus rubra", false, 0.56, WOOD_FROM_MEMORY, 0.92},
    {"chestnut", "sweet chestnut", "Castanea sativa", false, 0.45, WOOD_ROUGH, 0.90},
    {"american chestnut", "", "Castanea dentata", false, 0.40, WOOD_FROM_MEMORY, 0.90},
    {"pear", "", "Pyrus communis", false, 0.60, WOOD_ROUGH, 0.88},
    {"cherry", "black cherry", "Prunus serotina", false, 0.47, WOOD_FROM_MEMORY, 0.88},
    {"apple", "", "Malus domestica", false, 0.61, WOOD_ROUGH, 0.87},
    {"plum", "", "Prunus domestica", false, 0.64, WOOD_ROUGH, 0.85},
    {"hornbeam", "european hornbeam", "Carpinus betulus", false, 0.63, WOOD_ROUGH, 0.95},
    {"hazel", "common hazel", "Corylus avellana", false, 0.50, WOOD_ROUGH, 0.92},
    {"lime", "linden", "Tilia cordata", false, 0.43, WOOD_ROUGH, 0.92},
    {"basswood", "american basswood", "Tilia americana", false, 0.32, WOOD_FROM_MEMORY, 0.92},
    {"poplar", "aspen", "Populus tremula", false, 0.37, WOOD_ROUGH, 0.92},
    {"willow", "white willow", "Salix alba", false, 0.36, WOOD_ROUGH, 0.90},
    {"mesquite", "honey mesquite", "Prosopis glandulosa", false, 0.70, WOOD_ROUGH, 0.90},
    {"mulberry", "white mulberry", "Morus alba", false, 0.58, WOOD_ROUGH, 0.90},
    {"rowan", "mountain ash", "Sorbus aucuparia", false, 0.58, WOOD_ROUGH, 0.90},
    {"vine", "grapevine", "Vitis vinifera", false, 0.50, WOOD_ROUGH, 0.85},
    {"olive", "", "Olea europaea", false, 0.72, WOOD_ROUGH, 0.85},
    {"peach", "", "Prunus persica", false, 0.60, WOOD_ROUGH, 0.85},
    {"apricot", "", "Prunus armeniaca", false, 0.62, WOOD_ROUGH, 0.85},
    {"almond", "", "Prunus dulcis", false, 0.64, WOOD_ROUGH, 0.85},
    {"quince", "", "Cydonia oblonga", false, 0.62, WOOD_ROUGH, 0.85},
    {"orange", "orange tree", "Citrus sinensis", false, 0.65, WOOD_ROUGH, 0.85},
    {"lemon", "lemon tree", "Citrus limon", false, 0.65, WOOD_ROUGH, 0.85},
    {"juniper", "", "Juniperus communis", false, 0.48, WOOD_ROUGH, 0.85},
    {"spruce", "norway spruce", "Picea abies", false, 0.37, WOOD_ROUGH, 0.85},
    {"pine", "scots pine", "Pinus sylvestris", false, 0.42, WOOD_ROUGH, 0.85},
    {"fir", "silver fir", "Abies alba", false, 0.37, WOOD_ROUGH, 0.85},
    {"heather", "", "Calluna vulgaris", true, 0.40, WOOD_ROUGH, 0.75},
    {"rosemary", "", "Salvia rosmarinus", true, 0.35, WOOD_ROUGH, 0.72},
    {"thyme", "", "Thymus vulgaris", true, 0.35, WOOD_ROUGH, 0.72},
    {"sage", "", "Salvia officinalis", true, 0.35, WOOD_ROUGH, 0.70},
    {"bay", "bay leaf", "Laurus nobilis", true, 0.35, WOOD_ROUGH, 0.70},
    {"lavender", "", "Lavandula angustifolia", true, 0.35, WOOD_ROUGH, 0.72},
    {"hay", "", "", true, 0.30, WOOD_ROUGH, 0.75},
    {"tea", "", "Camellia sinensis", true, 0.35, WOOD_ROUGH, 0.70},
};

/* The same in German and Polish: the languages that the pages speak. */
static const struct {
    const char *said;
    const char *name;
} other_words[] = {
    {"Buchen", "beech"},
    {"Erlen", "alder"},
    {"Eschen", "ash"},
    {"Birken", "birch"},
    {"Eichen", "oak"},
    {"Birn", "pear"},
    {"Kirsch", "cherry"},
    {"Pflaumen", "plum"},
    {"Linden", "lime"},
    {"Weiden", "willow"},
    {"Buche", "beech"},
    {"Rotbuche", "beech"},
    {"buk", "beech"},
    {"Erle", "alder"},
    {"olcha", "alder"},
    {"olsza", "alder"},
    {"Esche", "ash"},
    {"jesion", "ash"},
    {"Ahorn", "maple"},
    {"klon", "maple"},
    {"Birke", "birch"},
    {"brzoza", "birch"},
    {"Walnuss", "walnut"},
    {"Nussbaum", "walnut"},
    {"orzech", "walnut"},
    {"Eiche", "oak"},
    {"dąb", "oak"},
    {"Esskastanie", "chestnut"},
    {"Edelkastanie", "chestnut"},
    {"kasztan jadalny", "chestnut"},
    {"Birne", "pear"},
    {"Birnbaum", "pear"},
    {"grusza", "pear"},
    {"Kirsche", "cherry"},
    {"Kirschbaum", "cherry"},
    {"wiśnia", "cherry"},
    {"czereśnia", "cherry"},
    {"Apfel", "apple"},
    {"Apfelbaum", "apple"},
    {"jabłoń", "apple"},
    {"Pflaume", "plum"},
    {"Zwetschge", "plum"},
    {"śliwa", "plum"},
    {"Śliwa", "plum"},
    {"Wacholder", "juniper"},
    {"jałowiec", "juniper"},
    {"Heidekraut", "heather"},
    {"wrzos", "heather"},
    {"Rosmarin", "rosemary"},
    {"rozmaryn", "rosemary"},
    {"Thymian", "thyme"},
    {"tymianek", "thyme"},
    {"Salbei", "sage"},
    {"szałwia", "sage"},
    {"Lorbeer", "bay"},
    {"laur", "bay"},
    {"liść laurowy", "bay"},
    {"Lavendel", "lavender"},
    {"lawenda", "lavender"},
    {"Heu", "hay"},
    {"siano", "hay"},
    {"Tee", "tea"},
    {"herbata", "tea"},
    {"Hainbuche", "hornbeam"},
    {"grab", "hornbeam"},
    {"Hasel", "hazel"},
    {"leszczyna", "hazel"},
    {"Linde", "lime"},
    {"lipa", "lime"},
    {"Pappel", "poplar"},
    {"topola", "poplar"},
    {"Weide", "willow"},
    {"wierzba", "willow"},
    {"Fichte", "spruce"},
    {"świerk", "spruce"},
    {"Świerk", "spruce"},
    {"Kiefer", "pine"},
    {"sosna", "pine"},
    {"Tanne", "fir"},
    {"jodła", "fir"},
};

/* The middle of the hardwoods, and of dried leaves; a sulky one until shown otherwise. */
static const Wood unknown_wood = {"unknown wood", "", "", false, 0.55, WOOD_ROUGH, 0.88};
static const Wood unknown_herb = {"unknown herb", "", "", true, 0.35, WOOD_ROUGH, 0.70};

/* Constants of the sorption equation at a temperature, Simpson 1998: W in kg/kmol, rest pure. */
typedef struct Sorption {
    double w;
    double k;
    double k1;
    double k2;
} Sorption;

static Sorption sorption_at(double temp_c) {
    double t = clamp(temp_c, WOOD_TEMP_MIN_C, WOOD_TEMP_MAX_C);
    return (Sorption){.w = 349 + 1.29 * t + 0.0135 * t * t,
                      .k = 0.805 + 0.000736 * t - 0.00000273 * t * t,
                      .k1 = 6.27 - 0.00938 * t - 0.000303 * t * t,
                      .k2 = 1.91 + 0.0407 * t - 0.000293 * t * t};
}

double wood_equilibrium_moisture(double temp_c, double humidity) {
    Sorption s = sorption_at(temp_c);
    double x = s.k * clamp(humidity, 0, 1);
    double bound = s.k1 * x + 2 * s.k1 * s.k2 * x * x;
    double sites = 1 + s.k1 * x + s.k1 * s.k2 * x * x;
    return 18 / s.w * (x / (1 - x) + bound / sites);
}

double wood_equilibrium_slope(double temp_c, double humidity) {
    Sorption s = sorption_at(temp_c);
    double x = s.k * clamp(humidity, 0, 1);
    double bound = s.k1 * x + 2 * s.k1 * s.k2 * x * x;
    double bound_slope = s.k1 + 4 * s.k1 * s.k2 * x;
    double sites = 1 + s.k1 * x + s.k1 * s.k2 * x * x;
    double sites_slope = s.k1 + 2 * s.k1 * s.k2 * x;
    double dissolved = 1 / ((1 - x) * (1 - x));
    double hydrate = (bound_slope * sites - bound * sites_slope) / (sites * sites);
    return 18 / s.w * s.k * (dissolved + hydrate);
}

double wood_particle_density_kg_m3(double basic_gravity) {
    return clamp(basic_gravity, GRAVITY_MIN, GRAVITY_MAX) * WATER_DENSITY;
}

double wood_loose_density_kg_m3(double basic_gravity) {
    return SOLID_SHARE_LOOSE * wood_particle_density_kg_m3(basic_gravity);
}

double wood_porosity(double bulk_dry_kg_m3, double particle_kg_m3) {
    double solid = fmax(bulk_dry_kg_m3, 0) / fmax(particle_kg_m3, 1);
    return clamp(1 - solid, POROSITY_MIN, POROSITY_MAX);
}

static bool called(const Wood *wood, const char *name) {
    return name_is(name, wood->name) || name_is(name, wood->other_name) ||
           name_is(name, wood->latin);
}

/* A word of another language as the table calls it. */
static const char *in_english(const char *name) {
    for (size_t row = 0; row < sizeof other_words / sizeof *other_words; row++)
        if (name_is(name, other_words[row].said))
            return other_words[row].name;
    return name;
}

const Wood *wood_find(const char *name) {
    name = in_english(name);
    for (size_t row = 0; row < wood_count(); row++)
        if (called(&woods[row], name))
            return &woods[row];
    return NULL;
}

const Wood *wood_unknown(bool herb) {
    return herb ? &unknown_herb : &unknown_wood;
}

size_t wood_count(void) {
    return sizeof woods / sizeof *woods;
}

const Wood *wood_at(size_t row) {
    return row < wood_count() ? &woods[row] : NULL;
}
