package traytender.bench;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** A Java process of a benchmark's own, with the flags of the package's own script. */
final class Child {
    private Child() {}

    /** Those that {@code bin/traytender} always gives, read from it, so that both always run alike. */
    static List<String> flags(Path program) throws IOException {
        try (Stream<String> lines = Files.lines(program.resolve("bin/traytender"))) {
            return lines.dropWhile(line -> !line.startsWith("exec "))
                    .flatMap(line -> Stream.of(line.trim().split("\\s+")))
                    .filter(word -> word.startsWith("-XX:") || word.startsWith("-Xs") || word.startsWith("-Xm"))
                    .toList();
        }
    }

    /** Starts a class of this class path; its standard error is the benchmark's own. */
    static Process start(Path program, Class<?> main, Object... arguments) throws IOException {
        return start(program, List.of(), main, arguments);
    }

    /** Runs a class to its end under the flight recorder. */
    static void recorded(Path program, Path recording, Class<?> main, Object... arguments)
            throws IOException, InterruptedException {
        numbers(start(program, List.of(recorder(recording)), main, arguments), main);
    }

    /** The flag that has the JDK's flight recorder write a recording when the program ends. */
    static String recorder(Path recording) {
        return "-XX:StartFlightRecording=dumponexit=true,settings=profile,filename=" + recording;
    }

    private static Process start(Path program, List<String> more, Class<?> main, Object... arguments)
            throws IOException {
        List<String> words =
                new ArrayList<>(List.of(ProcessHandle.current().info().command().orElse("java")));
        words.addAll(flags(program));
        words.addAll(more);
        words.addAll(List.of("-cp", System.getProperty("java.class.path"), main.getName()));
        Stream.of(arguments).map(Object::toString).forEach(words::add);
        return new ProcessBuilder(words)
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
    }

    /** Runs a class to its end and gives the numbers on its last line. */
    static double[] numbers(Path program, Class<?> main, Object... arguments) throws IOException, InterruptedException {
        return numbers(start(program, main, arguments), main);
    }

    private static double[] numbers(Process process, Class<?> main) throws IOException, InterruptedException {
        try (BufferedReader reader = process.inputReader()) {
            Optional<String> last = reader.lines().reduce((before, line) -> line);
            int status = process.waitFor();
            if (status != 0 || last.isEmpty()) {
                throw new IllegalStateException(main.getSimpleName() + " ended with status " + status);
            }
            return Stream.of(last.get().split(" "))
                    .mapToDouble(Double::parseDouble)
                    .toArray();
        }
    }

    /** Resident memory of a process in MB, as Linux tells it. */
    static double residentMb(long pid) throws IOException {
        try (Stream<String> lines = Files.lines(Path.of("/proc/" + pid + "/status"))) {
            return lines.filter(line -> line.startsWith("VmRSS:"))
                    .mapToDouble(line -> Double.parseDouble(line.replaceAll("\\D", "")) / 1_024)
                    .findFirst()
                    .orElseThrow();
        }
    }
}
