/**
 * What is known of each tray and room: small mutable states that take readings in order of event time, look at the end of each
 * minute, and can be copied. One unit is owned by one thread. Nothing is null unless marked; NaN is unknown.
 */
@NullMarked
package traytender.rules.bench;

import org.jspecify.annotations.NullMarked;
