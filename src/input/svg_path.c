#include "input/svg_path.h"

#include "base/pi.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* A number with more signs is no drawing program's; one further out no drawing's (judgement). */
enum { NUMBER_SIGNS_MAX = 40, ARGUMENTS_MAX = 7 };
static const double FARTHEST = 1e6;

typedef struct Reading {
    Arena *arena;
    const char *data;
    const char *at;
    Outlines *outlines;
    SvgFault *fault;
    OutlinePoint now, start; /* of the outline */
    OutlinePoint handle;     /* the last control point, which S and T mirror */
    char before;             /* the last command, a capital; 0: none */
    bool open;               /* the outline has a move */
} Reading;

/* The numbers that follow each command. */
typedef struct PathCommand {
    char name;
    size_t count;
} PathCommand;

static const PathCommand commands[] = {{'M', 2}, {'L', 2}, {'H', 1}, {'V', 1}, {'C', 6},
                                       {'S', 4}, {'Q', 4}, {'T', 2}, {'A', 7}, {'Z', 0}};

static bool fail(Reading *reading, const char *at, size_t length, const char *remedy,
                 const char *problem) {
    *reading->fault = (SvgFault){
        .at = (size_t)(at - reading->data), .length = length, .problem = problem, .remedy = remedy};
    return false;
}

/* ---- Numbers ---- */

static void skip_blanks(Reading *reading) {
    reading->at += strspn(reading->at, " \t\r\n");
}

static void skip_comma(Reading *reading) {
    skip_blanks(reading);
    if (*reading->at == ',')
        reading->at++;
    skip_blanks(reading);
}

static size_t digits(const char *at) {
    return strspn(at, "0123456789");
}

/* How many bytes a number takes; 0: it is none. */
static size_t number_length(const char *at) {
    const char *end = at + (*at == '+' || *at == '-');
    size_t whole = digits(end);
    end += whole;
    size_t decimals = *end == '.' ? digits(end + 1) : 0;
    if (whole + decimals == 0)
        return 0;
    end += *end == '.' ? 1 + decimals : 0;
    if (*end == 'e' || *end == 'E') {
        const char *power = end + 1 + (end[1] == '+' || end[1] == '-');
        if (digits(power))
            end = power + digits(power);
    }
    return (size_t)(end - at);
}

static bool read_number(Reading *reading, double *value) {
    size_t length = number_length(reading->at);
    if (!length)
        return fail(reading, reading->at, 1, NULL,
                    *reading->at ? "a number is missing here" : "a number is missing at the end");
    char text[NUMBER_SIGNS_MAX + 1] = "";
    if (length <= NUMBER_SIGNS_MAX)
        memcpy(text, reading->at, length);
    *value = strtod(text, NULL);
    if (length > NUMBER_SIGNS_MAX || !(fabs(*value) <= FARTHEST))
        return fail(reading, reading->at, length, "numbers lie between -1000000 and 1000000",
                    "a number that no drawing has");
    reading->at += length;
    return true;
}

/* A flag is one digit, and needs nothing between it and the next number. */
static bool read_flag(Reading *reading, double *value) {
    if (*reading->at != '0' && *reading->at != '1')
        return fail(reading, reading->at, 1, "an arc has radii, a turn, two flags and a point",
                    "a flag is 0 or 1");
    *value = *reading->at++ - '0';
    return true;
}

bool svg_numbers_read(Arena *arena, const char *text, double *numbers, size_t count,
                      SvgFault *fault) {
    Reading reading = {.arena = arena, .data = text, .at = text, .fault = fault};
    skip_blanks(&reading);
    for (size_t i = 0; i < count; i++) {
        if (!read_number(&reading, &numbers[i]))
            return false;
        skip_comma(&reading);
    }
    return !*reading.at || fail(&reading, reading.at, 1, NULL, "one value too many");
}

/* ---- Steps ---- */

static void add(Reading *reading, OutlineStep step) {
    LIST_ADD(reading->arena, reading->outlines, step);
}

static void close_outline(Reading *reading) {
    if (reading->open)
        add(reading, (OutlineStep){.kind = OUTLINE_CLOSE});
    reading->open = false;
    reading->now = reading->start;
}

/* What follows a Z begins where the closed outline began. */
static void begin_outline(Reading *reading) {
    if (reading->open)
        return;
    reading->open = true;
    reading->start = reading->now;
    add(reading, (OutlineStep){.kind = OUTLINE_MOVE, .to = reading->now});
}

static void line_to(Reading *reading, OutlinePoint to) {
    begin_outline(reading);
    add(reading, (OutlineStep){.kind = OUTLINE_LINE, .to = to});
    reading->now = reading->handle = to;
}

static void curve_to(Reading *reading, OutlinePoint one, OutlinePoint two, OutlinePoint to) {
    begin_outline(reading);
    add(reading, (OutlineStep){.kind = OUTLINE_CURVE, .to = to, .control = {one, two}});
    reading->now = to;
    reading->handle = two;
}

/* The point a part of the way from one to another. */
static OutlinePoint between(OutlinePoint from, OutlinePoint to, double part) {
    return (OutlinePoint){from.x + (to.x - from.x) * part, from.y + (to.y - from.y) * part};
}

/* A quadratic curve is the cubic one with its handles two thirds of the way (exact). */
static void quadratic_to(Reading *reading, OutlinePoint handle, OutlinePoint to) {
    curve_to(reading, between(reading->now, handle, 2.0 / 3), between(to, handle, 2.0 / 3), to);
    reading->handle = handle;
}

/* The last handle mirrored at the point, after a command of the same kind; else the point. */
static OutlinePoint mirrored(const Reading *reading, const char *kinds) {
    bool follows = reading->before && strchr(kinds, reading->before);
    return follows ? between(reading->handle, reading->now, 2) : reading->now;
}

/* ---- Arcs: SVG 1.1, appendix F.6 ---- */

typedef struct Arc {
    double radius_x, radius_y, cosine, sine; /* of its turn */
    OutlinePoint centre;
    double from, sweep; /* radians */
} Arc;

static OutlinePoint on_arc(const Arc *arc, double x, double y) {
    return (OutlinePoint){arc->centre.x + arc->cosine * x - arc->sine * y,
                          arc->centre.y + arc->sine * x + arc->cosine * y};
}

/* F.6.5 and F.6.6: centre and angles from the ends; radii too short are stretched. */
static Arc arc_between(OutlinePoint from, OutlinePoint to, const double *given) {
    double turn = given[2] * PI / 180;
    Arc arc = {.radius_x = fabs(given[0]),
               .radius_y = fabs(given[1]),
               .cosine = cos(turn),
               .sine = sin(turn)};
    double half_x = (from.x - to.x) / 2, half_y = (from.y - to.y) / 2;
    double x = arc.cosine * half_x + arc.sine * half_y;
    double y = arc.cosine * half_y - arc.sine * half_x;
    double reach = x * x / (arc.radius_x * arc.radius_x) + y * y / (arc.radius_y * arc.radius_y);
    double stretch = sqrt(fmax(reach, 1));
    arc.radius_x *= stretch;
    arc.radius_y *= stretch;
    double off = sqrt(fmax(1 / reach - 1, 0));
    bool large = given[3] > 0, clockwise = given[4] > 0;
    off = large == clockwise ? -off : off;
    double centre_x = off * arc.radius_x * y / arc.radius_y;
    double centre_y = -off * arc.radius_y * x / arc.radius_x;
    arc.centre = between(from, to, 0.5);
    arc.centre = on_arc(&arc, centre_x, centre_y);
    arc.from = atan2((y - centre_y) / arc.radius_y, (x - centre_x) / arc.radius_x);
    double end = atan2((-y - centre_y) / arc.radius_y, (-x - centre_x) / arc.radius_x);
    arc.sweep = end - arc.from;
    if (clockwise && arc.sweep < 0)
        arc.sweep += 2 * PI;
    if (!clockwise && arc.sweep > 0)
        arc.sweep -= 2 * PI;
    return arc;
}

/* The point at an angle, or where the handle ends that is `along` its tangent. */
static OutlinePoint arc_point(const Arc *arc, double angle, double along) {
    return on_arc(arc, arc->radius_x * (cos(angle) - along * sin(angle)),
                  arc->radius_y * (sin(angle) + along * cos(angle)));
}

/* Pieces of at most a quarter turn, whose curves stay within 0.03 % of the radius. */
static void arc_to(Reading *reading, const double *given, OutlinePoint to) {
    bool same = reading->now.x == to.x && reading->now.y == to.y;
    if (same)
        return; /* F.6.2: left out */
    if (!(fabs(given[0]) > 0 && fabs(given[1]) > 0)) {
        line_to(reading, to);
        return;
    }
    Arc arc = arc_between(reading->now, to, given);
    int pieces = (int)fmax(ceil(fabs(arc.sweep) / (PI / 2) - 1e-9), 1);
    double piece = arc.sweep / pieces, along = 4.0 / 3 * tan(piece / 4);
    for (int i = 0; i < pieces; i++) {
        double from = arc.from + piece * i, end = from + piece;
        curve_to(reading, arc_point(&arc, from, along), arc_point(&arc, end, -along),
                 i + 1 < pieces ? arc_point(&arc, end, 0) : to);
    }
    reading->handle = to;
}

/* ---- Commands ---- */

static void move_to(Reading *reading, OutlinePoint to) {
    close_outline(reading);
    reading->now = reading->handle = to;
    begin_outline(reading);
}

/* The numbers of a command that are points, from the last point on when they are relative. */
static void make_absolute(const Reading *reading, char name, double *given, size_t count) {
    for (size_t i = name == 'A' ? 5 : 0; i < count; i++) {
        bool down = name == 'V' || (name == 'A' ? i == 6 : i % 2 == 1);
        given[i] += down ? reading->now.y : reading->now.x;
    }
}

static OutlinePoint point(const double *given) {
    return (OutlinePoint){given[0], given[1]};
}

static void draw(Reading *reading, char name, const double *given) {
    switch (name) {
    case 'M': move_to(reading, point(given)); break;
    case 'L': line_to(reading, point(given)); break;
    case 'H': line_to(reading, (OutlinePoint){given[0], reading->now.y}); break;
    case 'V': line_to(reading, (OutlinePoint){reading->now.x, given[0]}); break;
    case 'C': curve_to(reading, point(given), point(given + 2), point(given + 4)); break;
    case 'S': curve_to(reading, mirrored(reading, "CS"), point(given), point(given + 2)); break;
    case 'Q': quadratic_to(reading, point(given), point(given + 2)); break;
    case 'T': quadratic_to(reading, mirrored(reading, "QT"), point(given)); break;
    case 'A': arc_to(reading, given, point(given + 5)); break;
    default: close_outline(reading); break;
    }
    reading->before = name;
}

static bool read_arguments(Reading *reading, char name, double *given, size_t count) {
    for (size_t i = 0; i < count; i++) {
        bool flag = name == 'A' && (i == 3 || i == 4);
        if (!(flag ? read_flag(reading, &given[i]) : read_number(reading, &given[i])))
            return false;
        skip_comma(reading);
    }
    return true;
}

/* One command with its numbers; a further lot of numbers repeats it, that of a move as lines. */
static bool read_command(Reading *reading, const PathCommand *command, bool relative) {
    char name = command->name;
    do {
        const char *from = reading->at;
        double given[ARGUMENTS_MAX] = {0};
        if (!read_arguments(reading, name, given, command->count))
            return false;
        if (relative)
            make_absolute(reading, name, given, command->count);
        for (size_t i = 0; i < command->count; i++)
            if (!(fabs(given[i]) <= FARTHEST))
                return fail(reading, from, 1, NULL, "the path goes out of all bounds");
        draw(reading, name, given);
        if (reading->outlines->count > SVG_STEPS_MAX)
            return fail(
                reading, from, 1, "simplify the path",
                arena_format(reading->arena, "a path of more than %d steps", SVG_STEPS_MAX));
        name = name == 'M' ? 'L' : name;
    } while (command->count && number_length(reading->at));
    return true;
}

static const PathCommand *find_command(char letter) {
    char capital = letter >= 'a' && letter <= 'z' ? (char)(letter - 'a' + 'A') : letter;
    for (size_t i = 0; i < sizeof commands / sizeof *commands; i++)
        if (commands[i].name == capital)
            return &commands[i];
    return NULL;
}

bool svg_path_read(Arena *arena, const char *data, Outlines *outlines, SvgFault *fault) {
    Reading reading = {
        .arena = arena, .data = data, .at = data, .outlines = outlines, .fault = fault};
    *outlines = (Outlines){0};
    for (skip_blanks(&reading); *reading.at; skip_blanks(&reading)) {
        const PathCommand *command = find_command(*reading.at);
        if (!command)
            return fail(&reading, reading.at, 1, "the commands are M L H V C S Q T A Z",
                        "no command of a path");
        if (!reading.before && command->name != 'M')
            return fail(&reading, reading.at, 1, NULL, "a path begins with M");
        bool relative = *reading.at++ >= 'a';
        skip_blanks(&reading);
        if (!read_command(&reading, command, relative))
            return false;
    }
    close_outline(&reading);
    return true;
}
