/**
 * Simulated probes: what a true state looks like through a cheap instrument with its errors and faults, and how that is put into
 * messages. Nothing is null unless marked.
 */
@NullMarked
package traytender.ingest.nursery.probe;

import org.jspecify.annotations.NullMarked;
