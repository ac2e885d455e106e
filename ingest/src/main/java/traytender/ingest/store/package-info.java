/**
 * Readings and the journal on disk: two SQLite databases in the site's {@code data} folder, the lock that lets one program
 * write to them, and the outbox that carries every reading on to InfluxDB. Only this package knows JDBC and InfluxDB; its
 * errors come out as {@link traytender.ingest.store.StoreException}. Nothing is null unless marked.
 */
@NullMarked
package traytender.ingest.store;

import org.jspecify.annotations.NullMarked;
