package traytender.ingest.store;

import java.nio.file.Path;
import org.junit.jupiter.api.io.TempDir;

/** The contract where every reading is sealed at once. */
class SealedReadingStoreTest extends ReadingStoreContract {
    @TempDir
    Path data;

    @Override
    ReadingStore openEmpty() {
        return SealedStores.sealing(data, 1);
    }
}
