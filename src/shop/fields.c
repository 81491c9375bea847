/* The table of settings; how a text is read into its place in the shop by it, and written
 * back. The settings file, --set and the bench page go through the same functions. */
#include "shop/fields.h"

#include "base/utf8.h"

#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#define IN_SHOP(member) offsetof(struct shop, member)
#define IN_BAND(member) offsetof(struct band, member)
#define REQUIRED        true
#define OPTIONAL        false

/* Behind a key's meaning stand, by name, what not every key has: see struct field. */
#define FIELD(...)                                                                             \
    {                                                                                          \
        __VA_ARGS__                                                                            \
    }
#define TEXT(key, need, place, ...)                                                            \
    FIELD(.path = key, FIELD_TEXT, need, place, KIND_NONE, NULL, NULL, NULL, __VA_ARGS__)
#define QUANTITY(key, need, place, kind, least, most, ...)                                     \
    FIELD(.path = key, FIELD_QUANTITY, need, place, kind, least, most, NULL, __VA_ARGS__)
#define LIST(key, need, place, kind, least, most, ...)                                         \
    FIELD(.path = key, FIELD_LIST, need, place, kind, least, most, NULL, __VA_ARGS__)
#define COUNT(key, need, place, least, most, ...)                                              \
    FIELD(.path = key, FIELD_COUNT, need, place, KIND_NONE, least, most, NULL, __VA_ARGS__)
#define CHOICE(key, need, place, words, ...)                                                   \
    FIELD(.path = key, FIELD_CHOICE, need, place, KIND_NONE, NULL, NULL, words, __VA_ARGS__)

/* Of the gauge's errors; shop_check() holds it. */
#define ONE_ERROR "where no other error is given"

static const char *const on_file_words[] = {"yes", "none", NULL};
static const char *const torque_words[] = {"running", "starting", NULL};
static const char *const basis_words[] = {"absolute", "increase", NULL};
static const char *const bearings_words[] = {"new", "used", NULL};
static const char *const warmth_words[] = {"cold", "warm", NULL};
static const char *const arrangement_words[] = {"not-known", "back-to-back", "face-to-face",
                                                NULL};
static const char *const drum_material_words[] = {"printed", "aluminium", "steel", NULL};
static const char *const booklet_words[] = {"a5", "half-letter", NULL};
static const char *const card_words[] = {"a5", "a6", "half-letter", NULL};

const struct field settings_fields[] = {
    TEXT("lathe.name", REQUIRED, IN_SHOP(lathe.name), "what you call the lathe",
         .hint = "Printed on every sheet, so that a loose sheet can be matched."),
    TEXT("lathe.workshop", OPTIONAL, IN_SHOP(lathe.workshop), "where it stands"),
    TEXT("lathe.notice", OPTIONAL, IN_SHOP(lathe.notice), "a line printed on every sheet",
         .hint = "Under 60 characters. As long as it stands, names, source and the notes of "
                 "both logs may say that they are invented: delete it once every value in this "
                 "file is your own."),
    QUANTITY("lathe.top-speed", REQUIRED, IN_SHOP(lathe.top_speed), KIND_SPEED, "1 r/min",
             "100000 r/min", "the fastest that the spindle will ever run", .on_page = true,
             .hint = "Not the speed of today's job; from the speed plate on the headstock. It "
                     "picks your band: on the edge of two bands the stricter one is taken."),
    LIST("lathe.speeds", OPTIONAL, IN_SHOP(lathe.speeds), KIND_SPEED, "1 r/min", "100000 r/min",
         "the speeds that the spindle has",
         .hint = "From the speed plate, none above the top speed. The stages of running in are "
                 "taken from them; without them, as for an electronic drive, the exact tenths "
                 "of the top speed are shown."),

    TEXT("limits.id", OPTIONAL, IN_SHOP(limits.id), "entry of the register limits.yaml",
         .hint = "Its keys then stand there, once for all lathes; one that is typed here too "
                 "counts before it."),
    CHOICE("limits.on-file", OPTIONAL, IN_SHOP(limits.on_file), on_file_words,
           "whether there is a limit",
           .hint = "Where no limit is known write none here, and no other key of this section: "
                   "then nothing is judged, and drags are only compared. Never make up a "
                   "limit."),
    TEXT("limits.source", REQUIRED, IN_SHOP(limits.source), "the manual that gives the limits",
         .hint = "Title, edition, section. Printed under every table of pulls."),
    CHOICE("limits.torque", REQUIRED, IN_SHOP(limits.torque), torque_words,
           "the drag that the manual means",
           .hint = "running is also called rolling or rotating, starting also breakaway. See "
                   "the page \"Read your manual first\"."),
    CHOICE("limits.basis", REQUIRED, IN_SHOP(limits.basis), basis_words,
           "the whole drag, or the increase over the slack drag",
           .hint = "absolute: the whole drag of the spindle as assembled; increase: what the "
                   "nut adds to the drag that was there with the nut slack."),
    CHOICE("limits.bearings", REQUIRED, IN_SHOP(limits.bearings), bearings_words,
           "the bearings that the limits are for",
           .hint = "used means run in. From the heading of the manual's table."),
    CHOICE("limits.warmth", REQUIRED, IN_SHOP(limits.warmth), warmth_words,
           "the spindle that the limits are for",
           .hint = "cold: at shop temperature; warm: just after running. From the manual's "
                   "text beside the table."),
    QUANTITY("limits.bands.#.from", REQUIRED, IN_BAND(from), KIND_SPEED, "0 r/min",
             "100000 r/min", "lowest speed of the band",
             .hint = "A row for each band; one begins where the one below it ends."),
    QUANTITY("limits.bands.#.to", REQUIRED, IN_BAND(to), KIND_SPEED, "0 r/min", "100000 r/min",
             "highest speed of the band"),
    QUANTITY("limits.bands.#.low", REQUIRED, IN_BAND(low), KIND_TORQUE, "0 N.m", "1000 N.m",
             "least drag", .hint = "In the manual's own unit."),
    QUANTITY("limits.bands.#.high", REQUIRED, IN_BAND(high), KIND_TORQUE, "0.00001 N.m",
             "1000 N.m", "greatest drag"),
    TEXT("limits.bands.#.page", OPTIONAL, IN_BAND(page), "page of the manual"),
    QUANTITY("limits.never-exceed", OPTIONAL, IN_SHOP(limits.never_exceed), KIND_TORQUE,
             "0.00001 N.m", "1000 N.m", "the drag that no spindle of this kind may have",
             .hint = "Whatever the band, and counted as basis says; not below any high limit. "
                     "Leave it out if the manual gives none."),
    QUANTITY("limits.slack-drag", OPTIONAL, IN_SHOP(limits.slack_drag), KIND_TORQUE, "0 N.m",
             "1000 N.m", "the drag measured with the nut slack",
             .needed = "where basis is increase",
             .hint = "Your own measurement: see the page \"Move the nut\", under \"Slack "
                     "drag\"."),
    QUANTITY("limits.maker-arm", OPTIONAL, IN_SHOP(limits.maker_arm), KIND_LENGTH, "1 mm",
             "2 m", "the radius at which the maker pulls",
             .hint = "If the manual gives a pull at a radius: from the middle of the spindle "
                     "to the line of pull."),

    TEXT("drum.id", OPTIONAL, IN_SHOP(drum.id), "entry of the register drums.yaml",
         .hint = "Its keys then stand there, once for all lathes; one that is typed here too "
                 "counts before it."),
    TEXT("drum.name", OPTIONAL, IN_SHOP(drum.name), "what you call the drum",
         .hint = "As marked on it."),
    QUANTITY("drum.diameter", REQUIRED, IN_SHOP(drum.diameter), KIND_LENGTH, "2 mm", "2 m",
             "diameter where the cord runs", .on_page = true,
             .hint = "Measured in three places: the mean. Without the cord."),
    QUANTITY("drum.tolerance", REQUIRED, IN_SHOP(drum.tolerance), KIND_LENGTH, "0 mm", "20 mm",
             "how far the diameter may be off, either way", .on_page = true,
             .hint = "Half the spread of your three measurements, and not less than your "
                     "caliper can tell."),
    QUANTITY("drum.wanted-radius", OPTIONAL, IN_SHOP(drum.wanted_radius), KIND_LENGTH, "2 mm",
             "1 m", "effective radius of a drum to make",
             .hint = "With the cord on it. See the page \"A drum to make\". Without it the "
                     "drawing shows the drum above."),
    QUANTITY("drum.bore", OPTIONAL, IN_SHOP(drum.bore), KIND_LENGTH, "1 mm", "1 m",
             "bore of a drum to make",
             .hint = "Whatever fits your spindle nose; smaller than the drum."),
    COUNT("drum.turns", OPTIONAL, IN_SHOP(drum.turns), "1", "40",
          "turns of cord on a drum to make", .fallback = "4", .hint = "Side by side."),
    TEXT("drum.mark", OPTIONAL, IN_SHOP(drum.mark),
         "what is cut into the face of a drum to make",
         .hint = "Its number, so that a drum can be told from another: letters A to Z, digits, "
                 "blanks and - . /. Its nominal diameter is cut in beside it."),
    QUANTITY("drum.flange", OPTIONAL, IN_SHOP(drum.flange), KIND_LENGTH, "1 mm", "200 mm",
             "height of the flanges of a drum to make, above the land",
             .hint = "Without it 3 cords, and 3 mm at least."),
    QUANTITY("drum.peg", OPTIONAL, IN_SHOP(drum.peg), KIND_LENGTH, "1 mm", "100 mm",
             "width of the peg of a drum to make",
             .hint =
                 "2 cords and 3 mm at least, which is its height. Without it just that, and "
                 "twice as much where it is printed."),
    QUANTITY("drum.most-width", OPTIONAL, IN_SHOP(drum.most_width), KIND_LENGTH, "5 mm", "1 m",
             "the most that a drum to make may be wide",
             .hint = "The room in front of the nose, without plug or collar."),
    QUANTITY("drum.plug-diameter", OPTIONAL, IN_SHOP(drum.plug_diameter), KIND_LENGTH, "2 mm",
             "1 m", "diameter of the plug of a drum to make",
             .needed = "where drum.plug-length is given",
             .hint = "For a drum that sits in the spindle's own bore."),
    QUANTITY("drum.plug-length", OPTIONAL, IN_SHOP(drum.plug_length), KIND_LENGTH, "2 mm",
             "500 mm", "length of that plug", .needed = "where drum.plug-diameter is given"),
    COUNT("drum.holes", OPTIONAL, IN_SHOP(drum.holes), "2", "12",
          "holes for screws in a drum to make",
          .hint = "For a nose with a flange, to which it is screwed."),
    QUANTITY("drum.hole-circle", OPTIONAL, IN_SHOP(drum.hole_circle), KIND_LENGTH, "5 mm",
             "1 m", "diameter of the circle on which these holes lie",
             .needed = "where drum.holes is given"),
    QUANTITY("drum.hole-diameter", OPTIONAL, IN_SHOP(drum.hole_diameter), KIND_LENGTH, "1 mm",
             "50 mm", "diameter of each of these holes", .needed = "where drum.holes is given"),
    QUANTITY("drum.cap-depth", OPTIONAL, IN_SHOP(drum.cap_depth), KIND_LENGTH, "2 mm", "500 mm",
             "how far a drum to make goes over a threaded nose",
             .hint = "Its bore is then closed at the far end, like a cap, and goes over the "
                     "thread without touching it: drum.bore is the thread's outside diameter "
                     "and what it must have free."),
    CHOICE("drum.material", OPTIONAL, IN_SHOP(drum.material), drum_material_words,
           "what a drum to make is of", .hint = "By it the strength of the peg is worked out."),
    QUANTITY("drum.shrinkage", OPTIONAL, IN_SHOP(drum.shrinkage), KIND_RATIO, "0 %", "5 %",
             "how much a printed drum shrinks", .fallback = "0 %",
             .hint =
                 "drum.stl and drum.3mf are larger by so much; what was printed is measured "
                 "all the same."),
    QUANTITY("drum.layer", OPTIONAL, IN_SHOP(drum.layer), KIND_LENGTH, "0.02 mm", "1 mm",
             "height of a layer of a printed drum",
             .hint = "Flanges, land and slope are then made a whole number of layers high."),
    TEXT("cord.id", OPTIONAL, IN_SHOP(cord.id), "entry of the register cords.yaml",
         .hint = "Its keys then stand there, once for all lathes; one that is typed here too "
                 "counts before it."),
    TEXT("cord.name", OPTIONAL, IN_SHOP(cord.name), "what you call the cord"),
    QUANTITY("cord.diameter", REQUIRED, IN_SHOP(cord.diameter), KIND_LENGTH, "0 mm", "20 mm",
             "thickness of the cord under tension", .on_page = true,
             .hint = "Wind 20 turns close together on a rod, measure along them, divide by 20. "
                     "Thinner than the drum."),
    QUANTITY("cord.tolerance", REQUIRED, IN_SHOP(cord.tolerance), KIND_LENGTH, "0 mm", "10 mm",
             "how far the thickness may be off, either way", .on_page = true),
    QUANTITY("cord.strength", OPTIONAL, IN_SHOP(cord.strength), KIND_FORCE, "0.1 N", "100000 N",
             "the pull at which the cord breaks", .hint = "From its label."),

    TEXT("gauge.id", OPTIONAL, IN_SHOP(gauge.id), "entry of the register gauges.yaml",
         .hint = "Its keys then stand there, once for all lathes; one that is typed here too "
                 "counts before it."),
    TEXT("gauge.name", OPTIONAL, IN_SHOP(gauge.name), "what you call the gauge",
         .hint = "As marked on it."),
    QUANTITY("gauge.capacity", REQUIRED, IN_SHOP(gauge.capacity), KIND_FORCE, "0.01 N",
             "10000 N", "the most that the gauge reads", .on_page = true,
             .hint = "From its plate."),
    QUANTITY("gauge.step", REQUIRED, IN_SHOP(gauge.step), KIND_FORCE, "0.0001 N", "1000 N",
             "the least step that the gauge shows", .on_page = true,
             .hint = "In the unit you read, below the capacity. All pulls are printed in this "
                     "unit and in whole steps."),
    QUANTITY("gauge.full-scale-error", OPTIONAL, IN_SHOP(gauge.full_scale_error), KIND_RATIO,
             "0 %", "50 %", "error as a share of the capacity", .on_page = true,
             .needed = ONE_ERROR, .hint = "From the data sheet (\"% FS\")."),
    QUANTITY("gauge.reading-error", OPTIONAL, IN_SHOP(gauge.reading_error), KIND_RATIO, "0 %",
             "50 %", "error as a share of the reading", .on_page = true, .needed = ONE_ERROR,
             .hint = "From the data sheet."),
    QUANTITY("gauge.checked-error", OPTIONAL, IN_SHOP(gauge.checked_error), KIND_FORCE, "0 N",
             "1000 N", "error found with known weights", .on_page = true, .needed = ONE_ERROR,
             .hint = "The largest that you found yourself."),
    QUANTITY("gauge.zero-error", OPTIONAL, IN_SHOP(gauge.zero_error), KIND_FORCE, "0 N",
             "1000 N", "how far the zero may be off, either way",
             .hint = "Without it one step: half of it for reading the zero, half for its "
                     "drift."),
    QUANTITY("gauge.orientation-error", OPTIONAL, IN_SHOP(gauge.orientation_error), KIND_FORCE,
             "0 N", "1000 N", "how much the gauge reads otherwise lying than hanging",
             .hint = "Weights hang, pulls may lie level; the zero is set anew. Without it half "
                     "a step."),

    COUNT("pulls.count", OPTIONAL, IN_SHOP(pulls.count), "2", "20", "pulls of one series",
          .fallback = "5"),
    QUANTITY("pulls.scatter", OPTIONAL, IN_SHOP(pulls.scatter), KIND_RATIO, "0 %", "50 %",
             "standard deviation of single pulls, as a share of the pull", .on_page = true,
             .fallback = "2 %",
             .hint = "How much they scatter with you; used until you have pulls to judge."),
    QUANTITY("pulls.skew", OPTIONAL, IN_SHOP(pulls.skew), KIND_ANGLE, "0 deg", "45 deg",
             "the most that a pull is askew", .on_page = true, .fallback = "5 deg",
             .hint = "Out of square with the spindle."),

    QUANTITY("site.latitude", OPTIONAL, IN_SHOP(site.latitude), KIND_ANGLE, "-90 deg", "90 deg",
             "latitude of the workshop, north positive"),
    QUANTITY("site.height", OPTIONAL, IN_SHOP(site.height), KIND_LENGTH, "-500 m", "6000 m",
             "height of the workshop above the sea",
             .hint = "Only beside a latitude; without it that of the sea is taken."),

    QUANTITY("nut.pitch", OPTIONAL, IN_SHOP(nut.pitch), KIND_LENGTH, "0.1 mm", "20 mm",
             "pitch of the nut's thread", .on_page = true,
             .hint = "Of the nut that sets the preload, from the drawing or with a thread "
                     "gauge."),
    QUANTITY("nut.threads", OPTIONAL, IN_SHOP(nut.threads), KIND_THREADS, "1 tpi", "200 tpi",
             "threads per inch of the nut", .on_page = true,
             .hint = "For an inch thread instead of the pitch, never both."),
    QUANTITY("nut.outside-diameter", OPTIONAL, IN_SHOP(nut.outside_diameter), KIND_LENGTH,
             "5 mm", "1 m", "diameter of the nut's rim", .on_page = true),

    QUANTITY("run-in.room", OPTIONAL, IN_SHOP(run_in.room), KIND_TEMPERATURE, "0 degC",
             "45 degC", "temperature of the workshop", .fallback = "20 degC"),
    QUANTITY("run-in.stop", OPTIONAL, IN_SHOP(run_in.stop), KIND_TEMPERATURE, "20 degC",
             "120 degC", "the most that the cap may have", .fallback = "60 degC",
             .hint = "What stands in is common practice without a source."),
    QUANTITY("run-in.rise", OPTIONAL, IN_SHOP(run_in.rise), KIND_RISE, "5 degC", "100 degC",
             "the most that the cap may be above the room", .fallback = "35 degC",
             .hint = "A difference. What stands in a bearing maker says of precision "
                     "spindles."),
    QUANTITY("run-in.stage-time", OPTIONAL, IN_SHOP(run_in.stage_time), KIND_TIME, "1 min",
             "24 h", "the least time at each stage", .fallback = "10 min",
             .hint = "What stands in is our rule: the time over which the cap is watched."),
    QUANTITY("run-in.top-time", OPTIONAL, IN_SHOP(run_in.top_time), KIND_TIME, "1 min", "24 h",
             "the least time at the last stage", .fallback = "20 min",
             .hint = "What stands in is our rule: twice the other."),

    CHOICE("spindle.arrangement", OPTIONAL, IN_SHOP(spindle.arrangement), arrangement_words,
           "how the two bearings stand",
           .hint = "back-to-back: the small ends of the cones face each other; face-to-face: "
                   "the large ends do. From the drawing."),
    QUANTITY("spindle.span", OPTIONAL, IN_SHOP(spindle.span), KIND_LENGTH, "10 mm", "5 m",
             "distance between the middles of the two bearings"),
    QUANTITY("spindle.pitch-diameter", OPTIONAL, IN_SHOP(spindle.pitch_diameter), KIND_LENGTH,
             "5 mm", "1 m", "pitch diameter of the front bearing",
             .hint = "The mean of its bore and its outside diameter."),
    QUANTITY("spindle.rear-pitch-diameter", OPTIONAL, IN_SHOP(spindle.rear_pitch_diameter),
             KIND_LENGTH, "5 mm", "1 m", "pitch diameter of the rear bearing",
             .hint = "Without it that of the front is taken."),
    QUANTITY("spindle.contact-angle", OPTIONAL, IN_SHOP(spindle.contact_angle), KIND_ANGLE,
             "5 deg", "45 deg", "half the included angle of the cup",
             .hint = "From the bearing's data sheet."),

    CHOICE("oil.grade", OPTIONAL, IN_SHOP(oil.grade), oil_grade_words, "ISO viscosity grade",
           .hint = "Must be left out where you write two viscosities."),
    QUANTITY("oil.first-viscosity", OPTIONAL, IN_SHOP(oil.first_viscosity), KIND_VISCOSITY,
             "2.1 mm2/s", "5000 mm2/s", "one viscosity of the data sheet",
             .hint = "Two viscosities are better than the grade."),
    QUANTITY("oil.first-temperature", OPTIONAL, IN_SHOP(oil.first_temperature),
             KIND_TEMPERATURE, "0 degC", "150 degC", "temperature of the first viscosity",
             .fallback = "40 degC"),
    QUANTITY("oil.second-viscosity", OPTIONAL, IN_SHOP(oil.second_viscosity), KIND_VISCOSITY,
             "2.1 mm2/s", "5000 mm2/s", "the other viscosity of the data sheet"),
    QUANTITY("oil.second-temperature", OPTIONAL, IN_SHOP(oil.second_temperature),
             KIND_TEMPERATURE, "0 degC", "150 degC", "temperature of the second viscosity",
             .fallback = "100 degC"),

    LIST("tables.drum-sizes", OPTIONAL, IN_SHOP(drum_sizes), KIND_LENGTH, "2 mm", "2 m",
         "common drum diameters to tabulate",
         .fallback = "40 mm, 50 mm, 60 mm, 80 mm, 100 mm, 2 in, 3 in, 4 in",
         .hint = "Your own drum is added by itself."),
    LIST("tables.arms", OPTIONAL, IN_SHOP(arms), KIND_LENGTH, "1 mm", "2 m",
         "radii to compare with this drum",
         .hint = "Without them round ones are taken. The maker's own arm is added by itself."),

    CHOICE("paper.booklet", OPTIONAL, IN_SHOP(paper.booklet), booklet_words,
           "size of the booklet's pages",
           .hint = "a5 is two on a sheet of A4, half-letter two on a sheet of letter."),
    CHOICE("paper.card", OPTIONAL, IN_SHOP(paper.card), card_words, "size of the card"),
    QUANTITY("paper.thickness", OPTIONAL, IN_SHOP(paper.thickness), KIND_LENGTH, "0.03 mm",
             "0.5 mm", "thickness of one sheet", .fallback = "0.1 mm",
             .hint = "The stack of 100 sheets, divided by 100. The pages of the folded booklet "
                     "are moved by it, and the paper strips of aids.pdf are drawn for it."),
    COUNT("paper.gathering", OPTIONAL, IN_SHOP(paper.gathering), "1", "40",
          "most sheets of the folded booklet that go into one another", .fallback = "10",
          .hint = "As many as your stapler takes, or four to six to sew."),
    QUANTITY("paper.reading-distance", OPTIONAL, IN_SHOP(paper.reading_distance), KIND_LENGTH,
             "200 mm", "5 m", "from the eye to the card", .fallback = "700 mm",
             .hint = "The windows on the card are set so large that they can be read from "
                     "there. 700 mm is an arm's length."),
    QUANTITY("paper.hole", OPTIONAL, IN_SHOP(paper.hole), KIND_LENGTH, "8 mm", "40 mm",
             "hole to hang the card by, from its top edge to the middle",
             .hint = "It is 6 mm wide, and 10 mm around it stay blank. Punch through film and "
                     "paper only if its edge is sealed again, with an eyelet, or oil creeps "
                     "in."),
};

const size_t settings_field_count = sizeof settings_fields / sizeof settings_fields[0];

/* What was called otherwise in earlier versions, and is read under its old name for ever. A new
 * name is one row here. */
static const struct {
    const char *old, *now;
} renamed[] = {
    {"limits.temperature", "limits.warmth"},
};

const char *name_now(const char *old)
{
    for (size_t i = 0; i < sizeof renamed / sizeof renamed[0]; i++)
        if (strcmp(renamed[i].old, old) == 0)
            return renamed[i].now;
    return NULL;
}

int field_band_row(const char *path, const char **rest)
{
    static const char prefix[] = "limits.bands.";
    size_t length = sizeof prefix - 1;
    if (strncmp(path, prefix, length) != 0)
        return 0;
    char *end;
    if (path[length] < '1' || path[length] > '9') /* "+1" and "01" would be row 1 once more */
        return 0;
    long row = strtol(path + length, &end, 10);
    if (*end != '.' || row < 1 || row > MOST_BANDS)
        return 0;
    *rest = end + 1;
    return (int)row;
}

const struct field *field_find(const char *path, int *row)
{
    const char *rest = NULL;
    *row = field_band_row(path, &rest);
    for (size_t i = 0; i < settings_field_count; i++) {
        const struct field *field = &settings_fields[i];
        const char *hash = strchr(field->path, '#');
        if (*row ? hash && strcmp(hash + 2, rest) == 0 : strcmp(field->path, path) == 0)
            return field;
    }
    return NULL;
}

const char *field_path(struct arena *arena, const struct field *field, size_t row)
{
    const char *hash = strchr(field->path, '#');
    return hash ? arena_format(arena, "%.*s%zu%s", (int)(hash - field->path), field->path, row,
                               hash + 1)
                : field->path;
}

size_t field_rows(const struct field *field, const struct shop *shop)
{
    return strchr(field->path, '#') ? shop->limits.band_count : 1;
}

bool is_limit(const char *path)
{
    return strncmp(path, "limits.", strlen("limits.")) == 0 && strcmp(path, ON_FILE_KEY) != 0;
}

static const void *address_of(const struct shop *shop, const struct field *field, size_t row)
{
    bool in_band = strchr(field->path, '#');
    return in_band ? (const char *)&shop->limits.bands[row - 1] + field->offset
                   : (const char *)shop + field->offset;
}

const char *words_text(struct arena *arena, const char *const *words)
{
    const char *text = words[0];
    for (int i = 1; words[i]; i++)
        text = arena_format(arena, "%s%s%s", text, words[i + 1] ? ", " : " or ", words[i]);
    return text;
}

const char *range_text(struct arena *arena, const char *least, const char *most)
{
    const char *low = strrchr(least, ' '), *high = strrchr(most, ' ');
    if (low && high && strcmp(low, high) == 0)
        return arena_format(arena, "%.*s to %s", (int)(low - least), least, most);
    return arena_format(arena, "%s to %s", least, most);
}

const char *text_quoted(struct arena *arena, const char *text)
{
    struct buffer quoted = {0};
    for (; *text; text++)
        buffer_print(&quoted, strchr("\"\\", *text) ? "\\%c" : "%c", *text);
    text = arena_format(arena, "\"%s\"", quoted.bytes ? quoted.bytes : "");
    buffer_free(&quoted);
    return text;
}

const char *field_range(struct arena *arena, const struct field *field)
{
    if (field->type == FIELD_TEXT)
        return "a few words";
    if (field->type == FIELD_CHOICE)
        return words_text(arena, field->choices);
    const char *range = range_text(arena, field->least, field->most);
    return field->type == FIELD_LIST
               ? arena_format(arena, "%s each, at most %d, with commas between them", range,
                              MOST_LIST)
               : range;
}

const char *field_wanted(struct arena *arena, const struct field *field)
{
    const char *range = field_range(arena, field);
    switch (field->type) {
    case FIELD_QUANTITY:
        return arena_format(arena, "%s %s, %s", kind_article(field->kind),
                            kind_name(field->kind), range);
    case FIELD_LIST:
        return arena_format(arena, "values of %s, in quotes, %s", kind_name(field->kind),
                            range);
    case FIELD_COUNT:
        return arena_format(arena, "a whole number from %s", range);
    case FIELD_CHOICE:
        return arena_format(arena, "the word %s", range);
    case FIELD_TEXT:
        break;
    }
    return range;
}

/* ---- reading ---- */

/* How many signs of the file stand for the next one of a quoted value, at `source`. */
static size_t signs_of_next(const char *source, char quote)
{
    if (quote == '\'' && source[0] == '\'' && source[1] == '\'')
        return 2;
    if (quote != '"' || source[0] != '\\')
        return 1;
    return source[1] == 'x' ? 4 : source[1] == 'u' ? 6 : source[1] == 'U' ? 10 : 2;
}

/* A line end in the file, with the blanks around it: where the text goes on, and as how many
 * bytes of the value it counts. NULL where none is next. */
static const char *behind_line_end(const char *source, char quote, int *lines, size_t *bytes)
{
    size_t blanks = strspn(source, " \t"); /* they count where a backslash ends the line */
    const char *at = source + blanks;
    bool joins = quote == '"' && *at == '\\' && strchr("\r\n", at[1]) && at[1];
    at += joins;
    for (*lines = 0; *at == '\n' || *at == '\r'; ++*lines) {
        at += 1 + (at[0] == '\r' && at[1] == '\n');
        at += strspn(at, " \t");
    }
    *bytes = (joins ? blanks : (size_t)(*lines == 1)) + (size_t)*lines - 1;
    return *lines ? at : NULL;
}

/* The setting from a byte of its value on, with the place of that: escapes count as they are
 * written, and where the value goes over several lines the byte has its own. */
static struct setting rest_of(const struct setting *setting, size_t bytes)
{
    struct setting rest = *setting;
    const char *end = setting->value + bytes;
    if (!setting->source) {
        rest.at.column += rest.at.column ? (int)utf8_count(setting->value, bytes) : 0;
        rest.value = end;
        return rest;
    }
    while (rest.value < end && *rest.source) {
        int lines;
        size_t length;
        const char *behind = behind_line_end(rest.source, setting->quote, &lines, &length);
        if (behind) {
            rest.at.line += lines;
            for (rest.at.column = 1; !strchr("\r\n", behind[-rest.at.column]);)
                rest.at.column++;
            rest.source = behind;
            rest.value += length;
            continue;
        }
        size_t signs = signs_of_next(rest.source, setting->quote);
        rest.at.column += (int)signs;
        while (signs--)
            utf8_next(&rest.source);
        utf8_next(&rest.value);
    }
    return rest;
}

/* text: the value, or the first of a list. False after a fault; then the measure is as one that
 * was not given, but for its place. */
static bool read_quantity(const struct settings_reader *reader, const struct field *field,
                          const struct setting *setting, const char *text,
                          struct measure *measure)
{
    struct quantity_fault wrong;
    measure->at = setting->at;
    if (!quantity_parse(text, field->kind, &measure->q, &wrong))
        fault(reader->diags, rest_of(setting, wrong.offset).at, "%s%s%s",
              reader->beside_input ? "" : setting->path, reader->beside_input ? "" : ": ",
              wrong.message);
    else if (!quantity_between(&measure->q, field->least, field->most))
        fault(reader->diags, measure->at, "%s (%s) must lie between %s and %s, not %s %s",
              setting->path, field->meaning, field->least, field->most, measure->q.digits,
              measure->q.unit->symbol);
    else {
        shop_note_quantity(reader->shop, reader->arena, measure->at, setting->path,
                           &measure->q);
        return true;
    }
    measure->q.unit = NULL;
    return false;
}

static void read_list(const struct settings_reader *reader, const struct field *field,
                      const struct setting *setting, struct measures *list)
{
    struct setting rest = *setting; /* each begins where the one before it ended */
    for (bool more = true; more && list->count < MOST_LIST;) {
        size_t length = strcspn(rest.value, ",");
        more = rest.value[length] == ',';
        const char *text = arena_slice(reader->arena, rest.value, length);
        struct measure measure;
        if (read_quantity(reader, field, &rest, text, &measure))
            *ARENA_PUSH(reader->arena, list->items, list->count) = measure;
        rest = rest_of(&rest, length + more);
        if (more && list->count == MOST_LIST)
            fault(reader->diags, setting->at,
                  "%s has more than %d entries; keep the useful ones", setting->path,
                  MOST_LIST);
    }
}

/* A whole number within the range, or the index of a word; false where it is neither. */
static bool read_number(const struct field *field, const char *text, int *number)
{
    if (field->type == FIELD_CHOICE) {
        for (*number = 0; field->choices[*number]; ++*number)
            if (strcmp(field->choices[*number], text) == 0)
                return true;
        return false;
    }
    char *end;
    long value = strtol(text, &end, 10);
    *number = (int)value;
    return *end == '\0' && value >= strtol(field->least, NULL, 10) &&
           value <= strtol(field->most, NULL, 10);
}

void bands_make(const struct settings_reader *reader)
{
    struct limits *limits = &reader->shop->limits;
    const char *rest;
    for (size_t i = 0; i < reader->list->count; i++) {
        size_t row = (size_t)field_band_row(reader->list->items[i].path, &rest);
        if (row > limits->band_count)
            limits->band_count = row;
    }
    limits->bands = arena_get(reader->arena, (limits->band_count + 1) * sizeof *limits->bands);
    for (size_t i = 0; i < limits->band_count; i++)
        limits->bands[i].at.file = reader->list->file;
}

void field_read(const struct settings_reader *reader, const struct field *field, int row,
                const struct setting *setting)
{
    void *address = (void *)address_of(reader->shop, field, (size_t)row);
    int number;
    if (row && reader->shop->limits.bands[row - 1].at.line == 0)
        reader->shop->limits.bands[row - 1].at = setting->at;
    if (reader->beside_input && !setting->value[0] && !field->required)
        return; /* an input that is left empty */
    if (!reader->beside_input && setting->value[strspn(setting->value, " ")] == '\0') {
        fault(reader->diags, setting->at, "%s (%s) has no value; write %s%s", setting->path,
              field->meaning, field_wanted(reader->arena, field),
              field->required ? "" : ", or delete the line");
        return;
    }
    switch (field->type) {
    case FIELD_TEXT:
        if (shop_keep_text(
                reader->shop, reader->arena, reader->diags,
                arena_format(reader->arena, "%s (%s)", setting->path, field->meaning),
                (struct typed_text){setting->value, setting->at, setting->cut}))
            *(const char **)address = setting->value;
        break;
    case FIELD_QUANTITY:
        read_quantity(reader, field, setting, setting->value, address);
        break;
    case FIELD_LIST:
        read_list(reader, field, setting, address);
        break;
    case FIELD_COUNT:
    case FIELD_CHOICE:
        if (!read_number(field, setting->value, &number))
            fault(reader->diags, setting->at, "%s (%s) cannot be '%s'; write %s", setting->path,
                  field->meaning, setting->value, field_wanted(reader->arena, field));
        else if (field->type == FIELD_CHOICE)
            *(int *)address = number;
        else
            *(struct count *)address = (struct count){number, setting->at};
    }
}

static void fill_list(struct arena *arena, const struct field *field, struct measures *list)
{
    struct quantity_fault ignored;
    for (const char *start = field->fallback; *start; start += strspn(start, ", ")) {
        size_t length = strcspn(start, ",");
        struct measure *measure = ARENA_PUSH(arena, list->items, list->count);
        *measure = (struct measure){0};
        quantity_parse(arena_slice(arena, start, length), field->kind, &measure->q, &ignored);
        start += length;
    }
}

void fields_fill(struct arena *arena, struct shop *shop)
{
    for (size_t i = 0; i < settings_field_count; i++) {
        const struct field *field = &settings_fields[i];
        void *address = (char *)shop + field->offset;
        struct measure *measure = address;
        struct count *count = address;
        struct quantity_fault ignored;
        if (field->fallback && field->type == FIELD_COUNT && !count->number)
            read_number(field, field->fallback, &count->number);
        else if (field->fallback && field->type == FIELD_QUANTITY && absent(measure))
            quantity_parse(field->fallback, field->kind, &measure->q, &ignored);
        else if (field->fallback && field->type == FIELD_LIST &&
                 !((struct measures *)address)->count)
            fill_list(arena, field, address);
    }
}

/* ---- writing ---- */

const char *field_text(struct arena *arena, const struct field *field, const struct shop *shop,
                       size_t row)
{
    const void *address = address_of(shop, field, row);
    const struct measure *measure = address;
    const struct measures *list = address;
    const struct count *count = address;
    const char *text = "";
    switch (field->type) {
    case FIELD_TEXT:
        return *(const char *const *)address;
    case FIELD_QUANTITY:
        return measure->at.file && given(measure) ? quantity_typed(arena, &measure->q) : NULL;
    case FIELD_LIST:
        if (list->count && !is_typed(&list->items[0].at))
            return NULL;
        for (size_t i = 0; i < list->count; i++)
            text = arena_format(arena, "%s%s%s", text, i ? ", " : "",
                                quantity_typed(arena, &list->items[i].q));
        return list->count ? text : NULL;
    case FIELD_COUNT:
        return count->at.file ? arena_format(arena, "%d", count->number) : NULL;
    case FIELD_CHOICE:
        return field->choices[*(const int *)address];
    }
    return NULL;
}
