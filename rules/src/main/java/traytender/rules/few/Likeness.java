package traytender.rules.few;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import traytender.config.crop.Stage;
import traytender.config.site.Cells;
import traytender.rules.view.TrayView;

/**
 * What trays must have in common for one to speak for the other: room, bench, mat, cells, medium, and what grows in them at which
 * stage. Common practice, no source. Varieties may differ.
 */
record Likeness(
        String room, @Nullable String bench, @Nullable String mat, Cells cells, String medium, Set<Growing> growing) {
    /** A crop at a stage. */
    record Growing(String crop, Stage stage) {}

    /** Empty for a tray in which nothing grows that is watched. */
    static Optional<Likeness> of(TrayView tray) {
        List<Growing> growing = tray.sowings().stream()
                .filter(one -> one.stage() != Stage.PLANTED_OUT)
                .map(one -> new Growing(one.sowing().crop(), one.stage()))
                .toList();
        return growing.isEmpty()
                ? Optional.empty()
                : Optional.of(new Likeness(
                        tray.room(),
                        tray.bench(),
                        tray.mat(),
                        tray.cells(),
                        tray.medium(),
                        growing.stream().collect(Collectors.toUnmodifiableSet())));
    }
}
