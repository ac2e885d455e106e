package traytender.ingest.store;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/** Another program, or another part of this one, already writes to the site folder. */
public final class SiteInUseException extends StoreException {
    private static final long serialVersionUID = 1L;

    SiteInUseException(Path data, String holder, @Nullable Throwable cause) {
        super(
                Trouble.IN_USE,
                data + " is in use by " + (holder.isBlank() ? "another program" : "process " + holder)
                        + "; one program at a time writes to a site folder.\nMaybe stop the one that runs, then try again.",
                cause);
    }
}
