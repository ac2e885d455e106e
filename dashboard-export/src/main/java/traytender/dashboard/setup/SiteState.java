package traytender.dashboard.setup;

import java.util.List;
import java.util.Map;
import traytender.config.folder.SiteError;

/**
 * The site's file as it stands.
 *
 * @param version changes with every byte of it; whoever changes it says which version was seen
 * @param isBegun false while there is no file yet
 * @param keys what it says, with its own keys, as maps, lists, texts, numbers and truths
 * @param errors why the files on disk are not in force; empty when they are
 */
public record SiteState(String version, boolean isBegun, Map<?, ?> keys, List<SiteError> errors) {}
