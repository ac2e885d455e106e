package traytender.ingest.decode;

import java.util.Locale;

/** Why a message, or a value in it, cannot be used. */
public enum Cause {
    /** Larger than {@link TopicDecoder#LARGEST} bytes. */
    TOO_LARGE,
    /** Nothing in it. */
    EMPTY,
    /** Not UTF-8. */
    NOT_UTF8,
    /** Not one JSON document. */
    NOT_JSON,
    /** JSON, but not a SenML pack as RFC 8428 has it. */
    NOT_SENML,
    /** None of the fields that the topic's probes name. */
    NO_FIELD,
    /** A field that holds no number and none of the probe's words. */
    NOT_A_NUMBER,
    /** A number beyond every number, or none: 1e400, NaN, infinity. */
    NOT_FINITE,
    /** A time that cannot be read, or from before 1970. */
    BAD_TIME,
    /** A time more than five minutes ahead. */
    FUTURE,
    /** Kept by the broker from some time before, and without a time of its own. */
    STALE;

    private final String word = name().toLowerCase(Locale.ROOT).replace('_', '-');

    /** The word used on the page and in JSON, for example {@code not-a-number}. */
    public String word() {
        return word;
    }
}
