package traytender.dashboard.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Assumptions;

/** A disk of a test's own, in memory, that can be filled and made read-only. Only root can have one; others leave the test out. */
record SmallDisk(Path folder) implements AutoCloseable {
    /**
     * Mounts one.
     *
     * @param size as {@code mount} writes it, such as {@code 600k}
     */
    static SmallDisk mount(Path folder, String size) throws IOException {
        Files.createDirectories(folder);
        Assumptions.assumeTrue(
                isDone("mount", "-t", "tmpfs", "-o", "size=" + size, "tmpfs", folder.toString()),
                "left out: only root may mount the small disk that this test needs");
        return new SmallDisk(folder);
    }

    private static boolean isDone(String... command) throws IOException {
        return new ProcessBuilder(command)
                        .redirectErrorStream(true)
                        .start()
                        .onExit()
                        .join()
                        .exitValue()
                == 0;
    }

    @Override
    public void close() throws IOException {
        if (!isDone("umount", "-l", folder.toString())) {
            throw new IllegalStateException(folder + " is still mounted");
        }
    }
}
