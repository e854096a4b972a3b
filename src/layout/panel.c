#include "layout/panel.h"

/* The rule over a title, and the room about the title. */
#define RULE_MM 0.5
#define TITLE_DROP_MM 0.7
#define TITLE_GAP_MM 0.8

typedef struct Body {
    double (*draw)(Setting *setting, const Panel *panel, Box box);
    double (*most)(Setting *setting, const Panel *panel, double width_mm); /* NULL: the least */
} Body;

static const Body BODIES[PANEL_KINDS] = {
    [PANEL_HEADLINE] = {headline_draw, NULL},
    [PANEL_REMEDIES] = {remedies_draw, NULL},
    [PANEL_WEIGH_OUT] = {weigh_out_draw, NULL},
    [PANEL_DRYING] = {drying_draw, NULL},
    [PANEL_TRAY_MAP] = {tray_map_draw, tray_map_most},
    [PANEL_CURVE] = {curve_draw, curve_most},
    [PANEL_STEPS] = {steps_draw, steps_most},
    [PANEL_RULES] = {rules_draw, NULL},
    [PANEL_LOG] = {log_draw, NULL},
    [PANEL_RECORD] = {record_draw, record_most},
    [PANEL_CAUTIONS] = {cautions_draw, NULL},
    [PANEL_CARE] = {care_draw, NULL},
    [PANEL_WORDS] = {words_draw, NULL},
    [PANEL_FOOTER] = {footer_draw, NULL},
};

static bool has_content(Setting *setting, const Panel *panel) {
    const Plan *plan = setting->plan;
    switch (panel->kind) {
    case PANEL_REMEDIES: return plan->remedies.count > 0;
    case PANEL_DRYING: return plan->drying.asked;
    case PANEL_CURVE: return plan->samples.count > 1;
    case PANEL_STEPS: return plan->steps.count > 0;
    case PANEL_LOG: return plan->looks.count > 0;
    case PANEL_RULES: return plan->decisions.count + panel->items.count > 0;
    case PANEL_CAUTIONS: return cautions_shown(setting, panel);
    case PANEL_CARE: return care_shown(setting, panel);
    default: return true;
    }
}

/* Care and the map never go whole, remedies only when they have to give way twice. */
static bool is_gone(const Setting *setting, const Panel *panel) {
    int times = setting->dropped[panel->index];
    switch (panel->kind) {
    case PANEL_CARE:
    case PANEL_TRAY_MAP: return false;
    case PANEL_REMEDIES: return times > 1;
    default: return times > 0;
    }
}

bool panel_shown(Setting *setting, const Panel *panel) {
    if (is_gone(setting, panel))
        return false;
    if (panel->when == WHEN_LIT && setting_refused(setting))
        return false;
    if (panel->when == WHEN_REFUSED && !setting_refused(setting))
        return false;
    const Panel *const *panels = setting->template->panels.items;
    if (panel->with >= 0 && !panel_shown(setting, panels[panel->with]))
        return false;
    if (panel->without >= 0 && panel_shown(setting, panels[panel->without]))
        return false;
    return has_content(setting, panel);
}

static double draw_title(Setting *setting, const Panel *panel, Box box) {
    if (!panel->title)
        return 0;
    TextStyle style = setting->texts[TEXT_TITLE];
    pen_rule(&setting->pen, box.x_mm, box.y_mm + RULE_MM / 2, box.width_mm, RULE_MM, ink_black());
    box.y_mm += RULE_MM + TITLE_DROP_MM;
    double height_mm =
        pen_paragraph(&setting->pen, style, ALIGN_LEFT, box, setting_words(setting, panel->title));
    return RULE_MM + TITLE_DROP_MM + height_mm + TITLE_GAP_MM;
}

double panel_draw(Setting *setting, const Panel *panel, Box box) {
    setting->pen.owner = panel->name;
    if (setting->pen.page)
        setting->pen.page->owner = panel->name;
    double title_mm = draw_title(setting, panel, box);
    box.y_mm += title_mm;
    box.height_mm = box.height_mm > title_mm ? box.height_mm - title_mm : 0;
    return title_mm + BODIES[panel->kind].draw(setting, panel, box);
}

Extent panel_extent(Setting *setting, const Panel *panel, double width_mm) {
    Page *page = setting->pen.page;
    setting->pen.page = NULL;
    double least_mm = panel_draw(setting, panel, (Box){0, 0, width_mm, 0});
    double most_mm = least_mm;
    if (BODIES[panel->kind].most)
        most_mm = draw_title(setting, panel, (Box){0, 0, width_mm, 0}) +
                  BODIES[panel->kind].most(setting, panel, width_mm);
    setting->pen.page = page;
    return (Extent){least_mm, most_mm > least_mm ? most_mm : least_mm};
}
