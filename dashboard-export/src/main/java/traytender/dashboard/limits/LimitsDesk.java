package traytender.dashboard.limits;

import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import traytender.config.crop.Crops;
import traytender.config.crop.LimitKey;
import traytender.config.crop.Stage;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.Details;
import traytender.config.journal.Growing;
import traytender.ingest.store.CropFileVersion;
import traytender.ingest.store.SiteStore;
import traytender.rules.trace.Stay;
import traytender.rules.trace.Stays;

/** What a grower does with limits: try others on stored readings, keep them, go back to earlier ones. <b>Safe from any thread.</b> */
public final class LimitsDesk implements AutoCloseable {
    private final Supplier<SiteFolder> folder;
    private final SiteStore store;
    private final Consumer<Crops> takeOver;
    private final Trials trials;
    private final CropFolder files;

    /**
     * @param folder the site with the crops it is judged by now
     * @param takeOver given new limits when they are on disk
     */
    public LimitsDesk(Supplier<SiteFolder> folder, SiteStore store, Consumer<Crops> takeOver, Clock clock) {
        this.folder = folder;
        this.store = store;
        this.takeOver = takeOver;
        this.trials = new Trials(folder, store);
        this.files = new CropFolder(folder.get().path(), store.journal().cropFiles(), clock);
    }

    /** Crops that the site file or the journal has sown, in alphabetical order. */
    public Set<String> used() {
        SiteFolder site = folder.get();
        var used = new TreeSet<String>();
        site.site().trays().forEach(tray -> tray.sowings().forEach(sowing -> used.add(sowing.crop())));
        store.journal()
                .entries()
                .forEach(entry -> Details.of(entry)
                        .crop()
                        .filter(crop -> site.crops().find(crop).isPresent())
                        .ifPresent(used::add));
        return used;
    }

    /** The new values that changes come to, by crop, stage and limit. */
    public Map<String, Map<Stage, Map<LimitKey, Double>>> values(List<LimitChange> changes) {
        return LimitChange.values(changes, folder.get().crops(), used());
    }

    /**
     * Begins to answer what changes would have made different.
     *
     * @return empty when there are no readings yet
     */
    public Optional<Trial> start(List<LimitChange> changes, Instant from, Instant to) {
        return trials.start(LimitChange.applied(values(changes), folder.get().crops()), from, to);
    }

    /** The trial of that number, if it is still remembered. */
    public Optional<Trial> trial(int number) {
        return trials.find(number);
    }

    /**
     * What the probes in cells read, cut at every change of what stood there, each piece held to the limits in force.
     *
     * @param to exclusive
     */
    public List<Stay> stays(Instant from, Instant to) {
        SiteFolder site = folder.get();
        Growing growing = Growing.of(site.site(), site.crops(), store.journal().entries());
        return Stays.probes(site.site()).stream()
                .flatMap(
                        probe -> Stays.of(growing, probe, store.history().readings(probe, from, to), from, to).stream())
                .toList();
    }

    /** What the grower's own marks, words and waterings say about dry lines; applies nothing. */
    public List<LineSuggestion> suggestions() {
        SiteFolder site = folder.get();
        return LineSuggestion.of(LineMoments.of(site, store), site.crops());
    }

    /**
     * Writes changes into the site's crop files and has the watch take them over.
     *
     * @throws CropFolder.RefusedException when the files cannot be changed so
     */
    public void keep(List<LimitChange> changes, String who, String why) {
        var values = values(changes);
        if (values.isEmpty()) {
            throw new CropFolder.RefusedException("These limits are as they are already.");
        }
        takeOver.accept(files.set(values, folder.get().crops(), who, words(changes), why));
    }

    /**
     * Gives a crop file the text it once had and has the watch take it over.
     *
     * @return whether there is a version of that number
     * @throws CropFolder.RefusedException when the folder would not be right with it
     */
    public boolean bringBack(long number, String who, String why) {
        Optional<Crops> after = files.bringBack(number, who, why);
        after.ifPresent(takeOver);
        return after.isPresent();
    }

    /** Every text the crop files have had, the oldest first. */
    public List<CropFileVersion> versions() {
        return files.versions();
    }

    private static String words(List<LimitChange> changes) {
        return changes.stream().map(LimitsDesk::words).collect(Collectors.joining("; "));
    }

    private static String words(LimitChange change) {
        String crop = change.crop() == null ? "every crop" : change.crop();
        Stage stage = change.stage();
        return crop + ", " + (stage == null ? "every stage" : stage.word()) + ": "
                + change.key().word() + (change.by() < 0 ? " " : " +") + change.by();
    }

    @Override
    public void close() {
        trials.close();
    }
}
