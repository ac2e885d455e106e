package traytender.rules.view;

import java.time.Instant;
import traytender.config.crop.Limits;
import traytender.config.crop.Stage;
import traytender.config.site.Sowing;

/**
 * A sowing where it stands now.
 *
 * @param stageSince when it came to this stage; {@link Instant#MIN} when it began in it
 * @param limits what it is judged by
 */
public record SowingView(Sowing sowing, Stage stage, Instant stageSince, Limits limits) {}
