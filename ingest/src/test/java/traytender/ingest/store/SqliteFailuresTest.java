package traytender.ingest.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.InstanceOfAssertFactories.type;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.ingest.store.StoreException.Trouble;

class SqliteFailuresTest {
    @TempDir
    Path data;

    /** SQLite's own page limit gives the very error that a full disk gives (sqlite.org, "max_page_count": SQLITE_FULL). */
    @Test
    void fullDisk_isSaidSo_nothingOfTheGroupStays_andItGoesOnWithRoom() {
        try (var database = Database.open(data.resolve("readings.db"), Schema.READINGS)) {
            pragma(database, "max_page_count = 20");
            var store = SqliteReadingStore.over(database, Bench.DOUBLED);
            store.append(List.of(new RawReading("early", 1, 1, 0)));
            var group = LongStream.range(0, 50_000)
                    .mapToObj(i -> new RawReading("late", i, i, 0))
                    .toList();

            assertThatThrownBy(() -> store.append(group))
                    .asInstanceOf(type(StoreException.class))
                    .extracting(StoreException::trouble)
                    .isEqualTo(Trouble.DISK_FULL);

            assertThat(store.count()).isEqualTo(1);
            assertThat(store.latest(Bench.probe("late"))).isEmpty();
            pragma(database, "max_page_count = 100000");
            assertThat(store.append(group).stored()).isEqualTo(50_000);
            assertThat(store.latest(Bench.probe("late"))).isPresent();
        }
    }

    @Test
    void readOnlyDatabase_isSaidSo() {
        try (var database = Database.open(data.resolve("readings.db"), Schema.READINGS)) {
            pragma(database, "query_only = ON");
            var store = SqliteReadingStore.over(database, Bench.DOUBLED);

            assertThatThrownBy(() -> store.append(List.of(new RawReading("air", 1, 1, 0))))
                    .asInstanceOf(type(StoreException.class))
                    .extracting(StoreException::trouble)
                    .isEqualTo(Trouble.READ_ONLY);
        }
    }

    private static void pragma(Database database, String pragma) {
        database.write(connection -> {
            try (var statement = connection.createStatement()) {
                return statement.execute("PRAGMA " + pragma);
            }
        });
    }
}
