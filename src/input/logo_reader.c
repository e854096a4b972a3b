#include "input/logo_reader.h"

#include "input/svg_path.h"
#include "input/xml.h"
#include "schema/form.h"

#include <math.h>
#include <string.h>

#include "schema/rows.h"

static const char *const SVG_SPACE = "http://www.w3.org/2000/svg";

/* Points of a curve that are looked at, and how far, as a part of the page, lines may leave it. */
enum { CURVE_POINTS = 16 };
static const double EDGE_SLACK = 0.005;

/* Less black than this part of its page is a slip, such as a path that is only a line. */
static const double LEAST_BLACK = 1e-3;

/* What the rules read of a path; they only check the rest. */
typedef struct Painted {
    unsigned even_odd, stroke;
} Painted;

static const AttributeRule path_attributes[] = {
    CHECKED("d", TEXT, "the outlines", MUST, .advice = "the outlines stand in d=\"M … Z\""),
    ROW("fill-rule", WORDS("nonzero evenodd"), Painted, even_odd, "of parts that overlap",
        .usual = "nonzero"),
    CHECKED("fill", TEXT, "black"),
    ROW("stroke", WORDS("none"), Painted, stroke, "lines are not drawn", .usual = "none"),
    CHECKED("id", TEXT, "a name"),
};
static ELEMENT(path, "What is drawn.",
               .advice = "combine all that is drawn into one <path d=\"…\"/>");

static const AttributeRule svg_attributes[] = {
    CHECKED("viewBox", TEXT, "left, top, width and height of the page", MUST,
            .advice = "write viewBox=\"0 0 WIDTH HEIGHT\" of the page"),
    CHECKED("width", TEXT, "not heeded"),
    CHECKED("height", TEXT, "not heeded"),
    CHECKED("version", TEXT, "not heeded"),
    CHECKED("id", TEXT, "a name"),
};
static const ChildRule svg_children[] = {INSIDE(path, 1)};
static ELEMENT(svg, "A drawing.", CHILDREN(svg_children));

static const ElementRule *const svg_roots[] = {&svg_rule, NULL};

/* ---- Places within a value ---- */

static const char *source_text(const Diagnostics *diagnostics, const char *file) {
    for (size_t i = 0; i < diagnostics->sources.count; i++)
        if (!strcmp(diagnostics->sources.items[i].file, file))
            return diagnostics->sources.items[i].text;
    return NULL;
}

static const char *line_start(const char *text, int line) {
    for (; text && line > 1; line--) {
        text = strchr(text, '\n');
        text = text ? text + 1 : NULL;
    }
    return text;
}

/* Where a byte of a value stands in its file: as far in as in the value, since each sign of a value
 * is one of the file, until one was written as a reference. */
static Place place_in_value(const Diagnostics *diagnostics, Place value, const SvgFault *fault) {
    const char *line = line_start(source_text(diagnostics, value.file), value.line);
    if (!line || value.column < 1 || strlen(line) < (size_t)value.column)
        return value;
    Place place = value;
    const char *at = line + value.column - 1;
    for (size_t i = 0; i < fault->at; i++) {
        if (!*at || *at == '&')
            return value;
        at += at[0] == '\r' && at[1] == '\n';
        place.line += *at == '\n';
        place.column = *at == '\n' ? 1 : place.column + 1;
        at++;
    }
    place.length = (int)fault->length;
    return place;
}

static void report_fault(Form *form, const Element *element, const char *name,
                         const SvgFault *fault) {
    Place value = element_value_place(element, name);
    report_error(form->diagnostics, place_in_value(form->diagnostics, value, fault), fault->remedy,
                 "%s", fault->problem);
}

/* ---- What is drawn ---- */

static OutlinePoint on_curve(OutlinePoint from, const OutlineStep *step, double part) {
    double rest = 1 - part;
    double a = rest * rest * rest, b = 3 * rest * rest * part, c = 3 * rest * part * part,
           d = part * part * part;
    return (OutlinePoint){
        a * from.x + b * step->control[0].x + c * step->control[1].x + d * step->to.x,
        a * from.y + b * step->control[0].y + c * step->control[1].y + d * step->to.y};
}

typedef struct Extent {
    double left, top, right, bottom;
    double area; /* of all outlines, each for itself */
} Extent;

static void take_in(Extent *extent, OutlinePoint point) {
    extent->left = fmin(extent->left, point.x);
    extent->right = fmax(extent->right, point.x);
    extent->top = fmin(extent->top, point.y);
    extent->bottom = fmax(extent->bottom, point.y);
}

static double twice_area(OutlinePoint from, OutlinePoint to) {
    return from.x * to.y - to.x * from.y;
}

static Extent extent_of(const Outlines *outlines) {
    Extent extent = {INFINITY, INFINITY, -INFINITY, -INFINITY, 0};
    OutlinePoint start = {0}, now = {0};
    double twice = 0;
    for (size_t i = 0; i < outlines->count; i++) {
        const OutlineStep *step = &outlines->items[i];
        if (step->kind == OUTLINE_CLOSE) {
            extent.area += fabs(twice + twice_area(now, start)) / 2;
            now = start;
            continue;
        }
        if (step->kind == OUTLINE_MOVE) {
            start = now = step->to;
            twice = 0;
        }
        int points = step->kind == OUTLINE_CURVE ? CURVE_POINTS : 1;
        OutlinePoint last = now;
        for (int n = 1; n <= points; n++) {
            OutlinePoint to = n < points ? on_curve(now, step, (double)n / points) : step->to;
            take_in(&extent, to);
            twice += twice_area(last, to);
            last = to;
        }
        now = step->to;
    }
    return extent;
}

static void check_drawn(Form *form, const Element *path, const Logo *logo) {
    Extent extent = extent_of(&logo->outlines);
    double slack_x = logo->width * EDGE_SLACK, slack_y = logo->height * EDGE_SLACK;
    if (!(extent.area >= LEAST_BLACK * logo->width * logo->height))
        error_at_value(form, path, "d", "its outlines are filled with black: draw areas, not lines",
                       "the path draws nothing");
    else if (extent.left < -slack_x || extent.top < -slack_y ||
             extent.right > logo->width + slack_x || extent.bottom > logo->height + slack_y)
        error_at_value(form, path, "d", "fit the page (viewBox) to what is drawn",
                       "the path leaves the page of its drawing");
}

static OutlinePoint moved(OutlinePoint point, const double *box) {
    return (OutlinePoint){point.x - box[0], point.y - box[1]};
}

static void read_path(Form *form, const Element *path, const double *box, Logo *logo) {
    SvgFault fault = {0};
    const char *data = element_value(path, "d");
    if (!svg_path_read(form->arena, data, &logo->outlines, &fault)) {
        report_fault(form, path, "d", &fault);
        return;
    }
    for (size_t i = 0; i < logo->outlines.count; i++) {
        OutlineStep *step = &logo->outlines.items[i];
        step->to = moved(step->to, box);
        step->control[0] = moved(step->control[0], box);
        step->control[1] = moved(step->control[1], box);
    }
    check_drawn(form, path, logo);
}

static void check_black(Form *form, const Element *path) {
    const char *fill = element_value(path, "fill");
    static const char *const blacks[] = {"black", "#000", "#000000", "currentColor"};
    for (size_t i = 0; fill && i < sizeof blacks / sizeof *blacks; i++)
        fill = strcmp(fill, blacks[i]) == 0 ? NULL : fill;
    if (fill)
        error_at_value(form, path, "fill", "write fill=\"black\", or leave it out",
                       "a logo is printed in black");
}

/* Its four numbers; false, and reported, when they are none. */
static bool read_page(Form *form, const Element *root, double *box, Logo *logo) {
    SvgFault fault = {0};
    if (!svg_numbers_read(form->arena, element_value(root, "viewBox"), box, 4, &fault)) {
        fault.remedy = "left, top, width and height, such as viewBox=\"0 0 100 80\"";
        report_fault(form, root, "viewBox", &fault);
        return false;
    }
    logo->width = box[2];
    logo->height = box[3];
    double aspect = box[2] / box[3];
    bool good = box[2] > 0 && box[3] > 0 && aspect <= LOGO_ASPECT_MAX &&
                aspect >= 1 / LOGO_ASPECT_MAX;
    if (!good)
        error_at_value(
            form, root, "viewBox",
            arena_format(form->arena, "one side is at most %g times the other", LOGO_ASPECT_MAX),
            "a page of that shape is no logo");
    return good;
}

static void read_drawing(Form *form, const Element *root, Logo *logo) {
    const Element *path = element_child(root, "path");
    double box[4] = {0};
    Painted painted = {0};
    form_read(form, &path_rule, path, &painted);
    check_black(form, path);
    if (read_page(form, root, box, logo))
        read_path(form, path, box, logo);
    logo->nonzero = !painted.even_odd;
}

bool read_logo(Diagnostics *diagnostics, const char *path, Place named_at, Logo *logo,
               bool *could_not_open) {
    size_t before = diagnostics_errors(diagnostics, NULL);
    XmlBounds bounds = {.most_bytes = LOGO_BYTES_MAX, .space = SVG_SPACE};
    const Element *root = xml_read_within(diagnostics, path, named_at, "logo=\"FILE.svg\" names it",
                                          bounds, could_not_open);
    Form form = {.arena = diagnostics->arena, .diagnostics = diagnostics, .roots = svg_roots};
    if (root && form_check_root(&form, root) && diagnostics_errors(diagnostics, NULL) == before)
        read_drawing(&form, root, logo);
    return diagnostics_errors(diagnostics, NULL) == before;
}
