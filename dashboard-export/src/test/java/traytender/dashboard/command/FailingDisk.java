package traytender.dashboard.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Assumptions;

/**
 * A disk of a test's own in a file, which the system makes read-only under the program's hands as it does after a fault of the disk. Only
 * root can have one; others leave the test out.
 */
final class FailingDisk implements AutoCloseable {
    private final Path image;
    private final Path folder;

    private FailingDisk(Path image, Path folder) {
        this.image = image;
        this.folder = folder;
    }

    /** Makes and mounts one. */
    static FailingDisk mount(Path image, Path folder) throws IOException {
        Files.createDirectories(folder);
        var disk = new FailingDisk(image, folder);
        Assumptions.assumeTrue(
                isDone("truncate", "-s", "200M", image.toString())
                        && isDone("mkfs.ext4", "-q", "-F", image.toString())
                        && disk.isMounted(image),
                "left out: only root may mount the disk that this test needs");
        return disk;
    }

    private boolean isMounted(Path image) throws IOException {
        return isDone("mount", "-o", "loop,errors=remount-ro", image.toString(), folder.toString());
    }

    Path folder() {
        return folder;
    }

    /** Everything that was written so far is on it for good; else a failure would take what a test only wrote down as its beginning. */
    void settle() throws IOException {
        if (!isDone("sync", "-f", folder.toString())) {
            throw new IllegalStateException(folder + " does not take what was written");
        }
    }

    /** It fails: nothing can be written any more, also not to files that are open. */
    void fail() throws IOException {
        if (!isDone("mount", "-o", "remount,abort", folder.toString())) {
            throw new IllegalStateException(folder + " cannot be made to fail");
        }
    }

    /**
     * What was on it goes to another one, which takes its place, as a grower's helper does with a card that is worn out. The program still has
     * files of the old one open; that one is gone when it closes them.
     */
    void replace(Path copy) throws IOException {
        if (!isDone("umount", "-l", folder.toString())
                || !isDone("cp", image.toString(), copy.toString())
                || !isMounted(copy)) {
            throw new IllegalStateException(image + " cannot be replaced by " + copy);
        }
    }

    private static boolean isDone(String... command) throws IOException {
        try {
            var process = new ProcessBuilder(command)
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .start();
            return process.onExit().join().exitValue() == 0;
        } catch (IOException noSuchProgram) {
            return false;
        }
    }

    /** Also while this test itself still has SQLite's library open there. */
    @Override
    public void close() throws IOException {
        if (!isDone("umount", "-l", folder.toString())) {
            throw new IllegalStateException(folder + " is still mounted");
        }
    }
}
