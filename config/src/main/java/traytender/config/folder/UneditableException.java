package traytender.config.folder;

/** A file's text that cannot be changed in one place alone; the message is for the grower. Nothing has changed. */
public final class UneditableException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    UneditableException(String message) {
        super(message);
    }
}
