package traytender.rules.judge;

import org.junit.jupiter.api.Test;

class RulesLoadingTest {
    @Test
    void x() {
        long t = System.nanoTime();
        var s = RuleBase.session();
        var f = new Findings();
        s.setGlobal("findings", f);
        var m = new MoistureNow();
        m.moisture = 0.1;
        m.dryBelow = 0.2;
        var h = s.insert(m);
        s.fireAllRules();
        s.delete(h);
        System.out.println(f.n + " " + (System.nanoTime() - t) / 1e6);
        s.dispose();
        org.assertj.core.api.Assertions.assertThat(f.n).isEqualTo(1);
    }
}
