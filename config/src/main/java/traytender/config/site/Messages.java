package traytender.config.site;

/**
 * Where messages come from and how the program signs its own.
 *
 * @param prefix first level of outgoing topics and of the client id, {@code traytender} unless set
 */
public record Messages(Broker broker, String prefix) {}
