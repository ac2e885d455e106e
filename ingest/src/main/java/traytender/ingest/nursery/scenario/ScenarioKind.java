package traytender.ingest.nursery.scenario;

import java.util.Locale;

/** What goes wrong in a drawn scenario. */
public enum ScenarioKind {
    WARM_CENTRE("leaves over a mat: the centre dries first, nobody waters"),
    DRY_EDGES("leaves in moving air: edges and corners dry first, nobody waters"),
    OVER_A_MAT("the centre over a mat dries much faster"),
    MISSED_CORNER("a hand watering misses a corner"),
    MISSED_EDGE("a hand watering misses an edge"),
    OVERWATERED("watered morning and evening in a cool room"),
    MAT_STUCK_ON("the thermostat no longer rests the mat"),
    MAT_NOT_STOPPING("the mat's contact sticks while it says it rests"),
    MAT_DEAD("the mat's element breaks while its relay says on"),
    UNEVEN_HEAT("a mat too small for the tray: its centre far warmer than the edge"),
    EMERGED("seedlings up, mat left on"),
    NO_PROBE("a mat under a tray without a temperature probe"),
    COLD_NIGHT("the heater fails at night"),
    COLD_ROOTS("a cold room, no mat"),
    HOT_AIR("the room overheats by day"),
    CLEAR_NIGHT("a clear night with frost in the frame"),
    DAMP_AIR("damp air for a day and more"),
    LIGHT_OUT("the lamps stay dark"),
    FED_TOO_SOON("fed and moved too soon after potting up"),
    PROBE_LIFTED("a moisture probe lies on the tray"),
    PROBE_STUCK("a moisture count that never changes"),
    PROBE_SILENT("a probe falls silent"),
    PROBE_JUMPING("a moisture probe with a loose wire"),
    PROBE_RANGE("a moisture probe reads beyond its range"),
    LATE_BATCHES("a probe buffers two hours and delivers shuffled"),
    QUIET_NORMAL("ordinary days"),
    QUIET_THERMOSTAT("ordinary thermostat cycling"),
    QUIET_FIRST_SOAK("potting up and the first soak"),
    QUIET_AT_THE_LINE("moisture that lingers a little above the dry line"),
    QUIET_CROSSTALK("counts follow temperature"),
    QUIET_DOOR("a door open for three minutes"),
    QUIET_SUMMER_TIME("spring forward or fall back"),
    QUIET_MILD_NIGHT("a mild clear night in the frame");

    private final String about;

    ScenarioKind(String about) {
        this.about = about;
    }

    /** What happens, in a few words. */
    public String about() {
        return about;
    }

    /** Whether no alert is right in it. */
    public boolean isQuiet() {
        return name().startsWith("QUIET");
    }

    /** The word used in folder names. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
