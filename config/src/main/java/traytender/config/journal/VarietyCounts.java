package traytender.config.journal;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.TreeMap;
import traytender.config.site.CellBlock;
import traytender.config.site.Site;
import traytender.config.site.Sowing;
import traytender.config.site.Tray;

/**
 * Counts plants by variety.
 *
 * <p>An entry that names no rows is about the whole tray; a count on several sowings is shared by their cells. An {@code
 * emerged} entry says how many are up by then, so a later one on the same sowing takes its place; {@code thinned}, {@code
 * losses}, {@code potted-up} and {@code planted-out} add up. Potted up or planted out without a count means one plant a cell;
 * thinned or lost without a count cannot be counted. <b>Not threadsafe.</b>
 */
public final class VarietyCounts {
    private final Growing growing;
    private final Map<Label, Tally> tallies =
            new TreeMap<>(Comparator.comparing(Label::crop).thenComparing(Label::variety));
    private final Map<String, List<Label>> unsown = new HashMap<>();

    private record Label(String crop, String variety) {
        static Label of(Sowing sowing) {
            return new Label(sowing.crop(), sowing.variety());
        }
    }

    private static final class Tally {
        private int seeds;
        private boolean seedsKnown = true;
        private final Map<String, Integer> emerged = new LinkedHashMap<>();
        private int thinned;
        private int lost;
        private int pottedUp;
        private int plantedOut;

        private void sow(Sowing sowing) {
            Integer perCell = sowing.seedsPerCell();
            if (perCell == null) {
                seedsKnown = false;
            } else {
                seeds += perCell * sowing.block().count();
            }
        }

        private VarietyCount count(Label label) {
            Integer up = emerged.isEmpty()
                    ? null
                    : emerged.values().stream().mapToInt(Integer::intValue).sum();
            return new VarietyCount(
                    label.crop, label.variety, seedsKnown ? seeds : null, up, thinned, lost, pottedUp, plantedOut);
        }
    }

    private VarietyCounts(Growing growing) {
        this.growing = growing;
    }

    /** The counts by crop and variety, in alphabetical order; entries in any order. */
    public static List<VarietyCount> of(Site site, Growing growing, List<JournalEntry> entries) {
        var counts = new VarietyCounts(growing);
        site.trays().forEach(counts::begin);
        entries.stream().sorted(Comparator.comparing(JournalEntry::time)).forEach(counts::take);
        var all = new ArrayList<VarietyCount>();
        counts.tallies.forEach((label, tally) -> all.add(tally.count(label)));
        return List.copyOf(all);
    }

    private void begin(Tray tray) {
        for (Sowing sowing : tray.sowings()) {
            tally(sowing).sow(sowing);
            unsown.computeIfAbsent(tray.id(), id -> new ArrayList<>()).add(Label.of(sowing));
        }
    }

    private Tally tally(Sowing sowing) {
        return tallies.computeIfAbsent(Label.of(sowing), label -> new Tally());
    }

    private void take(JournalEntry entry) {
        if (growing.changes(entry.tray()).isEmpty()) {
            return;
        }
        switch (entry.kind()) {
            case SOWN -> sown(entry);
            case EMERGED -> emerged(entry);
            case THINNED -> share(entry, false).forEach((sowing, count) -> tally(sowing).thinned += count);
            case LOSSES -> share(entry, false).forEach((sowing, count) -> tally(sowing).lost += count);
            case POTTED_UP -> share(entry, true).forEach((sowing, count) -> tally(sowing).pottedUp += count);
            case PLANTED_OUT -> share(entry, true).forEach((sowing, count) -> tally(sowing).plantedOut += count);
            default -> {
                // Nothing to count.
            }
        }
    }

    /** The site file's sowings are counted already: the first entry about each only says when. */
    private void sown(JournalEntry entry) {
        List<Label> listed = unsown.computeIfAbsent(entry.tray(), id -> new ArrayList<>());
        for (SowingNow now : growing.at(entry.tray(), entry.time()).sowings()) {
            if (now.stageSince().equals(entry.time()) && !listed.remove(Label.of(now.sowing()))) {
                tally(now.sowing()).sow(now.sowing());
            }
        }
    }

    private void emerged(JournalEntry entry) {
        Details details = Details.of(entry);
        if (details.count().isPresent()) {
            share(entry, false).forEach((sowing, count) -> putEmerged(entry, sowing, count));
            return;
        }
        if (details.share().isPresent()) {
            double share = details.share().getAsDouble() / 100;
            for (Sowing sowing : standing(entry)) {
                Integer perCell = sowing.seedsPerCell();
                int seeds = sowing.block().count() * (perCell == null ? 1 : perCell);
                putEmerged(entry, sowing, (int) Math.round(share * seeds));
            }
        }
    }

    private void putEmerged(JournalEntry entry, Sowing sowing, int count) {
        CellBlock block = sowing.block();
        tally(sowing).emerged.put(entry.tray() + " " + block.firstRow() + " " + block.firstColumn(), count);
    }

    /** What an entry's count comes to for each sowing it is about. */
    private Map<Sowing, Integer> share(JournalEntry entry, boolean oneACell) {
        List<Sowing> standing = standing(entry);
        int cells = standing.stream().mapToInt(sowing -> sowing.block().count()).sum();
        OptionalInt said = Details.of(entry).count();
        int count = said.isPresent() ? said.getAsInt() : oneACell ? cells : 0;
        var shares = new LinkedHashMap<Sowing, Integer>();
        long cellsBefore = 0;
        int given = 0;
        for (Sowing sowing : standing) {
            cellsBefore += sowing.block().count();
            int upTo = (int) Math.round((double) count * cellsBefore / cells);
            shares.merge(sowing, upTo - given, Integer::sum);
            given = upTo;
        }
        return shares;
    }

    /** The parts of sowings in the entry's rows as they stood before it. */
    private List<Sowing> standing(JournalEntry entry) {
        TrayNow before = before(entry);
        CellBlock rows = Details.of(entry)
                .rows()
                .flatMap(named -> named.in(before.cells()))
                .orElse(CellBlock.whole(before.cells()));
        return before.sowings().stream()
                .filter(SowingNow::isWatched)
                .flatMap(now -> now.block().common(rows).stream()
                        .map(part -> now.sowing().withBlock(part)))
                .toList();
    }

    private TrayNow before(JournalEntry entry) {
        Instant time = entry.time();
        return growing.at(entry.tray(), time.minusNanos(1));
    }
}
