/* The fields of the burn and what it does: burn, cabinet, room, weather, samples. */
#include "domain/field_member.h"
#include "domain/word.h"

static const Member burn_members[] = {
    {"light_at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanBurn, light_at)},
    {"out_at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanBurn, out_at)},
    {"out_about", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanBurn, out_about)},
    {"out_early", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanBurn, out_early)},
    {"out_late", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanBurn, out_late)},
    {"duration", MEMBER_NUMBER, QUANTITY_DURATION, offsetof(PlanBurn, duration_s)},
    {"smoking_time", MEMBER_NUMBER, QUANTITY_DURATION, offsetof(PlanBurn, smoking_s)},
    {"speed", MEMBER_NUMBER, QUANTITY_SPEED, offsetof(PlanBurn, speed_mps)},
    {"fuel_rate", MEMBER_NUMBER, QUANTITY_RATE, offsetof(PlanBurn, fuel_kg_per_h)},
    {"speed_factor", MEMBER_NUMBER, QUANTITY_RATIO, offsetof(PlanBurn, speed_factor)},
    {"log_spread", MEMBER_NUMBER, QUANTITY_RATIO, offsetof(PlanBurn, log_spread)},
    {"trials", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(PlanBurn, trials)},
    {"records", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(PlanBurn, records)},
    {"margin_at_start", MEMBER_NUMBER, QUANTITY_RATIO, offsetof(PlanBurn, margin_at_start)},
    {"margin_least", MEMBER_NUMBER, QUANTITY_RATIO, offsetof(PlanBurn, margin_least)},
    {"margin_least_at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanBurn, margin_least_at)},
    {"margin_least_fill", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(PlanBurn, margin_least_fill)},
    {"dies", MEMBER_YES, QUANTITY_NONE, offsetof(PlanBurn, dies)},
    {"dies_at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanBurn, dies_at)},
    {"untended_from", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanBurn, untended_from)},
    {"untended_to", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanBurn, untended_to)},
    {"untended_out", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(PlanBurn, untended_out)},
    {"alone_from", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanBurn, alone_from)},
    {"alone_to", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanBurn, alone_to)},
    {"first_look_in_at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanBurn, first_look_in_at)},
    {"wanted", MEMBER_NUMBER, QUANTITY_DURATION, offsetof(PlanBurn, wanted_s)},
    {"thinnest", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanBurn, thinnest_m)},
    {"slowest", MEMBER_NUMBER, QUANTITY_SPEED, offsetof(PlanBurn, slowest_mps)},
    {"fastest", MEMBER_NUMBER, QUANTITY_SPEED, offsetof(PlanBurn, fastest_mps)},
    {"least_layer", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanBurn, least_layer_m)},
    {"front_from", MEMBER_NUMBER, QUANTITY_SPEED, offsetof(PlanBurn, front_from_mps)},
    {"front_to", MEMBER_NUMBER, QUANTITY_SPEED, offsetof(PlanBurn, front_to_mps)},
    {"dry_burnt", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanBurn, dry_burnt_kg)},
    {"heat_released", MEMBER_NUMBER, QUANTITY_ENERGY, offsetof(PlanBurn, heat_released_j)},
    {"margin_good", MEMBER_NUMBER, QUANTITY_RATIO, offsetof(PlanBurn, margin_good)},
    {"margin_tend", MEMBER_NUMBER, QUANTITY_RATIO, offsetof(PlanBurn, margin_tend)},
    {"chance", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(PlanBurn, chance)},
    {"chance_good", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(PlanBurn, chance_good)},
    {"chance_tend", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(PlanBurn, chance_tend)},
    {"chance_said_in", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(PlanBurn, chance_said_in)},
    {"chance_said_of", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(PlanBurn, chance_said_of)},
    {"nights", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(PlanBurn, nights)},
    {"nights_lasted", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(PlanBurn, nights_lasted)},
    {"likely_out_at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanBurn, likely_out_at)},
    {"likely_out_fill", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(PlanBurn, likely_out_fill)},
    {"likely_out_lane", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(PlanBurn, likely_out_lane)},
    {"likely_out_along", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanBurn, likely_out_along_m)},
};

static const Member cabinet_members[] = {
    {"stated", MEMBER_YES, QUANTITY_NONE, offsetof(PlanCabinet, stated)},
    {"peak_temp", MEMBER_NUMBER, QUANTITY_TEMPERATURE, offsetof(PlanCabinet, peak_temp_c)},
    {"peak_fast", MEMBER_NUMBER, QUANTITY_TEMPERATURE, offsetof(PlanCabinet, peak_fast_c)},
    {"peak_away", MEMBER_NUMBER, QUANTITY_TEMPERATURE, offsetof(PlanCabinet, peak_away_c)},
    {"peak_at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanCabinet, peak_at)},
    {"caution_temp", MEMBER_NUMBER, QUANTITY_TEMPERATURE, offsetof(PlanCabinet, caution_temp_c)},
    {"limit_temp", MEMBER_NUMBER, QUANTITY_TEMPERATURE, offsetof(PlanCabinet, limit_temp_c)},
    {"peak_power", MEMBER_NUMBER, QUANTITY_POWER, offsetof(PlanCabinet, peak_power_w)},
    {"mean_humidity", MEMBER_NUMBER, QUANTITY_HUMIDITY, offsetof(PlanCabinet, mean_humidity)},
    {"vent_flow", MEMBER_NUMBER, QUANTITY_FLOW, offsetof(PlanCabinet, vent_m3_per_h)},
    {"over_caution", MEMBER_YES, QUANTITY_NONE, offsetof(PlanCabinet, over_caution)},
    {"over_limit", MEMBER_YES, QUANTITY_NONE, offsetof(PlanCabinet, over_limit)},
    {"over_away", MEMBER_YES, QUANTITY_NONE, offsetof(PlanCabinet, over_away)},
    {"tray_too_big", MEMBER_TEXT, QUANTITY_NONE, offsetof(PlanCabinet, tray_too_big)},
    {"tray_near_wall", MEMBER_TEXT, QUANTITY_NONE, offsetof(PlanCabinet, tray_near_wall)},
    {"wall_clear", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanCabinet, wall_clear_m)},
    {"tray_width", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanCabinet, tray_width_m)},
    {"tray_depth", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanCabinet, tray_depth_m)},
    {"width", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanCabinet, width_m)},
    {"depth", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanCabinet, depth_m)},
    {"peak_hot", MEMBER_NUMBER, QUANTITY_TEMPERATURE, offsetof(PlanCabinet, peak_hot_c)},
    {"wall_limit", MEMBER_NUMBER, QUANTITY_TEMPERATURE, offsetof(PlanCabinet, wall_limit_c)},
    {"walls_burn", MEMBER_YES, QUANTITY_NONE, offsetof(PlanCabinet, walls_burn)},
    {"over_wall", MEMBER_YES, QUANTITY_NONE, offsetof(PlanCabinet, over_wall)},
    {"oxygen_least", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(PlanCabinet, oxygen_least)},
    {"oxygen_least_at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanCabinet, oxygen_least_at)},
    {"oxygen_hot", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(PlanCabinet, oxygen_hot)},
    {"oxygen_tend", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(PlanCabinet, oxygen_tend)},
    {"oxygen_limit", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(PlanCabinet, oxygen_limit)},
    {"low_oxygen", MEMBER_YES, QUANTITY_NONE, offsetof(PlanCabinet, low_oxygen)},
    {"no_oxygen", MEMBER_YES, QUANTITY_NONE, offsetof(PlanCabinet, no_oxygen)},
    {"condensing_time", MEMBER_NUMBER, QUANTITY_DURATION, offsetof(PlanCabinet, condensing_s)},
    {"condensing_from", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanCabinet, condensing_from)},
    {"condenses", MEMBER_YES, QUANTITY_NONE, offsetof(PlanCabinet, condenses)},
    {"vent_speed", MEMBER_NUMBER, QUANTITY_WIND, offsetof(PlanCabinet, vent_mps)},
    {"vent_speed_at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanCabinet, vent_at)},
    {"vent_speed_limit", MEMBER_NUMBER, QUANTITY_WIND, offsetof(PlanCabinet, vent_limit_mps)},
    {"too_windy", MEMBER_YES, QUANTITY_NONE, offsetof(PlanCabinet, too_windy)},
};

static const Member room_members[] = {
    {"stated", MEMBER_YES, QUANTITY_NONE, offsetof(PlanRoom, stated)},
    {"outdoors", MEMBER_YES, QUANTITY_NONE, offsetof(PlanRoom, outdoors)},
    {"peak", MEMBER_NUMBER, QUANTITY_CONCENTRATION, offsetof(PlanRoom, peak_mg_m3)},
    {"peak_ppm", MEMBER_NUMBER, QUANTITY_PPM, offsetof(PlanRoom, peak_ppm)},
    {"peak_at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanRoom, peak_at)},
    {"emitted", MEMBER_NUMBER, QUANTITY_MASS, offsetof(PlanRoom, emitted_kg)},
    {"over_limit", MEMBER_YES, QUANTITY_NONE, offsetof(PlanRoom, over_limit)},
    {"near_limit", MEMBER_YES, QUANTITY_NONE, offsetof(PlanRoom, near_limit)},
    {"near_asleep", MEMBER_YES, QUANTITY_NONE, offsetof(PlanRoom, near_asleep)},
};

static const Member window_members[] = {
    {"length", MEMBER_NUMBER, QUANTITY_DURATION, offsetof(PlanRoomWindow, length_s)},
    {"mean", MEMBER_NUMBER, QUANTITY_CONCENTRATION, offsetof(PlanRoomWindow, mean_mg_m3)},
    {"rich", MEMBER_NUMBER, QUANTITY_CONCENTRATION, offsetof(PlanRoomWindow, rich_mg_m3)},
    {"limit", MEMBER_NUMBER, QUANTITY_CONCENTRATION, offsetof(PlanRoomWindow, limit_mg_m3)},
    {"until", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanRoomWindow, until)},
};

static const Member weather_members[] = {
    {"temp", MEMBER_NUMBER, QUANTITY_TEMPERATURE, offsetof(PlanWeather, temp_c)},
    {"humidity", MEMBER_NUMBER, QUANTITY_HUMIDITY, offsetof(PlanWeather, humidity)},
    {"coldest", MEMBER_NUMBER, QUANTITY_TEMPERATURE, offsetof(PlanWeather, coldest_c)},
    {"dampest", MEMBER_NUMBER, QUANTITY_HUMIDITY, offsetof(PlanWeather, dampest)},
    {"dew_point", MEMBER_NUMBER, QUANTITY_TEMPERATURE, offsetof(PlanWeather, dew_point_c)},
    {"wind", MEMBER_NUMBER, QUANTITY_WIND, offsetof(PlanWeather, wind_mps)},
    {"windiest", MEMBER_NUMBER, QUANTITY_WIND, offsetof(PlanWeather, windiest_mps)},
    {"night_fall", MEMBER_NUMBER, QUANTITY_KELVIN, offsetof(PlanWeather, night_fall_k)},
    {"forecast", MEMBER_YES, QUANTITY_NONE, offsetof(PlanWeather, forecast)},
    {"known_from", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanWeather, known_from)},
    {"known_to", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanWeather, known_to)},
    {"beyond_forecast", MEMBER_YES, QUANTITY_NONE, offsetof(PlanWeather, beyond_forecast)},
};

static const Member sample_members[] = {
    {"at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanSample, at)},
    {"fill", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(PlanSample, fill)},
    {"along", MEMBER_NUMBER, QUANTITY_LENGTH, offsetof(PlanSample, along_m)},
    {"lane", MEMBER_WHOLE, QUANTITY_COUNT, offsetof(PlanSample, lane)},
    {"speed", MEMBER_NUMBER, QUANTITY_SPEED, offsetof(PlanSample, speed_mps)},
    {"moisture", MEMBER_NUMBER, QUANTITY_MOISTURE, offsetof(PlanSample, moisture)},
    {"margin", MEMBER_NUMBER, QUANTITY_RATIO, offsetof(PlanSample, margin)},
    {"margin_low", MEMBER_NUMBER, QUANTITY_RATIO, offsetof(PlanSample, margin_low)},
    {"power", MEMBER_NUMBER, QUANTITY_POWER, offsetof(PlanSample, power_w)},
    {"outside_temp", MEMBER_NUMBER, QUANTITY_TEMPERATURE, offsetof(PlanSample, outside_temp_c)},
    {"outside_humidity", MEMBER_NUMBER, QUANTITY_HUMIDITY, offsetof(PlanSample, outside_humidity)},
    {"cabinet_temp", MEMBER_NUMBER, QUANTITY_TEMPERATURE, offsetof(PlanSample, cabinet_temp_c)},
    {"cabinet_humidity", MEMBER_NUMBER, QUANTITY_HUMIDITY, offsetof(PlanSample, cabinet_humidity)},
    {"co", MEMBER_NUMBER, QUANTITY_CONCENTRATION, offsetof(PlanSample, co_mg_m3)},
    {"lasting", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(PlanSample, lasting)},
    {"hazard", MEMBER_NUMBER, QUANTITY_RATIO, offsetof(PlanSample, hazard_per_h)},
};

static const Member lasting_members[] = {
    {"at", MEMBER_INSTANT, QUANTITY_INSTANT, offsetof(PlanLasting, at)},
    {"lasting", MEMBER_NUMBER, QUANTITY_SHARE, offsetof(PlanLasting, lasting)},
    {"hazard", MEMBER_NUMBER, QUANTITY_RATIO, offsetof(PlanLasting, hazard_per_h)},
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

void fields_of_burn(Arena *arena, FieldGroup *root, const Plan *plan) {
    FieldGroup *burn = field_group_new(arena, root, "burn", 0);
    FIELD_ADD(arena, burn, burn_members, &plan->burn);
    field_add_word(arena, burn, "cause", word_of_cause(plan->burn.cause));
    field_add_yes(arena, burn, "measured", plan->burn.trials + plan->burn.records > 0);
    field_add_word(arena, burn, "lasts",
                   plan->burn.chance_said_in > 0 ? "chance.lasts" : "chance.lasts_few");
    field_add_word(arena, burn, "stands_on",
                   plan->burn.nights > 0 ? "chance.nights" : "chance.no_night");

    FieldGroup *cabinet = field_group_new(arena, root, "cabinet", 0);
    const Cabinet *box = plan->batch->cabinet;
    field_add_text(arena, cabinet, "name", box ? box->name : NULL);
    field_add_vents(arena, cabinet, &plan->cabinet.inlet, &plan->cabinet.outlet);
    FIELD_ADD(arena, cabinet, cabinet_members, &plan->cabinet);

    add_room(arena, root, &plan->room);
    FIELD_ADD(arena, field_group_new(arena, root, "weather", 0), weather_members, &plan->weather);
    for (size_t i = 0; i < plan->samples.count; i++) {
        FIELD_ADD(arena, field_group_new(arena, root, "sample", (int)i + 1), sample_members,
                  &plan->samples.items[i]);
    }
    for (size_t i = 0; i < plan->survival.count; i++) {
        FIELD_ADD(arena, field_group_new(arena, root, "survival", (int)i + 1), lasting_members,
                  &plan->survival.items[i]);
    }
}
