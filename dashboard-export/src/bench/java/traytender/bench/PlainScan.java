package traytender.bench;

import java.sql.DriverManager;

/** Reads every row of the readings with plain JDBC, and nothing more: the least that whoever looks at all of them must pay. */
final class PlainScan {
    private PlainScan() {}

    /** Argument: a {@link PlainTable}. Prints seconds and processor seconds. */
    public static void main(String[] arguments) throws Exception {
        double before = Processor.seconds();
        long start = System.nanoTime();
        double sum = 0;
        try (var connection = DriverManager.getConnection("jdbc:sqlite:" + arguments[0]);
                var statement = connection.createStatement();
                var rows = statement.executeQuery("SELECT probe, time_ms, raw, marks FROM reading")) {
            while (rows.next()) {
                sum += rows.getInt(1) + rows.getLong(2) + rows.getDouble(3) + rows.getInt(4);
            }
        }
        System.err.println("Checksum " + sum);
        System.out.println((System.nanoTime() - start) / 1e9 + " " + (Processor.seconds() - before));
    }
}
