/**
 * Messages in, from the broker to the disk: decoded, stored as a group, acknowledged, counted. What cannot be used is counted by
 * cause and topic and can be looked at. Nothing is null unless marked.
 */
@NullMarked
package traytender.ingest.intake;

import org.jspecify.annotations.NullMarked;
