package traytender.dashboard.setup;

import java.time.Instant;

/**
 * One change of the site's file made by the page.
 *
 * @param number from 1, in order
 * @param who as written; empty when not said
 * @param what in the grower's words
 * @param after version of the file after it
 * @param isCurrent whether the file is still as this change left it, and there was one before, so that it can be taken back
 */
public record SiteChange(int number, Instant at, String who, String what, String after, boolean isCurrent) {}
