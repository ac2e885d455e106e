package traytender.ingest.nursery.world;

/**
 * A heat mat: its surface goes to the air plus its rise while it heats, with one time constant. Its thermostat switches
 * with hysteresis on the medium of one cell. What it reports is what its relay was told, which is not always what it does.
 *
 * <p><b>Not thread-safe.</b>
 */
public final class HeatMat {
    private final MatTraits traits;
    private double surface = Double.NaN;
    private boolean called;
    private boolean switchedOn = true;
    private boolean welded;
    private boolean broken;
    private boolean thermostatWorks = true;
    private double setC;

    public HeatMat(MatTraits traits) {
        this.traits = traits;
        this.setC = traits.setC();
    }

    HeatMat copy() {
        var copy = new HeatMat(traits);
        copy.surface = surface;
        copy.called = called;
        copy.switchedOn = switchedOn;
        copy.welded = welded;
        copy.broken = broken;
        copy.thermostatWorks = thermostatWorks;
        copy.setC = setC;
        return copy;
    }

    void step(double sensed, double air, double hours) {
        if (!thermostatWorks || sensed < setC - traits.bandK() / 2) {
            called = true;
        } else if (sensed > setC + traits.bandK() / 2) {
            called = false;
        }
        double from = Double.isNaN(surface) ? air : surface;
        surface = Lag.follow(from, air + (heats() ? traits.riseK() : 0), hours, traits.tauMinutes() / 60);
    }

    public MatTraits traits() {
        return traits;
    }

    /** Its surface in C. */
    public double surface() {
        return surface;
    }

    /** Whether its relay says it heats. */
    public boolean reportsHeating() {
        return switchedOn && called;
    }

    /** Whether it truly heats. */
    public boolean heats() {
        return !broken && (welded || reportsHeating());
    }

    /** What the grower does by hand at its plug. */
    public void switchedOn(boolean on) {
        switchedOn = on;
    }

    /** The contact sticks: it heats whatever it is told. */
    public void welded(boolean sticks) {
        welded = sticks;
    }

    /** The element breaks: it never heats. */
    public void broken(boolean dead) {
        broken = dead;
    }

    /** The thermostat no longer rests it, and says so: heating is called for without end. */
    public void thermostat(boolean works) {
        thermostatWorks = works;
    }

    /** Turns the thermostat. */
    public void setTo(double celsius) {
        setC = celsius;
    }
}
