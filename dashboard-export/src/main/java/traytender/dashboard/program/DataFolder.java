package traytender.dashboard.program;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import traytender.config.folder.SiteFolder;

/** The folder that the program itself makes, as a disk that may fail. */
final class DataFolder {
    private static final Logger log = LoggerFactory.getLogger(DataFolder.class);
    private static final String TRIAL = "can-be-written";

    private DataFolder() {}

    /** Whether a new file there reaches the disk. Files that are open since before a failure may still be lost then. */
    static boolean canBeWritten(SiteFolder folder) {
        Path trial = folder.data().resolve(TRIAL);
        try (var channel = FileChannel.open(trial, StandardOpenOption.CREATE, StandardOpenOption.WRITE)) {
            channel.write(ByteBuffer.wrap(new byte[] {'\n'}));
            channel.force(true);
            Files.delete(trial);
            return true;
        } catch (IOException e) {
            log.debug("The disk cannot be written yet: {}", e.toString());
            return false;
        }
    }
}
