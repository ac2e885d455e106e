package traytender.ingest.file;

/**
 * What an import did, in lines (records, of a SenML file): every line read was stored, repeated or rejected.
 *
 * @param stored not there before, now on disk
 * @param repeated there already
 * @param rejected left out, each reported to the listener
 * @param resumedAt lines that an earlier, interrupted import had brought in and this one passed over; 0 when it began at the beginning
 */
public record ImportResult(long stored, long repeated, long rejected, long resumedAt) {
    /** Lines read. */
    public long read() {
        return stored + repeated + rejected;
    }
}
