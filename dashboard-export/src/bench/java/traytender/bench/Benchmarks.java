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
     * @param days of the season that is replayed; 90 is the whole of it
     */
    record Place(Path program, Path scratch, int days) {
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
                    Path.of(arguments[0]).toAbsolutePath(), scratch, Integer.getInteger("benchmarks.days", 4));
            List<String> only = List.of(arguments).subList(2, arguments.length);
            var results = new ArrayList<Result>();
            for (Work work : works()) {
                String name = work.getClass().getSimpleName();
                if (only.isEmpty() || only.contains(name)) {
                    System.err.println("Measuring " + name);
                    results.addAll(work.measure(place));
                }
            }
            Summary.write(Path.of(arguments[1]), results);
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
                new Growing());
    }

    private static void remove(Path folder) throws Exception {
        try (Stream<Path> files = Files.walk(folder)) {
            for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                Files.deleteIfExists(file);
            }
        }
    }
}
