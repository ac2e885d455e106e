/**
 * What is true in a simulated nursery and what a program may know of it: the episodes that must be found, the stretches in which an
 * alert counts neither way, and when each zone would cross its dry line. Everything here is worked out from the true state. Nothing is null unless marked.
 */
@NullMarked
package traytender.ingest.nursery.truth;

import org.jspecify.annotations.NullMarked;
