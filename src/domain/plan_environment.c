/* The fields of what is around the burn: cabinet, room, weather. */
#include "domain/field_member.h"
#include "domain/word.h"

static const Member cabinet_members[] = {
    MEMBER(PlanCabinet, stated),
    MEASURED("peak_temp", TEMPERATURE, PlanCabinet, peak_temp_c),
    MEASURED("peak_fast", TEMPERATURE, PlanCabinet, peak_fast_c),
    MEASURED("peak_away", TEMPERATURE, PlanCabinet, peak_away_c),
    MEMBER(PlanCabinet, peak_at),
    MEASURED("caution_temp", TEMPERATURE, PlanCabinet, caution_temp_c),
    MEASURED("limit_temp", TEMPERATURE, PlanCabinet, limit_temp_c),
    MEASURED("peak_power", POWER, PlanCabinet, peak_power_w),
    MEMBER(PlanCabinet, tray_too_big),
    MEMBER(PlanCabinet, tray_near_wall),
    MEASURED("wall_clear", LENGTH, PlanCabinet, wall_clear_m),
    MEASURED("tray_width", LENGTH, PlanCabinet, tray_width_m),
    MEASURED("tray_depth", LENGTH, PlanCabinet, tray_depth_m),
    MEASURED("width", LENGTH, PlanCabinet, width_m),
    MEASURED("depth", LENGTH, PlanCabinet, depth_m),
    MEASURED("peak_hot", TEMPERATURE, PlanCabinet, peak_hot_c),
    MEASURED("wall_limit", TEMPERATURE, PlanCabinet, wall_limit_c),
    MEASURED("oxygen_least", SHARE, PlanCabinet, oxygen_least),
    MEMBER(PlanCabinet, oxygen_least_at),
    MEASURED("oxygen_hot", SHARE, PlanCabinet, oxygen_hot),
    MEASURED("oxygen_tend", SHARE, PlanCabinet, oxygen_tend),
    MEASURED("oxygen_limit", SHARE, PlanCabinet, oxygen_limit),
    MEASURED("condensing_time", DURATION, PlanCabinet, condensing_s),
    MEMBER(PlanCabinet, condensing_from),
    MEASURED("vent_speed", WIND, PlanCabinet, vent_mps),
    MEMBER_AS("vent_speed_at", PlanCabinet, vent_at),
    MEASURED("vent_speed_limit", WIND, PlanCabinet, vent_limit_mps),
};

static const Member room_members[] = {
    MEMBER(PlanRoom, outdoors),
    MEASURED("peak", CONCENTRATION, PlanRoom, peak_mg_m3),
    MEASURED("peak_ppm", PPM, PlanRoom, peak_ppm),
    MEMBER(PlanRoom, peak_at),
};

static const Member window_members[] = {
    MEASURED("length", DURATION, PlanRoomWindow, length_s),
    MEASURED("mean", CONCENTRATION, PlanRoomWindow, mean_mg_m3),
    MEASURED("rich", CONCENTRATION, PlanRoomWindow, rich_mg_m3),
    MEASURED("limit", CONCENTRATION, PlanRoomWindow, limit_mg_m3),
    MEMBER(PlanRoomWindow, until),
};

static const Member weather_members[] = {
    MEASURED("temp", TEMPERATURE, PlanWeather, temp_c),
    MEASURED("humidity", HUMIDITY, PlanWeather, humidity),
    MEASURED("coldest", TEMPERATURE, PlanWeather, coldest_c),
    MEASURED("dampest", HUMIDITY, PlanWeather, dampest),
    MEASURED("wind", WIND, PlanWeather, wind_mps),
    MEASURED("windiest", WIND, PlanWeather, windiest_mps),
    MEASURED("night_fall", KELVIN, PlanWeather, night_fall_k),
    MEMBER(PlanWeather, forecast),
    MEMBER(PlanWeather, known_from),
    MEMBER(PlanWeather, known_to),
    MEMBER(PlanWeather, beyond_forecast),
    MEASURED("lead", DURATION, PlanWeather, lead_s),
    MEMBER(PlanWeather, forecast_far),
};

static void add_window(Arena *arena, FieldGroup *group, const PlanRoomWindow *window) {
    FIELD_ADD(arena, group, window_members, window);
    field_add_word(arena, group, "edition", window->edition);
}

static void add_room(Arena *arena, FieldGroup *root, const PlanRoom *room) {
    FieldGroup *group = field_group_new(arena, root, "room", 0);
    FIELD_ADD(arena, group, room_members, room);
    field_add_yes(arena, group, "indoors", room->stated && !room->outdoors);
    add_window(arena, field_group_new(arena, group, "worst", 0), &room->worst);
    for (size_t i = 0; i < room->windows.count; i++) {
        add_window(arena, field_group_new(arena, group, "window", (int)i + 1),
                   &room->windows.items[i]);
    }
}

void fields_of_environment(Arena *arena, FieldGroup *root, const Plan *plan) {
    FieldGroup *cabinet = field_group_new(arena, root, "cabinet", 0);
    const Cabinet *box = plan->batch->cabinet;
    field_add_text(arena, cabinet, "name", box ? box->name : NULL);
    field_add_vents(arena, cabinet, &plan->cabinet.inlet, &plan->cabinet.outlet);
    FIELD_ADD(arena, cabinet, cabinet_members, &plan->cabinet);
    add_room(arena, root, &plan->room);
    FIELD_ADD(arena, field_group_new(arena, root, "weather", 0), weather_members, &plan->weather);
}
