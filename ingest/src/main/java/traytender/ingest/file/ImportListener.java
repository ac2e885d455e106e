package traytender.ingest.file;

/** Hears how an import goes on, on the importing thread. */
public interface ImportListener {
    /** Hears nothing. */
    ImportListener SILENT = new ImportListener() {
        @Override
        public void progress(long doneBytes, long totalBytes) {}

        @Override
        public void rejected(long line, String reason) {}
    };

    /**
     * More of the file is on disk.
     *
     * @param doneBytes bytes of the file that are in
     * @param totalBytes bytes of the file
     */
    void progress(long doneBytes, long totalBytes);

    /**
     * A line was left out.
     *
     * @param line its number from 1; of a SenML file the record's
     * @param reason what is wrong with it, one line of text
     */
    void rejected(long line, String reason);
}
