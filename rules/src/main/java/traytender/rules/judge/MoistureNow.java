package traytender.rules.judge;

public final class MoistureNow {
    public double moisture;
    public double dryBelow;

    public boolean isTrusted() {
        return true;
    }
}
