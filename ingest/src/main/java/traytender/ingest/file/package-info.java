/**
 * Readings and journal entries from files and back into files: CSV and SenML JSON, read and written as streams, so that a
 * season's file takes no more memory than a day's. Nothing is null unless marked.
 */
@NullMarked
package traytender.ingest.file;

import org.jspecify.annotations.NullMarked;
