package traytender.ingest.store;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A text that a crop file of the site had from a time on.
 *
 * @param number its own for good, from 1
 * @param file its name in the folder {@code crops}
 * @param text null where there was no such file
 * @param who who changed it, in their own words
 * @param what what was changed, in words
 * @param why why, in the grower's words; empty when not said
 */
public record CropFileVersion(
        long number, String file, @Nullable String text, Instant at, String who, String what, String why) {}
