package traytender.config.site;

/**
 * How a mat can be told to rest. There is no word to heat, on purpose: the program never turns heat on.
 *
 * @param topic the MQTT topic to publish to
 * @param rest the payload that makes the mat rest
 */
public record Relay(String topic, String rest) {}
