/**
 * The simulated nursery: one more source of messages, the same for the same seed, with no clock of its own. Nothing is null unless marked.
 */
@NullMarked
package traytender.ingest.nursery;

import org.jspecify.annotations.NullMarked;
