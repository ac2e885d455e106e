/**
 * Alerts against the truth of a simulated nursery: what was found, late, missed and false, how far forecasts were off, with confidence
 * bounds. Nothing is null unless marked.
 */
@NullMarked
package traytender.ingest.nursery.score;

import org.jspecify.annotations.NullMarked;
