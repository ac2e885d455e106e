package traytender.config.journal;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import traytender.config.crop.Stage;
import traytender.config.site.CellBlock;
import traytender.config.site.Sowing;

/**
 * What a {@code potted-up} entry does. Without {@code to} the tray's own plants are potted up where they stand. With {@code
 * to} the plants leave their cells and stand in the receiving tray:
 *
 * <ol>
 *   <li>in {@code to-rows} where the entry says so;
 *   <li>else where the receiving tray's labels name the same crop and variety, as when the site file has them already;
 *   <li>else in its free rows, all of them; several varieties share them in order, by the cells they came from;
 *   <li>else, in a full tray, in place of what stood there.
 * </ol>
 *
 * A {@code count} below the cells they came from leaves the rest where it stood: which cells were emptied is not known.
 */
final class PottingUp {
    private final Map<String, TrayGrowing> trays;
    private final List<Growing.Doubt> doubts;

    PottingUp(Map<String, TrayGrowing> trays, List<Growing.Doubt> doubts) {
        this.trays = trays;
        this.doubts = doubts;
    }

    void take(TrayGrowing from, JournalEntry entry, Details details, CellBlock block) {
        Instant time = entry.time();
        Optional<String> to =
                details.to().filter(name -> !name.equals(from.tray().id()));
        if (to.isEmpty()) {
            from.change(block, sowing -> from.pottedUp(sowing, time));
            return;
        }
        TrayGrowing receiving = trays.get(to.get());
        List<SowingNow> leaving = leaving(from, block);
        // Plants given away leave their tray as well.
        if (details.count().isEmpty() || details.count().getAsInt() >= cells(leaving)) {
            from.clear(block);
        }
        if (receiving == null) {
            doubts.add(new Growing.Doubt(
                    entry, "there is no tray named " + to.get() + ": the plants are not watched there"));
            return;
        }
        receiving.advance(time);
        receive(receiving, leaving, toBlock(receiving, entry, details), time);
        receiving.keep(time);
    }

    private static List<SowingNow> leaving(TrayGrowing from, CellBlock block) {
        return from.sowings().stream()
                .filter(SowingNow::isWatched)
                .flatMap(now -> now.block().common(block).stream()
                        .map(part -> new SowingNow(
                                now.sowing().withBlock(part),
                                now.stage(),
                                now.stageSince(),
                                now.pottedUpAt(),
                                now.fedAt(),
                                now.limits())))
                .toList();
    }

    private Optional<CellBlock> toBlock(TrayGrowing receiving, JournalEntry entry, Details details) {
        Optional<CellBlock> block =
                details.toRows().flatMap(rows -> rows.in(receiving.tray().cells()));
        if (entry.detail().containsKey("to-rows") && block.isEmpty()) {
            doubts.add(new Growing.Doubt(
                    entry,
                    receiving.tray().id() + " has no rows " + entry.detail().get("to-rows")));
        }
        return block;
    }

    private static void receive(
            TrayGrowing receiving, List<SowingNow> leaving, Optional<CellBlock> block, Instant time) {
        if (leaving.isEmpty()) {
            receiving.change(block.orElse(receiving.whole()), sowing -> receiving.pottedUp(sowing, time));
            return;
        }
        var homeless = new ArrayList<SowingNow>();
        for (SowingNow plants : leaving) {
            boolean labelled = receiving.sowings().stream()
                    .anyMatch(now -> sameLabel(now, plants)
                            && block.stream().allMatch(rows -> now.block().overlaps(rows)));
            if (labelled) {
                receiving.change(
                        block.orElse(receiving.whole()),
                        now -> sameLabel(now, plants) ? receiving.pottedUp(now, time) : now);
            } else {
                homeless.add(plants);
            }
        }
        if (!homeless.isEmpty()) {
            house(receiving, homeless, block.orElseGet(() -> freeRows(receiving)), time);
        }
    }

    /** Shares the rows of a block among the plants, by the cells they came from; each gets at least one row while they last. */
    private static void house(TrayGrowing receiving, List<SowingNow> plants, CellBlock block, Instant time) {
        int rows = block.lastRow() - block.firstRow() + 1;
        double all = cells(plants);
        double before = 0;
        int first = block.firstRow();
        for (int i = 0; i < plants.size() && first <= block.lastRow(); i++) {
            before += plants.get(i).block().count();
            int last = i == plants.size() - 1
                    ? block.lastRow()
                    : Math.min(
                            block.lastRow(),
                            Math.max(first, block.firstRow() - 1 + (int) Math.round(rows * before / all)));
            Sowing label = plants.get(i).sowing();
            var cells = new CellBlock(first, last, block.firstColumn(), block.lastColumn());
            receiving.put(
                    new Sowing(cells, label.crop(), label.variety(), label.sown(), null, null, time),
                    Stage.RECOVERING,
                    time,
                    time);
            first = last + 1;
        }
    }

    /** The longest run of rows without a plant; the whole tray when it has none. */
    private static CellBlock freeRows(TrayGrowing receiving) {
        CellBlock whole = receiving.whole();
        int bestFirst = 0;
        int best = 0;
        int run = 0;
        for (int row = 1; row <= whole.lastRow(); row++) {
            var cells = new CellBlock(row, row, 1, whole.lastColumn());
            boolean free = receiving.sowings().stream()
                    .filter(SowingNow::isWatched)
                    .noneMatch(now -> now.block().overlaps(cells));
            run = free ? run + 1 : 0;
            if (run > best) {
                best = run;
                bestFirst = row - run + 1;
            }
        }
        return best == 0 ? whole : new CellBlock(bestFirst, bestFirst + best - 1, 1, whole.lastColumn());
    }

    private static boolean sameLabel(SowingNow one, SowingNow other) {
        return one.sowing().crop().equals(other.sowing().crop())
                && one.sowing().variety().equals(other.sowing().variety());
    }

    private static int cells(List<SowingNow> sowings) {
        return sowings.stream().mapToInt(now -> now.block().count()).sum();
    }
}
