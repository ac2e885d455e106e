package traytender.ingest.store;

import java.nio.file.Path;
import org.junit.jupiter.api.io.TempDir;

/** The contract where sealed and open readings lie among each other. */
class HalfSealedReadingStoreTest extends ReadingStoreContract {
    @TempDir
    Path data;

    @Override
    ReadingStore openEmpty() {
        return SealedStores.sealing(data, 2);
    }
}
