package traytender.config.site;

/**
 * Where the site lies, for sun and frost.
 *
 * @param latitude degrees north, -90..90
 * @param longitude degrees east, -180..180
 */
public record Location(double latitude, double longitude) {}
