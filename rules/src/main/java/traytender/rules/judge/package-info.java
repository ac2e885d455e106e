/**
 * The rules and what they compare: flat facts with every number already worked out, sentences in DRL that compare them, and
 * the findings that hold at this minute. Nothing here remembers anything from one minute to the next. Nothing is null unless
 * marked; NaN is unknown and satisfies no rule.
 */
@NullMarked
package traytender.rules.judge;

import org.jspecify.annotations.NullMarked;
