/** Whether a probe can be believed. Nothing is null unless marked; NaN is unknown. */
@NullMarked
package traytender.rules.probe;

import org.jspecify.annotations.NullMarked;
