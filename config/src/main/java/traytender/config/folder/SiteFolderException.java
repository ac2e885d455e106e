package traytender.config.folder;

import java.util.List;
import java.util.stream.Collectors;

/** A site folder that cannot be used, with every error found in it, in order of file and place. */
public final class SiteFolderException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final transient List<SiteError> errors;

    public SiteFolderException(List<SiteError> errors) {
        super(errors.stream().map(SiteError::toString).collect(Collectors.joining("\n")));
        this.errors = List.copyOf(errors);
    }

    /** Every error, at least one. */
    public List<SiteError> errors() {
        return errors;
    }
}
