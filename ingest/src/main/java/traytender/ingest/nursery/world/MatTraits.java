package traytender.ingest.nursery.world;

/**
 * What a heat mat is like.
 *
 * @param room the room it lies in
 * @param riseK how far above the air its surface comes when always on, in K
 * @param setC the thermostat's middle, in the medium of {@code sensorTray}'s centre, in C
 * @param bandK the thermostat's whole band (hysteresis), in K
 * @param sensorTray the tray the thermostat's sensor is in
 * @param tauMinutes the surface's time constant
 */
public record MatTraits(
        String id, String room, double riseK, double setC, double bandK, String sensorTray, double tauMinutes) {
    private static final double COMMON_TAU = 25;

    /** A mat of common thickness (time constant 25 minutes, our choice). */
    public MatTraits(String id, String room, double riseK, double setC, double bandK, String sensorTray) {
        this(id, room, riseK, setC, bandK, sensorTray, COMMON_TAU);
    }
}
