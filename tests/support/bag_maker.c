#include "support/bag_maker.h"

#include "input/xml.h"
#include "support/language.h"
#include "support/marks.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static void stop(const char *what) {
    fprintf(stderr, "error: %s\n", what);
    exit(1);
}

static const Element *read_xml(BagMaker *maker, const char *path) {
    const Element *root = xml_read(&maker->diagnostics, path, NULL);
    if (!root)
        stop(path);
    return root;
}

static const Pattern *read_pattern(BagMaker *maker, const char *name, const char *paper) {
    const Element *root = read_xml(maker, arena_format(maker->arena, "templates/%s.xml", name));
    return pattern_read(maker->arena, root, paper, maker->request.faces, &maker->diagnostics);
}

static void read_request(BagMaker *maker) {
    const char *error = NULL;
    LabelRequest *request = &maker->request;
    const Element *stock = read_xml(maker, "templates/stock.xml");
    request->stocks = stock_read(maker->arena, stock, &maker->diagnostics);
    request->faces = faces_load(maker->arena, "fonts", &error);
    if (request->faces)
        request->patterns = (LabelPatterns){read_pattern(maker, "label", "label"),
                                            read_pattern(maker, "label-front", "label_front"),
                                            read_pattern(maker, "label-second", "label_second")};
    diagnostics_print(&maker->diagnostics, stderr);
    const LabelPatterns *patterns = &request->patterns;
    if (!request->stocks || !request->faces || !patterns->whole || !patterns->front ||
        !patterns->second)
        stop(error ? error : "faults in templates/");
}

static void make_workshop(BagMaker *maker) {
    Workshop *workshop = ARENA_NEW(maker->arena, Workshop);
    workshop->name = "Toad Ditch Smokehouse";
    workshop->zone = maker->locale.zone;
    workshop->maker.name = "Toad Ditch Smokehouse";
    workshop->maker.contact = "post@toadditch.example";
    LIST_ADD(maker->arena, &workshop->maker.address, "2 Toad Ditch");
    LIST_ADD(maker->arena, &workshop->maker.address, "Kilbrannock");
    workshop->scale.resolution_kg = 0.001;
    maker->workshop = workshop;
}

BagMaker *bag_maker(const char *language) {
    Arena *arena = arena_new();
    BagMaker *maker = ARENA_NEW(arena, BagMaker);
    maker->arena = arena;
    maker->diagnostics = diagnostics_new(arena);
    maker->locale = language_locale(arena, language, UNITS_METRIC);
    make_workshop(maker);
    maker->batch = ARENA_NEW(arena, Batch);
    maker->batch->workshop = maker->workshop;
    maker->batch->name = "Cheese overnight";
    maker->batch->file = "cheese-overnight.xml";
    maker->batch->blend.name = "Beech and cherry";
    maker->plan = ARENA_NEW(arena, Plan);
    maker->plan->batch = maker->batch;
    maker->plan->workshop = maker->workshop;
    maker->plan->lot = "L26338-7V";
    read_request(maker);
    maker->document = document_new(arena, "Labels", language);
    return maker;
}

void bag_maker_free(BagMaker *maker) {
    arena_free(maker->arena);
}

/* Directive 76/211/EEC, annex I 3.1; 6 mm from 1 kg up also satisfies the United Kingdom. */
static double figure_height_m(double net_kg) {
    return net_kg <= 0.05 ? 0.002 : net_kg <= 0.2 ? 0.003 : net_kg < 1 ? 0.004 : 0.006;
}

void bag_maker_grains(PlanBag *bag, double from_m, double to_m) {
    bag->grain_from_m = from_m;
    bag->grain_to_m = to_m;
    bag->grain_drawable = true;
    for (int i = 0; i < MIDDLE_SIZES; i++)
        bag->grain_sizes_m[i] = from_m * pow(to_m / from_m, (double)i / (MIDDLE_SIZES - 1));
}

PlanBag *bag_maker_add(BagMaker *maker, const char *stock, double net_kg, int count, int first) {
    BagOrder *order = ARENA_NEW(maker->arena, BagOrder);
    *order = (BagOrder){.place = {.file = "cheese-overnight.xml", .line = 14, .column = 3},
                        .net_kg = net_kg,
                        .count = count,
                        .stock = stock,
                        .first = first};
    PlanBag bag = {.order = order,
                   .net_kg = net_kg,
                   .count = count,
                   .figure_height_m = figure_height_m(net_kg),
                   .moisture = 0.0865,
                   .basis = BASIS_DRY,
                   .measured = {2026, 11, 19},
                   .packed = {2026, 12, 4},
                   .untreated = true,
                   .dry_to = NOT_STATED,
                   .oven_c = NOT_STATED,
                   .look_after_s = NOT_STATED,
                   .tray_channel_m = NOT_STATED,
                   .burns_from_s = NOT_STATED,
                   .burns_to_s = NOT_STATED};
    bag_maker_grains(&bag, 310e-6, 1.1e-3);
    LIST_ADD(maker->arena, &bag.parts,
             ((BagPart){.name = "beech", .species = "species.beech", .share = 0.7}));
    LIST_ADD(maker->arena, &bag.parts,
             ((BagPart){.name = "cherry", .species = "species.cherry", .share = 0.3}));
    LIST_ADD(maker->arena, &maker->plan->bags, bag);
    return &maker->plan->bags.items[maker->plan->bags.count - 1];
}

bool bag_maker_lay_out(BagMaker *maker) {
    maker->request.plan = maker->plan;
    maker->request.fields = plan_fields(maker->arena, maker->plan);
    maker->request.locale = &maker->locale;
    return labels_lay_out(maker->arena, &maker->request, maker->document, &maker->diagnostics);
}

const char *bag_maker_reports(BagMaker *maker) {
    Text text = text_new(maker->arena);
    diagnostics_add_to(&maker->diagnostics, &text);
    return text.bytes;
}

Box bag_maker_ink(BagMaker *maker, const Mark *mark) {
    Box box = mark_box(mark, maker->request.faces);
    if (mark->kind != MARK_TEXT)
        return box;
    const Face *face = maker->request.faces->faces[mark->as.text.face];
    double capitals_mm = face_cap_height_mm(face, mark->as.text.size_pt);
    double below_mm = type_descent_mm(face, mark->as.text.size_pt) * 0.5;
    return (Box){box.x_mm, mark->as.text.baseline.y_mm - capitals_mm, box.width_mm,
                 capitals_mm + below_mm};
}

bool boxes_apart(Box one, Box other) {
    return one.x_mm + one.width_mm <= other.x_mm + 0.001 ||
           other.x_mm + other.width_mm <= one.x_mm + 0.001 ||
           one.y_mm + one.height_mm <= other.y_mm + 0.001 ||
           other.y_mm + other.height_mm <= one.y_mm + 0.001;
}
