package traytender.ingest.nursery.world;

import java.util.Arrays;
import traytender.config.site.Cell;
import traytender.config.site.Cells;

/**
 * The plugs of one tray: water and warmth of every cell.
 *
 * <p>Water w (1 = watered through and drained):
 * {@code dw/dt = -flow * min(1, (w/knee)^falling) * (evaporation * (es(T) - e) + canopy * light * (es(Tair) - e)) - max(0, w - 1)/tau}.
 * The first part follows the medium's own temperature, so a warm centre dries faster than a cool edge; below the knee drying falls off with what
 * is left, the falling-rate stage of drying porous bodies. Tau is 20 minutes: what stands over capacity is gone within the hour. More than
 * {@value #BRIM} runs off at once. Cells do not share water: plugs stand apart.
 *
 * <p>Warmth: {@code dT/dt = air * flow * (Tair - T) + mat * footprint * (Tmat - T) + side * (mean of neighbours - T) - cooling * loss}. The
 * coefficients are our choice, set so that a plug follows the room within an hour or so, stands 1 to 2 K below the air while it
 * transpires, and 6 to 10 K above it on a mat.
 *
 * <p><b>Not thread-safe.</b>
 */
public final class Plugs {
    /** The wettest a cell can be for a moment. */
    public static final double BRIM = 1.15;

    static final double DRAUGHT_REACH = 3;
    /** What drives sun-driven leaves in full light, in kPa; our choice. */
    private static final double SUN_DRIVE = 1.1;

    private static final double DRAIN_HOURS = 20.0 / 60;
    private static final double AIR_PER_HOUR = 1.2;
    private static final double MAT_PER_HOUR = 1.9;
    private static final double SIDE_PER_HOUR = 0.5;
    private static final double COOLING_K = 110;
    private static final double SUN_K_PER_HOUR = 8;

    private final TrayTraits traits;
    private final double[] flow;
    private final double[] own;
    private final double[] warmed;
    private final double[] water;
    private final double[] heat;
    private String room;
    private double canopy;
    private int soaking;
    private double soakTo;
    private double[] kept = {};
    private double added;
    private double drained;
    private double dried;

    public Plugs(TrayTraits traits, double startWater, Noise noise) {
        this.traits = traits;
        this.room = traits.room();
        this.canopy = traits.canopy();
        Cells cells = traits.cells();
        flow = new double[cells.count()];
        own = new double[cells.count()];
        warmed = new double[cells.count()];
        water = new double[cells.count()];
        heat = new double[cells.count()];
        Arrays.fill(heat, Double.NaN);
        for (int i = 0; i < flow.length; i++) {
            int row = i / cells.columns() + 1;
            int column = i % cells.columns() + 1;
            flow[i] = 1
                    + traits.edgeFlow() * (open(row, cells.rows()) + open(column, cells.columns()))
                    + traits.habit().draught() * Math.exp((1 - column) / DRAUGHT_REACH);
            own[i] = Math.max(0.5, 1 + traits.unlike() * noise.normal(i));
            warmed[i] = traits.mat() == null ? 0 : traits.footprint().at(row, column);
            water[i] = startWater + 0.01 * noise.normal(1000 + i);
        }
    }

    private Plugs(Plugs from) {
        traits = from.traits;
        flow = from.flow;
        own = from.own;
        warmed = from.warmed;
        water = from.water.clone();
        heat = from.heat.clone();
        room = from.room;
        canopy = from.canopy;
        soaking = from.soaking;
        soakTo = from.soakTo;
        added = from.added;
        drained = from.drained;
        dried = from.dried;
    }

    Plugs copy() {
        return new Plugs(this);
    }

    void step(RoomAir air, double matSurface, double sun, double hours) {
        if (Double.isNaN(heat[0])) {
            Arrays.fill(heat, air.temperature());
        }
        double[] before = heat.clone();
        canopy *= Math.exp(traits.habit().growth() * hours / 24);
        double sunDriven = traits.habit().sunDriven();
        double deficit = Math.max(0, Vapour.saturated(air.temperature()) - air.vapour());
        double leaf = canopy * air.light() * ((1 - sunDriven) * deficit + sunDriven * SUN_DRIVE);
        for (int i = 0; i < water.length; i++) {
            double lost = dry(i, leaf, air.vapour(), hours);
            warm(i, before, air.temperature(), matSurface, sun, hours);
            heat[i] -= COOLING_K * lost / traits.habit().heaviness();
            drain(i, hours);
        }
        soak();
    }

    private double dry(int i, double leaf, double vapour, double hours) {
        double medium = traits.evaporation() * Math.max(0, Vapour.saturated(heat[i]) - vapour);
        double rate = flow[i] * own[i] * (medium + leaf) * falling(water[i]);
        double lost = Math.min(water[i], rate * hours);
        water[i] -= lost;
        dried += lost;
        return lost;
    }

    private double falling(double left) {
        if (left >= traits.knee()) {
            return 1;
        }
        double part = left / traits.knee();
        return traits.habit().falling() == 1
                ? part
                : Math.pow(part, traits.habit().falling());
    }

    private void warm(int i, double[] before, double air, double matSurface, double sun, double hours) {
        double fromAir = AIR_PER_HOUR * flow[i] * (air - before[i]);
        double fromMat = warmed[i] == 0 ? 0 : MAT_PER_HOUR * warmed[i] * (matSurface - before[i]);
        double fromSide = SIDE_PER_HOUR * (neighbours(i, before) - before[i]);
        double gain = fromAir + fromMat + fromSide + SUN_K_PER_HOUR * sun;
        heat[i] = before[i] + gain * hours / traits.habit().heaviness();
    }

    private double neighbours(int i, double[] before) {
        int columns = traits.cells().columns();
        double sum = 0;
        int count = 0;
        if (i % columns > 0) {
            sum += before[i - 1];
            count++;
        }
        if (i % columns < columns - 1) {
            sum += before[i + 1];
            count++;
        }
        if (i >= columns) {
            sum += before[i - columns];
            count++;
        }
        if (i + columns < before.length) {
            sum += before[i + columns];
            count++;
        }
        return count == 0 ? before[i] : sum / count;
    }

    private void drain(int i, double hours) {
        if (water[i] > 1) {
            double gone = (water[i] - 1) * (1 - Math.exp(-hours / DRAIN_HOURS));
            water[i] -= gone;
            drained += gone;
        }
    }

    private void soak() {
        if (soaking == 0) {
            return;
        }
        soaking--;
        for (int i = 0; i < water.length; i++) {
            give(i, 0.2 * Math.max(0, soakTo - water[i]));
        }
    }

    /**
     * Waters from above.
     *
     * @param amounts what each cell gets, as a share of capacity, row by row from the front left
     */
    public void water(double[] amounts) {
        for (int i = 0; i < water.length; i++) {
            give(i, amounts[i]);
        }
    }

    /** Stands the tray in water for half an hour; every cell draws itself full. */
    public void waterFromBelow() {
        soaking = 30;
        soakTo = 1.06;
    }

    private void give(int i, double amount) {
        double taken = Math.min(amount, Math.max(0, BRIM - water[i]));
        water[i] += taken;
        added += taken;
    }

    /** Carries the tray to another room; its mat stays behind. */
    public void moveTo(String newRoom) {
        room = newRoom;
        Arrays.fill(warmed, 0);
    }

    /** Sets how much the leaves draw; see {@link TrayTraits#canopy()}. */
    public void canopy(double perHour) {
        canopy = perHour;
    }

    /** Fresh medium in every cell, at this moisture. */
    public void refill(double moisture) {
        for (int i = 0; i < water.length; i++) {
            added += moisture - water[i];
            water[i] = moisture;
        }
    }

    void keepWater() {
        kept = water.clone();
    }

    void bringWaterBack() {
        System.arraycopy(kept, 0, water, 0, water.length);
        added = 0;
        drained = 0;
        dried = 0;
    }

    public TrayTraits traits() {
        return traits;
    }

    /** The room it stands in. */
    public String room() {
        return room;
    }

    /** Water in a cell as a share of capacity. */
    public double water(Cell cell) {
        return water[index(cell)];
    }

    /** The medium of a cell in C. */
    public double heat(Cell cell) {
        return heat[index(cell)];
    }

    /** What the cells hold together, in cells' capacities. */
    public double held() {
        return Arrays.stream(water).sum();
    }

    /** What was given since the start, less what ran off at once, in cells' capacities. */
    public double added() {
        return added;
    }

    /** What dripped out below since the start, in cells' capacities. */
    public double drained() {
        return drained;
    }

    /** What dried off since the start, in cells' capacities. */
    public double dried() {
        return dried;
    }

    private int index(Cell cell) {
        return (cell.row() - 1) * traits.cells().columns() + cell.column() - 1;
    }

    /** 1 at a border, falling by e every cell inward. */
    private static double open(int at, int of) {
        return Math.exp(1 - at) + Math.exp(at - of);
    }
}
