package traytender.config.journal;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import traytender.config.crop.Crops;
import traytender.config.crop.Stage;
import traytender.config.site.CellBlock;
import traytender.config.site.Site;
import traytender.config.site.Sowing;

/** What each kind of journal entry does to its tray. <b>Not threadsafe.</b> */
final class EntryEffects {
    /** Half the seeds make a stand of seedlings, by the journal's own definition. */
    private static final double EMERGED_PERCENT = 50;

    private final Site site;
    private final Crops crops;
    private final PottingUp pottingUp;
    private final List<Growing.Doubt> doubts;

    EntryEffects(Site site, Crops crops, Map<String, TrayGrowing> trays, List<Growing.Doubt> doubts) {
        this.site = site;
        this.crops = crops;
        this.doubts = doubts;
        this.pottingUp = new PottingUp(trays, doubts);
    }

    void take(TrayGrowing tray, JournalEntry entry) {
        tray.advance(entry.time());
        Details details = Details.of(entry);
        if (entry.detail().containsKey("rows") && details.rows().isEmpty()) {
            doubt(
                    entry,
                    "rows=" + entry.detail().get("rows")
                            + " is no row or range of rows such as 1-4: taken as the whole tray");
        }
        Optional<CellBlock> block = details.rows().isPresent()
                ? details.rows().flatMap(rows -> rows.in(tray.tray().cells()))
                : Optional.of(tray.whole());
        if (block.isEmpty()) {
            doubt(entry, "the tray has no rows " + entry.detail().get("rows"));
            return;
        }
        apply(tray, entry, details, block.get());
        tray.keep(entry.time());
    }

    private void apply(TrayGrowing tray, JournalEntry entry, Details details, CellBlock block) {
        Instant time = entry.time();
        switch (entry.kind()) {
            case SOWN -> sown(tray, entry, details, block);
            case EMERGED -> emerged(tray, details, block, time);
            case FED -> tray.change(block, sowing -> TrayGrowing.fed(sowing, time));
            case POTTED_UP -> pottingUp.take(tray, entry, details, block);
            case MOVED -> moved(tray, entry, details);
            case TURNED -> tray.turn();
            case COVERED -> tray.setCovered(true);
            case UNCOVERED -> tray.setCovered(false);
            case HARDENING -> tray.change(block, to(tray, Stage.HARDENING, time));
            case PLANTED_OUT -> tray.change(block, to(tray, Stage.PLANTED_OUT, time));
            case STAGE -> stage(tray, entry, details, block);
            case WATERED, THINNED, LOSSES, NOTE, WANTS_WATER, MAT_ON, MAT_OFF -> {
                // Told for the readings' and the counts' sake: who stands where does not change.
            }
        }
    }

    private static UnaryOperator<SowingNow> to(TrayGrowing tray, Stage stage, Instant time) {
        return sowing -> tray.at(sowing, stage, time);
    }

    private void sown(TrayGrowing tray, JournalEntry entry, Details details, CellBlock block) {
        Optional<String> crop = details.crop();
        if (crop.isEmpty()) {
            tray.change(block, sowing -> tray.sown(sowing, entry.time()));
            return;
        }
        if (crops.find(crop.get()).isEmpty()) {
            doubt(entry, "there is no crop named " + crop.get() + ": the sowing is not judged");
            return;
        }
        String variety = details.variety().orElse(crop.get());
        boolean known = tray.sowings().stream()
                .anyMatch(now -> now.sowing().crop().equals(crop.get())
                        && now.sowing().variety().equals(variety)
                        && now.block().overlaps(block));
        if (known && details.rows().isEmpty()) {
            tray.change(block, now -> now.sowing().variety().equals(variety) ? tray.sown(now, entry.time()) : now);
            return;
        }
        var day = entry.time().atZone(site.timezone()).toLocalDate();
        Integer seeds =
                details.seedsPerCell().isPresent() ? details.seedsPerCell().getAsInt() : null;
        tray.put(
                new Sowing(block, crop.get(), variety, day, seeds, null, entry.time()),
                Stage.GERMINATING,
                entry.time(),
                null);
    }

    private static void emerged(TrayGrowing tray, Details details, CellBlock block, Instant time) {
        // Without a figure the grower says that they are up.
        if (details.share().orElseGet(() -> shareOfSeeds(tray, details, block)) < EMERGED_PERCENT) {
            return;
        }
        tray.change(
                block, sowing -> sowing.stage() == Stage.GERMINATING ? tray.at(sowing, Stage.SEEDLING, time) : sowing);
    }

    /** A bare count is out of the seeds in those cells, one a cell where it is not said; 100 without a count. */
    private static double shareOfSeeds(TrayGrowing tray, Details details, CellBlock block) {
        if (details.count().isEmpty()) {
            return 100;
        }
        int seeds = tray.sowings().stream()
                .mapToInt(now -> {
                    Integer perCell = now.sowing().seedsPerCell();
                    int cells = now.block().common(block).stream()
                            .mapToInt(CellBlock::count)
                            .sum();
                    return cells * (perCell == null ? 1 : perCell);
                })
                .sum();
        return seeds == 0 ? 100 : 100.0 * details.count().getAsInt() / seeds;
    }

    private void moved(TrayGrowing tray, JournalEntry entry, Details details) {
        Optional<String> to = details.to();
        if (to.isPresent() && site.room(to.get()).isPresent()) {
            tray.move(to.get(), entry.time());
        } else if (to.isPresent() || details.mat().isEmpty()) {
            doubt(entry, to.map(room -> "there is no room named " + room).orElse("it does not say to which room"));
        }
        details.mat().ifPresent(mat -> setMat(tray, entry, mat));
    }

    private void setMat(TrayGrowing tray, JournalEntry entry, String mat) {
        if (mat.equals("none")) {
            tray.setMat(null);
        } else {
            site.mat(mat).ifPresentOrElse(tray::setMat, () -> doubt(entry, "there is no mat named " + mat));
        }
    }

    private void stage(TrayGrowing tray, JournalEntry entry, Details details, CellBlock block) {
        details.stage()
                .ifPresentOrElse(
                        stage -> tray.change(block, to(tray, stage, entry.time())),
                        () -> doubt(entry, "it names no stage; right is stage=growing-on or another stage"));
    }

    private void doubt(JournalEntry entry, String why) {
        doubts.add(new Growing.Doubt(entry, why));
    }
}
