package traytender.ingest.nursery.scenario;

import java.util.Locale;
import java.util.function.Consumer;

/** What goes wrong in a drawn scenario. */
// The drawing methods hold no state.
@SuppressWarnings("ImmutableEnumChecker")
public enum ScenarioKind {
    WARM_CENTRE("leaves over a mat: the centre dries first, nobody waters", WaterTroubles::warmCentre),
    DRY_EDGES("leaves in moving air: edges and corners dry first, nobody waters", WaterTroubles::dryEdges),
    OVER_A_MAT("the centre over a mat dries much faster", WaterTroubles::overMat),
    MISSED_CORNER("a hand watering misses a corner", WaterTroubles::missedCorner),
    MISSED_EDGE("a hand watering misses an edge", WaterTroubles::missedEdge),
    OVERWATERED("watered morning and evening in a cool room", WaterTroubles::overwatered),
    TWO_CROPS("two crops in one tray at two stages, nobody waters", WaterTroubles::twoCrops),
    OUTGROWN("plugs that dry out in less than a day", WaterTroubles::outgrown),
    MAT_STUCK_ON("the thermostat no longer rests the mat", MatTroubles::stuckOn),
    MAT_NOT_STOPPING("the mat's contact sticks while it says it rests", MatTroubles::notStopping),
    MAT_DEAD("the mat's element breaks while its relay says on", MatTroubles::dead),
    MAT_SHARED("two trays on one mat that no longer rests", MatTroubles::shared),
    UNEVEN_HEAT("a mat too small for the tray: its centre far warmer than the edge", MatTroubles::unevenHeat),
    EMERGED("seedlings up, mat left on", MatTroubles::emerged),
    NO_PROBE("a mat under a tray without a temperature probe", MatTroubles::noProbe),
    COLD_NIGHT("the heater fails at night", RoomTroubles::coldNight),
    COLD_ROOTS("a cold room, no mat", RoomTroubles::coldRoots),
    HOT_AIR("the room overheats by day", RoomTroubles::hotAir),
    CLEAR_NIGHT("a clear night with frost in the frame", RoomTroubles::clearNight),
    DAMP_AIR("damp air for a day and more", RoomTroubles::dampAir),
    LIGHT_OUT("the lamps stay dark", RoomTroubles::lightOut),
    FED_TOO_SOON("fed too soon after potting up", RoomTroubles::fedTooSoon),
    MOVED_TOO_SOON("moved too soon after potting up", RoomTroubles::movedTooSoon),
    PLANT_OUT("hardened off, the frosts past", RoomTroubles::plantOut),
    PROBE_LIFTED("a moisture probe lies on the tray", ProbeTroubles::lifted),
    PROBE_HALF_OUT("a moisture probe slipped half out of its cell", ProbeTroubles::halfOut),
    PROBE_STUCK("a reading that never changes", ProbeTroubles::stuck),
    PROBE_SILENT("a probe falls silent", ProbeTroubles::silent),
    PROBE_JUMPING("a probe with a loose wire", ProbeTroubles::jumping),
    PROBE_RANGE("a probe reads beyond its range", ProbeTroubles::range),
    PROBE_DRIFTING("a moisture probe that drifts away", ProbeTroubles::drifting),
    PROBE_CLOCK("a sensor whose clock is hours wrong", ProbeTroubles::clockWrong),
    ALL_SILENT("nothing heard from anything for hours", ProbeTroubles::allSilent),
    BATTERY_LOW("a battery that runs down", ProbeTroubles::batteryLow),
    LATE_BATCHES("a probe buffers and delivers shuffled", ProbeTroubles::lateBatches),
    QUIET_NORMAL("ordinary days", QuietDays::normal),
    QUIET_FORTNIGHT("an ordinary fortnight", QuietDays::fortnight),
    QUIET_GREENHOUSE("ordinary days under glass", QuietDays::greenhouse),
    QUIET_THERMOSTAT("ordinary thermostat cycling", QuietDays::thermostat),
    QUIET_FIRST_SOAK("potting up and the first soak", RoomTroubles::pottedUp),
    QUIET_AT_THE_LINE("moisture that lingers a little above the dry line", QuietDays::atTheLine),
    QUIET_CROSSTALK("counts follow temperature", QuietDays::crosstalk),
    QUIET_SPIKES("lone spikes in every probe", ProbeTroubles::spikes),
    QUIET_DOOR("a door open for three minutes", QuietDays::door),
    QUIET_SUMMER_TIME("spring forward or fall back", QuietDays::summerTime),
    QUIET_MILD_NIGHT("a mild clear night in the frame", RoomTroubles::mildNight),
    // New kinds come last: a kind's place tells its seeds.
    TWO_FAULTS("two probes of one tray in trouble at the same time", ProbeTroubles::two),
    NINE_PROBES("nine probes in one tray, one of them slipped out", ProbeTroubles::amongNine);

    private final String about;
    private final Consumer<Draft> makes;

    ScenarioKind(String about, Consumer<Draft> makes) {
        this.about = about;
        this.makes = makes;
    }

    /** Draws a bench of this kind. */
    Draft draw(long seed) {
        Draft draft = Drawing.draw(this, seed);
        makes.accept(draft);
        draft.trays.forEach(draft::watersAsUsual);
        return draft;
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
