/**
 * What a message says: text, JSON and SenML turned into raw readings of the probes that its topic names, or refused with a
 * cause. Knows no broker and no store. Nothing is null unless marked.
 */
@NullMarked
package traytender.ingest.decode;

import org.jspecify.annotations.NullMarked;
