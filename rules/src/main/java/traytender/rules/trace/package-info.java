/** What one probe read over a span of time, and how it stood to limits. Nothing is null unless marked; NaN is unknown. */
@NullMarked
package traytender.rules.trace;

import org.jspecify.annotations.NullMarked;
