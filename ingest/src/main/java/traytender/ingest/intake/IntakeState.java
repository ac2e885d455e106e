package traytender.ingest.intake;

import java.util.List;

/**
 * How the intake stands.
 *
 * @param isSubscribed whether messages will come: the broker has confirmed it and, where it is the built-in one, lets sensors in
 * @param troubles what keeps it from its work, each in one line; empty while all is well
 */
public record IntakeState(boolean isSubscribed, List<String> troubles) {
    public IntakeState {
        troubles = List.copyOf(troubles);
    }
}
