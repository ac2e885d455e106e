package traytender.rules.judge;

public final class Findings {
    public int n;

    public void add(MoistureNow m) {
        n++;
    }
}
