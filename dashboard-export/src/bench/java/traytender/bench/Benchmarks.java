package traytender.bench;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/** Measures every row of the table, one after the other, and writes it. */
public final class Benchmarks {
    /** A part of the table. */
    interface Work {
        List<Result> measure(Place place) throws Exception;
    }

    /**
     * Where it is measured.
     *
     * @param program the packaged program's folder
     * @param scratch for files that go at the end
     * @param written for what stays: the table and the profile
     * @param archive the archive of the program's classes, as the package makes one at its installation
     * @param days of the season that is replayed; 90 is the whole of it
     */
    record Place(Path program, Path scratch, Path written, Path archive, int days) {
        Path folder(String name) {
            return scratch.resolve(name);
        }
    }

    private Benchmarks() {}

    /** Arguments: the packaged program's folder, the folder to write to, and names of works to do only those. */
    public static void main(String[] arguments) throws Exception {
        Path scratch = Files.createTempDirectory("traytender-benchmarks-");
        try {
            var place = new Place(
                    Path.of(arguments[0]).toAbsolutePath(),
                    scratch,
                    Files.createDirectories(Path.of(arguments[1])),
                    scratch.resolve("classes.jsa"),
                    Integer.getInteger("benchmarks.days", 4));
            makeArchive(place);
            List<String> only = List.of(arguments).subList(2, arguments.length);
            var results = new ArrayList<Result>();
            for (Work work : works()) {
                String name = work.getClass().getSimpleName();
                if (only.isEmpty() || only.contains(name)) {
                    System.err.println("Measuring " + name);
                    results.addAll(work.measure(place));
                    // After each, so that what was measured is kept when the next one is broken off.
                    Summary.write(place.written(), results);
                }
            }
            System.out.println(Summary.table(results));
        } finally {
            remove(scratch);
        }
    }

    private static List<Work> works() {
        return List.of(
                new Starting(),
                new Taking(),
                new Alerting(),
                new Remembering(),
                new Replaying(),
                new Judging(),
                new Night(),
                new Disk(),
                new Growing(),
                new Profiling());
    }

    private static void makeArchive(Place place) throws Exception {
        String command = place.program().resolve("bin/class-archive").toString();
        int status = new ProcessBuilder(command, place.archive().toString())
                .inheritIO()
                .start()
                .waitFor();
        if (status != 0) {
            throw new IllegalStateException("no archive of classes: status " + status);
        }
    }

    private static void remove(Path folder) throws Exception {
        try (Stream<Path> files = Files.walk(folder)) {
            for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                Files.deleteIfExists(file);
            }
        }
    }
}
