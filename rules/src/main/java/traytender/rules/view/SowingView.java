package traytender.rules.view;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import traytender.config.crop.Limits;
import traytender.config.crop.Stage;
import traytender.config.site.Sowing;

/**
 * A sowing where it stands now.
 *
 * @param stageSince when it came to this stage; {@link Instant#MIN} when it began in it
 * @param limits what it is judged by
 * @param emergence when it is due to come up; null when it does not germinate, or it is not known
 */
public record SowingView(
        Sowing sowing,
        Stage stage,
        Instant stageSince,
        Limits limits,
        @Nullable EmergenceView emergence) {}
