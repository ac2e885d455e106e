package traytender.ingest.store;

import java.nio.file.Path;
import org.junit.jupiter.api.io.TempDir;

/** The contract on a real file. */
class SqliteReadingStoreTest extends ReadingStoreContract {
    @TempDir
    Path data;

    @Override
    ReadingStore openEmpty() {
        return SqliteReadingStore.open(data, Bench.DOUBLED);
    }
}
