/** Thermal time: when seedlings are due. Nothing is null unless marked; NaN is unknown. */
@NullMarked
package traytender.rules.emergence;

import org.jspecify.annotations.NullMarked;
