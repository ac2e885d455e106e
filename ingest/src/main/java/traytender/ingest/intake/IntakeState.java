package traytender.ingest.intake;

import java.util.List;

/**
 * How the intake stands.
 *
 * @param isSubscribed whether the broker has confirmed that messages will come
 * @param troubles what keeps it from its work, each in one line; empty while all is well
 */
public record IntakeState(boolean isSubscribed, List<String> troubles) {
    public IntakeState {
        troubles = List.copyOf(troubles);
    }
}
