package traytender.ingest.broker;

import java.util.List;

/** A topic filter of MQTT 3.1.1 (section 4.7): {@code +} stands for one level, {@code #} at the end for all that follow. */
record TopicFilter(String text) {
    TopicFilter {
        List<String> levels = levels(text);
        for (int i = 0; i < levels.size(); i++) {
            String level = levels.get(i);
            boolean isRest = level.equals("#") && i == levels.size() - 1;
            boolean isPlain = level.indexOf('#') < 0 && level.indexOf('+') < 0;
            if (text.isEmpty() || !(isRest || isPlain || level.equals("+"))) {
                throw new IllegalArgumentException(text + " is no topic filter");
            }
        }
    }

    private static List<String> levels(String text) {
        return List.of(text.split("/", -1));
    }

    /** Whether the topic is among those meant. Topics that begin with $ are the broker's own and only meant by name. */
    boolean matches(String topic) {
        List<String> wanted = levels(text);
        List<String> given = levels(topic);
        if (topic.startsWith("$") && !wanted.get(0).equals(given.get(0))) {
            return false;
        }
        for (int i = 0; i < wanted.size(); i++) {
            if (wanted.get(i).equals("#")) {
                return true;
            }
            // "a/#" means "a" itself too, which has one level less.
            if (i >= given.size()
                    || !(wanted.get(i).equals("+") || wanted.get(i).equals(given.get(i)))) {
                return false;
            }
        }
        return wanted.size() == given.size();
    }

    /** Whether every topic that the other filter means is meant by this one; may say no where a closer look would say yes. */
    boolean covers(String other) {
        boolean isOpenEnded = other.endsWith("#");
        return matches(other) && (!isOpenEnded || text.endsWith("#"));
    }
}
