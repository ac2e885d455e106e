package traytender.config.folder;

import java.util.Map;
import traytender.config.crop.LimitKey;
import traytender.config.crop.Stage;

/** Limits of one stage that cannot hold together. */
final class Contradictions {
    private Contradictions() {}

    /** Notes every contradiction, at the number that the site's own file gives; whether there was one. */
    static boolean note(String crop, Stage stage, Map<LimitKey, CropDraft.Given> given, Field stageAt) {
        var checks = new Check(crop, stage, given, stageAt);
        boolean wrong = checks.below(LimitKey.DRY_LINE, LimitKey.WET_LINE, false);
        wrong |= checks.below(LimitKey.ROOT_HOT, LimitKey.ROOT_SHUT_OFF, true);
        wrong |= checks.below(LimitKey.ROOT_TARGET_LOW, LimitKey.ROOT_TARGET_HIGH, true);
        wrong |= checks.below(LimitKey.ROOT_COLD, LimitKey.ROOT_HOT, false);
        wrong |= checks.below(LimitKey.AIR_NIGHT_COLD, LimitKey.AIR_HOT, false);
        return wrong;
    }

    private record Check(String crop, Stage stage, Map<LimitKey, CropDraft.Given> given, Field stageAt) {
        boolean below(LimitKey low, LimitKey high, boolean mayEqual) {
            CropDraft.Given lower = given.get(low);
            CropDraft.Given upper = given.get(high);
            if (lower == null || upper == null) {
                return false;
            }
            if (lower.value() < upper.value() || (mayEqual && lower.value() == upper.value())) {
                return false;
            }
            Field at = place(lower, upper);
            at.wrong(
                    crop + " " + stage.word() + ": " + low.word() + " " + Field.plain(lower.value()) + " is not below "
                            + high.word() + " " + Field.plain(upper.value()),
                    (mayEqual ? "at most " : "less than ") + Field.plain(upper.value()) + " is right for " + low.word()
                            + ", or a larger " + high.word());
            return true;
        }

        /** The built-in numbers are right among themselves: the one in the site's own file is the one to mend. */
        private Field place(CropDraft.Given lower, CropDraft.Given upper) {
            if (lower.place().file().equals(stageAt.file())) {
                return lower.place();
            }
            return upper.place().file().equals(stageAt.file()) ? upper.place() : stageAt;
        }
    }
}
