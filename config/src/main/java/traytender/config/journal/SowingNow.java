package traytender.config.journal;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import traytender.config.crop.Limits;
import traytender.config.crop.Stage;
import traytender.config.site.CellBlock;
import traytender.config.site.Sowing;

/**
 * A sowing as it stands at some time.
 *
 * @param sowing its label; the block is where it stands on the bench at that time
 * @param stageSince when it came to its stage; {@link Instant#MIN} when it began in it
 * @param pottedUpAt when it was last potted up; null when it was not, as far as the journal tells
 * @param fedAt when it was last fed; null when it was not, as far as the journal tells
 * @param limits of its crop at its stage
 */
public record SowingNow(
        Sowing sowing,
        Stage stage,
        Instant stageSince,
        @Nullable Instant pottedUpAt,
        @Nullable Instant fedAt,
        Limits limits) {
    /** The cells it stands in, as seen from the front of the bench. */
    public CellBlock block() {
        return sowing.block();
    }

    /** Whether it still stands in the tray. */
    public boolean isWatched() {
        return stage != Stage.PLANTED_OUT;
    }
}
